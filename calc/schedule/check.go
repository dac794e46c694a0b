package schedule

import (
	"fmt"
	"slices"
	"strings"

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
	say := func(rule string, level plan.Level, tasks []string, words string) {
		if len(tasks) == 0 {
			return
		}
		named := strings.Join(tasks[:min(len(tasks), mostNamed)], ", ")
		if more := len(tasks) - mostNamed; more > 0 {
			named += fmt.Sprintf(" and %d more", more)
		}
		found = append(found, plan.Check{Rule: rule, Level: level, Message: named + words, Source: "the project's own record"})
	}
	say("tick-date", plan.Caution, undated, ": on which day? A wait begins when what it waits for is done; without a day a task counts as done with the last one that has one")
	say("tick-lost", plan.Caution, slices.Compact(lost), ": ticked off, but the sequence has no such task now, so the record counts for nothing; tick off what has taken its place")
	return found
}
