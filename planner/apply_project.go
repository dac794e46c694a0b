package planner

import (
	"bytes"
	"fmt"
	"maps"
	"reflect"
	"slices"
	"strings"

	"seamwright/calc/job"
	"seamwright/calc/length"
)

func (e SetName) apply(p *patch) error {
	p.project(need("name", text(e.Name)))
	return nil
}

func (e SetUnits) apply(p *patch) error {
	framing := p.encoder().framing(p.read.defaults.framing, usualFraming(e.Units), false, "")
	d := mapOf(part("framing", framing))
	d.order, d.block = defaultKeys, true
	packs := when(p.read.packs != e.Units, "packs", word(string(p.read.packs)))
	if p.remarked("packs") { // a line that says what already holds goes, unless a comment would go with it
		packs = need("packs", word(string(p.read.packs)))
	}
	p.project(
		unless(e.Units == job.Imperial, "units", word(string(e.Units))),
		packs,
		part("defaults", d))
	return nil
}

// remarked says whether a comment stands behind a value of the project, on its line.
func (p *patch) remarked(key string) bool {
	n := p.root.get(key)
	return n != nil && bytes.Contains(p.src[n.end:lineEnd(p.src, n.end)], []byte(" #"))
}

func (e SetLanguage) apply(p *patch) error {
	p.project(when(e.Language != "", "language", word(string(e.Language))))
	return nil
}

func (e SetCurrency) apply(p *patch) error {
	p.project(unless(e.Currency == defaultCurrency, "currency", text(e.Currency)))
	return nil
}

func (e SetAim) apply(p *patch) error {
	p.project(unless(e.Aim == job.AimCost, "aim", word(string(e.Aim))))
	return nil
}

func (e SetSite) apply(p *patch) error {
	s, d, enc := e.Site, defaultSite(), p.encoder()
	var days []value
	for _, i := range []int{1, 2, 3, 4, 5, 6, 0} {
		if s.Workdays[i] {
			days = append(days, word(dayNames[i]))
		}
	}
	if len(days) == 0 {
		return fmt.Errorf("at least one day of the week must be a workday")
	}
	if old := p.root.get("site").get("workdays"); old != nil && s.Workdays == p.read.job.Site.Workdays {
		days = each(old.items, func(n *node) value { return word(n.text) }) // the user's own order of days stays
	}
	a := s.Access
	limit := func(l length.Length, key string) field { return when(l > 0, key, enc.len(l)) }
	access := mapOf(
		when(a.DoorWidth > 0 || a.DoorHeight > 0, "door", listOf(enc.len(a.DoorWidth), enc.len(a.DoorHeight))),
		limit(a.Corridor, "corridor"), limit(a.Turn, "turn"),
		when(a.StairWidth > 0 || a.StairHeight > 0, "stair", listOf(enc.len(a.StairWidth), enc.len(a.StairHeight))))
	crew := mapOf(limit(s.Crew.Longest, "longest"), when(s.Crew.Heaviest > 0, "heaviest", enc.heaviness(s.Crew.Heaviest)),
		unless(!s.Crew.Lift, "lift", yesNo(s.Crew.Lift)))
	crew.order = crewKeys
	v := mapOf(
		unless(s.Celsius == d.Celsius, "temperature", enc.temperature(s.Celsius)),
		unless(s.Humidity == d.Humidity, "humidity", percent(s.Humidity)),
		unless(s.Start == d.Start, "start", enc.date(s.Start)),
		unless(s.Hours == d.Hours, "hours", number(s.Hours)),
		unless(s.People == d.People, "people", count(s.People)),
		unless(s.Workdays == d.Workdays, "workdays", listOf(days...)),
		when(len(s.Off) > 0, "off", listOf(each(s.Off, enc.date)...)),
		unless(s.TaxRate == 0, "tax", percent(s.TaxRate)),
		unless(s.Assumed > 0, "rate", amount(s.Rate)),
		unless(s.Quote == 0, "quote", amount(s.Quote)),
		when(a != job.Access{}, "access", access),
		when(s.Crew.Known, "crew", crew),
	)
	v.order, v.block = siteKeys, true
	p.project(part("site", v))
	return nil
}

