package nest

import (
	"math/bits"
	"slices"
)

// Work limits of one knapsack: nodes of the tree before the lists take over, and list entries before only a bound is given.
const (
	knapsackNodes = 30_000
	knapsackSums  = 1_000_000 // at most 32 MB
	knapsackSmall = 60_000    // lots times capacity up to which the lists come first
	knapsackQuick = 2_000     // nodes of the tree where any set of more than a given value will do
)

// knapsack finds the most valuable set of lengths in a stick: value[i] each, at most count[i] of it. All is in whole
// numbers, so that its answer may stand in a proof.
type knapsack struct {
	size, value, count []int64
	order              []int
	take, best         []int64
	top                int64
	nodes, most        int64
	full               bool // all of the tree was looked through
	lots               []batch
	sums               []sum
}

// quick looks for counts of more than the least value, the best in a small tree; ok is false where it found none.
func (k *knapsack) quick(capacity, least int64) (counts []int64, ok bool) {
	k.prepare(capacity)
	k.most = knapsackQuick
	k.walk(0, capacity, 0)
	return k.best, k.top > least
}

// solve returns the greatest value, the counts that reach it, and whether it is exact; if not, value is an upper bound
// and the counts are merely good. Depth first by value for size (Gilmore & Gomory 1963, Martello & Toth 1990); where that
// tree grows too large, lists of reachable sums. Neither depends on how fine the unit of length is.
func (k *knapsack) solve(capacity int64) (value int64, counts []int64, exact bool) {
	k.prepare(capacity)
	k.split(capacity)
	small := capacity <= knapsackSmall && int64(len(k.lots))*capacity <= knapsackSmall
	if !small {
		k.most = knapsackNodes
		if k.walk(0, capacity, 0); k.full {
			return k.top, k.best, true
		}
	}
	if k.lists(capacity) {
		return k.top, k.best, true
	}
	return k.bound(0, capacity), k.best, false
}

// prepare puts the kinds in order of value for size and sums them ahead.
func (k *knapsack) prepare(capacity int64) {
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
	if k.nodes++; k.nodes > k.most {
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

// batch is a lot of c pieces of one size that are taken together or not at all.
type batch struct{ at, i, c, size, value int64 }

// split parts the counts into powers of two.
func (k *knapsack) split(capacity int64) {
	k.lots = k.lots[:0]
	for at, i := range k.order {
		left := min(k.count[i], capacity/k.size[i])
		for c := int64(1); left > 0; c *= 2 {
			c = min(c, left)
			k.lots = append(k.lots, batch{int64(at), int64(i), c, c * k.size[i], c * k.value[i]})
			left -= c
		}
	}
}

// sum is a length that batches reach, its greatest value, and how: the sum before and the batch added.
type sum struct {
	size, value int64
	before, lot int32
}

// lists keeps, batch by batch, the sums that no shorter sum exceeds in value (Nemhauser & Ullmann 1969), as far as the
// continuous bound of the batches to come lets them hope for more than the best known. false: they are too many.
func (k *knapsack) lists(capacity int64) bool {
	k.sums = append(k.sums[:0], sum{before: none, lot: none})
	from, end := 0, none
	for j, l := range k.lots {
		to := len(k.sums)
		// Two sorted streams, the sums as they are and with this batch, are merged.
		a, b, top := from, from, int64(-1)
		for a < to || b < to {
			var next sum
			if b == to || a < to && k.sums[a].size <= k.sums[b].size+l.size {
				next = k.sums[a]
				a++
			} else {
				next = sum{k.sums[b].size + l.size, k.sums[b].value + l.value, int32(b), int32(j)}
				b++
			}
			if next.size > capacity {
				break
			}
			if next.value <= top {
				continue
			}
			if next.value > k.top {
				k.top, end = next.value, len(k.sums)
			} else if next.value+k.bound(int(l.at), capacity-next.size) <= k.top && end != len(k.sums) {
				continue
			}
			if len(k.sums) >= knapsackSums {
				return false
			}
			top = next.value
			k.sums = append(k.sums, next)
		}
		from = to
	}
	k.nodes += int64(len(k.sums)) / 2
	if end == none {
		return true // the tree had found the best
	}
	clear(k.best)
	for at := int32(end); at != none; at = k.sums[at].before {
		if j := k.sums[at].lot; j != none {
			k.best[k.lots[j].i] += k.lots[j].c
		}
	}
	return true
}
