package board

import (
	"cmp"
	"context"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/layout"
	"seamwright/calc/length"
	"seamwright/calc/survey"
)

// Work budgets of the search of one group, in tallies. They are counts of work, never time, so that every machine
// finds the same plan.
const (
	choiceLimit = 48  // lawful sets of end joints kept for one row
	passes      = 6   // rounds of improvement over all rows
	zoneTallies = 100 // tallies in one group, for each of its zones
	smallRows   = 8   // rows up to which all layouts are gone through
)

// search is the joint search of one group of zones: which scheme each takes, and which end joints each row.
type search struct {
	ctx      context.Context
	job      *job.Job
	rates    rates
	aim      job.Aim
	products []*productState
	zones    []*zoneState
	fixed    int // zones before this one are settled
	tallies  int
	budget   int
	joints   jointLengths
	breaks   int
	pieces   int
	prepared map[preparedKey]*zoneState
}

// preparedKey is a zone and a hash of the lines that it keeps clear of.
type preparedKey struct {
	zone  *survey.Zone
	lines key
}

func newSearch(ctx context.Context, j *job.Job, stock []job.Stock) *search {
	s := &search{ctx: ctx, job: j, rates: newRates(j), prepared: map[preparedKey]*zoneState{}}
	for i := range j.Products {
		p := &j.Products[i]
		var mine []job.Stock
		for _, st := range stock {
			if st.Product == p.ID && st.Count > 0 {
				mine = append(mine, st)
			}
		}
		s.products = append(s.products, &productState{product: p, quick: newQuick(p, mine), index: map[layout.Size]int32{}, known: [2]map[uint64]tally{{}, {}}, stale: true})
	}
	return s
}

func (s *search) productIndex(p *job.Product) int {
	return slices.IndexFunc(s.products, func(q *productState) bool { return q.product.ID == p.ID })
}

// restart empties the search for another aim; what has been prepared stays.
func (s *search) restart(aim job.Aim) {
	for _, z := range s.zones {
		s.enter(z, -1)
	}
	s.zones, s.fixed, s.aim, s.tallies = nil, 0, aim, 0
}

// prepare lists the schemes and choices of one zone, once for all aims, and picks a first one.
func (s *search) prepare(z *survey.Zone, avoid []layout.Line) *zoneState {
	w := newWriter()
	w.lines(avoid)
	k := preparedKey{z, w.sum()}
	zs, ok := s.prepared[k]
	if !ok {
		zs = s.list(z, avoid)
		s.prepared[k] = zs
	}
	zs.cur, zs.pick = 0, slices.Clone(zs.schemes[0].start)
	return zs
}

// list finds the schemes of a zone and the choices of their rows.
func (s *search) list(z *survey.Zone, avoid []layout.Line) *zoneState {
	zs := &zoneState{zone: z, product: s.productIndex(z.Product)}
	p := s.products[zs.product]
	prices := s.prices(p)
	zs.all = layout.Schemes(z, &s.job.Rules, avoid)
	for _, l := range s.promising(p, zs.all, prices) {
		sc := &schemeState{Scheme: l, stag: l.Stagger(), whole: true, breaks: len(l.Breaks)}
		sc.long.tapered, sc.long.mixed, sc.long.butt = l.LongJoints()
		for r := range l.Rows {
			cs, complete := l.Choices(r, prices, choiceLimit)
			sc.whole = sc.whole && complete
			sc.breaks += len(l.Rows[r].Breaks)
			if len(cs) == 0 {
				sc.breaks += uncoverable
			}
			row := make([]choice, len(cs))
			for i := range cs {
				row[i] = choice{Choice: cs[i]}
				for _, pc := range cs[i].Pieces {
					row[i].wants = append(row[i].wants, p.sizeIndex(pc.Size))
				}
			}
			sc.rows = append(sc.rows, row)
		}
		zs.schemes = append(zs.schemes, sc)
	}
	for k, sc := range zs.schemes {
		zs.cur, zs.pick = k, make([]int, len(sc.rows))
		s.first(zs, sc)
		sc.start = slices.Clone(zs.pick)
	}
	return zs
}