func (e SetRules) apply(p *patch) error {
	u, d, enc := e.Rules, defaultRules(), p.encoder()
	rule := func(key string, l, usual length.Length) field { return unless(l == usual, key, enc.len(l)) }
	v := mapOf(
		rule("stagger", u.Stagger, d.Stagger),
		rule("least_piece", u.LeastPiece, d.LeastPiece),
		rule("least_course", u.LeastCourse, d.LeastCourse),
		rule("opening", u.Opening, d.Opening),
		rule("backing", u.Backing, d.Backing),
		rule("floor_gap", u.FloorGap, d.FloorGap),
		rule("fit", u.Fit, d.Fit),
		rule("screws", u.Screws, d.Screws),
		unless(u.Cutouts == d.Cutouts, "cutouts", word(string(u.Cutouts))),
		unless(u.Rakes == d.Rakes, "rakes", word(string(u.Rakes))),
		unless(u.BackBlocking == d.BackBlocking, "back_blocking", yesNo(u.BackBlocking)),
	)
	v.order, v.block = ruleKeys, true
	p.project(part("rules", v))
	return nil
}

func (e SetPaint) apply(p *patch) error {
	v := mapOf(need("primer", count(e.Paint.Primer)), need("coats", count(e.Paint.Coats)),
		when(e.Paint.Sheen != "", "sheen", word(e.Paint.Sheen)))
	if p.read.job.Paint == e.Paint {
		return nil
	}
	d := mapOf(need("paint", v))
	d.order, d.block = defaultKeys, true
	p.project(need("defaults", d))
	return nil
}

func (e SetFigure) apply(p *patch) error {
	v := mapOf(need(e.ID, number(e.Value)))
	v.order, v.block = figureOrder(p.read.job.Figures, e.ID), true
	p.project(need("figures", v))
	return nil
}

// figureOrder is the ids that are set already, and the new one behind them.
func figureOrder(figures map[string]float64, id string) []string {
	return append(slices.Sorted(maps.Keys(figures)), id)
}

func (e ResetFigure) apply(p *patch) error {
	n := p.root.get("figures")
	if n.get(e.ID) == nil {
		return nil
	}
	if len(n.pairs) == 1 {
		p.project(when(false, "figures", value{}))
		return nil
	}
	p.project(need("figures", mapOf(when(false, e.ID, value{}))))
	return nil
}

func (e SetPrice) apply(p *patch) error {
	product := p.read.job.Product(e.Product)
	if product == nil {
		return fmt.Errorf("there is no product %q", e.Product)
	}
	sizes := slices.Clone(product.Sizes)
	for i, s := range sizes {
		if s.Length == e.Length && s.Width == e.Width {
			sizes[i].Price = e.Price
			return SetSizes{e.Product, sizes}.apply(p)
		}
	}
	return fmt.Errorf("%s is not sold in that size", e.Product)
}

func (e SetSold) apply(p *patch) error {
	product := p.read.job.Product(e.Product)
	if product == nil {
		return fmt.Errorf("there is no product %q", e.Product)
	}
	var names []string
	all, found := true, false
	for _, s := range product.Sizes {
		sold := !s.NotSold
		if s.Length == e.Length && s.Width == e.Width {
			sold, found = e.Sold, true
		}
		if all = all && sold; sold {
			names = append(names, strings.TrimSuffix(s.Name(p.read.job.Units != job.Metric), " mm"))
		}
	}
	if !found {
		return fmt.Errorf("%s is not sold in that size", e.Product)
	}
	n := p.root.get("yard")
	if all && (n == nil || len(n.pairs) == 1 && n.get(e.Product) != nil) {
		p.project(when(false, "yard", value{}))
		return nil
	}
	yard := mapOf(when(!all, e.Product, words(names)))
	yard.block = true
	p.project(need("yard", yard))
	return nil
}

func (e SetSizes) apply(p *patch) error {
	enc := p.encoder()
	sizes := enc.sizes(e.Sizes)
	if n := entryOf(p.root.get("catalog"), e.Product); n != nil {
		sizes = enc.sizesLike(n.get("sizes"), e.Sizes)
		p.setFields(n, value{kind: mapping, order: productKeys, fields: []field{need("sizes", sizes)}})
		return nil
	}
	v := mapOf(need("id", text(e.Product)), need("sizes", sizes))
	v.block = true
	p.append("catalog", v)
	return nil
}

