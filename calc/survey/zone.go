package survey

import (
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/shape"
)

// lining makes the zones of a wall: for every layer of every lined zone the outline that it must cover. A zone
// that a head or a foot parts into several pieces gives one Zone for each, with the same index; one that is left
// open gives none.
func (s *side) lining() error {
	for _, l := range s.zones {
		for k := range l.stack {
			if err := s.layer(l, k); err != nil {
				return err
			}
		}
	}
	return nil
}

// slab is a stretch of height in which the setbacks at both ends do not change.
type slab struct {
	from, to    length.Length
	left, right length.Length // setbacks
}

// layer makes layer k (0-based) of a zone.
func (s *side) layer(l layering, k int) error {
	slabs := s.slabs(l, k)
	west, east := length.Length(0), s.width
	for _, b := range slabs {
		west, east = min(west, b.left), max(east, s.width-b.right)
	}
	head, under := s.lowered(l.stack.depth(k + 1))
	foot, _ := s.chain(s.wall.Bottom, "bottom")
	if foot == nil {
		foot = []shape.Point{{}, {X: s.width}}
	}
	for i := range foot {
		foot[i].Y += s.wall.Base
	}
	foot, head = stretch(foot, west, east), stretch(head, west, east)
	wholes := bounded(foot, head)
	if len(wholes) == 0 {
		return job.Refuse(s.id(), "raise the wall, or leave it open", "the wall is too low for its curb and the ceiling's lining").At("lining", 0)
	}
	var pieces []shape.Polygon
	for _, b := range slabs {
		if b.left+b.right >= s.width {
			return job.Refuse(s.id(), "leave this wall open", "the linings of the neighbouring walls leave nothing of the wall's length").At("lining", 0)
		}
		for _, whole := range wholes {
			for _, p := range whole.Band(shape.AtY, b.from, b.to) {
				pieces = append(pieces, p.Band(shape.AtX, b.left, s.width-b.right)...)
			}
		}
	}
	regions := shape.Union(pieces...)
	if len(regions) == 0 {
		return job.Refuse(s.id(), "delete it, or move its `to`", "zone %d lies above the head or below the foot of the wall", l.index).At("lining", l.index)
	}
	for _, g := range regions {
		z := s.newZone(l, k)
		// the lines between slabs leave no corners on slanted edges
		z.Outline = g.Outline.Straightened(func(p shape.Point) bool {
			return p.Y == l.from || p.Y == l.to || slices.ContainsFunc(wholes, func(w shape.Polygon) bool { return slices.Contains(w, p) })
		}).Normal()
		s.surface.pierce(z)
		for i, a := range z.Outline {
			z.Edges = append(z.Edges, s.edge(l, wholes, under, a, z.Outline[(i+1)%len(z.Outline)]))
		}
		if slices.ContainsFunc(z.Edges, func(e Edge) bool { return e.Meets == AtFloor || e.Meets == AtCurb }) {
			z.FloorGap = s.room.job.Rules.FloorGap
		}
		z.settleRun()
		s.surface.Zones = append(s.surface.Zones, z)
	}
	return nil
}

func (s *side) newZone(l layering, k int) *Zone {
	j := s.room.job
	z := newZone(j, s.surface, l.zone, l.index, k)
	z.Depth = l.stack.depth(k)
	z.Begins = l.zone.Start != job.StartAuto
	z.Start = startOf(j, l.zone.Start, z.Product, s.room.roof.lining > 0)
	z.Pins = pinsOf(s.wall.Pins, l.index, k+1)
	return z
}

func newZone(j *job.Job, s *Surface, z *job.Zone, index, k int) *Zone {
	run := job.RunAuto
	if k < len(z.Runs) {
		run = z.Runs[k]
	} else if len(z.Runs) == 1 {
		run = z.Runs[0]
	}
	n := &Zone{Surface: s, Index: index, Layer: k + 1, Layers: len(z.Layers), Product: j.Product(z.Layers[k]), Run: run,
		Pattern: z.Pattern, Finish: z.Finish, Courses: slices.Clone(z.Courses)}
	for _, id := range z.Layers {
		if p := j.Product(id); p != nil && p.Kind == job.Gypsum {
			n.Plies++
		}
	}
	return n
}

// settleRun lets courses that the user fixes be heights of sheets laid across, where the board carries that way.
func (z *Zone) settleRun() {
	if z.Product == nil || len(z.Courses) == 0 || z.Layer > 1 || z.Run != job.RunAuto && z.Run != "" {
		return
	}
	if _, ok := z.Spans(job.RunAcross); ok {
		z.Run = job.RunAcross
	}
}

func pinsOf(pins []job.Pin, zone, layer int) []job.Pin {
	var own []job.Pin
	for _, p := range pins {
		if p.Zone == zone && p.Layer == layer {
			own = append(own, p)
		}
	}
	return own
}

// pierce gives a zone the openings and large boxes that lie in its outline.
func (s *Surface) pierce(z *Zone) {
	for _, o := range s.rough {
		for _, piece := range z.Outline.Intersect(o.Rect()) {
			if o.Kind == job.KeepOut {
				z.KeepOuts = append(z.KeepOuts, piece.Bounds())
			} else {
				z.Holes = append(z.Holes, Hole{Opening: o, Outline: piece})
			}
		}
	}
	for _, b := range s.Placed {
		if !b.Large(z.Outline.Bounds()) {
			continue
		}
		for _, piece := range z.Outline.Intersect(b.Rect()) {
			z.Large = append(z.Large, piece.Bounds())
		}
	}
}

