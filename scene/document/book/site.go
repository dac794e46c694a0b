package book

import (
	"strconv"

	"seamwright/calc/plan"
)

// site is what is looked at, photographed and measured before the lining hides it, and how the sheets get in.
func (b *book) site() {
	f := b.flow(b.say.Text("book.site"), false)
	f.entry = f.title
	f.para(b.say.Text("book.site-lead"))
	f.gap(blockGap)
	t := &table{columns: []column{{tick: true, width: 12}, {head: b.say.Text("book.before"), share: 1}}}
	last := ""
	for i := range b.plan.Before {
		l := &b.plan.Before[i]
		if l.Surface != last {
			t.group(b.name(l.Surface))
			last = l.Surface
		}
		t.add("", capital(b.plainly(b.lookText(l))))
	}
	if len(t.rows) > 0 {
		f.table(t)
	}
	b.handling(f)
	f.end()
}

// handling says what the sheets weigh, who carries them and whether they reach the room.
func (b *book) handling(f *flow) {
	h := &b.plan.Handling
	if len(h.Sheets) == 0 {
		return
	}
	f.head(b.say.Text("book.carrying"), 6*lineHigh)
	t := &table{columns: []column{{head: b.say.Text("book.sheets"), width: 44, right: true}, {head: b.say.Text("book.product"), share: 3}, {head: b.say.Text("book.each-weighs"), width: 64, right: true},
		{head: b.say.Text("book.lift"), width: 96}, {head: b.say.Text("book.way-in"), share: 2}}}
	for i := range h.Sheets {
		s := &h.Sheets[i]
		who := b.say.Text("book.one-person")
		if s.TwoPeople {
			who = b.say.Text("book.two-people")
		}
		t.add(strconv.Itoa(s.Count), b.product(s.Product)+", "+b.say.Length(s.Size[1])+" × "+b.say.Length(s.Size[0]), b.say.Value(weight(s.Weight)), who, b.wayIn(s))
	}
	f.table(t)
	f.gap(6)
	f.para(b.say.Text("book.floor-load", "delivery", weight(h.Delivery), "stacked", plan.KilogramsM2(h.Stacked), "usual", plan.KilogramsM2(h.Floor), "area", b.floor(h.Needs)))
}

// wayIn says whether a sheet reaches the room.
func (b *book) wayIn(s *plan.SheetLift) string {
	switch {
	case s.Passes:
		return b.say.Text("book.goes-through")
	case s.Longest == 0:
		return b.say.Text("book.too-wide")
	}
	return b.say.Text("book.too-long", "longest", s.Longest)
}

// floor writes an area given in square metres.
func (b *book) floor(m2 float64) string {
	if b.say.Units().Imperial {
		return b.say.Decimal(m2/(0.3048*0.3048), 0) + " ft²"
	}
	return b.say.Decimal(m2, 1) + " m²"
}
