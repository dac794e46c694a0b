package draft

import (
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
)

// Where the floor was measured, the strip shows what follows from it: the level line that everything is measured from,
// the shim under each sheet that stands and what comes off the lower edge of each sheet that hangs.

// shimWords is how far above the level line a shim's figure stands: clear of the figures along the floor.
const shimWords = 26.0

// levels draws the level lines of a surface; figures stand there once there is room.
func (d *stripSheet) levels(t *slot, v View, taken *places) {
	for i := range d.p.Levels {
		if l := &d.p.Levels[i]; l.Surface == t.s.ID {
			d.level(t, v, l, taken)
		}
	}
}

func (d *stripSheet) level(t *slot, v View, l *plan.LevelLine, taken *places) {
	a, b := v.Place(shape.Point{X: t.bounds.X, Y: l.Line}), v.Place(shape.Point{X: t.bounds.MaxX(), Y: l.Line})
	d.c.Stroke([]Pt{{a.X - 5, a.Y}, {b.X + 5, b.Y}}, false, Pen{Width: 1, Color: d.th.Ink, Dash: []float64{10, 2, 2, 2}})
	if v.Scale < levelsFrom {
		return
	}
	for _, s := range l.Sheets {
		words := ""
		switch {
		case s.Shim > 0:
			words = d.say.Text("draft.shim", "thick", s.Shim)
		case s.Rip > 0:
			words = d.say.Text("draft.rip-off", "rip", s.Rip)
		default:
			continue
		}
		box, ok := panelBounds(t.s, s.Panel)
		if !ok {
			continue
		}
		low, high := box.X, box.MaxX()
		if s.Right > s.Left { // the shim goes under the end where the floor is lower
			low, high = high, low
		}
		d.wedge(v, low, low+(high-low)/6, l.Line)
		at := v.Place(shape.Point{X: box.X + box.W/2, Y: l.Line})
		if Measure(words, Small, Regular) < v.Px(box.W)-8 {
			taken.take(d.label(Pt{at.X, at.Y - shimWords}, words, Type{Size: Small, Anchor: Middle, Color: d.th.Ink}, d.th.Pane))
		}
	}
	words := d.say.Text("draft.level-line", "up", l.Line)
	if l.Trim > 0 && !l.Covered {
		words = d.say.Text("draft.level-line-uncovered", "up", l.Line, "gap", l.Largest)
	}
	foot := v.Y + captionMore // beside what the wall takes
	d.c.Text(Pt{b.X, foot}, words, Type{Size: Small, Anchor: End, Color: d.th.Quiet})
}

// wedge is a shim seen from the side, between the floor and the level line.
func (d *stripSheet) wedge(v View, thick, thin, line length.Length) {
	a, b, c := v.Place(shape.Point{X: thick}), v.Place(shape.Point{X: thick, Y: line}), v.Place(shape.Point{X: thin, Y: line})
	d.c.Fill(Path{{a, b, c}}, d.th.Framing.Fill)
	d.c.Stroke([]Pt{a, b, c}, true, Pen{Width: 1, Color: d.th.Framing.Mark})
}

// panelBounds is the box of a panel of a surface.
func panelBounds(s *plan.Surface, id string) (shape.Rect, bool) {
	for i := range s.Zones {
		for k := range s.Zones[i].Panels {
			if p := &s.Zones[i].Panels[k]; p.ID == id {
				return p.Outline.Bounds(), true
			}
		}
	}
	return shape.Rect{}, false
}
