package draft

import (
	"math"
	"time"

	"seamwright/assets/words"
	"seamwright/calc/job"
)

// The parts of the bar chart, in pixels.
const (
	seqNames  = 332.0 // the column of tasks
	seqHours  = 52.0  // its right part
	seqHead   = 44.0
	seqRow    = 26.0
	seqDay    = 68.0
	seqIdle   = 12.0 // a day on which nobody works
	seqRest   = 60.0 // a row of such days takes no more
	seqBar    = 14.0
	seqInset  = 16.0 // of a step's name within its group
	seqFoot   = 34.0 // legend
	seqNarrow = 3.0  // the least bar
)

// seqLayout is how times fall on the chart: each day is a column, broad where there is work, and the hours of a
// column are those between the earliest start and the latest finish of any day's work. Nights take no room.
type seqLayout struct {
	first       time.Time
	days        []float64 // left side of each day, and one past the last
	busy        []bool
	from, hours float64 // of a working day
	start, end  []time.Time
}

// taskTime is how the plan writes times: local, to the minute.
const taskTime = "2006-01-02T15:04"

func laySequence(rows []SequenceRow) *seqLayout {
	l := &seqLayout{from: 24}
	var last time.Time
	to := 0.0
	for i := range rows {
		t := &rows[i]
		// Times come from the plan itself; one that cannot be read leaves its row without a bar.
		a, errA := time.Parse(taskTime, t.Start)
		b, errB := time.Parse(taskTime, t.Finish)
		if errA != nil || errB != nil {
			a, b = time.Time{}, time.Time{}
		}
		l.start, l.end = append(l.start, a), append(l.end, b)
		if a.IsZero() {
			continue
		}
		if l.first.IsZero() || a.Before(l.first) {
			l.first = a
		}
		if b.After(last) {
			last = b
		}
		if t.Kind != "wait" {
			l.from, to = math.Min(l.from, hourOf(a)), math.Max(to, hourOf(b))
		}
	}
	if l.first.IsZero() {
		return l
	}
	if to <= l.from {
		l.from, to = 8, 16
	}
	l.hours = to - l.from
	l.first = midnight(l.first)
	n := int(midnight(last).Sub(l.first).Hours()/24+0.5) + 1
	l.busy = make([]bool, n)
	for i := range l.start {
		if rows[i].Kind != "wait" && !l.start[i].IsZero() {
			for d := l.dayOf(l.start[i]); d <= l.dayOf(l.end[i]); d++ {
				// A task that runs over a weekend does not make a working day of it.
				if w := l.first.AddDate(0, 0, d).Weekday(); d == l.dayOf(l.start[i]) || d == l.dayOf(l.end[i]) || w != time.Sunday && w != time.Saturday {
					l.busy[d] = true
				}
			}
		}
	}
	x := seqNames
	idle := 0 // days of a row of idle ones
	for i, busy := range l.busy {
		l.days = append(l.days, x)
		if busy {
			x += seqDay
			idle = 0
			continue
		}
		if idle == 0 {
			for idle = 1; i+idle < n && !l.busy[i+idle]; idle++ {
			}
		}
		x += math.Min(seqIdle, seqRest/float64(idle))
	}
	l.days = append(l.days, x)
	return l
}

func midnight(t time.Time) time.Time {
	return time.Date(t.Year(), t.Month(), t.Day(), 0, 0, 0, 0, time.UTC)
}

func hourOf(t time.Time) float64 { return float64(t.Hour()) + float64(t.Minute())/60 }

func (l *seqLayout) dayOf(t time.Time) int { return int(midnight(t).Sub(l.first).Hours()/24 + 0.5) }

// x is where a time falls.
func (l *seqLayout) x(t time.Time) float64 {
	d := l.dayOf(t)
	part := math.Max(0, math.Min(1, (hourOf(t)-l.from)/l.hours))
	return l.days[d] + part*(l.days[d+1]-l.days[d])
}

// SequenceSize is the size of the whole bar chart in logical pixels.
func SequenceSize(rows []SequenceRow) (w, h float64) {
	l := laySequence(rows)
	if len(l.days) == 0 {
		return seqNames, seqHead
	}
	return l.days[len(l.days)-1] + 12, seqHead + seqRow*float64(len(l.start)) + seqFoot
}

// SequenceHit finds the id of the row in which a pixel lies, "" outside.
func SequenceHit(rows []SequenceRow, scroll Pt, at Pt) string {
	y := at.Y + scroll.Y - seqHead
	if at.Y < seqHead || y < 0 || int(y/seqRow) >= len(rows) {
		return ""
	}
	return rows[int(y/seqRow)].ID
}

