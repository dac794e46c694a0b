package book

import (
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/money"
	"seamwright/calc/plan"
	"seamwright/scene/draft"
)

// The bid tells a client what is done, when, and for how much. It holds no cost, rate, hour or quantity of the builder's.

// scope says wall by wall what will be on it.
func (b *book) scope() {
	f := b.flow(b.say.Text("book.scope"), false)
	f.entry = f.title
	f.para(b.say.Text("book.scope-lead"))
	f.gap(blockGap)
	t := &table{columns: []column{{head: b.say.Text("book.where"), share: 2}, {head: b.say.Text("book.gets"), share: 4}, {head: b.say.Text("book.area"), width: 70, right: true}}}
	room := ""
	for i := range b.plan.Surfaces {
		s := &b.plan.Surfaces[i]
		if s.Room != room {
			room = s.Room
			t.group(b.name(room))
		}
		area := ""
		if a := linedOf(s); a > 0 {
			area = b.say.Value(a)
		}
		t.add(draft.Named(s.ID, b.say), b.gets(s), area)
	}
	f.table(t)
	f.head(b.say.Text("book.included"), 4*lineHigh)
	for _, key := range []string{"book.included-board", "book.included-finish", "book.included-clean"} {
		f.item(b.say.Text(key))
	}
	f.head(b.say.Text("book.not-included"), 4*lineHigh)
	for _, key := range []string{"book.excluded-framing", "book.excluded-trades", "book.excluded-hazard", "book.excluded-permits"} {
		f.item(b.say.Text(key))
	}
	f.end()
}

// gets says what a surface gets, from the floor up.
func (b *book) gets(s *plan.Surface) string {
	var zones []plan.Fact
	for i := 0; i < len(s.Zones); i++ {
		z := &s.Zones[i]
		if len(z.Panels) == 0 {
			continue
		}
		layers := 1
		for i+1 < len(s.Zones) && s.Zones[i+1].Zone == z.Zone {
			i++
			layers++
		}
		made := plan.Tell("book.one-layer", "product", b.product(s.Zones[i].Product))
		if layers > 1 {
			made = plan.Tell("book.layers", "layers", layers, "product", b.product(s.Zones[i].Product))
		}
		if p := b.job.Product(s.Zones[i].Product); z.Finish > 0 && p != nil && p.Kind == job.Gypsum {
			made = plan.Tell("book.to-level", "made", made, "level", z.Finish)
		}
		zones = append(zones, made)
	}
	if len(zones) == 0 {
		return b.say.Text("book.left-open")
	}
	return b.say.Value(zones)
}

// offer is the price by room, with the alternatives beside it, and room to sign.
func (b *book) offer() {
	f := b.flow(b.say.Text("book.offer"), false)
	f.entry = f.title
	if b.priced() {
		f.para(b.say.Text("book.offer-lead"))
		f.gap(blockGap)
		t := &table{columns: []column{{head: b.say.Text("book.room"), share: 1}, {head: b.say.Text("book.price-offered"), width: 110, right: true}}}
		rooms, sum := b.roomPrices()
		for i, r := range b.plan.Cost.ByRoom {
			if rooms[i] != 0 {
				t.add(b.name(r.Name), b.say.Money(rooms[i]))
			}
		}
		t.total(b.say.Text("book.price-total"), b.say.Money(sum))
		f.table(t)
		f.gap(4)
		f.para(b.say.Text("book.tax-in", "rate", plan.Share(b.job.Site.TaxRate)))
		if b.unpriced() {
			f.para(b.say.Text("book.work-unpriced"))
		}
	}
	if len(b.plan.Alternatives) > 0 {
		f.head(b.say.Text("book.alternatives"), 6*lineHigh)
		f.table(b.compareTable())
	}
	f.head(b.say.Text("book.agreed"), 8*lineHigh)
	f.para(b.say.Text("book.agreed-lead"))
	f.gap(3 * lineHigh)
	b.signatures(f)
	f.end()
}

// roomPrices are the rooms' prices and their sum. What rounding leaves of the whole price goes to the dearest room, so that
// the rooms add up.
func (b *book) roomPrices() (rooms []money.Money, sum money.Money) {
	parts := b.plan.Cost.ByRoom
	sum = b.r.Marked(b.plan.Cost.Total)
	left := sum
	for i := range parts {
		rooms = append(rooms, b.r.Marked(parts[i].Cost))
		left -= rooms[i]
	}
	if len(rooms) > 0 {
		dearest := slices.Max(rooms)
		rooms[slices.Index(rooms, dearest)] += left
	}
	return rooms, sum
}

// unpriced tells whether the project states no rate for own hours, so that its total is for material alone.
func (b *book) unpriced() bool { return b.plan.Cost.Labour == 0 && b.plan.Summary.Hours > 0 }

// signatures are lines to sign on.
func (b *book) signatures(f *flow) {
	wide := (f.room.W - 2*noteGap) / 3
	for i, key := range []string{"book.sign-client", "book.sign-builder", "book.sign-date"} {
		x, y, words := f.room.X+float64(i)*(wide+noteGap), f.y, b.say.Text(key)
		f.draw(func(c leaf) {
			c.Stroke([]draft.Pt{{X: x, Y: y}, {X: x + wide, Y: y}}, false, draft.Pen{Width: 0.8, Color: b.th.Ink})
			c.Text(draft.Pt{X: x, Y: y + 13}, words, draft.Type{Size: draft.Small, Color: b.th.Quiet})
		})
	}
	f.y += 2 * lineHigh
}

// dates tells the client what happens when, in days, not in hours.
func (b *book) dates() {
	groups := plan.Groups(b.plan.Schedule)
	f := b.flow(b.say.Text("book.dates"), false)
	f.entry = f.title
	f.para(b.say.Text("book.dates-lead"))
	f.gap(blockGap)
	t := &table{columns: []column{{head: b.say.Text("book.from-day"), width: 110}, {head: b.say.Text("book.to-day"), width: 110}, {head: b.say.Text("book.what"), share: 1}}}
	for _, s := range b.spells(groups) {
		t.add(s.from, s.to, s.what)
	}
	f.table(t)
	f.gap(6)
	f.para(b.say.Text("book.dates-drying"))
	f.end()
}

// spell is a run of one trade in one room.
type spell struct{ from, to, what string }

// spells joins the groups of each trade in a room, by first start; inspections stand for themselves.
func (b *book) spells(groups []plan.Group) (list []spell) {
	type key struct {
		room  string
		trade plan.Trade
	}
	at := map[key]int{}
	say := func(stamped string) string {
		if t, ok := stamp(stamped); ok {
			return b.say.Weekday(t) + " " + b.say.Date(t)
		}
		return b.say.Text("book.no-date")
	}
	for i := range groups {
		g := &groups[i]
		k := key{g.Room, g.Trade}
		n, known := at[k]
		switch {
		case g.Kind == "wait":
		case g.Kind == "inspect":
			list = append(list, spell{say(g.Start), say(g.Finish), b.groupName(g)})
		case known:
			list[n].to = say(g.Finish)
		default:
			at[k] = len(list)
			list = append(list, spell{say(g.Start), say(g.Finish), b.groupName(g)})
		}
	}
	return list
}
