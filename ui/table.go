package ui

import (
	"image/color"

	"seamwright/calc/guard"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

// tableColumn is one column: its heading, its width (0 takes what the others leave), and whether figures stand in it.
type tableColumn struct {
	title string
	width float32
	right bool
}

// tableRow is one row: a heading over a group, or cells with an explanation that a click opens.
type tableRow struct {
	heading string
	cells   []cell // one for each column; width and side are the column's
	detail  string // shown under the row while it is open
	shown   bool   // the detail is always open
	within  bool   // belongs to the row above it: its first cell stands further in
	mark    color.Color
	tapped  func() // nil: a click opens the detail
	picked  func() // called besides when a click opens or closes the detail
	ticked  *bool  // a square that is ticked or not, in the first column
	tick    func() // what a click on the square does
}

// table is set like a table in a handbook: equal-width digits at the right of their column, hairlines between rows, no
// frames. Only rows on the screen are made.
type table struct {
	widget.BaseWidget
	pal     *Palette
	columns []tableColumn
	rows    []tableRow
	open    map[string]bool // by the text of the first cell, so that it survives a new answer
	empty   string          // what stands there while there are no rows
	list    *rowList
	head    *fyne.Container
	none    *fyne.Container
}

// rowList is the rows on the screen; keys that it has no use for go on to the window.
type rowList struct {
	widget.List
	keys func(*fyne.KeyEvent)
}

func (l *rowList) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyUp, fyne.KeyDown, fyne.KeySpace:
		l.List.TypedKey(e)
	default:
		l.keys(e)
	}
}

const (
	tableLine   float32 = 27
	tableIndent float32 = 20
)

func newTable(w *Window, empty string, columns ...tableColumn) *table {
	t := &table{pal: w.pal, columns: columns, open: map[string]bool{}, empty: empty, head: container0(), none: container0()}
	t.list = &rowList{keys: w.typedKey}
	t.list.Length = func() int { return len(t.rows) }
	t.list.CreateItem = func() fyne.CanvasObject {
		r := canvas.NewRectangle(color.Transparent)
		r.Resize(fyne.NewSize(40, tableLine))
		return container0(r)
	}
	t.list.UpdateItem = func(i widget.ListItemID, o fyne.CanvasObject) { t.fill(i, o.(*fyne.Container)) }
	t.list.HideSeparators = true
	t.list.OnSelected = t.choose
	t.list.ExtendBaseWidget(t.list)
	t.ExtendBaseWidget(t)
	return t
}

func (t *table) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(laidOut(arrange{fyne.NewSize(200, 100), func(size fyne.Size) {
		put(t.head, 0, 0, size.Width, tableLine)
		put(t.none, 0, tableLine+8, size.Width, tableLine)
		put(t.list, -4, tableLine, size.Width+8, size.Height-tableLine)
		t.layHead(size.Width)
		t.heights()
	}}, t.head, t.none, t.list))
}

// set shows other rows and keeps what is open and how far it is scrolled.
func (t *table) set(rows []tableRow) {
	t.rows = rows
	t.none.RemoveAll()
	if len(rows) == 0 && t.Size().Width > 0 {
		t.none.Add(t.pal.row(t.Size().Width, tableLine, cell{text: t.empty, ink: t.pal.Quiet}))
	}
	t.none.Refresh()
	t.heights()
	t.list.Refresh()
}

// inner is the width that rows have.
func (t *table) inner() float32 { return max(100, t.Size().Width-12) }

func (t *table) layHead(float32) {
	t.head.RemoveAll()
	cells := make([]cell, len(t.columns))
	for i, c := range t.columns {
		cells[i] = cell{text: c.title, width: c.width, right: c.right, small: true, ink: t.pal.Quiet}
	}
	t.head.Add(t.pal.row(t.inner(), tableLine-1, cells...))
	t.head.Add(t.pal.rule(0, tableLine-1, t.inner()))
	t.head.Refresh()
}

func (t *table) name(i int) string {
	if len(t.rows[i].cells) > 0 {
		return t.rows[i].cells[0].text
	}
	return t.rows[i].heading
}

func (t *table) heights() {
	if t.Size().Width == 0 {
		return
	}
	for i := range t.rows {
		t.list.SetItemHeight(i, t.height(i))
	}
}

func (t *table) height(i int) float32 {
	r := &t.rows[i]
	h := tableLine
	if r.heading != "" {
		h += 10
	}
	if r.detail != "" && (r.shown || r.cells == nil || t.open[t.name(i)]) {
		h += float32(len(t.lines(r)))*18 + 8
	}
	return h
}

func (t *table) lines(r *tableRow) []string {
	return wrap(r.detail, sizeText, false, t.inner()-2*tableIndent)
}

