package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// over is something that lies over the window and must be answered or closed first.
type over struct {
	object fyne.CanvasObject
	hide   func()
	escape func() // what Esc does once it is closed, nil: nothing
}

// covered says whether anything lies over the window: a dialog, the finder, a list to choose from. The window's own keys rest
// then, since what they do would not be seen, and what lies there might go with it.
func (w *Window) covered() bool { return w.over != nil || w.win.Canvas().Overlays().Top() != nil }

// lay puts content over the window. While it lies there the window's own keys rest, save for Esc, which closes it.
func (w *Window) lay(content fyne.CanvasObject, escape func()) {
	w.lift()
	popup := widget.NewModalPopUp(w.framed(content), w.win.Canvas())
	w.over = &over{popup, popup.Hide, escape}
	popup.Show()
}

// cover puts content over the whole window, whose own content is not drawn meanwhile. A popup's veil and ground, which
// it draws under every frame, would cost more than all else. gone is told when it is taken away, by Esc or by what comes in
// its place.
func (w *Window) cover(content fyne.CanvasObject, gone func()) {
	w.lift()
	c := w.win.Canvas()
	whole := container.NewStack(newGround(w.pal.Pane), container.New(inset{14, 10, 14, 12}, content))
	w.over = &over{whole, func() {
		c.Overlays().Remove(whole)
		w.win.Content().Show()
		gone()
	}, nil}
	w.win.Content().Hide()
	c.Overlays().Add(whole)
	whole.Resize(c.Size())
}

// lift takes away what lies over the window.
func (w *Window) lift() {
	if o := w.over; o != nil {
		w.over = nil
		w.win.Canvas().Unfocus() // a field that goes away with the focus would blink on, unseen, and draw the window for ever
		o.hide()
	}
	if w.owing {
		w.owing = false
		w.post(w.offerRecovery)
	}
}

// framed puts a line round content, since nothing here casts a shadow.
func (w *Window) framed(content fyne.CanvasObject) fyne.CanvasObject {
	return container.NewStack(newGround(w.pal.Pane), newFrame(w.pal.Quiet, 1), container.New(inset{14, 10, 14, 12}, content))
}
