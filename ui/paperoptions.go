package ui

import (
	"errors"
	"math"
	"strconv"
	"strings"

	"seamwright/assets/words"
	"seamwright/scene/document/ask"

	"fyne.io/fyne/v2"
)

// layOptions lays what can be asked of the chosen document: language, paper, prices, parts.
func (v *papers) layOptions() {
	o := &paperOptions{v: v}
	v.options.RemoveAll()
	say, k, c := v.w.voice(), v.kind(), v.asked
	o.note(say.Text(k.About()))
	o.row(say.Text("papers.language"))
	for _, l := range words.Languages {
		o.pill(words.In(l, v.w.units()).Text("papers.own-name"), c.language == l, func() { c.language = l })
	}
	if k.Paper {
		o.row(say.Text("papers.paper"))
		for _, p := range []ask.Paper{ask.Letter, ask.A4} {
			o.pill(say.Text(paperNames[p]), v.paper() == p, func() { c.paper = p })
		}
	}
	if k.Prices {
		o.row(say.Text("papers.prices"))
		prices := []ask.Prices{ask.NoPrices, ask.ForClient, ask.ForBuilder}
		if k.Client {
			prices = prices[:2]
		}
		told := v.request().Prices
		for _, p := range prices {
			o.pill(say.Text(priceNames[p]), told == p, func() { c.prices = p })
		}
		if told == ask.ForClient {
			o.row(say.Text("papers.markup"))
			o.markup()
		}
	}
	if k.Parts != nil {
		r := v.request()
		if parts := k.Parts(&r); len(parts) > 1 {
			o.parts(parts)
		}
	}
	v.options.Resize(fyne.NewSize(papersLeft-grid, o.y+papersLine))
	v.scroll.Refresh()
}

// The keys of the names of papers and prices.
var (
	paperNames = map[ask.Paper]string{ask.Letter: "papers.letter", ask.A4: "papers.a4"}
	priceNames = map[ask.Prices]string{ask.NoPrices: "papers.no-prices", ask.ForClient: "papers.client-prices", ask.ForBuilder: "papers.builder-prices"}
)

// paperOptions lays rows of choices under each other.
type paperOptions struct {
	v    *papers
	x, y float32
}

const optionLabel float32 = 84

func (o *paperOptions) note(text string) {
	p := o.v.w.pal
	for _, line := range wrap(text, sizeText, false, papersLeft-2*grid) {
		t := p.text(line, sizeText, false, p.Quiet)
		put(t, 0, o.y, papersLeft, 18)
		o.v.options.Add(t)
		o.y += 18
	}
	o.y += grid - papersLine
}

// row begins a row with its label.
func (o *paperOptions) row(label string) {
	p := o.v.w.pal
	o.y += papersLine + 4
	t := p.text(fit(label, sizeText, false, optionLabel-4), sizeText, false, p.Quiet)
	put(t, 0, o.y+(papersLine-t.MinSize().Height)/2, optionLabel, t.MinSize().Height)
	o.v.options.Add(t)
	o.x = optionLabel
}

// pill is one choice of a row, which goes on below where there is no room for it.
func (o *paperOptions) pill(label string, on bool, choose func()) {
	b := newButton(o.v.w.pal, pill, label, func() {
		choose()
		o.v.refresh()
	})
	b.on, b.small, b.keys = on, true, o.v.key
	m := b.MinSize()
	if o.x > optionLabel && o.x+m.Width > papersLeft-grid {
		o.x = optionLabel
		o.y += papersLine + 2
	}
	put(b, o.x, o.y+(papersLine-m.Height)/2, m.Width, m.Height)
	o.v.options.Add(b)
	o.x += m.Width + 6
}

// mostMarkup is a share that no one adds to a cost; more is taken for a slip of the hand.
const mostMarkup = 500

// markup is the field of what is added to the cost in the client's price.
func (o *paperOptions) markup() {
	v := o.v
	show := func() string { return strconv.FormatFloat(float64(v.asked.markup)/100, 'f', -1, 64) + " %" }
	f := newField(v.w, show, func(s string) error {
		n, err := strconv.ParseFloat(strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(s), "%")), 64)
		if err != nil || !(n >= 0 && n <= mostMarkup) {
			return errors.New(v.w.voice().Text("papers.markup-wrong", "most", mostMarkup))
		}
		v.asked.markup = int(math.Round(n * 100))
		v.refresh()
		return nil
	})
	put(f, o.x, o.y, 92, papersLine)
	v.options.Add(f)
}

// parts is the list of parts, each ticked or left out, and what ticks all or none.
func (o *paperOptions) parts(parts []ask.Part) {
	v, id := o.v, o.v.asked.kind
	without := v.asked.without[id]
	if without == nil {
		without = map[string]bool{}
		v.asked.without[id] = without
	}
	o.row(v.w.voice().Text("papers.parts"))
	if v.kind().One {
		chosen := v.request().Parts[0]
		for _, p := range parts {
			o.line(p.Name, p.ID == chosen, func() { v.asked.one[id] = p.ID })
		}
		return
	}
	o.pill(v.w.voice().Text("papers.all"), len(without) == 0, func() { clear(without) })
	o.pill(v.w.voice().Text("papers.none"), len(without) == len(parts), func() {
		for _, p := range parts {
			without[p.ID] = true
		}
	})
	for _, p := range parts {
		o.line(p.Name, !without[p.ID], func() {
			if without[p.ID] {
				delete(without, p.ID)
			} else {
				without[p.ID] = true
			}
		})
	}
}

// line is one part, with a square before it that is ticked where it is wanted.
func (o *paperOptions) line(name string, on bool, choose func()) {
	o.y += target + 1
	b := newButton(o.v.w.pal, tickItem, name, func() {
		choose()
		o.v.refresh()
	})
	b.on, b.keys = on, o.v.key
	put(b, optionLabel, o.y+4, papersLeft-grid-optionLabel, target)
	o.v.options.Add(b)
}
