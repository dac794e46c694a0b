package ui

import (
	"slices"
	"sort"

	"seamwright/calc/guard"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/scene/draft"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// rack is the finishes at hand, as sheets stand in a shop. One is taken by click or by its number; then walls are
// touched with it.
type rack struct {
	w      *Window
	box    *fyne.Container
	list   *fyne.Container
	sheets []*rackSheet
	stands string // what the list was made from
}

func newRack(w *Window) *rack {
	r := &rack{w: w, list: container0()}
	r.box = laidOut(inset{0, grid, 0, 0}, container.NewVScroll(r.list))
	return r
}

// finishes lists what the rack offers: the products of the project's units, finishes of several layers that are in
// use, two layers of fire board, and bare framing last.
func finishes(j *job.Job) [][]string {
	var all [][]string
	add := func(layers []string) {
		for _, have := range all {
			if slices.Equal(have, layers) {
				return
			}
		}
		all = append(all, layers)
	}
	products := slices.Clone(j.Products)
	sort.SliceStable(products, func(a, b int) bool { return products[a].Kind < products[b].Kind })
	for _, p := range products {
		if len(p.Sizes) > 0 && (p.Sizes[0].Width%length.Inch == 0) == (j.Units != job.Metric) {
			add([]string{p.ID})
		}
	}
	for _, r := range j.Rooms {
		for i := range r.Walls {
			for _, z := range r.Walls[i].Lining {
				add(z.Layers)
			}
		}
		if r.Ceiling != nil {
			for _, z := range r.Ceiling.Lining {
				add(z.Layers)
			}
		}
	}
	for _, p := range products {
		if p.FireType && len(p.Sizes) > 0 && (p.Sizes[0].Width%length.Inch == 0) == (j.Units != job.Metric) {
			add([]string{p.ID, p.ID})
			break
		}
	}
	open := []string{job.Open}
	all = slices.DeleteFunc(all, func(l []string) bool { return slices.Equal(l, open) || len(l) == 0 })
	return append(all, open)
}

// pricePerArea is the cheapest way to buy the layers, by area.
func (w *Window) pricePerArea(j *job.Job, layers []string) string {
	best := 0.0
	for _, id := range layers {
		p := j.Product(id)
		if p == nil {
			continue
		}
		least := 0.0
		for _, s := range p.Sizes {
			unit := s.Length.Times(s.Width).SquareFeet()
			if !w.imperial() {
				unit = s.Length.Times(s.Width).SquareMetres()
			}
			if unit <= 0 {
				continue
			}
			if price := float64(s.Price) / unit; least == 0 || price < least {
				least = price
			}
		}
		best += least
	}
	unit := "/ft²"
	if !w.imperial() {
		unit = "/m²"
	}
	return exactAmount(roundMoney(best), j.Currency) + unit
}

const (
	swatchWidth  = 68
	swatchHeight = 38
)

func (r *rack) refresh(c Change) {
	j := r.w.model.Doc.Job()
	if c&DocumentChanged != 0 || r.sheets == nil {
		all := finishes(j)
		stands := ""
		for _, layers := range all {
			stands += layersName(j, layers) + r.w.pricePerArea(j, layers) + ";"
		}
		if stands != r.stands {
			r.stands = stands
			r.fill(j, all)
		}
	}
	for _, s := range r.sheets {
		s.hold(slices.Equal(s.layers, r.w.model.Finish))
	}
}

func (r *rack) fill(j *job.Job, all [][]string) {
	r.sheets = nil
	r.list.RemoveAll()
	y := float32(0)
	for _, layers := range all {
		s := newRackSheet(r.w, j, layers)
		h := s.MinSize().Height
		put(s, 4, y, rackWidth-12, h)
		y += h + 2
		r.sheets = append(r.sheets, s)
		r.list.Add(s)
	}
	r.list.Refresh()
}

// take holds the i-th finish, or puts it back where it is held already.
func (r *rack) take(i int) {
	if i < len(r.sheets) {
		r.sheets[i].Tapped(nil)
	}
}

// rackSheet is one finish: a piece of it, its name and price.
type rackSheet struct {
	widget.BaseWidget
	w      *Window
	layers []string
	lines  []string
	price  string
	image  *canvas.Image
	ring   *canvas.Rectangle
	held   bool
	hover  bool
	focus  bool
}

var (
	_ fyne.Tappable      = (*rackSheet)(nil)
	_ fyne.Focusable     = (*rackSheet)(nil)
	_ desktop.Hoverable  = (*rackSheet)(nil)
	_ desktop.Cursorable = (*rackSheet)(nil)
)

func newRackSheet(w *Window, j *job.Job, layers []string) *rackSheet {
	s := &rackSheet{w: w, layers: layers, price: w.pricePerArea(j, layers)}
	s.lines = wrap(capital(shortLayers(j, layers)), sizeSmall, false, rackWidth-16)
	if len(s.lines) > 3 {
		s.lines = append(s.lines[:2], fit(s.lines[2]+" …", sizeSmall, false, rackWidth-16))
	}
	var products []*job.Product
	for _, id := range layers {
		if p := j.Product(id); p != nil {
			products = append(products, p)
		}
	}
	scale := float64(w.win.Canvas().Scale())
	s.image = canvas.NewImageFromImage(draft.Swatch(w.pal.Theme, products, swatchWidth, swatchHeight, scale))
	s.image.ScaleMode = canvas.ImageScaleFastest
	s.ring = canvas.NewRectangle(nil)
	s.ExtendBaseWidget(s)
	return s
}

func (s *rackSheet) MinSize() fyne.Size {
	return fyne.NewSize(rackWidth-12, 6+swatchHeight+4+float32(len(s.lines)+1)*14+4)
}

func (s *rackSheet) CreateRenderer() fyne.WidgetRenderer {
	p := s.w.pal
	box := container0(s.ring, s.image)
	width := rackWidth - 12
	put(s.ring, (width-swatchWidth)/2-3, 3, swatchWidth+6, swatchHeight+6)
	put(s.image, (width-swatchWidth)/2, 6, swatchWidth, swatchHeight)
	y := float32(6 + swatchHeight + 4)
	line := func(words string, quiet bool) {
		t := p.text(words, sizeSmall, false, p.Ink)
		if quiet {
			t.Color = p.Quiet
		}
		t.Alignment = fyne.TextAlignCenter
		put(t, 0, y, width, 14)
		y += 14
		box.Add(t)
	}
	for _, l := range s.lines {
		line(l, false)
	}
	line(s.price, true)
	s.paint()
	return widget.NewSimpleRenderer(box)
}

func (s *rackSheet) paint() {
	p := s.w.pal
	s.ring.FillColor = faded(p.Ink, 0)
	s.ring.CornerRadius = corner + 2
	s.ring.StrokeWidth = 1
	switch {
	case s.held:
		s.ring.StrokeColor, s.ring.StrokeWidth = p.Accent, 3
	case s.focus:
		s.ring.StrokeColor, s.ring.StrokeWidth = p.Accent, 2
	case s.hover:
		s.ring.StrokeColor = p.Ink
	default:
		s.ring.StrokeColor = faded(p.Ink, 0)
	}
	s.ring.Refresh()
}

func (s *rackSheet) hold(yes bool) {
	if s.held != yes {
		s.held = yes
		s.paint()
	}
}

func (s *rackSheet) Tapped(*fyne.PointEvent) {
	defer guard.Catch(s.w.faulted)
	if s.held {
		s.w.model.Hold(nil)
		s.w.say("")
		return
	}
	s.w.studio.plan.stop()
	s.w.model.Hold(s.layers)
	s.w.say("In hand: " + layersName(s.w.model.Doc.Job(), s.layers) + ". Touch walls in plan, strip or room. Esc puts it back.")
	if s.w.tab != 0 {
		s.w.showTab(0)
	}
}

func (s *rackSheet) Cursor() desktop.Cursor { return desktop.PointerCursor }
func (s *rackSheet) MouseIn(*desktop.MouseEvent) {
	defer guard.Catch(s.w.faulted)
	s.hover = true
	s.paint()
	s.w.say(capital(layersName(s.w.model.Doc.Job(), s.layers)) + ", " + s.price + ".")
}
func (s *rackSheet) MouseMoved(*desktop.MouseEvent) {}
func (s *rackSheet) MouseOut() {
	s.hover = false
	s.paint()
	s.w.say("")
}
func (s *rackSheet) FocusGained()   { s.focus = true; s.paint() }
func (s *rackSheet) FocusLost()     { s.focus = false; s.paint() }
func (s *rackSheet) TypedRune(rune) {}
func (s *rackSheet) TypedKey(e *fyne.KeyEvent) {
	if e.Name == fyne.KeySpace || e.Name == fyne.KeyReturn {
		s.Tapped(nil)
		return
	}
	s.w.typedKey(e)
}
