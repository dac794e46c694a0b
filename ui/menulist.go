package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// menuList is an open menu: one line for each command with its tick and its key, and at most one submenu beside it.
type menuList struct {
	w     *Window
	box   *fyne.Container
	items []*command
	lines []*button
	at    int // the line that the keys are on, -1: none
	child *menuList
	close func()
}

const (
	menuLine  float32 = 26
	menuTick  float32 = 22
	menuKey   float32 = 110
	menuExtra float32 = 9 // above a section
)

func newMenuList(w *Window, items []*command, close func()) *menuList {
	l := &menuList{w: w, items: items, at: -1, close: close}
	p := w.pal
	width := float32(160)
	for _, c := range items {
		width = max(width, textWidth(c.label(), sizeText, false)+menuTick+menuKey+20)
	}
	width = min(width, 560)
	frame := canvas.NewRectangle(p.Pane)
	frame.StrokeColor, frame.StrokeWidth, frame.CornerRadius = p.Quiet, 1, corner
	l.box = container0(frame)
	y := float32(4)
	for i, c := range items {
		if c.section && i > 0 {
			l.box.Add(p.rule(8, y+menuExtra/2, width-16))
			y += menuExtra
		}
		b := newButton(p, plainItem, "", func() { l.choose(i) })
		b.off = !c.enabled()
		b.hovered = func(in bool) {
			if in {
				l.move(i)
			}
		}
		put(b, 4, y, width-8, menuLine)
		l.lines = append(l.lines, b)
		l.box.Add(b)
		ink, key := p.Ink, c.key.String()
		if b.off {
			ink = p.unusable()
		}
		if c.children != nil {
			key = "›"
		}
		row := p.row(width-20-menuTick, menuLine, cell{text: c.label(), ink: ink}, cell{text: key, width: menuKey, right: true, ink: p.Quiet})
		row.Move(fyne.NewPos(10+menuTick, y))
		l.box.Add(row)
		if c.on != nil && c.on() {
			l.box.Add(tick(p, 14, y+menuLine/2))
		}
		y += menuLine
	}
	put(frame, 0, 0, width, y+4)
	l.box.Resize(fyne.NewSize(width, y+4))
	return l
}

// tick is a check mark about a point.
func tick(p *Palette, x, y float32) fyne.CanvasObject {
	down, up := canvas.NewLine(p.Ink), canvas.NewLine(p.Ink)
	down.StrokeWidth, up.StrokeWidth = 2, 2
	down.Position1, down.Position2 = fyne.NewPos(x, y), fyne.NewPos(x+3, y+4)
	up.Position1, up.Position2 = fyne.NewPos(x+3, y+4), fyne.NewPos(x+9, y-5)
	return container0(down, up)
}

// move brings the mark to a line; a submenu opens beside its line and closes when the mark goes elsewhere.
func (l *menuList) move(i int) {
	if i == l.at {
		return
	}
	l.at = i
	for k, b := range l.lines {
		b.set("", k == i && !b.off)
	}
	l.shut()
	if l.items[i].children != nil {
		l.expand(i)
	}
}

// expand opens the submenu of a line.
func (l *menuList) expand(i int) {
	items := l.items[i].children()
	if len(items) == 0 {
		return
	}
	l.child = newMenuList(l.w, items, l.close)
	l.child.box.Move(fyne.NewPos(l.box.Size().Width-2, l.lines[i].Position().Y-4))
	l.box.Add(l.child.box)
}

// shut closes the submenu.
func (l *menuList) shut() {
	if l.child != nil {
		l.box.Remove(l.child.box)
		l.child = nil
	}
}

// deepest is the submenu where the keys are, or the menu itself.
func (l *menuList) deepest() *menuList {
	if l.child != nil && l.child.at >= 0 {
		return l.child.deepest()
	}
	return l
}

// walk moves the mark to the next line that can be used.
func (l *menuList) walk(by int) {
	n := len(l.items)
	for step := 1; step <= n; step++ {
		i := ((l.at+by*step)%n + n) % n
		if l.at < 0 && by > 0 {
			i = step - 1
		}
		if !l.lines[i].off {
			l.move(i)
			return
		}
	}
}

// enter goes into the open submenu; it says whether there was one.
func (l *menuList) enter() bool {
	if l.child == nil {
		return false
	}
	if l.child.at < 0 {
		l.child.walk(1)
	}
	return true
}

// choose runs a line's command and closes the menus; a line with a submenu opens it.
func (l *menuList) choose(i int) {
	if i < 0 || i >= len(l.items) || l.lines[i].off {
		return
	}
	if l.items[i].children != nil {
		l.move(i)
		l.enter()
		return
	}
	l.close()
	l.w.invoke(l.items[i])
}
