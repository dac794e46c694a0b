package board

import (
	"math/big"

	"seamwright/calc/board/tally"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/survey"
)

// boundOf is a proven least number of bought sheets of one product over all lawful layouts of the zones whose needs are
// given: what they need, less what the stock can give, over what one sheet of the largest size for sale gives, under the
// pair of scales that asks for most, or by area in full exactness.
func boundOf(p *job.Product, rules *job.Rules, needs []*need, stock []job.Stock) int {
	sc := newScales(p, rules, stock)
	sum, held := make([]int64, sc.pairs()), make([]int64, sc.pairs())
	area := new(big.Int)
	for _, n := range needs {
		area.Add(area, n.area)
		for k, v := range n.weights {
			sum[k] += v
		}
	}
	for _, s := range stock {
		if s.Product == p.ID && s.Count > 0 {
			area.Sub(area, new(big.Int).Mul(covers(p, rules, s.Length, s.Width), big.NewInt(int64(s.Count))))
			sc.holds(s, tally.StockTapers(p, s), held)
		}
	}
	most := mostCovered(p, rules)
	if most.Sign() == 0 {
		return 0
	}
	bound := int64(0)
	if area.Sign() > 0 {
		area.Add(area, new(big.Int).Sub(most, big.NewInt(1)))
		bound = area.Div(area, most).Int64()
	}
	for k := range sum {
		if rest := sum[k] - held[k]; rest > 0 {
			bound = max(bound, (rest+one*one-1)/(one*one))
		}
	}
	return int(bound)
}

// mostCovered is the most cell area that the pieces of one sheet for sale can fill.
func mostCovered(p *job.Product, rules *job.Rules) *big.Int {
	most := new(big.Int)
	for _, s := range p.Sizes {
		if a := covers(p, rules, s.Length, s.Width); a.Cmp(most) > 0 {
			most = a
		}
	}
	return most
}

// covers is the most cell area, in square nanometres, that the pieces of one sheet can fill.
func covers(p *job.Product, rules *job.Rules, l, w length.Length) *big.Int {
	if p.Kind == job.Gypsum {
		return area(l, w) // gypsum touches; what the fit leaves open is taken from the need
	}
	return area(l+inflation(l, p, rules), w+inflation(w, p, rules))
}

// inflation is the most that gaps add along one side of a sheet: each of n pieces gains a gap and each of n-1 cuts
// takes a kerf. Pieces are no shorter than the least piece or course, save those that fill a narrow stretch alone; for
// these one inch is taken as the least that anyone would hang.
func inflation(side length.Length, p *job.Product, _ *job.Rules) length.Length {
	if p.Gap <= p.Kerf {
		return p.Gap
	}
	n := side/length.Inch + 1
	return p.Gap + (n-1)*(p.Gap-p.Kerf)
}

func area(a, b length.Length) *big.Int {
	return new(big.Int).Mul(big.NewInt(int64(a)), big.NewInt(int64(b)))
}

// leastCover is the least area that panels of a zone can have: its outline without holes, less the widest clearance
// that the floor allows along its foot, and the fit along its other sides.
func leastCover(z *survey.Zone, rules *job.Rules) *big.Int {
	a := new(big.Int)
	for _, g := range z.Outline.Subtract(holesOf(z)...) {
		a.Add(a, new(big.Int).Mul(big.NewInt(int64(g.Area())), big.NewInt(1_000_000)))
		a.Sub(a, big.NewInt(1_000_000)) // the area is rounded
	}
	for i, p := range z.Outline {
		q := z.Outline[(i+1)%len(z.Outline)]
		dx, dy := (q.X - p.X).Abs(), (q.Y - p.Y).Abs()
		clear := rules.Fit
		if i < len(z.Edges) && z.FloorGap > 0 && (z.Edges[i].Meets == survey.AtFloor || z.Edges[i].Meets == survey.AtCurb) {
			clear = z.FloorGap
			if w := z.Surface.Wall; w != nil {
				clear = max(clear, w.Trim)
			}
		}
		a.Sub(a, area(clear, dx+dy))
	}
	if a.Sign() < 0 {
		a.SetInt64(0)
	}
	return a
}
