package main

import (
	"math"

	"seamwright/calc/length"
	"seamwright/calc/plan"
)

// runSite shows what is looked at and measured on site: what to check before covering, level lines and getting sheets in.
var runSite = part("site", "what to check and photograph before covering, level lines, weights and the way in", site)

// site lists what is looked at and measured on site.
func site(tell teller, p *plan.Plan) *table {
	t := &table{teller: tell, columns: columns("about", "where", "what", "source"), repeats: 2, explains: 1,
		value: map[string]any{"before_covering": p.Before, "levels": p.Levels, "handling": p.Handling, "sizes": p.Sizes}}
	for _, l := range p.Before {
		t.add(t.text("seamcalc.before-covering", "what", plan.Tell("hidden."+l.What)), l.Surface, t.fact(l.Text), t.fact(l.Source))
	}
	for _, l := range p.Levels {
		t.levelLine(&l)
	}
	t.handling(&p.Handling, p.Sizes)
	return t
}

// levelLine adds how the lowest course of a wall meets its floor.
func (t *table) levelLine(l *plan.LevelLine) {
	key := "seamcalc.level-line-covered"
	if !l.Covered {
		key = "seamcalc.level-line-uncovered"
	}
	about, source := t.text("seamcalc.level-line"), t.text("seamcalc.measured-floor")
	t.add(about, l.Surface, t.text(key, "line", l.Line, "high", l.High.X, "gap", l.Largest), source)
	for _, s := range l.Sheets {
		t.add(about, l.Surface+" "+s.Panel, t.text("seamcalc.level-sheet", "left", s.Left, "right", s.Right, "shim", s.Shim, "rip", s.Rip), source)
	}
}

// handling adds what getting the sheets in asks for, and which sizes may be bought.
func (t *table) handling(h *plan.Handling, sizes []plan.Offer) {
	for _, s := range h.Sheets {
		way := plan.Tell("way.through")
		switch {
		case s.Passes:
		case s.Longest == 0:
			way = plan.Tell("way.too-wide")
		default:
			way = plan.Tell("way.too-long", "longest", s.Longest)
		}
		people := plan.Tell("people.one")
		if s.TwoPeople {
			people = plan.Tell("people.two")
		}
		t.add(t.text("group.sheets"), t.text("seamcalc.product-size", "product", s.Product, "width", s.Size[1], "length", s.Size[0]),
			t.text("seamcalc.lift", "number", s.Count, "weight", plan.Kilograms(s.Weight), "people", people, "stack", s.Stack, "way", way), t.fact(h.Source))
	}
	for _, o := range sizes {
		what := plan.Tell("offer.bought")
		switch {
		case !o.Why.None():
			what = plan.Tell("offer.bought-though", "reason", o.Reason, "why", o.Why)
		case !o.Offered:
			what = plan.Tell("offer.not-bought", "reason", o.Reason)
		}
		t.add(t.text("seamcalc.sizes"), t.text("seamcalc.product-weight", "product", o.Product, "size", o.Name, "weight", plan.Kilograms(o.Weight)), t.fact(what), t.fact(o.Source))
	}
	if len(h.Sheets) > 0 {
		t.add(t.text("seamcalc.delivery"), "", t.text("seamcalc.delivery-load", "weight", plan.Kilograms(h.Delivery), "stacked", plan.KilogramsM2(h.Stacked),
			"usual", plan.KilogramsM2(h.Floor), "floor", length.Area(math.Round(h.Needs*float64(length.SquareMetre)))), t.fact(h.Source))
	}
}
