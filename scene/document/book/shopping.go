package book

import (
	"slices"

	"seamwright/calc/plan"
)

// counter is a place in the yard or the store where things are asked for, and the kinds of rows that are sold there.
type counter struct {
	name  string // the key of its name
	kinds []string
}

// counters are the places in the order in which one walks by. What belongs nowhere else is a sundry.
var counters = []counter{
	{"book.counter-sheets", []string{plan.SheetKind}},
	{"book.counter-screws", []string{"screw"}},
	{"book.counter-compound", []string{"compound", "setting-compound"}},
	{"book.counter-tape", []string{"tape"}},
	{"book.counter-bead", []string{"corner-bead", "control-joint", "edge-trim"}},
	{"book.counter-primer", []string{"primer"}},
	{"book.counter-paint", []string{"paint", "clear-finish", "masking-tape", "masking-paper"}},
	{"book.counter-trim", []string{"trim/base", "trim/casing", "panel-edge", "batten", "lumber"}},
	{"book.counter-sundries", nil},
}

// counterOf finds where a row is asked for.
func counterOf(i *plan.Item) int {
	for k, c := range counters {
		if slices.Contains(c.kinds, i.Kind) {
			return k
		}
	}
	return len(counters) - 1
}

// shopping is the list that goes to the yard: what is needed, what is on hand, what to ask for at each counter, and what it
// costs. Its boxes are ticked off there.
func (b *book) shopping() {
	f := b.flow(b.say.Text("book.shopping"), false)
	f.entry = f.title
	f.para(b.say.Text("book.shopping-lead"))
	f.gap(blockGap)
	prices := b.priced()
	t := &table{columns: []column{{tick: true, width: 12}, {head: b.say.Text("book.item"), share: 1}, {head: b.say.Text("book.need"), width: 66, right: true},
		{head: b.say.Text("book.on-hand"), width: 46, line: true}, {head: b.say.Text("book.buy"), width: 98}}}
	if prices {
		t.columns = append(t.columns, column{head: b.say.Text("book.each"), width: 50, right: true}, column{head: b.say.Text("book.cost"), width: 58, right: true})
	}
	for k, c := range counters {
		named := false
		for n := range b.plan.Takeoff {
			i := &b.plan.Takeoff[n]
			if counterOf(i) != k || i.Kind == plan.ChargeKind {
				continue
			}
			if !named {
				t.group(b.say.Text(c.name))
				named = true
			}
			t.rows = append(t.rows, b.shoppingRow(i, prices))
		}
	}
	if prices {
		b.shoppingSums(t)
	}
	f.table(t)
	f.end()
}

// shoppingRow is one thing to ask for.
func (b *book) shoppingRow(i *plan.Item, prices bool) row {
	r := row{cells: []string{"", b.itemName(i), b.quantity(i), "", b.counterText(i)}, unticked: i.Buy == 0}
	if i.Buy == 0 && i.Kind == plan.SheetKind {
		r.cells[3], r.cells[4] = b.say.Text("book.in-stock"), ""
	}
	if !prices {
		return r
	}
	if i.Buy == 0 {
		r.cells = append(r.cells, "", "")
		return r
	}
	r.cells = append(r.cells, b.say.Money(i.Price), b.say.Money(i.Cost))
	return r
}

// shoppingSums are what the counters and the rest come to.
func (b *book) shoppingSums(t *table) {
	sum := func(name, amount string, bold bool) {
		t.rows = append(t.rows, row{cells: []string{"", name, "", "", "", "", amount}, unticked: true, bold: bold, keep: !bold})
	}
	for n := range b.plan.Takeoff {
		if i := &b.plan.Takeoff[n]; i.Kind == plan.ChargeKind {
			sum(b.itemName(i), b.say.Money(i.Cost), false)
		}
	}
	sum(b.say.Text("book.material"), b.say.Money(b.plan.Cost.Material), false)
	sum(b.say.Text("book.tax"), b.say.Money(b.plan.Cost.Tax), false)
	sum(b.say.Text("book.to-pay"), b.say.Money(b.plan.Cost.Material+b.plan.Cost.Tax), true)
}

// itemName is what is asked for: a product by its name, with its size.
func (b *book) itemName(i *plan.Item) string {
	item := plan.Fact{Kind: i.Item.Kind, Values: slices.Clone(i.Item.Values)}
	for k := range item.Values {
		if id, ok := item.Values[k].Of.(string); ok && item.Values[k].Name == "product" {
			item.Values[k].Of = b.product(id) + ","
		}
	}
	return capital(b.say.Fact(item))
}

// quantity is what is needed, with its unit.
func (b *book) quantity(i *plan.Item) string {
	number := b.say.Number(i.Need)
	if i.Unit == "count" || i.Unit == "sheet" {
		return number // what is counted needs no unit
	}
	return number + " " + b.say.Text("unit."+i.Unit)
}

// counterText is what to say at the counter.
func (b *book) counterText(i *plan.Item) string { return b.say.Fact(i.Ask()) }