// slabs cuts the zone's height where a neighbour's lining changes, and joins what turns out alike.
func (s *side) slabs(l layering, k int) []slab {
	bounds := s.surface.Outline.Bounds()
	from, to := max(l.from, bounds.Y), min(l.to, bounds.MaxY())
	if l.from == 0 {
		from = bounds.Y
	}
	at := []length.Length{from, to}
	for _, rightEnd := range []bool{false, true} {
		for _, y := range s.breaks(rightEnd) {
			if y > from && y < to && s.within(y, rightEnd) == y {
				at = append(at, y)
			}
		}
	}
	slices.Sort(at)
	at = slices.Compact(at)
	var slabs []slab
	for i := 1; i < len(at); i++ {
		mid := at[i-1] + (at[i]-at[i-1])/2
		left, right := s.within(mid, false), s.within(mid, true)
		b := slab{at[i-1], at[i], s.corner(false, l.stack, left).setback(0, k), s.corner(true, l.stack, right).setback(0, k)}
		if n := len(slabs); n > 0 && slabs[n-1].left == b.left && slabs[n-1].right == b.right {
			slabs[n-1].to = b.to
		} else {
			slabs = append(slabs, b)
		}
	}
	return slabs
}

// within moves a height to where the wall has an edge at one end: a gable's upper part is as far from the corner as
// the edge below it.
func (s *side) within(y length.Length, rightEnd bool) length.Length {
	x := length.Length(0)
	if rightEnd {
		x = s.width
	}
	foot, head := s.reach(x)
	return max(foot+1, min(y, head-1))
}

// edge says what the side ab of a zone's outline meets. wholes is the outline over the wall's full height, so an
// edge inside it is a line to another zone or the step beside a neighbour's zones.
func (s *side) edge(l layering, wholes []shape.Polygon, under []shape.Point, a, b shape.Point) Edge {
	if a.X == b.X && (b.X <= s.width/2 && b.Y < a.Y || b.X > s.width/2 && b.Y > a.Y) && !s.stepsAt(a, b) {
		return s.cornerEdge(a.X > s.width/2, a.Y+(b.Y-a.Y)/2)
	}
	mid := shape.Point{X: a.X + (b.X-a.X)/2, Y: a.Y + (b.Y-a.Y)/2}
	if a.Y == b.Y && slices.ContainsFunc(wholes, func(w shape.Polygon) bool { return w.Contains(mid) == shape.Inside }) {
		for i, z := range s.zones {
			if z.index != l.index {
				continue
			}
			switch {
			case a.Y == l.from && i > 0:
				return zoneLine(s.zones[i-1])
			case a.Y == l.to && i+1 < len(s.zones):
				return zoneLine(s.zones[i+1])
			case a.Y == l.from || a.Y == l.to:
				return Edge{Meets: AtFree}
			}
		}
		return s.cornerEdge(mid.X > s.width/2, mid.Y)
	}
	if b.X < a.X || a.X == b.X { // outward is up, or the upright part of a stepped head
		if under != nil && onLine(under, mid) {
			return Edge{Meets: AtCeiling}
		}
		if a.X != b.X || len(s.wall.Top) > 0 {
			return Edge{Meets: AtHead}
		}
	}
	if s.wall.Base > 0 {
		return Edge{Meets: AtCurb}
	}
	return Edge{Meets: AtFloor}
}

// stepsAt reports whether the upright edge ab belongs to a step in the wall's own head or foot, away from its ends.
func (s *side) stepsAt(a, b shape.Point) bool {
	for _, c := range [][]shape.Point{s.wall.Top, s.wall.Bottom} {
		for i := 1; i < len(c); i++ {
			if c[i].X == c[i-1].X && c[i].X == a.X && c[i].X > 0 && c[i].X < s.width {
				return true
			}
		}
	}
	return false
}

func zoneLine(beyond layering) Edge {
	if len(beyond.stack) == 0 {
		return Edge{Meets: AtFree}
	}
	return Edge{Meets: AtZone}
}

// cornerEdge is an end of the wall at a height: an edge is free where the neighbour has no lining. Walls that go on
// in one straight line meet like zones.
func (s *side) cornerEdge(rightEnd bool, y length.Length) Edge {
	n := s.prev
	if rightEnd {
		n = s.next
	}
	m := s.corner(rightEnd, nil, y)
	if len(m.stacks[1]) == 0 {
		return Edge{Meets: AtFree}
	}
	switch m.kind {
	case inside:
		return Edge{AtInsideCorner, n.id()}
	case outside:
		return Edge{AtOutsideCorner, n.id()}
	}
	return Edge{AtZone, n.id()}
}

// onLine reports whether a point lies on a line along the wall, but for the rounding of its corners.
func onLine(c []shape.Point, p shape.Point) bool {
	const rounding = 2 * length.Nanometre
	c = stretch(c, min(c[0].X, p.X), max(c[len(c)-1].X, p.X))
	for i := 1; i < len(c); i++ {
		if a, b := c[i-1], c[i]; a.X < b.X && a.X <= p.X && p.X <= b.X {
			return (a.Y + ratio(p.X-a.X, b.Y-a.Y, b.X-a.X) - p.Y).Abs() <= rounding
		}
	}
	return false
}
