package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"seamwright/scene/draft"
)

// studio is the first tab: plan, room and the walls unrolled, three views of one thing, and the fields of what is
// picked under them.
type studio struct {
	w         *Window
	box       *fyne.Container
	plan      *planView
	room      *roomView
	strip     *stripView
	inspector *inspector
	panes     map[string]*pane
	full      string // the pane that fills the tab, "" for all three
	client    *client
}

// pane is one view with its caption and the button that lets it fill the tab.
type pane struct {
	box     *fyne.Container
	inner   *fyne.Container
	pic     *picture
	caption *canvas.Text
	label   *fyne.Container // behind the caption, so that it reads over any picture
	fill    *button
	chips   []fyne.CanvasObject
	low     bool              // the chips stand at the foot, where the caption needs the head
	band    fyne.CanvasObject // stands below the caption where there is room for it, nil: none
}

// bandTop is where a pane's band begins, below caption and chips.
const bandTop float32 = 34

func newStudio(w *Window) *studio {
	s := &studio{w: w, panes: map[string]*pane{}}
	s.plan = newPlanView(w)
	s.room = newRoomView(w)
	s.strip = newStripView(w)
	s.inspector = newInspector(w)
	s.panes["plan"] = s.pane("plan", s.plan.pic)
	s.panes["room"] = s.pane("room", s.room.pic, s.room.chips()...)
	s.panes["room"].low = true
	s.panes["room"].band = s.room.lights.box
	s.panes["room"].inner.Add(s.room.lights.box)
	s.panes["strip"] = s.pane("strip", s.strip.pic, s.strip.chips()...)
	s.panes["strip"].band = s.strip.answers.box
	s.panes["strip"].inner.Add(s.strip.answers.box)
	s.client = newClient(w)
	s.box = laidOut(arrange{fyne.NewSize(500, 400), s.place},
		s.panes["plan"].box, s.panes["room"].box, s.panes["strip"].box, s.inspector.box, s.client.box)
	return s
}

func (s *studio) pane(name string, pic *picture, chips ...fyne.CanvasObject) *pane {
	p := &pane{pic: pic, caption: s.w.pal.caption(""), label: newGround(faded(s.w.pal.Pane, 0.85)), chips: chips}
	p.fill = newButton(s.w.pal, link, "fill", func() { s.toggle(name) })
	p.fill.small, p.fill.keys = true, s.w.typedKey
	objects := []fyne.CanvasObject{pic, p.label, p.caption, p.fill}
	objects = append(objects, chips...)
	p.inner = laidOut(arrange{fyne.NewSize(80, 60), func(size fyne.Size) {
		put(pic, 0, 0, size.Width, size.Height)
		p.place(size)
	}}, objects...)
	p.box = s.w.pal.border(p.inner)
	return p
}

// show shows or hides the pane; a hidden one's picture is not drawn.
func (p *pane) show(yes bool) {
	shownIf(p.pic, yes)
	shownIf(p.box, yes)
}

func (p *pane) place(size fyne.Size) {
	f := p.fill.MinSize()
	put(p.fill, size.Width-f.Width-6, 4, f.Width, f.Height)
	t := p.caption.MinSize()
	put(p.caption, 12, 9, t.Width, t.Height)
	put(p.label, 6, 6, t.Width+12, t.Height+6)
	if p.band != nil {
		put(p.band, 10, bandTop, size.Width-20, answersHeight)
	}
	x, y := size.Width-f.Width-14, float32(4)
	if p.low {
		p.placeLow(size)
		return
	}
	for i := len(p.chips) - 1; i >= 0; i-- {
		m := p.chips[i].MinSize()
		x -= m.Width
		put(p.chips[i], x, y, m.Width, m.Height)
		x -= 6
	}
}

// placeLow sets the chips in rows from the foot up.
func (p *pane) placeLow(size fyne.Size) {
	x, y := float32(10), size.Height-target-10
	for _, c := range p.chips {
		if !c.Visible() {
			continue
		}
		m := c.MinSize()
		if x > 10 && x+m.Width > size.Width-10 {
			x, y = 10, y-target-6
		}
		put(c, x, y, m.Width, m.Height)
		x += m.Width + 6
	}
}

