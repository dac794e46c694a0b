package ui

import (
	"context"
	"math"
	"slices"

	"seamwright/calc/money"
	"seamwright/calc/plan"
	"seamwright/scene/draft"

	"fyne.io/fyne/v2"
)

// comparison shows the project as drawn and its alternatives side by side: figures above, the rooms below them, locked
// together so that all turn when one is turned.
type comparison struct {
	w      *Window
	eye    eye             // all rooms are seen by one
	names  []string        // of all alternatives, "" as drawn
	chosen []string        // of those whose rooms are shown, the one chosen last at the end
	chips  []*button       // one for each name, where not all have room
	rooms  []*comparedRoom // in the order of the names
	under  *comparedRoom   // the room under the hand
	area   *fyne.Container
	table  *table
	walls  *table
	ctx    context.Context

	byWall bool // the walls stand there instead of the rooms
}

// comparedRooms is how many rooms fit side by side.
const comparedRooms = 3

// compare puts the alternatives side by side.
func (w *Window) compare() {
	c := &comparison{w: w, names: []string{""}}
	c.eye = eye{w: w, cam: w.studio.room.cam, side: w.studio.room.side, seen: c.seen, pick: c.pick}
	ctx, stop := context.WithCancel(context.Background())
	c.ctx = ctx
	for _, a := range w.model.Doc.Job().Alternatives {
		c.names = append(c.names, a.Name)
	}
	columns := []tableColumn{{title: ""}, {"money", 104, true}, {"sheets", 70, true}, {"at least", 70, true}, {"waste", 70, true}, {"butt joints", 90, true},
		{"own hours", 84, true}, {"days", 56, true}, {"weight", 96, true}, {"rests kept", 76, true}}
	c.table = newTable(w, "", columns...)
	c.walls = newTable(w, "", columns...)
	c.walls.Hide()
	c.area = laidOut(arrange{fyne.NewSize(600, 300), c.place}, c.table, c.walls)
	closer := newButton(w.pal, pill, "Close", w.stepBack)
	byWall := newButton(w.pal, pill, "Wall by wall", nil)
	byWall.tapped = func() {
		c.byWall = !c.byWall
		byWall.set("Wall by wall", c.byWall)
		c.show()
		c.fill()
	}
	heading := w.pal.heading("Alternatives side by side")
	objects := []fyne.CanvasObject{heading, byWall, closer, c.area}
	if len(c.names) > comparedRooms {
		for _, name := range c.names {
			b := newButton(w.pal, pill, alternativeName(name), func() { c.choose(name) })
			b.small = true
			c.chips = append(c.chips, b)
			objects = append(objects, b)
		}
	}
	all := laidOut(arrange{fyne.NewSize(600, 340), func(size fyne.Size) {
		put(heading, 4, 4, size.Width, heading.MinSize().Height)
		m := closer.MinSize()
		put(closer, size.Width-m.Width, 2, m.Width, m.Height)
		k := byWall.MinSize()
		put(byWall, size.Width-m.Width-k.Width-grid, 2, k.Width, k.Height)
		x, y, right := float32(4), 2+m.Height+grid/2, size.Width
		for _, b := range c.chips {
			m := b.MinSize()
			if x > 4 && x+m.Width > right {
				x, y = 4, y+m.Height+grid/2
			}
			put(b, x, y, m.Width, m.Height)
			x += m.Width + 6
		}
		top := float32(40)
		if len(c.chips) > 0 {
			top = y + target + grid
		}
		put(c.area, 0, top, size.Width, size.Height-top)
	}}, objects...)
	w.cover(all, func() {
		stop()
		c.close()
	})
	w.compared = c
	for _, name := range c.names[:min(len(c.names), comparedRooms)] {
		c.add(name)
	}
	c.show()
	c.fill()
}

