package ui

import (
	"image/color"
	"strings"

	"seamwright/scene/draft"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// ledger is the account that never leaves the window: money first, then sheets with the proven least beside them, and
// what the last change did to each.
type ledger struct {
	w        *Window
	box      *fyne.Container
	head     *fyne.Container // alternatives and money
	body     *fyne.Container // everything that may scroll
	scroll   *container.Scroll
	headHigh float32
}

// The inside of the ledger.
const (
	ledgerEdge  float32 = 14
	ledgerInner         = ledgerWidth - 2*ledgerEdge
	ledgerLine  float32 = 25
	ledgerNote  float32 = 92 // the column at the right: what the last change did, packs to buy
	ledgerValue float32 = 78
)

func newLedger(w *Window) *ledger {
	l := &ledger{w: w, head: container0(), body: container0()}
	l.scroll = container.NewVScroll(l.body)
	inner := laidOut(arrange{fyne.NewSize(ledgerWidth, 200), func(size fyne.Size) {
		put(l.head, 0, 0, size.Width, l.headHigh)
		put(l.scroll, 0, l.headHigh, size.Width, size.Height-l.headHigh)
	}}, l.head, l.scroll)
	l.box = w.pal.pane(inner)
	return l
}

func (l *ledger) refresh(c Change) {
	if c&^HandChanged == 0 {
		return
	}
	l.fillHead()
	l.fillBody()
	l.box.Refresh()
	size := l.box.Size()
	put(l.head, 0, 0, size.Width, l.headHigh)
	put(l.scroll, 0, l.headHigh, size.Width, size.Height-l.headHigh)
	l.scroll.Refresh()
}

// column stacks what a part of the ledger is made of.
type column struct {
	box   *fyne.Container
	pal   *Palette
	x, y  float32
	width float32
}

func (c *column) add(o fyne.CanvasObject, height float32) {
	put(o, c.x, c.y, c.width, height)
	c.box.Add(o)
	c.y += height
}

func (c *column) gap(h float32) { c.y += h }

func (c *column) title(words string) {
	c.gap(16)
	c.add(c.pal.caption(words), 18)
}

// line is a row of cells over a hairline.
func (c *column) line(height float32, cells ...cell) {
	c.add(c.pal.row(c.width, height-1, cells...), height-1)
	c.add(c.pal.rule(c.x, c.y, c.width), 1)
}

// tapLine is a line that goes somewhere.
func (c *column) tapLine(height float32, on bool, keys func(*fyne.KeyEvent), tapped func(), cells ...cell) *button {
	b := newButton(c.pal, plainItem, "", tapped)
	b.on, b.keys = on, keys
	put(b, c.x-6, c.y, c.width+12, height-1)
	c.box.Add(b)
	c.line(height, cells...)
	return b
}

// paragraph sets wrapped text.
func (c *column) paragraph(words string, size float32, ink color.Color) {
	for _, l := range wrap(words, size, false, c.width) {
		t := c.pal.text(l, size, false, ink)
		c.add(t, t.MinSize().Height+1)
	}
}

func (l *ledger) fillHead() {
	w, p := l.w, l.w.pal
	l.head.RemoveAll()
	c := &column{box: l.head, pal: p, x: ledgerEdge, y: 8, width: ledgerInner}
	l.alternatives(c)
	j, a := w.model.Doc.Job(), w.model.Plan
	c.gap(10)
	what := "Materials with tax"
	if j.Site.Rate > 0 {
		what = "Materials with tax, own hours at " + amount(j.Site.Rate, j.Currency)
	}
	c.add(p.caption(what), 16)
	figure := "–"
	if a != nil && len(j.Rooms) > 0 {
		figure = amount(a.Cost.Total, j.Currency)
	}
	big := p.text(figure, sizeFigure, true, p.Ink)
	put(big, c.x, c.y, big.MinSize().Width, big.MinSize().Height)
	l.head.Add(big)
	if b := w.model.Before; a != nil && b != nil && a.Cost.Total != b.Cost.Total {
		d := a.Cost.Total - b.Cost.Total
		t := p.text(fit(moneyChange(d, j.Currency)+" since last change", sizeText, false, c.width-big.MinSize().Width-10), sizeText, false, p.tone(float64(d)))
		put(t, c.x+big.MinSize().Width+10, c.y+big.MinSize().Height-t.MinSize().Height-5, t.MinSize().Width, t.MinSize().Height)
		l.head.Add(t)
	}
	c.gap(big.MinSize().Height)
	if a != nil && a.Cost.Quote > 0 {
		words := "hired quote " + amount(a.Cost.Quote, j.Currency)
		if a.Cost.BreakEven > 0 {
			words += " · break-even " + amount(a.Cost.BreakEven, j.Currency) + " an hour"
		}
		c.paragraph(words, sizeSmall, p.Quiet)
	}
	l.nearly(c)
	c.gap(8)
	l.headHigh = c.y
}

// nearly is a line on another answer that is nearly as good and better elsewhere; a click chooses it.
func (l *ledger) nearly(c *column) {
	w, p := l.w, l.w.pal
	other, words := w.nearly()
	if other == nil {
		return
	}
	c.gap(4)
	top := c.y
	b := newButton(p, plainItem, "", func() { w.setAim(aimWord(aimOf(other.Aim))) })
	b.keys = w.typedKey
	c.box.Add(b)
	c.paragraph(words, sizeSmall, p.Accent)
	put(b, c.x-6, top-2, c.width+12, c.y-top+4)
}

// alternatives are the tabs at the head: the project as drawn, its named variants, and the way to compare them.
func (l *ledger) alternatives(c *column) {
	w, p := l.w, l.w.pal
	names := []string{""}
	for _, a := range w.model.Doc.Job().Alternatives {
		names = append(names, a.Name)
	}
	x, high := c.x-4, target+4
	place := func(b *button) {
		b.small, b.keys = true, w.typedKey
		s := b.MinSize()
		if x+s.Width > c.x+c.width+6 {
			x = c.x - 4
			c.gap(high)
		}
		put(b, x, c.y, s.Width, high)
		c.box.Add(b)
		x += s.Width + 6
	}
	for _, name := range names {
		words := name
		if name == "" {
			words = "As drawn"
		}
		b := newButton(p, tab, fit(words, sizeSmall, true, 130), func() { w.activate(name) })
		b.on = name == w.model.Doc.Active()
		place(b)
	}
	if len(names) > 1 {
		place(newButton(p, link, "compare", func() { w.invoke(w.command("compare")) }))
	}
	place(newButton(p, link, "+ alternative", func() { w.invoke(w.command("alternative")) }))
	c.gap(high)
}

// tone is the colour of a difference: more is dearer.
func (p *Palette) tone(d float64) color.NRGBA {
	switch {
	case d > 0:
		return p.More
	case d < 0:
		return p.Less
	}
	return p.Quiet
}

func (l *ledger) fillBody() {
	w, p := l.w, l.w.pal
	l.body.RemoveAll()
	c := &column{box: l.body, pal: p, x: ledgerEdge, y: 0, width: ledgerInner}
	a := w.model.Plan
	switch {
	case len(w.model.Doc.Job().Rooms) == 0:
		c.paragraph("Nothing is drawn yet. Press R and click the corners of a room in the plan; type a length at any time and press Enter.", sizeText, p.Quiet)
	case a != nil:
		l.figures(c, a)
		l.byWall(c, a)
		l.next(c, a)
		l.checks(c, a)
	case w.model.Fault != nil:
		c.paragraph("The calculation gave no answer. "+sentence(w.model.Fault), sizeText, p.Error)
	default:
		c.paragraph("Working out the first answer.", sizeText, p.Quiet)
	}
	c.gap(16)
	l.body.Resize(fyne.NewSize(ledgerWidth-8, c.y))
}

func capital(s string) string {
	if s == "" {
		return s
	}
	r := []rune(s)
	return strings.ToUpper(string(r[0])) + string(r[1:])
}

// pickSurface selects a wall or ceiling in every view.
func (w *Window) pickSurface(id string) {
	w.model.Pick(draft.Target{Kind: draft.OnSurface, Room: roomOf(id), Surface: surfaceName(id)})
}

// activate shows an alternative, "" the project as drawn.
func (w *Window) activate(name string) {
	if err := w.model.Activate(name); err != nil {
		w.say(sentence(err))
	}
}
