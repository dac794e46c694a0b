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
}

func newSequenceView(w *Window) *sequenceView {
	v := &sequenceView{w: w}
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
	v.page = w.newPage(content, newButton(w.pal, pill, "Explain all", v.explain))
	return v
}

func (v *sequenceView) name() string              { return "Sequence" }
func (v *sequenceView) object() fyne.CanvasObject { return v.page.box }

func (v *sequenceView) explain() {
	b := v.page.buttons[0]
	b.set(map[bool]string{true: "Close all", false: "Explain all"}[!b.on], !b.on)
	v.refresh(ViewChanged)
}

func (v *sequenceView) draw(width, height float64) func(*image.RGBA, float64) {
	p, j, th, at := v.w.model.Plan, v.w.model.Doc.Job(), v.w.pal.Theme, v.at
	state := draft.SequenceState{Selected: v.picked, Hover: v.hovers}
	return func(img *image.RGBA, scale float64) {
		if p == nil {
			p = &plan.Plan{}
		}
		draft.DrawSequence(draft.NewRaster(img, scale), th, p, j, at, state)
	}
}

func (v *sequenceView) refresh(Change) {
	v.pic.redraw()
	a := v.w.model.Plan
	if a == nil {
		v.table.set(nil)
		return
	}
	p := v.w.pal
	rows := make([]tableRow, 0, len(a.Schedule))
	for _, t := range a.Schedule {
		slack := quantity(math.Round(t.Slack)) + " h"
		switch {
		case t.Slack < 0.05:
			slack = "none"
		case t.Slack < 1: // the bars say that it may slip, so it must not read as none
			slack = oneDecimal(t.Slack) + " h"
		}
		hours, ink := "", p.Ink
		if t.Kind != "wait" {
			hours = oneDecimal(t.Hours)
		} else {
			ink = p.Quiet
		}
		row := tableRow{detail: told(t.Basis, t.Source), picked: func() { v.pick(t.ID) }, cells: []cell{{text: v.w.plainly(t.Name), ink: ink, bold: t.ID == v.picked},
			{text: day(t.Start), ink: ink}, {text: day(t.Finish), ink: ink}, {text: hours, ink: ink}, {text: takenWords(t), ink: ink}, {text: slack, ink: p.Quiet}}}
		if len(t.Meanwhile) > 0 {
			row.detail += "\nMeanwhile: " + v.names(a, t.Meanwhile) + "."
		}
		if t.Kind != "wait" {
			done := t.Done
			row.ticked = &done
			row.tick = func() { v.w.tick(t, !done) }
		}
		row.shown = v.page.buttons[0].on
		rows = append(rows, row)
	}
	v.table.set(rows)
	v.record.show(v.picked)
	v.page.say(v.w.progressWords(a))
}

// told is how a number came about: its formula with the numbers in it, its source and how well that is known.
func told(basis, source string) string {
	basis = squared(basis)
	if source == "" {
		return basis
	}
	return basis + "\nSource: " + source
}

// takenWords are the hours that a step took, where they were noted.
func takenWords(t plan.Task) string {
	if t.Actual == 0 {
		return ""
	}
	return oneDecimal(t.Actual)
}

// names are the first few of some steps by their ids.
func (v *sequenceView) names(a *plan.Plan, ids []string) string {
	var list []string
	for _, t := range a.Schedule {
		if in(t.ID, ids) {
			list = append(list, v.w.plainly(t.Name))
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
		w.say("Done: " + w.plainly(t.Name) + ".")
	}
}

func (v *sequenceView) hover(at draft.Pt) {
	if v.w.model.Plan == nil {
		return
	}
	if id := draft.SequenceHit(v.w.model.Plan, v.at, at); id != v.hovers {
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
	if v.w.model.Plan == nil {
		return
	}
	wide, high := draft.SequenceSize(v.w.model.Plan)
	width, height := v.pic.size()
	v.at.X = math.Max(0, math.Min(wide-width, v.at.X+dx))
	v.at.Y = math.Max(0, math.Min(high-height, v.at.Y+dy))
	v.pic.redraw()
}

func (v *sequenceView) click(at draft.Pt, _ desktop.MouseButton, _ fyne.KeyModifier) {
	if v.w.model.Plan == nil {
		return
	}
	v.picked = draft.SequenceHit(v.w.model.Plan, v.at, at)
	for i, t := range v.w.model.Plan.Schedule {
		if t.ID == v.picked {
			v.table.list.ScrollTo(i)
			v.w.say(v.w.plainly(t.Name) + ": " + t.Basis)
		}
	}
	v.refresh(SelectionChanged)
}

func (v *sequenceView) scroll(_ draft.Pt, dy float64) {
	if v.w.modifiers()&shift != 0 {
		v.move(-dy, 0)
		return
	}
	v.move(0, -dy)
}
