package tables

import (
	"fmt"
	"strings"

	"seamwright/calc/plan"
	"seamwright/calc/schedule"
)

// stepKinds are the words for the kinds of steps.
var stepKinds = map[string]string{"work": "tables.kind-work", "wait": "tables.kind-wait", "inspect": "tables.kind-inspect"}

// sequence is the steps of the work by time, and the hours that they come to.
func sequence(m *maker) {
	m.column("tables.day", Day, 12)
	m.column("tables.start", Moment, 17)
	m.column("tables.finish", Moment, 17)
	hours := m.column("tables.hours", Hours, 9)
	m.column("tables.slack", Hours, 9)
	kind := m.column("tables.kind", Text, 12)
	m.column("tables.done", Text, 8)
	m.column("tables.actual", Hours, 9)
	m.column("tables.room", Text, 14)
	m.column("tables.trade", Text, 18)
	m.column("tables.step", Text, 52)
	m.aside("tables.id", Text, 30)
	m.aside("tables.after", Long, 30)
	m.aside("tables.basis", Long, 60)
	m.aside("tables.source", Long, 40)
	for _, g := range plan.Groups(m.r.Plan.Schedule) {
		for _, t := range g.Tasks {
			var done, actual any
			if t.Done {
				done = m.say.Text("tables.yes")
			}
			if t.Actual > 0 {
				actual = t.Actual
			}
			m.add(moment("2006-01-02", t.Day), moment(schedule.Stamp, t.Start), moment(schedule.Stamp, t.Finish), t.Hours, t.Slack,
				m.word(stepKinds, t.Kind), done, actual, t.Room, plan.TradeName(t.Trade), t.Name, t.ID, strings.Join(t.After, " "), t.Basis, t.Source)
		}
	}
	last := m.next() - 1
	m.total(nil, nil, moment(schedule.Stamp, m.r.Plan.Summary.Finish), Cell{Value: m.r.Plan.Summary.Hours,
		Formula: fmt.Sprintf(`ROUND(SUMIF(%s2:%s%d,"%s",%s2:%s%d),2)`, kind, kind, last, m.word(stepKinds, "work"), hours, hours, last)},
		nil, nil, nil, nil, nil, nil, m.say.Text("tables.own-hours"), nil, nil, nil, nil)
}
