package fasten

import (
	"cmp"
	"slices"

	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/calc/survey"
)

// Distances that tell what a row or an edge belongs to.
const (
	memberEdge = eighth   // a row stands at least this far inside the member's face (common practice, no source)
	reaches    = inch     // an end of a sheet this near to the zone's outline ends there: fit, gap and no more
	nearJoint  = inch / 4 // a sheet's edge this near to a joint belongs to it: half the widest gap between boards and some
	plateDepth = 3 * inch // two top plates
	soleDepth  = 3 * inch / 2
)

// placed is a screw in u, v.
type placed struct{ u, v length.Length }

// panel places the screws of one sheet, row by row.
func (f *fixing) panel(p *plan.Panel) []shape.Point {
	s := newSheet(p.Outline, slices.Concat(p.Holes, f.surface.Boxes), f.turned)
	var points []placed
	rows := f.memberRows(s)
	for _, j := range f.layer.Joints {
		if at, ok := f.ownRow(s, p, j); ok && !hasRow(rows, at.u) {
			rows = append(rows, at)
		}
	}
	slices.SortFunc(rows, func(a, b fastenRow) int { return cmp.Compare(a.u, b.u) })
	for _, r := range rows {
		points = append(points, f.row(s, r)...)
	}
	for _, e := range f.ends(s, p) {
		points = fillEnd(points, s, e)
	}
	found := make([]shape.Point, len(points))
	for i, q := range points {
		found[i] = shape.Point{X: q.u, Y: q.v}
		if f.turned {
			found[i] = shape.Point{X: q.v, Y: q.u}
		}
	}
	return found
}

// fastenRow is a line of screws along a member: where, how far apart, and on which stretches of the sheet.
type fastenRow struct {
	u       length.Length
	spacing length.Length
	reach   reach
	within  stretch
}

// reach says how a row's stretches hang on its span within.
type reach int

const (
	everywhere reach = iota
	touching         // every stretch that the span touches, whole: a cripple, with header and sill behind the rest
	clipped          // the parts within the span
)

func hasRow(rows []fastenRow, u length.Length) bool {
	for _, r := range rows {
		if (r.u - u).Abs() < Edge {
			return true
		}
	}
	return false
}

// memberRows are the rows on members: at the member's centre, moved to 3/8 in from the sheet's edge where that edge
// falls on the member. Members that touch each other are fixed as one post, on that which an edge of the sheet needs, else on the
// jamb or end.
func (f *fixing) memberRows(s sheet) []fastenRow {
	var rows []fastenRow
	var last survey.Member
	lastEnds := false
	left, right := s.box.X, s.box.MaxX()
	if right-left < 2*Edge {
		return nil
	}
	for _, m := range f.members {
		if m.At+m.Width/2 <= left || m.At-m.Width/2 >= right {
			continue
		}
		u := min(max(m.At, left+Edge), right-Edge)
		if (u - m.At).Abs() > m.Width/2-memberEdge {
			continue
		}
		r := fastenRow{u: u, spacing: f.field}
		ends := u-left <= m.Width || right-u <= m.Width // the sheet ends on this member
		if ends {
			r.spacing = f.edge
		}
		if len(rows) > 0 && post(last, m) && !(ends && lastEnds) {
			if lastEnds || !ends && rank(m) <= rank(last) {
				continue
			}
			for len(rows) > 0 && (rows[len(rows)-1].u-last.At).Abs() <= last.Width/2 {
				rows = rows[:len(rows)-1]
			}
		}
		last, lastEnds = m, ends
		if m.Kind == survey.Cripple {
			r.reach, r.within = touching, stretch{From: m.From, To: m.To}
		}
		rows = append(rows, r)
		rows = append(rows, f.besideNotch(s, m, u)...)
	}
	return rows
}

