package main

import (
	"strings"

	"seamwright/calc/plan"
)

var runSchedule = part("schedule", "the sequence of the work, with waits and inspections, and its end in other air", schedule)

// schedule lists the tasks by date.
func schedule(tell teller, p *plan.Plan) *table {
	t := &table{teller: tell, value: p.Schedule, explains: 4, columns: columns("start", "finish", ">hours", ">actual", ">slack", "kind", "day", "room", "trade",
		"step-code", "id", "task", "after", "meanwhile", "basis", "source")}
	t.hush("day", "room", "trade", "step-code")
	groups := plan.Groups(p.Schedule)
	for _, g := range groups {
		if len(g.Tasks) > 1 { // one alone is its own group
			t.heading(moment(g.Start), moment(g.Finish), t.number(g.Hours, 1), "", t.number(g.Slack, 1), t.doneOf(g), "", "", "", "", "",
				t.text("seamcalc.group-of", "room", g.Room, "trade", plan.TradeName(g.Trade), "count", len(g.Tasks)), "", "", "", "")
		}
		for _, k := range g.Tasks {
			kind := k.Kind
			if k.Done {
				kind = "done"
			}
			t.add(moment(k.Start), moment(k.Finish), t.number(k.Hours, 1), t.hours(k.Actual), t.number(k.Slack, 1), t.text("task-kind."+kind), k.Day, k.Room, t.fact(plan.TradeName(k.Trade)),
				string(k.Step), k.ID, t.fact(k.Name), strings.Join(k.After, " "), strings.Join(k.Meanwhile, " "), t.fact(k.Basis), t.fact(k.Source))
			if len(g.Tasks) > 1 {
				t.within("start", "finish", "slack")
			}
		}
	}
	if len(groups) > 0 {
		t.outlook(p)
	}
	return t
}

// outlook adds what is to come, and the end in other airs.
func (t *table) outlook(p *plan.Plan) {
	g := p.Progress
	t.add("", moment(p.Summary.Finish), t.number(g.Left, 1), t.hours(g.Actual), "", t.text("task-kind.to-come"), "", "", "", "", "",
		t.text("seamcalc.tasks-done", "done", g.Done, "tasks", g.Tasks), "", "", t.fact(g.Basis), "")
	for _, w := range p.WhatIf {
		finish := moment(w.Finish)
		if finish == "" {
			finish = t.text("seamcalc.no-date")
		}
		name := plan.Tell("what-if."+w.Compound, "temperature", plan.Celsius(w.Celsius), "humidity", plan.Share(w.Humidity))
		if w.Today {
			name = plan.Tell("what-if.today", "air", name)
		}
		t.add("", finish, "", "", "", t.text("task-kind.what-if"), "", "", "", "", "", t.fact(name), "", "", t.text("seamcalc.coat-to-coat", "hours", w.Coat), "")
	}
}

// doneOf says how far a group of steps is.
func (t *table) doneOf(g plan.Group) string {
	switch g.Done {
	case 0:
		return t.text("task-kind." + g.Kind)
	case len(g.Tasks):
		return t.text("task-kind.done")
	}
	return t.text("seamcalc.done-of", "done", g.Done, "steps", len(g.Tasks))
}
