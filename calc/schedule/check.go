package schedule

import (
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/plan"
)

// mostNamed is how many tasks a finding names.
const mostNamed = 6

// Checks are the findings on what has been ticked off: ticks without a day, and those of tasks that the sequence lacks.
func Checks(j *job.Job, p *plan.Plan) []plan.Check {
	known := make(map[string]bool, len(p.Schedule))
	for i := range p.Schedule {
		known[p.Schedule[i].ID] = true
	}
	var undated, lost []string
	for _, d := range j.Progress {
		switch {
		case !known[d.Task]:
			lost = append(lost, d.Task)
		case d.On == (job.Date{}):
			undated = append(undated, d.Task)
		}
	}
	var found []plan.Check
	say := func(rule, kind string, tasks []string) {
		if len(tasks) == 0 {
			return
		}
		var named []plan.Fact
		for _, id := range tasks[:min(len(tasks), mostNamed)] {
			named = append(named, plan.Verbatim(id))
		}
		if more := len(tasks) - mostNamed; more > 0 {
			named = append(named, plan.Tell("count.more", "count", more))
		}
		found = append(found, plan.Check{Rule: rule, Level: plan.Caution, Says: plan.Tell(kind, "tasks", named), Source: plan.Tell("source.own-record")})
	}
	say("tick-date", "schedule.tick-date", undated)
	say("tick-lost", "schedule.tick-lost", slices.Compact(lost))
	return found
}
