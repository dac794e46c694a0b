package main

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"seamwright/assets/words"
	"seamwright/calc"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
)

// sample is the project that the examples name.
const sample = "assets/samples/kiln-yard-studio.seam.yaml"

// part runs a verb that shows one part of the plan as a table.
func part(name, does string, build func(*words.Voice, *job.Job, *plan.Plan) *table) func([]string, io.Reader, io.Writer, io.Writer) int {
	return func(args []string, in io.Reader, out, errw io.Writer) int {
		c := newCall(name, does, name+" "+sample+" --format csv", out, errw)
		format := c.String("format", "text", "text, csv or json")
		explain := c.Bool("explain", false, "in text, say beneath each row how it came about")
		if code, done := c.parse(args); done {
			return code
		}
		j, p := c.plan(in)
		if p == nil {
			return exitUsage
		}
		say := voice(j)
		t := build(say, j, p)
		t.say = say
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
	if code, done := c.parse(args); done {
		return code
	}
	j, p := c.plan(in)
	if p == nil {
		return exitUsage
	}
	if err := plan.Write(out, p, voice(j).Fact); err != nil {
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
	j, p := c.plan(in)
	if p == nil {
		return exitUsage
	}
	say := voice(j)
	t := &table{say: say, head: []string{"Level", "Rule", "Where", "Finding", "Source"}, value: p.Checks}
	code := exitFine
	for _, k := range p.Checks {
		t.add(string(k.Level), k.Rule, k.Where, say.Fact(k.Says), say.Fact(k.Source))
		if k.Level == plan.Error {
			code = exitBroken
		}
	}
	write := func() error { return t.write(out, *format) }
	if *format == "text" {
		write = func() error { return writeFindings(out, say, p.Checks) }
	}
	if err := write(); err != nil {
		c.explain(err)
		return exitUsage
	}
	return code
}

var runTakeoff = part("takeoff", "what to buy, with what is needed and how that came about, what is used and still to buy", takeoff)

// takeoff lists what to buy, and what it comes to.
func takeoff(say *words.Voice, j *job.Job, p *plan.Plan) *table {
	t := &table{head: []string{"Group", "Item", "Need", "Unit", "Buy", "Pack", "At the counter", "Price", "Cost", "Used", "Expected", "Left", "Still to buy", "Basis", "Source"},
		right: []bool{false, false, true, false, true, false, false, true, true, true, true, true, true}, value: p.Takeoff, repeats: 1, explains: 2}
	begun := p.Progress.Done > 0 || slices.ContainsFunc(p.Takeoff, func(i plan.Item) bool { return i.Used > 0 })
	t.quiet = []string{"Buy", "Pack"} // said at the counter
	if !begun {
		t.quiet = append(t.quiet, "Used", "Expected", "Left", "Still to buy")
	}
	for k := range p.Takeoff {
		i := &p.Takeoff[k]
		t.add(i.Group, say.Fact(i.Item), quantity(i.Need), i.Unit, fmt.Sprint(i.Buy), i.Pack, i.Ask(), i.Price.String(), i.Cost.String(),
			quantity(i.Used), quantity(i.Expected), quantity(i.Left), fmt.Sprint(i.StillBuy), say.Fact(i.Basis), say.Fact(i.Source))
	}
	sum := func(name, amount, basis string) {
		t.add("", name, "", "", "", "", "", "", amount, "", "", "", "", basis, "")
	}
	sum("material", p.Cost.Material.String(), "")
	sum("labour", p.Cost.Labour.String(), "")
	sum("tax", p.Cost.Tax.String(), "")
	sum("total "+p.Cost.Currency, p.Cost.Total.String(), say.Fact(p.Cost.Basis))
	shared := func(of, basis string, parts []plan.ShareCost) {
		for _, s := range parts {
			if s.Cost != 0 {
				sum(of+s.Name, s.Cost.String(), basis)
			}
		}
	}
	shared("of which ", "every cent of the total stands with one trade", p.Cost.ByTrade)
	shared("in room ", "every cent of the total stands with one room; walls stand in compare", p.Cost.ByRoom)
	if p.Cost.PerArea != 0 {
		sum("per "+p.Cost.AreaUnit+" of lining", p.Cost.PerArea.String(), "total over the lined area, openings taken out")
	}
	if begun {
		sum("still to pay", p.Progress.LeftToBuy.String(), "packs still to buy, before tax")
	}
	if h := p.Cost.Hired; h.Quote > 0 {
		sum("a hired crew asks", h.Quote.String(), say.Fact(h.Basis))
		sum("break-even for an own hour", h.BreakEven.String(), fmt.Sprintf("%s / %.2f h", h.Saved, h.OwnHours))
	}
	return t
}

// quantity writes what is needed: to the hundredth below ten, else to the tenth.
func quantity(n float64) string {
	places := 1
	if math.Abs(n) < 10 {
		places = 2
	}
	return strings.TrimSuffix(strconv.FormatFloat(n, 'f', places, 64), "."+strings.Repeat("0", places))
}

var runCutlist = part("cutlist", "every sheet with its cuts in order and the pieces that they give", cutlist)

// cutlist lists the cuts and pieces of every sheet.
func cutlist(say *words.Voice, j *job.Job, p *plan.Plan) *table {
	imperial := j.Units != job.Metric
	show := func(l length.Length) string { return l.Show(imperial) }
	t := &table{head: []string{"Sheet", "Product", "Size", "Source", "Step", "What"}, value: p.Sheets, repeats: 4}
	for _, s := range p.Sheets {
		size := show(s.Size[0]) + " x " + show(s.Size[1])
		for _, c := range s.Cuts {
			t.add(s.ID, s.Product, size, string(s.Source), fmt.Sprintf("cut %d", c.Order),
				fmt.Sprintf("%s at %s from the %s of the piece, set-up %d", c.Kind, show(c.Measure), edgeNames[c.Edge], c.Setup))
		}
		for _, q := range s.Parts {
			if k := q.Pair; k != nil {
				ends := "up the left and the right end"
				if k.Steep(q.Rect) {
					ends = "along the lower and the upper edge"
				}
				t.add(s.ID, s.Product, size, string(s.Source), fmt.Sprintf("cut %d", k.Order),
					fmt.Sprintf("slanted from %s to %s %s of the piece, which parts %s from %s", show(k.Measures[0]), show(k.Measures[1]), ends, q.Panel, k.Panel))
			}
		}
		for _, q := range s.Parts {
			words := fmt.Sprintf("%s %s x %s%s", q.Panel, show(q.Rect.W), show(q.Rect.H), goes(q))
			if q.Ease > 0 {
				words += "; as long as its bay: trim " + show(q.Ease) + " off one end"
			}
			if q.Pair != nil {
				words += "; with it " + q.Pair.Panel + goes(plan.Part{Surface: q.Pair.Surface, Later: q.Pair.Later, Turned: q.Pair.Turned})
			}
			t.add(s.ID, s.Product, size, string(s.Source), "piece", words)
		}
		for _, o := range s.Rests {
			t.add(s.ID, s.Product, size, string(s.Source), string(o.Use), show(o.Rect.W)+" x "+show(o.Rect.H))
		}
		if s.Like != s.ID && len(s.Cuts) > 0 {
			t.add(s.ID, s.Product, size, string(s.Source), "alike", "cut as "+s.Like+", at the same settings")
		}
	}
	return t
}

// edgeNames are the edges of a piece as its sheet lies, its length from left to right.
var edgeNames = map[plan.Side]string{plan.Left: "left end", plan.Right: "right end", plan.Bottom: "lower edge", plan.Top: "upper edge"}

// goes says where a part hangs, how, and that it waits as an offcut for a surface that is hung later.
func goes(q plan.Part) string {
	words := ""
	if q.Surface != "" {
		words = ", for " + q.Surface
	}
	if q.Later {
		words += ", later"
	}
	if q.Turned {
		words += ", stands upright"
	}
	return words
}

var runSchedule = part("schedule", "the sequence of the work, with waits and inspections, and its end in other air", schedule)

// schedule lists the tasks by date.
func schedule(say *words.Voice, j *job.Job, p *plan.Plan) *table {
	t := &table{head: []string{"Start", "Finish", "Hours", "Actual", "Slack", "Kind", "Day", "Room", "Trade", "Step", "Id", "Task", "After", "Meanwhile", "Basis", "Source"},
		right: []bool{false, false, true, true, true}, value: p.Schedule, explains: 4, quiet: []string{"Day", "Room", "Trade", "Step"}}
	hours := func(h float64) string {
		if h == 0 {
			return ""
		}
		return fmt.Sprintf("%.1f", h)
	}
	groups := plan.Groups(p.Schedule)
	for _, g := range groups {
		if len(g.Tasks) > 1 { // one alone is its own group
			t.heading(moment(g.Start), moment(g.Finish), fmt.Sprintf("%.1f", g.Hours), "", fmt.Sprintf("%.1f", g.Slack), doneOf(g), "", "", "", "", "", fmt.Sprintf("%s, %s: %d steps", g.Room, g.Trade, len(g.Tasks)), "", "", "", "")
		}
		for _, k := range g.Tasks {
			kind := k.Kind
			if k.Done {
				kind = "done"
			}
			t.add(moment(k.Start), moment(k.Finish), fmt.Sprintf("%.1f", k.Hours), hours(k.Actual), fmt.Sprintf("%.1f", k.Slack), kind, k.Day, k.Room, string(k.Trade), string(k.Step), k.ID, say.Fact(k.Name),
				strings.Join(k.After, " "), strings.Join(k.Meanwhile, " "), say.Fact(k.Basis), say.Fact(k.Source))
			if len(g.Tasks) > 1 {
				t.within("Start", "Finish", "Slack")
			}
		}
	}
	if len(groups) == 0 {
		return t
	}
	g := p.Progress
	t.add("", moment(p.Summary.Finish), fmt.Sprintf("%.1f", g.Left), hours(g.Actual), "", "to come", "", "", "", "", "", fmt.Sprintf("%d of %d tasks done", g.Done, g.Tasks), "", "", say.Fact(g.Basis), "")
	for _, w := range p.WhatIf {
		finish := moment(w.Finish)
		if finish == "" {
			finish = "no date"
		}
		name := fmt.Sprintf("at %s, %.0f %%, %s compound", temperature(j, w.Celsius), w.Humidity*100, map[string]string{"drying": "drying-type", "setting": "setting-type"}[w.Compound])
		if w.Today {
			name += " (as the project has it)"
		}
		t.add("", finish, "", "", "", "what if", "", "", "", "", "", name, "", "", fmt.Sprintf("%.1f h from coat to coat", w.Coat), "")
	}
	return t
}

// doneOf says how far a group of steps is.
func doneOf(g plan.Group) string {
	switch g.Done {
	case 0:
		return g.Kind
	case len(g.Tasks):
		return "done"
	}
	return fmt.Sprintf("%d of %d", g.Done, len(g.Tasks))
}

func moment(stamp string) string { return strings.Replace(stamp, "T", " ", 1) }

func temperature(j *job.Job, celsius float64) string {
	if j.Units == job.Metric {
		return fmt.Sprintf("%.0f °C", celsius)
	}
	return fmt.Sprintf("%.0f °F", celsius*1.8+32)
}

var runCompare = part("compare", "the project as drawn, its alternatives and a hired crew side by side, for the job and wall by wall", compare)

// compare sets the variants and their walls side by side.
func compare(say *words.Voice, j *job.Job, p *plan.Plan) *table {
	all := append([]plan.Alternative{calc.Compared("as drawn", j, p)}, p.Alternatives...)
	t := &table{head: []string{"Alternative", "Where", "Cost", "Sheets", "At least", "Days", "Hours", "Waste %", "Butt joint", "Weight " + weightUnit(j), "Offcuts kept"},
		right: []bool{false, false, true, true, true, true, true, true, true, true, true}, value: all, repeats: 1}
	for _, a := range all {
		days := fmt.Sprint(a.Days)
		if a.Days == 0 && a.Hours > 0 {
			days = "no date" // too cold to promise one
		}
		t.add(a.Name, "whole job", a.Cost.String(), fmt.Sprint(a.Sheets), fmt.Sprint(a.Bound), days, fmt.Sprintf("%.1f", a.Hours),
			fmt.Sprintf("%.1f", a.Waste*100), (a.ButtJoint + a.MixedJoint).Show(j.Units != job.Metric), fmt.Sprintf("%.1f", weight(j, a.Weight)), fmt.Sprint(a.Kept))
	}
	if h := p.Cost.Hired; h.Quote > 0 {
		days := ""
		if h.CrewDays > 0 {
			days = fmt.Sprintf("%.4g", h.CrewDays)
		}
		t.add("a hired crew", "whole job", h.Quote.String(), "", "", days, "0.0", "", "", "", "")
	}
	for _, a := range all {
		for _, s := range a.BySurface {
			t.add(a.Name, s.Surface, s.Cost.String(), fmt.Sprint(s.Sheets), "", fmt.Sprintf("%.2f", s.Days), fmt.Sprintf("%.1f", s.Hours), "", "", fmt.Sprintf("%.1f", weight(j, s.Weight)), fmt.Sprint(s.Kept))
		}
	}
	return t
}

// runSite shows what is looked at and measured on site: what to check before covering, level lines and getting sheets in.
var runSite = part("site", "what to check and photograph before covering, level lines, weights and the way in", site)

// site lists what is looked at and measured on site.
func site(say *words.Voice, j *job.Job, p *plan.Plan) *table {
	show := func(l length.Length) string { return l.Show(j.Units != job.Metric) }
	t := &table{head: []string{"About", "Where", "What", "Source"}, repeats: 2, explains: 1, value: map[string]any{"before_covering": p.Before, "levels": p.Levels, "handling": p.Handling, "sizes": p.Sizes}}
	for _, l := range p.Before {
		t.add("before covering: "+l.What, l.Surface, say.Fact(l.Text), say.Fact(l.Source))
	}
	for _, l := range p.Levels {
		covered := "the base trim covers it"
		if !l.Covered {
			covered = "no trim covers it"
		}
		t.add("level line", l.Surface, fmt.Sprintf("at %s above the floor's left end; the floor is highest at %s; widest gap %s: %s", show(l.Line), show(l.High.X), show(l.Largest), covered), "measured floor")
		for _, s := range l.Sheets {
			t.add("level line", l.Surface+" "+s.Panel, fmt.Sprintf("gap %s left, %s right; shim %s; rip %s", show(s.Left), show(s.Right), show(s.Shim), show(s.Rip)), "measured floor")
		}
	}
	h := p.Handling
	for _, s := range h.Sheets {
		way := "goes through"
		switch {
		case s.Passes:
		case s.Longest == 0:
			way = "does not go through: wider than the door or the stair's headroom is high"
		default:
			way = "does not go through; the longest is " + show(s.Longest)
		}
		people := "one person"
		if s.TwoPeople {
			people = "two people or a lift"
		}
		t.add("sheets", s.Product+" "+show(s.Size[1])+" x "+show(s.Size[0]), fmt.Sprintf("%d of %s: %s; stacks of %d at most on a usual floor; %s", s.Count, mass(j, s.Weight), people, s.Stack, way), say.Fact(h.Source))
	}
	for _, o := range p.Sizes {
		words := "may be bought"
		switch {
		case !o.Why.None():
			words = "may be bought though " + say.Fact(o.Reason) + ": " + say.Fact(o.Why)
		case !o.Offered:
			words = "not bought: " + say.Fact(o.Reason)
		}
		t.add("sizes", o.Product+" "+o.Name+", "+mass(j, o.Weight), words, say.Fact(o.Source))
	}
	if len(h.Sheets) > 0 {
		t.add("delivery", "", fmt.Sprintf("%s; one stack would load the floor with %s, %s is usual: spread it over %s at least",
			mass(j, h.Delivery), load(j, h.Stacked), load(j, h.Floor), ground(j, h.Needs)), say.Fact(h.Source))
	}
	return t
}

// Weights, floor loads and floors in the project's units; the factors are exact by definition.
const kilogramsPerPound, squareMetresPerFoot2 = 0.45359237, 0.3048 * 0.3048

func mass(j *job.Job, kg float64) string { return fmt.Sprintf("%.1f %s", weight(j, kg), weightUnit(j)) }

func weight(j *job.Job, kg float64) float64 {
	if j.Units == job.Metric {
		return kg
	}
	return kg / kilogramsPerPound
}

func weightUnit(j *job.Job) string {
	if j.Units == job.Metric {
		return "kg"
	}
	return "lb"
}

func load(j *job.Job, perM2 float64) string {
	if j.Units == job.Metric {
		return fmt.Sprintf("%.0f kg/m2", perM2)
	}
	return fmt.Sprintf("%.0f lb/ft2", perM2/kilogramsPerPound*squareMetresPerFoot2)
}

func ground(j *job.Job, m2 float64) string {
	if j.Units == job.Metric {
		return fmt.Sprintf("%.1f m2", m2)
	}
	return fmt.Sprintf("%.0f ft2", m2/squareMetresPerFoot2)
}
