package draft

import (
	"image/color"
	"math"

	"seamwright/assets/words"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
)

// stripSheet is what one drawing of the strip works with.
type stripSheet struct {
	c    Canvas
	th   *Theme
	p    *plan.Plan
	j    *job.Job
	v    View
	s    StripState
	say  *words.Voice
	list []slot
}

// From which sizes in pixels detail is drawn.
const (
	hatchFrom  = 10.0  // a panel's lesser side, for its hatch
	screwsFrom = 110.0 // scale, for screws unasked
	plainUnder = 12.0  // a surface's height below which it is one patch
	levelsFrom = 60.0  // scale, for figures at measured floor levels
	legendFrom = 160.0 // the strip's height, for its legend
)

// DrawStrip draws the surfaces of a room side by side on one floor line, or in the rows of the view, left to right as one turns to the right in
// the room, ceiling last (a developed elevation). Without a plan it says that none is there yet.
func DrawStrip(c Canvas, th *Theme, p *plan.Plan, j *job.Job, v View, s StripState) {
	w, h := c.Size()
	c.Begin("strip")
	defer c.End()
	c.Fill(Rect{0, 0, w, h}.Path(), th.Pane)
	d := &stripSheet{c: c, th: th, p: p, j: j, v: v, s: s, say: voice(s.Say, j), list: layStrip(p, j, s.Room, v.Rows)}
	if len(d.list) == 0 {
		note := d.say.Text("draft.draw-a-room")
		if p == nil && j != nil && len(j.Rooms) > 0 {
			note = d.say.Text("draft.being-worked-out")
		}
		c.Text(Pt{w / 2, h / 2}, note, Type{Size: Body, Anchor: Middle, Color: th.Quiet})
		return
	}
	var seen []*slot
	for i := range d.list {
		t := &d.list[i]
		// A margin for captions, which may be wider than the surface.
		if b := t.box(v); b.X < w+stripSide && b.X+b.W+v.Px(surfaceGap) > -stripSide {
			seen = append(seen, t)
		}
	}
	for _, t := range seen {
		c.Begin(t.s.ID)
		d.surface(t)
		c.End()
	}
	for _, t := range seen {
		d.frame(t)
		d.caption(t)
	}
	if s.Drag != nil {
		for _, t := range seen {
			if t.s.ID == s.Drag.Seam.Surface {
				d.drag(t, s.Drag)
			}
		}
	}
	if h >= legendFrom {
		drawn := map[plan.JointKind]bool{}
		for _, t := range seen {
			for _, i := range shownZones(t.s, s.Layer) {
				for k := range t.s.Zones[i].Joints {
					drawn[t.s.Zones[i].Joints[k].Kind] = true
				}
			}
		}
		legend(c, th, d.say, Pt{stripSide, h - 12}, w-2*stripSide, func(k plan.JointKind) bool { return drawn[k] })
	}
}

// place puts an outline and its holes on the canvas.
func place(v View, outline shape.Polygon, holes ...shape.Polygon) Path {
	p := make(Path, 0, 1+len(holes))
	for _, poly := range append([]shape.Polygon{outline}, holes...) {
		ring := make([]Pt, len(poly))
		for i, q := range poly {
			ring[i] = v.Place(q)
		}
		p = append(p, ring)
	}
	return p
}

// surface draws one wall or ceiling, and tells what on it is taken.
func (d *stripSheet) surface(t *slot) (taken places) {
	v, s := t.view(d.v), t.s
	face := place(v, s.Outline)
	zones := shownZones(s, d.s.Layer)
	if t.box(d.v).H < plainUnder {
		m := d.th.Open
		if len(zones) > 0 {
			m, _ = d.th.look(d.j.Product(s.Zones[zones[0]].Product))
		}
		d.c.Fill(face, m.Fill)
		d.c.Stroke(face[0], true, Pen{Width: 1, Color: d.th.Ink})
		return taken
	}
	if hung(s) < len(zones) || len(zones) == 0 {
		d.group("framing", func() { d.bare(t, v, face) })
	}
	d.group("sheets", func() {
		for _, i := range zones {
			d.sheets(t, v, &s.Zones[i])
		}
	})
	if d.s.Members {
		d.group("members", func() { d.members(t, v, true) })
	}
	d.preview(t, face)
	d.group("openings", func() {
		for i := range s.Openings {
			d.opening(v, &s.Openings[i])
		}
		d.curb(t, v)
	})
	d.group("joints", func() {
		for _, i := range zones {
			d.seams(t, v, &s.Zones[i])
		}
	})
	d.group("boxes", func() {
		for _, b := range s.Boxes {
			d.boxMark(v, b)
		}
	})
	d.group("outline", func() { d.c.Stroke(face[0], true, Pen{Width: 1.5, Color: d.th.Ink}) })
	taken = d.marksOf(t, v)
	if t.wall != nil {
		d.group("floor", func() {
			d.floorLine(t, v, &taken)
			d.levels(t, v, &taken)
		})
	}
	d.details(t, v, zones, &taken)
	return taken
}

