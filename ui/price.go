package ui

import (
	"strings"

	"seamwright/calc/money"
	"seamwright/calc/plan"
	"seamwright/scene/draft"

	"fyne.io/fyne/v2"
)

// priceView is the money: by wall, by kind, against a hired crew, and the alternatives side by side.
type priceView struct {
	w     *Window
	page  *page
	table *table
}

func newPriceView(w *Window) *priceView {
	v := &priceView{w: w}
	v.table = newTable(w, "No price yet: draw a room and choose a finish.", tableColumn{title: ""}, tableColumn{"sheets", 90, true},
		tableColumn{"days", 90, true}, tableColumn{"own hours", 100, true}, tableColumn{"money", 120, true})
	v.page = w.newPage(v.table)
	return v
}

func (v *priceView) name() string              { return "Price" }
func (v *priceView) object() fyne.CanvasObject { return v.page.box }

func (v *priceView) refresh(Change) {
	a := v.w.model.Plan
	if a == nil {
		v.table.set(nil)
		return
	}
	j := v.w.model.Doc.Job()
	c, s := a.Cost, a.Summary
	line := func(name string, m money.Money, bold bool, detail string) tableRow {
		return tableRow{detail: detail, cells: []cell{{text: name, bold: bold}, {}, {}, {}, {text: exactAmount(m, c.Currency), bold: bold}}}
	}
	rows := []tableRow{{heading: "By wall"}}
	for _, x := range c.BySurface {
		rows = append(rows, tableRow{tapped: func() { v.w.pickSurface(x.Surface); v.w.showTab(0) },
			cells: []cell{{text: draft.SurfaceName(x.Surface) + ", " + v.w.ledger.lining(j, x.Surface)}, {text: thousands(int64(x.Sheets))}, {text: oneDecimal(x.Days)},
				{text: oneDecimal(x.Hours)}, {text: exactAmount(x.Cost, c.Currency)}}})
	}
	for _, part := range []struct {
		name string
		list []plan.ShareCost
	}{{"By room", c.ByRoom}, {"By trade", c.ByTrade}} {
		rows = append(rows, tableRow{heading: part.name})
		for _, x := range part.list {
			rows = append(rows, line(draft.SurfaceName(x.Name), x.Cost, false, ""))
		}
	}
	rows = append(rows, tableRow{heading: "Together"}, line("Material", c.Material, false, "The sum of the shopping list before tax.\n"+v.w.voice().Fact(c.Basis)))
	if c.Labour > 0 {
		rows = append(rows, line("Own time", c.Labour, false, "Own hours at the rate that is set under Job."))
	}
	rows = append(rows, line("Tax", c.Tax, false, ""), tableRow{cells: []cell{{text: "All of it", bold: true}, {text: thousands(int64(s.SheetsBought))},
		{text: thousands(int64(s.Days))}, {text: oneDecimal(s.Hours)}, {text: exactAmount(c.Total, c.Currency), bold: true}}})
	if c.PerArea > 0 {
		rows = append(rows, line("For each "+strings.ReplaceAll(c.AreaUnit, "2", "²")+" lined", c.PerArea, false, ""))
	}
	rows = append(rows, v.hired(c.Hired, c.Currency)...)
	if len(a.Answers) > 0 {
		rows = append(rows, tableRow{heading: "Three answers, by what is made least: click one to choose it"})
		for _, x := range a.Answers {
			name := map[string]string{"cost": aims[0], "sheets": aims[1], "joints": aims[2]}[x.Aim]
			on := name == aimWord(v.w.standing())
			rows = append(rows, tableRow{tapped: func() { v.w.setAim(name) }, cells: []cell{{text: capital(name), bold: on}, {text: thousands(int64(x.Sheets))},
				{text: v.w.run(seams(&x)) + " butt"}, {}, {text: exactAmount(x.Cost, c.Currency)}}})
		}
	}
	rows = append(rows, v.whatIf(a)...)
	rows = append(rows, v.handling(a.Handling)...)
	v.table.set(rows)
	v.page.say("Shipped prices are placeholders: replace them with your supplier's under Job.")
}

// hired sets a crew's quote beside doing it oneself: money, own hours, days.
func (v *priceView) hired(h plan.Hired, currency string) []tableRow {
	if h.Quote == 0 {
		return []tableRow{{heading: "Against a hired crew", detail: "Enter what a crew asks for the whole job under Job, and the break-even rate stands here."}}
	}
	days := ""
	if h.CrewDays > 0 {
		days = trimZero(h.CrewDays)
	}
	row := func(name, days, hours string, m money.Money, bold bool) tableRow {
		return tableRow{detail: v.w.voice().Fact(h.Basis), cells: []cell{{text: name, bold: bold}, {}, {text: days}, {text: hours}, {text: exactAmount(m, currency), bold: bold}}}
	}
	return []tableRow{{heading: "Against a hired crew"}, row("The crew", days, "0", h.Quote, false),
		row("Oneself, without own time", thousands(int64(h.OwnDays)), oneDecimal(h.OwnHours), h.Outlay, false),
		row("Doing it oneself saves", "", "", h.Saved, true), row("Break-even: an own hour is worth", "", "", h.BreakEven, false)}
}

// whatIf are the ends of the job in other air and with other compound.
func (v *priceView) whatIf(a *plan.Plan) []tableRow {
	if len(a.WhatIf) == 0 {
		return nil
	}
	rows := []tableRow{{heading: "The last day in other air, or with another compound"}}
	for _, x := range a.WhatIf {
		air := trimZero(x.Celsius) + " °C"
		if v.w.imperial() {
			air = quantity(float64(int(x.Celsius*9/5+32.5))) + " °F"
		}
		words := air + ", " + quantity(float64(int(x.Humidity*100+0.5))) + " %, " + x.Compound + " compound"
		if x.Today {
			words += " (as set)"
		}
		end, days := "no date is promised", ""
		if x.Finish != "" {
			end, days = day(x.Finish), thousands(int64(x.Days))
		}
		rows = append(rows, tableRow{detail: "From one coat to the next " + oneDecimal(x.Coat) + " h, by the drying model.",
			cells: []cell{{text: words, bold: x.Today}, {}, {text: days}, {}, {text: end}}})
	}
	return rows
}

// handling is what getting the sheets in and up asks for.
func (v *priceView) handling(h plan.Handling) []tableRow {
	if len(h.Sheets) == 0 {
		return nil
	}
	w := v.w
	rows := []tableRow{{heading: "Carrying and lifting"}, {detail: w.told(h.Basis, h.Source), cells: []cell{{text: "The whole delivery"}, {}, {}, {}, {text: w.weight(h.Delivery)}}}}
	for _, s := range h.Sheets {
		words := productName(w.model.Doc.Job(), s.Product) + ", " + w.size(s.Size[0], s.Size[1])
		note := ""
		if s.TwoPeople {
			note = "two people"
		}
		if !s.Passes {
			note = "does not go in"
		}
		detail := "Together " + w.weight(s.Together) + "."
		if s.Stack > 0 {
			detail += " At most " + counted(s.Stack, "sheet") + " in one stack on a usual floor."
		}
		if s.Longest > 0 {
			detail += " The longest that reaches the room: " + w.length(s.Longest) + "."
		}
		rows = append(rows, tableRow{detail: detail, cells: []cell{{text: words}, {text: thousands(int64(s.Count))}, {}, {text: note, ink: w.pal.Quiet}, {text: w.weight(s.Weight) + " each"}}})
	}
	return rows
}
