package board

import (
	"cmp"
	"slices"

	"seamwright/calc/board/tally"
	"seamwright/calc/job"
	"seamwright/calc/layout"
	"seamwright/calc/length"
)

// Work of the search for a given number of sheets.
const (
	perWayStep   = 4         // work of one step along a row, for each pair watched
	waysListed   = 160       // sets of end joints looked into for one row
	stepsTaken   = 2_000     // steps along one row
	startNodes   = 5_000     // partial layouts on the way to a first one
	rowsMost     = 40        // rows of one product, at most
	nestings     = 30        // layouts that the nesting is asked for
	nestingWork  = 20_000    // work of the nesting for one layout
	smallCare    = 8_000_000 // places looked at in search of few rows
	roomCare     = 8_000_000 // and of rooms, where the project asks for the fewest sheets
	jointTurns   = 2         // times that other courses may make the end joints less
	pairsWatched = 12        // pairs of scales watched: those that leave least room
)

// target looks for layouts that take a given number of sheets and no more, with as little end joint as it can. Dual
// feasible functions tell how far the pieces of a row may lie above the least that any of its ways weighs: what goes
// beyond the room that the sheets leave is never looked at. Among what is left it climbs: first the area of the pieces
// that find no place on the sheets is made less, by changes of one row or of two that adjoin, then the end joints. A
// change that makes the layout a little worse is taken too, less and less (threshold accepting: Dueck & Scheuer 1990,
// from memory).
type target struct {
	*search
	product *productState
	sheets  int
	rows    []targetRow
	room    []int64 // what the sheets hold above the weights of the picks, for every pair watched
	picks   []int
	laid    []int  // the picks that the demand holds; nowhere: none
	state   uint64 // of a demand for the picks
	butt    length.Length
	known   map[uint64]tally.Lack
	until   int64 // pieces placed up to which it searches
	cuts    int   // layouts that the nesting may still be asked for
	whole   bool  // no lawful layout of this number of sheets has been left out
	chance  int   // to begin with
	fresh   bool  // it has been looked for now, and was not known before
}