// sizesLike is the sizes in the order in which the file lists them already; new ones follow.
func (e encoder) sizesLike(n *node, sizes []job.Size) value {
	if n == nil || n.kind != list {
		return e.sizes(sizes)
	}
	rest := slices.Clone(sizes)
	var ordered []job.Size
	for _, item := range n.items {
		for i, s := range rest {
			if at := item.get("size"); at != nil && matches(at, listOf(e.len(s.Length), e.len(s.Width))) {
				ordered = append(ordered, s)
				rest = slices.Delete(rest, i, i+1)
				break
			}
		}
	}
	return e.sizes(append(ordered, rest...))
}

// entryOf finds the entry with an id in a list.
func entryOf(n *node, id string) *node {
	if n == nil {
		return nil
	}
	for _, item := range n.items {
		if x := item.get("id"); x != nil && x.text == id {
			return item
		}
	}
	return nil
}

func (e SetPackPrice) apply(p *patch) error {
	i := slices.IndexFunc(p.read.job.Supplies, func(s job.Supply) bool { return s.ID == e.Supply })
	if i < 0 || !slices.ContainsFunc(p.read.job.Supplies[i].Packs, func(k job.Pack) bool { return k.Name == e.Pack }) {
		return fmt.Errorf("there is no supply %q sold by the %s", e.Supply, e.Pack)
	}
	pack := mapOf(need("name", text(e.Pack)), need("price", amount(e.Price)))
	n := entryOf(p.root.get("supplies"), e.Supply)
	if n == nil {
		v := mapOf(need("id", text(e.Supply)), need("packs", listOf(pack)))
		v.block = true
		p.append("supplies", v)
		return nil
	}
	packs := n.get("packs")
	if packs == nil || packs.kind != list || len(packs.items) == 0 {
		p.setFields(n, value{kind: mapping, order: supplyKeys, fields: []field{need("packs", listOf(pack))}})
		return nil
	}
	for _, item := range packs.items {
		if name := item.get("name"); name != nil && name.text == e.Pack {
			p.setFields(item, value{kind: mapping, order: packKeys, fields: []field{need("price", amount(e.Price))}})
			return nil
		}
	}
	p.insertItems(packs, len(packs.items), pack)
	return nil
}

func (e AddStock) apply(p *patch) error {
	p.append("stock", p.encoder().stock(e.Stock))
	return nil
}

func (e ChangeStock) apply(p *patch) error {
	n, err := p.item("stock", e.Index)
	if err != nil {
		return err
	}
	p.set(n, p.encoder().stock(e.Stock))
	return nil
}

func (e RemoveStock) apply(p *patch) error { return p.drop("stock", e.Index) }

// changes writes the set of an alternative.
func (e encoder) changes(set []job.LiningChange) value {
	v := listOf(each(set, func(c job.LiningChange) value {
		return mapOf(need("walls", words(c.Surfaces)), need("lining", e.lining(c.Lining)))
	})...)
	v.block = true
	return v
}

func (e AddAlternative) apply(p *patch) error {
	if e.Name == "" {
		return fmt.Errorf("an alternative needs a name")
	}
	if findAlternative(p.read.job, e.Name) != nil {
		return fmt.Errorf("there is an alternative called %q already", e.Name)
	}
	var set []job.LiningChange
	if e.From != "" {
		from := findAlternative(p.read.job, e.From)
		if from == nil {
			return fmt.Errorf("there is no alternative called %q", e.From)
		}
		set = from.Set
	}
	v := mapOf(need("name", text(e.Name)), need("set", p.encoder().changes(set)))
	v.block = true
	p.append("alternatives", v)
	return nil
}

// alternative finds the entry of an alternative.
func (p *patch) alternative(name string) (*node, *job.Alternative, int, error) {
	for i := range p.read.job.Alternatives {
		if a := &p.read.job.Alternatives[i]; a.Name == name {
			n, err := p.item("alternatives", i)
			return n, a, i, err
		}
	}
	return nil, nil, 0, fmt.Errorf("there is no alternative called %q", name)
}

func (e RenameAlternative) apply(p *patch) error {
	n, _, _, err := p.alternative(e.Name)
	if err != nil {
		return err
	}
	p.setFields(n, mapOf(need("name", text(e.To))))
	return nil
}

