package planner

import (
	"fmt"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/shape"
)

var openingKeys = []string{"id", "kind", "at", "width", "height", "sill", "reveal", "return"}

// openings reads the rough openings of a wall and refuses those that overlap or leave it.
func (p *project) openings(n *node, h head) []job.Opening {
	var out []job.Opening
	p.list(n, "openings", mostOnWall, func(_ int, item *node) {
		var o job.Opening
		size := func(to *length.Length, what string, least length.Length) func(*node) {
			return func(n *node) { *to = p.length(n, what, least, farthest) }
		}
		faults := p.faults
		p.keys(item, "an opening", []key{
			{"id", true, func(n *node) { o.ID = p.id(n, "an opening") }},
			{"kind", true, func(n *node) {
				o.Kind = choice(p.reader, n, "kind", job.Door, job.Window, job.Hatch, job.KeepOut)
			}},
			{"at", true, size(&o.At, "at", 0)},
			{"width", true, size(&o.Width, "width", 1)},
			{"height", true, size(&o.Height, "height", 1)},
			{"sill", false, size(&o.Sill, "sill", 0)},
			{"reveal", false, func(n *node) { o.Reveal = p.length(n, "reveal", 0, 48*length.Inch) }},
			{"return", false, func(n *node) {
				o.Return = choice(p.reader, n, "return", job.ReturnBoard, job.ReturnJamb, job.ReturnNone)
			}},
		})
		if p.faults == faults {
			p.openingFits(item, o, h)
			p.clash(item, o, out)
		}
		out = append(out, o)
	})
	return out
}

// openingFits refuses an opening that leaves its wall, and says on which side.
func (p *project) openingFits(n *node, o job.Opening, h head) {
	q := o.Rect()
	show := func(l length.Length) string { return l.Show(p.imperial()) }
	if q.MaxX() > h.width {
		p.fault(n, fmt.Sprintf("%s ends %s from the left end of the wall, which is only %s long", o.ID, show(q.MaxX()), show(h.width)),
			"at is its left edge as seen from inside the room")
		return
	}
	if h.murky {
		return
	}
	if lowest := h.leastTop(q.X, q.MaxX()); q.MaxY() > lowest {
		p.fault(n, fmt.Sprintf("%s reaches %s above the floor, but the wall is only %s high there", o.ID, show(q.MaxY()), show(lowest)),
			"lower its height or sill")
	}
	if floor := h.mostBottom(q.X, q.MaxX()); q.Y < floor {
		p.fault(n, fmt.Sprintf("%s begins %s above the floor, below the bottom of the wall there, %s", o.ID, show(q.Y), show(floor)),
			"raise its sill")
	}
}

// clash refuses an opening with the id or in the place of one before it.
func (p *project) clash(n *node, o job.Opening, before []job.Opening) {
	for _, b := range before {
		if b.ID == o.ID && o.ID != "" {
			p.fault(at(n, "id"), fmt.Sprintf("two openings here are called %q", o.ID), "give each its own id")
		}
		if o.Width > 0 && o.Height > 0 && overlap(o.Rect(), b.Rect()) {
			p.fault(n, fmt.Sprintf("%s overlaps %s", o.ID, b.ID), "move one of them, or draw one opening for both")
		}
	}
}

// overlap says whether two rectangles share an area.
func overlap(a, b shape.Rect) bool {
	return a.X < b.MaxX() && b.X < a.MaxX() && a.Y < b.MaxY() && b.Y < a.MaxY()
}

var boxKeys = []string{"at", "up", "width", "height", "diameter", "set_out", "kind"}

// boxes reads electrical boxes by their centres.
func (p *project) boxes(n *node) []job.Box {
	const largestBox = 8 * length.Foot
	var out []job.Box
	p.list(n, "boxes", mostOnWall, func(_ int, item *node) {
		var b job.Box
		size := func(to *length.Length, what string) func(*node) {
			return func(n *node) { *to = p.length(n, what, length.Inch/4, largestBox) }
		}
		p.keys(item, "a box", []key{
			{"at", true, func(n *node) { b.At = p.length(n, "at", -farthest, farthest) }},
			{"up", true, func(n *node) { b.Up = p.length(n, "up", -farthest, farthest) }},
			{"width", false, size(&b.Width, "width")},
			{"height", false, size(&b.Height, "height")},
			{"diameter", false, size(&b.Diameter, "diameter")},
			{"set_out", false, func(n *node) { b.SetOut = p.length(n, "set_out", 0, 6*length.Inch) }},
			{"kind", false, func(n *node) {
				b.Kind = choice(p.reader, n, "kind", "outlet", "switch", "light", "data", "junction", "panel")
			}},
		})
		if item.kind == mapping {
			round, square := item.get("diameter") != nil, item.get("width") != nil || item.get("height") != nil
			switch {
			case round && square:
				p.fault(item, "a box has width and height or a diameter, not both", "delete one")
			case !round && (item.get("width") == nil || item.get("height") == nil):
				p.fault(item, "the box has no size", "give width and height, or a diameter")
			}
		}
		out = append(out, b)
	})
	return out
}

// boxesFit refuses boxes that leave the wall or stand in an opening.
func (p *project) boxesFit(n *node, w job.Wall, h head) {
	for i, b := range w.Boxes {
		q := b.Rect()
		item := n.items[i]
		switch {
		case q.W <= 0 || q.H <= 0:
		case q.X < 0 || q.MaxX() > h.width:
			p.fault(item, fmt.Sprintf("the box leaves the wall, which is %s long", h.width.Show(p.imperial())), "at is its centre from the left end as seen from inside the room")
		case h.murky:
		case q.Y < h.mostBottom(q.X, q.MaxX()) || q.MaxY() > h.leastTop(q.X, q.MaxX()):
			p.fault(item, "the box leaves the wall above or below", "up is its centre above the floor")
		}
		for _, o := range w.Openings {
			if o.Kind != job.KeepOut && o.Width > 0 && o.Height > 0 && overlap(q, o.Rect()) {
				p.fault(item, fmt.Sprintf("the box stands in the opening %s", o.ID), "move one of them")
			}
		}
	}
}