// details draws what stands on the sheets: screws, ids, what is picked, pins and the marks of checks.
func (d *stripSheet) details(t *slot, v View, zones []int, taken *places) {
	if d.s.Screws || v.Scale >= screwsFrom {
		d.group("screws", func() {
			for _, i := range zones {
				d.screws(v, &t.s.Zones[i])
			}
		})
	}
	if !d.s.NoIDs {
		d.group("words", func() {
			for _, i := range zones {
				d.ids(v, &t.s.Zones[i], taken)
			}
		})
	}
	for _, i := range zones {
		d.picked(t, v, i)
	}
	d.group("marks", func() {
		d.pins(t, v)
		d.reasons(t, v)
	})
}

// group draws one layer of a surface under its name.
func (d *stripSheet) group(id string, draw func()) {
	d.c.Begin(id)
	draw()
	d.c.End()
}

// hung counts the zones that have panels.
func hung(s *plan.Surface) int {
	seen, n := 0, 0
	for i := range s.Zones {
		if z := &s.Zones[i]; len(z.Panels) > 0 && z.Zone != seen {
			seen = z.Zone
			n++
		}
	}
	return n
}

// bare draws open framing: bays with their batts, and members.
func (d *stripSheet) bare(t *slot, v View, face Path) {
	d.c.Fill(face, d.th.Open.Fill)
	insulation := job.NoInsulation
	if t.wall != nil {
		insulation = t.wall.Insulation
	} else if t.ceiling != nil {
		insulation = t.ceiling.Insulation
	}
	if insulation != job.NoInsulation && insulation != "" {
		d.batts(t, v)
	}
	d.members(t, v, false)
}

// batts hatches the bays between members, each for itself.
func (d *stripSheet) batts(t *slot, v View) {
	b := t.s.Outline.Bounds()
	upright := t.s.Members.Axis != "y"
	from, to := b.Y, b.MaxY()
	if !upright {
		from, to = b.X, b.MaxX()
	}
	for i := 0; i+1 < len(t.s.Members.At); i++ {
		x, y := t.s.Members.At[i], t.s.Members.At[i+1]
		lo0, hi0 := across(t.s.Outline, x, upright, from, to)
		lo1, hi1 := across(t.s.Outline, y, upright, from, to)
		bay := shape.Polygon{{X: x, Y: lo0}, {X: y, Y: lo1}, {X: y, Y: hi1}, {X: x, Y: hi0}}
		if !upright {
			bay = shape.Polygon{{X: lo0, Y: x}, {X: lo1, Y: y}, {X: hi1, Y: y}, {X: hi0, Y: x}}
		}
		batt(d.c, d.th, place(v, bay), !upright)
	}
}

