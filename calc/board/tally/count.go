package tally

import "cmp"

// Count is what the pieces asked for take.
type Count struct {
	Sheets int
	Cost   int64
	OK     bool  // some way of cutting gives all pieces
	Over   bool  // more than the limit: not counted to the end
	Limit  int64 // of an over one
}

// Measure is what a count is limited by.
func (t Count) Measure(bySheets bool) int64 {
	if bySheets {
		return int64(t.Sheets)
	}
	return t.Cost
}

func (t Count) better(o Count, bySheets bool) bool {
	if bySheets {
		return cmp.Or(cmp.Compare(t.Sheets, o.Sheets), cmp.Compare(t.Cost, o.Cost)) < 0
	}
	return cmp.Or(cmp.Compare(t.Cost, o.Cost), cmp.Compare(t.Sheets, o.Sheets)) < 0
}

// Count counts the sheets; bySheets: fewest sheets before least cost. It stops at a count that enough says cannot be
// beaten, and where every way of cutting comes to more than a limit.
func (c *Counter) Count(d *Demand, bySheets bool, enough int, limit int64) Count {
	asked := c.measure(d)
	var best Count
	over := false
	habit := &c.habit[0]
	if bySheets {
		habit = &c.habit[1]
	}
	from := *habit
	for k := range waysTried {
		way := from ^ k
		if len(c.sheets) == 1 && way&smallSheet != 0 || d.pieces > fewPieces && k > 1 && c.Warm {
			continue
		}
		t := c.run(d, way, bySheets, asked, limit)
		over = over || t.Over
		if t.OK && (!best.OK || t.better(best, bySheets)) {
			best = t
			*habit = way
			limit = min(limit, t.Measure(bySheets))
		}
		if best.OK && len(c.sheets) == 1 && best.Sheets <= enough {
			break
		}
	}
	if !best.OK && over {
		return Count{Over: true, Limit: limit}
	}
	return best
}

// run cuts all pieces in one way.
func (c *Counter) run(d *Demand, way int, bySheets bool, asked, limit int64) Count {
	c.begin(anyNumber)
	c.excess = asked
	for _, i := range d.order(way) {
		for range d.n[i] {
			if !c.place(&d.sizes[i], way, bySheets) {
				return Count{}
			}
			if c.beyond(bySheets, limit) {
				return Count{Over: true}
			}
		}
	}
	return Count{Sheets: c.bought, Cost: c.paid, OK: true}
}

// areaSlack is which part of a sheet stands for what rounding sums of areas may come to.
const areaSlack = 1000

// beyond tells whether a run can no longer stay within its limit: by the sheets opened, and those that the rest must
// still open.
func (c *Counter) beyond(bySheets bool, limit int64) bool {
	more := max(0, c.excess-c.largest/areaSlack)
	if bySheets {
		return int64(c.bought)+(more+c.largest-1)/c.largest > limit
	}
	return c.paid+int64(float64(more)*c.leastRate) > limit
}
