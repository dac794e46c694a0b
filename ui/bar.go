package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

const barHeight float32 = 36

// bar is the dark strip at the head: the project's name, the menus, whether all is saved, the units.
type bar struct {
	w     *Window
	box   *fyne.Container
	name  *canvas.Text
	state *canvas.Text
	units *button
	menus []*button
	open  *openMenu
}

func newBar(w *Window) *bar {
	p := w.pal
	b := &bar{w: w, name: p.text("", sizeText, true, p.BarInk), state: p.text("", sizeText, false, p.BarQuiet)}
	ground := newGround(p.Bar)
	objects := []fyne.CanvasObject{ground, b.name, b.state}
	for i, name := range menuNames {
		item := newButton(p, barItem, name, nil)
		item.tapped = func() { b.toggle(i) }
		item.keys = w.typedKey
		b.menus = append(b.menus, item)
		objects = append(objects, item)
	}
	b.units = newButton(p, barItem, "", func() { w.invoke(w.command("units")) })
	objects = append(objects, b.units)
	b.box = laidOut(arrange{fyne.NewSize(640, barHeight), func(size fyne.Size) {
		put(ground, 0, 0, size.Width, size.Height)
		b.place(size)
	}}, objects...)
	return b
}

// place sets name and menus from the left, units and state from the right.
func (b *bar) place(size fyne.Size) {
	const nameWidth = 180
	b.name.Text = fit(b.w.model.Doc.Name(), sizeText, true, nameWidth)
	least := b.name.MinSize()
	put(b.name, 14, (size.Height-least.Height)/2, least.Width, least.Height)
	x := 14 + max(least.Width, 60) + 12
	for _, m := range b.menus {
		s := m.MinSize()
		put(m, x, (size.Height-s.Height)/2, s.Width, s.Height)
		x += s.Width
	}
	s := b.units.MinSize()
	right := size.Width - s.Width - 8
	put(b.units, right, (size.Height-s.Height)/2, s.Width, s.Height)
	b.state.Text = fit(b.w.savedState(), sizeText, false, max(0, right-x-24))
	least = b.state.MinSize()
	put(b.state, right-12-least.Width, (size.Height-least.Height)/2, least.Width, least.Height)
}

// refresh shows name, saved state and units as they are now.
func (b *bar) refresh() {
	words := "ft-in"
	if !b.w.imperial() {
		words = "m"
	}
	b.units.set(words, false)
	b.place(b.box.Size())
	canvas.Refresh(b.box)
}

// toggle opens a menu, or closes it where it is open.
func (b *bar) toggle(i int) {
	if b.open != nil {
		was := b.open.index
		b.close()
		if was == i {
			return
		}
	}
	b.show(i)
}

func (b *bar) show(i int) {
	m := &openMenu{bar: b, index: i, list: newMenuList(b.w, b.w.menuCommands(menuNames[i]), b.close)}
	m.ExtendBaseWidget(m)
	b.open = m
	b.menus[i].set(menuNames[i], true)
	c := b.w.win.Canvas()
	c.Overlays().Add(m)
	m.Resize(c.Size())
	c.Focus(m)
}

func (b *bar) close() {
	m := b.open
	if m == nil {
		return
	}
	b.open = nil
	b.menus[m.index].set(menuNames[m.index], false)
	b.w.win.Canvas().Overlays().Remove(m)
}

// menuCommands are the commands of one menu, in order.
func (w *Window) menuCommands(menu string) []*command {
	var list []*command
	for _, c := range w.commands {
		if c.menu == menu && !c.submenu {
			list = append(list, c)
		}
	}
	return list
}

// openMenu lies over the window while a menu is open: a click beside it closes it, the pointer on another name opens
// that one, arrow keys walk.
type openMenu struct {
	widget.BaseWidget
	bar   *bar
	index int
	list  *menuList
}

var (
	_ fyne.Focusable    = (*openMenu)(nil)
	_ fyne.Tappable     = (*openMenu)(nil)
	_ desktop.Hoverable = (*openMenu)(nil)
)

func (m *openMenu) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(laidOut(arrange{place: func(size fyne.Size) {
		least := m.list.box.Size()
		m.list.box.Move(fyne.NewPos(min(m.bar.menus[m.index].Position().X, size.Width-least.Width-4), barHeight))
	}}, m.list.box))
}

func (m *openMenu) Tapped(*fyne.PointEvent) { m.bar.close() }

func (m *openMenu) MouseIn(*desktop.MouseEvent) {}
func (m *openMenu) MouseOut()                   {}
func (m *openMenu) MouseMoved(e *desktop.MouseEvent) {
	if e.Position.Y > barHeight {
		return
	}
	for i, item := range m.bar.menus {
		if x := e.Position.X - item.Position().X; i != m.index && x >= 0 && x < item.Size().Width {
			m.bar.close()
			m.bar.show(i)
			return
		}
	}
}

func (m *openMenu) FocusGained()   {}
func (m *openMenu) FocusLost()     {}
func (m *openMenu) TypedRune(rune) {}
func (m *openMenu) TypedKey(e *fyne.KeyEvent) {
	turn := func(by int) {
		i := (m.index + by + len(menuNames)) % len(menuNames)
		m.bar.close()
		m.bar.show(i)
	}
	switch e.Name {
	case fyne.KeyEscape:
		m.bar.close()
	case fyne.KeyDown:
		m.list.deepest().walk(1)
	case fyne.KeyUp:
		m.list.deepest().walk(-1)
	case fyne.KeyRight:
		if !m.list.enter() {
			turn(1)
		}
	case fyne.KeyLeft:
		if m.list.child != nil {
			m.list.shut()
			return
		}
		turn(-1)
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		l := m.list.deepest()
		l.choose(l.at)
	}
}