func (t *table) fill(i int, box *fyne.Container) {
	if i >= len(t.rows) {
		return
	}
	r, p := &t.rows[i], t.pal
	box.RemoveAll()
	y := float32(0)
	if r.heading != "" {
		h := p.text(r.heading, sizeText, true, p.Ink)
		put(h, 4, 10+(tableLine-h.MinSize().Height)/2, h.MinSize().Width, h.MinSize().Height)
		box.Add(h)
		y = 10 + tableLine
	} else {
		cells := make([]cell, len(t.columns))
		for k, c := range t.columns {
			if k < len(r.cells) {
				cells[k] = r.cells[k]
			}
			cells[k].width, cells[k].right = c.width, c.right
		}
		indent := float32(4)
		if r.mark != nil {
			indent = 14
		}
		if r.ticked != nil {
			x := float32(0)
			if r.within {
				x = tableIndent
			}
			square := t.square(*r.ticked)
			square.Move(square.Position().AddXY(x, 0))
			box.Add(square)
			if r.tick != nil {
				b := newButton(p, plainItem, "", r.tick)
				put(b, x, 0, target+2, tableLine-1)
				box.Add(b)
			}
			indent = 28
		}
		if r.within {
			indent += tableIndent
		}
		row := p.row(t.inner()-indent+4, tableLine-1, cells...)
		row.Move(fyne.NewPos(indent, 0))
		box.Add(row)
		y = tableLine
	}
	if r.detail != "" && (r.shown || r.cells == nil || t.open[t.name(i)]) {
		for _, l := range t.lines(r) {
			d := p.text(l, sizeText, false, p.Quiet)
			put(d, 4+tableIndent, y, d.MinSize().Width, 18)
			box.Add(d)
			y += 18
		}
		y += 8
	}
	if r.mark != nil {
		m := canvas.NewRectangle(r.mark)
		put(m, 0, 4, 3, y-8)
		box.Add(m)
	}
	box.Add(p.rule(4, y-1, t.inner()))
	box.Refresh()
}

// square is the box before a task: empty, or ticked.
func (t *table) square(ticked bool) fyne.CanvasObject {
	r := canvas.NewRectangle(color.Transparent)
	r.StrokeColor, r.StrokeWidth, r.CornerRadius = t.pal.Ink, 1, 1
	put(r, 6, (tableLine-13)/2, 13, 13)
	if !ticked {
		return r
	}
	return container0(r, tick(t.pal, 8, tableLine/2))
}

// choose answers a click or Space on a row.
func (t *table) choose(i widget.ListItemID) {
	defer guard.Catch(t.pal.failed)
	t.list.UnselectAll()
	if i >= len(t.rows) {
		return
	}
	if r := &t.rows[i]; r.tapped != nil {
		r.tapped()
		return
	} else if r.detail == "" {
		return
	}
	t.open[t.name(i)] = !t.open[t.name(i)]
	t.list.SetItemHeight(i, t.height(i))
	t.list.RefreshItem(i)
	if picked := t.rows[i].picked; picked != nil {
		picked()
	}
}

// openAll opens or closes every explanation.
func (t *table) openAll(yes bool) {
	for i := range t.rows {
		t.open[t.name(i)] = yes
	}
	t.heights()
	t.list.Refresh()
}

// page is a view that fills its tab: a line of buttons over its content.
type page struct {
	box     *fyne.Container
	buttons []*button
	words   *canvas.Text
}

// newPage puts content on a pane under a line of words and buttons.
func (w *Window) newPage(content fyne.CanvasObject, buttons ...*button) *page {
	g := &page{buttons: buttons, words: w.pal.caption("")}
	objects := []fyne.CanvasObject{content, g.words}
	for _, b := range buttons {
		b.small, b.keys = true, w.typedKey
		objects = append(objects, b)
	}
	inner := laidOut(arrange{fyne.NewSize(300, 200), func(size fyne.Size) {
		g.place(size)
		put(content, 20, 40, size.Width-40, size.Height-48)
	}}, objects...)
	g.box = w.pal.pane(inner)
	return g
}

func (g *page) place(size fyne.Size) {
	x := size.Width - 12
	for i := len(g.buttons) - 1; i >= 0; i-- {
		m := g.buttons[i].MinSize()
		x -= m.Width
		put(g.buttons[i], x, 8, m.Width, m.Height)
		x -= 6
	}
	m := g.words.MinSize()
	put(g.words, 22, 14, m.Width, m.Height)
}

func (g *page) say(words string) {
	if g.words.Text != words {
		g.words.Text = words
		g.words.Refresh()
		put(g.words, 22, 14, g.words.MinSize().Width, g.words.MinSize().Height)
	}
}
