package layout

import (
	"cmp"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
)

// Panel is a piece as it hangs, still in course coordinates.
type Panel struct {
	Piece
	Region shape.Region // what hangs
	Whole  shape.Region // before gap and fit were taken off: where joints run
}

// Panels realises a choice of end joints for every row: the pieces clipped to what must be covered, by course and
// from the left.
func (s *Scheme) Panels(choices []*Choice) []Panel {
	var panels []Panel
	for r, c := range choices {
		for i := 0; i < len(c.Pieces); {
			p, n := c.Pieces[i], 1
			for ; i+n < len(c.Pieces) && p.meets(&c.Pieces[i+n]); n++ {
				p = p.joined(&c.Pieces[i+n])
			}
			panels = append(panels, s.hung(&s.Rows[r].Spans[p.Span], p, n > 1)...)
			i += n
		}
	}
	slices.SortStableFunc(panels, func(a, b Panel) int {
		return cmp.Or(cmp.Compare(a.Band, b.Band), cmp.Compare(a.Cell.X, b.Cell.X), cmp.Compare(a.Cell.Y, b.Cell.Y))
	})
	return panels
}

// meets tells whether the cells of two pieces of one stretch lie over each other, as they may beside slants.
func (p *Piece) meets(q *Piece) bool {
	return p.Span == q.Span && p.Cell.X == q.Cell.X && p.Cell.Y < q.Cell.MaxY() && q.Cell.Y < p.Cell.MaxY()
}

// joined is a piece for the cells of two: what hangs in them is told apart by its outline.
func (p *Piece) joined(q *Piece) Piece {
	low, high := *p, q
	if q.Cell.Y < p.Cell.Y {
		low, high = *q, p
	}
	if top := high.Cell.MaxY(); top > low.Cell.MaxY() {
		low.Cell.H = top - low.Cell.Y
		low.Inset[HighV], low.Tapers[1] = high.Inset[HighV], high.Tapers[1]
	}
	return low
}

// hung is what hangs in a piece's cell: mostly one panel, of the piece's size. A slanted outline may part it once more:
// then, and where the cell was made of several, every part is a piece of its own with its own size and edges.
func (s *Scheme) hung(sp *Span, p Piece, apart bool) (panels []Panel) {
	inner := shape.Rect{X: p.Cell.X + p.Inset[LowU], Y: p.Cell.Y + p.Inset[LowV],
		W: p.Cell.W - p.Inset[LowU] - p.Inset[HighU], H: p.Cell.H - p.Inset[LowV] - p.Inset[HighV]}
	for _, part := range sp.region.Intersect(p.Cell) {
		for _, hung := range part.Intersect(inner) {
			panels = append(panels, Panel{Piece: p, Region: hung, Whole: part})
		}
	}
	if !apart && len(panels) < 2 {
		return panels
	}
	for i := range panels {
		q := &panels[i]
		b := q.Region.Bounds()
		q.Tapers[0] = q.Tapers[0] && b.Y == inner.Y
		q.Tapers[1] = q.Tapers[1] && b.MaxY() == inner.MaxY()
		q.Size = Size{L: Marked(b.W), W: Marked(b.H)}
		for _, t := range q.Tapers {
			if t {
				q.Size.Tapers++
			}
		}
		q.Size.Turn = s.mayTurn() && q.Size.Tapers == 0
	}
	return panels
}

// Made is how the four sides of a panel came about: at low u, high u, low v, high v.
type Made [4]plan.Edge

// Edges orders a panel's sides as the plan does: bottom, right, top, left.
func (s *Scheme) Edges(m Made) [4]plan.Edge {
	if s.Swap {
		return [4]plan.Edge{m[LowU], m[HighV], m[HighU], m[LowV]}
	}
	return [4]plan.Edge{m[LowV], m[HighU], m[HighV], m[LowU]}
}

// Outline is a panel's outline on the surface, and its holes.
func (s *Scheme) Outline(p *Panel) (shape.Polygon, []shape.Polygon) {
	g := p.Region
	if s.Swap {
		g = g.Transposed()
	}
	return g.Outline, g.Holes
}

// Joint is a stretch where two panels meet.
type Joint struct {
	Kind     plan.JointKind
	From, To shape.Point // on the surface
	A, B     int         // indexes of the panels: below or left, above or right
	Support  plan.Support
	End      bool // an end joint; else between courses
}

// Joints finds where panels meet, from how their edges were made.
func (s *Scheme) Joints(panels []Panel, made []Made) []Joint {
	var joints []Joint
	for a := range panels {
		for b := range panels {
			pa, pb := &panels[a], &panels[b]
			if a == b || pb.Band < pa.Band || pb.Band > pa.Band+1 {
				continue
			}
			if pa.Cell.MaxX() == pb.Cell.X && pa.Band == pb.Band {
				for _, iv := range shared(pa.Whole, pb.Whole, shape.AtX, pb.Cell.X) {
					joints = append(joints, s.joint(panels, made, a, b, true, pb.Cell.X, iv))
				}
			}
			if pa.Cell.MaxY() == pb.Cell.Y {
				for _, iv := range shared(pa.Whole, pb.Whole, shape.AtY, pb.Cell.Y) {
					joints = append(joints, s.joint(panels, made, a, b, false, pb.Cell.Y, iv))
				}
			}
		}
	}
	return joints
}

