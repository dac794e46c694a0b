package nest

import (
	"math"
	"math/rand/v2"
	"slices"
)

const (
	history      = 120   // rounds that an answer may be worse for
	maxTaken     = 6     // pieces taken out in a round, at most
	spareSlots   = 3     // sheets more than the answer at hand that a better one may use
	closeOdds    = 4     // one ruin in so many gives a whole sheet back
	patience     = 30000 // rounds without a better answer before worse ones may pass again
	reheatParts  = 0.7   // how much worse then, in average pieces left out
	passOver     = 100   // one sheet in so many is not seen when a place is sought
	oneWayOdds   = 16    // one part in so many that may be turned is put where it is best in one way of lying
	oneWaySheets = 6     // with no more sheets than that, which offer little else to choose
	roundWork    = 64    // work that a round counts besides the places it weighs
)

// state is a set of sheets within a cost limit, and the pieces that found no place in them.
type state struct {
	bins []bin
	out  []int
	cost int64
	rest float64 // area of out
	used []int
}

// closed marks a slot without a sheet: with several kinds of sheet, ruin may close one and recreate open another.
const closed = -1

// improver carries out ruin and recreate.
type improver struct {
	s       *search
	rng     *rand.Rand
	cur     state
	recall  *recall
	undo    []saved
	trial   []bool // sheets that this round changed
	spare   []bin  // sheets that are no longer used: memory
	key     []float64
	limit   int64
	several bool
	usedWas []int
	outWas  []int
}

type saved struct {
	at    int
	bin   bin
	stamp int32
}

func (m *improver) touch(i int) { m.recall.touch(i, &m.cur.bins[i]) }

// memory is that of a sheet no longer used.
func (m *improver) memory() (old bin) {
	if n := len(m.spare); n > 0 {
		old = m.spare[n-1]
		m.spare = m.spare[:n-1]
	}
	return old
}

// drop keeps the memory of a sheet.
func (m *improver) drop(b bin) {
	if b.nodes != nil {
		m.spare = append(m.spare, b)
	}
}

func (s *search) improver() *improver { return &improver{s: s, rng: rand.New(rand.NewPCG(1, 2))} }

// improve looks for answers cheaper than best until the budget ends or the bound is met.
func (s *search) improve(best *answer, bound int64) *answer {
	m := s.improver()
	if len(s.sheets) > 1 && s.budget.Nodes >= mixLeast {
		return m.mixed(best, bound)
	}
	for best.cost > bound && !s.done() {
		m.start(best, best.cost-1)
		if !m.descend(math.MaxInt64) {
			break
		}
		best = m.answer()
	}
	return best
}

// rescue looks for any answer at all where the sheets are limited and no construction found one.
func (s *search) rescue() *answer {
	m := &improver{s: s, rng: rand.New(rand.NewPCG(7, 11)), several: true}
	m.cur = state{used: make([]int, len(s.sheets))}
	m.limit = math.MaxInt64
	m.cur.out = s.order(0)
	slots := 0
	for _, sh := range s.sheets {
		if sh.most == 0 {
			slots += len(m.cur.out)
		}
		slots += max(0, min(sh.most, len(m.cur.out)))
	}
	for range min(slots, len(m.cur.out)) {
		m.cur.bins = append(m.cur.bins, bin{sheet: closed, root: none})
	}
	for _, t := range m.cur.out {
		m.cur.rest += s.types[t].area
	}
	if m.ready(); !m.descend(math.MaxInt64) {
		return nil
	}
	return m.answer()
}

// answer is the present state as an answer, without sheets that hold nothing.
func (m *improver) answer() *answer {
	a := &answer{cost: m.cur.cost}
	for i := range m.cur.bins {
		if m.cur.bins[i].sheet == closed {
			continue
		}
		if m.cur.bins[i].root != none {
			a.bins = append(a.bins, m.cur.bins[i].clone())
		} else {
			a.cost -= m.s.sheets[m.cur.bins[i].sheet].cost
		}
	}
	return a
}

// start takes sheets away until the cost is within the limit: those with the least on them for their cost.
func (m *improver) start(a *answer, limit int64) {
	m.limit = limit
	m.cur = state{used: make([]int, len(m.s.sheets))}
	for i := range a.bins {
		m.cur.bins = append(m.cur.bins, a.bins[i].clone())
		m.cur.used[a.bins[i].sheet]++
	}
	m.cur.cost = a.cost
	m.several = len(m.s.sheets) > 1
	for m.cur.cost > limit {
		worst := none
		for i := range m.cur.bins {
			if m.s.sheets[m.cur.bins[i].sheet].cost == 0 {
				continue
			}
			if worst == none || m.cur.bins[i].area/float64(m.s.sheets[m.cur.bins[i].sheet].cost) < m.cur.bins[worst].area/float64(m.s.sheets[m.cur.bins[worst].sheet].cost) {
				worst = i
			}
		}
		m.closeBin(worst)
	}
	m.ready()
}

