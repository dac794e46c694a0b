package draft

import (
	"math"

	"seamwright/calc/length"
	"seamwright/calc/shape"
)

// View places a drawing on the canvas: Scale logical pixels to a metre, and the pixel where the origin stands.
// The drawing's y runs up, the canvas's down.
type View struct {
	Scale, X, Y float64
	Rows        int // in how many rows the unrolled walls stand; 0 is one, and other drawings have none
}

// The limits of zooming, in logical pixels to a metre: a village on the screen, a quarter inch across it.
const (
	LeastScale = 0.5
	MostScale  = 20000.0
)

// Place is where a point of the drawing stands on the canvas.
func (v View) Place(p shape.Point) Pt {
	return Pt{v.X + p.X.Metres()*v.Scale, v.Y - p.Y.Metres()*v.Scale}
}

// Px is a length of the drawing in logical pixels.
func (v View) Px(l length.Length) float64 { return l.Metres() * v.Scale }

// At is the point of the drawing under a pixel, to the nearest nanometre.
func (v View) At(p Pt) shape.Point {
	return shape.Point{X: length.FromMM((p.X - v.X) / v.Scale * 1000), Y: length.FromMM((v.Y - p.Y) / v.Scale * 1000)}
}

// Length is what a number of logical pixels stands for.
func (v View) Length(px float64) length.Length { return length.FromMM(px / v.Scale * 1000) }

// Pan moves the drawing with the hand.
func (v View) Pan(dx, dy float64) View { return View{v.Scale, v.X + dx, v.Y + dy, v.Rows} }

// Zoom scales about the pointer, which keeps what is under it; the scale stays within its limits.
func (v View) Zoom(about Pt, factor float64) View {
	s := math.Max(LeastScale, math.Min(MostScale, v.Scale*factor))
	k := s / v.Scale
	return View{s, about.X - (about.X-v.X)*k, about.Y - (about.Y-v.Y)*k, v.Rows}
}

// Fit shows the whole of a drawing's extent centred in the rectangle.
func Fit(lo, hi shape.Point, into Rect) View {
	w, h := (hi.X - lo.X).Metres(), (hi.Y - lo.Y).Metres()
	s := MostScale
	if w > 0 {
		s = math.Min(s, into.W/w)
	}
	if h > 0 {
		s = math.Min(s, into.H/h)
	}
	s = math.Max(LeastScale, s)
	mid := into.Mid()
	return View{Scale: s, X: mid.X - (lo.X+hi.X).Metres()/2*s, Y: mid.Y + (lo.Y+hi.Y).Metres()/2*s}
}