// besideNotch are rows beside upright sides of the sheet that come nearer than 3/8 in to a member's row: where a notch or
// hole ends on the member, the sheet is fixed 3/8 in from that side, as far as the side goes.
func (f *fixing) besideNotch(s sheet, m survey.Member, u length.Length) []fastenRow {
	var rows []fastenRow
	for _, p := range append([]shape.Polygon{s.outline}, s.holes...) {
		for i, a := range p {
			b := p[(i+1)%len(p)]
			if a.X != b.X || (a.X-u).Abs() >= Edge {
				continue
			}
			for _, at := range []length.Length{a.X - Edge, a.X + Edge} {
				if (at - m.At).Abs() <= m.Width/2-memberEdge {
					rows = append(rows, fastenRow{u: at, spacing: f.edge, reach: clipped, within: stretch{From: min(a.Y, b.Y), To: max(a.Y, b.Y)}})
				}
			}
		}
	}
	return rows
}

// row places the screws of one row on the stretches of the sheet that it crosses.
func (f *fixing) row(s sheet, r fastenRow) []placed {
	var points []placed
	stretches := s.clear(r.u)
	if r.reach == clipped {
		stretches = overlap(stretches, []stretch{r.within})
	}
	for _, c := range stretches {
		if r.reach == touching && (c.To <= r.within.From || c.From >= r.within.To) {
			continue
		}
		if c.Width() < 2*Edge {
			continue
		}
		from, to := c.From+Edge, c.To-Edge
		if f.float > 0 {
			lo, hi := from, to
			if f.floats(r.u, c.From) {
				lo = max(from, c.From+f.float)
			}
			if f.floats(r.u, c.To) {
				hi = min(to, c.To-f.float)
			}
			if lo <= hi { // a narrow strip keeps its own screws
				from, to = lo, hi
			}
		}
		for _, v := range along(from, to, r.spacing) {
			points = append(points, placed{r.u, v})
		}
	}
	return points
}

// floats reports whether a sheet that ends at v on the line u does so in a floating corner: on a wall below the
// ceiling's lining, on a ceiling where the member runs into a wall.
func (f *fixing) floats(u, v length.Length) bool {
	for _, c := range crossings(f.outline, u) {
		if (c.v-v).Abs() > reaches || c.side >= len(f.zone.Edges) {
			continue
		}
		switch f.zone.Edges[f.edgeOf(c.side)].Meets {
		case survey.AtCeiling:
			return true
		case survey.AtInsideCorner, survey.AtHead:
			return f.surface.Kind == plan.Ceiling
		}
	}
	return false
}

// edgeOf is the zone's edge that a side of its outline in u, v is: transposing turns the order round.
func (f *fixing) edgeOf(side int) int {
	n := len(f.zone.Outline)
	if !f.turned {
		return side
	}
	return (2*n - 2 - side) % n
}

// ownRow is the row of a seam between members that runs along them, over backing or a back-block, on this sheet's side.
func (f *fixing) ownRow(s sheet, p *plan.Panel, j plan.Joint) (fastenRow, bool) {
	from, to := f.uv(j.From), f.uv(j.To)
	if from.X != to.X || !slices.Contains(j.Panels, p.ID) {
		return fastenRow{}, false
	}
	switch j.Support {
	case plan.OnBacking, plan.OnBackBlock, plan.OnBlocking:
	default:
		return fastenRow{}, false
	}
	r := fastenRow{spacing: f.edge, reach: clipped, within: stretch{From: min(from.Y, to.Y), To: max(from.Y, to.Y)}}
	switch u := from.X; {
	case (s.box.X - u).Abs() <= nearJoint:
		r.u = s.box.X + Edge
	case (s.box.MaxX() - u).Abs() <= nearJoint:
		r.u = s.box.MaxX() - Edge
	default:
		return fastenRow{}, false
	}
	return r, true
}

func (f *fixing) uv(p shape.Point) shape.Point {
	if f.turned {
		return shape.Point{X: p.Y, Y: p.X}
	}
	return p
}

// end is an edge of the sheet that runs across the members and has something behind it: screws stand on the line v.
type end struct {
	v       length.Length
	within  stretch
	spacing length.Length
}

