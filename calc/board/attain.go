package board

import (
	"cmp"
	"math/rand/v2"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/layout"
	"seamwright/calc/length"
	"seamwright/calc/nest"
)

// Work of the search for a given number of sheets.
const (
	attainWays  = 160     // sets of end joints looked into for one row
	attainSteps = 2_000   // steps along one row
	attainNodes = 5_000   // partial layouts on the way to a first one
	attainTries = 10_000  // changes tried
	attainRows  = 40      // rows of one product, at most
	attainCuts  = 30      // layouts that the nesting is asked for
	attainWork  = 20_000  // work of the nesting for one layout
	smallCare   = 300_000 // pieces placed in search of few rows
	roomCare    = 60_000  // and of rooms, where the project asks for the fewest sheets
	attainPairs = 12      // pairs of scales watched: those that leave least room
)

// attain looks for layouts that take a given number of sheets and no more, with as little end joint as it can. Dual
// feasible functions tell how far the pieces of a row may lie above the least that any of its ways weighs: what goes
// beyond the room that the sheets leave is never looked at. Among what is left it climbs: first the area of the pieces
// that find no place on the sheets is made less, by changes of one row or of two that adjoin, then the end joints. A
// change that makes the layout a little worse is taken too, less and less (threshold accepting: Dueck & Scheuer 1990,
// from memory).
type attain struct {
	*search
	product *productState
	sheets  int
	rows    []attainRow
	room    []int64 // what the sheets hold above the weights of the picks, for every pair watched
	picks   []int
	butt    length.Length
	known   map[uint64]short
	until   int  // pieces placed up to which it searches
	whole   bool // no lawful layout of this number of sheets has been left out
}

// attainRow is a row and those of its ways that may fit.
type attainRow struct {
	zone *zoneState
	row  int
	near []int // rows whose end joints must keep clear
	ways []way
}

// way is a set of end joints of a row.
type way struct {
	steps []int
	seams []length.Length
	butt  length.Length
	wants []int32
	state uint64  // the hash of what is asked for
	over  []int64 // weight above the row's least
}

// attain tries to do with fewer sheets of every product than the best layout known, down to the bound, and to make the
// end joints less at the number found. It leaves the best layout in place. Rooms are looked into only where the project
// asks for the fewest sheets, since it takes them longer than a frame.
func (s *search) attain(best value) value {
	if s.aim != job.AimSheets || !s.small() && s.job.Aim != job.AimSheets {
		return best
	}
	care := smallCare
	if !s.small() {
		care = roomCare
	}
	for _, p := range s.products {
		var open []*zoneState
		rows := 0
		for _, z := range s.zones[s.fixed:] {
			if s.products[z.product] == p {
				open = append(open, z)
				rows += len(z.schemes[z.cur].rows)
			}
		}
		if len(open) == 0 || rows > attainRows || !p.tally.ok {
			continue
		}
		work := p.quick.placed + care
		for n := p.tally.sheets - 1; n >= p.bound && p.quick.placed < work; n-- {
			a := &attain{search: s, product: p, sheets: n, until: work, known: map[uint64]short{}, whole: s.fixed == 0 && alone(open)}
			if a.prepare(open) && a.climb(open, best) {
				best = s.evaluate()
				continue
			}
			if a.whole && n == p.bound {
				p.bound++ // proven: nothing has been left out
			}
			break
		}
		a := &attain{search: s, product: p, sheets: p.tally.sheets, until: work, known: map[uint64]short{}}
		if p.quick.placed < work && a.prepare(open) && a.climb(open, best) {
			best = s.evaluate()
		}
	}
	return best
}

// alone tells whether zones have one lawful set of courses each, with members behind all end joints.
func alone(open []*zoneState) bool {
	for _, z := range open {
		if len(z.all) != 1 || len(z.all[0].Rows) == 0 || !layout.Complete(z.all) || z.all[0].Run != job.RunAcross || len(z.all[0].Breaks) > 0 {
			return false
		}
		for r := range z.all[0].Rows {
			if z.all[0].Anywhere(r) || z.all[0].Rows[r].Stage != layout.Lawful {
				return false
			}
		}
	}
	return true
}

