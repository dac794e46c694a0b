package ui

import (
	"slices"

	"fyne.io/fyne/v2"
)

// desk is what the sheets of paper lie on. It is painted only where none lies: where no graphics card draws, a frame costs
// what its pixels cost, and the paper is the window's own ground.
type desk struct {
	w     *Window
	box   *fyne.Container
	stood []area // what it was painted for: the desk itself, then the sheets
}

// area is a part of the window.
type area struct{ x, y, right, foot float32 }

func newDesk(w *Window) *desk { return &desk{w: w, box: container0()} }

// spread paints the desk where no sheet lies.
func (d *desk) spread(sheets []area) {
	size := d.box.Size()
	whole := area{0, 0, size.Width, size.Height}
	stands := append([]area{whole}, sheets...)
	if slices.Equal(stands, d.stood) {
		return
	}
	d.stood = stands
	d.box.RemoveAll()
	for _, a := range uncovered(whole, sheets) {
		g := newGround(d.w.pal.Ground)
		put(g, a.x, a.y, a.right-a.x, a.foot-a.y)
		d.box.Add(g)
	}
}

// uncovered are the parts of an area on which no sheet lies: upright strips between all the sheets' edges, in each what the
// sheets leave of it; strips side by side that are left alike are one.
func uncovered(whole area, sheets []area) []area {
	edges := []float32{whole.x, whole.right}
	for _, s := range sheets {
		for _, x := range []float32{s.x, s.right} {
			if x > whole.x && x < whole.right {
				edges = append(edges, x)
			}
		}
	}
	slices.Sort(edges)
	edges = slices.Compact(edges)
	slices.SortFunc(sheets, func(a, b area) int { return int(a.y - b.y) })
	var all []area
	for i := 1; i < len(edges); i++ {
		left, right := edges[i-1], edges[i]
		y := whole.y
		take := func(foot float32) {
			if foot <= y {
				return
			}
			one := area{left, y, right, foot}
			for k := range all {
				if a := &all[k]; a.right == left && a.y == one.y && a.foot == one.foot {
					a.right = right
					return
				}
			}
			all = append(all, one)
		}
		for _, s := range sheets {
			if s.x < right && s.right > left {
				take(min(s.y, whole.foot))
				y = max(y, s.foot)
			}
		}
		take(whole.foot)
	}
	return all
}

// areaOf is where an object lies whose container lies at a place.
func areaOf(o fyne.CanvasObject, at fyne.Position) area {
	p, s := o.Position().Add(at), o.Size()
	return area{p.X, p.Y, p.X + s.Width, p.Y + s.Height}
}