// DrawSequence draws the rows as bars on working days: work full, waits hatched, inspections as diamonds. Names and
// days stay in view while the rest scrolls. j tells ids of rooms and walls from other words; nil leaves them.
func DrawSequence(c Canvas, th *Theme, rows []SequenceRow, j *job.Job, scroll Pt, s SequenceState) {
	w, h := c.Size()
	c.Begin("sequence")
	defer c.End()
	c.Fill(Rect{0, 0, w, h}.Path(), th.Pane)
	l := laySequence(rows)
	if len(l.days) == 0 {
		c.Text(Pt{w / 2, h / 2}, voice(s.Say, j).Text("draft.nothing-to-do"), Type{Size: Body, Anchor: Middle, Color: th.Quiet})
		return
	}
	d := &seqSheet{c: c, th: th, rows: rows, j: j, l: l, s: s, say: voice(s.Say, j), scroll: scroll, w: w, h: h, selected: RowOf(rows, s.Selected)}
	d.columns()
	c.Clip(Rect{seqNames, seqHead, w - seqNames, h - seqHead - seqFoot})
	d.arrows()
	for i := range rows {
		d.bar(i)
	}
	c.Unclip()
	c.Clip(Rect{0, seqHead, seqNames, h - seqHead - seqFoot})
	for i := range rows {
		d.name(i)
	}
	c.Unclip()
	d.legend()
}

type seqSheet struct {
	c      Canvas
	th     *Theme
	rows   []SequenceRow
	j      *job.Job
	l      *seqLayout
	s      SequenceState
	say    *words.Voice
	scroll Pt
	w, h   float64

	selected int // row, -1: none
}

func (d *seqSheet) top(i int) float64 { return seqHead + seqRow*float64(i) - d.scroll.Y }

// columns draws the days, their dates, and the rows' hairlines.
func (d *seqSheet) columns() {
	hair := Pen{Width: 1, Color: d.th.Hairline}
	foot := math.Min(d.h-seqFoot, d.top(len(d.rows)))
	d.c.Clip(Rect{seqNames, 0, d.w - seqNames, d.h - seqFoot})
	for i, busy := range d.l.busy {
		x := d.l.days[i] - d.scroll.X
		wide := d.l.days[i+1] - d.l.days[i]
		if !busy {
			d.c.Fill(Rect{x, seqHead, wide, foot - seqHead}.Path(), d.th.Ground)
		}
		if wide >= seqNarrow || i == 0 || d.l.busy[i-1] { // weeks of rest need no line a day
			d.c.Stroke([]Pt{{x, seqHead - 6}, {x, foot}}, false, hair)
		}
		if busy {
			day := d.l.first.AddDate(0, 0, i)
			d.c.Text(Pt{x + 5, 18}, d.say.Weekday(day), Type{Size: Small, Color: d.th.Quiet})
			d.c.Text(Pt{x + 5, 33}, d.say.Day(day), Type{Size: Small, Color: d.th.Ink})
		}
	}
	d.c.Unclip()
	d.c.Clip(Rect{0, seqHead, d.w, d.h - seqHead - seqFoot})
	for i := range d.rows {
		if i == d.selected {
			d.c.Fill(Rect{0, d.top(i), d.w, seqRow}.Path(), fade(d.th.Accent, 0.12))
		} else if d.rows[i].ID == d.s.Hover {
			d.c.Fill(Rect{0, d.top(i), d.w, seqRow}.Path(), fade(d.th.Accent, 0.06))
		}
		y := d.top(i) + seqRow
		d.c.Stroke([]Pt{{0, y}, {d.w, y}}, false, Pen{Width: 1, Color: fade(d.th.Hairline, 0.5)})
	}
	d.c.Unclip()
	d.c.Stroke([]Pt{{0, seqHead}, {d.w, seqHead}}, false, hair)
}

func (d *seqSheet) name(i int) {
	t := &d.rows[i]
	y := d.top(i) + seqRow/2 + Body*capHeight/2
	n := Type{Size: Body, Color: d.th.Ink}
	if t.Done {
		n.Color = d.th.Quiet
	}
	if i == d.selected {
		n.Weight = Semibold
	}
	x := 12.0
	if t.Within {
		x += seqInset
	}
	d.c.Text(Pt{x, y}, Shorten(t.Name(d.j, d.say), n.Size, n.Weight, seqNames-seqHours-8-x), n)
	took := d.say.Text("draft.hours", "hours", math.Round(t.Hours*10)/10)
	if t.Kind == "inspect" {
		took = d.say.Text("draft.inspect")
	}
	if t.Done {
		took = d.say.Text("draft.done")
	}
	d.c.Text(Pt{seqNames - 10, y}, took, Type{Size: Small, Anchor: End, Color: d.th.Quiet})
}