func (e RemoveAlternative) apply(p *patch) error {
	_, _, i, err := p.alternative(e.Name)
	if err != nil {
		return err
	}
	return p.drop("alternatives", i)
}

func (e SetAlternativeLining) apply(p *patch) error {
	_, a, _, err := p.alternative(e.Alternative)
	if err != nil {
		return err
	}
	for _, id := range e.Surfaces {
		if err := p.nameWall(id); err != nil {
			return err
		}
	}
	if err := p.flush(); err != nil {
		return err
	}
	set := withLining(a.Set, e.Surfaces, e.Zones)
	n, _, _, err := p.alternative(e.Alternative)
	if err != nil {
		return err
	}
	p.setFields(n, mapOf(need("set", p.encoder().changes(set))))
	return nil
}

// nameWall writes the id of a wall that is about to be referred to, so that the reference holds when its room
// changes shape.
func (p *patch) nameWall(id string) error {
	s, err := p.surface(id)
	if err != nil || s.ceiling != nil {
		return err
	}
	if s.entry.get("id") != nil {
		return nil
	}
	if s.entry == nil {
		return p.setOn(s)
	}
	return p.setOn(s, need("id", text(s.wall.ID)))
}

// withLining is a set of changes after surfaces got other zones: they leave the changes they were in, and join one
// that gives the same zones, or a new one. No zones: they follow the project again.
func withLining(set []job.LiningChange, surfaces []string, zones []job.Zone) []job.LiningChange {
	var out []job.LiningChange
	joined := len(zones) == 0
	for _, c := range set {
		kept := job.LiningChange{Lining: c.Lining}
		same := reflect.DeepEqual(c.Lining, zones)
		for _, s := range c.Surfaces {
			if same || !slices.Contains(surfaces, s) {
				kept.Surfaces = append(kept.Surfaces, s)
			}
		}
		if same && !joined {
			for _, s := range surfaces {
				if !slices.Contains(kept.Surfaces, s) {
					kept.Surfaces = append(kept.Surfaces, s)
				}
			}
			joined = true
		}
		if len(kept.Surfaces) > 0 {
			out = append(out, kept)
		}
	}
	if !joined {
		out = append(out, job.LiningChange{Surfaces: surfaces, Lining: zones})
	}
	return out
}

func (e TickTask) apply(p *patch) error {
	i := slices.IndexFunc(p.read.job.Progress, func(d job.Done) bool { return d.Task == e.Task })
	if !e.Done {
		if i < 0 {
			return nil
		}
		return p.drop("progress", i)
	}
	enc := p.encoder()
	fields := []field{
		need("task", text(e.Task)),
		when(e.On != job.Date{}, "on", enc.date(e.On)),
		when(e.Hours != 0, "hours", number(e.Hours)),
	}
	if i < 0 {
		p.append("progress", mapOf(fields...))
		return nil
	}
	n, err := p.item("progress", i)
	if err != nil {
		return err
	}
	p.setFields(n, value{kind: mapping, fields: fields, order: doneKeys})
	return nil
}

func (e RecordUse) apply(p *patch) error {
	i := slices.IndexFunc(p.read.job.Progress, func(d job.Done) bool { return d.Task == e.Task })
	if i < 0 {
		return fmt.Errorf("the task %q is not ticked off yet; tick it first", e.Task)
	}
	used := slices.Clone(p.read.job.Progress[i].Used)
	at := slices.IndexFunc(used, func(u job.Used) bool { return u.Item == e.Item })
	switch {
	case at >= 0 && e.Quantity == 0:
		used = slices.Delete(used, at, at+1)
	case at >= 0:
		used[at].Quantity = e.Quantity
	case e.Quantity != 0:
		used = append(used, job.Used{Item: e.Item, Quantity: e.Quantity})
	}
	n, err := p.item("progress", i)
	if err != nil {
		return err
	}
	items := each(used, func(u job.Used) value {
		return mapOf(need("item", text(u.Item)), need("quantity", number(u.Quantity)))
	})
	p.setFields(n, value{kind: mapping, order: doneKeys, fields: []field{when(len(items) > 0, "used", listOf(items...))}})
	return nil
}
