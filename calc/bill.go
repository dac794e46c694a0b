package calc

import (
	"cmp"
	"context"
	"slices"

	"seamwright/calc/board"
	"seamwright/calc/finish"
	"seamwright/calc/job"
	"seamwright/calc/memo"
	"seamwright/calc/money"
	"seamwright/calc/plan"
	"seamwright/calc/price"
	"seamwright/calc/reveal"
	"seamwright/calc/schedule"
	"seamwright/calc/survey"
)

// bill is one draft of the board worked out as far as money goes: screws, joints, paint, packs, hours, tax. What it comes to
// depends neither on the aim nor on the rate of own time.
type bill struct {
	plan     *plan.Plan
	board    *board.Answer
	rooms    []share
	items    []plan.Item
	measures []finish.Measure
}

// billed makes the bill of a draft by the functions that the plan itself is made by.
func billed(ctx context.Context, j *job.Job, b *survey.Building, d *board.Draft, results *memo.Memo, care finish.Care) (*bill, error) {
	answer, err := d.Answer()
	if err != nil {
		return nil, err
	}
	letters := lettersOf(b, answer)
	sheets, returns, err := reveal.Cut(ctx, j, answer.Sheets, reveal.Pieces(j, b, func(id string) string { return letters[id] }))
	if err != nil {
		return nil, err
	}
	x := &bill{plan: assemble(j, b, answer, sheets, returns), board: answer}
	if x.rooms, err = shares(ctx, j, b, x.plan, answer.Hung, results); err != nil {
		return nil, err
	}
	var tasks []schedule.Room
	var finishes []finish.Room
	for _, room := range x.rooms {
		tasks, finishes = append(tasks, room.tasks), append(finishes, room.finish)
		x.measures = append(x.measures, room.finish.Measures...)
	}
	price.OneLength(j, x.plan)
	x.items = finish.Join(j, b, x.plan, finishes, results, care)
	x.plan.Summary.Hours = schedule.Hours(tasks)
	price.Bill(j, x.plan, x.items)
	return x, ctx.Err()
}

// answer is what the bill comes to, as one of the named answers.
func (x *bill) answer(aim job.Aim) plan.Answer {
	s, c := &x.plan.Summary, &x.plan.Cost
	a := plan.Answer{Aim: string(aim), Sheets: s.SheetsBought, Bound: s.SheetsBound, ButtJoint: s.ButtJoint, MixedJoint: s.MixedJoint,
		Pieces: x.board.Pieces, Hours: s.Hours, Cost: c.Total}
	a.OwnTime = c.OwnTime - c.Labour
	return a
}

// compare tells which of two bills is the better answer for an aim. What breaks fewer rules comes before everything.
//   - sheets: fewest sheets, then butt joint, then pieces
//   - joints: least butt joint, then sheets
//   - cost: least total with own time, then butt joint, then pieces
func (x *bill) compare(y *bill, aim job.Aim) int {
	sum := func(b *bill) (sheets int, rough int64, total money.Money) {
		s, c := &b.plan.Summary, &b.plan.Cost
		return s.SheetsBought, int64(s.ButtJoint + s.MixedJoint), c.Total - c.Labour + c.OwnTime
	}
	sheets, rough, total := sum(x)
	otherSheets, otherRough, otherTotal := sum(y)
	bySheets, byJoint, byCost := cmp.Compare(sheets, otherSheets), cmp.Compare(rough, otherRough), cmp.Compare(total, otherTotal)
	byPieces := cmp.Compare(x.board.Pieces, y.board.Pieces)
	byRules := cmp.Compare(x.board.Breaks, y.board.Breaks)
	switch aim {
	case job.AimSheets:
		return cmp.Or(byRules, bySheets, byJoint, byPieces, byCost)
	case job.AimJoints:
		return cmp.Or(byRules, byJoint, bySheets, byPieces, byCost)
	}
	return cmp.Or(byRules, byCost, byJoint, byPieces, bySheets)
}

// aims in the order of the named answers.
var aims = []job.Aim{job.AimCost, job.AimSheets, job.AimJoints}

// choose makes the bills of all drafts and gives the best for the project's aim, with the named answers in its plan: each
// the best of the same bills for its aim, so that none is beaten by another, nor by the plan of the same project with
// another aim or rate.
func choose(ctx context.Context, j *job.Job, b *survey.Building, f *board.Field, results *memo.Memo) (*bill, error) {
	best := make([]*bill, len(aims))
	for _, d := range f.Drafts() {
		x, err := billed(ctx, j, b, d, results, finish.Thorough)
		if err != nil {
			return nil, err
		}
		for k, aim := range aims {
			if best[k] == nil || x.compare(best[k], aim) < 0 {
				best[k] = x
			}
		}
	}
	var named []plan.Answer
	for k, aim := range aims {
		named = append(named, best[k].answer(aim))
	}
	own := best[slices.Index(aims, j.Aim)]
	own.plan.Answers = named
	return own, nil
}

// likeliest makes the bill of the one draft that looks best, and tells of the other named answers what the search counts.
func likeliest(ctx context.Context, j *job.Job, b *survey.Building, f *board.Field, results *memo.Memo) (*bill, error) {
	own, err := billed(ctx, j, b, f.Likeliest(), results, finish.Prompt)
	if err != nil {
		return nil, err
	}
	for _, aim := range aims {
		a := own.answer(aim)
		if aim != j.Aim {
			f.Estimate(aim, &a)
		}
		own.plan.Answers = append(own.plan.Answers, a)
	}
	return own, nil
}