// shared are the stretches over which two regions meet on a line.
func shared(a, b shape.Region, axis shape.Axis, at length.Length) []interval {
	var both []interval
	for _, x := range onLine(a, axis, at) {
		for _, y := range onLine(b, axis, at) {
			if lo, hi := max(x.lo, y.lo), min(x.hi, y.hi); lo < hi {
				both = append(both, interval{lo, hi})
			}
		}
	}
	slices.SortFunc(both, func(x, y interval) int { return cmp.Compare(x.lo, y.lo) })
	return both
}

func onLine(g shape.Region, axis shape.Axis, at length.Length) []interval {
	var ivs []interval
	for _, loop := range append([]shape.Polygon{g.Outline}, g.Holes...) {
		for i, p := range loop {
			q := loop[(i+1)%len(loop)]
			if axis == shape.AtX && p.X == at && q.X == at {
				ivs = append(ivs, interval{min(p.Y, q.Y), max(p.Y, q.Y)})
			}
			if axis == shape.AtY && p.Y == at && q.Y == at {
				ivs = append(ivs, interval{min(p.X, q.X), max(p.X, q.X)})
			}
		}
	}
	return ivs
}

func (s *Scheme) joint(panels []Panel, made []Made, a, b int, end bool, at length.Length, iv interval) Joint {
	j := Joint{A: a, B: b, End: end}
	var ea, eb plan.Edge
	if end {
		ea, eb = made[a][HighU], made[b][LowU]
		j.From, j.To = s.point(shape.Point{X: at, Y: iv.lo}), s.point(shape.Point{X: at, Y: iv.hi})
		j.Support = s.endSupport(at, iv)
	} else {
		ea, eb = made[a][HighV], made[b][LowV]
		j.From, j.To = s.point(shape.Point{X: iv.lo, Y: at}), s.point(shape.Point{X: iv.hi, Y: at})
		j.Support = s.longSupport(at, []interval{iv})
	}
	j.Kind = s.kind(ea, eb, end)
	if end && slices.Contains(s.controls, at) || !end && slices.Contains(s.levels, at) {
		j.Kind = plan.Control
		if s.Run == job.RunAcross == end && s.doubledAt(at) {
			j.Support = plan.OnMember
		}
	}
	if end && s.Rules.Cutouts == job.RectOnly {
		for _, h := range s.Holes {
			if at != h.X && at != h.MaxX() {
				continue
			}
			if s.Zone.Product.Kind == job.Gypsum {
				j.Kind = plan.Control
			}
			if s.Run == job.RunAcross {
				j.Support = plan.OnMember // the jamb on one side, header or sill on the other
			}
		}
	}
	return j
}

// Where only rectangles may be used, every layout has joints at the jambs. Board cracks there, so they are made as
// control joints, the only ones that the trade allows at the corners of a framed opening.

// kind says how a joint between two edges is finished. Long edges of a board without tapers meet in a plain panel joint,
// as wood panels do everywhere.
func (s *Scheme) kind(a, b plan.Edge, end bool) plan.JointKind {
	switch {
	case s.Zone.Product.Kind == job.WoodPanel || !end && !s.Zone.Product.Tapered:
		return plan.PanelGap
	case a == plan.EdgeTapered && b == plan.EdgeTapered:
		return plan.Tapered
	case a == plan.EdgeTapered || b == plan.EdgeTapered:
		return plan.Mixed
	default:
		return plan.Butt
	}
}

// endSupport is what lies behind an end joint.
func (s *Scheme) endSupport(u length.Length, iv interval) plan.Support {
	if s.Run == job.RunAcross && s.bearing(u, []interval{iv}) {
		return plan.OnMember
	}
	return s.freeSupport()
}

// longSupport is what lies behind a joint between courses.
func (s *Scheme) longSupport(v length.Length, stretches []interval) plan.Support {
	if s.Run == job.RunAlong {
		switch {
		case s.bearing(v, stretches):
			return plan.OnMember
		case s.Backed:
			return plan.OnBacking
		case s.Blocked:
			return plan.OnBackBlock
		default:
			return plan.Unsupported
		}
	}
	switch {
	case s.Zone.Surface.Backing != nil && s.Zone.Layer == 1:
		return plan.OnBacking
	case s.Zone.Product.Kind == job.WoodPanel:
		return plan.OnBlocking
	default:
		return plan.Unsupported
	}
}

// At is a point in course coordinates as a point of the surface.
func (s *Scheme) At(u, v length.Length) shape.Point { return s.point(shape.Point{X: u, Y: v}) }
