package nest

import (
	"math/bits"
	"slices"
)

// Work limits of one knapsack: tree nodes before the table takes over, and table entries before only a bound is given.
const (
	knapsackNodes = 30_000
	knapsackTable = 8_000_000
	knapsackSmall = 60_000 // entries up to which the table comes first
)

// knapsack finds the most valuable set of lengths in a stick: value[i] each, at most count[i] of it. All is in whole
// numbers, so that its answer may stand in a proof.
type knapsack struct {
	size, value, count []int64
	order              []int
	take, best         []int64
	top                int64
	nodes              int64
	full               bool // all of the tree was looked through
}

// solve returns the greatest value, the counts that reach it, and whether it is exact; if not, value is an upper bound
// and the counts are merely good. Depth first by value for size (Gilmore & Gomory 1963, Martello & Toth 1990); where that
// tree grows too large, a table over capacities.
func (k *knapsack) solve(capacity int64) (value int64, counts []int64, exact bool) {
	n := len(k.size)
	k.order = k.order[:0]
	for i := range n {
		if k.value[i] > 0 && k.count[i] > 0 && k.size[i] <= capacity {
			k.order = append(k.order, i)
		}
	}
	slices.SortFunc(k.order, func(a, b int) int {
		l, r := wide{}.addProduct(k.value[a], k.size[b]), wide{}.addProduct(k.value[b], k.size[a])
		switch {
		case r.less(l):
			return -1
		case l.less(r):
			return 1
		}
		return a - b
	})
	k.take, k.best = grow(k.take, n), grow(k.best, n)
	k.top, k.nodes, k.full = 0, 0, true
	cells := int64(0)
	for _, i := range k.order {
		cells += int64(bits.Len64(uint64(min(k.count[i], capacity/k.size[i])))) * min(capacity, knapsackTable)
	}
	if cells > knapsackSmall {
		if k.walk(0, capacity, 0); k.full {
			return k.top, k.best, true
		}
	}
	if cells <= knapsackTable {
		k.nodes += cells / 16
		k.table(capacity)
		return k.top, k.best, true
	}
	return k.bound(0, capacity), k.best, false
}

func grow(list []int64, n int) []int64 {
	list = slices.Grow(list[:0], n)[:n]
	clear(list)
	return list
}

// bound fills what is left continuously by the kinds from position at on.
func (k *knapsack) bound(at int, left int64) (value int64) {
	for _, i := range k.order[at:] {
		if k.size[i]*k.count[i] <= left {
			left -= k.size[i] * k.count[i]
			value += k.value[i] * k.count[i]
			continue
		}
		hi, lo := bits.Mul64(uint64(left), uint64(k.value[i]))
		q, _ := bits.Div64(hi, lo, uint64(k.size[i]))
		return value + int64(q)
	}
	return value
}

func (k *knapsack) walk(at int, left, value int64) {
	if value > k.top {
		k.top = value
		copy(k.best, k.take)
	}
	if at == len(k.order) || value+k.bound(at, left) <= k.top {
		return
	}
	if k.nodes++; k.nodes > knapsackNodes {
		k.full = false
		return
	}
	i := k.order[at]
	for c := min(k.count[i], left/k.size[i]); c >= 0; c-- {
		k.take[i] = c
		k.walk(at+1, left-c*k.size[i], value+c*k.value[i])
		if !k.full {
			break
		}
	}
	k.take[i] = 0
}

// table is the plain dynamic programme over capacities, with counts split into powers of two.
func (k *knapsack) table(capacity int64) {
	type lot struct {
		i int
		c int64
	}
	var lots []lot
	for _, i := range k.order {
		left := min(k.count[i], capacity/k.size[i])
		for c := int64(1); left > 0; c *= 2 {
			c = min(c, left)
			lots = append(lots, lot{i, c})
			left -= c
		}
	}
	row := make([]int64, capacity+1)
	took := make([]uint64, (int64(len(lots))*(capacity+1)+63)/64)
	for j, l := range lots {
		size, value := l.c*k.size[l.i], l.c*k.value[l.i]
		at := int64(j) * (capacity + 1)
		for c := capacity; c >= size; c-- {
			if v := row[c-size] + value; v > row[c] {
				row[c] = v
				took[(at+c)/64] |= 1 << ((at + c) % 64)
			}
		}
	}
	k.top = row[capacity]
	clear(k.best)
	c := capacity
	for j := len(lots) - 1; j >= 0; j-- {
		if at := int64(j)*(capacity+1) + c; took[at/64]>>(at%64)&1 == 1 {
			k.best[lots[j].i] += lots[j].c
			c -= lots[j].c * k.size[lots[j].i]
		}
	}
}
