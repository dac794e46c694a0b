package layout

import (
	"math"
	"slices"

	"seamwright/calc/length"
)

// Apart is the cheapest choice for a row whose end joints keep the stagger from given seams of adjoining rows; not ok where
// there is none. The choices listed for a long row are the cheapest of very many and may all be alike where they clash.
func (s *Scheme) Apart(row int, prices Prices, seams []length.Length) (c Choice, ok bool) {
	r := &s.Rows[row]
	g := r.graph
	last, stagger := len(g.at)-1, s.Stagger()
	const none = math.MaxInt64
	cost, next := make([]int64, last+1), make([]int, last+1)
	for i := last - 1; i >= 0; i-- {
		cost[i] = none
		if i > 0 && slices.ContainsFunc(seams, func(u length.Length) bool { return (u - g.at[i]).Abs() < stagger }) {
			continue
		}
		for a := range g.steps[i] {
			st := &g.steps[i][a]
			if cost[st.To] == none {
				continue
			}
			way := cost[st.To] + st.price(prices)
			if st.To < last {
				way += prices.Butt(st.Butt + g.shun[st.To])
			}
			if way < cost[i] {
				cost[i], next[i] = way, a
			}
		}
	}
	if cost[0] == none {
		return c, false
	}
	var p path
	for i := 0; i != last; i = g.steps[i][next[i]].To {
		p.steps = append(p.steps, next[i])
	}
	return s.choice(r, p), true
}