// prepare lists the ways of all rows of a product under the schemes as they stand. Not ok: there are none that fit.
func (a *attain) prepare(open []*zoneState) bool {
	p := a.product
	room := make([]int64, p.scales.pairs())
	for _, st := range p.quick.onHand {
		p.scales.holds(st, stockTapers(p.product, st), room)
	}
	for k := range room {
		room[k] += int64(a.sheets) * one * one
	}
	w := weigher{scales: p.scales, sizes: map[layout.Size][]int64{}}
	for _, z := range a.zones[:a.fixed] {
		if a.products[z.product] != p {
			continue
		}
		for r, row := range z.schemes[z.cur].rows {
			if len(row) > 0 {
				w.less(room, row[z.pick[r]].Choice)
			}
		}
	}
	var steps [][][]layout.Step
	var least [][][]int64
	for _, z := range open {
		sc := z.schemes[z.cur]
		from := len(a.rows)
		for r := range sc.rows {
			if len(sc.rows[r]) == 0 {
				a.whole = false
				return false
			}
			st := sc.Steps(r)
			ahead := w.ahead(st)
			for k, v := range ahead[0] {
				room[k] -= v
			}
			steps, least = append(steps, st), append(least, ahead)
			x := attainRow{zone: z, row: r}
			for _, k := range sc.Near[r] {
				x.near = append(x.near, from+k)
			}
			a.rows = append(a.rows, x)
		}
	}
	pairs := make([]int, len(room))
	for k := range pairs {
		pairs[k] = k
		if room[k] < 0 {
			return false
		}
	}
	slices.SortStableFunc(pairs, func(x, y int) int { return cmp.Compare(room[x], room[y]) })
	pairs = slices.CompactFunc(pairs, func(x, y int) bool { return room[x] == room[y] }) // mostly alike for all pieces here
	pairs = pairs[:min(len(pairs), attainPairs)]
	for _, k := range pairs {
		a.room = append(a.room, room[k])
	}
	for i := range a.rows {
		if a.list(&a.rows[i], &w, pairs, steps[i], least[i]); len(a.rows[i].ways) == 0 {
			return false
		}
	}
	return true
}

// less takes the weights of a choice off.
func (w *weigher) less(room []int64, c layout.Choice) {
	for i := range c.Pieces {
		for k, v := range w.size(c.Pieces[i].Size) {
			room[k] -= v
		}
	}
}

// list finds the ways of one row that leave room for the others, those of few end joints first.
func (a *attain) list(x *attainRow, w *weigher, pairs []int, steps [][]layout.Step, least [][]int64) {
	last := len(steps) - 1
	fewest, most := hops(steps)
	n := len(pairs)
	rise := make([][]int64, len(steps)) // by step: how much it lifts the least weight of a way
	for i := range steps {
		if least[i] == nil {
			continue
		}
		rise[i] = make([]int64, n*len(steps[i]))
		for k, st := range steps[i] {
			for q, pair := range pairs {
				if least[st.To] == nil {
					continue
				}
				v := least[st.To][pair] - least[i][pair]
				for _, z := range st.Sizes {
					v += w.size(z)[pair]
				}
				rise[i][k*n+q] = v
			}
		}
	}
	sc := x.zone.schemes[x.zone.cur]
	work := 0
	var taken []int
	var walk func(at, joints int, over []int64)
	walk = func(at, joints int, over []int64) {
		if work++; work > attainSteps || len(x.ways) >= attainWays {
			a.whole = false
			return
		}
		if at == last {
			y := way{steps: slices.Clone(taken), over: slices.Clone(over)}
			i := 0
			for _, k := range taken {
				st := &steps[i][k]
				for _, z := range st.Sizes {
					size := a.product.sizeIndex(z)
					y.wants = append(y.wants, size)
					y.state += scramble(uint64(size))
				}
				y.butt += st.Butt
				if i = st.To; i != last {
					y.seams = append(y.seams, sc.PlaceAt(x.row, i))
				}
			}
			x.ways = append(x.ways, y)
			return
		}
		next := make([]int64, n)
		for k := range steps[at] {
			to := steps[at][k].To
			if fewest[to] > joints || most[to] < joints {
				continue
			}
			fits := true
			for q, v := range rise[at][k*n : k*n+n] {
				next[q] = over[q] + v
				fits = fits && next[q] <= a.room[q]
			}
			if fits {
				taken = append(taken, k)
				walk(to, joints-1, next)
				taken = taken[:len(taken)-1]
			}
		}
	}
	for joints := fewest[0] - 1; joints < most[0]; joints++ {
		walk(0, joints, make([]int64, n))
	}
	slices.SortStableFunc(x.ways, func(p, q way) int { return cmp.Compare(p.butt, q.butt) })
}

