package draft

import (
	"image/color"
	"math"
	"strconv"

	"seamwright/calc/plan"
	"seamwright/calc/shape"
)

// Two raked pieces that share a rectangle are drawn as they lie in it: the one below the slanted cut, or left of it, in the
// rectangle's lower left corner, the other in the upper right one, each turned half round where it lies so.

// half is one of the two pieces.
type half struct {
	panel         string
	surface       string
	turned, round bool
	later, far    bool
}

func halves(q plan.Part) [2]half {
	return [2]half{
		{q.Panel, q.Surface, q.Turned, q.Pair.HalfRound[0], q.Later, false},
		{q.Pair.Panel, q.Pair.Surface, q.Pair.Turned, q.Pair.HalfRound[1], q.Pair.Later, true},
	}
}

// beyond tells whether a pixel lies beyond the slanted cut of a part.
func beyond(v View, q plan.Part, at Pt) bool {
	a, b := v.Place(q.Pair.From), v.Place(q.Pair.To)
	if q.Pair.Steep(q.Rect) {
		return at.X > a.X+(b.X-a.X)*(at.Y-a.Y)/(b.Y-a.Y)
	}
	return at.Y < a.Y+(b.Y-a.Y)*(at.X-a.X)/(b.X-a.X)
}

// pair draws both halves of a part, with their words.
func (d *cutPage) pair(q plan.Part, b Rect, ground color.NRGBA) {
	outside := b.Path()
	type piece struct {
		half
		left  Path
		lines []string
	}
	var pieces []piece
	for _, f := range halves(q) {
		h, ok := d.homes[f.panel]
		if !ok {
			continue
		}
		o := h.panel.Outline.Bounds()
		w, high := o.W, o.H
		if f.turned {
			w, high = high, w
		}
		lie := func(poly shape.Polygon) []Pt {
			ring := make([]Pt, len(poly))
			for i, k := range poly {
				at := shape.Point{X: k.X - o.X, Y: k.Y - o.Y}
				if f.turned {
					at = shape.Point{X: k.Y - o.Y, Y: o.W - (k.X - o.X)}
				}
				if f.round {
					at = shape.Point{X: w - at.X, Y: high - at.Y}
				}
				if f.far {
					at.X, at.Y = at.X+q.Rect.W-w, at.Y+q.Rect.H-high
				}
				ring[i] = d.v.Place(shape.Point{X: q.Rect.X + at.X, Y: q.Rect.Y + at.Y})
			}
			return ring
		}
		p := piece{half: f, left: Path{lie(h.panel.Outline)}, lines: []string{f.panel, d.size(w, high), d.homeText(h, f.later, f.turned, b.W/2)}}
		outside = append(outside, p.left[0])
		for _, hole := range h.panel.Holes {
			p.left = append(p.left, lie(hole))
		}
		pieces = append(pieces, p)
	}
	hatch := Hatch{Kind: Waste, Color: d.th.Quiet, From: Pt{b.X, b.Y + b.H}}
	waste := func(p Path) {
		d.c.Fill(p, d.th.Pane)
		d.c.Hatch(p, hatch)
	}
	waste(outside)
	d.c.Stroke(b.Path()[0], true, Pen{Width: 1, Color: d.th.Ink})
	for _, p := range pieces {
		for _, hole := range p.left[1:] {
			waste(Path{hole})
			d.c.Stroke(hole, true, Pen{Width: 1, Color: d.th.Ink, Dash: []float64{4, 2}})
			d.notched = true
		}
		if p.panel == d.s.Panel && p.panel != "" {
			d.c.Fill(p.left[:1], fade(d.th.Accent, 0.14))
			d.c.Stroke(p.left[0], true, Pen{Width: 2.5, Color: d.th.Accent})
		}
		if d.words(p.left, p.lines, d.th.Ink, ground) < 2 {
			d.small = append(d.small, plan.Part{Panel: p.panel, Rect: q.Rect, Surface: p.surface, Later: p.later})
		}
	}
	d.slantEnds(q, ground)
}

// slantRow is a slanted cut in the list, with the measures of its two ends.
func (d *cutPage) slantRow(r Rect, y float64, k *plan.Pair, ink Type) {
	num := ink
	num.Anchor = End
	d.c.Text(Pt{r.X + 16, y}, strconv.Itoa(k.Order), num)
	d.c.Text(Pt{r.X + 26, y}, d.say.Text("draft.slant"), ink)
	d.c.Text(Pt{r.X + 70, y}, d.say.Text("draft.from-to", "from", dimension(k.Measures[0], d.say), "to", dimension(k.Measures[1], d.say)), ink)
}

// slantNotes say where the measures of slanted cuts are taken.
func (d *cutPage) slantNotes() (notes []string) {
	steep, flat := false, false
	for _, q := range d.sh.Parts {
		if q.Pair != nil {
			steep, flat = steep || q.Pair.Steep(q.Rect), flat || !q.Pair.Steep(q.Rect)
		}
	}
	if steep {
		notes = append(notes, d.say.Text("draft.slant-steep"))
	}
	if flat {
		notes = append(notes, d.say.Text("draft.slant-flat"))
	}
	return notes
}

// slantEnds sets the measure of a slanted cut at each of its ends, inside the near half, where there is room.
func (d *cutPage) slantEnds(q plan.Part, ground color.NRGBA) {
	k := q.Pair
	ends := [2]Pt{d.v.Place(k.From), d.v.Place(k.To)}
	inside := rectBox(d.v, q.Rect)
	for i, at := range ends {
		words := dimension(k.Measures[i], d.say)
		wide := Measure(words, Small, Regular)
		on := ends[1-i].Sub(at) // the way of the cut from here
		if k.Steep(q.Rect) {
			at.Y += map[bool]float64{true: -7, false: 16}[on.Y < 0]
			at.X += -wide/2 - 8 + math.Min(0, 20*on.X/math.Abs(on.Y))
		} else {
			at.X += math.Copysign(wide/2+6, on.X)
			at.Y += 18 + math.Max(0, (wide+6)*on.Y/math.Abs(on.X))
		}
		box := Rect{at.X - wide/2 - 2, at.Y - 12, wide + 4, 15}
		if inside.Has(Pt{box.X, box.Y}) && inside.Has(Pt{box.X + box.W, box.Y + box.H}) && d.taken.add(box) {
			d.c.Fill(box.Path(), ground)
			d.c.Text(at, words, Type{Size: Small, Anchor: Middle, Color: d.th.Ink})
		}
	}
}
