// Package fasten places every screw of every sheet.
//
// Screws stand in rows: along each member that a sheet lies on, at the working spacing or closer and evenly, 3/8 in
// from the sheet's edges. A sheet whose edge falls on a member has its own row there, 3/8 in from the edge; so has a
// seam between members over solid backing or a back-block. Wood panels are fixed 6 in apart along every edge with
// something behind it, and 12 in in the field. The working spacing is the user's, never above the limit of the table
// for the board, its place, the framing and the duty of the wall. Corners of gypsum board float where framing runs
// into a wall and below a ceiling, unless the surface is rated, a separation, bracing or a diaphragm.
//
// Sources stand beside the numbers in limits.go. Limits: rows along a member are straight; a raked edge is kept clear
// of along and across the row; members that touch each other are fixed as one.
package fasten

import (
	"cmp"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/calc/survey"
)

// Fasten fills the fasteners of every zone of the plan and counts them in its summary.
func Fasten(j *job.Job, b *survey.Building, p *plan.Plan) {
	p.Summary.Screws = 0
	eachZone(b, p, func(s *survey.Surface, z *survey.Zone, layer *plan.Zone) {
		layer.Fasteners = zoneFasteners(j, s, z, layer)
		p.Summary.Screws += layer.Fasteners.Count
	})
}

// eachZone walks the zones of the plan that have their like in the building and are covered with something.
func eachZone(b *survey.Building, p *plan.Plan, visit func(*survey.Surface, *survey.Zone, *plan.Zone)) {
	surfaces := make(map[string]*survey.Surface, len(b.Surfaces))
	for _, s := range b.Surfaces {
		surfaces[s.ID] = s
	}
	for i := range p.Surfaces {
		s := surfaces[p.Surfaces[i].ID]
		if s == nil {
			continue
		}
		for k := range p.Surfaces[i].Zones {
			layer := &p.Surfaces[i].Zones[k]
			if z := like(s.Zones, k, layer); z != nil {
				visit(s, z, layer)
			}
		}
	}
}

// like finds the surveyed zone of a planned one: the same in order, else the first with its numbers.
func like(zones []*survey.Zone, k int, layer *plan.Zone) *survey.Zone {
	same := func(z *survey.Zone) bool {
		return z.Index == layer.Zone && z.Layer == layer.Layer && z.Product != nil
	}
	if k < len(zones) && same(zones[k]) {
		return zones[k]
	}
	for _, z := range zones {
		if same(z) {
			return z
		}
	}
	return nil
}

// fixing is one layer while its screws are placed.
type fixing struct {
	surface *survey.Surface
	zone    *survey.Zone
	layer   *plan.Zone
	turned  bool          // members lie along x: u is y
	outline shape.Polygon // of the zone, in u, v
	members []survey.Member
	field   length.Length // working spacing in the field of a sheet
	edge    length.Length // and along its edges
	float   length.Length // first screw from a floating corner, 0: none float
	wood    bool
	allEnds bool // rows along blocking also for gypsum: bracing and diaphragms
}

