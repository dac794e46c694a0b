package ui

import (
	"seamwright/calc/job"
	"seamwright/scene/draft"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// inspector is two lines of fields under the drawings: what is picked, changed in place. It is built anew when
// another thing is picked, and only filled anew when the project changes.
type inspector struct {
	w      *Window
	box    *fyne.Container
	inner  *fyne.Container
	rows   [2]*fyne.Container
	fields []refresher
	shows  string // what the fields were built for
}

// refresher is a field that can show the project as it is now.
type refresher interface{ refresh() }

const inspectorHeight float32 = 76

func newInspector(w *Window) *inspector {
	i := &inspector{w: w}
	i.rows[0], i.rows[1] = container0(), container0()
	i.inner = container0(i.rows[0], i.rows[1])
	i.box = w.pal.pane(container.NewHScroll(i.inner))
	return i
}

func (i *inspector) height() float32 { return inspectorHeight }

func (i *inspector) refresh(c Change) {
	key := i.key()
	if key != i.shows {
		i.shows = key
		i.build()
	}
	if c&(DocumentChanged|SelectionChanged|ViewChanged) != 0 {
		for _, f := range i.fields {
			f.refresh()
		}
	}
}

// key names what the fields must be built for: the picked thing and how many parts it has.
func (i *inspector) key() string {
	m := i.w.model
	t, j := m.Selected, m.Doc.Job()
	wall, ceiling := findSurface(j, t.Surface)
	key := string(rune('a'+int(t.Kind))) + t.Room + "|" + t.Surface + "|" + t.Opening + "|" + t.Panel + string(rune('a'+t.Index)) + string(rune('a'+t.Corner))
	for _, z := range liningOf(wall, ceiling) {
		key += "|" + layersName(j, z.Layers)
	}
	if r := findRoom(j, t.Room); r != nil && r.Ceiling != nil {
		key += string(r.Ceiling.Shape)
	}
	for _, a := range j.Alternatives {
		key += a.Name
	}
	return key + string(j.Units) + m.Doc.Active()
}

// line fills one of the two rows from the left.
type line struct {
	i   *inspector
	row *fyne.Container
	x   float32
}

const rowHeight float32 = 30

func (l *line) put(o fyne.CanvasObject, width float32) {
	put(o, l.x, 2, width, rowHeight-2)
	l.row.Add(o)
	l.x += width + 6
}

func (l *line) words(s string, bold bool) {
	t := l.i.w.pal.text(s, sizeText, bold, l.i.w.pal.Ink)
	least := t.MinSize()
	put(t, l.x, 2+(rowHeight-2-least.Height)/2, least.Width, least.Height)
	l.row.Add(t)
	l.x += least.Width + 8
}

func (l *line) quiet(s string) {
	t := l.i.w.pal.text(s, sizeText, false, l.i.w.pal.Quiet)
	least := t.MinSize()
	put(t, l.x, 2+(rowHeight-2-least.Height)/2, least.Width, least.Height)
	l.row.Add(t)
	l.x += least.Width + 5
}

// field is a caption and an entry.
func (l *line) field(caption string, width float32, show func() string, commit func(string) error) *entry {
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
	put(b, l.x, 2+(rowHeight-2-m.Height)/2, m.Width, m.Height)
	l.row.Add(b)
	l.x += m.Width + 6
}

// build makes the fields for what is picked now.
func (i *inspector) build() {
	i.fields = nil
	var lines [2]*line
	for k, r := range i.rows {
		r.RemoveAll()
		lines[k] = &line{i: i, row: r, x: 12}
	}
	t, j := i.w.model.Selected, i.w.model.Doc.Job()
	wall, ceiling := findSurface(j, t.Surface)
	switch {
	case t.Kind == draft.OnOpening && t.Index < len(openingsOf(wall, ceiling)):
		i.opening(lines, t)
	case t.Kind == draft.OnBox && t.Index < len(boxesOf(wall, ceiling)):
		i.outlet(lines, t)
	case t.Kind == draft.OnSeam:
		i.seam(lines, t)
	case t.Kind == draft.OnPanel:
		i.panel(lines, t)
	case wall != nil:
		i.wall(lines, t)
	case ceiling != nil:
		i.ceiling(lines, t)
	case t.Kind == draft.OnCorner && findRoom(j, t.Room) != nil:
		i.corner(lines, t)
	case findRoom(j, t.Room) != nil:
		i.room(lines, t)
	default:
		i.project(lines)
	}
	for k, l := range lines {
		put(i.rows[k], 0, 4+float32(k)*(rowHeight+2), l.x, rowHeight)
	}
	i.inner.Resize(fyne.NewSize(max(lines[0].x, lines[1].x), inspectorHeight-8))
	i.box.Refresh()
	canvas.Refresh(i.inner)
}

// project stands there while nothing is picked.
func (i *inspector) project(l [2]*line) {
	w := i.w
	l[0].field("Project", 200, func() string { return w.model.Doc.Name() }, w.rename)
	l[0].choice("Aim", 150, aims, func() string { return aimWord(w.model.Doc.Job().Aim) }, w.setAim)
	l[1].quiet("Click a wall, an opening, a corner or a sheet to see and change it here.")
	l[1].button("Draw a room  R", func() { w.invoke(w.command("draw")) })
	if a := w.model.Doc.Active(); a != "" {
		l[0].field("Alternative", 150, func() string { return w.model.Doc.Active() }, w.renameAlternative)
		l[0].button("Remove it", func() { w.removeAlternative() })
	}
}

var aims = []string{"least cost", "fewest sheets", "fewest butt joints"}

func aimWord(a job.Aim) string {
	switch a {
	case job.AimSheets:
		return aims[1]
	case job.AimJoints:
		return aims[2]
	}
	return aims[0]
}

// choiceField is a list to choose from that shows a value of the project.
type choiceField struct {
	widget.Select
	w       *Window
	show    func() string
	filling bool
}

func newChoice(w *Window, options []string, show func() string, commit func(string)) *choiceField {
	c := &choiceField{w: w, show: show}
	c.Options = options
	c.OnChanged = func(s string) {
		if !c.filling && s != c.show() {
			commit(s)
		}
	}
	c.ExtendBaseWidget(c)
	c.refresh()
	return c
}

func (c *choiceField) refresh() {
	if s := c.show(); s != c.Selected {
		c.filling = true
		c.SetSelected(s)
		c.filling = false
	}
}

func (c *choiceField) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeySpace, fyne.KeyUp, fyne.KeyDown:
		c.Select.TypedKey(e)
	default:
		c.w.typedKey(e)
	}
}
