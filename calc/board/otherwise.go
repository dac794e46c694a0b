package board

import (
	"cmp"
	"slices"

	"seamwright/calc/length"
)

// Work of the search for other sets of courses.
const (
	otherCare  = 50_000 // pieces placed under one set
	otherCuts  = 3      // layouts that the nesting is asked for
	otherTries = 5      // sets tried for one number of sheets
	otherAll   = 20_000 // sets weighed
)

// otherwise tries to do with a number of sheets of a product, and less end joint where that is the number that stands,
// under other schemes: those first that leave most room on the sheets above what their rows weigh at the least, or those
// that may do with least joint. It leaves the schemes as they were where none succeeds.
func (s *search) otherwise(open []*zoneState, p *productState, sheets int, best value, byJoint bool) bool {
	old := make([]int, len(open))
	oldPicks := make([][]int, len(open))
	for i, z := range open {
		old[i], oldPicks[i] = z.cur, z.pick
	}
	for _, v := range s.others(open, p, sheets, byJoint) {
		for i, z := range open {
			if v[i] != z.cur {
				s.turn(z, v[i], slices.Clone(z.schemes[v[i]].starts[0]))
			}
		}
		a := s.attempt(p, sheets, p.quick.placed+otherCare)
		a.cuts = otherCuts
		if a.succeeds(open, best) {
			return true
		}
		for i, z := range open {
			s.turn(z, old[i], oldPicks[i])
		}
	}
	return false
}

// turn gives a zone another scheme.
func (s *search) turn(z *zoneState, scheme int, picks []int) {
	s.enter(z, -1)
	z.cur, z.pick = scheme, picks
	s.enter(z, 1)
}

// others are sets of schemes, one for every zone, that may do with a number of sheets.
func (s *search) others(open []*zoneState, p *productState, sheets int, byJoint bool) [][]int {
	a := s.attempt(p, sheets, 0)
	w := weigher{scales: p.scales, sizes: p.weights}
	room := a.roomFor(&w)
	type set struct {
		schemes []int
		left    int64         // room under the pair that leaves least
		rough   length.Length // of joint at the least
	}
	current := make([]int, len(open))
	least := make([][][]int64, len(open))
	for i, z := range open {
		current[i] = z.cur
		least[i] = make([][]int64, len(z.schemes))
		for k, sc := range z.schemes {
			if sc.breaks <= z.schemes[z.cur].breaks {
				least[i][k] = w.scheme(sc)
			}
		}
	}
	thin(least)
	var sets []set
	var walk func(i int, rough length.Length, schemes []int, room []int64)
	walk = func(i int, rough length.Length, schemes []int, room []int64) {
		if slices.ContainsFunc(room, func(v int64) bool { return v < 0 }) {
			return
		}
		if i == len(open) {
			if !slices.Equal(schemes, current) {
				sets = append(sets, set{slices.Clone(schemes), slices.Min(room), rough})
			}
			return
		}
		for k := range least[i] {
			if least[i][k] == nil {
				continue
			}
			rest := make([]int64, len(room))
			for q, v := range least[i][k] {
				rest[q] = room[q] - v
			}
			walk(i+1, rough+open[i].schemes[k].leastRough(), append(schemes, k), rest)
		}
	}
	walk(0, 0, nil, room)
	slices.SortStableFunc(sets, func(x, y set) int {
		if byJoint {
			return cmp.Or(cmp.Compare(x.rough, y.rough), cmp.Compare(y.left, x.left))
		}
		return cmp.Compare(y.left, x.left)
	})
	var found [][]int
	for _, x := range sets[:min(len(sets), otherTries)] {
		found = append(found, x.schemes)
	}
	return found
}

// thin drops the schemes that look least likely, zone by zone those that have most left, until their sets are few enough to
// be gone through.
func thin(least [][][]int64) {
	left := make([]int, len(least))
	for i := range least {
		for _, v := range least[i] {
			if v != nil {
				left[i]++
			}
		}
	}
	sets := func() int {
		all := 1
		for _, n := range left {
			if all *= max(1, n); all > otherAll {
				break
			}
		}
		return all
	}
	for sets() > otherAll {
		i := slices.Index(left, slices.Max(left))
		last := len(least[i]) - 1
		for least[i][last] == nil {
			last--
		}
		least[i][last] = nil
		left[i]--
	}
}

// leastRough is the least end and mixed joint of a scheme.
func (sc *schemeState) leastRough() length.Length {
	sum := sc.long.butt + sc.long.mixed
	for _, cs := range sc.rows {
		if len(cs) > 0 {
			sum += slices.MinFunc(cs, func(a, b choice) int { return cmp.Compare(a.Butt, b.Butt) }).Butt
		}
	}
	return sum
}

// scheme is the least that the rows of a scheme weigh, under every pair; nil where no sheet for sale covers one.
func (w *weigher) scheme(sc *schemeState) []int64 {
	sum := make([]int64, w.pairs())
	for r := range sc.rows {
		if len(sc.rows[r]) == 0 || !w.leastWay(sc.Steps(r), sum) {
			return nil
		}
	}
	return sum
}
