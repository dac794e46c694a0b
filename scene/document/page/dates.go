package page

import (
	"slices"
	"time"

	"seamwright/calc/plan"
)

// stage is one row of the sequence: a trade's part of the work, or the inspection.
type stage struct {
	Name     string
	From, To string
	Days     int   // of the whole sequence
	Mondays  []int // by day, where weeks begin
	Bars     []bar
}

// bar is a run of days of one kind: work, dry or inspect.
type bar struct {
	Kind    string
	At, End int
}

// stageOrder is the trades, with the inspection before the joints are taped, and what the client calls them.
var stageOrder = []struct{ stage, phrase string }{
	{string(plan.Prepare), "page.stage-prepare"},
	{string(plan.Hang), "page.stage-hang"},
	{inspection, "page.stage-inspect"},
	{string(plan.Finish), "page.stage-finish"},
	{string(plan.Coat), "page.stage-paint"},
	{string(plan.Panels), "page.stage-panels"},
	{string(plan.Trims), "page.stage-trim"},
}

const inspection = "inspect"

// stageOf is the stage of a task.
func stageOf(t *plan.Task) string {
	if t.Kind == inspection {
		return inspection
	}
	return string(t.Trade)
}

// stages are the sequence in the client's words, and whether anything dries in it. Days on which nobody works but
// something dries are told apart.
func (t *teller) stages() (out []stage, drying bool) {
	from, to := t.day(t.start()), t.day(t.plan.Summary.Finish)
	if from.IsZero() || to.IsZero() {
		return nil, false
	}
	days := dayOf(from, to) + 1
	var mondays []int
	for d := range days {
		if d > 0 && from.AddDate(0, 0, d).Weekday() == time.Monday {
			mondays = append(mondays, d)
		}
	}
	for _, o := range stageOrder {
		kinds := make([]string, days)
		first, last := -1, -1
		for i := range t.plan.Schedule {
			task := &t.plan.Schedule[i]
			start, finish := t.day(task.Start), t.day(task.Finish)
			if stageOf(task) != o.stage || start.IsZero() || finish.IsZero() {
				continue
			}
			kind := map[string]string{"wait": "dry", inspection: inspection}[task.Kind]
			if kind == "" {
				kind = "work"
			}
			for d := max(0, dayOf(from, start)); d <= min(days-1, dayOf(from, finish)); d++ {
				if kind == "work" && !t.job.Site.Workdays[from.AddDate(0, 0, d).Weekday()] {
					continue
				}
				if kinds[d] != "work" {
					kinds[d] = kind
				}
				if first < 0 || d < first {
					first = d
				}
				last = max(last, d)
			}
		}
		if first < 0 {
			continue
		}
		s := stage{Name: t.Text(o.phrase), Days: days, Mondays: mondays, Bars: runs(kinds)}
		s.From = t.Day(from.AddDate(0, 0, first))
		s.To = t.Day(from.AddDate(0, 0, last))
		drying = drying || slices.Contains(kinds, "dry")
		out = append(out, s)
	}
	return out, drying
}

// runs joins days of one kind.
func runs(kinds []string) (out []bar) {
	for d := 0; d < len(kinds); {
		long := 1
		for d+long < len(kinds) && kinds[d+long] == kinds[d] {
			long++
		}
		if kinds[d] != "" {
			out = append(out, bar{kinds[d], d, d + long})
		}
		d += long
	}
	return out
}

// ready says when the rooms can be used.
func (t *teller) ready() string {
	if day := t.day(t.plan.Summary.Finish); !day.IsZero() {
		return t.Text("page.ready", "day", day)
	}
	return t.Text("page.undated")
}

// start is the first moment of the sequence.
func (t *teller) start() (first string) {
	for i := range t.plan.Schedule {
		if s := t.plan.Schedule[i].Start; s != "" && (first == "" || s < first) {
			first = s
		}
	}
	return first
}

// span is from when to when a step is done anywhere.
func (t *teller) span(step plan.Step) (first, last time.Time) {
	for i := range t.plan.Schedule {
		task := &t.plan.Schedule[i]
		if task.Step != step {
			continue
		}
		from, to := t.day(task.Start), t.day(task.Finish)
		if first.IsZero() || !from.IsZero() && from.Before(first) {
			first = from
		}
		if to.After(last) {
			last = to
		}
	}
	return first, last
}

// day is the day of a plan's time, nothing where none is promised.
func (t *teller) day(s string) time.Time {
	if len(s) < len(time.DateOnly) {
		return time.Time{}
	}
	day, err := time.Parse(time.DateOnly, s[:len(time.DateOnly)])
	if err != nil {
		return time.Time{}
	}
	return day
}

// date is a plan's time as a day for people.
func (t *teller) date(s string) string {
	if day := t.day(s); !day.IsZero() {
		return t.Day(day)
	}
	return t.Text("page.no-day")
}

// dayOf counts days from one to another.
func dayOf(from, to time.Time) int { return int(to.Sub(from).Hours() / 24) }

func sameDay(a, b time.Time) bool { return a.Equal(b) }
