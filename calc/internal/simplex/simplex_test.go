package simplex_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamwright/calc/internal/simplex"
)

type column = simplex.Column[int]

// solved enters columns until none gains.
func solved(t *rapid.T, demand []float64, items int, start, all []column) *simplex.Master[int] {
	m := &simplex.Master[int]{}
	m.Restart(demand, items, start, simplex.None)
	for range 1000 {
		m.SettleSigns()
		best, gain := simplex.None, 1e-9
		for i := range all {
			if g := m.Gain(&all[i]); g > gain {
				best, gain = i, g
			}
		}
		if best == simplex.None {
			return m
		}
		require.True(t, m.Enter(all[best]))
	}
	require.Fail(t, "no end")
	return nil
}

// Random programmes with a row that limits: the basis covers the demand within the limit, the prices leave no column a
// gain, and both come to one value, so each proves the other (weak duality).
func TestCostAndPricesMeet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		items := rapid.IntRange(1, 8).Draw(t, "items")
		demand := make([]float64, items+1)
		var start, all []column
		for i := range items {
			demand[i] = float64(rapid.IntRange(0, 20).Draw(t, "demand"))
			start = append(start, column{Cost: 1000, Row: []int32{int32(i)}, Count: []float64{1}, Of: simplex.None})
		}
		demand[items] = float64(rapid.IntRange(0, 5).Draw(t, "limit"))
		start = append(start, column{Row: []int32{int32(items)}, Count: []float64{1}, Of: simplex.None})
		all = append(all, start[:items]...)
		for k := range rapid.IntRange(0, 20).Draw(t, "columns") {
			c := column{Cost: float64(rapid.IntRange(1, 9).Draw(t, "cost")), Of: k}
			for i := range items {
				if n := rapid.IntRange(0, 3).Draw(t, "count"); n > 0 {
					c.Row, c.Count = append(c.Row, int32(i)), append(c.Count, float64(n))
				}
			}
			if rapid.Bool().Draw(t, "limited") {
				c.Cost, c.Row, c.Count = 0, append(c.Row, int32(items)), append(c.Count, 1)
			}
			all = append(all, c)
		}
		m := solved(t, demand, items, start, all)
		const slack = 1e-6
		given := make([]float64, items+1)
		for i, c := range m.Basis {
			require.GreaterOrEqual(t, m.X[i], -slack)
			if c.Of == simplex.None && c.Cost == 0 {
				continue // surplus and slack
			}
			for k, r := range c.Row {
				given[r] += c.Count[k] * m.X[i]
			}
		}
		dual := 0.0
		for i, d := range demand {
			if i < items {
				require.GreaterOrEqual(t, given[i], d-slack)
				require.GreaterOrEqual(t, m.Price[i], -slack)
			} else {
				require.LessOrEqual(t, given[i], d+slack)
				require.LessOrEqual(t, m.Price[i], slack)
			}
			dual += d * m.Price[i]
		}
		for i := range all {
			require.LessOrEqual(t, m.Gain(&all[i]), slack)
		}
		require.InDelta(t, m.Value(), dual, slack*(1+m.Value()))
	})
}
