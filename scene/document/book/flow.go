package book

import (
	"regexp"
	"strings"

	"seamwright/scene/draft"
)

// The rows of type: lines of running text, and what stands between blocks.
const (
	lineHigh = 15.0
	blockGap = 12.0
	riseOf   = 11.0 // from the top of a line to its foot, at the small size
)

// flow fills pages from top to bottom. What does not fit goes onto the next page under the same title.
type flow struct {
	b     *book
	title string
	wide  bool
	room  draft.Rect
	y     float64
	draws []func(c leaf)
	entry string
	any   bool // something stands on the page
}

// flow begins a run of pages.
func (b *book) flow(title string, wide bool) *flow {
	r := b.room(wide)
	return &flow{b: b, title: title, wide: wide, room: r, y: r.Y}
}

// draw keeps what is to be drawn on the page under way.
func (f *flow) draw(d func(c leaf)) {
	f.draws = append(f.draws, d)
	f.any = true
}

// left is the height that is still free.
func (f *flow) left() float64 { return f.room.Y + f.room.H - f.y }

// need begins another page where so much height is not left on a page that holds something.
func (f *flow) need(high float64) {
	if f.any && high > f.left() {
		f.end()
	}
}

// end closes the page under way.
func (f *flow) end() {
	if !f.any {
		return
	}
	draws := f.draws
	f.b.add(sheet{wide: f.wide, title: f.title, entry: f.entry, draw: func(c leaf) {
		for _, d := range draws {
			d(c)
		}
	}})
	f.draws, f.any, f.y, f.entry = nil, false, f.room.Y, ""
}

// gap leaves room, but never at the head of a page.
func (f *flow) gap(high float64) {
	if f.any {
		f.y += high
	}
}

// line sets one line of text and goes below it.
func (f *flow) line(x float64, s string, t draft.Type) {
	at := draft.Pt{X: x, Y: f.y + riseOf}
	f.draw(func(c leaf) { c.Text(at, s, t) })
	f.y += lineHigh
}

// head sets a heading within a page, kept together with so much of what follows.
func (f *flow) head(s string, with float64) {
	f.gap(blockGap)
	f.need(lineHigh*1.5 + with)
	at := draft.Pt{X: f.room.X, Y: f.y + 12}
	f.draw(func(c leaf) {
		c.Text(at, s, draft.Type{Size: draft.Body, Weight: draft.Semibold, Color: f.b.th.Ink})
	})
	f.y += lineHigh + 6
}

// para sets running text in the whole width.
func (f *flow) para(s string) {
	f.paraIn(f.room.X, f.room.W, s, draft.Type{Size: draft.Small, Color: f.b.th.Ink})
}

func (f *flow) paraIn(x, w float64, s string, t draft.Type) {
	for _, l := range wrap(s, t.Size, t.Weight, w) {
		f.need(lineHigh)
		f.line(x, l, t)
	}
}

// item sets a paragraph behind a dash.
func (f *flow) item(s string) {
	t := draft.Type{Size: draft.Small, Color: f.b.th.Ink}
	lines := wrap(s, t.Size, t.Weight, f.room.W-itemIn)
	f.need(lineHigh * float64(len(lines)))
	at := draft.Pt{X: f.room.X, Y: f.y + riseOf}
	f.draw(func(c leaf) { c.Text(at, "–", t) })
	for _, l := range lines {
		f.line(f.room.X+itemIn, l, t)
	}
	f.y += itemGap
}

// tickSide is the side of a box to tick off.
const tickSide = 10.0

// tick draws a box to tick off, from its upper left corner.
func (b *book) tick(c leaf, at draft.Pt) {
	c.Stroke(draft.Rect{X: at.X, Y: at.Y, W: tickSide, H: tickSide}.Path()[0], true, draft.Pen{Width: 0.9, Color: b.th.Ink})
}

// wrap parts text into lines no wider than a width, at blanks; a word that is wider by itself is parted anywhere.
func wrap(s string, size float64, w draft.Weight, width float64) (lines []string) {
	line := ""
	for _, word := range blanks(s) {
		next := word
		if line != "" {
			next = line + " " + word
		}
		if draft.Measure(next, size, w) <= width {
			line = next
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		for line = word; draft.Measure(line, size, w) > width; {
			part, rest := parted(line, size, w, width)
			lines, line = append(lines, part), rest
		}
	}
	if line != "" || len(lines) == 0 {
		lines = append(lines, line)
	}
	return lines
}

// measure is a blank within a measure: 1 3/4", 4' 0".
var measure = regexp.MustCompile(`(\d'?) (\d+/\d+|\d+(?: \d+/\d+)?")`)

// blanks parts text at its blanks, but not at those that hold a measure together.
func blanks(s string) []string {
	s = measure.ReplaceAllString(s, "$1"+fixed+"$2")
	return strings.FieldsFunc(s, func(r rune) bool { return r == ' ' || r == '\n' || r == '\t' || r == '\r' })
}

// parted is as much of a word as fits, one letter at least, and the rest.
func parted(word string, size float64, w draft.Weight, width float64) (part, rest string) {
	letters := []rune(word)
	n := 1
	for n < len(letters)-1 && draft.Measure(string(letters[:n+1]), size, w) <= width {
		n++
	}
	return string(letters[:n]), string(letters[n:])
}
