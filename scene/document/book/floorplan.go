package book

import (
	"seamwright/calc/job"
	"seamwright/scene/draft"
)

// finestWhole is the smallest scale at which all rooms on one page still show their walls' names; below it every room gets a
// page of its own besides: 1/8 in = 1 ft, or 1:100.
const finestWhole = 100

// floorPlans draws all rooms from above, and each alone where all together are small.
func (b *book) floorPlans() {
	scale := b.floorPlan(b.job, b.say.Text("book.plan"))
	if scale <= finestWhole || len(b.job.Rooms) < 2 {
		return
	}
	for i := range b.job.Rooms {
		alone := *b.job
		alone.Rooms = b.job.Rooms[i : i+1]
		b.floorPlan(&alone, b.name(b.job.Rooms[i].ID))
	}
}

// floorPlan draws the rooms of a job on one page, to the largest scale that fits, and tells the scale.
func (b *book) floorPlan(j *job.Job, title string) draft.Scale {
	const foot = 24.0 // the scale
	fit := func(wide bool) (draft.Scale, draft.Rect) {
		r := b.room(wide)
		r.H -= foot
		v := draft.FitPlan(j, draft.Rect{W: r.W, H: r.H})
		return draft.ScaleFor(j, v.Scale, pointsPerInch), r
	}
	scale, r := fit(false)
	wide := false
	if other, across := fit(true); other < scale {
		scale, r, wide = other, across, true
	}
	b.add(sheet{wide: wide, title: title, entry: title, draw: func(c leaf) {
		on := c.within(r)
		whole := draft.Rect{W: r.W, H: r.H}
		v := draft.FitPlan(j, whole)
		v = v.Zoom(whole.Mid(), scale.Pixels(pointsPerInch)/v.Scale)
		draft.DrawPlan(on, b.th, b.plan, j, v, draft.PlanState{NoGrid: true, Say: b.say})
		b.scaleBar(c, draft.Pt{X: r.X, Y: r.Y + r.H + foot - 6}, scale)
	}})
	return scale
}

// scaleBar says the scale, and shows a length to hold a rule against: a print that was made to fit is found out.
func (b *book) scaleBar(c leaf, at draft.Pt, scale draft.Scale) {
	t := draft.Type{Size: draft.Small, Color: b.th.Ink}
	words := b.say.Text("book.scale", "scale", scale.Text(b.job))
	c.Text(at, words, t)
	long, check := 2*pointsPerInch, b.say.Text("book.bar-inches")
	if !b.say.Units().Imperial {
		long, check = 50*pointsPerMM, b.say.Text("book.bar-mm")
	}
	x := at.X + draft.Measure(words, draft.Small, draft.Regular) + 20
	y := at.Y - 4
	pen := draft.Pen{Width: 1, Color: b.th.Ink}
	c.Stroke([]draft.Pt{{X: x, Y: y}, {X: x + long, Y: y}}, false, pen)
	for i := range 5 {
		tick := x + long*float64(i)/4
		c.Stroke([]draft.Pt{{X: tick, Y: y - 3}, {X: tick, Y: y + 3}}, false, pen)
	}
	c.Text(draft.Pt{X: x + long + 8, Y: at.Y}, check, draft.Type{Size: draft.Small, Color: b.th.Quiet})
}
