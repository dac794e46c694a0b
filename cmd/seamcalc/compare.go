package main

import (
	"seamwright/calc"
	"seamwright/calc/plan"
)

var runCompare = part("compare", "the project as drawn, its alternatives and a hired crew side by side, for the job and wall by wall", compare)

// compare sets the variants and their walls side by side.
func compare(tell teller, p *plan.Plan) *table {
	drawn := tell.text("seamcalc.as-drawn")
	all := append([]plan.Alternative{calc.Compared(drawn, tell.j, p)}, p.Alternatives...)
	t := &table{teller: tell, value: all, repeats: 1, columns: columns("alternative", "where", ">cost", ">sheets", ">at-least", ">days", ">hours", ">waste", ">butt-joint",
		">"+weightColumn(tell), ">offcuts-kept")}
	whole := t.text("seamcalc.whole-job")
	for _, a := range all {
		days := t.count(a.Days)
		if a.Days == 0 && a.Hours > 0 {
			days = t.text("seamcalc.no-date") // too cold to promise one
		}
		t.add(a.Name, whole, t.money(a.Cost), t.count(a.Sheets), t.count(a.Bound), days, t.number(a.Hours, 1),
			t.number(a.Waste*100, 1), t.say.Length(a.ButtJoint+a.MixedJoint), t.weight(a.Weight), t.count(a.Kept))
	}
	if h := p.Cost.Hired; h.Quote > 0 {
		days := ""
		if h.CrewDays > 0 {
			days = t.quantity(h.CrewDays)
		}
		t.add(t.text("seamcalc.hired-crew"), whole, t.money(h.Quote), "", "", days, t.number(0, 1), "", "", "", "")
	}
	for _, a := range all {
		for _, s := range a.BySurface {
			t.add(a.Name, s.Surface, t.money(s.Cost), t.count(s.Sheets), "", t.number(s.Days, 2), t.number(s.Hours, 1), "", "", t.weight(s.Weight), t.count(s.Kept))
		}
	}
	return t
}

// weightColumn is the column of weights, whose head names their unit.
func weightColumn(t teller) string {
	if t.say.Units().Imperial {
		return "weight-lb"
	}
	return "weight-kg"
}
