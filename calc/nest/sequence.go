package nest

import (
	"math"
	"slices"
)

// Where many parts are asked for, sheets are filled one after another, each as well as a search of its own can (the
// outline of sequential value correction, Belov & Scheithauer 2007). How much more than its area a large part is worth
// decides how well the last sheets come out, so a few ways are tried. The best answer is then worked on by turns: by
// exchange, and by ruin and recreate.

const (
	sequenceParts = 120     // pieces from which that pays
	sequenceFill  = 150     // rounds for one sheet, at most
	sequenceIdle  = 60      // of them without a better one
	sequenceTurn  = 1 << 20 // work of the first turn of ruin and recreate, doubled in every later one
	sequenceTurns = 5       // times, at most
	sequenceMany  = 300     // pieces from which exchange gets more work than ruin and recreate
	sequenceShare = 4       // so many times as much
)

// sequenceRoots are the ways of pricing that are tried.
var sequenceRoots = [...]int{3, 1, 2, 0, 4}

// sequencePays tells whether filling sheet by sheet is worth trying.
func (s *search) sequencePays() bool {
	if len(s.sheets) > 1 || s.sheets[0].most > 0 || s.budget.Nodes < mixLeast {
		return false
	}
	return s.pieces() >= sequenceParts && !slices.ContainsFunc(s.types, func(t itemType) bool { return t.need > 0 })
}

// pieces is how many parts are asked for.
func (s *search) pieces() (n int) {
	for _, t := range s.types {
		n += t.n
	}
	return n
}

// sequences answers a problem of many parts.
func (s *search) sequences(best *answer, bound int64) *answer {
	for i, roots := range sequenceRoots {
		if best.cost <= bound {
			return best
		}
		if a := s.sequence(s.filler(uint64(i), roots), best.cost); a != nil {
			best = a
		}
	}
	for best.cost > bound && !s.done() {
		best = s.turns(best)
	}
	return best
}

// sequence fills sheets until no part is left; nil once that cannot cost less than the limit.
func (s *search) sequence(f *filler, limit int64) *answer {
	sh, a, area := &s.sheets[0], &answer{}, 0.0
	for t := range s.types {
		area += float64(s.types[t].area * float64(s.types[t].n))
	}
	f.gather()
	for len(f.lots) > 0 {
		if needs := int64(math.Ceil(area / (sh.area * areaGrace))); a.cost+needs*sh.cost >= limit || s.done() {
			return nil
		}
		b := f.sheet(sequenceFill, sequenceIdle)
		area -= b.area
		a.bins, a.cost = append(a.bins, b), a.cost+sh.cost
		f.drop()
	}
	return a
}

// turns lets exchange and ruin and recreate each work on the answer less one sheet until one of them succeeds or the
// budget ends.
func (s *search) turns(best *answer) *answer {
	e := s.exchanger(best)
	m := s.improver()
	m.start(best, best.cost-1)
	share := int64(1)
	if s.pieces() >= sequenceMany {
		share = sequenceShare
	}
	for turn := 0; !s.done(); turn++ {
		work := int64(sequenceTurn) << min(turn, sequenceTurns)
		if e.run(share * work) {
			return e.answer()
		}
		if m.descend(s.work + work) {
			return m.answer()
		}
	}
	return best
}
