package board

import (
	"math"

	"seamwright/calc/internal/simplex"
)

// bound raises a bound as far as the case allows, but not above enough.
func (t *pricing) bound(bound, enough int) int {
	var ok bool
	if t.line, ok = newLine(t.sizes, t.side); !ok {
		return bound
	}
	n, zones := len(t.sizes), len(t.zones)
	items := n + 1 + zones // rows: sizes, any length, zones; then pieces on hand
	demand := make([]float64, items+len(t.stock))
	var start []simplex.Column[struct{}]
	begin := func(cost, count float64) {
		start = append(start, simplex.Column[struct{}]{Cost: cost, Row: []int32{int32(len(start))}, Count: []float64{count}})
	}
	for _, z := range t.sizes {
		begin(1, float64(t.side/z))
	}
	begin(1, 1)
	for range zones {
		demand[len(start)] = 1
		begin(float64(enough), 1) // made from nothing: dearer than any layout
	}
	for _, s := range t.stock {
		demand[len(start)] = float64(s.count)
		begin(0, 1)
	}
	m := &simplex.Master[struct{}]{}
	m.Restart(demand, items, start, struct{}{})
	t.worth = make([]int64, n)
	for range columnRounds {
		m.SettleSigns()
		if math.Ceil(m.Value()-wholeSlack) <= float64(bound) {
			break // the optimum lies no higher
		}
		for i := range t.worth {
			t.worth[i] = priced(m.Price[i])
		}
		t.rate = priced(m.Price[n])
		proven, entered := t.round(m, items)
		if bound = max(bound, min(proven, enough)); bound >= enough || !entered {
			break
		}
	}
	return bound
}

// priced is a price as a worth. No worth above that of a sheet serves.
func priced(price float64) int64 { return int64(min(max(price, 0), 1) * fine) }

// round lets the columns enter that the prices ask for, and tells how many sheets the prices prove.
func (t *pricing) round(m *simplex.Master[struct{}], items int) (proven int, entered bool) {
	n := len(t.sizes)
	column := func(counts []float64, any, by float64) (c simplex.Column[struct{}]) {
		for i, v := range counts {
			if v != 0 {
				c.Row, c.Count = append(c.Row, int32(i)), append(c.Count, v*by)
			}
		}
		if any != 0 {
			c.Row, c.Count = append(c.Row, int32(n)), append(c.Count, any*by)
		}
		return c
	}
	enter := func(c simplex.Column[struct{}]) {
		if m.Gain(&c) > columnGain && m.Enter(c) {
			entered = true
		}
	}
	counts := make([]float64, n)
	need := int64(0)
	var found []simplex.Column[struct{}]
	for z := range t.zones {
		clear(counts)
		v, flat := t.least(&t.zones[z], counts)
		need += v
		c := column(counts, flat, -1)
		c.Row, c.Count = append(c.Row, int32(n+1+z)), append(c.Count, 1)
		found = append(found, c)
	}
	for k, s := range t.stock {
		clear(counts)
		v, any := t.line.best(t.worth, t.rate, s.side, counts)
		need -= v * s.across * s.count
		c := column(counts, any, float64(s.across)/one)
		c.Row, c.Count = append(c.Row, int32(items+k)), append(c.Count, 1)
		found = append(found, c)
	}
	clear(counts)
	most, any := t.line.best(t.worth, t.rate, t.side, counts)
	c := column(counts, any, 1)
	c.Cost = 1
	for _, c := range append(found, c) {
		enter(c)
	}
	if whole := most * one; whole > 0 && need > 0 {
		proven = int((need + whole - 1) / whole)
	}
	return proven, entered
}

// Tolerances of the programme, as shares of a sheet. No proof rests on them.
const (
	columnGain = 1e-7 // a column must save more to be taken in
	wholeSlack = 1e-6 // an optimum that lies no further above a whole number is that number
)
