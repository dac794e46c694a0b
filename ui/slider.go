package ui

import (
	"math"

	"seamwright/calc/guard"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// slider sets a number by hand: dragged, clicked or, while it has the focus, moved with the arrow keys.
type slider struct {
	widget.BaseWidget
	w        *Window
	from, to float64
	get      func() float64
	set      func(float64)
	focus    bool
}

var (
	_ fyne.Draggable     = (*slider)(nil)
	_ fyne.Tappable      = (*slider)(nil)
	_ fyne.Focusable     = (*slider)(nil)
	_ desktop.Cursorable = (*slider)(nil)
)

const (
	sliderWidth float32 = 84
	sliderKnob  float32 = 12
	sliderSteps         = 10 // of the keys, from end to end
)

func newSlider(w *Window, from, to float64, get func() float64, set func(float64)) *slider {
	s := &slider{w: w, from: from, to: to, get: get, set: set}
	s.ExtendBaseWidget(s)
	return s
}

func (s *slider) MinSize() fyne.Size { return fyne.NewSize(sliderWidth, target) }

func (s *slider) to01() float32 {
	return float32(math.Max(0, math.Min(1, (s.get()-s.from)/(s.to-s.from))))
}

// put sets the number that belongs to a place.
func (s *slider) put(x float32) {
	defer guard.Catch(s.w.faulted)
	t := float64((x - sliderKnob/2) / (s.Size().Width - sliderKnob))
	s.set(s.from + math.Max(0, math.Min(1, t))*(s.to-s.from))
	s.Refresh()
}

func (s *slider) Tapped(e *fyne.PointEvent) { s.put(e.Position.X) }
func (s *slider) Dragged(e *fyne.DragEvent) { s.put(e.Position.X) }
func (s *slider) DragEnd()                  {}
func (s *slider) Cursor() desktop.Cursor    { return desktop.HResizeCursor }
func (s *slider) FocusGained()              { s.focus = true; s.Refresh() }
func (s *slider) FocusLost()                { s.focus = false; s.Refresh() }
func (s *slider) TypedRune(rune)            {}
func (s *slider) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyLeft, fyne.KeyDown:
		s.step(-1)
	case fyne.KeyRight, fyne.KeyUp:
		s.step(1)
	default:
		s.w.typedKey(e)
	}
}

// step moves by a tenth of the way.
func (s *slider) step(by float64) {
	defer guard.Catch(s.w.faulted)
	s.set(math.Max(s.from, math.Min(s.to, s.get()+by*(s.to-s.from)/sliderSteps)))
	s.Refresh()
}

func (s *slider) CreateRenderer() fyne.WidgetRenderer {
	p := s.w.pal
	r := &sliderRenderer{s: s, ground: canvas.NewRectangle(p.Pane), line: canvas.NewRectangle(p.Quiet), knob: canvas.NewRectangle(p.Accent)}
	r.ground.CornerRadius = sliderKnob
	r.knob.CornerRadius = sliderKnob / 2
	r.Refresh()
	return r
}

type sliderRenderer struct {
	s                  *slider
	ground, line, knob *canvas.Rectangle
}

func (r *sliderRenderer) Destroy()           {}
func (r *sliderRenderer) MinSize() fyne.Size { return r.s.MinSize() }
func (r *sliderRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.ground, r.line, r.knob}
}

func (r *sliderRenderer) Layout(size fyne.Size) {
	put(r.ground, 0, 0, size.Width, size.Height)
	put(r.line, sliderKnob/2+2, size.Height/2-1, size.Width-sliderKnob-4, 2)
	put(r.knob, 2+(size.Width-sliderKnob-4)*r.s.to01(), (size.Height-sliderKnob)/2, sliderKnob, sliderKnob)
}

func (r *sliderRenderer) Refresh() {
	p := r.s.w.pal
	r.ground.StrokeColor, r.ground.StrokeWidth = p.Quiet, 1
	if r.s.focus {
		r.ground.StrokeColor, r.ground.StrokeWidth = p.Accent, 2
	}
	r.Layout(r.s.Size())
	canvas.Refresh(r.s)
}
