package drawing

import (
	"image/color"

	"seamwright/scene/draft"
)

// part is a part of a canvas, with places of its own: pages of one file stand below each other, and a drawing keeps within
// its page's margins.
type part struct {
	draft.Canvas
	r draft.Rect
}

func (o part) Size() (w, h float64) { return o.r.W, o.r.H }

func (o part) at(p draft.Pt) draft.Pt { return draft.Pt{X: p.X + o.r.X, Y: p.Y + o.r.Y} }

func (o part) line(l []draft.Pt) []draft.Pt {
	moved := make([]draft.Pt, len(l))
	for i, p := range l {
		moved[i] = o.at(p)
	}
	return moved
}

func (o part) path(p draft.Path) draft.Path {
	moved := make(draft.Path, len(p))
	for i, l := range p {
		moved[i] = o.line(l)
	}
	return moved
}

func (o part) Fill(p draft.Path, c color.NRGBA) { o.Canvas.Fill(o.path(p), c) }

func (o part) Hatch(p draft.Path, h draft.Hatch) {
	h.From = o.at(h.From)
	o.Canvas.Hatch(o.path(p), h)
}

func (o part) Stroke(line []draft.Pt, closed bool, pen draft.Pen) {
	o.Canvas.Stroke(o.line(line), closed, pen)
}

func (o part) Disc(at draft.Pt, r float64, c color.NRGBA) { o.Canvas.Disc(o.at(at), r, c) }

func (o part) Text(at draft.Pt, s string, t draft.Type) { o.Canvas.Text(o.at(at), s, t) }

func (o part) Clip(r draft.Rect) {
	r.X, r.Y = r.X+o.r.X, r.Y+o.r.Y
	o.Canvas.Clip(r)
}