// hops are the fewest and the most steps from every place to the end; where none leads there, fewest lies above most.
func hops(steps [][]layout.Step) (fewest, most []int) {
	n := len(steps)
	fewest, most = make([]int, n), make([]int, n)
	for i := n - 2; i >= 0; i-- {
		fewest[i], most[i] = n, -1
		for _, st := range steps[i] {
			if fewest[st.To] <= most[st.To] {
				fewest[i], most[i] = min(fewest[i], 1+fewest[st.To]), max(most[i], 1+most[st.To])
			}
		}
	}
	return fewest, most
}

// climb searches, and leaves the layout found in place if it is better than the best one known.
func (a *attain) climb(open []*zoneState, best value) bool {
	p := a.product
	for _, z := range open {
		a.breaks -= z.allClashes()
	}
	for i := range a.rows {
		x := &a.rows[i]
		a.count(p, &x.zone.schemes[x.zone.cur].rows[x.row][x.zone.pick[x.row]], -1)
	}
	limit := length.Length(1 << 62)
	if best.breaks == 0 && p.tally.sheets <= a.sheets {
		limit = length.Length(best.by[1]) - a.joints.butt - a.joints.mixed // end joint to stay below
	}
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
	for i := range a.rows {
		x := &a.rows[i]
		sc := x.zone.schemes[x.zone.cur]
		if ok {
			y := &x.ways[a.picks[i]]
			c := choice{Choice: sc.Take(x.row, y.steps), wants: y.wants}
			sc.rows[x.row] = append(sc.rows[x.row], c)
			x.zone.pick[x.row] = len(sc.rows[x.row]) - 1
		}
		a.count(p, &sc.rows[x.row][x.zone.pick[x.row]], 1)
	}
	if ok {
		p.known[1][p.state] = tally{sheets: a.sheets, cost: a.known[p.state].cost, ok: true}
		p.stale = true
	}
	for _, z := range open {
		a.breaks += z.allClashes()
	}
	return ok
}