// schemesKept is how many schemes of a zone the search looks into.
const schemesKept = 4

// promising keeps the schemes that break fewest rules, and of these the ones that look cheapest when every row is cut
// as it would be alone; the one with the least butt joint is always among them.
func (s *search) promising(p *productState, all []*layout.Scheme, prices []layout.Prices) []*layout.Scheme {
	type look struct {
		scheme *layout.Scheme
		breaks int
		cost   int64
		butt   length.Length
	}
	looks := make([]look, len(all))
	for i, l := range all {
		tapered, mixed, butt := l.LongJoints()
		k := look{scheme: l, breaks: len(l.Breaks), butt: mixed + butt}
		k.cost = int64(float64(tapered)*s.rates.tapered + float64(mixed+butt)*s.rates.butt)
		for r := range l.Rows {
			k.breaks += len(l.Rows[r].Breaks)
			cs, _ := l.Choices(r, prices[:1], 1)
			if len(cs) == 0 {
				k.breaks += uncoverable
				continue
			}
			k.butt += cs[0].Butt
			k.cost += prices[0].Butt(cs[0].Butt)
			for _, pc := range cs[0].Pieces {
				k.cost += prices[0].Piece(pc.Size)
			}
		}
		looks[i] = k
	}
	slices.SortStableFunc(looks, func(a, b look) int { return cmp.Or(cmp.Compare(a.breaks, b.breaks), cmp.Compare(a.cost, b.cost)) })
	straight := slices.MinFunc(looks, func(a, b look) int { return cmp.Or(cmp.Compare(a.breaks, b.breaks), cmp.Compare(a.butt, b.butt)) })
	kept := looks[:min(len(looks), schemesKept)]
	var schemes []*layout.Scheme
	for _, k := range kept {
		schemes = append(schemes, k.scheme)
	}
	if !slices.Contains(schemes, straight.scheme) {
		schemes = append(schemes, straight.scheme)
	}
	return schemes
}

// uncoverable weighs a row that no sheet for sale can cover: it counts as this many broken rules.
const uncoverable = 100

// first picks for every row in turn the earliest choice that clashes least with the rows picked before.
func (s *search) first(zs *zoneState, sc *schemeState) {
	done := make([]bool, len(sc.rows))
	for r := range sc.rows {
		bestClash := 1 << 30
		for c := range sc.rows[r] {
			n := 0
			for _, k := range sc.Near[r] {
				if done[k] && len(sc.rows[k]) > 0 && layout.Clash(sc.rows[r][c].Seams, sc.rows[k][zs.pick[k]].Seams, sc.stag) {
					n++
				}
			}
			if n < bestClash {
				bestClash, zs.pick[r] = n, c
			}
			if n == 0 {
				break
			}
		}
		done[r] = true
	}
}

// prices are several ways to value pieces, so that the choices kept are of different kinds: by area, by how many of a
// piece a sheet gives, and by the mean of both.
func (s *search) prices(p *productState) []layout.Prices {
	best := make(map[layout.Size][2]int64)
	of := func(z layout.Size) [2]int64 {
		if v, ok := best[z]; ok {
			return v
		}
		var v [2]int64
		for _, sh := range p.quick.sheets {
			l, w := z.L+p.quick.kerf, z.W+p.quick.kerf
			if l > sh.l || w > sh.w {
				continue
			}
			cost := float64(max(1, sh.cost))
			area := int64(cost * float64(l) * float64(w) / (float64(sh.l) * float64(sh.w)))
			share := int64(cost / float64(int64(sh.l/l)*int64(sh.w/w)))
			if v[0] == 0 || area < v[0] {
				v[0] = area
			}
			if v[1] == 0 || share < v[1] {
				v[1] = share
			}
		}
		best[z] = v
		return v
	}
	piece := s.rates.piece
	butt := func(l length.Length) int64 { return int64(float64(l)*s.rates.butt) + int64(l/length.Inch) }
	return []layout.Prices{
		{Piece: func(z layout.Size) int64 { v := of(z); return (v[0]+v[1])/2 + piece }, Butt: butt},
		{Piece: func(z layout.Size) int64 { return of(z)[0] + piece }, Butt: func(l length.Length) int64 { return 4 * butt(l) }},
		{Piece: func(z layout.Size) int64 { return of(z)[1] + piece }, Butt: butt},
	}
}

