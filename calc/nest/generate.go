package nest

import (
	"math"
	"slices"

	"seamwright/calc/internal/simplex"
)

// pattern is what a column of the continuous programme stands for.
type pattern struct {
	kind int  // index of sheet; none: surplus of an item, or an item that is made from nothing at a high cost
	bin  *bin // how the pattern lies on its sheet; nil for lengths
}

// column is what one sheet of a kind gives of every item.
type column = simplex.Column[pattern]

const (
	priceScale = 1 << 40 // makes whole numbers of prices: the dearest sheet is worth about this much
	priceSlack = 1e-9    // a column must gain more than this share of the dearest sheet to enter
	leastShare = 1e-9    // a column that is used less stands for nothing
)

// pricer finds a pattern of great value for one sheet of a kind, with at most demand of each item, and an upper bound on
// the value of every such pattern, MaxInt64 where it has none. A pattern of more than worth is what is looked for. All in
// whole numbers: the bound ends up in a proof.
type pricer func(kind int, value, demand []int64, worth int64) (counts []int64, lies *bin, most int64)

// generator solves the continuous programme of cutting by making patterns as prices ask for them (Gilmore & Gomory 1961,
// 1963).
type generator struct {
	kinds []sheetType
	price pricer
	// single[i] is the kind that an item alone is cut from, and how often it fits; none: only limited kinds hold it.
	single []int
	often  []int64
	pool   []column
	m      simplex.Master[pattern]
	spent  func(work int64) // told of the work besides the pricing
	stop   func() bool
}

// solved is the continuous optimum for one demand.
type solved struct {
	value  float64
	bound  int64 // proven, for whole numbers of sheets
	basis  []column
	x      []float64
	proper bool      // optimal as far as floating point can tell
	price  []float64 // of each item
	few    []float64 // what one more of a limited kind would be worth, never above zero
}

// dearest is the highest cost of a kind, at least one.
func (g *generator) dearest() (c float64) {
	c = 1
	for _, k := range g.kinds {
		c = max(c, float64(k.cost))
	}
	return c
}