func zoneFasteners(j *job.Job, s *survey.Surface, z *survey.Zone, layer *plan.Zone) plan.Fasteners {
	use := useOf(j, z, layer.Run)
	screws := Limit(z.Product, use)
	limit, source := screws.Limit, screws.Source
	f := fixing{surface: s, zone: z, layer: layer, turned: s.Members.Axis == string(job.AxisY),
		wood: z.Product.Kind == job.WoodPanel, allEnds: use.Has(job.Bracing)}
	f.field = limit
	if j.Rules.Screws > 0 {
		f.field = min(limit, j.Rules.Screws)
	}
	tested := use.Has(job.Rated) || use.Has(job.Bracing) || use.Has(job.Separation)
	if own := inches(baseLayer.Of(j)); own > 0 && z.Layer < z.Layers && !tested {
		f.field, limit = own, own
		source = plan.Tell("source.own-layer-spacing")
	}
	f.edge = f.field
	if f.wood {
		f.edge = min(f.field, panelEdge)
	}
	if screws.Ends > 0 && layer.Run == string(job.RunAcross) {
		f.edge = min(f.field, screws.Ends)
	}
	if !f.wood && !tested {
		f.float = inches(floating.Of(j))
	}
	f.outline = newSheet(z.Outline, nil, f.turned).outline
	f.members = inOrder(s.Studs, s.Short)

	w := ScrewFor(j, s, z)
	r := plan.Fasteners{Length: w.Length, Supply: w.Supply, Longest: max(w.Length, w.Through+inches(deepest.Of(j))), Spacing: f.field, Limit: limit, Source: source}
	for i := range layer.Panels {
		r.Points = append(r.Points, f.panel(&layer.Panels[i])...)
	}
	r.Count = len(r.Points)
	for _, pt := range r.Points {
		switch {
		case inKeepOut(z, pt.X, pt.Y):
			r.Short++
		case f.laminates(pt):
			r.Laminating++
		}
	}
	if r.Laminating > 0 {
		r.LaminatingLength, r.LaminatingSupply = atLeast(j, "G", z.Product.Thickness+inches(intoBoard.Of(j)))
	}
	if r.Short > 0 {
		r.ShortLength, r.ShortSupply = shortScrew(j, w)
	}
	r.Gaps = []plan.SheetGap{}
	for _, g := range zoneGaps(&s.Surface, layer, r.Points) {
		r.Gaps = append(r.Gaps, plan.SheetGap{Panel: g.Panel, Widest: g.Widest, At: g.At})
		r.WidestGap = max(r.WidestGap, g.Widest)
	}
	r.Basis = basis(j, f, w, limit)
	return r
}

// laminates reports whether a screw of gypsum board holds in gypsum board behind it and in no member.
func (f *fixing) laminates(pt shape.Point) bool {
	behind := f.surface.Backing
	if f.wood || behind == nil || behind.Product == nil || behind.Product.Kind != job.Gypsum {
		return false
	}
	u := f.uv(pt).X
	for _, m := range f.members {
		if (u - m.At).Abs() <= m.Width/2 {
			return false
		}
	}
	return true
}

// basis says how spacing and length came about.
func basis(j *job.Job, f fixing, w Screw, limit length.Length) plan.Fact {
	rows := plan.Tell("fasten.rows", "apart", f.field)
	switch {
	case f.edge == f.field:
	case f.wood:
		rows = plan.Tell("fasten.rows-edges", "apart", f.field, "edges", f.edge)
	default:
		rows = plan.Tell("fasten.rows-ends", "apart", f.field, "ends", f.edge)
	}
	return plan.Tell("fasten.basis", "rows", rows, "rule", j.Rules.Screws, "limit", limit, "edge", Edge,
		"passed", w.Through, "reach", w.Reach, "needed", w.Through+w.Reach, "stock", w.Length)
}

// inOrder lists studs and cripples from left to right.
func inOrder(studs, short []survey.Member) []survey.Member {
	all := slices.Concat(studs, short)
	slices.SortStableFunc(all, func(a, b survey.Member) int { return cmp.Compare(a.At, b.At) })
	return all
}

// post reports whether two members have so little air between them that they count as one.
func post(a, b survey.Member) bool {
	const touching = inch / 4 // common practice, no source
	return (a.At-b.At).Abs() <= (a.Width+b.Width)/2+touching && !apart(a, b)
}

// apart: one above the other, as cripples over and under a window.
func apart(a, b survey.Member) bool {
	return a.Kind == survey.Cripple && b.Kind == survey.Cripple && (a.From >= b.To || b.From >= a.To)
}

// rank prefers jambs and ends, which close an opening or a wall.
func rank(m survey.Member) int {
	switch m.Kind {
	case survey.Jamb:
		return 3
	case survey.End:
		return 2
	case survey.Common:
		return 1
	}
	return 0
}
