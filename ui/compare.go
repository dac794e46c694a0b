package ui

import (
	"context"
	"image"
	"math"

	"seamwright/calc/job"
	"seamwright/calc/money"
	"seamwright/calc/plan"
	"seamwright/scene"
	"seamwright/scene/draft"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// comparison shows the project as drawn and its alternatives side by side: figures above, the rooms below them, locked
// together so that all turn when one is turned.
type comparison struct {
	w     *Window
	cam   scene.Camera
	set   bool
	rooms []*comparedRoom
	table *table
	walls *table
	stop  context.CancelFunc

	byWall bool // the walls stand there instead of the rooms
}

// comparedRooms is how many rooms fit side by side.
const comparedRooms = 3

// comparedRoom is one alternative's room.
type comparedRoom struct {
	c       *comparison
	name    string // "" as drawn
	pic     *picture
	job     *job.Job
	plan    *plan.Plan
	scene   *scene.Scene
	render  *scene.Renderer
	panning bool
}

// compare puts the alternatives side by side.
func (w *Window) compare() {
	c := &comparison{w: w, cam: w.studio.room.cam}
	ctx, stop := context.WithCancel(context.Background())
	c.stop = func() {
		stop()
		w.tidyLater()
	}
	names := []string{""}
	for _, a := range w.model.Doc.Job().Alternatives {
		names = append(names, a.Name)
	}
	columns := []tableColumn{{title: ""}, {"money", 104, true}, {"sheets", 70, true}, {"at least", 70, true}, {"waste", 70, true}, {"butt joints", 90, true},
		{"own hours", 84, true}, {"days", 56, true}, {"weight", 96, true}, {"kept", 56, true}}
	c.table = newTable(w, "", columns...)
	c.walls = newTable(w, "", columns...)
	c.walls.Hide()
	objects := []fyne.CanvasObject{c.table}
	for i, name := range names {
		if i == comparedRooms {
			break
		}
		r := &comparedRoom{c: c, name: name, job: w.model.Doc.JobFor(name), render: scene.NewRenderer(0)}
		r.pic = newPicture(w, r, r.draw)
		r.pic.always = true
		c.rooms = append(c.rooms, r)
		objects = append(objects, r.pic)
		caption := w.pal.caption(alternativeName(name))
		objects = append(objects, caption)
		r.calculate(ctx)
	}
	size := w.win.Canvas().Size().SubtractWidthHeight(80, 90)
	box := laidOut(arrange{size, func(size fyne.Size) {
		high := tableLine*float32(len(names)+1) + 8
		put(c.table, 0, 0, size.Width, high)
		wide := (size.Width - grid*float32(len(c.rooms)-1)) / float32(len(c.rooms))
		for i := range c.rooms {
			x := float32(i) * (wide + grid)
			put(objects[1+2*i], x, high+24, wide, size.Height-high-24)
			put(objects[2+2*i], x, high+4, wide, 16)
		}
		put(c.walls, 0, high, size.Width, size.Height-high)
	}}, append(objects, c.walls)...)
	closer := newButton(w.pal, pill, "Close", func() { c.stop(); w.lift() })
	byWall := newButton(w.pal, pill, "Wall by wall", nil)
	byWall.tapped = func() {
		c.byWall = !c.byWall
		byWall.set("Wall by wall", c.byWall)
		for i, o := range objects {
			if i > 0 {
				shownIf(o, !c.byWall)
			}
		}
		shownIf(c.walls, c.byWall)
		c.fill()
	}
	heading := w.pal.heading("Alternatives side by side")
	all := laidOut(arrange{size.AddWidthHeight(0, 40), func(size fyne.Size) {
		put(heading, 4, 4, size.Width, heading.MinSize().Height)
		m := closer.MinSize()
		put(closer, size.Width-m.Width, 2, m.Width, m.Height)
		k := byWall.MinSize()
		put(byWall, size.Width-m.Width-k.Width-grid, 2, k.Width, k.Height)
		put(box, 0, 40, size.Width, size.Height-40)
	}}, heading, byWall, closer, box)
	w.lay(all, c.stop)
	c.fill()
}

func alternativeName(name string) string {
	if name == "" {
		return "As drawn"
	}
	return capital(name)
}

// fill sets the figures: of the whole answers where they are there, else of the short ones in the plan.
func (c *comparison) fill() {
	currency := c.w.model.Doc.Job().Currency
	var rows []tableRow
	add := func(name string, cost money.Money, sheets, bound int, waste float64, butt, hours string, days int, weight, kept string) {
		rows = append(rows, tableRow{tapped: func() { c.stop(); c.w.lift(); c.w.activate(name) },
			cells: []cell{{text: alternativeName(name), bold: name == c.w.model.Doc.Active()}, {text: amount(cost, currency)}, {text: thousands(int64(sheets))},
				{text: thousands(int64(bound)), ink: c.w.pal.Quiet}, {text: percent(waste)}, {text: butt}, {text: hours}, {text: thousands(int64(days))}, {text: weight}, {text: kept}}})
	}
	short := map[string]plan.Alternative{}
	if p := c.w.model.Plan; p != nil {
		for _, a := range p.Alternatives {
			short[a.Name] = a
		}
	}
	names := []string{""}
	for _, a := range c.w.model.Doc.Job().Alternatives {
		names = append(names, a.Name)
	}
	for i, name := range names {
		var p *plan.Plan
		if i < len(c.rooms) {
			p = c.rooms[i].plan
		}
		a, have := short[name]
		weight, kept := "", ""
		if have {
			weight, kept = c.w.weight(a.Weight), thousands(int64(a.Kept))
		}
		switch {
		case p != nil:
			s := p.Summary
			weight = c.w.weight(s.Weight)
			n := 0
			for _, x := range p.Cost.BySurface {
				n += x.Kept
			}
			kept = thousands(int64(n))
			add(name, p.Cost.Total, s.SheetsBought, s.SheetsBound, s.Waste, c.w.run(s.ButtJoint+s.MixedJoint), quantity(math.Round(s.Hours)), s.Days, weight, kept)
		case have:
			add(name, a.Cost, a.Sheets, a.Bound, a.Waste, c.w.run(a.ButtJoint), quantity(math.Round(a.Hours)), a.Days, weight, kept)
		default:
			rows = append(rows, tableRow{cells: []cell{{text: alternativeName(name)}, {text: "working"}}})
		}
	}
	c.table.set(rows)
	if c.byWall {
		c.walls.set(c.fillWalls(names, short))
	}
}

// fillWalls sets the figures of every wall under each other, one row for each alternative; the least money is bold.
func (c *comparison) fillWalls(names []string, short map[string]plan.Alternative) []tableRow {
	w := c.w
	currency := w.model.Doc.Job().Currency
	of := make([]map[string]plan.SurfaceCost, len(names))
	var walls []string
	for i, name := range names {
		list := short[name].BySurface
		if i < len(c.rooms) && c.rooms[i].plan != nil {
			list = c.rooms[i].plan.Cost.BySurface
		}
		of[i] = map[string]plan.SurfaceCost{}
		for _, x := range list {
			of[i][x.Surface] = x
			if !in(x.Surface, walls) {
				walls = append(walls, x.Surface)
			}
		}
	}
	var rows []tableRow
	for _, wall := range walls {
		rows = append(rows, tableRow{heading: capital(wall)})
		least := money.Money(0)
		for i := range names {
			if x, ok := of[i][wall]; ok && (least == 0 || x.Cost < least) {
				least = x.Cost
			}
		}
		for i, name := range names {
			x, ok := of[i][wall]
			if !ok {
				continue
			}
			words := alternativeName(name) + ": " + w.ledger.lining(w.model.Doc.JobFor(name), wall)
			rows = append(rows, tableRow{tapped: func() { c.stop(); w.lift(); w.activate(name); w.pickSurface(wall) },
				cells: []cell{{text: words}, {text: amount(x.Cost, currency), bold: x.Cost == least}, {text: thousands(int64(x.Sheets))}, {}, {}, {},
					{text: oneDecimal(x.Hours)}, {text: oneDecimal(x.Days)}, {text: w.weight(x.Weight)}, {text: thousands(int64(x.Kept))}}})
		}
	}
	return rows
}

// shownIf shows or hides an object.
func shownIf(o fyne.CanvasObject, yes bool) {
	if yes {
		o.Show()
	} else {
		o.Hide()
	}
}

// weight writes a weight in pounds or kilograms.
func (w *Window) weight(kg float64) string {
	if w.imperial() {
		return quantity(math.Round(kg*2.20462)) + " lb"
	}
	return quantity(math.Round(kg)) + " kg"
}

// calculate works the alternative out elsewhere; the one that is shown is there already.
func (r *comparedRoom) calculate(ctx context.Context) {
	w := r.c.w
	if m := w.model; r.name == m.Doc.Active() && !m.Stale && m.Plan != nil {
		r.plan = m.Plan
		return
	}
	j := alone(r.job)
	go func() {
		p, err := w.options.Calculate(ctx, j)
		if err != nil {
			return
		}
		w.post(func() {
			r.plan = p
			r.c.fill()
			r.pic.redraw()
		})
	}()
}

func (r *comparedRoom) draw(width, height float64) func(*image.RGBA, float64) {
	if r.plan == nil {
		g := r.c.w.pal.Ground
		return func(img *image.RGBA, _ float64) { flood(img, g) }
	}
	if r.scene == nil {
		r.scene = scene.Build(r.plan, r.job, scene.Options{})
	}
	if !r.c.set {
		r.c.cam, r.c.set = r.scene.FrameAll(r.c.cam, int(width), int(height)), true
	}
	style := r.c.w.studio.room.style
	sc, cam, render := r.scene, r.c.cam, r.render
	return func(img *image.RGBA, scale float64) {
		style.Scale, style.Sharp = scale, false
		render.Render(img, sc, cam, style)
	}
}

func (c *comparison) redraw() {
	for _, r := range c.rooms {
		r.pic.redraw()
	}
}

func (r *comparedRoom) down(_ draft.Pt, b desktop.MouseButton, _ fyne.KeyModifier) {
	r.panning = b == desktop.MouseButtonTertiary
}

func (r *comparedRoom) drag(_ draft.Pt, by draft.Pt) {
	_, height := r.pic.size()
	if r.panning {
		r.c.cam = r.c.cam.Pan(by.X, by.Y, int(height))
	} else {
		r.c.cam = r.c.cam.Orbit(r.c.cam.Target(), -by.X*turnPerPixel, by.Y*turnPerPixel)
	}
	r.c.redraw()
}

func (r *comparedRoom) scroll(_ draft.Pt, dy float64) {
	r.c.cam = r.c.cam.ZoomTo(r.c.cam.Target(), zoomFactor(dy))
	r.c.redraw()
}

func (r *comparedRoom) hover(draft.Pt)                                        {}
func (r *comparedRoom) leave()                                                {}
func (r *comparedRoom) release(bool)                                          {}
func (r *comparedRoom) click(draft.Pt, desktop.MouseButton, fyne.KeyModifier) {}
func (r *comparedRoom) double(draft.Pt)                                       {}
func (r *comparedRoom) key(*fyne.KeyEvent) bool                               { return false }
func (r *comparedRoom) typed(rune) bool                                       { return false }
func (r *comparedRoom) cursor() desktop.Cursor                                { return desktop.DefaultCursor }
