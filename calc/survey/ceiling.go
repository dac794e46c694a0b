package survey

import (
	"fmt"
	"math"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
)

// plane is one piece of ceiling being surveyed: its pitch, and its outline in the floor plan and laid flat.
type plane struct {
	room    *room
	pitch   pitch
	inPlan  shape.Polygon
	surface *Surface
}

// ceilings makes the ceiling's surfaces: the room's outline cut at the ridge, every piece laid flat as it is seen
// in plan. A room whose outline the ridge cuts more than once gives several pieces to a side.
func (r *room) ceilings() ([]*Surface, error) {
	if r.roof.ceiling == nil {
		return nil, nil
	}
	outline := shape.Polygon(r.room.Corners).Normal()
	parts := [][]shape.Polygon{{outline}}
	if len(r.roof.planes) == 2 {
		axis := shape.AtX
		if r.roof.planes[0].axis == job.AxisY {
			axis = shape.AtY
		}
		lo, hi := outline.Cut(axis, r.roof.planes[0].to)
		parts = [][]shape.Polygon{lo, hi}
	}
	var planes []*plane
	for i, pieces := range parts {
		for n, piece := range pieces {
			p := &plane{room: r, pitch: r.roof.planes[i], inPlan: piece}
			name := "ceiling"
			if p.pitch.side != "" {
				name += "-" + p.pitch.side
			}
			if n > 0 {
				name += fmt.Sprintf("-%d", n+1)
			}
			planes = append(planes, p)
			p.survey(r.room.ID + "/" + name)
		}
	}
	var surfaces []*Surface
	for _, p := range planes {
		if err := p.addOpenings(); err != nil {
			return nil, err
		}
		surfaces = append(surfaces, p.surface)
	}
	if err := allPlaced(r, planes); err != nil {
		return nil, err
	}
	for _, p := range planes {
		p.surface.addMembers(p.framing())
		if err := p.lining(planes); err != nil {
			return nil, err
		}
	}
	return surfaces, nil
}

// local is a point of the floor plan laid flat on the plane: the coordinate along the slope is stretched.
func (p *plane) local(q shape.Point) shape.Point {
	t := p.pitch
	switch {
	case t.rise() == 0:
	case t.axis == job.AxisX:
		q.X = stretched(q.X-t.from, t.run(), t.rise())
	default:
		q.Y = stretched(q.Y-t.from, t.run(), t.rise())
	}
	return q
}

// framing is the ceiling's framing with the members placed by hand, which are given on the floor plan, laid flat.
func (p *plane) framing() job.Framing {
	f := p.room.roof.ceiling.Framing
	flat := func(at []length.Length) []length.Length {
		var r []length.Length
		for _, x := range at {
			q := p.local(shape.Point{X: x, Y: x})
			r = append(r, along(q, job.Axis(p.surface.Members.Axis)))
		}
		return r
	}
	f.Also, f.Without = flat(f.Also), flat(f.Without)
	return f
}

func (p *plane) survey(id string) {
	c, t := p.room.roof.ceiling, p.pitch
	flat := make(shape.Polygon, len(p.inPlan))
	for i, q := range p.inPlan {
		flat[i] = p.local(q)
	}
	frame := plan.Frame{Origin: [3]length.Length{0, 0, t.atFrom}, X: [3]float64{1, 0, 0}, Y: [3]float64{0, 1, 0}, Normal: [3]float64{0, 0, -1}}
	run, rise := float64(t.run()), float64(t.rise())
	switch {
	case t.rise() == 0:
	case t.axis == job.AxisX:
		frame.Origin[0] = t.from
		frame.X = unit([3]float64{run, 0, rise})
		frame.Normal = unit([3]float64{rise, 0, -run})
	default:
		frame.Origin[1] = t.from
		frame.Y = unit([3]float64{0, run, rise})
		frame.Normal = unit([3]float64{0, rise, -run})
	}
	axis := job.AxisX
	if c.Framing.Along == job.AxisX {
		axis = job.AxisY
	}
	p.surface = newSurface(id, plan.Ceiling, p.room.room, flat.Normal(), c.Framing, axis)
	p.surface.Ceiling, p.surface.Frame = c, frame
}

