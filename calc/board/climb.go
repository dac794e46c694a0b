package board

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"

	"seamwright/calc/board/tally"
	"seamwright/calc/layout"
	"seamwright/calc/length"
	"seamwright/calc/nest"
)

// climb searches, and leaves the layout found in place if its end joint is below a limit.
func (a *target) climb(open []*zoneState, limit length.Length) bool {
	p := a.product
	for _, z := range open {
		a.breaks -= z.allClashes()
	}
	for i := range a.rows {
		x := &a.rows[i]
		a.count(x.zone, &x.zone.schemes[x.zone.cur].rows[x.row][x.zone.pick[x.row]], -1)
		a.laid = append(a.laid, nowhere)
	}
	a.state = p.demand.State()
	ok, all := false, false
	if a.small() {
		ok, all = a.exhaust(limit)
	} else {
		a.whole = false
	}
	if !all {
		if ok {
			limit = a.buttOf(a.picks)
		}
		picks := a.picks
		if (a.resume() || a.start()) && a.settle(limit) {
			ok = true
		} else {
			a.picks = picks
		}
	}
	a.lay(nil)
	a.butt = 0
	for i := range a.rows {
		x := &a.rows[i]
		sc := x.zone.schemes[x.zone.cur]
		if ok {
			y := &x.ways[a.picks[i]]
			a.butt += y.butt
			c := choice{Choice: sc.Take(x.row, y.steps), wants: y.wants}
			sc.rows[x.row] = append(sc.rows[x.row], c)
			x.zone.pick[x.row] = len(sc.rows[x.row]) - 1
		}
		a.count(x.zone, &sc.rows[x.row][x.zone.pick[x.row]], 1)
	}
	if ok {
		p.known[1][p.demand.State()] = tally.Count{Sheets: a.sheets, Cost: a.known[p.demand.State()].Cost, OK: true}
		p.stale = true
	}
	for _, z := range open {
		a.breaks += z.allClashes()
	}
	return ok
}

// resume takes the layout as it stands for a start, where its ways are all listed and fit.
func (a *target) resume() bool {
	a.picks = make([]int, len(a.rows))
	for i := range a.rows {
		x := &a.rows[i]
		seams := x.zone.schemes[x.zone.cur].rows[x.row][x.zone.pick[x.row]].Seams
		a.picks[i] = slices.IndexFunc(x.ways, func(y way) bool { return slices.Equal(y.seams, seams) })
		if a.picks[i] < 0 || a.clash(i, a.picks[i], i) {
			return false
		}
	}
	for i, c := range a.picks {
		a.put(i, c, 1)
	}
	if slices.ContainsFunc(a.room, func(v int64) bool { return v < 0 }) {
		for i, c := range a.picks {
			a.put(i, c, -1)
		}
		return false
	}
	return true
}

// lay makes the demand that of some picks, or of none.
func (a *target) lay(picks []int) {
	for i := range a.rows {
		pick := nowhere
		if picks != nil {
			pick = picks[i]
		}
		a.relay(i, pick)
	}
}

// relay changes the way that the demand holds of a row.
func (a *target) relay(i, pick int) {
	was := a.laid[i]
	if was == pick {
		return
	}
	a.laid[i] = pick
	if was != nowhere {
		for _, w := range a.rows[i].ways[was].wants {
			a.product.demand.Add(w, -1)
		}
	}
	if pick != nowhere {
		for _, w := range a.rows[i].ways[pick].wants {
			a.product.demand.Add(w, 1)
		}
	}
}

// buttOf is the end joint of picks.
func (a *target) buttOf(picks []int) (sum length.Length) {
	for i, c := range picks {
		sum += a.rows[i].ways[c].butt
	}
	return sum
}

// few is up to how many partial layouts all of them are gone through.
const few = 3_000

