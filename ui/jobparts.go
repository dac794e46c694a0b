package ui

import (
	"fmt"
	"strconv"
	"strings"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/planner"
)

func (v *jobView) site(f *form) {
	w := v.w
	get := func() job.Site { return w.model.Doc.Job().Site }
	set := w.setSite
	quantityField := func(words, unit string, show func(job.Site) float64, change func(*job.Site, float64), why string) {
		f.field(words, func() string { return strings.TrimSpace(trimZero(show(get())) + " " + unit) }, func(s string) error {
			n, err := number(s, unit)
			if err != nil {
				return err
			}
			return set(func(s *job.Site) { change(s, n) })
		}, why)
	}
	f.title("When and by whom")
	f.field("First working day", func() string { return dateWords(get().Start) }, func(s string) error {
		day, err := parseDate(s)
		if err != nil {
			return err
		}
		return set(func(s *job.Site) { s.Start = day })
	}, "year-month-day")
	quantityField("People", "", func(s job.Site) float64 { return float64(s.People) }, func(s *job.Site, n float64) { s.People = int(n) }, "one alone hangs from the floor up")
	quantityField("Hours a day, each", "", func(s job.Site) float64 { return s.Hours }, func(s *job.Site, n float64) { s.Hours = n }, "")
	f.field("Working days", func() string { return daysWords(get().Workdays) }, func(s string) error {
		d, err := parseDays(s)
		if err != nil {
			return err
		}
		return set(func(s *job.Site) { s.Workdays = d })
	}, "")
	f.field("Days off", func() string { return datesWords(get().Off) }, func(s string) error {
		days, err := parseDates(s)
		if err != nil {
			return err
		}
		return set(func(s *job.Site) { s.Off = days })
	}, "like 2027-03-05 2027-03-26; drying goes on")
	f.title("The room while joints dry")
	if w.imperial() {
		quantityField("Temperature", "F", func(s job.Site) float64 { return s.Celsius*9/5 + 32 }, func(s *job.Site, n float64) { s.Celsius = (n - 32) * 5 / 9 }, "below 50 F no date is promised")
	} else {
		quantityField("Temperature", "C", func(s job.Site) float64 { return s.Celsius }, func(s *job.Site, n float64) { s.Celsius = n }, "below 10 C no date is promised")
	}
	quantityField("Humidity", "%", func(s job.Site) float64 { return s.Humidity * 100 }, func(s *job.Site, n float64) { s.Humidity = n / 100 }, "")
	f.title("Money")
	currency := func() string { return w.model.Doc.Job().Currency }
	f.field("Currency", currency, func(s string) error { return w.model.Do(planner.SetCurrency{Currency: strings.TrimSpace(s)}) }, "prices are not converted")
	quantityField("Tax", "%", func(s job.Site) float64 { return s.TaxRate * 100 }, func(s *job.Site, n float64) { s.TaxRate = n / 100 }, "")
	f.field("An own hour is worth", func() string { return get().Rate.String() }, func(s string) error {
		m, err := parseMoney(s, currency())
		if err != nil {
			return err
		}
		return set(func(s *job.Site) { s.Rate, s.Assumed, s.Assumes = m, 0, "" })
	}, "0: own time is not counted")
	f.field("A hired crew asks for the whole job", func() string { return get().Quote.String() }, func(s string) error {
		m, err := parseMoney(s, currency())
		if err != nil {
			return err
		}
		return set(func(s *job.Site) { s.Quote = m })
	}, "0: no quote")
	v.figureField(f, "delivery", "Delivery", "untaxed")
	v.figureField(f, "tool-hire", "Tools hired", "untaxed")
	v.figureField(f, "sheet-spare", "Sheets to spare", "of those needed, against breakage")
	v.figureField(f, "quote-days", "Days that the hired crew takes", "0: not known")
	v.wayIn(f)
	v.crew(f)
}

// trimZero writes a number to two places at most.
func trimZero(v float64) string {
	return strings.TrimSuffix(strings.TrimRight(strconv.FormatFloat(v, 'f', 2, 64), "0"), ".")
}

// dayNames are the days as the project file writes them, Sunday first.
var dayNames = [7]string{"sun", "mon", "tue", "wed", "thu", "fri", "sat"}

func daysWords(d [7]bool) string {
	var names []string
	for i := 1; i <= 7; i++ {
		if d[i%7] {
			names = append(names, dayNames[i%7])
		}
	}
	return strings.Join(names, " ")
}

func parseDays(s string) (d [7]bool, err error) {
	for _, word := range strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return r == ' ' || r == ',' }) {
		known := false
		for i, n := range dayNames {
			if strings.HasPrefix(word, n) {
				d[i], known = true, true
			}
		}
		if !known {
			return d, fmt.Errorf("%q is no day of the week: write mon tue wed thu fri sat sun", word)
		}
	}
	return d, nil
}