// addOpenings takes the openings and boxes whose place in the floor plan lies under this plane. Their sizes are
// measured on the plane.
func (p *plane) addOpenings() error {
	var openings []job.Opening
	for _, o := range p.room.roof.ceiling.Openings {
		at := shape.Point{X: o.At, Y: o.Sill}
		if place := p.inPlan.Contains(at); place == shape.Outside || !p.holds(at) {
			continue
		}
		l := p.local(at)
		o.At, o.Sill = l.X, l.Y
		openings = append(openings, o)
	}
	var boxes []job.Box
	for _, b := range p.room.roof.ceiling.Boxes {
		at := shape.Point{X: b.At, Y: b.Up}
		if p.inPlan.Contains(at) == shape.Outside || !p.holds(at) {
			continue
		}
		l := p.local(at)
		b.At, b.Up = l.X, l.Y
		boxes = append(boxes, b)
	}
	p.surface.addBoxes(boxes)
	return p.surface.addOpenings(openings)
}

// holds settles which of two planes owns a point on the ridge: the upper right one, whose lower left corner it is.
func (p *plane) holds(at shape.Point) bool {
	return len(p.room.roof.planes) == 1 || along(at, p.pitch.axis) < p.pitch.to
}

// allPlaced makes sure that no opening or box lies outside the ceiling.
func allPlaced(r *room, planes []*plane) error {
	openings, boxes := 0, 0
	for _, p := range planes {
		openings += len(p.surface.Openings)
		boxes += len(p.surface.Boxes)
	}
	if openings != len(r.roof.ceiling.Openings) || boxes != len(r.roof.ceiling.Boxes) {
		key := "openings"
		if boxes != len(r.roof.ceiling.Boxes) {
			key = "boxes"
		}
		return job.Refuse(r.room.ID+"/ceiling", "`at` counts on the floor plan, x right and y up", "an opening or box lies outside the room").At(key, 0)
	}
	return nil
}

// lining makes the ceiling's layers. A ceiling hangs before the walls, so its lining runs to their framing; only
// where it falls from a wall into the room the square end of a board stays clear of the wall with its front edge.
// At the ridge the plane hung first runs up to the ridge and the other stops at its face.
func (p *plane) lining(planes []*plane) error {
	r := p.room
	for i := range r.roof.ceiling.Lining {
		zone := &r.roof.ceiling.Lining[i]
		var own stack
		for _, id := range zone.Layers {
			if id != job.Open {
				own = append(own, r.job.Product(id).Thickness)
			}
		}
		for k := range own {
			z := newZone(r.job, p.surface, zone, i+1, k)
			z.Depth = own.depth(k)
			z.Start = zone.Start
			if z.Start == job.StartAuto {
				z.Start = job.StartFloor // a ceiling has no head: courses count from its lower side
			}
			z.Pins = pinsOf(r.roof.ceiling.Pins, i+1, k+1)
			back := make([]length.Length, len(p.surface.Outline))
			for e, a := range p.surface.Outline {
				edge, setback := p.edge(a, p.surface.Outline[(e+1)%len(p.surface.Outline)], own, k, planes)
				z.Edges = append(z.Edges, edge)
				back[e] = setback
			}
			z.Outline = p.surface.Outline.Inset(back)
			if !z.Outline.Simple() || !z.Outline.CounterClockwise() || len(z.Outline) != len(z.Edges) {
				return job.Refuse(p.surface.ID, "draw the room wider there, or leave the ceiling open", "the ceiling plane is too small for its lining").At("lining", 0)
			}
			p.surface.pierce(z)
			z.settleRun()
			p.surface.Zones = append(p.surface.Zones, z)
		}
	}
	return nil
}

