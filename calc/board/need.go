package board

import (
	"context"
	"math"
	"math/big"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/layout"
	"seamwright/calc/length"
	"seamwright/calc/survey"
)

// need is the least that the panels of one zone take of their product, over every lawful layout of the zone.
type need struct {
	product int      // index into the job's products
	area    *big.Int // square nanometres
	// weights are the least sums of worth under each pair of scales: for any pair the sheets hold at least that much.
	weights []int64
}

// needOf finds the least need of a zone. all are its schemes as if it kept clear of nothing else, among which the lawful
// ones are; nil where these are not listed: then only the area is known.
func (s *search) needOf(z *survey.Zone, all []*layout.Scheme) *need {
	n := &need{product: s.productIndex(z.Product), area: leastCover(z, &s.job.Rules)}
	p := s.products[n.product]
	n.weights = make([]int64, p.scales.pairs())
	flat := areaShare(n.area, p.product, &s.job.Rules)
	if countable(p.product, z, &s.job.Rules, all) {
		w := weigher{ctx: s.ctx, scales: p.scales, zone: z, rules: &s.job.Rules, sizes: map[layout.Size][]int64{}, flat: flat}
		n.weights = w.least(all)
	}
	n.weights[0] = max(n.weights[0], flat)
	return n
}

// countable tells whether the pieces of all lawful ways of lining a zone can be weighed by their sizes: not where two may
// share a rectangle.
func countable(p *job.Product, z *survey.Zone, rules *job.Rules, all []*layout.Scheme) bool {
	return all != nil && layout.Complete(all) && (p.Kind == job.Gypsum || p.Gap <= p.Kerf) && !(rules.Rakes == job.RakesPaired && slanted(z))
}

// slanted tells whether a zone's outline has an edge that is neither level nor upright.
func slanted(z *survey.Zone) bool {
	for i, p := range z.Outline {
		if q := z.Outline[(i+1)%len(z.Outline)]; p.X != q.X && p.Y != q.Y {
			return true
		}
	}
	return false
}

// areaShare is an area as a share of the most that one sheet covers, in one².
func areaShare(a *big.Int, p *job.Product, rules *job.Rules) int64 {
	most := mostCovered(p, rules)
	if most.Sign() == 0 {
		return 0
	}
	v := new(big.Int).Mul(a, big.NewInt(one*one))
	return v.Div(v, most).Int64()
}

// weigher finds the least weights of one zone.
type weigher struct {
	ctx context.Context
	*scales
	zone  *survey.Zone
	rules *job.Rules
	sizes map[layout.Size][]int64
	slab  []int64 // room for more weights
	flat  int64
}

// weightsAtOnce is how many weights are made room for at a time: those of a dozen sizes.
const weightsAtOnce = 1 << 12

// none marks a place from which no lawful way leads on.
const none = math.MaxInt64

// least is the least under every pair by itself, over all schemes and all ways of covering their rows. Rows are taken by
// themselves, as if their end joints need not keep clear of each other.
func (w *weigher) least(all []*layout.Scheme) []int64 {
	best := make([]int64, w.pairs())
	for i := range best {
		best[i] = none
	}
	upright := false
	for _, sc := range all {
		if sc.Run == job.RunAlong {
			upright = true
			continue
		}
		sum := make([]int64, w.pairs())
		for r := range sc.Rows {
			if w.ctx.Err() != nil {
				return make([]int64, w.pairs()) // what comes of it is not kept
			}
			w.row(sc, r, sum)
		}
		lower(best, sum)
	}
	if upright {
		lower(best, w.upright())
	}
	return best
}

func lower(best, v []int64) {
	for i := range best {
		best[i] = min(best[i], v[i])
	}
}

// row adds the least weights of one row.
func (w *weigher) row(sc *layout.Scheme, r int, sum []int64) {
	if sc.Anywhere(r) {
		for _, c := range sc.Covers(r) {
			w.cover(c, sum)
		}
		return
	}
	// Nothing is known of a row that no sheet for sale covers.
	w.leastWay(sc.Steps(r), sum)
}