// bar draws one row. What may slip without moving the end is drawn lighter; what is done is only an outline.
func (d *seqSheet) bar(i int) {
	t := &d.rows[i]
	if d.l.start[i].IsZero() {
		return
	}
	a, b := d.l.x(d.l.start[i])-d.scroll.X, d.l.x(d.l.end[i])-d.scroll.X
	mid := d.top(i) + seqRow/2
	if mid < -seqRow || mid > d.h+seqRow {
		return
	}
	r := Rect{a, mid - seqBar/2, math.Max(b-a, seqNarrow), seqBar}
	ink := d.th.Ink
	if i == d.selected {
		ink = d.th.Accent
	}
	switch {
	case t.Kind == "inspect":
		const half = 8.0
		diamond := []Pt{{a, mid - half}, {a + half, mid}, {a, mid + half}, {a - half, mid}}
		if t.Done {
			d.c.Fill(Path{diamond}, d.th.Pane)
		} else {
			d.c.Fill(Path{diamond}, ink)
		}
		d.c.Stroke(diamond, true, Pen{Width: 1.5, Color: ink})
	case t.Kind == "wait":
		d.c.Fill(r.Path(), d.th.Pane)
		d.c.Hatch(r.Path(), Hatch{Kind: Wait, Color: d.th.Quiet, From: Pt{r.X, r.Y}})
		d.c.Stroke(r.Path()[0], true, Pen{Width: 1, Color: d.th.Quiet})
	case t.Done:
		d.c.Fill(r.Path(), d.th.Pane)
		d.c.Stroke(r.Path()[0], true, Pen{Width: 1.5, Color: d.th.Quiet})
	case t.Slack > 0:
		d.c.Fill(r.Path(), d.th.Board.Fill)
		d.c.Stroke(r.Path()[0], true, Pen{Width: 1.5, Color: ink})
	default:
		d.c.Fill(r.Path(), ink)
	}
}

// arrows joins the picked row to those it waits for.
func (d *seqSheet) arrows() {
	at := map[string]int{}
	for i := range d.rows { // a step of an open group stands behind its group and takes its place
		for _, t := range d.rows[i].Steps {
			at[t.ID] = i
		}
	}
	for _, i := range [2]int{RowOf(d.rows, d.s.Hover), d.selected} {
		if i < 0 || d.l.start[i].IsZero() {
			continue
		}
		joined := map[int]bool{i: true}
		for _, t := range d.rows[i].Steps {
			for _, before := range t.After {
				k, ok := at[before]
				if !ok || joined[k] || d.l.end[k].IsZero() {
					continue
				}
				joined[k] = true
				a := Pt{d.l.x(d.l.end[k]) - d.scroll.X, d.top(k) + seqRow/2}
				b := Pt{d.l.x(d.l.start[i]) - d.scroll.X, d.top(i) + seqRow/2}
				x := math.Max(a.X+5, math.Min(b.X-5, a.X+5))
				d.c.Stroke([]Pt{a, {x, a.Y}, {x, b.Y}, b}, false, Pen{Width: 1.5, Color: d.th.Accent})
			}
		}
	}
}

func (d *seqSheet) legend() {
	y := d.h - 12
	d.c.Fill(Rect{0, d.h - seqFoot, d.w, seqFoot}.Path(), d.th.Pane)
	x := 12.0
	mark := func(text string, draw func(r Rect)) {
		draw(Rect{x, y - 10, 24, 10})
		d.c.Text(Pt{x + 30, y}, text, Type{Size: Small, Color: d.th.Quiet})
		x += 30 + Measure(text, Small, Regular) + 20
	}
	mark(d.say.Text("draft.work"), func(r Rect) { d.c.Fill(r.Path(), d.th.Ink) })
	mark(d.say.Text("draft.may-slip"), func(r Rect) {
		d.c.Fill(r.Path(), d.th.Board.Fill)
		d.c.Stroke(r.Path()[0], true, Pen{Width: 1.5, Color: d.th.Ink})
	})
	mark(d.say.Text("draft.waiting"), func(r Rect) {
		d.c.Hatch(r.Path(), Hatch{Kind: Wait, Color: d.th.Quiet, From: Pt{r.X, r.Y}})
		d.c.Stroke(r.Path()[0], true, Pen{Width: 1, Color: d.th.Quiet})
	})
	mark(d.say.Text("draft.inspection"), func(r Rect) {
		m := r.Mid()
		d.c.Fill(Path{{{m.X, m.Y - 6}, {m.X + 6, m.Y}, {m.X, m.Y + 6}, {m.X - 6, m.Y}}}, d.th.Ink)
	})
}
