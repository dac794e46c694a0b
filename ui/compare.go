package ui

import (
	"context"
	"math"

	"seamwright/calc/money"
	"seamwright/calc/plan"

	"fyne.io/fyne/v2"
)

// comparison shows the project as drawn and its alternatives side by side: figures above, the rooms below them, locked
// together so that all turn when one is turned.
type comparison struct {
	w     *Window
	eye   eye // all rooms are seen by one
	rooms []*comparedRoom
	under *comparedRoom // the room under the hand
	table *table
	walls *table
	stop  context.CancelFunc

	byWall bool // the walls stand there instead of the rooms
}

// comparedRooms is how many rooms fit side by side.
const comparedRooms = 3

// compare puts the alternatives side by side.
func (w *Window) compare() {
	c := &comparison{w: w}
	c.eye = eye{w: w, cam: w.studio.room.cam, side: w.studio.room.side, seen: c.seen, pick: c.pick}
	ctx, stop := context.WithCancel(context.Background())
	c.stop = func() {
		stop()
		c.close()
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
		r := newComparedRoom(c, name)
		objects = append(objects, r.box)
		r.calculate(ctx)
	}
	size := w.win.Canvas().Size().SubtractWidthHeight(80, 90)
	box := laidOut(arrange{size, func(size fyne.Size) {
		high := tableLine*float32(len(names)+1) + 8
		put(c.table, 0, 0, size.Width, high)
		wide := (size.Width - grid*float32(len(c.rooms)-1)) / float32(len(c.rooms))
		for i := range c.rooms {
			put(objects[1+i], float32(i)*(wide+grid), high, wide, size.Height-high)
		}
		put(c.walls, 0, high, size.Width, size.Height-high)
	}}, append(objects, c.walls)...)
	closer := newButton(w.pal, pill, "Close", w.stepBack)
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
	w.compared = c
	w.win.Content().Hide() // it would be drawn under every frame
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
		rows = append(rows, tableRow{tapped: func() { c.w.stepBack(); c.w.activate(name) },
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
	for _, r := range c.rooms {
		r.write()
	}
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
			rows = append(rows, tableRow{tapped: func() { w.stepBack(); w.activate(name); w.pickSurface(wall) },
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
