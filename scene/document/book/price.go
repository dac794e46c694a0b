package book

import (
	"strconv"

	"seamwright/calc"
	"seamwright/calc/money"
	"seamwright/calc/plan"
)

// price is the builder's own account: what the job costs by trade, room and wall, what own hours come to, and the
// alternatives side by side.
func (b *book) price() {
	if !b.priced() {
		return
	}
	f := b.flow(b.say.Text("book.price"), false)
	f.entry = f.title
	f.para(b.say.Text("book.price-lead"))
	f.gap(blockGap)
	f.table(b.accountTable())
	f.head(b.say.Text("book.by-room"), 4*lineHigh)
	f.table(b.shareTable(b.say.Text("book.room"), b.plan.Cost.ByRoom, b.name))
	f.head(b.say.Text("book.by-wall"), 4*lineHigh)
	f.table(b.surfaceTable())
	if len(b.plan.Alternatives) > 0 || b.plan.Cost.Hired.Quote > 0 {
		f.head(b.say.Text("book.alternatives"), 8*lineHigh)
		f.table(b.compareTable())
		f.gap(4)
		f.para(b.say.Text("book.alternatives-lead"))
	}
	if b.plan.Cost.Hired.Quote > 0 {
		b.hired(f)
	}
	f.end()
}

// groupNames are the keys of the takeoff's groups, and of what else makes up the total.
var groupNames = map[string]string{"sheets": "book.group-sheets", "fasteners": "book.group-fasteners", "joints": "book.group-joints", "paint": "book.group-paint",
	"trim": "book.group-trim", "sundries": "book.group-sundries", "labour": "book.labor", "tax": "book.tax"}

// groupName is what people call a part of the total.
func (b *book) shareName(id string) string {
	if key, ok := groupNames[id]; ok {
		return b.say.Text(key)
	}
	return id
}

// accountTable is the total by trade.
func (b *book) accountTable() *table {
	t := b.shareTable(b.say.Text("book.trade"), b.plan.Cost.ByTrade, b.shareName)
	c := &b.plan.Cost
	if c.PerArea != 0 {
		t.add(b.say.Text("book.per-area", "unit", b.areaUnit()), b.say.Money(c.PerArea))
	}
	t.add(b.say.Text("book.own-hours"), b.say.Decimal(b.plan.Summary.Hours, 1))
	t.add(b.say.Text("book.own-rate"), b.say.Money(c.Rate))
	if c.Labour == 0 && c.OwnTime > 0 {
		t.add(b.say.Text("book.own-time-beside"), b.say.Money(c.OwnTime))
	}
	return t
}

// shareTable lists named parts of the total and the total itself.
func (b *book) shareTable(what string, parts []plan.ShareCost, name func(string) string) *table {
	t := &table{columns: []column{{head: what, share: 1}, {head: b.say.Text("book.cost"), width: 90, right: true}}}
	var sum money.Money
	for _, p := range parts {
		sum += p.Cost
		if p.Cost != 0 {
			t.add(name(p.Name), b.say.Money(p.Cost))
		}
	}
	t.total(b.say.Text("book.total"), b.say.Money(sum))
	return t
}

// surfaceTable lists walls and ceilings with their shares.
func (b *book) surfaceTable() *table {
	t := &table{columns: []column{{head: b.say.Text("book.where"), share: 1}, {head: b.say.Text("book.sheets"), width: 60, right: true},
		{head: b.say.Text("book.hours"), width: 60, right: true}, {head: b.say.Text("book.area"), width: 80, right: true}, {head: b.say.Text("book.cost"), width: 80, right: true}}}
	for i := range b.plan.Cost.BySurface {
		s := &b.plan.Cost.BySurface[i]
		t.add(b.name(s.Surface), strconv.Itoa(s.Sheets), b.say.Decimal(s.Hours, 1), b.say.Decimal(s.Area, 1)+" "+b.areaUnit(), b.say.Money(s.Cost))
	}
	return t
}

// areaUnit is the unit of lined areas.
func (b *book) areaUnit() string {
	if b.say.Units().Imperial {
		return "ft²"
	}
	return "m²"
}

// compareTable sets the project as drawn, its alternatives and a hired crew side by side, each in a column. A client sees
// what each costs him, how long it takes and when it is done.
func (b *book) compareTable() *table {
	all := append([]plan.Alternative{calc.Compared(b.say.Text("book.as-drawn"), b.job, b.plan)}, b.plan.Alternatives...)
	t := &table{columns: []column{{share: 1}}}
	for i := range all {
		t.columns = append(t.columns, column{head: all[i].Name, share: 1, right: true})
	}
	line := func(name string, value func(a *plan.Alternative) string) {
		cells := []string{name}
		for i := range all {
			cells = append(cells, value(&all[i]))
		}
		t.add(cells...)
	}
	if b.priced() {
		if !b.client {
			line(b.say.Text("book.cost"), func(a *plan.Alternative) string { return b.say.Money(a.Cost) })
		} else {
			line(b.say.Text("book.price-offered"), func(a *plan.Alternative) string { return b.say.Money(b.r.Marked(a.Cost)) })
		}
	}
	line(b.say.Text("book.working-days"), func(a *plan.Alternative) string {
		if a.Days == 0 && a.Hours > 0 {
			return b.say.Text("book.no-date")
		}
		return strconv.Itoa(a.Days)
	})
	line(b.say.Text("book.finished-on"), func(a *plan.Alternative) string {
		if t, ok := stamp(a.Finish); ok {
			return b.say.Date(t)
		}
		return b.say.Text("book.no-date")
	})
	if !b.client {
		b.compareWork(line)
	}
	return t
}

// compareWork are the rows that a builder wants besides.
func (b *book) compareWork(line func(string, func(*plan.Alternative) string)) {
	line(b.say.Text("book.own-hours"), func(a *plan.Alternative) string { return b.say.Decimal(a.Hours, 1) })
	line(b.say.Text("book.sheets"), func(a *plan.Alternative) string { return strconv.Itoa(a.Sheets) })
	line(b.say.Text("book.sheets-least"), func(a *plan.Alternative) string { return strconv.Itoa(a.Bound) })
	line(b.say.Text("book.waste"), func(a *plan.Alternative) string { return b.say.Value(plan.Share(a.Waste)) })
	line(b.say.Text("book.butt-joint"), func(a *plan.Alternative) string { return b.say.Value(plan.Run(a.ButtJoint + a.MixedJoint)) })
	line(b.say.Text("book.delivery-weight"), func(a *plan.Alternative) string { return b.say.Value(weight(a.Weight)) })
}

// hired sets a crew's quote beside doing the work oneself.
func (b *book) hired(f *flow) {
	h := &b.plan.Cost.Hired
	f.head(b.say.Text("book.hired"), 6*lineHigh)
	t := &table{columns: []column{{share: 1}, {width: 110, right: true}}}
	t.add(b.say.Text("book.hired-quote"), b.say.Money(h.Quote))
	t.add(b.say.Text("book.own-outlay"), b.say.Money(h.Outlay))
	t.add(b.say.Text("book.hired-saved"), b.say.Money(h.Saved))
	t.add(b.say.Text("book.break-even"), b.say.Money(h.BreakEven))
	f.table(t)
}
