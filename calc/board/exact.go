package board

import (
	"cmp"
	"slices"

	"seamwright/calc/board/tally"
	"seamwright/calc/job"
	"seamwright/calc/layout"
	"seamwright/calc/length"
)

// exact goes through the choices of all open rows, under the schemes as they stand, in order of the length of their
// end joints: depth first, leaving out what can not beat the best layout known. It is complete for small walls and
// stops at its budget on larger ones.
type exact struct {
	*search
	rows  []exactRow
	rest  []length.Length // least end joint of the rows from here on
	best  value
	picks []int
	at    []int
	seen  map[uint64]bool
}

type exactRow struct {
	zone   *zoneState
	row    int
	order  []int // choices by end joint
	before []int // rows decided earlier that this one must not clash with
}

// small tells whether the zones not yet settled have so few rows that all their layouts can be gone through.
func (s *search) small() bool {
	n := 0
	for _, z := range s.zones[s.fixed:] {
		n += len(z.schemes[z.cur].rows)
	}
	return n <= smallRows
}

// exhaust runs the exact stage and leaves the best layout in place.
func (s *search) exhaust(best value) value {
	e := &exact{search: s, best: best, seen: map[uint64]bool{}}
	for _, z := range s.zones[s.fixed:] {
		sc := z.schemes[z.cur]
		for r := range sc.rows {
			if len(sc.rows[r]) == 0 {
				continue
			}
			x := exactRow{zone: z, row: r}
			for c := range sc.rows[r] {
				x.order = append(x.order, c)
			}
			slices.SortStableFunc(x.order, func(a, b int) int { return cmp.Compare(sc.rows[r][a].Butt, sc.rows[r][b].Butt) })
			for k := range e.rows {
				if e.rows[k].zone == z && slices.Contains(sc.Near[r], e.rows[k].row) {
					x.before = append(x.before, k)
				}
			}
			e.rows = append(e.rows, x)
		}
	}
	e.rest = make([]length.Length, len(e.rows)+1)
	for i := len(e.rows) - 1; i >= 0; i-- {
		x := &e.rows[i]
		e.rest[i] = e.rest[i+1]
		if x.zone.zone.Product.Kind != job.WoodPanel {
			e.rest[i] += x.zone.schemes[x.zone.cur].rows[x.row][x.order[0]].Butt
		}
	}
	start := make([]int, len(e.rows))
	for i := range e.rows {
		start[i] = e.rows[i].zone.pick[e.rows[i].row]
	}
	e.picks, e.at = slices.Clone(start), slices.Clone(start)
	// Rows still to be decided count nothing, so that a partial layout is what has been decided and no more.
	for i := range e.rows {
		e.count(i, start[i], -1)
	}
	e.clashesOut()
	e.walk(0)
	for i := range e.rows {
		x := &e.rows[i]
		x.zone.pick[x.row] = e.picks[i]
		e.count(i, e.picks[i], 1)
	}
	for _, z := range s.zones[s.fixed:] {
		s.breaks += z.allClashes()
	}
	return s.evaluate()
}

// clashesOut takes the clashes of the open zones out of the count: the exact stage looks at layouts without any.
func (e *exact) clashesOut() {
	for _, z := range e.zones[e.fixed:] {
		e.breaks -= z.allClashes()
	}
}

func (e *exact) choiceAt(i, c int) *choice {
	x := &e.rows[i]
	return &x.zone.schemes[x.zone.cur].rows[x.row][c]
}

func (e *exact) count(i, c, n int) {
	x := &e.rows[i]
	ch := e.choiceAt(i, c)
	e.search.count(x.zone, ch, n)
}

// perNode is the work of one partial layout.
const perNode = 32

func (e *exact) walk(i int) {
	if e.spent() {
		return
	}
	e.meter.Work += perNode
	if e.least(i).compare(e.best) >= 0 {
		return
	}
	if i == len(e.rows) {
		key := tally.Mix(uint64(e.joints.butt)) + tally.Mix(^uint64(e.joints.plain))
		for _, p := range e.products {
			key += p.demand.State()
		}
		if e.seen[key] {
			return
		}
		e.seen[key] = true
		for k := range e.rows {
			e.rows[k].zone.pick[e.rows[k].row] = e.at[k]
		}
		if v, ok := e.beats(e.best, false); ok {
			e.best = v
			copy(e.picks, e.at)
		}
		return
	}
	x := &e.rows[i]
	sc := x.zone.schemes[x.zone.cur]
	for _, c := range x.order {
		ch := e.choiceAt(i, c)
		clash := slices.ContainsFunc(x.before, func(k int) bool {
			return layout.Clash(ch.Seams, e.choiceAt(k, e.at[k]).Seams, sc.stag)
		})
		if clash {
			continue
		}
		e.at[i] = c
		e.count(i, c, 1)
		e.walk(i + 1)
		e.count(i, c, -1)
		if e.spent() {
			return
		}
	}
}

// least is a value that no completion of the rows decided so far can be below.
func (e *exact) least(i int) value {
	q := quantities{breaks: e.breaks, money: e.charged.money, hours: e.charged.hours, pieces: e.pieces}
	for _, p := range e.products {
		q.sheets += p.bound
		q.price += int64(p.bound) * p.counter.Cheapest()
	}
	joints := e.joints
	joints.butt += e.rest[i]
	q.rough = joints.rough()
	return e.by.value(q)
}