// exhaust goes through all layouts, those of little end joint first, if they are few; all tells whether they are.
func (a *target) exhaust(limit length.Length) (ok, all bool) {
	rest := make([]length.Length, len(a.rows)+1)
	for i := len(a.rows) - 1; i >= 0; i-- {
		rest[i] = rest[i+1] + a.rows[i].ways[0].butt
	}
	if rest[0] >= limit {
		return false, true // the end joints are the least there can be
	}
	a.picks = make([]int, len(a.rows))
	var picks []int
	nodes := 0
	var walk func(i int)
	walk = func(i int) {
		if i == len(a.rows) {
			fits, sure := a.lack(0) == 0, true
			if !fits && a.cuts > 0 {
				a.cuts--
				fits, sure = a.nest()
			}
			a.whole = a.whole && (fits || sure)
			if fits {
				limit, picks = a.butt, slices.Clone(a.picks)
			}
			return
		}
		for c := range a.rows[i].ways {
			if nodes++; nodes > few {
				return
			}
			if a.butt+a.rows[i].ways[c].butt+rest[i+1] >= limit {
				break
			}
			if a.clash(i, c, i) {
				continue
			}
			a.take(i, c)
			if !slices.ContainsFunc(a.room, func(v int64) bool { return v < 0 }) {
				walk(i + 1)
			}
			a.put(i, c, -1)
		}
	}
	walk(0)
	if picks != nil {
		a.picks = picks
	}
	if nodes > few {
		a.whole = false
	}
	return picks != nil, nodes <= few
}

// nest asks the nesting whether the picks can be cut; sure tells whether a no is proven.
func (a *target) nest() (fits, sure bool) {
	p := a.product
	a.lay(a.picks)
	pr := problem(p.product, p.onHand, true)
	for size, z := range p.demand.Asked() {
		pr.Items = append(pr.Items, itemOf(z, p.demand.Of(size)))
	}
	a.meter.Work += nestingWork * perNestNode
	r, err := nest.Solve(a.ctx, pr, nest.Budget{Nodes: nestingWork, Plain: !a.whole}) // a strong bound only where it may prove
	if err != nil {
		return false, false
	}
	if r.Cost/sheetWeight > int64(a.sheets) {
		return false, r.Bound/sheetWeight > int64(a.sheets)
	}
	a.known[a.state] = tally.Lack{Cost: r.Cost % sheetWeight * costUnit}
	return true, true
}

// start picks ways that keep the stagger and leave room, row after row; where one has none left, the row before takes
// its next.
func (a *target) start() bool {
	a.picks = make([]int, len(a.rows))
	order := make([][]int, len(a.rows))
	for i := range a.rows {
		x := &a.rows[i]
		share := make([]float64, len(x.ways))
		for c := range x.ways {
			order[i] = append(order[i], c)
			for q, v := range x.ways[c].over {
				share[c] = max(share[c], float64(v)/float64(a.room[q]+1))
			}
		}
		slices.SortStableFunc(order[i], func(p, q int) int { return cmp.Compare(share[p], share[q]) })
	}
	nodes := 0
	var walk func(i int) bool
	walk = func(i int) bool {
		if i == len(a.rows) {
			return true
		}
		for _, c := range order[i] {
			if nodes++; nodes > startNodes {
				return false
			}
			if a.clash(i, c, i) {
				continue
			}
			a.take(i, c)
			if !slices.ContainsFunc(a.room, func(v int64) bool { return v < 0 }) && walk(i+1) {
				return true
			}
			a.put(i, c, -1)
		}
		return false
	}
	return walk(0)
}

// take counts a way in as the pick of its row.
func (a *target) take(i, c int) {
	a.picks[i] = c
	a.put(i, c, 1)
}

// put counts a way in (n 1) or out (n -1).
func (a *target) put(i, c, n int) {
	y := &a.rows[i].ways[c]
	for q, v := range y.over {
		a.room[q] -= int64(n) * v
	}
	a.state += uint64(n) * y.state
	a.butt += length.Length(n) * y.butt
}

// clash tells whether a way comes too near to the picks of adjoining rows before row end.
func (a *target) clash(i, c, end int) bool {
	x := &a.rows[i]
	stag := x.zone.schemes[x.zone.cur].stag
	return slices.ContainsFunc(x.near, func(k int) bool {
		return k < end && layout.Clash(x.ways[c].seams, a.rows[k].ways[a.picks[k]].seams, stag)
	})
}

// fits tells whether a way of a row leaves room, in place of the pick.
func (a *target) fits(i, c int) bool {
	x := &a.rows[i]
	was, y := &x.ways[a.picks[i]], &x.ways[c]
	for q, v := range y.over {
		if a.room[q]+was.over[q]-v < 0 {
			return false
		}
	}
	return true
}

