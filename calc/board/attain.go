package board

import (
	"cmp"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/layout"
	"seamwright/calc/length"
)

// Work of the search for a given number of sheets.
const (
	attainWays  = 160     // sets of end joints looked into for one row
	attainSteps = 2_000   // steps along one row
	attainNodes = 5_000   // partial layouts on the way to a first one
	attainTries = 20_000  // changes tried
	attainRows  = 40      // rows of one product, at most
	attainCuts  = 30      // layouts that the nesting is asked for
	attainWork  = 20_000  // work of the nesting for one layout
	smallCare   = 300_000 // pieces placed in search of few rows
	roomCare    = 100_000 // and of rooms, where the project asks for the fewest sheets
	attainTurns = 2       // times that other courses may make the end joints less
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
	cuts    int  // layouts that the nesting may still be asked for
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
// end joints less at the number found. It leaves the best layout in place. Rooms, which take it longer than a frame, are
// looked into with full effort only.
func (s *search) attain(best value) value {
	if s.by.order != fewestSheets || !s.small() && !s.deep {
		return best
	}
	care := smallCare
	if !s.small() {
		care = roomCare
	}
	turns := attainTurns
	if s.brief {
		care, turns = care/3, 0
	}
	for _, p := range s.products {
		open := s.openOf(p)
		if len(open) == 0 || !p.tally.ok {
			continue
		}
		work := p.quick.placed + care
		before := p.tally.sheets
		if s.deep && !p.fitted && p.bound < before {
			p.bound, p.fitted = s.tailored(p, before), true
		}
		for n := p.tally.sheets - 1; n >= p.bound && p.quick.placed < work; n-- {
			a := s.attempt(p, n, work)
			a.whole = s.fixed == 0 && s.alone(open)
			if a.succeeds(open, best) || s.otherwise(open, p, n, best, false) {
				best = s.evaluate()
				continue
			}
			if a.whole && n == p.bound {
				p.bound++ // proven: nothing has been left out
			}
			break
		}
		if p.tally.sheets < before {
			best, _ = s.polish(best, nil)
		}
		work = max(work, p.quick.placed+care/2)
		if s.attempt(p, p.tally.sheets, work).succeeds(open, best) {
			best = s.evaluate()
		}
		for n := 0; n < turns && s.otherwise(open, p, p.tally.sheets, best, true); n++ {
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

func (s *search) attempt(p *productState, sheets, until int) *attain {
	return &attain{search: s, product: p, sheets: sheets, until: until, cuts: attainCuts, known: map[uint64]short{}}
}

// succeeds searches under the schemes as they stand, and leaves what it finds in place.
func (a *attain) succeeds(open []*zoneState, best value) bool {
	rows := 0
	for _, z := range open {
		rows += len(z.schemes[z.cur].rows)
	}
	if rows > attainRows || a.product.quick.placed >= a.until || !a.prepare(open) {
		a.whole = false
		return false
	}
	return a.climb(open, best)
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
func (a *attain) prepare(open []*zoneState) bool {
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

// roomFor is what the sheets hold, under every pair, above what is settled already.
func (a *attain) roomFor(w *weigher) []int64 {
	p := a.product
	room := make([]int64, p.scales.pairs())
	for _, st := range p.quick.onHand {
		p.scales.holds(st, stockTapers(p.product, st), room)
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
