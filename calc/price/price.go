// Package price turns quantities into money: packs at least cost, the hours of the sequence at the worth of an own hour,
// tax once on the taxable sum, a quote compared, and every cent of the total given to a surface, a room and a trade. It
// also weighs the sheets and tells whether they go through door and corridor.
//
// Money is whole hundredths; a line of the takeoff is rounded once and parts are split by largest remainders, so that
// parts always add up to the whole. Waste is counted as need x (1 + w), rounded up to whole packs; another convention
// in books, need / (1 - w), gives slightly more.
package price

import (
	"math"
	"strings"

	"seamwright/calc/finish"
	"seamwright/calc/job"
	"seamwright/calc/money"
	"seamwright/calc/plan"
)

// Charges of the job as a whole, in the project's currency.
var (
	delivery  = job.Figure{ID: "delivery", Value: 0, Unit: "currency", Source: "your supplier", Status: job.Practice}
	hire      = job.Figure{ID: "tool-hire", Value: 0, Unit: "currency", Source: "your supplier", Status: job.Practice}
	quoteDays = job.Figure{ID: "quote-days", Value: 0, Unit: "workdays", Source: "the crew's quote", Status: job.Practice}
	spare     = job.Figure{ID: "sheet-spare", Value: 0, Unit: "%", Source: "textbook example: 5 %", Status: job.Read}
)

// Price fills Plan.Takeoff and Plan.Cost, and the weight in its summary, whose hours the sequence has filled. items are the
// quantities of everything but sheets; their Supply holds a kind of supply or the id of one. measures are what costs are
// shared by.
func Price(j *job.Job, p *plan.Plan, items []plan.Item, measures []finish.Measure) {
	areas := netAreas(p)
	bill(j, p, items, areas)
	remaining(j, p, areas)
	p.Handling = handling(j, p)
	p.Summary.Weight = p.Handling.Delivery
	p.Cost.Hired = hired(j, p, p.Cost)
	share(j, p, areas, measures)
}

// Bill fills Plan.Takeoff and the sums of Plan.Cost, which layouts are chosen by: the same that Price prints.
func Bill(j *job.Job, p *plan.Plan, items []plan.Item) { bill(j, p, items, netAreas(p)) }

func bill(j *job.Job, p *plan.Plan, items []plan.Item, areas map[string]float64) {
	p.Takeoff = sheetRows(j, p, areas, up(p.Schedule))
	for _, item := range items {
		item.Kind = kindOf(j, item.Supply)
		p.Takeoff = append(p.Takeoff, packRows(j, item)...)
	}
	p.Takeoff = append(p.Takeoff, charges(j)...)
	for i := range p.Takeoff {
		row := &p.Takeoff[i]
		row.Cost = row.Price.Times(row.Buy)
		row.Need = fine(row.Need)
	}
	p.Cost = costOf(j, p)
}

// fine keeps a ten-thousandth of a unit: less than anybody measures, and a whole number of packs stays one.
func fine(n float64) float64 { return math.Round(n*1e4) / 1e4 }

// Whole numbers that money is multiplied by: a tax rate in millionths (four decimals of a percent), hours in hundredths as
// the plan gives them, areas in ten-thousandths of their unit.
const (
	taxGrain  = 1_000_000
	hourGrain = 100
	areaGrain = 10_000
)

// parts counts the grains in a quantity.
func parts(quantity, grain float64) int64 { return int64(math.Round(quantity * grain)) }

// charge is what a charge of the job as a whole comes to.
func charge(j *job.Job, f job.Figure) money.Money { return max(money.Money(parts(f.Of(j), 100)), 0) }

// charges are the rows of what is charged for the job as a whole.
func charges(j *job.Job) []plan.Item {
	var rows []plan.Item
	for _, f := range []job.Figure{delivery, hire} {
		if v := charge(j, f); v > 0 {
			rows = append(rows, plan.Item{Item: plan.Tell("item." + f.ID), Record: strings.ReplaceAll(f.ID, "-", " "), Kind: plan.ChargeKind, Group: "sundries", Need: 1, Unit: "count", Buy: 1,
				Price: v, Basis: plan.Tell("price.charge", "what", plan.Tell("figure."+f.ID)), Source: plan.Cited(plan.Cite(f.Source), string(job.Entered))})
		}
	}
	return rows
}

// costOf adds up the takeoff and the hours. Tax is on material and hire, not on delivery and not on own time.
func costOf(j *job.Job, p *plan.Plan) plan.Cost {
	c := plan.Cost{Currency: j.Currency, Quote: j.Site.Quote}
	for _, row := range p.Takeoff {
		c.Material += row.Cost
	}
	untaxed := charge(j, delivery)
	c.Tax = (c.Material - untaxed).Part(parts(j.Site.TaxRate, taxGrain), taxGrain)
	c.Labour = j.Site.Rate.Part(parts(p.Summary.Hours, hourGrain), hourGrain)
	c.Total = c.Material + c.Labour + c.Tax
	c.Rate, c.RateSource, c.OwnTime = j.Site.Rate, plan.Entered(), c.Labour
	if j.Site.Assumed > 0 {
		c.Rate, c.RateSource, c.OwnTime = j.Site.Assumed, plan.Cite(j.Site.Assumes), j.Site.Assumed.Part(parts(p.Summary.Hours, hourGrain), hourGrain)
	}
	c.Basis = plan.Tell("price.total", "material", c.Material, "hours", p.Summary.Hours, "rate", j.Site.Rate, "taxed", c.Material-untaxed, "tax", plan.Share(j.Site.TaxRate))
	c.BreakEven = BreakEven(c.Quote, c.Material+c.Tax, p.Summary.Hours)
	return c
}

// hired sets the crew's quote beside doing it oneself; all zero without a quote.
func hired(j *job.Job, p *plan.Plan, c plan.Cost) plan.Hired {
	if c.Quote == 0 {
		return plan.Hired{Basis: plan.Tell("price.no-quote")}
	}
	h := plan.Hired{Quote: c.Quote, CrewDays: quoteDays.Of(j), Outlay: c.Material + c.Tax, Saved: c.Quote - c.Material - c.Tax,
		OwnHours: p.Summary.Hours, OwnDays: p.Summary.Days, BreakEven: c.BreakEven}
	h.Basis = plan.Tell("price.hired", "quote", h.Quote, "outlay", h.Outlay, "saved", h.Saved, "hours", h.OwnHours, "each", h.BreakEven, "rate", j.Site.Rate, "labor", c.Labour)
	return h
}

// BreakEven is what an own hour must be worth for doing it oneself to cost as much as the quote: (quote - outlay) /
// hours. It is 0 without a quote or hours, and negative where the material alone costs more than the quote.
func BreakEven(quote, outlay money.Money, hours float64) money.Money {
	if quote == 0 || parts(hours, hourGrain) <= 0 {
		return 0
	}
	return (quote - outlay).Part(hourGrain, parts(hours, hourGrain))
}

// Figures are the adjustable numbers of pricing.
var Figures = []job.Figure{delivery, hire, quoteDays, spare}