// solve runs column generation for a demand. target ends it early, once the bound reaches it.
func (g *generator) solve(demand []int64, used []int, target int64) solved {
	var rows []float64
	var basis []column
	var items []int
	dearest := g.dearest()
	at := make([]int32, len(demand)) // row of each item
	for i, d := range demand {
		at[i] = none
		if d == 0 {
			continue
		}
		c := column{Of: pattern{kind: none}, Cost: 1000 * dearest, Row: []int32{int32(len(rows))}, Count: []float64{1}}
		if k := g.single[i]; k != none {
			c.Of.kind, c.Cost, c.Count[0] = k, float64(g.kinds[k].cost), float64(min(g.often[i], d))
		}
		at[i] = int32(len(rows))
		rows, basis, items = append(rows, float64(d)), append(basis, c), append(items, i)
	}
	limitRow := make([]int32, len(g.kinds))
	left := make([]sheetType, len(g.kinds))
	for k, s := range g.kinds {
		limitRow[k] = none
		left[k] = s
		if s.most > 0 {
			left[k].most -= used[k]
			limitRow[k] = int32(len(rows))
			basis = append(basis, column{Of: pattern{kind: none}, Row: []int32{int32(len(rows))}, Count: []float64{1}})
			rows = append(rows, float64(left[k].most))
		}
	}
	m := &g.m
	m.Stop = g.stop
	m.Restart(rows, len(items), basis, pattern{kind: none})
	out := solved{}
	for range 60 * (len(items) + 2) {
		if g.stop != nil && g.stop() {
			break
		}
		if g.spent != nil {
			g.spent(int64(m.Rows()*m.Rows()+8*len(g.pool)) / 64)
		}
		m.SettleSigns()
		if g.fromPool(demand, at, limitRow) {
			continue
		}
		value := make([]int64, len(demand))
		need := int64(0)
		for j, i := range items {
			y := min(max(0, m.Price[j]), 1000*dearest)
			value[i] = int64(y * (priceScale / dearest))
			need += value[i] * demand[i]
		}
		capacity := make([]int64, len(g.kinds))
		entered := false
		for k := range g.kinds {
			if g.kinds[k].most > 0 && left[k].most <= 0 {
				continue
			}
			worth := float64(g.kinds[k].cost)
			if r := limitRow[k]; r != none {
				worth -= m.Price[r] // what one more of few is worth
			}
			counts, lies, most := g.price(k, value, demand, int64(worth*(priceScale/dearest)))
			capacity[k] = most
			c := g.column(k, counts, at, limitRow)
			c.Of.bin = lies
			if m.Gain(&c) > priceSlack*dearest {
				pooled := g.column(k, counts, nil, nil)
				pooled.Of.bin = lies
				g.pool = append(g.pool, pooled)
				entered = m.Enter(c) || entered
			}
		}
		var open []sheetType
		var holds []int64
		for k := range left {
			if left[k].most > 0 || g.kinds[k].most == 0 {
				open, holds = append(open, left[k]), append(holds, capacity[k])
			}
		}
		if !slices.Contains(holds, math.MaxInt64) { // every kind was priced exactly
			out.bound = max(out.bound, cover(need, open, holds))
		}
		if !entered {
			out.proper = true
			break
		}
		if target > 0 && out.bound >= target {
			break
		}
	}
	out.value = m.Value()
	out.price, out.few = make([]float64, len(demand)), make([]float64, len(g.kinds))
	for j, i := range items {
		out.price[i] = m.Price[j]
	}
	for k, r := range limitRow {
		if r != none {
			out.few[k] = m.Price[r]
		}
	}
	for i, c := range m.Basis {
		if c.Of.kind == none || m.X[i] < leastShare {
			continue
		}
		full := column{Of: c.Of, Cost: c.Cost}
		for j, r := range c.Row {
			if int(r) < len(items) {
				full.Row = append(full.Row, int32(items[r]))
				full.Count = append(full.Count, c.Count[j])
			}
		}
		out.basis = append(out.basis, full)
		out.x = append(out.x, m.X[i])
	}
	return out
}

// column makes a column in the rows of the present master; without rows, in the items themselves.
func (g *generator) column(kind int, counts []int64, at, limitRow []int32) column {
	c := column{Of: pattern{kind: kind}, Cost: float64(g.kinds[kind].cost)}
	for i, n := range counts {
		if n == 0 {
			continue
		}
		r := int32(i)
		if at != nil {
			r = at[i]
		}
		if r != none {
			c.Row, c.Count = append(c.Row, r), append(c.Count, float64(n))
		}
	}
	if limitRow != nil && limitRow[kind] != none {
		c.Row, c.Count = append(c.Row, limitRow[kind]), append(c.Count, 1)
	}
	return c
}

// fromPool lets the best of the patterns made earlier enter, as far as the demand asks for it.
func (g *generator) fromPool(demand []int64, at, limitRow []int32) bool {
	best, gain := none, priceSlack*g.dearest()
	for p := range g.pool {
		c := &g.pool[p]
		v := -c.Cost
		if r := limitRow[c.Of.kind]; r != none {
			v += g.m.Price[r]
		}
		for j, i := range c.Row {
			if r := at[i]; r != none {
				v += float64(g.m.Price[r] * min(c.Count[j], float64(demand[i])))
			}
		}
		if v > gain {
			best, gain = p, v
		}
	}
	if best == none {
		return false
	}
	c := g.pool[best]
	counts := make([]int64, len(demand))
	for j, i := range c.Row {
		counts[i] = min(int64(c.Count[j]), demand[i])
	}
	in := g.column(c.Of.kind, counts, at, limitRow)
	in.Of.bin = c.Of.bin
	return g.m.Enter(in)
}

// whole is the number of sheets that a share of a pattern surely stands for.
func whole(x float64) int64 { return int64(math.Floor(x + 1e-6)) }
