package draft

import (
	"math"
	"strconv"

	"seamwright/calc/job"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
)

// seamPen is how a joint is drawn, readable without colour: tapered thin, butt heavy, mixed heavy and broken, the
// gap between wood panels dashed, a control joint double. Corners and perimeters are the surface's own outline.
func seamPen(th *Theme, k plan.JointKind) (pen Pen, double, drawn bool) {
	switch k {
	case plan.Tapered:
		return Pen{Width: 1, Color: th.Ink}, false, true
	case plan.Butt:
		return Pen{Width: 2.5, Color: th.Ink}, false, true
	case plan.Mixed:
		return Pen{Width: 2.5, Color: th.Ink, Dash: []float64{9, 3}}, false, true
	case plan.PanelGap:
		return Pen{Width: 1.5, Color: th.Ink, Dash: []float64{5, 3}}, false, true
	case plan.Control:
		return Pen{Width: 1, Color: th.Ink}, true, true
	case plan.InsideCorner, plan.OutsideCorner, plan.Trim, plan.Perimeter:
	}
	return Pen{}, false, false
}

// controlApart is the distance between the two lines of a control joint, in pixels.
const controlApart = 4.0

// stroke draws a seam between two places.
func strokeSeam(c Canvas, th *Theme, k plan.JointKind, a, b Pt, ground Material) {
	pen, double, drawn := seamPen(th, k)
	switch {
	case !drawn:
	case double:
		off := b.Sub(a).Unit().Left().Mul(controlApart / 2)
		c.Stroke([]Pt{a, b}, false, Pen{Width: controlApart, Color: ground.Fill})
		c.Stroke([]Pt{a.Add(off), b.Add(off)}, false, pen)
		c.Stroke([]Pt{a.Sub(off), b.Sub(off)}, false, pen)
	case len(pen.Dash) > 0: // on a clear ground, so that the hatch does not fill the breaks
		c.Stroke([]Pt{a, b}, false, Pen{Width: pen.Width + 1.5, Color: ground.Fill})
		c.Stroke([]Pt{a, b}, false, pen)
	default:
		c.Stroke([]Pt{a, b}, false, pen)
	}
}

func (d *stripSheet) seams(t *slot, v View, z *plan.Zone) {
	m, _ := d.th.look(d.j.Product(z.Product))
	for i := range z.Joints {
		k := &z.Joints[i]
		strokeSeam(d.c, d.th, k.Kind, v.Place(k.From), v.Place(k.To), m)
	}
}

// screws are dots that grow with the zoom, within reason.
func (d *stripSheet) screws(v View, z *plan.Zone) {
	r := math.Max(1, math.Min(2.5, v.Scale*0.008))
	w, h := d.c.Size()
	for _, p := range z.Fasteners.Points {
		at := v.Place(p)
		if at.X <= -r || at.Y <= -r || at.X >= w+r || at.Y >= h+r {
			continue
		}
		if d.s.Crosses {
			d.cross(at)
			continue
		}
		d.c.Disc(at, r, d.th.Ink)
	}
}

// cross is a screw's sign on paper.
func (d *stripSheet) cross(at Pt) {
	const arm = 2.0
	pen := Pen{Width: 0.8, Color: d.th.Ink}
	d.c.Stroke([]Pt{{at.X - arm, at.Y}, {at.X + arm, at.Y}}, false, pen)
	d.c.Stroke([]Pt{{at.X, at.Y - arm}, {at.X, at.Y + arm}}, false, pen)
}

// marksOf is where openings, boxes, pins and reasons stand on a surface.
func (d *stripSheet) marksOf(t *slot, v View) (taken places) {
	for i := range t.s.Openings {
		if t.s.Openings[i].Kind != string(job.KeepOut) {
			taken.take(around(place(v, t.s.Openings[i].Outline)[0]...))
		}
	}
	for _, b := range t.s.Boxes {
		taken.take(around(place(v, b)[0]...).Inset(-2))
	}
	disc := func(at Pt) {
		taken.take(Rect{at.X - badgeRadius, at.Y - badgeRadius, 2 * badgeRadius, 2 * badgeRadius})
	}
	for _, p := range d.pinsOf(t, v) {
		disc(p.at)
	}
	for _, r := range d.reasonsOf(t, v) {
		disc(r.at)
	}
	return taken
}

