package book

import (
	"cmp"
	"math"
	"slices"

	"seamwright/calc/plan"
	"seamwright/scene/draft"
)

// elevations draws every wall and ceiling on a page of its own, layer by layer, room by room in the order of hanging.
func (b *book) elevations() {
	order := make([]*plan.Surface, len(b.plan.Surfaces))
	rooms := map[string]int{}
	for i := range b.plan.Surfaces {
		s := &b.plan.Surfaces[i]
		order[i] = s
		if _, known := rooms[s.Room]; !known {
			rooms[s.Room] = i
		}
	}
	slices.SortStableFunc(order, func(s, t *plan.Surface) int {
		return cmp.Or(cmp.Compare(rooms[s.Room], rooms[t.Room]), cmp.Compare(s.HangOrder, t.HangOrder))
	})
	hung := b.hangOrder()
	b.sizes = draft.CutSizes(b.plan, b.say)
	for _, s := range order {
		layers := 1
		for i := range s.Zones {
			layers = max(layers, s.Zones[i].Layer)
		}
		for layer := 1; layer <= layers; layer++ {
			b.elevation(s, layer, layers, hung[s.ID])
		}
	}
}

// hangOrder lists the pieces of every surface as they are hung.
func (b *book) hangOrder() map[string][]string {
	hung := map[string][]string{}
	for i := range b.plan.Schedule {
		if t := &b.plan.Schedule[i]; t.Step == plan.HangStep {
			hung[t.Surface] = append(hung[t.Surface], t.Pieces...)
		}
	}
	return hung
}

// elevationPage is the page of one layer of a surface as it is laid out: the drawing, and its notes in columns below.
type elevationPage struct {
	b     *book
	s     *plan.Surface
	state draft.ElevationState
	wide  bool
	scale draft.Scale
	view  draft.View
	area  draft.Rect // of the drawing
	notes []noteLine
	rest  []noteLine // what has no room below the drawing
}

// The foot of an elevation's page: its scale, and its notes, which take no more than a part of it.
const (
	noteColumns = 2
	noteGap     = 22.0
	notesMost   = 0.42
	barHigh     = 26.0
	settling    = 3 // rounds in which the notes and the scale settle
)

// elevation lays one layer of a surface to the largest scale that a page of either way takes. Which pieces have no room for
// their measures depends on the scale, and the note of them takes room in turn.
func (b *book) elevation(s *plan.Surface, layer, layers int, hung []string) {
	state := draft.ElevationState{Layer: layer, Say: b.say, Sizes: b.sizes}
	var page *elevationPage
	var unsized []string
	for range settling {
		notes := b.elevationNotes(s, layer, hung, unsized)
		page = b.layElevation(s, state, notes, true)
		if upright := b.layElevation(s, state, notes, false); upright.scale < page.scale {
			page = upright
		}
		now := draft.Unsized(b.plan, b.job, s.ID, page.view, state)
		if slices.Equal(now, unsized) {
			break
		}
		unsized = now
	}
	title := b.name(s.ID)
	if w := b.wall(s.ID); w != nil && len(w.Duty) > 0 {
		title += " · " + draft.DutyWords(w.Duty, b.say)
	}
	if layers > 1 {
		title += " · " + b.say.Text("draft.layer-of", "layer", layer, "of", layers)
	}
	b.add(sheet{wide: page.wide, title: title, entry: title, draw: page.draw})
	if len(page.rest) > 0 {
		f := b.flow(title, page.wide)
		for _, n := range page.rest {
			f.need(lineHigh)
			y := f.y
			f.draw(func(c leaf) { b.note(c, draft.Pt{X: f.room.X, Y: y + riseOf}, n) })
			f.y += lineHigh
		}
		f.end()
	}
}

// layElevation lays a surface on a page of one way.
func (b *book) layElevation(s *plan.Surface, state draft.ElevationState, notes []note, wide bool) *elevationPage {
	r := b.room(wide)
	lines := noteLines(notes, (r.W-noteGap*(noteColumns-1))/noteColumns)
	high := lineHigh * float64((len(lines)+noteColumns-1)/noteColumns)
	p := &elevationPage{b: b, s: s, state: state, wide: wide, notes: lines}
	free := draft.Rect{W: r.W, H: r.H - barHigh - min(high, math.Floor(r.H*notesMost/lineHigh)*lineHigh)}
	p.scale = draft.ScaleFor(b.job, draft.FitElevation(b.plan, s.ID, free).Scale, pointsPerInch)
	if most := r.H - barHigh - draft.ElevationHeight(s, p.scale, pointsPerInch); high > most { // what the drawing leaves
		rows := int(most / lineHigh)
		high = lineHigh * float64(rows)
		p.notes, p.rest = lines[:rows*noteColumns], lines[rows*noteColumns:]
	}
	p.area = draft.Rect{X: r.X, Y: r.Y, W: r.W, H: r.H - barHigh - high}
	whole := draft.Rect{W: p.area.W, H: p.area.H}
	p.view = draft.ElevationToScale(b.plan, s.ID, p.scale, pointsPerInch, whole)
	return p
}

// draw draws the page.
func (p *elevationPage) draw(c leaf) {
	b := p.b
	draft.DrawElevation(c.within(p.area), b.th, b.plan, b.job, p.s.ID, p.view, p.state)
	y := p.area.Y + p.area.H
	b.scaleBar(c, draft.Pt{X: p.area.X, Y: y + barHigh - 12}, p.scale)
	rows := (len(p.notes) + noteColumns - 1) / noteColumns
	wide := (p.area.W + noteGap) / noteColumns
	for i, n := range p.notes {
		at := draft.Pt{X: p.area.X + wide*float64(i/rows), Y: y + barHigh + riseOf + lineHigh*float64(i%rows)}
		b.note(c, at, n)
	}
}