func (s *studio) name() string              { return "Plan & room" }
func (s *studio) object() fyne.CanvasObject { return s.box }

// toggle lets a pane fill the tab, or come back.
func (s *studio) toggle(name string) {
	if s.full == name {
		name = ""
	}
	s.full = name
	s.plan.fitted, s.strip.fitted = false, false
	for n, p := range s.panes {
		words := "fill"
		if n == name {
			words = "back"
		}
		p.fill.set(words, false)
	}
	s.place(s.box.Size())
	s.room.label() // a wide view has room for more switches
	s.refresh(EverythingElse)
}

// place divides the tab: the strip takes the lower two fifths, plan and room share the rest.
func (s *studio) place(size fyne.Size) {
	put(s.client.box, 0, 0, size.Width, size.Height)
	if s.w.presenting {
		for n, p := range s.panes {
			p.show(n == "room")
		}
		put(s.panes["room"].box, 0, 0, size.Width, size.Height)
		return
	}
	high := size.Height - inspectorHeight - grid/2
	s.inspector.place(size)
	for n, p := range s.panes {
		p.show(s.full == "" || s.full == n)
	}
	if s.full != "" {
		put(s.panes[s.full].box, 0, 0, size.Width, high)
		s.w.spread()
		return
	}
	lower := float32(int(high * 0.46))
	upper := high - lower - grid
	left := float32(int((size.Width - grid) / 2))
	put(s.panes["plan"].box, 0, 0, left, upper)
	put(s.panes["room"].box, left+grid, 0, size.Width-left-grid, upper)
	put(s.panes["strip"].box, 0, upper+grid, size.Width, lower)
	s.w.spread()
}

// fit shows everything in the view that has the keys, or in all three.
func (s *studio) fit() {
	switch s.w.drawing {
	case s.plan.pic:
		s.plan.fitted = false
	case s.strip.pic:
		s.strip.fitted = false
	case s.room.pic:
		s.room.frameAll()
	default:
		s.plan.fitted, s.strip.fitted = false, false
		s.room.frameAll()
	}
	s.refresh(ViewChanged)
}

func (s *studio) refresh(c Change) {
	s.plan.refresh(c)
	s.strip.refresh(c)
	s.room.refresh(c)
	s.inspector.refresh(c)
	s.client.refresh()
	s.captions()
}

// captions say what each view shows.
func (s *studio) captions() {
	for name, p := range s.panes {
		words := ""
		switch name {
		case "plan":
			words = s.plan.caption()
		case "room":
			words = s.room.caption()
		case "strip":
			words = s.strip.caption()
		}
		if p.caption.Text != words {
			p.caption.Text = words
			p.place(p.pic.Size())
			p.caption.Refresh()
		}
	}
}

// hover notes what the pointer is on in one drawing, shows it in all, and asks what the finish in hand would do there.
// An empty target is a pointer that has left.
func (s *studio) hover(from *picture, was *draft.Target, t draft.Target) {
	same := t.Same(*was)
	if *was = t; same {
		return
	}
	from.redraw()
	s.hoverElsewhere(from, t)
	s.w.model.Try(t.Surface, t.Zone)
	s.w.noteLine.refresh()
}

// hoverElsewhere shows in the other drawings what the pointer is on in one.
func (s *studio) hoverElsewhere(from *picture, t draft.Target) {
	if from != s.plan.pic {
		s.plan.foreign(t)
	}
	if from != s.strip.pic {
		s.strip.foreign(t)
	}
	if from != s.room.pic {
		s.room.foreign(t)
	}
}

// picked is the selection as the drawings want it: the thing itself, and the whole surface that it belongs to.
func (w *Window) picked() []draft.Target {
	t := w.model.Selected
	if t.Kind == draft.Nothing {
		return nil
	}
	list := []draft.Target{t}
	if t.Surface != "" && t.Kind != draft.OnSurface {
		list = append(list, draft.Target{Kind: draft.OnSurface, Room: t.Room, Surface: surfaceName(t.Surface)})
	}
	return list
}
