package nest

import "slices"

const (
	exchangePast   = 40  // rounds that more may be loose for
	exchangeSheets = 2   // emptied in a round, at most
	exchangeFill   = 200 // rounds for one of them, at most
	exchangeIdle   = 40  // of them without a better one
)

// exchanger empties a few sheets at a time and fills them again from their own parts and those without a sheet, as
// refill does with sticks, until none is loose.
type exchanger struct {
	f      *filler
	bins   []bin
	loose  float64 // area of the parts without a sheet
	past   [exchangePast]float64
	rounds int
	at     []int // sheets of the round
	old    []bin // what they held
}

// exchanger begins with an answer less its emptiest sheet.
func (s *search) exchanger(a *answer) *exchanger {
	e := &exchanger{f: s.filler(uint64(len(a.bins)), 0), bins: slices.Clone(a.bins)}
	clear(e.f.left)
	worst := 0
	for i := range e.bins {
		if e.bins[i].area < e.bins[worst].area {
			worst = i
		}
	}
	e.loose = e.bins[worst].area
	e.f.count(&e.bins[worst], +1)
	e.bins = slices.Delete(e.bins, worst, worst+1)
	for i := range e.past {
		e.past[i] = e.loose
	}
	return e
}

// run goes on until nothing is loose, or the work or the budget ends: false.
func (e *exchanger) run(work int64) bool {
	s := e.f.s
	for end := s.work + work; s.work < end && !s.done() && len(e.bins) > 0; e.rounds++ {
		if !slices.ContainsFunc(e.f.left, func(n int) bool { return n > 0 }) {
			return true
		}
		e.round()
	}
	return false
}

// round fills a few sheets anew, and takes that back where it leaves more loose than of late.
func (e *exchanger) round() {
	f, loose := e.f, e.loose
	e.at, e.old = e.at[:0], e.old[:0]
	for range min(len(e.bins), 1+f.rng.IntN(exchangeSheets)) {
		i := e.draw()
		e.at, e.old = append(e.at, i), append(e.old, e.bins[i])
		loose += e.bins[i].area
		f.count(&e.bins[i], +1)
	}
	f.gather()
	for _, i := range e.at {
		e.bins[i] = f.sheet(exchangeFill, exchangeIdle)
		loose -= e.bins[i].area
	}
	h := &e.past[e.rounds%exchangePast]
	if loose <= e.loose || loose <= *h {
		e.loose = loose
	} else {
		for j, i := range e.at {
			f.count(&e.bins[i], +1)
			f.count(&e.old[j], -1)
			e.bins[i] = e.old[j]
		}
	}
	*h = min(*h, e.loose)
}

// draw picks a sheet for the round, the emptier of two.
func (e *exchanger) draw() int {
	for {
		i := e.f.rng.IntN(len(e.bins))
		if j := e.f.rng.IntN(len(e.bins)); e.bins[j].area < e.bins[i].area && !slices.Contains(e.at, j) {
			i = j
		}
		if !slices.Contains(e.at, i) {
			return i
		}
	}
}

// answer is what the sheets hold, without those that hold nothing.
func (e *exchanger) answer() *answer {
	a := &answer{}
	for _, b := range e.bins {
		if b.root != none {
			a.bins, a.cost = append(a.bins, b), a.cost+e.f.s.sheets[b.sheet].cost
		}
	}
	return a
}
