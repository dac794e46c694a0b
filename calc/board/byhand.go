package board

import (
	"seamwright/calc/board/tally"
	"seamwright/calc/job"
	"seamwright/calc/layout"
	"seamwright/calc/plan"
)

// cutByHand cuts as the quick count does where that needs fewer sheets than the nesting has found: which pieces share a
// sheet is decided by it, how they lie by the nesting.
func (s *Draft) cutByHand(p *job.Product, stock []job.Stock, sizes []layout.Size, c *cutting) *cutting {
	n, _ := c.bought()
	var mine []job.Stock
	for _, st := range stock {
		if st.Product == p.ID && st.Count > 0 {
			mine = append(mine, st)
		}
	}
	counter := tally.New(p, mine, &tally.Meter{})
	demand, queue := bySize(sizes)
	counter.Patient = true
	found, fewer := tally.Lack{Area: 1}, n-1
	for ; fewer > 0; fewer-- {
		less := counter.Lack(demand, fewer, 0)
		if less.Over {
			break
		}
		found = less
	}
	if fewer++; found.Area > 0 {
		return c
	}
	all := &cutting{at: make([]place, len(sizes))}
	left := stock
	on, bought := counter.Assign(demand, fewer, found)
	for which, sheet := range on {
		at := make([]int, len(sheet))
		for k, w := range sheet {
			at[k], queue[w] = queue[w][0], queue[w][1:]
		}
		onHand := left
		if bought[which] {
			onHand = nil // a sheet is bought for these, and holds them
		}
		one, err := cutSheets(s.ctx, p, onHand, pick(sizes, at), true, sheetNodes)
		if err != nil || len(one.sheets) != 1 {
			return c
		}
		all.take(one, at, func(*plan.Sheet) bool { return true })
		left = without(left, one)
	}
	if m, _ := all.bought(); m >= n {
		return c
	}
	return all
}

// sheetNodes is the work of the nesting of one sheet whose pieces are known to fit.
const sheetNodes = 20_000