// leastWay adds the least weights of a way along a row; not ok where there is none. Where all pieces of the row are
// equally wide, what they weigh across the sheet counts for the way as a whole.
func (w *weigher) leastWay(steps [][]layout.Step, sum []int64) (ok bool) {
	z, even := oneWidth(steps)
	if !even {
		best := w.ahead(steps)[0]
		for k, v := range best {
			sum[k] += v
		}
		return best != nil
	}
	lengths := map[length.Length][]int64{}
	best := ahead(steps, len(w.along), func(z layout.Size, way []int64) {
		vs, ok := lengths[z.L]
		if !ok {
			vs = w.room(len(w.along))
			for k, f := range w.along {
				vs[k] = f.at(int64(z.L) + w.kerf)
			}
			lengths[z.L] = vs
		}
		for k, v := range vs {
			way[k] += v
		}
	})[0]
	for n, g := range w.across {
		gw := g.across(int64(z.W)+w.kerf, z.Tapers)
		for k, v := range best {
			sum[n*len(w.along)+k] += v * gw
		}
	}
	return best != nil
}

// oneWidth is the width, with its tapered edges, of all pieces of a row; not ok where they differ or may be turned.
func oneWidth(steps [][]layout.Step) (z layout.Size, ok bool) {
	first := true
	for _, from := range steps {
		for _, st := range from {
			for _, s := range st.Sizes {
				if s.Turn || !first && (s.W != z.W || s.Tapers != z.Tapers) {
					return z, false
				}
				z, first = s, false
			}
		}
	}
	return z, !first
}

// ahead is the least weight under every pair from every place of a row to its end; nil where no way leads there.
func (w *weigher) ahead(steps [][]layout.Step) [][]int64 {
	return ahead(steps, w.pairs(), func(z layout.Size, way []int64) {
		for k, v := range w.size(z) {
			way[k] += v
		}
	})
}

// ahead is the least of each of n weights from every place of a row to its end; add adds those of a piece.
func ahead(steps [][]layout.Step, n int, add func(z layout.Size, way []int64)) [][]int64 {
	best := make([][]int64, len(steps))
	last := len(steps) - 1
	slab := make([]int64, (len(steps)+1)*n)
	best[last], slab = slab[:n:n], slab[n:]
	way, slab := slab[:n:n], slab[n:]
	for i := last - 1; i >= 0; i-- {
		for _, st := range steps[i] {
			if best[st.To] == nil {
				continue
			}
			copy(way, best[st.To])
			for _, z := range st.Sizes {
				add(z, way)
			}
			if best[i] == nil {
				best[i], slab = slab[:n:n], slab[n:]
				copy(best[i], way)
			} else {
				lower(best[i], way)
			}
		}
	}
	return best
}

// size is the weight of a piece under every pair.
func (w *weigher) size(z layout.Size) []int64 {
	v, ok := w.sizes[z]
	if !ok {
		v = w.room(w.pairs())
		w.weigh(z, v)
		w.sizes[z] = v
	}
	return v
}

// room is a list of n zeros.
func (w *weigher) room(n int) (v []int64) {
	if len(w.slab) < n {
		w.slab = make([]int64, weightsAtOnce)
	}
	v, w.slab = w.slab[:n:n], w.slab[n:]
	return v
}

// upright is the least over all sets of upright courses, whose end joints may stand anywhere.
func (w *weigher) upright() []int64 {
	area := make([]int64, w.pairs())
	area[0] = w.flat
	strips, ok := layout.Strips(w.zone, w.rules)
	if !ok {
		return area
	}
	best := make([][]int64, len(strips))
	last := len(strips) - 1
	best[last] = make([]int64, w.pairs())
	way := make([]int64, w.pairs())
	for i := last - 1; i >= 0; i-- {
		for _, st := range strips[i] {
			if best[st.To] == nil {
				continue
			}
			copy(way, best[st.To])
			for _, c := range st.Covers {
				w.cover(c, way)
			}
			if best[i] == nil {
				best[i] = slices.Clone(way)
			} else {
				lower(best[i], way)
			}
		}
	}
	if best[0] == nil {
		return area
	}
	return best[0]
}

// of picks the needs of one product.
func of(needs []*need, product int) (mine []*need) {
	for _, n := range needs {
		if n != nil && n.product == product {
			mine = append(mine, n)
		}
	}
	return mine
}
