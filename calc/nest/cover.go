package nest

import (
	"math"
	"slices"
)

// coverWork bounds the tree of sheet counts that cover looks through; beyond it the continuous bound stands.
const coverWork = 20_000

// beyond stands for every cost that is larger: a bound may always be given too low.
const beyond = 1 << 61

// cover is a lower bound on the cost of sheets whose capacities sum to need, and the exact least where the tree of
// counts is small. All is in whole numbers. MaxInt64 means that the sheets do not suffice.
func cover(need int64, sheets []sheetType, capacity []int64) int64 {
	if need <= 0 {
		return 0
	}
	c := coverer{best: math.MaxInt64}
	for i, s := range sheets {
		if capacity[i] > 0 {
			c.kinds = append(c.kinds, kind{capacity[i], s.cost, int64(s.most)})
		}
	}
	slices.SortStableFunc(c.kinds, func(a, b kind) int { // dearest for its capacity last
		l, r := wide{}.addProduct(a.cost, b.holds), wide{}.addProduct(b.cost, a.holds)
		switch {
		case l.less(r):
			return -1
		case r.less(l):
			return 1
		}
		return 0
	})
	least := c.rest(0, need)
	if c.walk(0, need, 0); c.work >= coverWork {
		return least
	}
	return c.best
}

type kind struct{ holds, cost, most int64 }

type coverer struct {
	kinds []kind
	best  int64
	work  int
}

// rest is the continuous bound from kind i on: fill by the cheapest capacity, round the last up to a whole unit of cost.
func (c *coverer) rest(i int, need int64) int64 {
	cost := int64(0)
	for ; i < len(c.kinds) && need > 0; i++ {
		k := c.kinds[i]
		n := (need + k.holds - 1) / k.holds
		if k.most == 0 || n <= k.most {
			// n-1 whole ones and a fraction of the last, at its share of the cost, rounded up
			part := need - (n-1)*k.holds
			q := wide{}.addProduct(part, k.cost)
			whole := wide{lo: uint64(cost)}.addProduct(n-1, k.cost)
			if whole.hi > 0 || whole.lo > beyond {
				return beyond
			}
			return int64(whole.lo) + q.ceilDiv(k.holds)
		}
		if cost += k.most * k.cost; cost > beyond {
			return beyond
		}
		need -= k.most * k.holds
	}
	if need > 0 {
		return math.MaxInt64
	}
	return cost
}

// walk tries all numbers of kind i, most first, and bounds the rest.
func (c *coverer) walk(i int, need, cost int64) {
	if need <= 0 {
		c.best = min(c.best, cost)
		return
	}
	if c.work++; c.work >= coverWork || i == len(c.kinds) {
		return
	}
	if r := c.rest(i, need); r == math.MaxInt64 || cost >= beyond || cost+r >= c.best {
		return
	}
	k := c.kinds[i]
	n := (need + k.holds - 1) / k.holds
	if k.most > 0 {
		n = min(n, k.most)
	}
	if k.cost > 0 {
		n = min(n, beyond/k.cost)
	}
	for ; n >= 0 && c.work < coverWork; n-- {
		c.walk(i+1, need-n*k.holds, cost+n*k.cost)
	}
}