// members draws full-height members within the outline: faces where the wall is open, dashed edges through sheets.
func (d *stripSheet) members(t *slot, v View, through bool) {
	half := t.s.Members.Width / 2
	for _, at := range t.s.Members.At {
		from, to := t.s.Outline.Bounds().Y, t.s.Outline.Bounds().MaxY()
		upright := t.s.Members.Axis != "y"
		if !upright {
			from, to = t.s.Outline.Bounds().X, t.s.Outline.Bounds().MaxX()
		}
		lo, hi := across(t.s.Outline, at, upright, from, to)
		a, b := shape.Point{X: at - half, Y: lo}, shape.Point{X: at + half, Y: hi}
		if !upright {
			a, b = shape.Point{X: lo, Y: at - half}, shape.Point{X: hi, Y: at + half}
		}
		p, q := v.Place(a), v.Place(b)
		r := Rect{p.X, q.Y, q.X - p.X, p.Y - q.Y}
		if through {
			pen := Pen{Width: 1, Color: fade(d.th.Ink, 0.45), Dash: []float64{3, 3}}
			mid := r.Mid()
			if upright {
				d.c.Stroke([]Pt{{mid.X, r.Y}, {mid.X, r.Y + r.H}}, false, pen)
			} else {
				d.c.Stroke([]Pt{{r.X, mid.Y}, {r.X + r.W, mid.Y}}, false, pen)
			}
			continue
		}
		d.c.Fill(r.Path(), d.th.Framing.Fill)
		edge := Pen{Width: 1, Color: d.th.Framing.Mark}
		if upright && r.W >= 4 {
			d.c.Stroke([]Pt{{r.X, r.Y}, {r.X, r.Y + r.H}}, false, edge)
			d.c.Stroke([]Pt{{r.X + r.W, r.Y}, {r.X + r.W, r.Y + r.H}}, false, edge)
		} else if !upright && r.H >= 4 {
			d.c.Stroke([]Pt{{r.X, r.Y}, {r.X + r.W, r.Y}}, false, edge)
			d.c.Stroke([]Pt{{r.X, r.Y + r.H}, {r.X + r.W, r.Y + r.H}}, false, edge)
		} else {
			mid := r.Mid()
			line := []Pt{{mid.X, r.Y}, {mid.X, r.Y + r.H}}
			if !upright {
				line = []Pt{{r.X, mid.Y}, {r.X + r.W, mid.Y}}
			}
			d.c.Stroke(line, false, Pen{Width: math.Min(r.W, r.H), Color: d.th.Framing.Mark})
		}
	}
}

// across is how far an outline reaches along a line x = at (y = at where not upright), for drawing: the outermost
// crossings.
func across(outline shape.Polygon, at length.Length, upright bool, from, to length.Length) (lo, hi length.Length) {
	lo, hi = to, from
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		ax, ay, bx, by := a.X, a.Y, b.X, b.Y
		if !upright {
			ax, ay, bx, by = a.Y, a.X, b.Y, b.X
		}
		if sign(ax-at) == sign(bx-at) && ax != at && bx != at || ax == bx {
			continue
		}
		y := ay + length.FromMM((by-ay).MM()*((at-ax).MM()/(bx-ax).MM()))
		lo, hi = min(lo, y), max(hi, y)
	}
	return lo, hi
}

func sign(l length.Length) int {
	if l < 0 {
		return -1
	}
	return 1
}

// sheets lays the panels of a layer. Panels' own edges are drawn faint: gaps to floor and openings show there.
func (d *stripSheet) sheets(t *slot, v View, z *plan.Zone) {
	if z.Product == job.Open || len(z.Panels) == 0 {
		return
	}
	p := d.j.Product(z.Product)
	m, kind := d.th.look(p)
	upright := (z.Run == string(job.RunAlong)) == (t.s.Members.Axis != "y")
	edge := Pen{Width: 1, Color: blended(m.Fill, m.Mark, 0.6)}
	for i := range z.Panels {
		q := &z.Panels[i]
		path := place(v, q.Outline, q.Holes...)
		d.c.Fill(path, m.Fill)
		if b := around(path[0]...); math.Min(b.W, b.H) >= hatchFrom {
			d.c.Hatch(path, Hatch{Kind: kind, Color: blended(m.Fill, m.Mark, 0.75), From: Pt{b.X, b.Y + b.H}, Upright: upright})
		}
		for _, ring := range path {
			d.c.Stroke(ring, true, edge)
		}
	}
}

// preview shows the finish in hand on the hovered surface.
func (d *stripSheet) preview(t *slot, face Path) {
	if len(d.s.Hand) == 0 || d.s.Hover.Surface != t.s.ID {
		return
	}
	outer := d.s.Hand[len(d.s.Hand)-1]
	if p := d.j.Product(outer); p != nil || outer == job.Open {
		lay(d.c, d.th, p, face, face[0][0], false)
	}
}

