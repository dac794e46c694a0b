package board

import (
	"cmp"
	"math"
	"slices"
	"sync"

	"seamwright/calc/layout"
	"seamwright/calc/length"
	"seamwright/calc/survey"
)

// listing is what is known of one zone before it is planned together with others: the schemes worth looking into, with
// the choices of their rows, and the least that the zone needs. It is never changed, so plans and memo share it.
type listing struct {
	schemes []*listed
	starts  [starts]int      // places in schemes: the best of each of the ways that they are kept by
	all     []*layout.Scheme // those that the search leaves aside too; nil where it keeps clear of joints elsewhere
	need    *need
}

// listed is one scheme with the choices of its rows and what does not depend on them. The choices are listed when the
// scheme is first looked into.
type listed struct {
	*layout.Scheme
	once   sync.Once
	rows   [][]layout.Choice
	starts [][]int      // first picks for every row: the cheapest, and those of least end joint
	breaks int          // the weight of the rules that the scheme breaks whatever its picks
	long   jointLengths // of the long joints
	stag   length.Length
}

// list finds the schemes of a zone. It reads the search and changes nothing of it, so that zones may be listed at the
// same time.
func (s *search) list(z *survey.Zone, avoid []layout.Line, bound bool) *listing {
	all := layout.Schemes(s.ctx, z, &s.job.Rules, avoid)
	l := &listing{}
	schemes, first := s.promising(z, all, s.prices(z))
	for _, scheme := range schemes {
		l.schemes = append(l.schemes, &listed{Scheme: scheme})
	}
	l.starts = first
	if !bound {
		all = nil
	}
	l.all, l.need = all, s.needOf(z, all)
	return l
}

// choose lists the choices of the schemes that the search looks into.
func (s *search) choose(z *survey.Zone, l *listing) {
	prices := s.prices(z)
	for _, sc := range s.lookedInto(l) {
		sc.once.Do(func() { sc.choose(prices) })
	}
}

// lookedInto are the schemes that the effort reaches.
func (s *search) lookedInto(l *listing) []*listed {
	return l.schemes[:min(len(l.schemes), s.budget.schemes)]
}

func (sc *listed) choose(prices []layout.Prices) {
	sc.stag, sc.breaks = sc.Stagger(), layout.Weigh(sc.Breaks)
	sc.long.tapered, sc.long.mixed, sc.long.butt = sc.LongJoints()
	for r := range sc.Rows {
		cs, _ := sc.Choices(r, prices, choiceLimit)
		sc.breaks += sc.Rows[r].Weight
		if len(cs) == 0 {
			sc.breaks += layout.Uncoverable
		}
		sc.rows = append(sc.rows, cs)
	}
	sc.part(prices[0])
	for _, byJoint := range []bool{false, true} {
		if picks := sc.first(byJoint); len(sc.starts) == 0 || !slices.Equal(picks, sc.starts[0]) {
			sc.starts = append(sc.starts, picks)
		}
	}
}

// part adds choices where those listed stand in each other's way: ones that keep clear of what the rows around are given,
// and, where a row has none of these, ones with a piece shorter than asked, which is the lighter breach.
func (sc *listed) part(prices layout.Prices) {
	picks := sc.first(false)
	for _, r := range sc.clashing(picks) {
		var seams []length.Length
		for _, k := range sc.Near[r] {
			if len(sc.rows[k]) > 0 {
				seams = append(seams, sc.rows[k][picks[k]].Seams...)
			}
		}
		if c, ok := sc.Apart(r, prices, seams); ok {
			picks[r] = len(sc.rows[r])
			sc.rows[r] = append(sc.rows[r], c)
		}
	}
	for _, r := range sc.clashing(picks) {
		sc.rows[r] = append(sc.rows[r], sc.Loosened(r, prices, choiceLimit)...)
	}
}

// clashing are the rows whose picks stand in each other's way.
func (sc *listed) clashing(picks []int) (rows []int) {
	for r := range sc.rows {
		if len(sc.rows[r]) > 0 && slices.ContainsFunc(sc.Near[r], func(k int) bool {
			return len(sc.rows[k]) > 0 && layout.Clash(sc.rows[r][picks[r]].Seams, sc.rows[k][picks[k]].Seams, sc.stag)
		}) {
			rows = append(rows, r)
		}
	}
	return rows
}

// schemesKept is how many schemes of a zone are kept of those that look best, in each of four ways.
const schemesKept = 3

// starts are the ways that schemes are kept by; the search may begin at the best of each.
const starts = 4

// look is how a scheme looks when every row is cut as it would be alone.
type look struct {
	scheme *layout.Scheme
	breaks int
	cost   int64
	butt   length.Length
}

func (l look) before(o look) int {
	return cmp.Or(cmp.Compare(l.breaks, o.breaks), cmp.Compare(l.cost, o.cost))
}

