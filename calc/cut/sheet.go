package cut

import (
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/nest"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
)

// Sheet is a cut sheet of the nesting in the plan's form: its parts in the order of the nesting, still without panels,
// what is left over, and the cuts, measured. The problem lists the sizes for sale first, in the product's order, then pieces on hand.
func Sheet(p *job.Product, pr *nest.Problem, bin *nest.Bin) plan.Sheet {
	raw := pr.Sheets[bin.Sheet]
	s := plan.Sheet{Product: p.ID, Size: [2]length.Length{length.Length(raw.W), length.Length(raw.H)}, Kerf: p.Kerf, Source: plan.Stock,
		Parts: []plan.Part{}, Offcuts: []shape.Rect{}, Cuts: []plan.Cut{}}
	if bin.Sheet < len(p.Sizes) {
		s.Source, s.Price = plan.Buy, p.Sizes[bin.Sheet].Price
	}
	for _, part := range bin.Parts() {
		s.Parts = append(s.Parts, plan.Part{Rect: rect(part.Rect), Turned: part.Turned})
	}
	for _, o := range bin.Offcuts() {
		s.Offcuts = append(s.Offcuts, rect(o))
	}
	for i, k := range bin.Cuts() {
		s.Cuts = append(s.Cuts, plan.Cut{Order: i + 1, Kind: k.Kind.String(), From: point(k.X1, k.Y1), To: point(k.X2, k.Y2)})
	}
	s.Cuts = measured(&s, false)
	s.Setups = setups(s.Cuts)
	return s
}

func rect(r nest.Rect) shape.Rect {
	return shape.Rect{X: length.Length(r.X), Y: length.Length(r.Y), W: length.Length(r.W), H: length.Length(r.H)}
}

func point(x, y int64) shape.Point { return shape.Point{X: length.Length(x), Y: length.Length(y)} }