// ends lists the edges across the members that are fixed along their length: those of wood panels on plates, blocking
// and backing, those of gypsum on back-blocks, and on blocking where the lining braces.
func (f *fixing) ends(s sheet, p *plan.Panel) []end {
	var ends []end
	for _, j := range f.layer.Joints {
		from, to := f.uv(j.From), f.uv(j.To)
		if from.Y != to.Y || !slices.Contains(j.Panels, p.ID) || !f.fixedAlong(j.Support) {
			continue
		}
		e := end{spacing: f.edge, within: stretch{From: min(from.X, to.X), To: max(from.X, to.X)}}
		switch v := from.Y; {
		case (s.box.Y - v).Abs() <= nearJoint:
			e.v = s.box.Y + Edge
		case (s.box.MaxY() - v).Abs() <= nearJoint:
			e.v = s.box.MaxY() - Edge
		default:
			continue
		}
		ends = append(ends, e)
	}
	if f.wood || f.allEnds {
		ends = append(ends, f.plateEnds(s)...)
	}
	return merged(ends)
}

// merged joins stretches of one edge that follow on each other: an edge meets several sheets, and a plate besides.
func merged(ends []end) []end {
	slices.SortFunc(ends, func(a, b end) int {
		return cmp.Or(cmp.Compare(a.v, b.v), cmp.Compare(a.within.From, b.within.From), cmp.Compare(a.within.To, b.within.To))
	})
	var joined []end
	for _, e := range ends {
		if n := len(joined); n > 0 && joined[n-1].v == e.v && e.within.From <= joined[n-1].within.To+nearJoint {
			joined[n-1].within.To = max(joined[n-1].within.To, e.within.To)
			continue
		}
		joined = append(joined, e)
	}
	return joined
}

func (f *fixing) fixedAlong(s plan.Support) bool {
	switch s {
	case plan.OnBackBlock:
		return true
	case plan.OnBlocking, plan.OnPlate:
		return f.wood || f.allEnds
	case plan.OnBacking:
		return f.wood
	}
	return false
}

// plateEnds are the lower and upper edge of a sheet where the wall's plates lie behind them.
func (f *fixing) plateEnds(s sheet) []end {
	if f.surface.Kind != plan.Wall || f.turned {
		return nil
	}
	wall := f.surface.Outline.Bounds()
	whole := stretch{From: s.box.X, To: s.box.MaxX()}
	var ends []end
	if v := s.box.Y + Edge; v-wall.Y <= soleDepth-memberEdge {
		ends = append(ends, end{v: v, within: whole, spacing: f.edge})
	}
	if v := s.box.MaxY() - Edge; wall.MaxY()-v <= plateDepth-memberEdge {
		ends = append(ends, end{v: v, within: whole, spacing: f.edge})
	}
	return ends
}

// fillEnd adds screws between those that the rows already put on an edge, so that none stand farther apart than the
// edge's spacing.
func fillEnd(points []placed, s sheet, e end) []placed {
	turned := s.transposed()
	for _, c := range overlap(turned.clear(e.v), []stretch{e.within}) {
		if c.Width() < 2*Edge {
			continue
		}
		stops := []length.Length{c.From + Edge, c.To - Edge}
		have := map[length.Length]bool{}
		for _, q := range points {
			if q.v == e.v && q.u >= c.From && q.u <= c.To {
				stops, have[q.u] = append(stops, q.u), true
			}
		}
		slices.Sort(stops)
		stops = slices.Compact(stops)
		for i, u := range stops {
			if !have[u] && !crowded(stops, have, u) {
				points = append(points, placed{u, e.v})
			}
			if i+1 < len(stops) {
				for _, between := range inner(along(u, stops[i+1], e.spacing)) {
					points = append(points, placed{between, e.v})
				}
			}
		}
	}
	return points
}

// crowded: a screw of a row already stands within 3/8 in of an end of the line.
func crowded(stops []length.Length, have map[length.Length]bool, u length.Length) bool {
	for _, x := range stops {
		if have[x] && (x-u).Abs() <= Edge {
			return true
		}
	}
	return false
}

func inner(at []length.Length) []length.Length {
	if len(at) <= 2 {
		return nil
	}
	return at[1 : len(at)-1]
}
