package book

import (
	"math"
	"slices"
	"strings"

	"seamwright/calc"
	"seamwright/calc/job"
	"seamwright/calc/money"
	"seamwright/calc/plan"
)

// sources says what the plan rests on: the job's own assumptions, how each quantity came about, what the rule book found,
// and the figures of the trade with where they come from.
func (b *book) sources() {
	f := b.flow(b.say.Text("book.sources"), false)
	f.entry = f.title
	f.para(b.say.Text("book.sources-lead"))
	b.assumptions(f)
	b.checks(f)
	b.bases(f)
	b.figures(f)
	f.end()
}

// assumptions are what the project says of site and crew.
func (b *book) assumptions(f *flow) {
	s := &b.job.Site
	f.head(b.say.Text("book.assumptions"), 4*lineHigh)
	t := &table{columns: []column{{share: 1}, {share: 1}}}
	t.add(b.say.Text("book.air"), b.say.Text("book.air-of", "temperature", plan.Celsius(s.Celsius), "humidity", plan.Share(s.Humidity)))
	t.add(b.say.Text("book.crew"), b.say.Text("book.crew-of", "count", s.People, "hours", s.Hours))
	if from, ok := stamp(b.firstStart()); ok {
		t.add(b.say.Text("book.starts"), b.say.LongDate(from))
	}
	if b.priced() {
		t.add(b.say.Text("book.own-rate"), b.say.Money(b.plan.Cost.Rate)+" ("+b.say.Fact(b.plan.Cost.RateSource)+")")
		t.add(b.say.Text("book.tax-rate"), b.say.Percent(s.TaxRate))
		t.add(b.say.Text("book.prices-of"), strings.Join(b.priceDates(), ", "))
	}
	f.table(t)
}

// firstStart is when the first task begins.
func (b *book) firstStart() (first string) {
	for i := range b.plan.Schedule {
		if s := b.plan.Schedule[i].Start; s != "" && (first == "" || s < first) {
			first = s
		}
	}
	return first
}

// priceDates are the days that prices in use were set on.
func (b *book) priceDates() (days []string) {
	for i := range b.plan.Takeoff {
		if p := b.job.Product(b.plan.Takeoff[i].Supply); p != nil && p.Dated != "" {
			days = append(days, p.Dated)
		}
	}
	slices.Sort(days)
	return slices.Compact(days)
}

// checks are what the rule book says of the whole job and of every wall.
func (b *book) checks(f *flow) {
	if len(b.plan.Checks) == 0 {
		return
	}
	f.head(b.say.Text("book.checks"), 4*lineHigh)
	t := &table{columns: []column{{head: b.say.Text("book.number"), width: 24, right: true}, {head: b.say.Text("book.finding"), share: 3}, {head: b.say.Text("book.source"), share: 2}}}
	last := plan.Level("")
	for i := range b.plan.Checks {
		k := &b.plan.Checks[i]
		if k.Level != last {
			t.group(b.level(k.Level))
			last = k.Level
		}
		text := capital(b.plainly(b.message(k)))
		if k.Where != "" {
			text = b.name(k.Where) + ": " + b.plainly(b.message(k))
		}
		t.add(b.say.Value(i+1), text, capital(b.say.Fact(k.Source)))
	}
	f.table(t)
}

// bases say how each quantity came about.
func (b *book) bases(f *flow) {
	f.head(b.say.Text("book.bases"), 4*lineHigh)
	t := &table{columns: []column{{head: b.say.Text("book.item"), share: 2}, {head: b.say.Text("book.basis"), share: 3}, {head: b.say.Text("book.source"), share: 2}}}
	for i := range b.plan.Takeoff {
		k := &b.plan.Takeoff[i]
		t.add(b.itemName(k), capital(b.plainly(b.basis(k))), capital(b.say.Fact(k.Source)))
	}
	f.table(t)
}

// figures are the adjustable figures of the trade as this job has them.
func (b *book) figures(f *flow) {
	f.head(b.say.Text("book.figures"), 4*lineHigh)
	f.para(b.say.Text("book.figures-lead"))
	f.gap(6)
	t := &table{columns: []column{{head: b.say.Text("book.figure"), share: 3}, {head: b.say.Text("book.value"), width: 92, right: true}, {head: b.say.Text("book.source"), share: 3}}}
	for _, g := range calc.Figures() {
		value := g.Of(b.job)
		source := b.say.Fact(plan.Cited(plan.Cite(g.Source), string(g.Status)))
		if value != g.Value {
			source = b.say.Text("book.figure-own")
		}
		t.add(capital(b.say.Text("figure."+g.ID)), b.figureValue(g, value), capital(source))
	}
	f.table(t)
}

// figureUnits are the keys of the units that are words.
var figureUnits = map[string]string{
	"coats": "book.unit-coats", "degrees": "book.unit-degrees", "each": "book.unit-each", "ft/sheet": "book.unit-feet-a-sheet", "h each": "book.unit-hours-each",
	"h/room": "book.unit-hours-a-room", "minutes": "book.unit-minutes", "people": "book.unit-people", "sheet": "book.unit-sheets", "times": "book.unit-times",
	"workdays": "book.unit-workdays",
}

// raised writes the small figures of areas and volumes.
var raised = strings.NewReplacer("ft2", "ft²", "ft3", "ft³", "in3", "in³", "m2", "m²")

// figureValue is a figure with its unit; one that answers a question says yes or no.
func (b *book) figureValue(g job.Figure, value float64) string {
	number := b.say.Value(value)
	switch {
	case g.Unit == "yes = 1" && value != 0:
		return b.say.Text("book.yes")
	case g.Unit == "yes = 1":
		return b.say.Text("book.no")
	case g.Unit == "currency":
		return b.say.Money(money.Money(math.Round(100 * value)))
	case g.Unit == "count":
		return number
	case figureUnits[g.Unit] != "":
		return b.say.Text(figureUnits[g.Unit], "number", number)
	}
	return number + " " + raised.Replace(g.Unit)
}
