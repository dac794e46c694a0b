package main

import (
	"slices"

	"seamwright/calc/plan"
)

var runTakeoff = part("takeoff", "what to buy, with what is needed and how that came about, what is used and still to buy", takeoff)

// takeoff lists what to buy, and what it comes to.
func takeoff(tell teller, p *plan.Plan) *table {
	t := &table{teller: tell, value: p.Takeoff, repeats: 1, explains: 2, columns: columns("group", "item", ">need", "unit", ">buy", "pack", "at-the-counter",
		">price", ">cost", ">used", ">expected", ">left", ">still-to-buy", "basis", "source")}
	begun := p.Progress.Done > 0 || slices.ContainsFunc(p.Takeoff, func(i plan.Item) bool { return i.Used > 0 })
	t.hush("buy", "pack") // said at the counter
	if !begun {
		t.hush("used", "expected", "left", "still-to-buy")
	}
	for k := range p.Takeoff {
		i := &p.Takeoff[k]
		t.add(t.text("group."+i.Group), t.fact(i.Item), t.quantity(i.Need), t.fact(plan.Unit(i.Unit)), t.count(i.Buy), t.pack(i.Pack), t.fact(i.Ask()), t.money(i.Price), t.money(i.Cost),
			t.quantity(i.Used), t.quantity(i.Expected), t.quantity(i.Left), t.count(i.StillBuy), t.fact(i.Basis), t.fact(i.Source))
	}
	t.sums(p, begun)
	return t
}

// sum adds a row that is no purchase.
func (t *table) sum(name, amount, basis string) {
	t.add("", name, "", "", "", "", "", "", amount, "", "", "", "", basis, "")
}

// sums are what the takeoff comes to, and where it goes.
func (t *table) sums(p *plan.Plan, begun bool) {
	c := &p.Cost
	t.sum(t.text("seamcalc.material"), t.money(c.Material), "")
	t.sum(t.text("seamcalc.labor"), t.money(c.Labour), "")
	t.sum(t.text("seamcalc.tax"), t.money(c.Tax), "")
	t.sum(t.text("seamcalc.total", "currency", c.Currency), t.money(c.Total), t.fact(c.Basis))
	for _, s := range c.ByTrade {
		if s.Cost != 0 {
			t.sum(t.text("seamcalc.of-which", "part", plan.Tell("group."+s.Name)), t.money(s.Cost), t.text("seamcalc.by-trade"))
		}
	}
	for _, s := range c.ByRoom {
		if s.Cost != 0 {
			t.sum(t.text("seamcalc.in-room", "room", s.Name), t.money(s.Cost), t.text("seamcalc.by-room"))
		}
	}
	if c.PerArea != 0 {
		t.sum(t.text("seamcalc.per-area", "unit", plan.Unit(c.AreaUnit)), t.money(c.PerArea), t.text("seamcalc.per-area-basis"))
	}
	if begun {
		t.sum(t.text("seamcalc.still-to-pay"), t.money(p.Progress.LeftToBuy), t.text("seamcalc.still-to-pay-basis"))
	}
	if h := c.Hired; h.Quote > 0 {
		t.sum(t.text("seamcalc.hired-asks"), t.money(h.Quote), t.fact(h.Basis))
		t.sum(t.text("seamcalc.break-even"), t.money(h.BreakEven), t.text("seamcalc.break-even-basis", "saved", h.Saved, "hours", h.OwnHours))
	}
}
