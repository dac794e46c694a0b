package ui

import (
	"seamwright/calc/guard"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// entry is a line to type in. Enter or leaving it commits, Esc gives back what stood there; the window's own
// shortcuts go on working while it has the focus.
type entry struct {
	widget.Entry
	w      *Window
	commit func(text string) error         // nil: nothing to commit
	show   func() string                   // what stands there while nobody types
	hint   string                          // what the note line says while it has the focus
	wrong  string                          // what the note line says of what was typed, until it is mended
	onKey  func(*fyne.KeyEvent) (own bool) // asked before the entry itself
}

func newEntry(w *Window, hint string) *entry {
	e := &entry{w: w}
	e.PlaceHolder = hint
	e.ExtendBaseWidget(e)
	return e
}

// newField is an entry that shows a value of the project and writes it back.
func newField(w *Window, show func() string, commit func(string) error) *entry {
	e := newEntry(w, "")
	e.show, e.commit = show, commit
	e.Text = show()
	return e
}

// refresh shows the value as it is now, unless someone is typing.
func (e *entry) refresh() {
	if e.show == nil || e.w.win.Canvas().Focused() == fyne.Focusable(e) {
		return
	}
	if s := e.show(); s != e.Text {
		e.SetText(s)
	}
}

func (e *entry) TypedRune(r rune) {
	defer guard.Catch(e.w.faulted)
	e.Entry.TypedRune(r)
}

func (e *entry) TypedKey(k *fyne.KeyEvent) {
	defer guard.Catch(e.w.faulted)
	if e.onKey != nil && e.onKey(k) {
		return
	}
	switch k.Name {
	case fyne.KeyReturn, fyne.KeyEnter:
		if e.commit == nil {
			break
		}
		if e.done() {
			e.w.focusDrawing()
		}
		return
	case fyne.KeyEscape:
		if e.show != nil {
			e.SetText(e.show())
		}
		e.mended()
		e.w.focusDrawing()
		return
	}
	e.Entry.TypedKey(k)
}

func (e *entry) TypedShortcut(s fyne.Shortcut) {
	defer guard.Catch(e.w.faulted)
	if e.w.typedShortcut(s) {
		return
	}
	e.Entry.TypedShortcut(s)
}

func (e *entry) FocusGained() {
	e.Entry.FocusGained()
	if e.hint != "" {
		e.w.say(e.hint)
	}
	if e.commit != nil {
		e.Entry.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
}

func (e *entry) FocusLost() {
	e.Entry.FocusLost()
	if e.commit != nil {
		e.done()
	}
}

// done commits what was typed; where that cannot be, it says why and keeps the text to be mended.
func (e *entry) done() (ok bool) {
	defer guard.Catch(e.w.faulted)
	if e.show != nil && e.Text == e.show() {
		e.mended()
		return true
	}
	if err := e.commit(e.Text); err != nil {
		e.wrong = sentence(err)
		e.w.say(e.wrong)
		if e.show != nil && e.w.win.Canvas().Focused() != fyne.Focusable(e) {
			e.SetText(e.show())
		}
		return false
	}
	e.mended()
	if e.show != nil {
		e.SetText(e.show())
	}
	return true
}

// mended takes back what the note line says of a text that does not stand there any more.
func (e *entry) mended() {
	if e.wrong != "" && e.w.note == e.wrong {
		e.w.say("")
	}
	e.wrong = ""
}
