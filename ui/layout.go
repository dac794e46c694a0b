package ui

import (
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
)

// container0 holds children where they were put, with no layout and no least size.
func container0(children ...fyne.CanvasObject) *fyne.Container {
	return container.New(asPlaced{}, children...)
}

// asPlaced leaves every child where it is.
type asPlaced struct{}

func (asPlaced) Layout([]fyne.CanvasObject, fyne.Size) {}
func (asPlaced) MinSize(children []fyne.CanvasObject) fyne.Size {
	var least fyne.Size
	for _, c := range children {
		if c.Visible() {
			least = least.Max(fyne.NewSize(c.Position().X+c.Size().Width, c.Position().Y+c.Size().Height))
		}
	}
	return least
}

// laidOut is a container that is not laid out before it is shown: the toolkit's own way does so while its parts are
// still being made.
func laidOut(l fyne.Layout, children ...fyne.CanvasObject) *fyne.Container {
	return &fyne.Container{Layout: l, Objects: children}
}

// arrange is a layout made of a function that knows the size.
type arrange struct {
	least fyne.Size
	place func(size fyne.Size)
}

func (a arrange) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	if !size.IsZero() {
		a.place(size)
	}
}
func (a arrange) MinSize([]fyne.CanvasObject) fyne.Size { return a.least }

// inset leaves room round its children, which all fill what is left.
type inset struct{ left, top, right, bottom float32 }

func (i inset) Layout(children []fyne.CanvasObject, size fyne.Size) {
	for _, c := range children {
		c.Move(fyne.NewPos(i.left, i.top))
		c.Resize(fyne.NewSize(max(0, size.Width-i.left-i.right), max(0, size.Height-i.top-i.bottom)))
	}
}

func (i inset) MinSize(children []fyne.CanvasObject) fyne.Size {
	var least fyne.Size
	for _, c := range children {
		least = least.Max(c.MinSize())
	}
	return least.AddWidthHeight(i.left+i.right, i.top+i.bottom)
}

// put moves and sizes an object.
func put(o fyne.CanvasObject, x, y, width, height float32) {
	o.Move(fyne.NewPos(x, y))
	o.Resize(fyne.NewSize(max(0, width), max(0, height)))
}

// pane is a sheet of paper on the desk: a hairline round it, no shadow. What it holds is clipped. The window itself is of
// paper, so that a sheet has no ground to paint: the desk between the sheets has.
func (p *Palette) pane(content fyne.CanvasObject) *fyne.Container { return p.border(content) }

// newGround is an even colour behind a large part of the window: one line, as thick as the part is high. Where no
// graphics card draws, a line costs a fraction of a rectangle, whose shadow, stroke and edges are worked out at every
// point. A line is even pixels thick: a rectangle fills the row that is left.
func newGround(c color.Color) *fyne.Container {
	line, rest := canvas.NewLine(c), canvas.NewRectangle(c)
	return laidOut(arrange{fyne.NewSize(0, 0), func(size fyne.Size) {
		half := float32(math.Floor(float64(size.Height) / 2))
		line.StrokeWidth = 2 * half
		line.Position1, line.Position2 = fyne.NewPos(0, half), fyne.NewPos(size.Width, half)
		line.Refresh()
		put(rest, 0, 2*half, size.Width, size.Height-2*half)
		shownIf(rest, size.Height > 2*half)
	}}, line, rest)
}

// border is a hairline round content that covers its own ground. It is made of four strips: a rectangle with a stroke and
// round corners is worked out over its whole area, which costs more than all else where no graphics card does it.
func (p *Palette) border(content fyne.CanvasObject) *fyne.Container {
	return container.NewStack(newFrame(p.Hairline, 1), container.New(inset{1, 1, 1, 1}, container.NewClip(content)))
}

// newFrame is four strips along the edges.
func newFrame(c color.Color, width float32) *fyne.Container {
	top, right, bottom, left := canvas.NewRectangle(c), canvas.NewRectangle(c), canvas.NewRectangle(c), canvas.NewRectangle(c)
	return laidOut(arrange{fyne.NewSize(2*width, 2*width), func(size fyne.Size) {
		put(top, 0, 0, size.Width, width)
		put(bottom, 0, size.Height-width, size.Width, width)
		put(left, 0, width, width, size.Height-2*width)
		put(right, size.Width-width, width, width, size.Height-2*width)
	}}, top, right, bottom, left)
}

// newPatch is paper behind words that stand over a picture.
func newPatch(p *Palette) *canvas.Rectangle {
	r := canvas.NewRectangle(faded(p.Pane, 0.85))
	r.CornerRadius = corner
	return r
}
