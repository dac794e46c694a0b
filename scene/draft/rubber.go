package draft

import (
	"math"

	"seamwright/calc/length"
	"seamwright/calc/shape"
)

// rubber draws an outline in the making: sides set so far, the one in the hand with its live length, and the way
// back to the start.
func (d *planSheet) rubber(r *Rubber) {
	d.c.Begin("drawing")
	defer d.c.End()
	color := d.th.Accent
	if r.Wrong {
		color = d.th.Error
	}
	pen := Pen{Width: 2, Color: color}
	to := d.v.Place(r.To)
	if len(r.Set) == 0 {
		d.c.Disc(to, 3, color)
		return
	}
	ring := d.ring(r.Set)
	if len(ring) > 1 {
		d.c.Stroke(ring, false, pen)
	}
	for i := 0; i+1 < len(r.Set); i++ {
		d.lengthBeside(ring[i], ring[i+1], between(r.Set[i], r.Set[i+1]))
	}
	end := ring[len(ring)-1]
	d.c.Stroke([]Pt{end, to}, false, pen)
	if len(ring) > 1 && !r.Closing {
		d.c.Stroke([]Pt{to, ring[0]}, false, Pen{Width: 1, Color: color, Dash: []float64{4, 4}})
	}
	for _, p := range ring {
		d.handle(p, false)
	}
	if r.Closing {
		d.c.Disc(ring[0], handleRadius+3, fade(d.th.Accent, 0.35))
		d.handle(ring[0], true)
	}
	text := d.say.Length(between(r.Set[len(r.Set)-1], r.To))
	if r.Typed != "" {
		text = r.Typed
	}
	lines := []string{text}
	if r.Wrong {
		lines = append(lines, d.say.Text("draft.sides-cross"))
	} else if r.Closing && len(r.Set) > 2 {
		lines = append(lines, d.say.Text("draft.click-to-close", "area", shape.Polygon(r.Set).Area()))
	}
	w, h := d.c.Size()
	chip(d.c, d.th, to.Add(Pt{14, -14}), lines, Rect{0, 0, w, h})
}

func between(a, b shape.Point) length.Length {
	switch {
	case a.X == b.X:
		return (b.Y - a.Y).Abs()
	case a.Y == b.Y:
		return (b.X - a.X).Abs()
	}
	return length.FromMM(math.Hypot((b.X - a.X).MM(), (b.Y - a.Y).MM()))
}

// lengthBeside sets a length along a line, on its upper side.
func (d *planSheet) lengthBeside(a, b Pt, l length.Length) {
	text := dimension(l, d.say)
	w := Measure(text, Small, Regular)
	way, turn := reading(b.Sub(a).Unit())
	if b.Sub(a).Len() < w+8 {
		return
	}
	foot := a.Add(b).Mul(0.5).Add(way.Left().Mul(5))
	d.c.Text(foot, text, Type{Size: Small, Anchor: Middle, Color: d.th.Ink, Turn: turn})
}

// The label at the pointer, in pixels.
const (
	chipPad  = 8.0
	chipLine = 16.0
)

// chip is a dark label of a few lines whose lower left corner stands at a place, moved to stay within bounds. The
// first line is what is, the others explain it.
func chip(c Canvas, th *Theme, at Pt, lines []string, bounds Rect) Rect {
	w := 0.0
	for _, l := range lines {
		w = math.Max(w, Measure(l, Small, Regular))
	}
	r := Rect{at.X, at.Y - chipLine*float64(len(lines)) - chipPad, w + 2*chipPad, chipLine*float64(len(lines)) + chipPad}
	r.X = math.Max(bounds.X+2, math.Min(r.X, bounds.X+bounds.W-r.W-2))
	r.Y = math.Max(bounds.Y+2, math.Min(r.Y, bounds.Y+bounds.H-r.H-2))
	c.Fill(r.Path(), th.Chip)
	for i, l := range lines {
		color := th.OnChip
		if i > 0 {
			color = fade(color, 0.8)
		}
		c.Text(Pt{r.X + chipPad, r.Y + chipPad/2 + chipLine*float64(i) + 12}, l, Type{Size: Small, Color: color})
	}
	return r
}
