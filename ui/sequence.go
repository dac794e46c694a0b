package ui

import (
	"image"
	"math"
	"strings"

	"seamwright/calc/job"
	"seamwright/calc/plan"
	"seamwright/planner"
	"seamwright/scene/draft"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
)

// sequenceView is what is done in which order and on which days: bars over working days, the list to tick, and what the
// picked step took.
type sequenceView struct {
	w      *Window
	page   *page
	pic    *picture
	table  *table
	record *recorder
	at     draft.Pt // how far the bars are scrolled
	hovers string
	picked string
	open   map[string]bool // groups whose steps are shown, by their ids
}

func newSequenceView(w *Window) *sequenceView {
	v := &sequenceView{w: w, open: map[string]bool{}}
	v.pic = newPicture(w, v, v.draw)
	v.table = newTable(w, "No steps yet.", tableColumn{title: "Step"}, tableColumn{"begins", 110, true}, tableColumn{"done by", 110, true},
		tableColumn{"hours", 64, true}, tableColumn{"taken", 64, true}, tableColumn{"slack", 72, true})
	split := container.NewVSplit(v.pic, v.table)
	split.Offset = 0.4
	v.record = newRecorder(w)
	content := laidOut(arrange{fyne.NewSize(300, 200), func(size fyne.Size) {
		put(split, 0, 0, size.Width, size.Height-inspectorHeight-grid)
		v.record.place(size)
	}}, split, v.record.box)
	v.page = w.newPage(content, newButton(w.pal, pill, "All steps", v.unfold), newButton(w.pal, pill, "Explain all", v.explain))
	return v
}

func (v *sequenceView) name() string              { return "Sequence" }
func (v *sequenceView) object() fyne.CanvasObject { return v.page.box }

// rows are what the chart and the list show: groups of steps, and the steps of those that are open.
func (v *sequenceView) rows() []draft.SequenceRow { return draft.SequenceRows(v.w.model.Plan, v.open) }

// unfold opens all groups, or closes them.
func (v *sequenceView) unfold() {
	b := v.page.buttons[0]
	b.set("All steps", !b.on)
	clear(v.open)
	if b.on {
		for _, r := range v.rows() {
			v.open[r.ID] = r.Step() == nil
		}
	}
	v.refresh(ViewChanged)
}

func (v *sequenceView) explain() {
	b := v.page.buttons[1]
	b.set(map[bool]string{true: "Close all", false: "Explain all"}[!b.on], !b.on)
	v.refresh(ViewChanged)
}

func (v *sequenceView) draw(width, height float64) func(*image.RGBA, float64) {
	rows, j, th, at := v.rows(), v.w.model.Doc.Job(), v.w.pal.Theme, v.at
	state := draft.SequenceState{Selected: v.picked, Hover: v.hovers}
	return func(img *image.RGBA, scale float64) {
		draft.DrawSequence(draft.NewRaster(img, scale), th, rows, j, at, state)
	}
}

func (v *sequenceView) refresh(Change) {
	v.pic.redraw()
	a := v.w.model.Plan
	if a == nil {
		v.table.set(nil)
		return
	}
	var list []tableRow
	for _, r := range v.rows() {
		list = append(list, v.row(a, r))
	}
	v.table.set(list)
	v.record.show(v.picked)
	v.page.say(v.w.progressWords(a))
}

// row is one line of the list: a step, or a group with a square that ticks all its steps.
func (v *sequenceView) row(a *plan.Plan, r draft.SequenceRow) tableRow {
	p := v.w.pal
	hours, ink := oneDecimal(r.Hours), p.Ink
	if r.Kind == "wait" {
		hours, ink = "", p.Quiet
	}
	taken := 0.0
	for _, t := range r.Steps {
		taken += t.Actual
	}
	row := tableRow{within: r.Within, cells: []cell{{text: v.w.rowName(&r), ink: ink, bold: r.ID == v.picked},
		{text: day(r.Start), ink: ink}, {text: day(r.Finish), ink: ink}, {text: hours, ink: ink}, {text: takenWords(taken), ink: ink}, {text: slackWords(r.Slack), ink: p.Quiet}}}
	if r.Kind != "wait" {
		done := r.Done
		row.ticked = &done
		row.tick = func() { v.w.tickAll(r.Steps, !done) }
	}
	t := r.Step()
	if t == nil {
		row.tapped = func() { v.turn(r.ID) }
		return row
	}
	row.detail, row.shown, row.picked = v.w.told(t.Basis, t.Source), v.page.buttons[1].on, func() { v.pick(t.ID) }
	if len(t.Meanwhile) > 0 {
		row.detail += "\nMeanwhile: " + v.names(a, t.Meanwhile) + "."
	}
	return row
}

// rowName is what a row is called in a list.
func (w *Window) rowName(r *draft.SequenceRow) string {
	if t := r.Step(); t != nil {
		return w.tell(t.Name)
	}
	sign := "+ "
	if r.Open {
		sign = "– "
	}
	return sign + r.Name(w.model.Doc.Job(), nil)
}

