package draft

import (
	"slices"

	"seamwright/assets/words"
	"seamwright/calc/job"
	"seamwright/calc/plan"
)

// SequenceRow is one row of the sequence, on the chart and in the list under it: a step, or the steps of one trade in one
// room on one day taken together.
type SequenceRow struct {
	ID            string // of the step; of a group the same as long as its day, room and trade are
	Kind          string // work, wait or inspect
	Start, Finish string
	Hours, Slack  float64
	Done          bool
	Within        bool // a step of the group above it
	Open          bool // a group whose steps follow
	Steps         []*plan.Task
}

// Step is the step of a row, nil where it is a group.
func (r *SequenceRow) Step() *plan.Task {
	if len(r.Steps) == 1 {
		return r.Steps[0]
	}
	return nil
}

// Pieces are how many sheets and strips the steps of a row hang.
func (r *SequenceRow) Pieces() (n int) {
	for _, t := range r.Steps {
		n += len(t.Pieces)
	}
	return n
}

// SequenceRows are the rows of a plan: its groups, a group of one step being that step, and of those groups whose id is
// open their steps.
func SequenceRows(p *plan.Plan, open map[string]bool) (rows []SequenceRow) {
	if p == nil {
		return nil
	}
	for _, g := range plan.Groups(p.Schedule) {
		if len(g.Tasks) == 1 {
			rows = append(rows, stepRow(g.Tasks[0], false))
			continue
		}
		id := g.Day + " " + g.Room + " " + string(g.Trade)
		rows = append(rows, SequenceRow{ID: id, Kind: g.Kind, Start: g.Start, Finish: g.Finish, Hours: g.Hours, Slack: g.Slack,
			Done: g.Done == len(g.Tasks), Open: open[id], Steps: g.Tasks})
		if open[id] {
			for _, t := range g.Tasks {
				rows = append(rows, stepRow(t, true))
			}
		}
	}
	return rows
}

func stepRow(t *plan.Task, within bool) SequenceRow {
	return SequenceRow{ID: t.ID, Kind: t.Kind, Start: t.Start, Finish: t.Finish, Hours: t.Hours, Slack: t.Slack, Done: t.Done,
		Within: within, Steps: []*plan.Task{t}}
}

// RowOf is the row that shows a step, or the group with that id; -1 where none does. A step in a closed group stands with
// the group.
func RowOf(rows []SequenceRow, id string) int {
	group := -1
	for i := range rows {
		if rows[i].ID == id {
			return i
		}
		if group < 0 && slices.ContainsFunc(rows[i].Steps, func(t *plan.Task) bool { return t.ID == id }) {
			group = i
		}
	}
	return group
}

// trades are the phrases for the trades of groups.
var trades = map[plan.Trade]string{plan.Prepare: "draft.trade-prepare", plan.Hang: "draft.trade-hang", plan.Finish: "draft.trade-finish",
	plan.Coat: "draft.trade-paint", plan.Panels: "draft.trade-panels", plan.Trims: "draft.trade-trim"}

// Name is what a row is called; no voice is English.
func (r *SequenceRow) Name(j *job.Job, say *words.Voice) string {
	say = voice(say, j)
	if t := r.Step(); t != nil {
		return upper(Plainly(j, say.Fact(t.Name)))
	}
	first := r.Steps[0]
	name := say.Text("draft.group", "room", SurfaceName(first.Room), "trade", say.Text(trades[first.Trade]), "steps", say.Text("draft.steps", "count", len(r.Steps)))
	if n := r.Pieces(); n > 0 {
		name += ", " + say.Text("draft.pieces", "count", n)
	}
	return name
}
