package tables

import (
	"seamwright/calc/plan"
)

// Words for what a row of the cut list is, and from where cuts are measured.
var (
	cutKinds = map[string]string{"cross": "tables.cut-cross", "rip": "tables.cut-rip"}
	edges    = map[plan.Side]string{plan.Left: "tables.from-left", plan.Right: "tables.from-right", plan.Bottom: "tables.from-bottom", plan.Top: "tables.from-top"}
	uses     = map[plan.Use]string{plan.Keep: "tables.keep", plan.Waste: "tables.waste"}
	sources  = map[plan.Source]string{plan.Buy: "tables.to-buy", plan.Stock: "tables.in-stock"}
)

// cutList is every sheet: its cuts in order, the pieces that they give, and what is left of it.
func cutList(m *maker) {
	m.column("tables.sheet", Text, 8)
	m.column("tables.product", Text, 11)
	m.size("tables.length")
	m.size("tables.width")
	m.column("tables.comes-from", Text, 10)
	m.column("tables.row", Text, 17)
	m.column("tables.order", Count, 6)
	m.column("tables.piece", Text, 9)
	m.size("tables.measure")
	m.size("tables.second-measure")
	m.column("tables.measured-from", Text, 22)
	m.column("tables.set-up", Count, 8)
	m.column("tables.goes-to", Text, 18)
	m.column("tables.note", Long, 40)
	for i := range m.r.Plan.Sheets {
		s := &m.r.Plan.Sheets[i]
		row := func(cells ...any) {
			m.add(append([]any{s.ID, s.Product, s.Size[0], s.Size[1], m.say.Text(sources[s.Source])}, cells...)...)
		}
		for k := range s.Cuts {
			c := &s.Cuts[k]
			row(m.word(cutKinds, c.Kind), c.Order, nil, c.Measure, nil, m.say.Text(edges[c.Edge]), c.Setup, nil, m.alike(s, k == 0))
		}
		for k := range s.Parts {
			if q := &s.Parts[k]; q.Pair != nil {
				from := "tables.slant-flat"
				if q.Pair.Steep(q.Rect) {
					from = "tables.slant-steep"
				}
				row(m.say.Text("tables.cut-slant"), q.Pair.Order, nil, q.Pair.Measures[0], q.Pair.Measures[1], m.say.Text(from), nil, nil, nil)
			}
		}
		for k := range s.Parts {
			q := &s.Parts[k]
			row(m.say.Text("tables.piece-row"), nil, q.Panel, q.Rect.W, q.Rect.H, nil, nil, q.Surface, m.pieceNote(q))
			if p := q.Pair; p != nil {
				row(m.say.Text("tables.piece-row"), nil, p.Panel, q.Rect.W, q.Rect.H, nil, nil, p.Surface, m.say.Text("tables.shares", "piece", q.Panel))
			}
		}
		for _, r := range s.Rests {
			row(m.say.Text(uses[r.Use]), nil, nil, r.Rect.W, r.Rect.H, nil, nil, nil, nil)
		}
	}
}

// alike says at the first cut of a sheet which one before it is cut at the same settings.
func (m *maker) alike(s *plan.Sheet, first bool) any {
	if !first || s.Like == s.ID || s.Like == "" {
		return nil
	}
	return m.say.Text("tables.alike", "sheet", s.Like)
}

// pieceNote says what else there is to know of a piece.
func (m *maker) pieceNote(q *plan.Part) any {
	note := ""
	say := func(text string) {
		if note != "" {
			note += "; "
		}
		note += text
	}
	if q.Later {
		say(m.say.Text("tables.later"))
	}
	if q.Turned {
		say(m.say.Text("tables.upright"))
	}
	if q.Ease > 0 {
		say(m.say.Text("tables.ease", "length", q.Ease))
	}
	if q.Pair != nil {
		say(m.say.Text("tables.shares", "piece", q.Pair.Panel))
	}
	if note == "" {
		return nil
	}
	return note
}