// opening shows what stands in the wall: glass, a door's clear way, a keep-out's dashed outline.
func (d *stripSheet) opening(v View, o *plan.Opening) {
	path := place(v, o.Outline)
	ink := Pen{Width: 1, Color: d.th.Ink}
	if o.Kind == string(job.KeepOut) {
		d.c.Stroke(path[0], true, Pen{Width: 1, Color: d.th.Ink, Dash: []float64{4, 3}})
		return
	}
	d.c.Fill(path, d.th.Pane)
	b := around(path[0]...)
	if o.Kind == string(job.Window) && b.W > 12 && b.H > 12 {
		glass := b.Inset(4)
		d.c.Fill(glass.Path(), d.th.Glass)
		d.c.Stroke(glass.Path()[0], true, Pen{Width: 1, Color: d.th.Quiet})
	}
	d.c.Stroke(path[0], true, ink)
}

// boxMark draws an electrical box, never smaller than can be seen.
func (d *stripSheet) boxMark(v View, outline shape.Polygon) {
	b := around(place(v, outline)[0]...)
	const least = 4.0
	if b.W < least || b.H < least {
		mid := b.Mid()
		w, h := math.Max(b.W, least), math.Max(b.H, least)
		b = Rect{mid.X - w/2, mid.Y - h/2, w, h}
	}
	d.c.Fill(b.Path(), d.th.Pane)
	d.c.Stroke(b.Path()[0], true, Pen{Width: 1, Color: d.th.Ink})
}

// curb draws the strip of floor construction that the lining stands clear of.
func (d *stripSheet) curb(t *slot, v View) {
	if t.wall == nil || t.wall.Base <= 0 {
		return
	}
	a, b := v.Place(shape.Point{X: t.bounds.X, Y: t.wall.Base}), v.Place(shape.Point{X: t.bounds.MaxX()})
	r := Rect{a.X, a.Y, b.X - a.X, math.Max(b.Y-a.Y, 2)}
	d.c.Fill(r.Path(), d.th.Framing.Fill)
	d.c.Stroke([]Pt{{r.X, r.Y}, {r.X + r.W, r.Y}}, false, Pen{Width: 1, Color: d.th.Framing.Mark})
	for _, o := range t.s.Openings { // doors stand in it
		if q := o.Outline.Bounds(); o.Kind == string(job.Door) && q.Y < t.wall.Base {
			p := v.Place(shape.Point{X: q.X, Y: t.wall.Base})
			d.c.Fill(Rect{p.X, p.Y, v.Px(q.W), v.Px(t.wall.Base)}.Path(), d.th.Pane)
		}
	}
}

// floorLine draws the floor, heavy and a little beyond the wall, and the measured levels where there are any: the
// line to scale, with figures once there is room.
func (d *stripSheet) floorLine(t *slot, v View, taken *places) {
	a, b := v.Place(shape.Point{X: t.bounds.X}), v.Place(shape.Point{X: t.bounds.MaxX()})
	if len(t.wall.Bottom) == 0 {
		d.c.Stroke([]Pt{{a.X - 5, a.Y}, {b.X + 5, b.Y}}, false, Pen{Width: 2, Color: d.th.Ink})
	}
	if len(t.wall.Floor) < 2 {
		return
	}
	line := make([]Pt, len(t.wall.Floor))
	for i, p := range t.wall.Floor {
		line[i] = v.Place(p)
	}
	d.c.Stroke(line, false, Pen{Width: 1, Color: d.th.Caution})
	if v.Scale < levelsFrom {
		return
	}
	for i, p := range t.wall.Floor {
		anchor := Middle
		if i == 0 {
			anchor = Start
		} else if i == len(line)-1 {
			anchor = End
		}
		d.c.Stroke([]Pt{line[i], {line[i].X, line[i].Y - 8}}, false, Pen{Width: 1, Color: d.th.Caution})
		text := d.say.Length(p.Y)
		if p.Y > 0 {
			text = "+" + text
		}
		taken.take(d.label(Pt{line[i].X, line[i].Y - 11}, text, Type{Size: Small, Anchor: anchor, Color: d.th.Ink}, d.th.Pane))
	}
}

// label sets text on a patch of its ground, so that it reads over any hatch, and tells where.
func (d *stripSheet) label(at Pt, s string, t Type, ground color.NRGBA) Rect {
	b := textBox(at, s, t)
	d.c.Fill(b.Inset(-2).Path(), ground)
	d.c.Text(at, s, t)
	return b
}