// ids names the panels where their names fit, clear of what is taken, upright where a panel is narrow.
func (d *stripSheet) ids(v View, z *plan.Zone, taken *places) {
	if z.Product == job.Open {
		return
	}
	m, _ := d.th.look(d.j.Product(z.Product))
	cw, ch := d.c.Size()
	for i := range z.Panels {
		q := &z.Panels[i]
		ring := place(v, q.Outline)[0]
		b := around(ring...)
		if b.X > cw || b.X+b.W < 0 || b.Y > ch || b.Y+b.H < 0 {
			continue
		}
		w := Measure(q.ID, Small, Regular)
		if math.Max(b.W, b.H) < w+8 || math.Min(b.W, b.H) < Small+3 {
			continue
		}
		d.panelID(q.ID, w, b, ring, m, taken)
	}
}

func (d *stripSheet) panelID(id string, w float64, b Rect, ring []Pt, m Material, taken *places) {
	t := Type{Size: Small, Anchor: Middle, Color: d.th.Ink}
	for _, k := range [...]Pt{{0.5, 0.5}, {0.25, 0.5}, {0.75, 0.5}, {0.5, 0.25}, {0.5, 0.75}, {0.2, 0.2}, {0.8, 0.2}, {0.2, 0.8}, {0.8, 0.8}} {
		mid := Pt{b.X + b.W*k.X, b.Y + b.H*k.Y}
		way, foot := Pt{1, 0}, Pt{mid.X, mid.Y + Small*capHeight/2}
		if b.W < w+8 {
			way, foot = Pt{0, -1}, Pt{mid.X + Small*capHeight/2, mid.Y}
			t.Turn = math.Pi / 2
		}
		box := turnedBox(foot, w, Small, way)
		if !holds(ring, box) || !taken.add(box) {
			continue
		}
		d.c.Fill(box.Inset(-2).Path(), m.Fill)
		d.c.Text(foot, id, t)
		return
	}
}

// holds says whether a box lies within an outline: all of its corners do, and no edge of a notch runs into it.
func holds(ring []Pt, b Rect) bool {
	for _, p := range b.Path()[0] {
		if clearance(ring, p) < 1 {
			return false
		}
	}
	for i, p := range ring {
		if b.cut(p, ring[(i+1)%len(ring)]) {
			return false
		}
	}
	return true
}

// cut says whether a part of a line lies within the box (Y. Liang and B. Barsky 1984).
func (r Rect) cut(a, b Pt) bool {
	from, to := 0.0, 1.0
	d := b.Sub(a)
	for _, side := range [4][2]float64{{-d.X, a.X - r.X}, {d.X, r.X + r.W - a.X}, {-d.Y, a.Y - r.Y}, {d.Y, r.Y + r.H - a.Y}} {
		switch out, room := side[0], side[1]; {
		case out == 0 && room <= 0:
			return false
		case out < 0:
			from = math.Max(from, room/out)
		case out > 0:
			to = math.Min(to, room/out)
		}
	}
	return from < to
}

// picked shows hovered and selected panels and seams of a zone.
func (d *stripSheet) picked(t *slot, v View, zone int) {
	z := &t.s.Zones[zone]
	show := func(g Target, wide float64) {
		if g.Surface != t.s.ID || g.Zone != z.Zone || g.Layer != z.Layer {
			return
		}
		switch g.Kind {
		case OnPanel:
			for i := range z.Panels {
				if z.Panels[i].ID == g.Panel {
					path := place(v, z.Panels[i].Outline, z.Panels[i].Holes...)
					d.c.Fill(path, fade(d.th.Accent, 0.14))
					d.c.Stroke(path[0], true, Pen{Width: wide, Color: d.th.Accent})
				}
			}
		case OnSeam:
			if g.Index >= 0 && g.Index < len(z.Joints) {
				k := &z.Joints[g.Index]
				d.c.Stroke([]Pt{v.Place(k.From), v.Place(k.To)}, false, Pen{Width: wide + 1, Color: d.th.Accent})
			}
		}
	}
	show(d.s.Hover, 1)
	for _, g := range d.s.Selected {
		show(g, 2)
	}
}

