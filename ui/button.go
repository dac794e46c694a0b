package ui

import (
	"image/color"

	"seamwright/calc/guard"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// buttonStyle is how a button looks: it is always words.
type buttonStyle int

const (
	pill      buttonStyle = iota // an outline; filled while it is on
	tab                          // underlined while it is on
	link                         // accent ink, nothing else
	barItem                      // on the dark bar
	plainItem                    // a line in a list; washed while it is on
	tickItem                     // a line with a square before it, ticked while it is on
)

// button is words that do something: by click, or by Space or Enter while it has the focus, which shows as a ring.
// Keys that it has no use for go on to the window.
type button struct {
	widget.BaseWidget
	pal     *Palette
	style   buttonStyle
	label   string
	on      bool
	small   bool
	off     bool // cannot be used now
	framed  bool // a plain item on a card, which has the ground and the line round it
	tapped  func()
	hovered func(in bool)
	keys    func(*fyne.KeyEvent) // the window's own keys

	hover, focus bool
}

var (
	_ fyne.Tappable      = (*button)(nil)
	_ fyne.Focusable     = (*button)(nil)
	_ desktop.Hoverable  = (*button)(nil)
	_ desktop.Cursorable = (*button)(nil)
)

func newButton(p *Palette, style buttonStyle, label string, tapped func()) *button {
	b := &button{pal: p, style: style, label: label, tapped: tapped}
	b.ExtendBaseWidget(b)
	return b
}

// set changes words and state, and redraws only where something is new.
func (b *button) set(label string, on bool) {
	if b.label == label && b.on == on {
		return
	}
	b.label, b.on = label, on
	b.Refresh()
}

func (b *button) Tapped(*fyne.PointEvent) {
	defer guard.Catch(b.pal.failed)
	if b.tapped != nil && !b.off {
		b.tapped()
	}
}

func (b *button) Cursor() desktop.Cursor {
	if b.off {
		return desktop.DefaultCursor
	}
	return desktop.PointerCursor
}

func (b *button) MouseIn(*desktop.MouseEvent) {
	defer guard.Catch(b.pal.failed)
	b.hover = true
	b.Refresh()
	if b.hovered != nil {
		b.hovered(true)
	}
}

func (b *button) MouseMoved(*desktop.MouseEvent) {}

func (b *button) MouseOut() {
	defer guard.Catch(b.pal.failed)
	b.hover = false
	b.Refresh()
	if b.hovered != nil {
		b.hovered(false)
	}
}

func (b *button) FocusGained()   { b.focus = true; b.Refresh() }
func (b *button) FocusLost()     { b.focus = false; b.Refresh() }
func (b *button) TypedRune(rune) {}

func (b *button) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		b.Tapped(nil)
	default:
		if b.keys != nil {
			b.keys(e)
		}
	}
}

func (b *button) textSize() float32 {
	if b.small {
		return sizeSmall
	}
	return sizeText
}

func (b *button) padding() (x, y float32) {
	switch b.style {
	case pill:
		return 10, 4
	case tab:
		return 4, 6
	case link:
		return 2, 3
	case tickItem:
		return tickRoom, 2
	}
	return 10, 5
}

// tickRoom is what the square of a tickItem takes, with its distance to the words.
const (
	tickRoom float32 = 24
	tickSide float32 = 14
)

func (b *button) MinSize() fyne.Size {
	x, y := b.padding()
	words := fyne.MeasureText(b.label, b.textSize(), fyne.TextStyle{Bold: b.style == tab})
	return fyne.NewSize(words.Width+2*x, max(target, words.Height+2*y))
}

func (b *button) CreateRenderer() fyne.WidgetRenderer {
	r := &buttonRenderer{b: b, ground: canvas.NewRectangle(color.Transparent), line: canvas.NewRectangle(color.Transparent),
		words: b.pal.text(b.label, b.textSize(), false, b.pal.Ink), square: newFrame(b.pal.Quiet, 1), ticked: tick(b.pal, 3, tickSide/2)}
	r.Refresh()
	return r
}

type buttonRenderer struct {
	b            *button
	ground, line *canvas.Rectangle
	words        *canvas.Text

	square *fyne.Container // of a tickItem
	ticked fyne.CanvasObject
}

func (r *buttonRenderer) Destroy()           {}
func (r *buttonRenderer) MinSize() fyne.Size { return r.b.MinSize() }
func (r *buttonRenderer) Objects() []fyne.CanvasObject {
	if r.b.style == tickItem {
		return []fyne.CanvasObject{r.ground, r.words, r.square, r.ticked}
	}
	return []fyne.CanvasObject{r.ground, r.line, r.words}
}

func (r *buttonRenderer) Layout(size fyne.Size) {
	put(r.ground, 0, 0, size.Width, size.Height)
	least := r.words.MinSize()
	x := (size.Width - least.Width) / 2
	switch r.b.style {
	case plainItem, link, tickItem:
		x, _ = r.b.padding()
	}
	put(r.words, x, (size.Height-least.Height)/2, least.Width, least.Height)
	put(r.line, 0, size.Height-2, size.Width, 2)
	put(r.square, 4, (size.Height-tickSide)/2, tickSide, tickSide)
	put(r.ticked, 4, (size.Height-tickSide)/2, tickSide, tickSide)
}

func (r *buttonRenderer) Refresh() {
	b, p := r.b, r.b.pal
	ink, ground, line, stroke := p.Ink, color.Color(color.Transparent), color.Color(color.Transparent), color.Color(color.Transparent)
	switch b.style {
	case pill:
		stroke, ground = p.Quiet, p.Pane
		if b.on {
			ground, ink, stroke = p.Ink, p.Pane, p.Ink
		}
		r.ground.CornerRadius = 12
	case tab:
		if b.on {
			line = p.Accent
		} else {
			ink = p.Quiet
		}
	case link:
		ink = p.Accent
	case barItem:
		ink = p.BarInk
		r.ground.CornerRadius = corner
		if b.hover || b.on {
			ground = faded(p.BarInk, 0.16)
		}
	case plainItem:
		r.ground.CornerRadius = corner
		if b.on && !b.framed {
			ground, ink = p.AccentBg, p.Accent
			if p.AccentBg == p.Pane { // no wash in high contrast: a line instead
				stroke = p.Accent
			}
		}
	}
	if b.hover && b.style != barItem && !b.on && !b.off {
		switch b.style {
		case tab:
			ink, line = p.Ink, p.Hairline
		case link:
			line = p.Accent
		case pill:
			ground, stroke = p.AccentBg, p.Ink
		default:
			ground = faded(p.Ink, 0.07)
		}
	}
	if b.off {
		ink, ground, line = p.unusable(), color.Transparent, color.Transparent
	}
	r.ground.FillColor, r.ground.StrokeColor, r.ground.StrokeWidth = ground, stroke, 1
	if stroke == color.Transparent {
		r.ground.StrokeWidth = 0
	}
	if b.focus {
		r.ground.StrokeColor, r.ground.StrokeWidth = p.Accent, 2
		if b.style == barItem {
			r.ground.StrokeColor = p.BarInk
		}
	}
	r.line.FillColor = line
	shownIf(r.ticked, b.on)
	r.words.Text, r.words.Color, r.words.TextSize = b.label, ink, b.textSize()
	r.words.TextStyle.Bold = b.style == tab && b.on
	r.Layout(b.Size())
	canvas.Refresh(b)
}