// resume takes the layout as it stands for a start, where its ways are all listed and fit.
func (a *attain) resume() bool {
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

// buttOf is the end joint of picks.
func (a *attain) buttOf(picks []int) (sum length.Length) {
	for i, c := range picks {
		sum += a.rows[i].ways[c].butt
	}
	return sum
}

// few is up to how many partial layouts all of them are gone through.
const few = 3_000

// exhaust goes through all layouts, those of little end joint first, if they are few; all tells whether they are.
func (a *attain) exhaust(limit length.Length) (ok, all bool) {
	rest := make([]length.Length, len(a.rows)+1)
	for i := len(a.rows) - 1; i >= 0; i-- {
		rest[i] = rest[i+1] + a.rows[i].ways[0].butt
	}
	if rest[0] >= limit {
		return false, true // the end joints are the least there can be
	}
	a.picks = make([]int, len(a.rows))
	var picks []int
	nodes, cuts := 0, 0
	var walk func(i int)
	walk = func(i int) {
		if i == len(a.rows) {
			fits, sure := a.lack().area == 0, true
			if !fits && cuts < attainCuts {
				cuts++
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
func (a *attain) nest() (fits, sure bool) {
	p := a.product
	pr, _ := problem(p.product, p.quick.onHand, a.aim)
	for i := range p.wants {
		if z := &p.wants[i]; z.n > 0 {
			pr.Items = append(pr.Items, nest.Item{W: int64(z.size.L), H: int64(z.size.W), N: z.n, Turn: z.size.Turn, Tapers: z.size.Tapers})
		}
	}
	r, err := nest.Solve(a.ctx, pr, nest.Budget{Nodes: attainWork})
	if err != nil {
		return false, false
	}
	if r.Cost/sheetWeight > int64(a.sheets) {
		return false, r.Bound/sheetWeight > int64(a.sheets)
	}
	a.known[p.state] = short{cost: r.Cost % sheetWeight * costUnit}
	return true, true
}

// start picks ways that keep the stagger and leave room, row after row; where one has none left, the row before takes
// its next.
func (a *attain) start() bool {
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
			if nodes++; nodes > attainNodes {
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
func (a *attain) take(i, c int) {
	a.picks[i] = c
	a.put(i, c, 1)
}

// put counts a way in (n 1) or out (n -1).
func (a *attain) put(i, c, n int) {
	y := &a.rows[i].ways[c]
	for q, v := range y.over {
		a.room[q] -= int64(n) * v
	}
	for _, w := range y.wants {
		a.product.wants[w].n += n
	}
	a.product.state += uint64(n) * y.state
	a.butt += length.Length(n) * y.butt
}

// clash tells whether a way comes too near to the picks of adjoining rows before row end.
func (a *attain) clash(i, c, end int) bool {
	x := &a.rows[i]
	stag := x.zone.schemes[x.zone.cur].stag
	return slices.ContainsFunc(x.near, func(k int) bool {
		return k < end && layout.Clash(x.ways[c].seams, a.rows[k].ways[a.picks[k]].seams, stag)
	})
}

// fits tells whether a way of a row leaves room, in place of the pick.
func (a *attain) fits(i, c int) bool {
	x := &a.rows[i]
	was, y := &x.ways[a.picks[i]], &x.ways[c]
	for q, v := range y.over {
		if a.room[q]+was.over[q]-v < 0 {
			return false
		}
	}
	return true
}

// lack is what the picks lack.
func (a *attain) lack() short {
	p := a.product
	v, ok := a.known[p.state]
	if !ok {
		v = p.quick.within(p.wants, a.sheets)
		a.known[p.state] = v
	}
	return v
}

// Weights of the climb, in parts of a sheet's area.
const (
	jointWorth = 0.004 // a foot of end joint
	firstSlack = 0.04  // how much worse a change may make a layout at first
)

// settle changes picks one at a time or two until nothing lacks and the end joints are below the limit.
func (a *attain) settle(limit length.Length) bool {
	random := rand.New(rand.NewPCG(uint64(a.sheets), uint64(len(a.rows))))
	sheet := float64(a.product.quick.sheets[0].l) / 1e6 * (float64(a.product.quick.sheets[0].w) / 1e6)
	var picks []int
	found := false
	worth := func() float64 {
		lack := a.lack().area
		if lack == 0 && a.butt < limit {
			limit, found, picks = a.butt, true, slices.Clone(a.picks)
		}
		return float64(lack)/sheet + jointWorth*a.butt.Feet()
	}
	now := worth()
	least := length.Length(0)
	for i := range a.rows {
		least += a.rows[i].ways[0].butt
	}
	from := a.product.quick.placed
	for n := 0; n < attainTries && a.product.quick.placed < a.until && limit > least; n++ {
		slack := firstSlack * min(1-float64(n)/attainTries, float64(a.until-a.product.quick.placed)/float64(a.until-from))
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
				if v := worth(); v <= now+slack {
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
func (a *attain) mend(i int, random *rand.Rand) (other, was int) {
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
