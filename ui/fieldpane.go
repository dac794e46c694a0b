package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
)

// fieldPane is two lines of fields on a pane; a line that is too long goes on in a further row.
type fieldPane struct {
	w      *Window
	box    *fyne.Container
	ground *fyne.Container // where the pane lies over others
	inner  *fyne.Container
	fields []refresher
	wide   float32 // the width that the fields were set for
	high   float32 // what their rows take
}

// refresher is a field that can show the project as it is now.
type refresher interface{ refresh() }

const (
	inspectorHeight float32 = 76 // of the two lines that are always there
	inspectorEdge   float32 = 12
	rowHeight       float32 = 30
	rowStep                 = rowHeight + 2
)

func newFieldPane(w *Window) fieldPane {
	f := fieldPane{w: w, wide: 800, high: inspectorHeight, inner: container0()}
	f.ground = newGround(w.pal.Pane)
	f.box = container.NewStack(f.ground, w.pal.pane(f.inner))
	return f
}

// begin empties the pane and gives its two lines.
func (f *fieldPane) begin() [2]*line {
	f.fields = nil
	return [2]*line{{i: f}, {i: f}}
}

// end sets the rows of the lines under each other.
func (f *fieldPane) end(lines [2]*line) {
	f.inner.RemoveAll()
	y := float32(4)
	for _, l := range lines {
		for _, r := range l.rows {
			put(r, 0, y, f.wide, rowHeight)
			f.inner.Add(r)
			y += rowStep
		}
	}
	f.high = max(inspectorHeight, y+8)
	shownIf(f.ground, f.high > inspectorHeight)
	f.box.Refresh()
	canvas.Refresh(f.inner)
}

// line is fields from the left, in as many rows as they need.
type line struct {
	i    *fieldPane
	rows []*fyne.Container
	x    float32
}

// room begins another row where the one at hand is too full.
func (l *line) room(width float32) {
	if len(l.rows) == 0 || l.x > inspectorEdge && l.x+width > l.i.wide-inspectorEdge {
		l.rows = append(l.rows, container0())
		l.x = inspectorEdge
	}
}

func (l *line) add(o fyne.CanvasObject) { l.rows[len(l.rows)-1].Add(o) }

func (l *line) put(o fyne.CanvasObject, width float32) {
	l.room(width)
	put(o, l.x, 2, width, rowHeight-2)
	l.add(o)
	l.x += width + 6
}

func (l *line) words(s string, bold bool) {
	t := l.i.w.pal.text(s, sizeText, bold, l.i.w.pal.Ink)
	least := t.MinSize()
	l.room(least.Width)
	put(t, l.x, 2+(rowHeight-2-least.Height)/2, least.Width, least.Height)
	l.add(t)
	l.x += least.Width + 8
}

func (l *line) quiet(s string) {
	t := l.i.w.pal.text(s, sizeText, false, l.i.w.pal.Quiet)
	least := t.MinSize()
	l.room(least.Width)
	put(t, l.x, 2+(rowHeight-2-least.Height)/2, least.Width, least.Height)
	l.add(t)
	l.x += least.Width + 5
}

// field is a caption and an entry.
func (l *line) field(caption string, width float32, show func() string, commit func(string) error) *entry {
	l.room(textWidth(caption, sizeText, false) + 5 + width)
	l.quiet(caption)
	e := newField(l.i.w, show, commit)
	l.i.fields = append(l.i.fields, e)
	l.put(e, width)
	l.x += 6
	return e
}

// choice is a caption and a list to choose from.
func (l *line) choice(caption string, width float32, options []string, show func() string, commit func(string)) {
	if caption != "" {
		l.room(textWidth(caption, sizeText, false) + 5 + width)
		l.quiet(caption)
	}
	c := newChoice(l.i.w, options, show, commit)
	l.i.fields = append(l.i.fields, c)
	l.put(c, width)
	l.x += 6
}

func (l *line) button(words string, do func()) {
	b := newButton(l.i.w.pal, pill, words, do)
	b.small, b.keys = true, l.i.w.typedKey
	m := b.MinSize()
	l.room(m.Width)
	put(b, l.x, 2+(rowHeight-2-m.Height)/2, m.Width, m.Height)
	l.add(b)
	l.x += m.Width + 6
}