// improve changes one row, one pair of adjoining rows or one zone's scheme at a time, as long as that makes the value
// less, for the zones not yet settled.
func (s *search) improve() (value, error) {
	for _, p := range s.products {
		p.quick.warm = 0
		p.forget()
	}
	best := s.evaluate()
	for _, p := range s.products {
		p.quick.warm = 1
	}
	s.budget = s.tallies + zoneTallies*(len(s.zones)-s.fixed)
	for pass := 0; pass < passes; pass++ {
		before := best
		for _, z := range s.zones[s.fixed:] {
			if err := s.ctx.Err(); err != nil {
				return best, err
			}
			best = s.improveScheme(z, best)
			best = s.improveRows(z, best)
		}
		if best.compare(before) == 0 || s.tallies > s.budget {
			break
		}
	}
	return best, nil
}

func (s *search) improveScheme(z *zoneState, best value) value {
	for k := range z.schemes {
		if k == z.cur || s.tallies > s.budget {
			continue
		}
		old, oldPick := z.cur, z.pick
		s.enter(z, -1)
		z.cur, z.pick = k, slices.Clone(z.schemes[k].start)
		s.enter(z, 1)
		if v, ok := s.beats(best, false); ok {
			best = v
			continue
		}
		s.enter(z, -1)
		z.cur, z.pick = old, oldPick
		s.enter(z, 1)
	}
	return best
}

// move changes the pick of one row.
func (s *search) move(z *zoneState, row, pick int) {
	sc := z.schemes[z.cur]
	p := s.products[z.product]
	s.breaks -= z.clashes(sc, row, z.pick[row])
	s.count(p, &sc.rows[row][z.pick[row]], -1)
	z.pick[row] = pick
	s.count(p, &sc.rows[row][pick], 1)
	s.breaks += z.clashes(sc, row, pick)
}

func (s *search) improveRows(z *zoneState, best value) value {
	sc := z.schemes[z.cur]
	for r := range sc.rows {
		for c := range sc.rows[r] {
			if s.tallies > s.budget {
				return best
			}
			old := z.pick[r]
			if c == old || sameWants(&sc.rows[r][c], &sc.rows[r][old]) && z.clashes(sc, r, c) >= z.clashes(sc, r, old) {
				continue
			}
			if z.clashes(sc, r, c) <= z.clashes(sc, r, old) {
				s.move(z, r, c)
				if v, ok := s.beats(best, false); ok {
					best = v
					continue
				}
				s.move(z, r, old)
			}
			best = s.improvePair(z, r, c, best)
		}
	}
	return best
}

// improvePair moves one row and, with it, one adjoining row that would clash.
func (s *search) improvePair(z *zoneState, r, c int, best value) value {
	sc := z.schemes[z.cur]
	for _, k := range sc.Near[r] {
		if len(sc.rows[k]) == 0 || !layout.Clash(sc.rows[r][c].Seams, sc.rows[k][z.pick[k]].Seams, sc.stag) {
			continue
		}
		old, oldK := z.pick[r], z.pick[k]
		s.move(z, r, c)
		// The second row can seldom mend what the first makes dearer.
		if _, ok := s.beats(best, true); !ok {
			s.move(z, r, old)
			return best
		}
		tried := 0
		for d := range sc.rows[k] {
			if z.clashes(sc, k, d) > 0 || d == oldK {
				continue
			}
			s.move(z, k, d)
			if v, ok := s.beats(best, false); ok {
				return v
			}
			s.move(z, k, oldK)
			if tried++; tried == pairTries {
				break
			}
		}
		s.move(z, r, old)
		return best
	}
	return best
}

// pairTries bounds how many picks of the second row a pair move tries.
const pairTries = 4

func sameWants(a, b *choice) bool { return a.Butt == b.Butt && slices.Equal(a.wants, b.wants) }