// edge says what the side ab of the plane's outline meets, and how far layer k stays from it.
func (p *plane) edge(a, b shape.Point, own stack, k int, planes []*plane) (Edge, length.Length) {
	if len(p.room.roof.planes) == 2 && p.onRidge(a) && p.onRidge(b) {
		for _, q := range planes {
			if q.pitch.side != p.pitch.side && q.touches(p, a, b) {
				m := meeting{bend: ridgeBend(p.pitch, q.pitch), stacks: [2]stack{own, own}}
				if p.pitch.from > q.pitch.from {
					m.first = 1
				}
				return Edge{AtRidge, q.surface.ID}, m.setback(0, k)
			}
		}
	}
	s := p.nearest(a, b)
	e := Edge{Meets: AtFree}
	if n := len(s.zones); n > 0 && len(s.zones[n-1].stack) > 0 && s.zones[n-1].zone.To == 0 && len(s.wall.Top) == 0 {
		e = Edge{AtInsideCorner, s.id()}
	}
	fall := p.pitch.fall(s.normal())
	if fall <= 0 {
		return e, 0
	}
	// the angle between wall and ceiling is sharp: cos φ = fall·cos(slope)
	cos := fall * p.pitch.cosine()
	m := meeting{bend: bend{kind: inside, cos: cos, sin: math.Sqrt(1 - float64(cos*cos))}, stacks: [2]stack{own, nil}}
	return e, m.setback(0, k)
}

// ridgeBend is the angle under the ridge: 180° less both slopes.
func ridgeBend(p, q pitch) bend {
	a := math.Atan2(math.Abs(float64(p.rise())), float64(p.run()))
	b := math.Atan2(math.Abs(float64(q.rise())), float64(q.run()))
	return bendOf(-math.Cos(a+b), math.Sin(a+b))
}

// onRidge reports whether a point of the flat plane lies on the ridge.
func (p *plane) onRidge(q shape.Point) bool {
	ridge := p.local(shape.Point{X: p.room.roof.planes[0].to, Y: p.room.roof.planes[0].to})
	return along(q, p.pitch.axis) == along(ridge, p.pitch.axis)
}

// touches reports whether this plane's outline runs along the part ab of another plane's ridge side.
func (p *plane) touches(o *plane, a, b shape.Point) bool {
	across := job.AxisX
	if p.pitch.axis == job.AxisX {
		across = job.AxisY
	}
	mid := along(a, across) + (along(b, across)-along(a, across))/2
	for i, c := range p.surface.Outline {
		d := p.surface.Outline[(i+1)%len(p.surface.Outline)]
		if p.onRidge(c) && p.onRidge(d) && min(along(c, across), along(d, across)) <= mid && mid <= max(along(c, across), along(d, across)) {
			return true
		}
	}
	return false
}

// nearest is the wall under the side ab of the plane: the one whose foot passes the middle of that side in plan.
func (p *plane) nearest(a, b shape.Point) *side {
	mid := [2]float64{float64(a.X+b.X) / 2, float64(a.Y+b.Y) / 2}
	if t := p.pitch; t.rise() != 0 {
		i := 0
		if t.axis == job.AxisY {
			i = 1
		}
		mid[i] = float64(t.from) + float64(mid[i]*t.cosine())
	}
	var best *side
	least := math.Inf(1)
	for _, s := range p.room.sides {
		dx, dy := float64(s.d.X), float64(s.d.Y)
		px, py := mid[0]-float64(s.left.X), mid[1]-float64(s.left.Y)
		t := math.Max(0, math.Min(1, (float64(px*dx)+float64(py*dy))/(float64(dx*dx)+float64(dy*dy))))
		if d := math.Hypot(px-float64(t*dx), py-float64(t*dy)); d < least {
			best, least = s, d
		}
	}
	return best
}
