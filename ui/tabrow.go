package ui

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// tabRow is the names of the views, and the way to the finder.
type tabRow struct {
	w      *Window
	box    *fyne.Container
	names  []*button
	finder *button
}

func newTabRow(w *Window) *tabRow {
	t := &tabRow{w: w}
	t.box = container0()
	for i, v := range w.views {
		b := newButton(w.pal, tab, v.name(), func() { w.turnTo(i) })
		b.keys = w.typedKey
		t.names = append(t.names, b)
		t.box.Add(b)
	}
	t.finder = newButton(w.pal, pill, "Find  Ctrl+K", w.find)
	t.finder.small = true
	t.finder.keys = w.typedKey
	t.box.Add(t.finder)
	t.box.Layout = arrange{fyne.NewSize(100, tabsHeight), t.place}
	return t
}

func (t *tabRow) place(size fyne.Size) {
	f := t.finder.MinSize()
	put(t.finder, size.Width-f.Width, (size.Height-f.Height)/2, f.Width, f.Height)
	x := float32(0)
	gap := float32(14)
	wide := float32(0)
	for _, b := range t.names {
		wide += b.MinSize().Width
	}
	if room := size.Width - f.Width - 16 - wide; room < gap*float32(len(t.names)) {
		gap = max(2, room/float32(len(t.names)))
	}
	for _, b := range t.names {
		s := b.MinSize()
		put(b, x, (size.Height-s.Height)/2, s.Width, s.Height)
		x += s.Width + gap
	}
}

func (t *tabRow) refresh() {
	for i, b := range t.names {
		b.set(t.w.views[i].name(), i == t.w.tab)
	}
	t.place(t.box.Size())
}

// noteLine is the last line of the middle: what the program has to say, and whether it is still working.
type noteLine struct {
	w           *Window
	busy, tells bool // whether the calculation is at work, and whether the line says so
	box         *fyne.Container
	left, right *canvas.Text
}

func newNoteLine(w *Window) *noteLine {
	n := &noteLine{w: w, left: w.pal.text("", sizeText, false, w.pal.Quiet), right: w.pal.caption("")}
	n.box = laidOut(arrange{fyne.NewSize(10, noteHeight), func(fyne.Size) { n.refresh() }}, n.left, n.right)
	return n
}

// longWait is how long the calculation may be at work before the line says so: a word that comes and goes at once would
// only catch the eye.
const longWait = 300 * time.Millisecond

// watch follows whether the calculation is at work.
func (n *noteLine) watch() {
	busy := !n.w.model.settled() && !n.w.model.stopped
	switch {
	case !busy:
		n.tells = false
	case n.w.options.Still:
		n.tells = true
	case !n.busy:
		time.AfterFunc(longWait, func() {
			n.w.post(func() {
				n.tells = n.busy
				n.refresh()
			})
		})
	}
	n.busy = busy
}

func (n *noteLine) refresh() {
	width := n.box.Size().Width
	state := ""
	switch m := n.w.model; {
	case m.Fault != nil:
		state = "no answer: see Checks"
	case m.stopped:
		state = "first answer, not searched further"
	default:
		if n.watch(); n.tells {
			state = "searching"
			if m.searching() {
				state += ", Esc stops"
			}
		}
	}
	words, ink := n.w.note, n.w.pal.Ink
	if words == "" {
		words, ink = n.w.hint(), n.w.pal.Quiet
		if n.w.model.Preview != nil {
			ink = n.w.pal.Ink
		}
	}
	n.right.Text = state
	s := n.right.MinSize()
	put(n.right, width-s.Width, (noteHeight-s.Height)/2, s.Width, s.Height)
	n.left.Color = ink
	n.left.Text = fit(words, sizeText, false, max(0, width-s.Width-16))
	s = n.left.MinSize()
	put(n.left, 2, (noteHeight-s.Height)/2, s.Width, s.Height)
	canvas.Refresh(n.box)
}
