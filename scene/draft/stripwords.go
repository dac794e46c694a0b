package draft

import (
	"slices"

	"seamwright/calc/plan"
)

// frame marks the hovered and the selected surface.
func (d *stripSheet) frame(t *slot) {
	b := t.box(d.v)
	if picked(d.s.Selected, t.s.ID) {
		d.c.Stroke(b.Inset(-5).Path()[0], true, Pen{Width: 2, Color: d.th.Accent})
	} else if d.s.Hover.Surface == t.s.ID && (d.s.Hover.Kind == OnSurface || len(d.s.Hand) > 0) {
		d.c.Stroke(b.Inset(-5).Path()[0], true, Pen{Width: 1, Color: d.th.Accent})
	}
	for i := range t.s.Openings {
		o := &t.s.Openings[i]
		for _, g := range append([]Target{d.s.Hover}, d.s.Selected...) {
			if g.Kind == OnOpening && g.Surface == t.s.ID && g.Opening == o.ID {
				d.c.Stroke(place(t.view(d.v), o.Outline)[0], true, Pen{Width: 2, Color: d.th.Accent})
			}
		}
	}
}

// caption sets the surface's name, and below it what it takes and whether fewer sheets are possible.
func (d *stripSheet) caption(t *slot) {
	b := t.box(d.v)
	width := b.W + d.v.Px(surfaceGap) - captionApart
	foot := b.Y + b.H
	if t.wall != nil {
		foot = t.view(d.v).Y // the floor line, also under a stair wall
	}
	name := Named(t.s.ID, d.say)
	if t.wall != nil && len(t.wall.Duty) > 0 {
		name += " · " + DutyWords(t.wall.Duty, d.say)
	}
	if d.s.Room == "" && len(d.j.Rooms) > 1 {
		name = title(t.s.Room) + ", " + lower(name)
	}
	n := Type{Size: Body, Color: d.th.Ink}
	if picked(d.s.Selected, t.s.ID) {
		n.Weight, n.Color = Semibold, d.th.Accent
	}
	d.c.Text(Pt{b.X, foot + captionName}, Shorten(name, n.Size, n.Weight, width), n)
	layer := ""
	if k := layersOf(t.s); k > 1 {
		shownLayer := k
		if d.s.Layer > 0 && d.s.Layer < k {
			shownLayer = d.s.Layer
		}
		layer = " · " + d.say.Text("draft.layer-of", "layer", shownLayer, "of", k)
	}
	if d.v.Rows > 1 && d.v.Px(rowGap) < captionMore+captionApart { // another row begins there
		return
	}
	all := d.sheetsText(t.s)
	for i, text := range append(all[:len(all):len(all)], all[len(all)-1]) {
		last := i == len(all)
		if !last {
			text += layer
		}
		if last || Measure(text, Small, Regular) <= width {
			d.c.Text(Pt{b.X, foot + captionMore}, Shorten(text, Small, Regular, width), Type{Size: Small, Color: d.th.Quiet})
			break
		}
	}
}

// sheetsText says how many sheets a surface opens, and how few could do, in fewer and fewer words: "8 sheets, none fewer",
// "9 sheets, at least 8". That is proven of the surface alone, which is said where offcuts of others may serve it. Where the
// search has not counted sheets by zone, its share in the cost tells.
func (d *stripSheet) sheetsText(s *plan.Surface) []string {
	if hung(s) == 0 {
		return []string{d.say.Text("draft.left-open")}
	}
	opened, bound := 0, 0
	for i := range s.Zones {
		opened += s.Zones[i].Opened
		if s.Zones[i].Bound == 0 {
			bound = -1 // not known for one, so not known for all
		} else if bound >= 0 {
			bound += s.Zones[i].Bound
		}
	}
	if opened == 0 {
		bound = -1
		for _, c := range d.p.Cost.BySurface {
			if c.Surface == s.ID {
				opened = c.Sheets
			}
		}
	}
	if opened == 0 {
		return []string{d.say.Text("draft.from-offcuts")}
	}
	few := d.say.Text("count.sheets", "count", opened)
	if bound <= 0 || bound > opened {
		return []string{few}
	}
	alone := slices.ContainsFunc(d.p.Surfaces, func(o plan.Surface) bool { return o.ID != s.ID && hung(&o) > 0 })
	switch none := bound == opened; {
	case none && alone:
		return []string{d.say.Text("draft.alone-no-fewer", "sheets", few), few}
	case none:
		return []string{d.say.Text("draft.none-fewer-possible", "sheets", few), d.say.Text("draft.none-fewer", "sheets", few), few}
	case alone:
		return []string{d.say.Text("draft.alone-at-least", "sheets", few, "least", bound), few}
	}
	return []string{d.say.Text("draft.at-least", "sheets", few, "least", bound), few}
}