// ready makes the slots and the memory of places.
func (m *improver) ready() {
	if m.several {
		for range spareSlots {
			m.cur.bins = append(m.cur.bins, bin{sheet: closed, root: none})
		}
	}
	m.recall = m.s.recalls()
	m.trial, m.undo = make([]bool, len(m.cur.bins)), m.undo[:0]
	m.key = make([]float64, len(m.s.types))
	for i := range m.cur.bins {
		m.touch(i)
	}
}

func (m *improver) closeBin(i int) {
	b := &m.cur.bins[i]
	for _, n := range b.nodes {
		if n.item != none {
			m.cur.out = append(m.cur.out, int(n.item))
			m.cur.rest += m.s.types[n.item].area
		}
	}
	m.cur.cost -= m.s.sheets[b.sheet].cost
	m.cur.used[b.sheet]--
	m.cur.bins = slices.Delete(m.cur.bins, i, i+1)
}

// descend ruins and recreates until nothing is left out; false when so much work is done, or the budget ends, first.
func (m *improver) descend(until int64) bool {
	s := m.s
	var hist [history]float64
	m.recreate()
	for i := range hist {
		hist[i] = m.cur.rest
	}
	least, since := m.cur.rest, 0
	for it := 0; m.cur.rest > 0 || len(m.cur.out) > 0; it++ {
		if len(m.cur.bins) == 0 || s.work >= until || s.done() {
			return false
		}
		s.work += roundWork
		m.outWas = append(m.outWas[:0], m.cur.out...)
		was, costWas := m.cur.rest, m.cur.cost
		m.usedWas = append(m.usedWas[:0], m.cur.used...)
		m.settle()
		m.ruin()
		m.recreate()
		now := m.cur.rest
		if now < least {
			least, since = now, it
		} else if it-since > patience {
			m.reheat(&hist)
			least, since = m.cur.rest, it
		}
		h := &hist[it%history]
		if now <= was || now <= *h {
			*h = min(*h, now)
			if now > *h {
				*h = now
			}
		} else {
			m.takeBack()
			m.cur.out = append(m.cur.out[:0], m.outWas...)
			m.cur.rest, m.cur.cost = was, costWas
			copy(m.cur.used, m.usedWas)
			*h = was
		}
	}
	return true
}

// reheat lets worse answers pass again for a while, after a long time without a better one.
func (m *improver) reheat(hist *[history]float64) {
	mean, n := 0.0, 0
	for _, t := range m.s.types {
		mean += float64(t.area * float64(t.n))
		n += t.n
	}
	for i := range hist {
		hist[i] = m.cur.rest + float64(mean/float64(n)*m.rng.Float64()*reheatParts)
	}
}

// settle takes the last round as done.
func (m *improver) settle() {
	for _, u := range m.undo {
		m.trial[u.at] = false
		m.drop(u.bin)
	}
	m.undo = m.undo[:0]
}

// takeBack undoes the last round.
func (m *improver) takeBack() {
	for _, u := range m.undo {
		m.drop(m.cur.bins[u.at])
		m.cur.bins[u.at] = u.bin
		m.recall.back(u.at, &m.cur.bins[u.at], u.stamp)
		m.trial[u.at] = false
	}
	m.undo = m.undo[:0]
}

// save keeps the bin as it is for undo, unless that was done in this round, and puts the other one in its place.
func (m *improver) save(i int, other bin) {
	if m.trial[i] {
		m.drop(m.cur.bins[i])
	} else {
		m.undo = append(m.undo, saved{i, m.cur.bins[i], m.recall.stamp[i]})
		m.trial[i] = true
	}
	m.cur.bins[i] = other
}

// change makes the bin one that may be changed in place.
func (m *improver) change(i int) *bin {
	b := &m.cur.bins[i]
	if !m.trial[i] {
		c := *b
		old := m.memory()
		c.nodes, c.slots = append(old.nodes[:0], b.nodes...), old.slots // slots are found anew after the change
		m.save(i, c)
	}
	return b
}

// ruin takes a few nodes out of one to three sheets, the emptier of two drawn: full ones mostly stay.
func (m *improver) ruin() {
	left := 1 + m.rng.IntN(maxTaken)
	for range 3 {
		if left <= 0 {
			break
		}
		i := m.rng.IntN(len(m.cur.bins))
		if j := m.rng.IntN(len(m.cur.bins)); m.recall.free[j].area > m.recall.free[i].area {
			i = j
		}
		b := &m.cur.bins[i]
		if b.root == none {
			continue
		}
		if m.several && m.rng.IntN(closeOdds) == 0 {
			left -= b.parts
			m.close(i)
			continue
		}
		take := 1 + m.rng.IntN(min(left, 3))
		var picks [3]int32
		for j := range take {
			picks[j] = int32(m.rng.IntN(len(b.nodes)))
		}
		before := len(m.cur.out)
		var rest bin
		rest, m.cur.out = m.s.without(b, picks[:take], m.memory(), m.cur.out)
		m.save(i, rest)
		for _, t := range m.cur.out[before:] {
			m.cur.rest += m.s.types[t].area
		}
		left -= len(m.cur.out) - before
		if m.touch(i); m.several && m.cur.bins[i].root == none {
			m.close(i)
		}
	}
}

