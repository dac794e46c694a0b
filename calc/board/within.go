package board

import (
	"seamwright/calc/job"
	"seamwright/calc/layout"
	"seamwright/calc/plan"
)

// anyNumber stands for no limit on the sheets that may be opened.
const anyNumber = 1 << 30

// short is what a layout lacks when sheets are limited: the area of the pieces that found no place, in mm², and the price
// of the sheets; and the way of cutting.
type short struct {
	area, cost int64
	way        int
}

// within cuts what it can from so many bought sheets and tells the area, in mm², of the pieces that found no place,
// in the way that leaves least.
func (q *quick) within(wants []want, sheets int) (best short) {
	pieces := 0
	q.leastL, q.leastW = 1<<62, 1<<62
	for i := range wants {
		if w := &wants[i]; w.n > 0 {
			pieces += w.n
			q.leastL, q.leastW = min(q.leastL, w.size.L+q.kerf), min(q.leastW, w.size.W+q.kerf)
			if w.size.Turn {
				q.leastL, q.leastW = min(q.leastL, q.leastW), min(q.leastL, q.leastW)
			}
		}
	}
	if len(q.orders[0]) != len(wants) {
		q.sort(wants)
	}
	best.area = 1 << 62
	from := q.habit[1]
	for k := range waysTried {
		way := from ^ k
		if len(q.sheets) == 1 && way&smallSheet != 0 || pieces > fewPieces && k > 1 && !q.patient {
			continue
		}
		q.begin(sheets)
		lack := short{way: way}
		for _, i := range q.order(way) {
			for n := range wants[i].n {
				q.placed++
				if !q.place(&wants[i].size, way, true) {
					lack.area += int64(wants[i].size.L/1e6) * int64(wants[i].size.W/1e6) * int64(wants[i].n-n)
					break
				}
			}
			if lack.area >= best.area {
				break
			}
		}
		lack.cost = q.paid
		if lack.area < best.area {
			best = lack
			q.habit[1] = way
		}
		if best.area == 0 {
			break
		}
	}
	q.room = anyNumber
	return best
}

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
	q := newQuick(p, mine)
	var wants []want
	index := map[layout.Size]int{}
	var queue [][]int
	for i, z := range sizes {
		k, ok := index[z]
		if !ok {
			k = len(wants)
			index[z] = k
			wants, queue = append(wants, want{size: z}), append(queue, nil)
		}
		wants[k].n++
		queue[k] = append(queue[k], i)
	}
	q.patient = true
	v, fewer := short{area: 1}, n-1
	for ; fewer > 0; fewer-- {
		less := q.within(wants, fewer)
		if less.area > 0 {
			break
		}
		v = less
	}
	if fewer++; v.area > 0 {
		return c
	}
	all := &cutting{at: make([]place, len(sizes))}
	left := stock
	for which, sheet := range q.assigned(wants, fewer, v.way) {
		at := make([]int, len(sheet))
		for k, w := range sheet {
			at[k], queue[w] = queue[w][0], queue[w][1:]
		}
		onHand := left
		if q.filled[which].kind >= 0 {
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

// assigned tells which wants lie on each sheet when they are cut in one way.
func (q *quick) assigned(wants []want, sheets, way int) [][]int32 {
	q.begin(sheets)
	var on [][]int32
	for _, i := range q.order(way) {
		for range wants[i].n {
			q.place(&wants[i].size, way, true)
			for int(q.last) >= len(on) {
				on = append(on, nil)
			}
			on[q.last] = append(on[q.last], i)
		}
	}
	q.room = anyNumber
	return on
}

// begin opens a new cutting of so many bought sheets.
func (q *quick) begin(sheets int) {
	q.rects, q.filled, q.used = q.rects[:0], q.filled[:0], q.used[:0]
	q.opened, q.paid, q.room = 0, 0, sheets
	for range q.stock {
		q.used = append(q.used, 0)
	}
}

func (q *quick) order(way int) []int32 {
	if way&byLength != 0 {
		return q.orders[1]
	}
	return q.orders[0]
}