// drag draws a seam in the hand: ticks at its lawful places along the floor line (at the left for a level seam),
// the seam itself, and what it says.
func (d *stripSheet) drag(t *slot, g *SeamDrag) {
	d.c.Begin("drag")
	defer d.c.End()
	v, b := t.view(d.v), t.box(d.v)
	blue := Pen{Width: 1, Color: d.th.Accent}
	level := g.Seam.Drag == job.AxisY
	if level {
		d.c.Stroke([]Pt{{b.X - 8, b.Y}, {b.X - 8, b.Y + b.H}}, false, blue)
	} else {
		d.c.Stroke([]Pt{{b.X, b.Y + b.H + 8}, {b.X + b.W, b.Y + b.H + 8}}, false, blue)
	}
	tick := func(k shape.Point, long float64, pen Pen) {
		p := v.Place(k)
		if level {
			d.c.Stroke([]Pt{{b.X - 8 - long, p.Y}, {b.X - 8, p.Y}}, false, pen)
		} else {
			d.c.Stroke([]Pt{{p.X, b.Y + b.H + 8}, {p.X, b.Y + b.H + 8 + long}}, false, pen)
		}
	}
	for _, k := range g.Barred {
		tick(k, 3, Pen{Width: 1, Color: d.th.Quiet})
	}
	for _, k := range g.Ticks {
		tick(k, 7, Pen{Width: 1.5, Color: d.th.Accent})
	}
	from, to := shape.Point{X: g.At.X, Y: g.From.Y}, shape.Point{X: g.At.X, Y: g.To.Y}
	if level {
		from, to = shape.Point{X: g.From.X, Y: g.At.Y}, shape.Point{X: g.To.X, Y: g.At.Y}
	}
	p, q := v.Place(from), v.Place(to)
	d.c.Stroke([]Pt{p, q}, false, Pen{Width: 3, Color: d.th.Accent})
	if len(g.Lines) > 0 {
		w, h := d.c.Size()
		mid := p.Add(q).Mul(0.5)
		chip(d.c, d.th, mid.Add(Pt{12, 20}), g.Lines, Rect{0, 0, w, h})
	}
}

// pinned is a pin and the place of its head on the canvas.
type pinned struct {
	index int
	pin   job.Pin
	at    Pt
}

// pinsOf places the pins of the shown layers: at the seam, in the middle of its course; one between upright courses in the
// middle of the zone.
func (d *stripSheet) pinsOf(t *slot, v View) []pinned {
	var pins []job.Pin
	if t.wall != nil {
		pins = t.wall.Pins
	} else if t.ceiling != nil {
		pins = t.ceiling.Pins
	}
	if len(pins) == 0 {
		return nil
	}
	zones := shownZones(t.s, d.s.Layer)
	var list []pinned
	for n, pin := range pins {
		for _, i := range zones {
			z := &t.s.Zones[i]
			if z.Zone != pin.Zone || z.Layer != pin.Layer {
				continue
			}
			b := z.Outline.Bounds()
			for k := range z.Panels {
				if z.Panels[k].Course == pin.Course && !pin.Edge {
					b = z.Panels[k].Outline.Bounds()
					break
				}
			}
			at := shape.Point{X: pin.Seam, Y: b.Y + b.H/2}
			upright := (z.Run == string(job.RunAlong)) == (t.s.Members.Axis != "y") // its courses
			if pin.Edge {
				upright = t.s.Members.Axis == "y" // across the members
			}
			if upright {
				at = shape.Point{X: b.X + b.W/2, Y: pin.Seam}
			}
			list = append(list, pinned{n, pin, v.Place(at)})
		}
	}
	return list
}

func (d *stripSheet) pins(t *slot, v View) {
	for _, p := range d.pinsOf(t, v) {
		head := p.at.Add(Pt{5, -8})
		d.c.Stroke([]Pt{p.at, head}, false, Pen{Width: 1.5, Color: d.th.Accent})
		d.c.Disc(head, 5, d.th.Accent)
		d.c.Disc(head, 2, d.th.Pane)
	}
}

// reason is a check with a place on the surface, and where its badge stands.
type reason struct {
	index int
	level plan.Level
	at    Pt
}

func (d *stripSheet) reasonsOf(t *slot, v View) []reason {
	var list []reason
	for i := range d.p.Checks {
		k := &d.p.Checks[i]
		if k.Where != t.s.ID || k.Level == plan.Note || k.Level == plan.Caution && k.At == (shape.Point{}) {
			continue
		}
		at := v.Place(k.At)
		// One beside another where several reasons share a place.
		for _, o := range list {
			if math.Abs(o.at.Y-at.Y) < badgeRadius && at.X < o.at.X+2*badgeRadius && at.X > o.at.X-2*badgeRadius {
				at.X = o.at.X + 2*badgeRadius + 1
			}
		}
		list = append(list, reason{i, k.Level, at})
	}
	return list
}

// reasons marks broken rules in place with their number in the list of checks; cautions are hollow.
func (d *stripSheet) reasons(t *slot, v View) {
	for _, r := range d.reasonsOf(t, v) {
		number := strconv.Itoa(r.index + 1)
		if r.level == plan.Error {
			badge(d.c, d.th, r.at, number, d.th.Error)
			continue
		}
		d.c.Disc(r.at, badgeRadius, d.th.Caution)
		d.c.Disc(r.at, badgeRadius-1.5, d.th.Pane)
		d.c.Text(Pt{r.at.X, r.at.Y + Small*capHeight/2}, number, Type{Size: Small, Weight: Semibold, Anchor: Middle, Color: d.th.Ink})
	}
}
