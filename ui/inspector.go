package ui

import (
	"seamwright/calc/guard"
	"seamwright/calc/job"
	"seamwright/scene/draft"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// inspector is two lines of fields under the drawings: what is picked, changed in place. A line that is too long goes
// on in a further row, which lies over the foot of the strip, so that no drawing moves. It is built anew when another
// thing is picked, and only filled anew when the project changes.
type inspector struct {
	fieldPane
	shows string // what the fields were built for
}

func newInspector(w *Window) *inspector {
	return &inspector{fieldPane: newFieldPane(w)}
}

// place puts the fields at the foot of a size; another width has them set anew.
func (i *inspector) place(size fyne.Size) {
	if size.Width != i.wide {
		i.wide = size.Width
		i.build()
	}
	put(i.box, 0, size.Height-i.high, size.Width, i.high)
}

func (i *inspector) refresh(c Change) {
	key := i.key()
	if key != i.shows {
		i.shows = key
		i.build()
		if s := i.w.studio; s != nil {
			i.place(s.box.Size())
		}
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

// build makes the fields for what is picked now.
func (i *inspector) build() {
	lines := i.begin()
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
	i.end(lines)
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
		defer guard.Catch(w.faulted)
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
