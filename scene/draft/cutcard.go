package draft

import (
	"math"
	"strconv"
	"strings"

	"seamwright/assets/words"
	"seamwright/calc/job"
	"seamwright/calc/plan"
)

// The parts of a card, in pixels.
const (
	cardHead   = 26.0  // the sheet's id and what it is
	cardLeft   = 42.0  // figures of rips
	cardBelow  = 34.0  // figures of cross cuts
	cardGap    = 18.0  // between sheet and list
	cardRow    = 15.0  // a row of the list
	cardSheet  = 270.0 // the longest sheet
	cardIndent = 20.0  // numbers before the cuts
)

// CutCard is one sheet on paper: how it is cut up at the left, its cuts in order at the right, and below it the measures of
// what is cut out of its pieces afterwards. Several stand on a page.
type CutCard struct {
	d      *cutPage
	w, h   float64
	list   float64  // width of the list
	rows   []cutRow // of the list
	notes  []string
	pieces []string
}

// cutRow is one cut in words.
type cutRow struct{ order, kind, measure, edge string }

// NewCutCard lays out a sheet's card in a width.
func NewCutCard(th *Theme, sh *plan.Sheet, p *plan.Plan, j *job.Job, homes Homes, say *words.Voice, width float64) *CutCard {
	k := &CutCard{d: &cutPage{th: th, sh: sh, p: p, j: j, say: voice(say, j), homes: homes}, w: width}
	k.rows = k.d.cutRows()
	k.list = math.Max(k.listWide(), 150)
	long := math.Min(cardSheet, width-cardLeft-cardGap-k.list)
	scale := long / sh.Size[0].Metres()
	high := scale * sh.Size[1].Metres()
	k.d.v = View{Scale: scale, X: cardLeft, Y: cardHead + high}
	k.measure()
	k.pieces = wrapped(k.d.cutOutNotes(), width)
	k.notes = wrapped(k.d.notes(true), k.list)
	k.h = math.Max(cardHead+high+cardBelow, cardHead+cardRow*float64(1+len(k.rows)+len(k.notes)))
	k.h += cardRow * float64(len(k.pieces))
	return k
}

// Height is what the card takes.
func (k *CutCard) Height() float64 { return k.h }

// listWide is as wide as the widest cut in words.
func (k *CutCard) listWide() float64 {
	kind, measure, edge := k.columns()
	return cardIndent + kind + measure + edge + 14
}

// columns are the widths of the list's columns.
func (k *CutCard) columns() (kind, measure, edge float64) {
	for _, r := range k.rows {
		kind = math.Max(kind, Measure(r.kind, Small, Regular))
		measure = math.Max(measure, Measure(r.measure, Small, Semibold))
		edge = math.Max(edge, Measure(r.edge, Small, Regular))
	}
	return kind, measure, edge
}

// measure draws the sheet on nothing, to learn which pieces have no room for their words.
func (k *CutCard) measure() {
	k.d.c = nowhere{}
	k.d.body()
	k.d.taken = places{}
}

// Draw draws the card at the head of the canvas.
func (k *CutCard) Draw(c Canvas) {
	d := k.d
	c.Begin("sheet-" + d.sh.ID)
	defer c.End()
	d.c, d.small = c, nil
	d.c.Text(Pt{0, 12}, d.sh.ID, Type{Size: Body, Weight: Semibold, Color: d.th.Ink})
	x := Measure(d.sh.ID, Body, Semibold) + 10
	d.c.Text(Pt{x, 12}, Shorten(d.about(), Small, Regular, k.w-x), Type{Size: Small, Color: d.th.Ink})
	d.body()
	d.cuts()
	d.chains(false)
	k.words(k.w - k.list)
	y := k.h - cardRow*float64(len(k.pieces)) + Small
	for _, s := range k.pieces {
		d.c.Text(Pt{0, y}, s, Type{Size: Small, Color: d.th.Ink})
		y += cardRow
	}
}

// words sets the list of cuts.
func (k *CutCard) words(x float64) {
	d := k.d
	kind, measure, _ := k.columns()
	ink := Type{Size: Small, Color: d.th.Ink}
	y := cardHead + 8
	if len(k.rows) > 0 {
		d.c.Text(Pt{x, y}, d.cutsHead(), Type{Size: Small, Color: d.th.Quiet})
		y += cardRow
	}
	for _, r := range k.rows {
		right, figure := ink, ink
		right.Anchor = End
		figure.Anchor, figure.Weight = End, Semibold
		d.c.Text(Pt{x + 13, y}, r.order, right)
		d.c.Text(Pt{x + cardIndent, y}, r.kind, ink)
		d.c.Text(Pt{x + cardIndent + kind + 8 + measure, y}, r.measure, figure)
		d.c.Text(Pt{x + cardIndent + kind + measure + 14, y}, r.edge, ink)
		y += cardRow
	}
	for _, s := range k.notes {
		d.c.Text(Pt{x, y}, s, Type{Size: Small, Color: d.th.Quiet})
		y += cardRow
	}
}

// cutRows are the cuts in words, the slanted ones last.
func (d *cutPage) cutRows() (rows []cutRow) {
	for i := range d.sh.Cuts {
		k := &d.sh.Cuts[i]
		rows = append(rows, cutRow{strconv.Itoa(k.Order), d.say.Text(kindWords[k.Kind]), dimension(k.Measure, d.say), d.say.Text(edgeWords[k.Edge])})
	}
	for _, k := range d.sh.Slants() {
		both := d.say.Text("draft.from-to", "from", dimension(k.Measures[0], d.say), "to", dimension(k.Measures[1], d.say))
		rows = append(rows, cutRow{strconv.Itoa(k.Order), d.say.Text("draft.slant"), both, ""})
	}
	return rows
}

// wrapped parts sentences into lines of a width.
func wrapped(sentences []string, width float64) (lines []string) {
	for _, s := range sentences {
		line := ""
		for _, word := range strings.Fields(s) {
			if next := strings.TrimSpace(line + " " + word); line == "" || Measure(next, Small, Regular) <= width {
				line = next
				continue
			}
			lines, line = append(lines, line), word
		}
		lines = append(lines, line)
	}
	return lines
}

// cutOutNotes say what is cut out of each piece, measured from its left end and lower edge as it lies on the sheet.
func (d *cutPage) cutOutNotes() (notes []string) {
	for _, q := range d.sh.Parts {
		h, ok := d.homes[q.Panel]
		if !ok || q.Pair != nil {
			continue
		}
		var list []string
		for _, o := range cutOuts(q, h.panel) {
			list = append(list, d.cutOutText(o))
		}
		if len(list) > 0 {
			notes = append(notes, d.say.Text("draft.cut-outs", "panel", q.Panel, "list", strings.Join(list, "; ")))
		}
	}
	return notes
}

// cutOutText says one cut-out.
func (d *cutPage) cutOutText(o cutOut) string {
	if o.corners == nil {
		return d.say.Text("draft.cut-out", "wide", dimension(o.rect.W, d.say), "high", dimension(o.rect.H, d.say),
			"right", dimension(o.rect.X, d.say), "up", dimension(o.rect.Y, d.say))
	}
	var at []string
	for _, p := range o.corners {
		at = append(at, d.size(p.X, p.Y))
	}
	return d.say.Text("draft.corners", "list", strings.Join(at, ", "))
}
