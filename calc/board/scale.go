package board

import (
	"seamwright/calc/job"
	"seamwright/calc/layout"
	"seamwright/calc/length"
)

// one is what a whole side of the largest sheet is worth on any scale; a whole sheet is worth one².
const one = 1 << 22

// scale exchanges a size along one side of a sheet for a worth, so that sizes which fit side by side never sum to more
// than the worth of the side: a dual feasible function. All are superadditive and never fall, so a piece on hand is
// worth no more than its own size. They are rounded down to whole numbers, which keeps that. The families are those of
// Martello & Toth 1990 (lift), Fekete & Schepers 2001 (step) and Carlier, Clautiaux & Moukrim 2007 (round), cited from
// memory.
type scale struct {
	kind scaleKind
	side int64 // of the largest sheet, a kerf larger
	by   int64 // parameter
}

type scaleKind uint8

const (
	plain scaleKind = iota // the size itself
	lift                   // what leaves less than by beside it counts as the whole side, what is less than by as nothing
	step                   // whole steps of side/(by+1)
	round                  // whole multiples of by: rounded down below half the side, the rest of the side above
	edges                  // across the sheet: tapered edges, of which there are two; see across
)

func (s scale) at(x int64) int64 {
	switch {
	case x <= 0:
		return 0
	case x >= s.side:
		return one
	}
	switch s.kind {
	case lift:
		switch {
		case x > s.side-s.by:
			return one
		case x < s.by:
			return 0
		}
	case step:
		if n := (s.by + 1) * x; n%s.side != 0 {
			return n / s.side * one / s.by
		}
	case round:
		whole := s.side / s.by
		n := whole // half the side
		if 2*x < s.side {
			n = 2 * (x / s.by)
		} else if 2*x > s.side {
			n = 2 * (whole - (s.side-x)/s.by)
		}
		return n * one / (2 * whole)
	}
	return portion(x, s.side)
}

// portion is x/side of one, rounded down. Sides stay below 2^41.
func portion(x, side int64) int64 { return x * one / side }

// across is the worth of a width that asks for tapered edges. Counted by edges, what is narrower than by is worth
// nothing and what leaves less than by beside it a whole side; of all others that lie side by side at most two have a
// tapered edge.
func (s scale) across(x int64, tapers int) int64 {
	if s.kind != edges {
		return s.at(x)
	}
	switch {
	case x > s.side-s.by:
		return one
	case x < s.by:
		return 0
	}
	return int64(min(tapers, 2)) * one / 2
}

// scales are the pairs of functions that the pieces of one product are weighed by. They depend on the product
// and the rules alone, so that what zones need can be summed over a building.
type scales struct {
	kerf   int64
	along  []scale
	across []scale
}

// marks are the parameters of lift and round in steps of a member space's half: 8 in, or 200 mm for metric sheets.
const (
	markInch   = 8 * length.Inch
	markMetric = 200 * length.Millimetre
)

// newScales lists the functions for a product. A piece on hand may be larger than any sheet that can be bought now: then
// the scales go by its sides, since it would be worth less than it holds on shorter ones.
func newScales(p *job.Product, rules *job.Rules, stock []job.Stock) *scales {
	s := &scales{kerf: int64(p.Kerf)}
	var l, w length.Length
	for _, z := range p.Sizes {
		l, w = max(l, z.Length), max(w, z.Width)
	}
	for _, st := range stock {
		if st.Product == p.ID && st.Count > 0 {
			l, w = max(l, st.Length), max(w, st.Width)
		}
	}
	mark := markInch
	if l%length.Inch != 0 {
		mark = markMetric
	}
	L, W := int64(l)+s.kerf, int64(w)+s.kerf
	s.along = []scale{{kind: plain, side: L}}
	for m := int64(mark); 2*m <= L; m += int64(mark) {
		s.along = append(s.along, scale{lift, L, m})
	}
	for k := int64(1); k <= 4; k++ {
		s.along = append(s.along, scale{step, L, k})
	}
	for _, m := range []int64{2, 3, 4} {
		if k := m*int64(mark) + s.kerf; 2*k <= L {
			s.along = append(s.along, scale{round, L, k})
		}
	}
	s.across = []scale{{kind: plain, side: W}}
	if p.Tapered {
		for _, m := range []int64{1, int64(rules.LeastCourse - 2*rules.Fit), W / 4, W / 2} {
			s.across = append(s.across, scale{edges, W, max(1, m)})
		}
	}
	for _, part := range []int64{8, 6, 4, 3} {
		s.across = append(s.across, scale{lift, W, W / part})
	}
	for k := int64(1); k <= 3; k++ {
		s.across = append(s.across, scale{step, W, k})
	}
	return s
}

// pairs is how many weights a piece has.
func (s *scales) pairs() int { return len(s.along) * len(s.across) }

// weigh adds the weight of a piece under every pair to a list.
func (s *scales) weigh(z layout.Size, sum []int64) {
	l, w := int64(z.L)+s.kerf, int64(z.W)+s.kerf
	turn := z.Turn && z.Tapers == 0 && w <= s.along[0].side && l <= s.across[0].side
	straight := l <= s.along[0].side && w <= s.across[0].side
	k := 0
	for _, g := range s.across {
		gw, gl := g.across(w, z.Tapers), g.across(l, 0)
		for _, f := range s.along {
			v := f.at(l) * gw
			if turn {
				if t := f.at(w) * gl; !straight || t < v {
					v = t
				}
			}
			sum[k] += v
			k++
		}
	}
}

// cover adds the least weight under every pair of pieces that cover a stretch, however it is parted along. Only the
// size itself loses nothing by parting, so only the pairs with it along the sheet gain.
func (s *scales) cover(c layout.Cover, sum []int64) {
	w := int64(c.Size.W) + s.kerf
	long := portion(int64(c.Long), s.along[0].side)
	for n, g := range s.across {
		v := long * g.across(w, c.Size.Tapers)
		if c.Size.Turn && c.Size.Tapers == 0 {
			// Lying across the sheet, it takes up its own width along the sheet, and g of its length, parted as one likes.
			t := int64(0)
			if g.kind == plain {
				t = portion(w, s.along[0].side) * portion(int64(c.Long), g.side)
			}
			v = min(v, t)
		}
		sum[n*len(s.along)] += v
	}
}

// holds is what the pieces cut from a piece on hand are worth at most, under every pair; rounded up.
func (s *scales) holds(st job.Stock, tapers int8, sum []int64) {
	l, w := int64(st.Length)+s.kerf, int64(st.Width)+s.kerf
	k := 0
	for _, g := range s.across {
		gw := g.across(w, int(tapers))
		for _, f := range s.along {
			sum[k] += int64(st.Count) * (f.at(l) + 1) * (gw + 1)
			k++
		}
	}
}
