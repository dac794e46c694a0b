package draft

import (
	"image"

	"seamwright/calc/job"
)

// swatchStep is how far a second layer stands out behind the first, in pixels.
const swatchStep = 4.0

// Swatch is a finish as it stands in the rack: w by h logical pixels at the given device scale. The outermost layer
// lies in front, the ones behind it look out at the top right. No layers: framing left open.
func Swatch(th *Theme, layers []*job.Product, w, h int, scale float64) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, int(float64(w)*scale+0.5), int(float64(h)*scale+0.5)))
	DrawSwatch(NewRaster(img, scale), th, layers, Rect{0, 0, float64(w), float64(h)})
	return img
}

// DrawSwatch draws a finish into a rectangle of any canvas.
func DrawSwatch(c Canvas, th *Theme, layers []*job.Product, r Rect) {
	edge := Pen{Width: 1, Color: th.Ink}
	r = r.Inset(0.5)
	if len(layers) == 0 {
		c.Fill(r.Path(), th.Open.Fill)
		const bays, stud = 4, 4.0
		step := (r.W - stud) / bays
		for i := 0; i < bays; i++ {
			batt(c, th, Rect{r.X + stud + step*float64(i), r.Y, step - stud, r.H}.Path(), false)
		}
		for i := 0; i <= bays; i++ {
			s := Rect{r.X + step*float64(i), r.Y, stud, r.H}
			c.Fill(s.Path(), th.Framing.Fill)
			c.Stroke([]Pt{{s.X, s.Y}, {s.X, s.Y + s.H}}, false, Pen{Width: 1, Color: th.Framing.Mark})
			c.Stroke([]Pt{{s.X + s.W, s.Y}, {s.X + s.W, s.Y + s.H}}, false, Pen{Width: 1, Color: th.Framing.Mark})
		}
		c.Stroke(r.Path()[0], true, edge)
		return
	}
	n := float64(len(layers) - 1)
	size := Rect{r.X, r.Y + n*swatchStep, r.W - n*swatchStep, r.H - n*swatchStep}
	for i, p := range layers {
		back := n - float64(i)
		s := Rect{size.X + back*swatchStep, size.Y - back*swatchStep, size.W, size.H}
		lay(c, th, p, s.Path(), Pt{s.X, s.Y}, false)
		c.Stroke(s.Path()[0], true, edge)
	}
}
