package main

import (
	"cmp"
	"fmt"
	"io"
	"slices"
	"strings"

	"seamwright/calc"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
)

// sample is the project that the examples name.
const sample = "assets/samples/kiln-yard-studio.seam.yaml"

// part runs a verb that shows one part of the plan as a table.
func part(name, does string, build func(*job.Job, *plan.Plan) *table) func([]string, io.Reader, io.Writer, io.Writer) int {
	return func(args []string, in io.Reader, out, errw io.Writer) int {
		c := newCall(name, does, name+" "+sample+" --format csv", out, errw)
		format := c.String("format", "text", "text, csv or json")
		if code, done := c.parse(args); done {
			return code
		}
		j, p := c.plan(in)
		if p == nil {
			return exitUsage
		}
		if err := build(j, p).write(out, *format); err != nil {
			c.explain(err)
			return exitUsage
		}
		return exitFine
	}
}

func runPlan(args []string, in io.Reader, out, errw io.Writer) int {
	c := newCall("plan", "everything that the calculation answers, as the plan's JSON", "plan "+sample+" > plan.json", out, errw)
	if code, done := c.parse(args); done {
		return code
	}
	_, p := c.plan(in)
	if p == nil {
		return exitUsage
	}
	if err := writeJSON(out, p); err != nil {
		c.explain(err)
		return exitUsage
	}
	return exitFine
}

func runCheck(args []string, in io.Reader, out, errw io.Writer) int {
	c := newCall("check", "the plan held against the rule book", "check "+sample, out, errw)
	format := c.String("format", "text", "text, csv or json")
	if code, done := c.parse(args); done {
		return code
	}
	_, p := c.plan(in)
	if p == nil {
		return exitUsage
	}
	t := &table{head: []string{"Level", "Rule", "Where", "Finding", "Source"}, value: p.Checks}
	code := exitFine
	for _, k := range p.Checks {
		t.add(string(k.Level), k.Rule, k.Where, k.Message, k.Source)
		if k.Level == plan.Error {
			code = exitBroken
		}
	}
	if err := t.write(out, *format); err != nil {
		c.explain(err)
		return exitUsage
	}
	return code
}

var runTakeoff = part("takeoff", "what to buy, with what is needed and how that came about", func(j *job.Job, p *plan.Plan) *table {
	t := &table{head: []string{"Group", "Item", "Need", "Unit", "Buy", "Pack", "Price", "Cost", "Basis"},
		right: []bool{false, false, true, false, true, false, true, true}, value: p.Takeoff}
	for _, i := range p.Takeoff {
		t.add(i.Group, i.Item, fmt.Sprintf("%.4g", i.Need), i.Unit, fmt.Sprint(i.Buy), i.Pack, i.Price.String(), i.Cost.String(), i.Basis)
	}
	t.add("", "material", "", "", "", "", "", p.Cost.Material.String(), "")
	t.add("", "labour", "", "", "", "", "", p.Cost.Labour.String(), "")
	t.add("", "tax", "", "", "", "", "", p.Cost.Tax.String(), "")
	t.add("", "total "+p.Cost.Currency, "", "", "", "", "", p.Cost.Total.String(), "")
	return t
})

var runCutlist = part("cutlist", "every sheet with its cuts in order and the pieces that they give", func(j *job.Job, p *plan.Plan) *table {
	imperial := j.Units != job.Metric
	show := func(l length.Length) string { return l.Show(imperial) }
	t := &table{head: []string{"Sheet", "Product", "Size", "Source", "Step", "What"}, value: p.Sheets}
	for _, s := range p.Sheets {
		size := show(s.Size[0]) + " x " + show(s.Size[1])
		for _, c := range s.Cuts {
			what := fmt.Sprintf("%s at %s from the left end, %s to %s", c.Kind, show(c.From.X), show(c.From.Y), show(c.To.Y))
			if c.From.Y == c.To.Y {
				what = fmt.Sprintf("%s at %s from the near edge, %s to %s", c.Kind, show(c.From.Y), show(c.From.X), show(c.To.X))
			}
			t.add(s.ID, s.Product, size, string(s.Source), fmt.Sprintf("cut %d", c.Order), what)
		}
		for _, q := range s.Parts {
			t.add(s.ID, s.Product, size, string(s.Source), "piece", fmt.Sprintf("%s %s x %s%s", q.Panel, show(q.Rect.W), show(q.Rect.H), turned(q)))
		}
		for _, o := range s.Offcuts {
			t.add(s.ID, s.Product, size, string(s.Source), "left", show(o.W)+" x "+show(o.H))
		}
	}
	return t
})

func turned(q plan.Part) string {
	if q.Turned {
		return ", stands upright"
	}
	return ""
}

var runSchedule = part("schedule", "the sequence of the work, with waits and inspections", func(j *job.Job, p *plan.Plan) *table {
	t := &table{head: []string{"Start", "Finish", "Hours", "Slack", "Kind", "Task", "After"},
		right: []bool{false, false, true, true}, value: p.Schedule}
	byDay := slices.Clone(p.Schedule)
	slices.SortStableFunc(byDay, func(a, b plan.Task) int { // tasks without a promised day stand last
		switch {
		case a.Start == "" || b.Start == "":
			return cmp.Compare(b.Start, a.Start)
		default:
			return cmp.Compare(a.Start, b.Start)
		}
	})
	for _, k := range byDay {
		kind := k.Kind
		if k.Done {
			kind = "done"
		}
		t.add(strings.Replace(k.Start, "T", " ", 1), strings.Replace(k.Finish, "T", " ", 1), fmt.Sprintf("%.1f", k.Hours), fmt.Sprintf("%.1f", k.Slack), kind, k.Name, strings.Join(k.After, " "))
	}
	return t
})

var runCompare = part("compare", "the project as drawn and its alternatives side by side", func(j *job.Job, p *plan.Plan) *table {
	all := append([]plan.Alternative{calc.Compared("as drawn", j, p)}, p.Alternatives...)
	t := &table{head: []string{"Alternative", "Cost", "Sheets", "At least", "Days", "Hours", "Waste %", "Butt joint", "Weight kg", "Offcuts kept"},
		right: []bool{false, true, true, true, true, true, true, true, true, true}, value: all}
	for _, a := range all {
		t.add(a.Name, a.Cost.String(), fmt.Sprint(a.Sheets), fmt.Sprint(a.Bound), fmt.Sprint(a.Days), fmt.Sprintf("%.1f", a.Hours),
			fmt.Sprintf("%.1f", a.Waste*100), a.ButtJoint.Show(j.Units != job.Metric), fmt.Sprintf("%.0f", a.Weight), fmt.Sprint(a.Kept))
	}
	return t
})

// runReport answers for the documents that are not written yet.
func runReport(args []string, _ io.Reader, out, errw io.Writer) int {
	c := newCall("report", "the documents of the job, not part of this version yet", "report "+sample+" -o job.pdf", out, errw)
	c.String("o", "", "the document to write")
	if code, done := c.parse(args); done {
		return code
	}
	fmt.Fprintln(errw, "seamcalc report: documents are not part of this version yet; takeoff, cutlist and schedule print the same figures as tables")
	return exitUsage
}