// targetRow is a row and those of its ways that may fit.
type targetRow struct {
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

// fewerSheets tries to do with fewer sheets of every product than the best layout known, down to the bound, and to make the
// end joints less at the number found. It leaves the best layout in place. Rooms, which take it longer than a frame, are
// looked into with full effort only.
func (s *search) fewerSheets(best value) value {
	if s.by.order != fewestSheets || !s.small() && !s.deep {
		return best
	}
	care := int64(smallCare)
	if !s.small() {
		care = roomCare
	}
	turns := jointTurns
	if s.brief {
		care, turns = care/3, 0
	}
	for _, p := range s.products {
		open := s.openOf(p)
		if len(open) == 0 || !p.tally.OK {
			continue
		}
		work := min(s.meter.Work+care, s.until)
		before := p.tally.Sheets
		if s.deep && !p.fitted && p.bound < before {
			p.bound, p.fitted = s.boundByPrices(p, before), true
		}
		for n := p.tally.Sheets - 1; n >= p.bound && s.meter.Work < work; n-- {
			a := s.target(p, n, work)
			a.whole = s.fixed == 0 && s.alone(open)
			if a.reached(open, best) || s.underOtherCourses(open, p, n, best, false) {
				best = s.evaluate()
				continue
			}
			if a.whole && n == p.bound {
				p.bound++ // proven: nothing has been left out
			}
			break
		}
		if p.tally.Sheets < before {
			best = s.polish(best, nil)
		}
		work = min(max(work, s.meter.Work+care/2), s.until)
		if s.target(p, p.tally.Sheets, work).reached(open, best) {
			best = s.evaluate()
		}
		for n := 0; n < turns && !s.spent() && s.underOtherCourses(open, p, p.tally.Sheets, best, true); n++ {
			best = s.evaluate()
		}
	}
	return best
}

// openOf are the zones of a product that are not yet settled.
func (s *search) openOf(p *productState) (open []*zoneState) {
	for _, z := range s.zones[s.fixed:] {
		if s.products[z.product] == p {
			open = append(open, z)
		}
	}
	return open
}

func (s *search) target(p *productState, sheets int, until int64) *target {
	return &target{search: s, product: p, sheets: sheets, until: until, cuts: nestings, known: map[uint64]tally.Lack{}}
}

// reached searches under the schemes as they stand, and leaves what it finds in place.
func (a *target) reached(open []*zoneState, best value) bool {
	rows := 0
	for _, z := range open {
		rows += len(z.schemes[z.cur].rows)
	}
	if rows > rowsMost || a.meter.Work >= a.until {
		a.whole = false
		return false
	}
	limit := a.limitFor(open, best)
	key := a.keyOf(open)
	t, tried := a.tried[key]
	if !tried || t.picks == nil && (limit > t.limit || a.sheets == a.product.bound && t.times < timesAtBound) {
		t, a.fresh = trial{limit: limit, times: t.times + 1}, true
		a.chance = t.times
		if a.prepare(open) && a.climb(open, limit) {
			t.cost, t.butt = a.product.known[1][a.product.demand.State()].Cost, a.butt
			for _, z := range open {
				t.picks = append(t.picks, slices.Clone(z.pick))
			}
		}
		t.whole = a.whole
		a.tried[key] = t
		return t.picks != nil && t.butt < limit
	}
	a.whole = a.whole && t.whole
	if t.picks == nil || t.butt >= limit {
		return false
	}
	for i, z := range open {
		a.turn(z, z.cur, slices.Clone(t.picks[i]))
	}
	a.product.known[1][a.product.demand.State()] = tally.Count{Sheets: a.sheets, Cost: t.cost, OK: true}
	return true
}

// trial is what came of the search for a number of sheets under some schemes: it is done once, whatever led there.
type trial struct {
	limit length.Length // of end joint, below which a layout was looked for
	picks [][]int       // of the open zones; nil: none was found
	butt  length.Length // end joint of the picks
	cost  int64         // and of their sheets
	whole bool
	times int // it was looked for
}

// timesAtBound is how often as many sheets as are proven to be the least are looked for under the same schemes, each time
// with other chances: where they are found, nothing is left open.
const timesAtBound = 3

// limitFor is the end joint of the open zones that a layout must stay below.
func (a *target) limitFor(open []*zoneState, best value) length.Length {
	if best.breaks > 0 || a.product.tally.Sheets > a.sheets {
		return 1 << 62
	}
	limit := length.Length(best.by[1]) - a.joints.butt - a.joints.mixed
	for _, z := range open {
		for r := range z.pick {
			if c := z.picked(r); c != nil && z.zone.Product.Kind != job.WoodPanel {
				limit += c.Butt
			}
		}
	}
	return limit
}

// keyOf stands for all that a search depends on: the number of sheets, the schemes of the open zones, and what else is cut
// from the same product.
func (a *target) keyOf(open []*zoneState) uint64 {
	key := a.product.demand.State() + tally.Mix(uint64(a.sheets)<<32|uint64(a.cuts))
	for _, z := range open {
		key += tally.Mix(uint64(z.id)<<32 | uint64(z.cur) | 1<<63)
		for r, row := range z.schemes[z.cur].rows {
			if len(row) > 0 {
				for _, w := range row[z.pick[r]].wants {
					key -= tally.Hash(w)
				}
			}
		}
	}
	return key
}

// alone tells whether zones have one lawful set of courses each, with members behind all end joints.
func (s *search) alone(open []*zoneState) bool {
	for _, z := range open {
		if !countable(s.products[z.product].product, z.zone, &s.job.Rules, z.all) {
			return false
		}
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
func (a *target) prepare(open []*zoneState) bool {
	p := a.product
	w := weigher{scales: p.scales, sizes: p.weights}
	room := a.roomFor(&w)
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
			a.meter.Work += int64(len(st) * len(room))
			for k, v := range ahead[0] {
				room[k] -= v
			}
			steps, least = append(steps, st), append(least, ahead)
			x := targetRow{zone: z, row: r}
			for _, k := range sc.Near[r] {
				x.near = append(x.near, from+k)
			}
			a.rows = append(a.rows, x)
		}
	}
	if slices.Min(room) < 0 {
		return false
	}
	pairs := tightest(room)
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

// roomFor is what the sheets hold, under every pair, above what is settled already.
func (a *target) roomFor(w *weigher) []int64 {
	p := a.product
	room := make([]int64, p.scales.pairs())
	for _, st := range p.onHand {
		p.scales.holds(st, tally.StockTapers(p.product, st), room)
	}
	for k := range room {
		room[k] += int64(a.sheets) * one * one
	}
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
	return room
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
func (a *target) list(x *targetRow, w *weigher, pairs []int, steps [][]layout.Step, least [][]int64) {
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
		a.meter.Work += int64(perWayStep * n)
		if work++; work > stepsTaken || len(x.ways) >= waysListed {
			a.whole = false
			return
		}
		if at == last {
			y := way{steps: slices.Clone(taken), over: slices.Clone(over)}
			i := 0
			for _, k := range taken {
				st := &steps[i][k]
				for _, z := range st.Sizes {
					size := a.product.demand.Number(z)
					y.wants = append(y.wants, size)
					y.state += tally.Hash(size)
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
	if x.zone.zone.Pattern == job.Centred { // only what is listed is as even as can be
		listed := func(y way) bool {
			return slices.ContainsFunc(sc.rows[x.row], func(c choice) bool { return slices.Equal(c.Seams, y.seams) })
		}
		x.ways, a.whole = slices.DeleteFunc(x.ways, func(y way) bool { return !listed(y) }), false
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
