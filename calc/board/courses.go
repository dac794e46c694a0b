package board

import (
	"cmp"
	"math"
	"slices"

	"seamwright/calc/length"
)

// Work of the search for other sets of courses.
const (
	setCare     = 4_000_000 // places looked at under one set
	setNestings = 3         // layouts that the nesting is asked for
	setsTried   = 5         // sets tried for one number of sheets
	setsKept    = 60        // those that look best: the ones that have been tried before are passed over
	setsWeighed = 20_000    // sets weighed
)

// underOtherCourses tries to do with a number of sheets of a product, and less end joint where that is the number that stands,
// under other schemes: those first that leave most room on the sheets above what their rows weigh at the least, or those
// that may do with least joint. It leaves the schemes as they were where none succeeds.
func (s *search) underOtherCourses(open []*zoneState, p *productState, sheets int, best value, byJoint bool) bool {
	old := make([]int, len(open))
	oldPicks := make([][]int, len(open))
	for i, z := range open {
		old[i], oldPicks[i] = z.cur, z.pick
	}
	tries := 0
	for _, v := range s.courseSets(open, p, sheets, byJoint) {
		for i, z := range open {
			if v[i] != z.cur {
				s.turn(z, v[i], slices.Clone(z.schemes[v[i]].starts[0]))
			}
		}
		a := s.target(p, sheets, min(s.meter.Work+setCare, s.until))
		a.cuts = setNestings
		if a.reached(open, best) {
			return true
		}
		for i, z := range open {
			s.turn(z, old[i], oldPicks[i])
		}
		if a.fresh {
			tries++
		}
		if tries == setsTried || s.spent() {
			break
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

// lining is a scheme of a zone as it looks before anything is cut: what it weighs at the least, under the pairs watched,
// and the end and mixed joint that it has at the least.
type lining struct {
	scheme int
	weight []int64
	rough  length.Length
}

// liningSet is a lining for every zone.
type liningSet struct {
	schemes []int
	left    int64 // room under the pair that leaves least
	rough   length.Length
}

// courseSets are sets of schemes, one for every zone, that may do with a number of sheets.
func (s *search) courseSets(open []*zoneState, p *productState, sheets int, byJoint bool) [][]int {
	linings, room := s.linings(open, p, sheets)
	var sets []liningSet
	current, picked := make([]int, len(open)), make([]int, len(open))
	rooms := make([][]int64, len(open)+1)
	rooms[0] = room
	for i, z := range open {
		current[i], rooms[i+1] = z.cur, make([]int64, len(room))
	}
	var walk func(i int, rough length.Length)
	walk = func(i int, rough length.Length) {
		if i == len(open) {
			if !slices.Equal(picked, current) {
				sets = append(sets, liningSet{slices.Clone(picked), slices.Min(rooms[i]), rough})
			}
			return
		}
		for _, l := range linings[i] {
			least := int64(math.MaxInt64)
			for q, v := range l.weight {
				rooms[i+1][q] = rooms[i][q] - v
				least = min(least, rooms[i+1][q])
			}
			s.meter.Work += int64(len(l.weight))
			if picked[i] = l.scheme; least >= 0 {
				walk(i+1, rough+l.rough)
			}
		}
	}
	walk(0, 0)
	slices.SortStableFunc(sets, func(x, y liningSet) int {
		if byJoint {
			return cmp.Or(cmp.Compare(x.rough, y.rough), cmp.Compare(y.left, x.left))
		}
		return cmp.Compare(y.left, x.left)
	})
	var found [][]int
	for _, x := range sets[:min(len(sets), setsKept)] {
		found = append(found, x.schemes)
	}
	return found
}

// linings are the schemes that a zone may be given, no worse than the present one, and the room that a number of sheets
// leaves to all of them, under the pairs of scales that leave least.
func (s *search) linings(open []*zoneState, p *productState, sheets int) (linings [][]lining, room []int64) {
	a := s.target(p, sheets, 0)
	w := weigher{scales: p.scales, sizes: p.weights}
	all := a.roomFor(&w)
	slack := slices.Clone(all)
	linings = make([][]lining, len(open))
	for i, z := range open {
		var least []int64
		for k, sc := range z.schemes {
			if sc.breaks > z.schemes[z.cur].breaks {
				continue
			}
			weight := w.scheme(sc)
			if weight == nil {
				continue
			}
			linings[i] = append(linings[i], lining{k, weight, sc.leastRough()})
			if least == nil {
				least = slices.Clone(weight)
			} else {
				lower(least, weight)
			}
		}
		for q, v := range least {
			slack[q] -= v
		}
	}
	pairs := tightest(slack)
	watched := func(of []int64) (few []int64) {
		for _, q := range pairs {
			few = append(few, of[q])
		}
		return few
	}
	for i := range linings {
		for k := range linings[i] {
			linings[i][k].weight = watched(linings[i][k].weight)
		}
	}
	thin(linings)
	return linings, watched(all)
}

// tightest are the pairs of scales that leave least room, each room once: pairs are mostly alike for all pieces here.
func tightest(room []int64) []int {
	pairs := make([]int, len(room))
	for k := range pairs {
		pairs[k] = k
	}
	slices.SortStableFunc(pairs, func(x, y int) int { return cmp.Compare(room[x], room[y]) })
	pairs = slices.CompactFunc(pairs, func(x, y int) bool { return room[x] == room[y] })
	return pairs[:min(len(pairs), pairsWatched)]
}

// thin drops the schemes that look least likely, the last of the zone that has most left, until their sets are few enough
// to be gone through.
func thin(linings [][]lining) {
	sets := func() int {
		all := 1
		for _, l := range linings {
			if all *= max(1, len(l)); all > setsWeighed {
				break
			}
		}
		return all
	}
	for sets() > setsWeighed {
		most := 0
		for i := range linings {
			if len(linings[i]) > len(linings[most]) {
				most = i
			}
		}
		linings[most] = linings[most][:len(linings[most])-1]
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
	if sc.least != nil {
		return sc.least
	}
	sum := make([]int64, w.pairs())
	for r := range sc.rows {
		if len(sc.rows[r]) == 0 || !w.leastWay(sc.Steps(r), sum) {
			return nil
		}
	}
	sc.least = sum
	return sum
}
