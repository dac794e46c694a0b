package main

import (
	"io"

	"seamwright/calc/plan"
)

// sample is the project that the examples name.
const sample = "assets/samples/kiln-yard-studio.seam.yaml"

// part runs a verb that shows one part of the plan as a table.
func part(name, does string, build func(teller, *plan.Plan) *table) func([]string, io.Reader, io.Writer, io.Writer) int {
	return func(args []string, in io.Reader, out, errw io.Writer) int {
		c := newCall(name, does, name+" "+sample+" --format csv", out, errw)
		language := c.language()
		format := c.String("format", "text", "text, csv or json")
		explain := c.Bool("explain", false, "in text, say beneath each row how it came about")
		if code, done := c.parse(args); done {
			return code
		}
		j, p := c.plan(in)
		if p == nil {
			return exitUsage
		}
		t := build(teller{voice(*language, j), j, *format != "text"}, p)
		t.explain = *explain
		if err := t.write(out, *format); err != nil {
			c.explain(err)
			return exitUsage
		}
		return exitFine
	}
}

func runPlan(args []string, in io.Reader, out, errw io.Writer) int {
	c := newCall("plan", "everything that the calculation answers, as the plan's JSON", "plan "+sample+" > plan.json", out, errw)
	language := c.language()
	if code, done := c.parse(args); done {
		return code
	}
	j, p := c.plan(in)
	if p == nil {
		return exitUsage
	}
	if err := plan.Write(out, p, voice(*language, j).Fact); err != nil {
		c.explain(err)
		return exitUsage
	}
	return exitFine
}

func runCheck(args []string, in io.Reader, out, errw io.Writer) int {
	c := newCall("check", "the plan held against the rule book", "check "+sample, out, errw)
	language := c.language()
	format := c.String("format", "text", "text, csv or json")
	if code, done := c.parse(args); done {
		return code
	}
	j, p := c.plan(in)
	if p == nil {
		return exitUsage
	}
	say := voice(*language, j)
	write := func() error { return writeFindings(out, say, p.Checks) }
	if *format != "text" {
		write = func() error { return checks(teller{say, j, true}, p).write(out, *format) }
	}
	if err := write(); err != nil {
		c.explain(err)
		return exitUsage
	}
	for _, k := range p.Checks {
		if k.Level == plan.Error {
			return exitBroken
		}
	}
	return exitFine
}

// checks lists the findings.
func checks(tell teller, p *plan.Plan) *table {
	t := &table{teller: tell, columns: columns("level", "rule", "where", "finding", "source"), value: p.Checks}
	for _, k := range p.Checks {
		t.add(level(tell.say, k.Level), k.Rule, k.Where, t.fact(k.Says), t.fact(k.Source))
	}
	return t
}
