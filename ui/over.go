package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// over is something that lies over the window and must be answered or closed first.
type over struct {
	popup  *widget.PopUp
	escape func() // what Esc does besides closing it, nil: nothing
}

// lay puts content over the window. While it lies there the window's own keys rest, save for Esc, which closes it.
func (w *Window) lay(content fyne.CanvasObject, escape func()) {
	w.lift()
	o := &over{popup: widget.NewModalPopUp(w.framed(content), w.win.Canvas()), escape: escape}
	w.over = o
	o.popup.Show()
}

// lift takes away what lies over the window.
func (w *Window) lift() {
	if o := w.over; o != nil {
		w.over = nil
		w.win.Canvas().Unfocus() // a field that goes away with the focus would blink on, unseen, and draw the window for ever
		o.popup.Hide()
	}
}

// framed puts a line round content, since nothing here casts a shadow.
func (w *Window) framed(content fyne.CanvasObject) fyne.CanvasObject {
	return container.NewStack(newGround(w.pal.Pane), newFrame(w.pal.Quiet, 1), container.New(inset{14, 10, 14, 12}, content))
}
