package draft

import (
	"math"

	"seamwright/calc/job"
	"seamwright/calc/length"
)

// doubleDoor is the width from which a door is drawn with two leaves. Common practice, no source.
const doubleDoor = 48 * length.Inch

// leafLeast is the smallest door in pixels whose swing is drawn.
const leafLeast = 10.0

// openings draws what stands in a wall: gaps with jambs, glass, door leaves and their swing. The side on which a
// door is hung is not known; it is drawn at the left, turning into the room; one that two rooms
// share turns into the later one.
func (d *planSheet) openings(s *side, room int) {
	if s.wall == nil {
		return
	}
	for i := range s.wall.Openings {
		o := &s.wall.Openings[i]
		a, b := d.v.Px(o.At), d.v.Px(o.At+o.Width)
		back, front := -s.depth, s.finish
		if open(s) {
			front = 0
		}
		ink := Pen{Width: 1.5, Color: d.th.Ink}
		hair := Pen{Width: 1, Color: d.th.Ink}
		if o.Kind == job.KeepOut {
			// Lined over: only a dashed outline within the framing.
			d.c.Stroke(s.band(a, b, back*0.75, back*0.25)[0], true, Pen{Width: 1, Color: d.th.Pane, Dash: []float64{4, 2}})
			continue
		}
		gap := s.band(a, b, back-1, front+1)
		d.c.Fill(gap, d.th.Pane)
		d.c.Stroke([]Pt{s.at(a, back), s.at(a, front)}, false, ink)
		d.c.Stroke([]Pt{s.at(b, back), s.at(b, front)}, false, ink)
		if o.Kind != job.Door {
			d.c.Fill(s.band(a, b, back*0.7, back*0.3), d.th.Glass)
			for _, k := range [2]float64{0.7, 0.3} {
				d.c.Stroke([]Pt{s.at(a, back*k), s.at(b, back*k)}, false, hair)
			}
			d.c.Stroke([]Pt{s.at(a, back), s.at(b, back)}, false, hair)
			d.c.Stroke([]Pt{s.at(a, front), s.at(b, front)}, false, hair)
			continue
		}
		d.c.Stroke([]Pt{s.at(a, back), s.at(b, back)}, false, Pen{Width: 1, Color: d.th.Quiet})
		d.c.Stroke([]Pt{s.at(a, front), s.at(b, front)}, false, Pen{Width: 1, Color: d.th.Quiet})
		switch {
		case b-a < leafLeast, d.across(s, o, room+1, len(d.rooms)):
		case o.Width > doubleDoor:
			d.leaf(s, a, (a+b)/2)
			d.leaf(s, b, (a+b)/2)
		default:
			d.leaf(s, a, b)
		}
	}
}

// leaf draws an open door hung at one place whose free edge closes at another, and the way it swings.
func (d *planSheet) leaf(s *side, hinge, edge float64) {
	r := math.Abs(edge - hinge)
	from := s.finish
	if open(s) {
		from = 0
	}
	const steps = 24
	arc := make([]Pt, steps+1)
	for i := range arc {
		sin, cos := math.Sincos(math.Pi / 2 * float64(i) / steps)
		arc[i] = s.at(hinge+(edge-hinge)*cos, from+r*sin)
	}
	d.c.Stroke(arc, false, Pen{Width: 1, Color: d.th.Quiet})
	d.c.Stroke([]Pt{s.at(hinge, from), s.at(hinge, from+r)}, false, Pen{Width: 1.5, Color: d.th.Ink})
	d.taken.take(around(append(arc, s.at(hinge, from))...).Inset(-1))
}

// markOpening shows an opening hovered or selected, with a handle at each jamb.
func (d *planSheet) markOpening(s *side, n int) {
	o := &s.wall.Openings[n]
	t := Target{Kind: OnOpening, Room: s.room.ID, Surface: s.surface, Opening: o.ID, Index: n, Drag: job.AxisX}
	on, hover := selected(d.s.Selected, t), d.s.Hover.Same(t)
	if !on && !hover {
		return
	}
	a, b := d.v.Px(o.At), d.v.Px(o.At+o.Width)
	d.c.Stroke(s.band(a, b, -s.depth, s.finish)[0], true, Pen{Width: 2, Color: d.th.Accent})
	if on {
		mid := (s.finish - s.depth) / 2
		d.handle(s.at(a, mid), false)
		d.handle(s.at(b, mid), false)
	}
}

// around is the smallest upright rectangle round points.
func around(points ...Pt) Rect {
	lo, hi := Pt{math.Inf(1), math.Inf(1)}, Pt{math.Inf(-1), math.Inf(-1)}
	for _, q := range points {
		lo = Pt{math.Min(lo.X, q.X), math.Min(lo.Y, q.Y)}
		hi = Pt{math.Max(hi.X, q.X), math.Max(hi.Y, q.Y)}
	}
	return Rect{lo.X, lo.Y, hi.X - lo.X, hi.Y - lo.Y}
}
