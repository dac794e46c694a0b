package book

import (
	"image/color"

	"seamwright/scene/draft"
)

// column is one column of a table. Columns without a width of their own share what is left.
type column struct {
	head  string
	width float64
	share float64 // of what is left; with no width
	right bool    // figures stand under each other
	tick  bool    // boxes to tick off
	line  bool    // a line to write on where the cell is empty
}

// row is one row of a table.
type row struct {
	cells []string
	head  bool // heads the rows behind it: its first cell runs over the whole width
	bold  bool
	// unticked rows have no box to tick off and no line to write on.
	unticked bool
	keep     bool // on one page with the row behind it
}

// table is set with a head that is repeated on every page, hairlines between rows, and figures to the right.
type table struct {
	columns []column
	rows    []row
	x, w    float64 // 0: the page's whole width
}

func (t *table) add(cells ...string)   { t.rows = append(t.rows, row{cells: cells}) }
func (t *table) total(cells ...string) { t.rows = append(t.rows, row{cells: cells, bold: true}) }
func (t *table) group(name string)     { t.rows = append(t.rows, row{cells: []string{name}, head: true}) }

// The parts of a table's rows.
const (
	cellGap  = 10.0 // between columns
	rowPad   = 3.5  // above and below a row's text
	groupGap = 4.0  // above a group's name
)

// layout gives each column its place.
func (t *table) layout(room draft.Rect) (x, w []float64) {
	left, width := room.X, room.W
	if t.w > 0 {
		left, width = t.x, t.w
	}
	rest, shares := width-cellGap*float64(len(t.columns)-1), 0.0
	for _, c := range t.columns {
		rest -= c.width
		if c.width == 0 {
			shares += max(c.share, 1)
		}
	}
	for _, c := range t.columns {
		wide := c.width
		if wide == 0 {
			wide = rest * max(c.share, 1) / shares
		}
		x, w = append(x, left), append(w, wide)
		left += wide + cellGap
	}
	return x, w
}

// table sets a table.
func (f *flow) table(t *table) {
	x, w := t.layout(f.room)
	set := &setting{f: f, t: t, x: x, w: w, end: x[len(x)-1] + w[len(w)-1]}
	set.heads()
	for i := range t.rows {
		set.row(i)
	}
}

// setting is a table on its way onto pages.
type setting struct {
	f    *flow
	t    *table
	x, w []float64
	end  float64
}

func (s *setting) ink(weight draft.Weight, c color.NRGBA) draft.Type {
	return draft.Type{Size: draft.Small, Weight: weight, Color: c}
}

// lines wraps a row's cells; high is how many lines the tallest has.
func (s *setting) lines(r *row, weight draft.Weight) (lines [][]string, high int) {
	if r.head {
		name := wrap(r.cells[0], draft.Small, weight, s.end-s.x[0])
		return [][]string{name}, len(name)
	}
	high = 1
	for i, cell := range r.cells {
		lines = append(lines, wrap(cell, draft.Small, weight, s.w[i]))
		high = max(high, len(lines[i]))
	}
	return lines, high
}

// tall is a row's height, with what stands above a group's name.
func (s *setting) tall(i int) float64 {
	r := &s.t.rows[i]
	_, high := s.lines(r, r.weight())
	tall := float64(high)*lineHigh + 2*rowPad
	if r.head && i > 0 {
		tall += groupGap
	}
	return tall
}

// weight is how a row is set.
func (r *row) weight() draft.Weight {
	if r.bold || r.head {
		return draft.Semibold
	}
	return draft.Regular
}

// heads sets the head of the columns, with room for a row below it.
func (s *setting) heads() {
	f := s.f
	var names []string
	any := false
	for _, c := range s.t.columns {
		names = append(names, c.head)
		any = any || c.head != ""
	}
	if !any {
		s.rule(1, f.b.th.Ink)
		return
	}
	lines, high := s.lines(&row{cells: names}, draft.Regular)
	f.need(float64(high)*lineHigh + 2*rowPad + 2*lineHigh)
	s.set(lines, s.ink(draft.Regular, f.b.th.Quiet), false)
	f.y += float64(high)*lineHigh + 2
	s.rule(1, f.b.th.Ink)
}

// rule draws a line across the table.
func (s *setting) rule(width float64, c color.NRGBA) {
	from, to := draft.Pt{X: s.x[0], Y: s.f.y}, draft.Pt{X: s.end, Y: s.f.y}
	s.f.draw(func(on leaf) { on.Stroke([]draft.Pt{from, to}, false, draft.Pen{Width: width, Color: c}) })
}

// set draws the lines of cells at the height reached; a group's name begins at the left whatever stands below it.
func (s *setting) set(lines [][]string, t draft.Type, group bool) {
	for i, cell := range lines {
		for k, l := range cell {
			at, how := draft.Pt{X: s.x[i], Y: s.f.y + riseOf + float64(k)*lineHigh}, t
			if s.t.columns[i].right && !group {
				at.X, how.Anchor = s.x[i]+s.w[i], draft.End
			}
			s.f.draw(func(c leaf) { c.Text(at, l, how) })
		}
	}
}

// row sets one row, on the next page where there is no room for it and for what it is kept together with.
func (s *setting) row(i int) {
	f, r := s.f, &s.t.rows[i]
	keep := s.tall(i)
	for n := i; n+1 < len(s.t.rows) && (s.t.rows[n].head || s.t.rows[n].keep); n++ {
		keep += s.tall(n + 1)
	}
	if f.any && keep > f.left() {
		f.end()
		s.heads()
	}
	weight := r.weight()
	lines, high := s.lines(r, weight)
	tall := float64(high)*lineHigh + 2*rowPad
	if r.head && i > 0 {
		f.y += groupGap
	}
	top := f.y
	f.y += rowPad
	s.set(lines, s.ink(weight, f.b.th.Ink), r.head)
	s.ticks(r)
	f.y = top + tall
	if r.bold {
		s.rule(1, f.b.th.Ink)
		return
	}
	s.rule(0.5, f.b.th.Hairline)
}

// ticks draws the boxes of a row and the lines to write on.
func (s *setting) ticks(r *row) {
	if r.head || r.unticked {
		return
	}
	for i, c := range s.t.columns {
		x, y, wide := s.x[i], s.f.y, s.w[i]
		switch {
		case c.tick:
			s.f.draw(func(on leaf) { s.f.b.tick(on, draft.Pt{X: x + 1, Y: y + 1.5}) })
		case c.line && r.cells[i] == "":
			pen := draft.Pen{Width: 0.5, Color: s.f.b.th.Ink, Dash: []float64{1, 2}}
			s.f.draw(func(on leaf) { on.Stroke([]draft.Pt{{X: x, Y: y + 12}, {X: x + wide, Y: y + 12}}, false, pen) })
		}
	}
}