// promising keeps the schemes whose breaches of rules weigh least, and of these the ones that look cheapest in material and
// with own time, few pieces and little joint, and those with the least butt joint, by turns, and one of each direction.
func (s *search) promising(z *survey.Zone, all []*layout.Scheme, prices []layout.Prices) (schemes []*layout.Scheme, first [starts]int) {
	keep := func(k look) {
		if !slices.Contains(schemes, k.scheme) {
			schemes = append(schemes, k.scheme)
		}
	}
	material := s.looks(z, all, prices[0], func(c charge) int64 { return c.money })
	worked := s.looks(z, all, prices[1], s.usually)
	whole := s.looks(z, all, prices[3], s.usually)
	straight := slices.Clone(worked)
	slices.SortStableFunc(straight, func(a, b look) int { return cmp.Or(cmp.Compare(a.breaks, b.breaks), cmp.Compare(a.butt, b.butt)) })
	for k := range min(len(all), schemesKept) {
		keep(material[k])
		keep(worked[k])
		keep(whole[k])
		keep(straight[k])
	}
	for _, k := range material {
		if k.breaks == material[0].breaks && !slices.ContainsFunc(schemes, func(s *layout.Scheme) bool { return s.Run == k.scheme.Run }) {
			keep(k)
		}
	}
	for k, best := range []look{material[0], worked[0], whole[0], straight[0]} {
		first[k] = slices.Index(schemes, best.scheme)
	}
	return schemes, first
}

// looks are the schemes as they look by some prices, the best first.
func (s *search) looks(z *survey.Zone, all []*layout.Scheme, prices layout.Prices, worth func(charge) int64) []look {
	looks := make([]look, len(all))
	charged := charges(s.book, z)
	for i, l := range all {
		tapered, mixed, butt := l.LongJoints()
		k := look{scheme: l, breaks: layout.Weigh(l.Breaks), butt: mixed + butt}
		k.cost = worth(charged.of(jointLengths{tapered: tapered, mixed: mixed, butt: butt}))
		for r := range l.Rows {
			if s.ctx.Err() != nil {
				break // what comes of it is not kept
			}
			k.breaks += l.Rows[r].Weight
			cost, butt, ok := l.Cheapest(r, prices)
			if !ok {
				k.breaks += layout.Uncoverable
				continue
			}
			k.butt += butt
			k.cost += cost
		}
		looks[i] = k
	}
	slices.SortStableFunc(looks, look.before)
	return looks
}

// first picks for every row in turn the choice that clashes least with the rows picked before: the earliest of them, or
// that of least end joint.
func (sc *listed) first(byJoint bool) []int {
	picks := make([]int, len(sc.rows))
	done := make([]bool, len(sc.rows))
	for r := range sc.rows {
		bestClash := math.MaxInt
		for c := range sc.rows[r] {
			n := sc.rows[r][c].Weight
			for _, k := range sc.Near[r] {
				if done[k] && len(sc.rows[k]) > 0 {
					n += layout.ClashWeight(sc.rows[r][c].Seams, sc.rows[k][picks[k]].Seams, sc.stag)
				}
			}
			if n < bestClash || byJoint && n == bestClash && sc.rows[r][c].Butt < sc.rows[r][picks[r]].Butt {
				bestClash, picks[r] = n, c
			}
			if n == 0 && !byJoint {
				break
			}
		}
		done[r] = true
	}
	return picks
}

// usually is what a charge comes to at the usual rate of own time.
func (s *search) usually(c charge) int64 { return c.money + s.usual.worked(c.hours) }

// priceBits is how many prices of pieces are remembered, as a power of two: about the sizes of one zone.
const priceBits = 8

// prices are several ways to value pieces, so that the choices kept are of different kinds: by area, by how many of a
// piece a sheet gives, and by the mean of both; own time counts in one of them. A strip beside a piece that is narrower than
// any course counts with the piece: nobody hangs it, so that a sheet ripped by a finger's width is worth a whole one.
func (s *search) prices(z *survey.Zone) []layout.Prices {
	p := s.products[s.productIndex(z.Product)]
	var known [1 << priceBits]struct {
		layout.Size
		v [2]int64
	}
	of := func(z layout.Size) [2]int64 {
		k := &known[(uint64(z.L)*0x9e3779b97f4a7c15+uint64(z.W)*0xbf58476d1ce4e5b9)>>(64-priceBits)]
		if k.L == z.L && k.W == z.W {
			return k.v
		}
		var v [2]int64
		v[0], v[1] = p.counter.Shares(z, s.job.Rules.LeastCourse)
		k.Size, k.v = z, v
		return v
	}
	foot := charges(s.book, z).butt
	butt := func(l length.Length) int64 { return foot.of(l).money + int64(l/length.Inch) }
	piece := s.usually(charge{hours: s.piece})
	times := func(n int64) func(length.Length) int64 {
		return func(l length.Length) int64 { return n*s.usually(foot.of(l)) + int64(l/length.Inch) }
	}
	return []layout.Prices{
		{Piece: func(z layout.Size) int64 { v := of(z); return (v[0] + v[1]) / 2 }, Butt: butt},
		{Piece: func(z layout.Size) int64 { return of(z)[0] + piece }, Butt: times(4)},
		{Piece: func(z layout.Size) int64 { return of(z)[1] }, Butt: butt},
		{Piece: func(z layout.Size) int64 { v := of(z); return (v[0]+v[1])/2 + 3*piece }, Butt: times(4)},
		{Piece: func(z layout.Size) int64 { return of(z)[1] + piece }, Butt: times(40)},
	}
}
