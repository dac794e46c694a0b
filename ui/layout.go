package ui

import (
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

// pane is a sheet of paper on the desk: a flat ground, a hairline round it, no shadow. What it holds is clipped.
func (p *Palette) pane(content fyne.CanvasObject) *fyne.Container {
	ground := canvas.NewRectangle(p.Pane)
	ground.StrokeColor, ground.StrokeWidth, ground.CornerRadius = p.Hairline, 1, corner
	return container.NewStack(ground, container.New(inset{1, 1, 1, 1}, container.NewClip(content)))
}

// newPatch is paper behind words that stand over a picture.
func newPatch(p *Palette) *canvas.Rectangle {
	r := canvas.NewRectangle(faded(p.Pane, 0.85))
	r.CornerRadius = corner
	return r
}
