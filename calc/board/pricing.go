package board

import (
	"cmp"
	"math"
	"slices"

	"seamwright/calc/board/tally"
	"seamwright/calc/job"
	"seamwright/calc/layout"
	"seamwright/calc/survey"
)

// Work of a bound that is made for the case at hand.
const (
	columnScales = 4       // scales across the sheet that are tried: those that ask for most by themselves
	columnNear   = 0.85    // and for no less than this part of the bound that stands
	columnRounds = 400     // rounds of column generation
	linePlaces   = 4_000   // sums of lengths along a sheet
	lineSteps    = 200_000 // sums times lengths: what one knapsack looks at
)

// fine is what a whole side is worth along the sheet in a tailored scale, at about.
const fine = 1 << 26

// zoneWays is a zone with all the ways of lining it that a bound goes through.
type zoneWays struct {
	zone *survey.Zone
	need *need
	all  []*layout.Scheme // nil: only its area is known
}

// waysOf lists all ways of lining a zone as if it kept clear of nothing elsewhere. Not known by more than its area is a
// layer over others whose level courses are free, since they may be shifted by any measure to keep clear of joints below,
// or that is so long that a control joint below may go on through it; and a zone that is no plain rectangle, of a product
// in several widths, whose courses may lie in more orders than are listed.
func (s *search) waysOf(z *survey.Zone) zoneWays {
	b := z.Outline.Bounds()
	free := len(z.Courses) == 0 && z.Run != job.RunAlong
	over := z.Layer > 1 && (free || max(b.W, b.H) > layout.ControlWall)
	plain := len(z.Holes) == 0 && len(z.Large) == 0 && len(z.Outline) == 4 && z.Outline.Area() == b.Area()
	if over || free && !plain && len(layout.Widths(z.Product)) > 1 {
		return zoneWays{z, s.needOf(z, nil), nil}
	}
	all := layout.Unhindered(s.ctx, z, &s.job.Rules)
	return zoneWays{z, s.needOf(z, all), all}
}

// pricing makes a scale along the sheet for the case at hand, where the families of scales leave a bound open: a worth for
// every length that occurs, and one for a length as such. Any worths will do for a proof. What lies on one line along a
// sheet is worth no more than the best set of lengths, which a knapsack finds, so worths divided by that are a dual
// feasible function; with a scale across it they weigh pieces like any pair. The worths that ask for most are the prices
// of a linear programme: the least number of sheets, each cut by a share of patterns, for layouts that are shares of
// layouts. Its columns, patterns along the sheet and ways along the rows, are made as its prices ask for them (Gilmore &
// Gomory 1961; Dantzig & Wolfe 1960; from memory). Every round's prices, in whole numbers, prove a bound.
type pricing struct {
	across scale
	kerf   int64
	side   int64
	index  map[int64]int
	sizes  []int64 // lengths along the sheet, a kerf larger
	zones  []pricedZone
	stock  []onHand
	line   line
	worth  []int64 // of the sizes
	rate   int64   // of a whole side of any length
}

// pricedZone is a zone: it takes one of its sets of rows.
type pricedZone struct {
	rows []pricedRow
	sets []rowSet
}

// rowSet is the rows of one scheme, and what is covered besides by whatever lengths, in sides of the sheet.
type rowSet struct {
	rows []int
	flat int64
}

// pricedRow is the steps of a row from every place.
type pricedRow [][]pricedStep

type pricedStep struct {
	to     int
	pieces []pricedPiece
}

// pricedPiece is a piece by the index of its length and its worth across, straight and turned; nowhere: it cannot lie so.
type pricedPiece struct {
	straight, turned int
	wide, deep       int64
}

// onHand is a piece on hand.
type onHand struct{ side, across, count int64 }

const nowhere = -1

// boundByPrices raises the bound of a product by scales made for it, up to enough.
func (s *search) boundByPrices(p *productState, enough int) int {
	bound := p.bound
	var mine []zoneWays
	for _, z := range s.ways {
		if z.need != nil && s.products[z.need.product] == p {
			mine = append(mine, z)
		}
	}
	for _, n := range p.acrossScales(mine, bound) {
		t := newPricing(p, n)
		for _, z := range mine {
			t.add(p, z, &s.job.Rules, n)
		}
		if bound = t.bound(bound, enough); bound >= enough {
			break
		}
	}
	return bound
}

// acrossScales are the scales across the sheet under which zones ask for most, each kind of answer once.
func (p *productState) acrossScales(zones []zoneWays, bound int) (ns []int) {
	sc := p.scales
	sum := make([]int64, sc.pairs())
	for _, z := range zones {
		for k, v := range z.need.weights {
			sum[k] += v
		}
	}
	on := make([]int64, sc.pairs())
	for _, st := range p.onHand {
		sc.holds(st, tally.StockTapers(p.product, st), on)
	}
	for k, v := range on {
		sum[k] -= v
	}
	most := make([]int64, len(sc.across))
	for n := range sc.across {
		most[n] = slices.Max(sum[n*len(sc.along) : (n+1)*len(sc.along)])
		if float64(most[n]) >= columnNear*float64(bound)*one*one {
			ns = append(ns, n)
		}
	}
	slices.SortStableFunc(ns, func(a, b int) int { return cmp.Compare(most[b], most[a]) })
	ns = slices.CompactFunc(ns, func(a, b int) bool { return most[a] == most[b] })
	return ns[:min(len(ns), columnScales)]
}

