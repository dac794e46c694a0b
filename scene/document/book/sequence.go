package book

import (
	"slices"
	"strconv"
	"time"

	"seamwright/calc/plan"
	"seamwright/scene/draft"
)

// sequence shows the work by date: as bars, and as a list to tick off.
func (b *book) sequence() {
	groups := plan.Groups(b.plan.Schedule)
	if len(groups) == 0 {
		return
	}
	b.chart(groups)
	f := b.flow(b.say.Text("book.sequence-list"), false)
	f.entry = f.title
	f.para(b.say.Text("book.sequence-lead"))
	f.gap(blockGap)
	t := &table{columns: []column{{tick: true, width: 12}, {head: b.say.Text("book.task"), share: 1}, {head: b.say.Text("book.hours"), width: 46, right: true},
		{head: b.say.Text("book.done-on"), width: 70, line: true}}}
	for i := range groups {
		g := &groups[i]
		t.group(b.groupHead(g))
		for _, k := range g.Tasks {
			r := row{cells: []string{"", b.plainly(b.taskName(k)), b.say.Decimal(k.Hours, 1), ""}, unticked: k.Kind == "wait"}
			if k.Done {
				r.cells[3] = k.DoneOn
			}
			t.rows = append(t.rows, r)
		}
	}
	f.table(t)
	f.end()
}

// groupName names a group of tasks: a wait or a visit by itself.
func (b *book) groupName(g *plan.Group) string {
	if g.Kind != "work" {
		return b.plainly(b.taskName(g.Tasks[0]))
	}
	return b.say.Text("book.room-trade", "room", b.name(g.Room), "trade", plan.Tell("trade."+string(g.Trade)))
}

// groupHead is a group's row in the list: when, what, how long.
func (b *book) groupHead(g *plan.Group) string {
	from, ok := stamp(g.Start)
	to, _ := stamp(g.Finish)
	if !ok {
		return b.groupName(g)
	}
	when := b.say.Text("book.when", "weekday", b.say.Weekday(from), "day", b.say.Day(from), "from", b.say.Clock(from), "to", b.until(from, to))
	switch g.Kind {
	case "inspect":
		return when + "  ·  " + b.say.Text("book.gate")
	case "wait":
		return when + "  ·  " + b.say.Text("book.drying")
	}
	return when + "  ·  " + b.groupName(g)
}

// until is a time as it is said after another: the day only where it is another one.
func (b *book) until(from, to time.Time) string {
	if from.YearDay() == to.YearDay() && from.Year() == to.Year() {
		return b.say.Clock(to)
	}
	return b.say.Weekday(to) + " " + b.say.Day(to) + " " + b.say.Clock(to)
}

// The chart's parts, in points.
const (
	chartNames = 238.0
	chartHead  = 36.0
	chartRow   = 19.0 // the highest row
	rowLeast   = 15.0 // the lowest that letters stand in
	chartBar   = 11.0
	chartFoot  = 26.0
	dayWide    = 60.0 // the widest day
	dayLeast   = 15.0 // the narrowest that still shows its date
	idlePart   = 0.35 // how wide a day without work is
)

// calendar is how times fall on a chart: each day a column, the hours of work spread over it, nights left out.
type calendar struct {
	first    time.Time
	busy     []bool
	from, to float64 // hours of the day that work begins and ends at
}

// midnight is the beginning of a day.
func midnight(t time.Time) time.Time {
	return time.Date(t.Year(), t.Month(), t.Day(), 0, 0, 0, 0, time.UTC)
}

func hourOf(t time.Time) float64 { return float64(t.Hour()) + float64(t.Minute())/60 }

// day is which day of the calendar a time lies on.
func (k *calendar) day(t time.Time) int { return int(midnight(t).Sub(k.first).Hours() / 24) }

// at is where a time falls, in days.
func (k *calendar) at(t time.Time) float64 {
	part := (hourOf(t) - k.from) / (k.to - k.from)
	return float64(k.day(t)) + max(0, min(1, part))
}

