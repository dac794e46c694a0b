package draft

import (
	"slices"

	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
)

// cutOut is what is cut out of a piece once it is free of its sheet, as it lies there: x from its left end, y from its lower
// edge. A piece with a slanted edge has the corners of its outline instead.
type cutOut struct {
	rect    shape.Rect
	corners []shape.Point
}

// Notched tells whether something is cut out of a part once it is free of its sheet.
func (h Homes) Notched(q plan.Part) bool {
	home, ok := h[q.Panel]
	return ok && len(cutOuts(q, home.panel)) > 0
}

// cutOuts lists the cut-outs of a part: notches and holes as rectangles, the slanted outline corner by corner.
func cutOuts(q plan.Part, panel *plan.Panel) (list []cutOut) {
	o := panel.Outline.Bounds()
	lie := func(poly shape.Polygon) shape.Polygon {
		ring := make(shape.Polygon, len(poly))
		for i, k := range poly {
			ring[i] = shape.Point{X: k.X - o.X, Y: k.Y - o.Y}
			if q.Turned {
				ring[i] = shape.Point{X: k.Y - o.Y, Y: q.Rect.H - (k.X - o.X)}
			}
		}
		return ring
	}
	outline := lie(panel.Outline)
	if square(outline) {
		for _, r := range notches(outline, shape.Rect{W: q.Rect.W, H: q.Rect.H}) {
			list = append(list, cutOut{rect: r})
		}
	} else {
		list = append(list, cutOut{corners: outline.Normal()})
	}
	for _, h := range panel.Holes {
		list = append(list, cutOut{rect: lie(h).Bounds()})
	}
	return list
}

// square tells whether all edges run level or upright.
func square(p shape.Polygon) bool {
	for i, a := range p {
		if b := p[(i+1)%len(p)]; a.X != b.X && a.Y != b.Y {
			return false
		}
	}
	return true
}

// leastNotch is what is trimmed by the knife and needs no measure of its own: gaps and fits.
const leastNotch = length.Inch / 2

// notches are what of a rectangle lies outside a square-cornered outline, as few upright rectangles as its level edges part
// it into.
func notches(outline shape.Polygon, whole shape.Rect) (list []shape.Rect) {
	ys := []length.Length{0, whole.H}
	for _, p := range outline {
		ys = append(ys, p.Y)
	}
	ys = slices.Compact(slices.Sorted(slices.Values(ys)))
	for i := 0; i+1 < len(ys); i++ {
		from := length.Length(0)
		band := func(to length.Length) {
			if to-from < leastNotch {
				return
			}
			r := shape.Rect{X: from, Y: ys[i], W: to - from, H: ys[i+1] - ys[i]}
			for k := range list { // goes on upward from the band below
				if list[k].X == r.X && list[k].W == r.W && list[k].MaxY() == r.Y {
					list[k].H += r.H
					return
				}
			}
			list = append(list, r)
		}
		for _, s := range shape.Spans(shape.Region{Outline: outline}, ys[i], ys[i+1]) {
			band(s.From)
			from = s.To
		}
		band(whole.W)
	}
	return slices.DeleteFunc(list, func(r shape.Rect) bool { return r.H < leastNotch })
}
