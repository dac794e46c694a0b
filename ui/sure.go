package ui

import (
	"seamwright/calc/guard"
	"seamwright/scene/draft"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// sure is hands of a drawing whose faults are reported instead of ending the program: what a mouse meets in a drawing
// depends on more than any test has tried.
type sure struct {
	hands
	w *Window
}

func (s sure) hover(at draft.Pt) {
	defer guard.Catch(s.w.faulted)
	s.hands.hover(at)
}

func (s sure) leave() {
	defer guard.Catch(s.w.faulted)
	s.hands.leave()
}

func (s sure) down(at draft.Pt, button desktop.MouseButton, mod fyne.KeyModifier) {
	defer guard.Catch(s.w.faulted)
	s.hands.down(at, button, mod)
}

func (s sure) drag(at draft.Pt, by draft.Pt) {
	defer guard.Catch(s.w.faulted)
	s.hands.drag(at, by)
}

func (s sure) release(dragged bool) {
	defer guard.Catch(s.w.faulted)
	s.hands.release(dragged)
}

func (s sure) click(at draft.Pt, button desktop.MouseButton, mod fyne.KeyModifier) {
	defer guard.Catch(s.w.faulted)
	s.hands.click(at, button, mod)
}

func (s sure) double(at draft.Pt) {
	defer guard.Catch(s.w.faulted)
	s.hands.double(at)
}

func (s sure) scroll(at draft.Pt, dy float64) {
	defer guard.Catch(s.w.faulted)
	s.hands.scroll(at, dy)
}

func (s sure) key(e *fyne.KeyEvent) (own bool) {
	defer guard.Catch(s.w.faulted)
	return s.hands.key(e)
}

func (s sure) typed(r rune) (own bool) {
	defer guard.Catch(s.w.faulted)
	return s.hands.typed(r)
}