// close takes all parts out of a sheet and gives it back.
func (m *improver) close(i int) {
	b := &m.cur.bins[i]
	for _, n := range b.nodes {
		if n.item != none {
			m.cur.out = append(m.cur.out, int(n.item))
			m.cur.rest += m.s.types[n.item].area
		}
	}
	m.cur.cost -= m.s.sheets[b.sheet].cost
	m.cur.used[b.sheet]--
	m.save(i, bin{sheet: closed, root: none})
	m.touch(i)
}

// open takes a new sheet for type t, if a slot and the cost limit allow one: mostly the cheapest for its area.
func (m *improver) open(t int) (at int, where place) {
	s := m.s
	if !m.several {
		return none, place{}
	}
	slot := slices.IndexFunc(m.cur.bins, func(b bin) bool { return b.sheet == closed })
	if slot < 0 {
		return none, place{}
	}
	best, rate := none, 0.0
	for k := range s.sheets {
		sh := &s.sheets[k]
		if sh.most < 0 || sh.most > 0 && m.cur.used[k] >= sh.most || m.cur.cost+sh.cost > m.limit {
			continue
		}
		e := s.empty(k)
		p, ok := s.best(&e, t)
		if !ok {
			continue
		}
		if r := float64(sh.cost) / sh.area * (0.5 + float64(m.rng.Float64())); best == none || r < rate {
			best, rate, where = k, r, p
		}
	}
	if best == none {
		return none, place{}
	}
	b, old := s.empty(best), m.memory()
	b.nodes, b.slots = old.nodes[:0], old.slots[:0]
	m.save(slot, b)
	m.cur.cost += s.sheets[best].cost
	m.cur.used[best]++
	return slot, where
}

// recreate puts the pieces left out back, large ones mostly first, each into its best place; now and then a place is
// passed over, so that the same ruin does not always heal the same way.
func (m *improver) recreate() {
	s := m.s
	out := m.cur.out
	key := m.key
	mode := m.rng.IntN(4)
	for _, t := range out {
		ty := &s.types[t]
		switch mode {
		case 0:
			key[t] = ty.area
		case 1:
			key[t] = float64(max(ty.w, ty.h)) * float64(max(ty.w, ty.h))
		case 2:
			key[t] = ty.area * (0.5 + float64(m.rng.Float64()))
		default:
			key[t] = m.rng.Float64()
		}
	}
	slices.SortStableFunc(out, func(a, b int) int {
		if key[a] > key[b] {
			return -1
		}
		if key[a] < key[b] {
			return 1
		}
		return a - b
	})
	kept := out[:0]
	for _, t := range out {
		at, where := m.find(t)
		if at == none {
			if at, where = m.open(t); at == none {
				kept = append(kept, t)
				continue
			}
		}
		s.put(m.change(at), t, where)
		m.touch(at)
		m.cur.rest -= s.types[t].area
	}
	m.cur.out = kept
	if len(kept) == 0 {
		m.cur.rest = 0
	}
}

// find is the best place of a type in any sheet; now and then a sheet is passed over.
func (m *improver) find(t int) (at int, where place) {
	if m.s.types[t].turn && len(m.cur.bins) <= oneWaySheets && m.rng.IntN(oneWayOdds) == 0 {
		return m.findLying(t, straight<<m.rng.IntN(2))
	}
	r := m.recall
	row, ty := r.row(t), &m.s.types[t]
	at = none
	var best *known
	for i := range r.free {
		if !r.free[i].holds(ty) {
			continue
		}
		k := r.find(&row[i], i, t, &m.cur.bins[i], m.trial[i])
		if k.fits() && (best == nil || k.score < best.score) && m.rng.IntN(passOver) != 0 {
			at, best = i, k
		}
	}
	if best == nil {
		return none, place{}
	}
	return at, best.place()
}

// findLying is the best place of a type that is to lie in one way, though the other may look better by itself.
func (m *improver) findLying(t, way int) (at int, where place) {
	ty := &m.s.types[t]
	at = none
	for i := range m.recall.free {
		if !m.recall.free[i].holds(ty) {
			continue
		}
		if p, ok := m.s.bestLying(&m.cur.bins[i], t, way); ok && (at == none || p.score < where.score) {
			at, where = i, p
		}
	}
	return at, where
}

// done tells whether the budget has ended.
func (s *search) done() bool {
	if s.work >= s.budget.Nodes {
		return true
	}
	s.asked++
	return s.asked&7 == 0 && s.halted()
}

// halted asks the context and the clock; once they say stop, the budget is at its end.
func (s *search) halted() bool {
	if s.ctx.Err() != nil || s.budget.Stop != nil && s.budget.Stop() {
		s.budget.Nodes = 0
		return true
	}
	return false
}