// slackWords are how far a step may slip. The bars say that it may, so a little must not read as none.
func slackWords(hours float64) string {
	switch {
	case hours < 0.05:
		return "none"
	case hours < 1:
		return oneDecimal(hours) + " h"
	}
	return quantity(math.Round(hours)) + " h"
}

// turn opens or closes a group.
func (v *sequenceView) turn(id string) {
	v.open[id] = !v.open[id]
	v.picked = id
	v.refresh(SelectionChanged)
}

// takenWords are the hours that a step took, where they were noted.
func takenWords(hours float64) string {
	if hours == 0 {
		return ""
	}
	return oneDecimal(hours)
}

// names are the first few of some steps by their ids.
func (v *sequenceView) names(a *plan.Plan, ids []string) string {
	var list []string
	for _, t := range a.Schedule {
		if in(t.ID, ids) {
			list = append(list, v.w.tell(t.Name))
		}
	}
	const most = 3
	if more := len(list) - most; more > 0 {
		return strings.Join(list[:most], "; ") + "; and " + thousands(int64(more)) + " more"
	}
	return strings.Join(list, "; ")
}

// pick shows what a step took, or lets it be noted.
func (v *sequenceView) pick(id string) {
	v.picked = id
	v.refresh(SelectionChanged)
}

// progressWords set what has been done against what was reckoned.
func (w *Window) progressWords(a *plan.Plan) string {
	g := a.Progress
	if g.Done == 0 {
		return "Click a square to tick a step off, a step to see how it came about. Drying runs through nights and weekends, work does not."
	}
	words := thousands(int64(g.Done)) + " of " + counted(g.Tasks, "step") + " done"
	if g.Actual > 0 {
		words += ", " + oneDecimal(g.Actual) + " h taken for " + oneDecimal(g.Estimated) + " h reckoned"
	}
	words += "; " + quantity(math.Round(g.Outlook)) + " h to come; finished " + lastDay(a)
	if g.FirstFinish != "" && day(g.FirstFinish) != lastDay(a) {
		words += ", first planned for " + day(g.FirstFinish)
	}
	return words + "."
}

// tick records a step as done, or as not done after all.
func (w *Window) tick(t plan.Task, done bool) {
	today := job.Date{}
	if w.options.Today != nil {
		today = w.options.Today()
	}
	if w.try(planner.TickTask{Task: t.ID, Done: done, On: today}) && done {
		w.say("Done: " + w.tell(t.Name) + ".")
	}
}

// tickAll records the steps of a group as done, or as not done after all, in one step to undo. What is so already, and what
// passes by itself, stays.
func (w *Window) tickAll(steps []*plan.Task, done bool) {
	if len(steps) == 1 {
		w.tick(*steps[0], done)
		return
	}
	w.model.Begin("tick off")
	defer w.model.End()
	for _, t := range steps {
		if t.Kind != "wait" && t.Done != done {
			w.tick(*t, done)
		}
	}
}

func (v *sequenceView) hover(at draft.Pt) {
	if id := draft.SequenceHit(v.rows(), v.at, at); id != v.hovers {
		v.hovers = id
		v.pic.redraw()
	}
}

func (v *sequenceView) leave() { v.hovers = ""; v.pic.redraw() }

func (v *sequenceView) down(draft.Pt, desktop.MouseButton, fyne.KeyModifier) {}
func (v *sequenceView) release(bool)                                         {}
func (v *sequenceView) double(draft.Pt)                                      {}
func (v *sequenceView) key(*fyne.KeyEvent) bool                              { return false }
func (v *sequenceView) typed(rune) bool                                      { return false }
func (v *sequenceView) cursor() desktop.Cursor                               { return desktop.DefaultCursor }

func (v *sequenceView) drag(_ draft.Pt, by draft.Pt) { v.move(-by.X, -by.Y) }

// move scrolls the bars within their extent.
func (v *sequenceView) move(dx, dy float64) {
	wide, high := draft.SequenceSize(v.rows())
	width, height := v.pic.size()
	v.at.X = math.Max(0, math.Min(wide-width, v.at.X+dx))
	v.at.Y = math.Max(0, math.Min(high-height, v.at.Y+dy))
	v.pic.redraw()
}

// click picks a step and tells how it came about, or opens a group.
func (v *sequenceView) click(at draft.Pt, _ desktop.MouseButton, _ fyne.KeyModifier) {
	rows := v.rows()
	i := draft.RowOf(rows, draft.SequenceHit(rows, v.at, at))
	if i < 0 {
		v.pick("")
		return
	}
	v.table.list.ScrollTo(i)
	t := rows[i].Step()
	if t == nil {
		v.turn(rows[i].ID)
		return
	}
	v.w.say(v.w.tell(t.Name) + ": " + v.w.voice().Fact(t.Basis))
	v.pick(t.ID)
}

func (v *sequenceView) scroll(_ draft.Pt, dy float64) {
	if v.w.modifiers()&shift != 0 {
		v.move(-dy, 0)
		return
	}
	v.move(0, -dy)
}