// stock is the pieces on hand.
func (v *jobView) stock(f *form) {
	w := v.w
	f.title("Pieces on hand")
	f.note("They are used first where that saves buying. Length runs with the paper or grain, width across it; two long factory edges are tapered, otherwise call it cut.")
	heads := []struct {
		words string
		x     float32
	}{{"product", 0}, {"length", 240}, {"width", 330}, {"count", 420}, {"edges", 484}, {"note", 590}}
	for _, h := range heads {
		f.label(h.words, h.x, 90)
	}
	f.next()
	ids := make([]string, 0)
	for _, p := range w.model.Doc.Job().Products {
		ids = append(ids, p.Name)
	}
	for i := range w.model.Doc.Job().Stock {
		get := func() job.Stock {
			if s := w.model.Doc.Job().Stock; i < len(s) {
				return s[i]
			}
			return job.Stock{}
		}
		set := func(change func(*job.Stock)) error {
			s := get()
			change(&s)
			return w.model.Do(planner.ChangeStock{Index: i, Stock: s})
		}
		lengthOf := func(get func() length.Length, to func(*job.Stock, length.Length)) *entry {
			return newField(w, func() string { return get().Exact(w.imperial()) }, func(s string) error {
				l, err := w.parseLength(s)
				if err != nil {
					return err
				}
				return set(func(x *job.Stock) { to(x, l) })
			})
		}
		f.at(0, 232, newChoice(w, ids, func() string { return productName(w.model.Doc.Job(), get().Product) }, func(s string) {
			for _, p := range w.model.Doc.Job().Products {
				if p.Name == s {
					w.report(set(func(x *job.Stock) { x.Product = p.ID }))
				}
			}
		}))
		f.at(240, 84, lengthOf(func() length.Length { return get().Length }, func(x *job.Stock, l length.Length) { x.Length = l }))
		f.at(330, 84, lengthOf(func() length.Length { return get().Width }, func(x *job.Stock, l length.Length) { x.Width = l }))
		f.at(420, 56, newField(w, func() string { return strconv.Itoa(get().Count) }, func(s string) error {
			n, err := number(s, "")
			if err != nil {
				return err
			}
			return set(func(x *job.Stock) { x.Count = int(n) })
		}))
		f.at(484, 100, newChoice(w, []string{"tapered", "cut"}, func() string {
			if get().Tapered {
				return "tapered"
			}
			return "cut"
		}, func(s string) { w.report(set(func(x *job.Stock) { x.Tapered = s == "tapered" })) }))
		f.at(590, 150, newField(w, func() string { return get().Note }, func(s string) error { return set(func(x *job.Stock) { x.Note = s }) }))
		b := newButton(w.pal, link, "remove", func() { w.try(planner.RemoveStock{Index: i}) })
		b.keys = w.typedKey
		f.at(746, 60, b)
		f.next()
	}
	f.y += 6
	add := newButton(w.pal, pill, "Add a piece", func() { w.addStock() })
	add.keys = w.typedKey
	f.at(0, 110, add)
	f.next()
}

// addStock adds a half sheet of the first product on the rack; its fields set the rest.
func (w *Window) addStock() {
	j := w.model.Doc.Job()
	s := job.Stock{Product: finishes(j)[0][0], Length: 4 * length.Foot, Width: 2 * length.Foot, Tapered: true, Count: 1}
	if !w.imperial() {
		s.Length, s.Width = 1200*length.Millimetre, 600*length.Millimetre
	}
	w.try(planner.AddStock{Stock: s})
}

// sold says whether the yard has a size, and turns that.
func (v *jobView) sold(product string, s job.Size) *button {
	w := v.w
	b := newButton(w.pal, link, map[bool]string{true: "not at my yard", false: "my yard has it"}[s.NotSold], func() {
		w.try(planner.SetSold{Product: product, Length: s.Length, Width: s.Width, Sold: s.NotSold})
	})
	b.small, b.on, b.keys = true, s.NotSold, w.typedKey
	return b
}

// prices is the price list: sheets by size, then everything else by pack.
func (v *jobView) prices(f *form) {
	w := v.w
	j := w.model.Doc.Job()
	f.title("Price list, in " + j.Currency)
	f.note("Shipped prices are placeholders with their date, to be replaced by your supplier's. A price that you set here is kept in the project file; " +
		"a price of 0 means that it costs nothing. Click “my yard has it” where it does not: that size is not bought then.")
	for _, p := range j.Products {
		f.label(p.Name, 0, 330)
		f.label(p.Dated, 620, 110)
		for k, s := range p.Sizes {
			f.label(w.size(s.Length, s.Width), 350, 130)
			f.at(490, 96, newField(w, func() string { return w.priceOf(p.ID, k).String() }, func(text string) error {
				m, err := parseMoney(text, j.Currency)
				if err != nil {
					return err
				}
				return w.model.Do(planner.SetPrice{Product: p.ID, Length: s.Length, Width: s.Width, Price: m})
			}))
			f.at(760, 130, v.sold(p.ID, s))
			f.next()
		}
	}
	f.title("Everything else")
	for _, s := range j.Supplies {
		f.label(s.Name, 0, 330)
		f.label(s.Dated, 620, 110)
		for _, pack := range s.Packs {
			f.label(pack.Name, 350, 130)
			f.at(490, 96, newField(w, func() string { return w.packPrice(s.ID, pack.Name).String() }, func(text string) error {
				m, err := parseMoney(text, j.Currency)
				if err != nil {
					return err
				}
				return w.model.Do(planner.SetPackPrice{Supply: s.ID, Pack: pack.Name, Price: m})
			}))
			f.next()
		}
	}
}