// calendarOf finds the days and hours of all groups; not ok where no date is promised.
func calendarOf(groups []plan.Group) (k calendar, ok bool) {
	k.from, k.to = 24, 0
	var last time.Time
	for i := range groups {
		from, ok1 := stamp(groups[i].Start)
		to, ok2 := stamp(groups[i].Finish)
		if !ok1 || !ok2 {
			continue
		}
		if k.first.IsZero() || from.Before(k.first) {
			k.first = midnight(from)
		}
		if to.After(last) {
			last = to
		}
		if groups[i].Kind == "work" {
			k.from = min(k.from, hourOf(from))
			if midnight(from).Equal(midnight(to)) {
				k.to = max(k.to, hourOf(to))
			}
		}
	}
	if k.first.IsZero() {
		return k, false
	}
	if k.to <= k.from {
		k.from, k.to = 8, 16
	}
	k.busy = make([]bool, k.day(last)+1)
	for i := range groups {
		from, ok := stamp(groups[i].Start)
		if groups[i].Kind != "wait" && ok {
			k.busy[k.day(from)] = true
			to, _ := stamp(groups[i].Finish)
			k.busy[k.day(to)] = true
		}
	}
	return k, true
}

// chart draws the groups as bars on working days, over as many pages as days and rows ask for.
func (b *book) chart(groups []plan.Group) {
	k, ok := calendarOf(groups)
	if !ok {
		return
	}
	r := b.room(true)
	most := int((r.W - chartNames) / dayLeast)
	high := r.H - chartHead - chartFoot
	rows := int(high / rowLeast)
	entry := b.say.Text("book.sequence")
	for from := 0; from < len(k.busy); from += most {
		to := min(from+most, len(k.busy))
		var shown []*plan.Group
		for i := range groups {
			a, ok := stamp(groups[i].Start)
			z, _ := stamp(groups[i].Finish)
			if ok && k.day(a) < to && k.day(z) >= from {
				shown = append(shown, &groups[i])
			}
		}
		pages := max(1, (len(shown)+rows-1)/rows)
		for part := range slices.Chunk(shown, max(1, (len(shown)+pages-1)/pages)) {
			c := &chart{b: b, k: k, from: from, to: to, groups: part, room: r, row: min(chartRow, high/float64(len(part)))}
			b.add(sheet{wide: true, title: b.say.Text("book.sequence"), entry: entry, draw: c.draw})
			entry = ""
		}
	}
}

// chart is one page of bars.
type chart struct {
	b        *book
	k        calendar
	from, to int // days shown, to left out
	groups   []*plan.Group
	room     draft.Rect
	row      float64   // height of a row
	days     []float64 // left side of each day shown, and the right side of the last
}

func (d *chart) draw(c leaf) {
	d.columns()
	d.grid(c)
	for i, g := range d.groups {
		y := d.room.Y + chartHead + d.row*(float64(i)+0.5)
		name := draft.Shorten(d.b.groupName(g), draft.Small, draft.Regular, chartNames-58)
		c.Text(draft.Pt{X: d.room.X, Y: y + 4}, name, draft.Type{Size: draft.Small, Color: d.b.th.Ink})
		if g.Kind != "inspect" {
			c.Text(draft.Pt{X: d.room.X + chartNames - 8, Y: y + 4}, d.b.say.Text("draft.hours", "hours", d.b.say.Decimal(g.Hours, 1)), draft.Type{Size: draft.Small, Anchor: draft.End, Color: d.b.th.Quiet})
		}
		d.bar(c, g, y)
	}
	d.legend(c)
}

// columns gives each day its width: days without work are narrow.
func (d *chart) columns() {
	units := 0.0
	for i := d.from; i < d.to; i++ {
		units += d.unit(i)
	}
	wide := min(dayWide, (d.room.W-chartNames)/units)
	x := d.room.X + chartNames
	d.days = []float64{x}
	for i := d.from; i < d.to; i++ {
		x += wide * d.unit(i)
		d.days = append(d.days, x)
	}
}

func (d *chart) unit(day int) float64 {
	if d.k.busy[day] {
		return 1
	}
	return idlePart
}

// x is where a time falls on the page, at its sides where it lies beyond.
func (d *chart) x(t time.Time) float64 {
	at := d.k.at(t) - float64(d.from)
	switch {
	case at <= 0:
		return d.days[0]
	case at >= float64(d.to-d.from):
		return d.days[len(d.days)-1]
	}
	i := int(at)
	return d.days[i] + (at-float64(i))*(d.days[i+1]-d.days[i])
}

