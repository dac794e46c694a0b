package ui

import (
	"seamwright/calc/money"

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
	v.table = newTable(w.pal, "No price yet: draw a room and choose a finish.", tableColumn{title: ""}, tableColumn{"sheets", 90, true},
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
			cells: []cell{{text: capital(x.Surface) + ", " + v.w.ledger.lining(j, x.Surface)}, {text: thousands(int64(x.Sheets))}, {}, {}, {text: exactAmount(x.Cost, c.Currency)}}})
	}
	rows = append(rows, tableRow{heading: "Together"}, line("Material", c.Material, false, "The sum of the shopping list before tax."))
	if c.Labour > 0 {
		rows = append(rows, line("Own time", c.Labour, false, "Own hours at the rate that is set under Job."))
	}
	rows = append(rows, line("Tax", c.Tax, false, ""), tableRow{cells: []cell{{text: "All of it", bold: true}, {text: thousands(int64(s.SheetsBought))},
		{text: thousands(int64(s.Days))}, {text: oneDecimal(s.Hours)}, {text: exactAmount(c.Total, c.Currency), bold: true}}})
	if c.Quote > 0 {
		rows = append(rows, tableRow{heading: "Against a hired crew"}, line("The crew asks", c.Quote, false, ""),
			line("Doing it oneself saves", c.Quote-c.Total, false, ""),
			line("Break-even: an own hour is worth", c.BreakEven, false, "Where an own hour is worth this much, both ways cost the same: (quote − material and tax) / own hours."))
	} else {
		rows = append(rows, tableRow{heading: "Against a hired crew", detail: "Enter what a crew asks for the whole job under Job, and the break-even rate stands here."})
	}
	if len(a.Answers) > 0 {
		rows = append(rows, tableRow{heading: "Three answers, by what is made least: click one to choose it"})
		for _, x := range a.Answers {
			name := map[string]string{"cost": aims[0], "sheets": aims[1], "joints": aims[2]}[x.Aim]
			on := name == aimWord(j.Aim)
			rows = append(rows, tableRow{tapped: func() { v.w.setAim(name) }, cells: []cell{{text: capital(name), bold: on}, {text: thousands(int64(x.Sheets))},
				{text: v.w.run(x.ButtJoint) + " butt"}, {}, {text: exactAmount(x.Cost, c.Currency)}}})
		}
	}
	v.table.set(rows)
	v.page.say("Shipped prices are placeholders: replace them with your supplier's under Job.")
}
