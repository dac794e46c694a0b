package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"seamwright/scene"
)

// client is what a client is shown: the room, what its lines mean, and the price; nothing else. Keys and mouse turn the
// room as ever; Esc leaves.
type client struct {
	w     *Window
	box   *fyne.Container
	inner *fyne.Container
	full  string // the pane that filled the tab before
}

func newClient(w *Window) *client {
	c := &client{w: w, inner: container0()}
	c.box = laidOut(arrange{fyne.NewSize(10, 10), func(fyne.Size) { c.refresh() }}, c.inner)
	c.box.Hide()
	return c
}

// showClient shows the room to a client, or comes back to work.
func (w *Window) showClient(yes bool) {
	if w.presenting == yes {
		return
	}
	w.presenting = yes
	w.showTab(0)
	s := w.studio
	if yes {
		w.model.Hold(nil)
		s.client.full, s.full = s.full, "room"
	} else {
		s.full = s.client.full
	}
	s.plan.fitted, s.strip.fitted = false, false
	shownIf(s.client.box, yes)
	for _, o := range []fyne.CanvasObject{w.desk.box, w.bar.box, w.rack.box, w.ledger.box, w.noteLine.box, w.tabs.box, s.inspector.box} {
		shownIf(o, !yes)
	}
	s.panes["room"].bare(yes)
	s.room.label()
	w.place(w.win.Canvas().Size())
	w.refresh(EverythingElse)
	w.win.Canvas().Unfocus()
	w.win.Canvas().Focus(s.room.pic)
}

// bare leaves nothing but the picture of a pane.
func (p *pane) bare(yes bool) {
	for _, o := range append([]fyne.CanvasObject{p.label, p.caption, p.fill}, p.chips...) {
		shownIf(o, !yes)
	}
	if p.band != nil {
		shownIf(p.band, !yes)
	}
}

const (
	clientEdge float32 = 28
	signLong   float32 = 44 // of a line in the legend
)

// refresh sets name and price at the head, the legend at the foot.
func (c *client) refresh() {
	c.inner.RemoveAll()
	w, p, size := c.w, c.w.pal, c.box.Size()
	a := w.model.Plan
	if !w.presenting || a == nil || size.Width < 100 {
		return
	}
	add := func(o fyne.CanvasObject, x, y float32) float32 {
		m := o.MinSize()
		put(o, x, y, m.Width, m.Height)
		c.inner.Add(o)
		return m.Width
	}
	name := w.model.Doc.Name()
	if active := w.model.Doc.Active(); active != "" {
		name += ", " + active
	}
	add(p.heading(name), clientEdge, clientEdge)
	price := p.text(amount(a.Cost.Total, a.Cost.Currency), sizeFigure, true, p.Ink)
	add(price, size.Width-clientEdge-price.MinSize().Width, clientEdge-6)
	drawn := w.drawnJoints()
	x, y := clientEdge, size.Height-clientEdge
	for _, e := range scene.Legend(w.studio.room.style) {
		if e.Kind != "" && !drawn[e.Words] {
			continue
		}
		c.sign(e, x, y)
		x += signLong + 8
		x += add(p.text(e.Words, sizeText, false, p.Ink), x, y-9) + 24
	}
}

// sign draws a line of the legend as the room shows it.
func (c *client) sign(e scene.LegendEntry, x, y float32) {
	ink := c.w.pal.Ink
	if e.Blue {
		ink = c.w.pal.Accent
	}
	line := func(from, to, y float32) {
		l := canvas.NewRectangle(ink)
		put(l, x+from, y-e.Width/2, to-from, e.Width)
		c.inner.Add(l)
	}
	switch {
	case e.Twice:
		line(0, signLong, y-2)
		line(0, signLong, y+2)
	case e.Dash[0] > 0:
		for at := float32(0); at < signLong; at += e.Dash[0] + e.Dash[1] {
			line(at, min(at+e.Dash[0], signLong), y)
		}
	default:
		line(0, signLong, y)
	}
}

// drawnJoints are the words of the legend for the joints that the plan has.
func (w *Window) drawnJoints() map[string]bool {
	words := map[string]string{"tapered": "tapered joint", "butt": "butt joint", "mixed": "mixed joint", "panel": "gap between panels", "control": "control joint"}
	has := map[string]bool{}
	for i := range w.model.Plan.Surfaces {
		for k := range w.model.Plan.Surfaces[i].Zones {
			for _, j := range w.model.Plan.Surfaces[i].Zones[k].Joints {
				has[words[string(j.Kind)]] = true
			}
		}
	}
	return has
}