// lack is the area that the picks lack; more than a limit where it lies above that.
func (a *target) lack(limit int64) int64 {
	p := a.product
	v, ok := a.known[a.state]
	if !ok || v.Over && limit > v.Area {
		a.lay(a.picks)
		v = p.counter.Lack(p.demand, a.sheets, limit)
		a.known[a.state] = v
	}
	if v.Over {
		return max(limit, v.Area) + 1
	}
	return v.Area
}

// Weights of the climb, in parts of a sheet's area.
const (
	jointWorth  = 0.004 // a foot of end joint
	firstSlack  = 0.04  // how much worse a change may make a layout at first
	anyLack     = 1e6
	perTry      = 64 // work of one change, besides counting
	perNestNode = 4  // and of one step of the nesting
	// What lacks more than this part of a sheet, less and less as the work goes on, has never come to fit.
	hopeless     = 0.8
	hopelessFrom = 0.125
)

// settle changes picks one at a time or two until nothing lacks and the end joints are below the limit.
func (a *target) settle(limit length.Length) bool {
	random := rand.New(rand.NewPCG(uint64(a.sheets), uint64(len(a.rows)+a.chance<<16)))
	sheet := a.product.counter.SheetArea()
	var picks []int
	found, nearest := false, int64(math.MaxInt64)
	worth := func(most float64) float64 { // counted no further than most
		lack := a.lack(int64(sheet * (most - float64(jointWorth*a.butt.Feet()))))
		nearest = min(nearest, lack)
		if lack == 0 && a.butt < limit {
			limit, found, picks = a.butt, true, slices.Clone(a.picks)
		}
		return float64(lack)/sheet + float64(jointWorth*a.butt.Feet())
	}
	now := worth(anyLack)
	least := length.Length(0)
	for i := range a.rows {
		least += a.rows[i].ways[0].butt
	}
	from := a.meter.Work
	for a.meter.Work < a.until && a.ctx.Err() == nil && limit > least {
		a.meter.Work += perTry
		left := float64(a.until-a.meter.Work) / float64(a.until-from)
		if left < 1-hopelessFrom && float64(nearest) > float64(hopeless*left*sheet) {
			break
		}
		slack := float64(firstSlack * left)
		i := random.IntN(len(a.rows))
		x := &a.rows[i]
		u := random.Float64()
		c := int(u * u * float64(len(x.ways)))
		old := a.picks[i]
		if c == old || !a.fits(i, c) {
			continue
		}
		a.put(i, old, -1)
		a.take(i, c)
		other, was := -1, 0
		ok := true
		if a.clash(i, c, len(a.rows)) {
			other, was = a.mend(i, random)
			ok = other >= 0
		}
		if ok {
			if jointWorth*a.butt.Feet() <= now+slack {
				if v := worth(now + slack); v <= now+slack {
					now = v
					continue
				}
			}
		}
		if other >= 0 {
			a.put(other, a.picks[other], -1)
			a.take(other, was)
		}
		a.put(i, c, -1)
		a.take(i, old)
	}
	for i := range a.picks {
		a.put(i, a.picks[i], -1)
	}
	if found {
		a.picks = picks
	}
	return found
}

// mend changes the one adjoining row that clashes with row i, if there is but one and it has a way that does not.
func (a *target) mend(i int, random *rand.Rand) (other, was int) {
	x := &a.rows[i]
	stag := x.zone.schemes[x.zone.cur].stag
	other = -1
	for _, k := range x.near {
		if layout.Clash(x.ways[a.picks[i]].seams, a.rows[k].ways[a.picks[k]].seams, stag) {
			if other >= 0 {
				return -1, 0
			}
			other = k
		}
	}
	y := &a.rows[other]
	was = a.picks[other]
	first := random.IntN(len(y.ways))
	for n := range y.ways {
		c := (first + n) % len(y.ways)
		if c == was || !a.fits(other, c) || a.clash(other, c, len(a.rows)) {
			continue
		}
		a.put(other, was, -1)
		a.take(other, c)
		return other, was
	}
	return -1, 0
}