func newPricing(p *productState, across int) *pricing {
	t := &pricing{across: p.scales.across[across], kerf: p.scales.kerf, side: p.scales.along[0].side, index: map[int64]int{}}
	for _, st := range p.onHand {
		t.stock = append(t.stock, onHand{int64(st.Length) + t.kerf, t.across.across(int64(st.Width)+t.kerf, int(tally.StockTapers(p.product, st))), int64(st.Count)})
	}
	return t
}

// add takes a zone in. Where it may be lined by upright courses, or only its area is known, it is a stretch of no
// particular lengths.
func (t *pricing) add(p *productState, z zoneWays, rules *job.Rules, across int) {
	var x pricedZone
	flat := areaShare(z.need.area, p.product, rules)
	area := rowSet{}
	if across == 0 {
		area.flat = flat / one
	}
	if !countable(p.product, z.zone, rules, z.all) {
		x.sets = append(x.sets, area)
		t.zones = append(t.zones, x)
		return
	}
	w := weigher{scales: p.scales, zone: z.zone, rules: rules, flat: flat}
	at := map[*[]layout.Step]int{} // rows that several schemes share
	upright := false
	for _, sc := range z.all {
		if sc.Run == job.RunAlong {
			upright = true
			continue
		}
		var set rowSet
		for r := range sc.Rows {
			if sc.Anywhere(r) {
				sum := make([]int64, w.pairs())
				for _, c := range sc.Covers(r) {
					w.cover(c, sum)
				}
				set.flat += sum[across*len(w.along)] / one
				continue
			}
			steps := sc.Steps(r)
			k, ok := at[&steps[0]]
			if !ok {
				k = len(x.rows)
				at[&steps[0]] = k
				x.rows = append(x.rows, t.row(steps))
			}
			set.rows = append(set.rows, k)
		}
		x.sets = append(x.sets, set)
	}
	if upright {
		x.sets = append(x.sets, rowSet{flat: w.upright()[across*len(w.along)] / one})
	}
	t.zones = append(t.zones, x)
}

// row reads the pieces of a row.
func (t *pricing) row(steps [][]layout.Step) pricedRow {
	row := make(pricedRow, len(steps))
	for i := range steps {
		for _, st := range steps[i] {
			ts := pricedStep{to: st.To}
			for _, z := range st.Sizes {
				ts.pieces = append(ts.pieces, t.piece(z))
			}
			row[i] = append(row[i], ts)
		}
	}
	return row
}

func (t *pricing) piece(z layout.Size) pricedPiece {
	l, w := int64(z.L)+t.kerf, int64(z.W)+t.kerf
	p := pricedPiece{straight: nowhere, turned: nowhere}
	if l <= t.side && w <= t.across.side {
		p.straight, p.wide = t.size(l), t.across.across(w, z.Tapers)
	}
	if z.Turn && z.Tapers == 0 && w <= t.side && l <= t.across.side {
		p.turned, p.deep = t.size(w), t.across.across(l, 0)
	}
	return p
}

// size is the index of a length.
func (t *pricing) size(l int64) int {
	i, ok := t.index[l]
	if !ok {
		i = len(t.sizes)
		t.index[l] = i
		t.sizes = append(t.sizes, l)
	}
	return i
}

// worthOf is what a piece is worth at the least, and whether it is turned for that.
func (t *pricing) worthOf(p *pricedPiece) (v int64, turned bool) {
	v = math.MaxInt64
	if p.straight != nowhere {
		v = t.worth[p.straight] * p.wide
	}
	if p.turned != nowhere {
		if u := t.worth[p.turned] * p.deep; u < v {
			return u, true
		}
	}
	return v, false
}

// leastRow is the least worth of a way along a row; where counts are asked for, the lengths of that way are added to them
// by their worth across.
func (t *pricing) leastRow(row pricedRow, counts []float64) int64 {
	last := len(row) - 1
	best, next := make([]int64, last+1), make([]int, last+1)
	for i := last - 1; i >= 0; i-- {
		best[i] = none
		for k := range row[i] {
			st := &row[i][k]
			if best[st.to] == none {
				continue
			}
			v := best[st.to]
			for q := range st.pieces {
				u, _ := t.worthOf(&st.pieces[q])
				if u == math.MaxInt64 {
					v = none
					break
				}
				v += u
			}
			if v < best[i] {
				best[i], next[i] = v, k
			}
		}
	}
	if best[0] == none {
		return 0 // nothing is known of a row that no sheet for sale covers
	}
	for i := 0; i != last && counts != nil; i = row[i][next[i]].to {
		for q := range row[i][next[i]].pieces {
			p := &row[i][next[i]].pieces[q]
			if _, turned := t.worthOf(p); turned {
				counts[p.turned] += float64(float64(p.deep) / one)
			} else {
				counts[p.straight] += float64(float64(p.wide) / one)
			}
		}
	}
	return best[0]
}

// least is the least worth of a zone, with the lengths and the stretch of no particular length that it takes then.
func (t *pricing) least(x *pricedZone, counts []float64) (best int64, flat float64) {
	rows := make([]int64, len(x.rows))
	for r := range x.rows {
		rows[r] = t.leastRow(x.rows[r], nil)
	}
	best = math.MaxInt64
	pick := 0
	for k := range x.sets {
		sum := t.rate * x.sets[k].flat
		for _, r := range x.sets[k].rows {
			sum += rows[r]
		}
		if sum < best {
			best, pick = sum, k
		}
	}
	for _, r := range x.sets[pick].rows {
		t.leastRow(x.rows[r], counts)
	}
	return best, float64(x.sets[pick].flat) / one
}