// grid draws the days with their dates, and the rows' hairlines.
func (d *chart) grid(c leaf) {
	th := d.b.th
	hair := draft.Pen{Width: 0.5, Color: th.Hairline}
	top, foot := d.room.Y+chartHead, d.room.Y+chartHead+d.row*float64(len(d.groups))
	last, month, compact := 0.0, time.Month(0), d.compact()
	for i := range d.days {
		x := d.days[i]
		if i+1 < len(d.days) && !d.k.busy[d.from+i] {
			c.Fill(draft.Rect{X: x, Y: top, W: d.days[i+1] - x, H: foot - top}.Path(), th.Ground)
		}
		c.Stroke([]draft.Pt{{X: x, Y: top - 5}, {X: x, Y: foot}}, false, hair)
		if i+1 == len(d.days) || !d.k.busy[d.from+i] {
			continue
		}
		day := d.k.first.AddDate(0, 0, d.from+i)
		above, date := d.b.say.Weekday(day), d.b.say.Day(day)
		if compact { // numbers, under the month where it begins
			above, date = "", strconv.Itoa(day.Day())
			if day.Month() != month {
				above, month = d.b.say.Month(day), day.Month()
			}
		}
		c.Text(draft.Pt{X: x + 3, Y: top - 21}, above, draft.Type{Size: draft.Small, Color: th.Quiet})
		if wide := draft.Measure(date, draft.Small, draft.Regular); x >= last {
			c.Text(draft.Pt{X: x + 3, Y: top - 8}, date, draft.Type{Size: draft.Small, Color: th.Ink})
			last = x + wide + 3
		}
	}
	for i := 0; i <= len(d.groups); i++ {
		y := top + d.row*float64(i)
		c.Stroke([]draft.Pt{{X: d.room.X, Y: y}, {X: d.days[len(d.days)-1], Y: y}}, false, hair)
	}
}

// compact tells whether a day is too narrow for its date with the month.
func (d *chart) compact() bool {
	for i := range len(d.days) - 1 {
		day := d.k.first.AddDate(0, 0, d.from+i)
		if d.k.busy[d.from+i] && d.days[i+1]-d.days[i] < draft.Measure(d.b.say.Day(day), draft.Small, draft.Regular)+5 {
			return true
		}
	}
	return false
}

// bar draws one group: work full, work that may slip hollow, waits hatched, inspections as a gate.
func (d *chart) bar(c leaf, g *plan.Group, y float64) {
	from, _ := stamp(g.Start)
	to, _ := stamp(g.Finish)
	a, z := d.x(from), d.x(to)
	r := draft.Rect{X: a, Y: y - chartBar/2, W: max(z-a, 2), H: chartBar}
	th := d.b.th
	switch {
	case g.Kind == "inspect":
		d.gate(c, draft.Pt{X: a, Y: y})
	case g.Kind == "wait":
		d.wait(c, r)
	case g.Slack > 0:
		c.Fill(r.Path(), th.Pane)
		c.Stroke(r.Path()[0], true, draft.Pen{Width: 1.2, Color: th.Ink})
	default:
		c.Fill(r.Path(), th.Ink)
	}
}

// gate is the sign of an inspection, which nothing behind it passes.
func (d *chart) gate(c leaf, at draft.Pt) {
	const half = 6.5
	ring := []draft.Pt{{X: at.X, Y: at.Y - half}, {X: at.X + half, Y: at.Y}, {X: at.X, Y: at.Y + half}, {X: at.X - half, Y: at.Y}}
	c.Fill(draft.Path{ring}, d.b.th.Ink)
}

func (d *chart) wait(c leaf, r draft.Rect) {
	c.Fill(r.Path(), d.b.th.Pane)
	c.Hatch(r.Path(), draft.Hatch{Kind: draft.Wait, Color: d.b.th.Quiet, From: draft.Pt{X: r.X, Y: r.Y}})
	c.Stroke(r.Path()[0], true, draft.Pen{Width: 0.8, Color: d.b.th.Quiet})
}

// legend explains the bars.
func (d *chart) legend(c leaf) {
	x, y := d.room.X, d.room.Y+d.room.H-4
	mark := func(text string, draw func(r draft.Rect)) {
		draw(draft.Rect{X: x, Y: y - 9, W: 24, H: chartBar})
		c.Text(draft.Pt{X: x + 30, Y: y}, text, draft.Type{Size: draft.Small, Color: d.b.th.Ink})
		x += 30 + draft.Measure(text, draft.Small, draft.Regular) + 22
	}
	mark(d.b.say.Text("draft.work"), func(r draft.Rect) { c.Fill(r.Path(), d.b.th.Ink) })
	mark(d.b.say.Text("draft.may-slip"), func(r draft.Rect) {
		c.Stroke(r.Path()[0], true, draft.Pen{Width: 1.2, Color: d.b.th.Ink})
	})
	mark(d.b.say.Text("draft.waiting"), func(r draft.Rect) { d.wait(c, r) })
	mark(d.b.say.Text("draft.inspection"), func(r draft.Rect) { d.gate(c, r.Mid()) })
}
