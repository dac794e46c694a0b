package nest

import (
	"cmp"
	"math"
	"slices"
)

// Rounding the continuous optimum fixes one pattern after another for good. Where few sheets are needed, whole numbers of
// the patterns made on the way are better chosen together, by depth first search below the continuous cost of what is left.

const (
	chooseSheets = 40      // sheets up to which that pays
	chooseWork   = 1 << 18 // work of one search, at most
	chooseShare  = 8       // and part of the budget
	chooseDoubt  = 1e-6    // by which a cost in floating point may be wrong; it only prunes, and proves nothing
)

// chooser looks for the cheapest patterns that together give all parts.
type chooser struct {
	s      *search
	cols   []column
	with   [][]int // patterns by the type of part that they hold
	at     solved
	left   []int64
	used   []int
	cost   int64
	chosen []int
	best   *answer
	end    int64 // of the work
}

// choose gives an answer of the patterns that costs less than the best so far, or that one.
func (s *search) choose(cols []column, at solved, best *answer, bound int64) *answer {
	if best.cost <= bound || len(best.bins) > chooseSheets || s.budget.Nodes < mixLeast || s.done() {
		return best
	}
	c := &chooser{s: s, cols: cols, at: at, best: best, with: make([][]int, len(s.types)), used: make([]int, len(s.sheets))}
	c.end = s.work + min(chooseWork, max(0, s.budget.Nodes-s.work)/chooseShare)
	for t := range s.types {
		c.left = append(c.left, int64(s.types[t].n))
	}
	for j := range cols {
		for _, t := range cols[j].Row {
			c.with[t] = append(c.with[t], j)
		}
	}
	c.walk()
	return c.best
}

// dear is the type whose parts that are left cost most in the continuous optimum, none where all have their sheet, and
// least the continuous cost of all that is left.
func (c *chooser) dear() (t int, least float64) {
	t = none
	most := math.Inf(-1)
	for i, n := range c.left {
		if n == 0 {
			continue
		}
		v := float64(c.at.price[i] * float64(n))
		if least += v; c.at.price[i] > most {
			t, most = i, c.at.price[i]
		}
	}
	for k, p := range c.at.few {
		least += float64(p * float64(c.s.sheets[k].most-c.used[k]))
	}
	return t, least
}

// walk takes a pattern for the dearest type that is left, those first that cost least beyond the worth of what they give.
func (c *chooser) walk() {
	t, least := c.dear()
	if t == none {
		c.keep()
		return
	}
	type way struct {
		j    int
		over float64
	}
	var ways []way
	if float64(c.cost)+math.Ceil(least-chooseDoubt) >= float64(c.best.cost) {
		return
	}
	for _, j := range c.with[t] {
		col := &c.cols[j]
		if most := c.s.sheets[col.Of.kind].most; most > 0 && c.used[col.Of.kind] >= most {
			continue
		}
		over := col.Cost
		for i, x := range col.Row {
			over -= float64(c.at.price[x] * min(col.Count[i], float64(c.left[x])))
		}
		ways = append(ways, way{j, over})
	}
	slices.SortStableFunc(ways, func(a, b way) int { return cmp.Compare(a.over, b.over) })
	c.s.work += int64(len(c.left) + len(c.with[t]))
	for _, w := range ways {
		if c.s.work >= c.end || c.s.done() {
			return
		}
		c.take(w.j)
	}
}

// take cuts a pattern once, as far as its parts are left, goes on from there, and gives it back.
func (c *chooser) take(j int) {
	col := &c.cols[j]
	kind := col.Of.kind
	var gave [8]int64
	given := gave[:0]
	for i, t := range col.Row {
		n := min(int64(col.Count[i]), c.left[t])
		given = append(given, n)
		c.left[t] -= n
	}
	c.used[kind]++
	c.cost += c.s.sheets[kind].cost
	c.chosen = append(c.chosen, j)
	c.walk()
	c.chosen = c.chosen[:len(c.chosen)-1]
	c.cost -= c.s.sheets[kind].cost
	c.used[kind]--
	for i, t := range col.Row {
		c.left[t] += given[i]
	}
}

// keep makes an answer of the patterns chosen; what is no longer asked for is left off.
func (c *chooser) keep() {
	if c.cost >= c.best.cost {
		return
	}
	c.best = &answer{cost: c.cost}
	left := make([]int64, len(c.s.types))
	for t := range left {
		left[t] = int64(c.s.types[t].n)
	}
	for _, j := range c.chosen {
		col := column{Of: c.cols[j].Of, Row: c.cols[j].Row}
		for i, t := range col.Row {
			n := min(int64(c.cols[j].Count[i]), left[t])
			col.Count = append(col.Count, float64(n))
			left[t] -= n
		}
		c.best.bins = append(c.best.bins, c.s.trimmed(col))
	}
}
