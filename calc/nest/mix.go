package nest

import (
	"cmp"
	"slices"
)

// With several kinds of sheet, how many of each is half of the answer. Ruin and recreate that may change the kinds finds
// good numbers, but seldom stays with them long enough to fill the sheets well; so some numbers are also tried as they are.

const (
	mixLeast = 1 << 19 // budget from which that pays
	mixMost  = 24      // numbers of sheets that are tried, those with the most room
	mixFree  = 1 << 18 // work of one search that may change the kinds; doubled after every turn without a better answer
	mixHeld  = 1 << 14 // work of one search that may not
	mixWork  = 50_000  // numbers looked at
)

// mixed takes turns in searching with the kinds free and with numbers of them held.
func (m *improver) mixed(best *answer, bound int64) *answer {
	s := m.s
	for turn := 0; best.cost > bound && !s.done(); turn++ {
		grow := min(turn, 20)
		m.start(best, best.cost-1)
		if m.descend(s.work + mixFree<<grow) {
			best, turn = m.answer(), -1
			continue
		}
		for _, numbers := range s.mixes(best.cost - 1) {
			if m.hold(numbers); m.descend(s.work + mixHeld<<grow) {
				best, turn = m.answer(), -1
				break
			}
		}
	}
	return best
}

// hold begins with the given numbers of empty sheets, which stay.
func (m *improver) hold(numbers []int) {
	m.cur = state{used: slices.Clone(numbers), out: m.s.order(0)}
	for k, n := range numbers {
		for range n {
			m.cur.bins = append(m.cur.bins, m.s.empty(k))
			m.cur.cost += m.s.sheets[k].cost
		}
	}
	for _, t := range m.cur.out {
		m.cur.rest += m.s.types[t].area
	}
	m.several = false
	m.ready()
}

// mixes lists numbers of sheets of each kind that cost no more than the limit, that no sheet can be added to, and whose
// area suffices: those with the most area first.
func (s *search) mixes(limit int64) [][]int {
	need, pieces := 0.0, 0
	for _, t := range s.types {
		need += float64(t.area * float64(t.n))
		pieces += t.n
	}
	type mix struct {
		numbers []int
		area    float64
	}
	var all []mix
	numbers := make([]int, len(s.sheets))
	work := 0
	var walk func(k int, left int64, area float64)
	walk = func(k int, left int64, area float64) {
		if work++; work > mixWork {
			return
		}
		if k == len(s.sheets) {
			for j, sh := range s.sheets {
				if sh.cost <= left && (sh.most == 0 && numbers[j] < pieces || numbers[j] < sh.most) {
					return
				}
			}
			if area*areaGrace >= need {
				all = append(all, mix{slices.Clone(numbers), area})
			}
			return
		}
		sh := &s.sheets[k]
		most := pieces
		if sh.most != 0 {
			most = min(most, max(sh.most, 0))
		}
		if sh.cost > 0 {
			most = int(min(int64(most), left/sh.cost))
		}
		for n := most; n >= 0; n-- {
			numbers[k] = n
			walk(k+1, left-int64(n)*sh.cost, area+float64(float64(n)*sh.area))
		}
		numbers[k] = 0
	}
	walk(0, limit, 0)
	slices.SortStableFunc(all, func(a, b mix) int { return cmp.Compare(b.area, a.area) })
	var out [][]int
	for _, x := range all[:min(len(all), mixMost)] {
		out = append(out, x.numbers)
	}
	return out
}
