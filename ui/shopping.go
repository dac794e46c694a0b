package ui

import (
	"encoding/csv"
	"fmt"
	"strings"

	"seamwright/calc/plan"

	"fyne.io/fyne/v2"
)

// shoppingView is the takeoff: what to buy, why so much, and what it costs.
type shoppingView struct {
	w     *Window
	page  *page
	table *table
	open  bool
	rest  bool // what is still to buy, with what was used against what was reckoned
}

// groupNames are the headings of the takeoff's groups, in the order of the job.
var groupNames = []struct{ id, name string }{
	{"sheets", "Sheets"}, {"fasteners", "Screws and adhesive"}, {"joints", "Joints"}, {"paint", "Primer and paint"},
	{"trim", "Trim, beads and battens"}, {"sundries", "Sundries"},
}

func newShoppingView(w *Window) *shoppingView {
	v := &shoppingView{w: w}
	v.table = newTable(w, "Nothing to buy yet: draw a room and choose a finish.", v.columns()...)
	v.page = w.newPage(v.table, newButton(w.pal, pill, "Explain all", v.explain), newButton(w.pal, pill, "Still to buy", v.remaining), newButton(w.pal, pill, "Copy as a table", v.copy))
	return v
}

// columns are the whole list's, or those of what is left of it.
func (v *shoppingView) columns() []tableColumn {
	if v.rest {
		return []tableColumn{{title: "Item"}, {"reckoned so far", 116, true}, {"used", 96, true}, {"still needed", 116, true}, {"still to buy", 136, true}, {"cost", 84, true}}
	}
	return []tableColumn{{title: "Item"}, {"needed", 130, true}, {"to buy", 150, true}, {"each", 84, true}, {"cost", 96, true}}
}

// remaining turns between the whole list and what is left of it.
func (v *shoppingView) remaining() {
	v.rest = !v.rest
	v.page.buttons[1].set("Still to buy", v.rest)
	v.table.columns = v.columns()
	v.table.layHead(0)
	v.refresh(ViewChanged)
}

func (v *shoppingView) name() string              { return "Shopping" }
func (v *shoppingView) object() fyne.CanvasObject { return v.page.box }

func (v *shoppingView) explain() {
	v.open = !v.open
	v.page.buttons[0].set(map[bool]string{true: "Close all", false: "Explain all"}[v.open], v.open)
	v.table.openAll(v.open)
}

func (v *shoppingView) refresh(Change) {
	a := v.w.model.Plan
	if a == nil {
		v.table.set(nil)
		return
	}
	currency := a.Cost.Currency
	var rows []tableRow
	for _, g := range groupNames {
		var group []tableRow
		for _, item := range a.Takeoff {
			if item.Group == g.id {
				group = append(group, v.row(item, currency))
			}
		}
		if len(group) > 0 {
			rows = append(append(rows, tableRow{heading: g.name}), group...)
		}
	}
	if v.rest && len(rows) > 0 {
		rows = append(rows, tableRow{heading: "Together"},
			tableRow{cells: []cell{{text: "Still to pay, before tax", bold: true}, {}, {}, {}, {}, {text: exactAmount(a.Progress.LeftToBuy, currency), bold: true}}})
		v.table.set(rows)
		v.page.say("What steps that are ticked off should have used, what was noted under Sequence, and what is left.")
		return
	}
	if len(rows) > 0 {
		rows = append(rows, tableRow{heading: "Together"},
			tableRow{cells: []cell{{text: "Material"}, {}, {}, {}, {text: exactAmount(a.Cost.Material, currency)}}},
			tableRow{cells: []cell{{text: "Tax"}, {}, {}, {}, {text: exactAmount(a.Cost.Tax, currency)}}},
			tableRow{cells: []cell{{text: "To pay", bold: true}, {}, {}, {}, {text: exactAmount(a.Cost.Material+a.Cost.Tax, currency), bold: true}}})
	}
	v.table.set(rows)
	v.page.say("Click a row to see how its number came about. Prices are the price list's: replace them with your supplier's under Job.")
}

func (v *shoppingView) row(item plan.Item, currency string) tableRow {
	quiet, detail := v.w.pal.Quiet, v.w.told(item.Basis, item.Source)
	if v.rest {
		return v.left(item, currency, detail)
	}
	return tableRow{detail: detail, cells: []cell{{text: v.w.called(item)}, {text: needWords(item), ink: quiet},
		{text: v.w.voice().Fact(item.Ask())}, {text: exactAmount(item.Price, currency), ink: quiet}, {text: exactAmount(item.Cost, currency)}}}
}

// left is a row of what is still to buy; more used than reckoned is marked.
func (v *shoppingView) left(item plan.Item, currency, detail string) tableRow {
	p := v.w.pal
	used, expected, ink := "", "", p.Ink
	if item.Expected > 0 {
		expected = inUnit(item.Expected, item)
	}
	if item.Used > 0 {
		used = inUnit(item.Used, item)
		ink = p.tone(item.Used - item.Expected)
	}
	return tableRow{detail: detail, cells: []cell{{text: v.w.called(item)}, {text: expected, ink: p.Quiet}, {text: used, ink: ink},
		{text: inUnit(item.Left, item), ink: p.Quiet}, {text: v.w.voice().Fact(item.AskFor(item.StillBuy)), bold: true}, {text: exactAmount(item.StillPay, currency)}}}
}

// called is an item's name: sheets by the name of their product, not by its id.
func (w *Window) called(item plan.Item) string {
	if p := w.model.Doc.Job().Product(item.Supply); p != nil && p.Name != "" {
		return strings.Replace(w.voice().Fact(item.Item), p.ID, p.Name+",", 1)
	}
	return capital(w.voice().Fact(item.Item))
}

// needWords is the quantity with its unit, which a plain count has none of.
func needWords(item plan.Item) string {
	return inUnit(item.Need, item)
}

// inUnit is a quantity of an item with its unit.
func inUnit(n float64, item plan.Item) string {
	return strings.TrimSpace(quantity(n) + " " + unitWords(item))
}

// unitWords is the unit of an item in the plural, which a plain count has none of.
func unitWords(item plan.Item) string {
	switch item.Unit {
	case "count":
		return ""
	case "sheet":
		return "sheets"
	}
	return squared(item.Unit)
}

// copy puts the takeoff on the clipboard as comma-separated values.
func (v *shoppingView) copy() {
	a := v.w.model.Plan
	if a == nil {
		return
	}
	var b strings.Builder
	out := csv.NewWriter(&b)
	_ = out.Write([]string{"group", "item", "needed", "unit", "buy", "pack", "each", "cost"}) // a Builder takes all that is written
	say := v.w.voice()
	for _, i := range a.Takeoff {
		_ = out.Write([]string{i.Group, say.Fact(i.Item), fmt.Sprintf("%.3f", i.Need), i.Unit, fmt.Sprint(i.Buy), i.Pack, i.Price.String(), i.Cost.String()})
	}
	out.Flush()
	v.w.app.Clipboard().SetContent(b.String())
	v.w.say("The shopping list is on the clipboard, as comma-separated values.")
}
