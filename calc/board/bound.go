package board

import (
	"math/big"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/survey"
)

// areaBound is a proven least number of bought sheets of one product over all lawful layouts of the zones given:
// the area that panels must cover, less what clearances may leave open and what the stock can cover, over the most
// that one sheet covers. A cut piece stands clear of its neighbours by the panel gap, so a sheet covers a little more
// than its own area: at most one clearance at each of its pieces, which kerf takes away again where it is no less.
func areaBound(p *job.Product, rules *job.Rules, zones []*survey.Zone, stock []job.Stock) int {
	need := new(big.Int)
	for _, z := range zones {
		if z.Product == nil || z.Product.ID != p.ID {
			continue
		}
		need.Add(need, leastCover(z, rules))
	}
	most := new(big.Int)
	for _, s := range p.Sizes {
		if a := covers(p, rules, s.Length, s.Width); a.Cmp(most) > 0 {
			most = a
		}
	}
	if most.Sign() == 0 {
		return 0
	}
	for _, s := range stock {
		if s.Product == p.ID && s.Count > 0 {
			need.Sub(need, new(big.Int).Mul(covers(p, rules, s.Length, s.Width), big.NewInt(int64(s.Count))))
		}
	}
	if need.Sign() <= 0 {
		return 0
	}
	need.Add(need, new(big.Int).Sub(most, big.NewInt(1)))
	return int(need.Div(need, most).Int64())
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