// place sets the figures above and the rooms beside each other below.
func (c *comparison) place(size fyne.Size) {
	high := (tableLine+grid/2)*float32(len(c.names)) + tableLine + grid/2 // a list leaves half a square between its rows
	put(c.table, 0, 0, size.Width, high)
	put(c.walls, 0, high, size.Width, size.Height-high)
	wide := (size.Width - grid*float32(len(c.rooms)-1)) / float32(max(1, len(c.rooms)))
	for i, r := range c.rooms {
		put(r.box, float32(i)*(wide+grid), high, wide, size.Height-high)
	}
}

// room is an alternative's room, nil where it is not shown.
func (c *comparison) room(name string) *comparedRoom {
	for _, r := range c.rooms {
		if r.name == name {
			return r
		}
	}
	return nil
}

// choose shows an alternative's room, in the place of the one that was chosen longest ago where there is no more room
// for it; chosen again it goes, unless it is the last.
func (c *comparison) choose(name string) {
	switch {
	case c.room(name) == nil:
		if len(c.chosen) == comparedRooms {
			c.remove(c.chosen[0])
		}
		c.add(name)
	case len(c.chosen) > 1:
		c.remove(name)
	}
	c.show()
	c.fill()
	c.eye.redraw()
}

func (c *comparison) add(name string) {
	r := newComparedRoom(c, name)
	c.chosen = append(c.chosen, name)
	c.rooms = append(c.rooms, r)
	c.area.Objects = append(c.area.Objects, r.box)
	r.calculate(c.ctx)
}

func (c *comparison) remove(name string) {
	r := c.room(name)
	c.chosen = slices.DeleteFunc(c.chosen, func(n string) bool { return n == name })
	c.rooms = slices.DeleteFunc(c.rooms, func(o *comparedRoom) bool { return o == r })
	c.area.Remove(r.box)
	c.under = nil
	r.pic.leave(r.close)
}

// show brings rooms, or walls instead of them, and chips up to date.
func (c *comparison) show() {
	slices.SortStableFunc(c.rooms, func(a, b *comparedRoom) int {
		return slices.Index(c.names, a.name) - slices.Index(c.names, b.name)
	})
	c.eye.sees = nil
	for _, r := range c.rooms {
		c.eye.sees = append(c.eye.sees, r.pic)
		shownIf(r.box, !c.byWall)
	}
	shownIf(c.walls, c.byWall)
	for i, b := range c.chips {
		b.set(alternativeName(c.names[i]), c.room(c.names[i]) != nil)
	}
	c.place(c.area.Size())
	c.area.Refresh()
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
	for _, name := range c.names {
		var p *plan.Plan
		working := "working"
		if r := c.room(name); r != nil {
			if p = r.plan; r.fault != nil {
				working = "no answer"
			}
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
			add(name, a.Cost, a.Sheets, a.Bound, a.Waste, c.w.run(a.ButtJoint+a.MixedJoint), quantity(math.Round(a.Hours)), a.Days, weight, kept)
		default:
			rows = append(rows, tableRow{cells: []cell{{text: alternativeName(name)}, {text: working}}})
		}
	}
	c.table.set(rows)
	for _, r := range c.rooms {
		r.write()
	}
	if c.byWall {
		c.walls.set(c.fillWalls(short))
	}
}

// fillWalls sets the figures of every wall under each other, one row for each alternative; the least money is bold.
func (c *comparison) fillWalls(short map[string]plan.Alternative) []tableRow {
	w, names := c.w, c.names
	currency := w.model.Doc.Job().Currency
	of := make([]map[string]plan.SurfaceCost, len(names))
	var walls []string
	for i, name := range names {
		list := short[name].BySurface
		if r := c.room(name); r != nil && r.plan != nil {
			list = r.plan.Cost.BySurface
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
		rows = append(rows, tableRow{heading: draft.SurfaceName(wall)})
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
		return quantity(math.Round(kg/kilogramsPerPound)) + " lb"
	}
	return quantity(math.Round(kg)) + " kg"
}
