package book

import "seamwright/scene/draft"

// safety is the page that goes up on the wall first, in two columns. It warns and defers: to the local code, the building
// office, and licensed trades.
func (b *book) safety() {
	f := b.flow(b.say.Text("book.safety"), false)
	f.entry = f.title
	f.para(b.say.Text("book.safety-lead"))
	top, wide := f.y, (f.room.W-noteGap)/2
	x, y := f.room.X, top
	for _, s := range safetySections {
		lines := [][]string{}
		high := 2 * lineHigh
		for _, key := range s.items {
			item := wrap(b.say.Text(key), draft.Small, draft.Regular, wide-itemIn)
			lines = append(lines, item)
			high += lineHigh*float64(len(item)) + itemGap
		}
		if y+high > f.room.Y+f.room.H && x == f.room.X {
			x, y = x+wide+noteGap, top
		}
		at, head := draft.Pt{X: x, Y: y}, b.say.Text(s.head)
		f.draw(func(c leaf) { b.safetySection(c, at, head, lines) })
		y += high
	}
	f.end()
}

// Items of the page: how far they stand in, and what lies between them.
const (
	itemIn  = 14.0
	itemGap = 3.0
)

func (b *book) safetySection(c leaf, at draft.Pt, head string, items [][]string) {
	y := at.Y + 2*lineHigh - 8
	c.Text(draft.Pt{X: at.X, Y: y}, head, draft.Type{Size: draft.Body, Weight: draft.Semibold, Color: b.th.Ink})
	y = at.Y + 2*lineHigh
	t := draft.Type{Size: draft.Small, Color: b.th.Ink}
	for _, lines := range items {
		c.Text(draft.Pt{X: at.X, Y: y + riseOf}, "–", t)
		for _, l := range lines {
			c.Text(draft.Pt{X: at.X + itemIn, Y: y + riseOf}, l, t)
			y += lineHigh
		}
		y += itemGap
	}
}

// safetySections are the headings of the page with the keys of what stands under each.
var safetySections = []struct {
	head  string
	items []string
}{
	{"book.safe-power", []string{"book.safe-power-off", "book.safe-power-boxes", "book.safe-power-hidden"}},
	{"book.safe-old", []string{"book.safe-old-lead", "book.safe-old-asbestos"}},
	{"book.safe-dust", []string{"book.safe-dust-mask", "book.safe-dust-sand", "book.safe-dust-wood"}},
	{"book.safe-lift", []string{"book.safe-lift-two", "book.safe-lift-stack", "book.safe-lift-edge"}},
	{"book.safe-ladder", []string{"book.safe-ladder-firm", "book.safe-ladder-ceiling"}},
	{"book.safe-tools", []string{"book.safe-tools-knife", "book.safe-tools-saw"}},
	{"book.safe-air", []string{"book.safe-air-heater", "book.safe-air-paint"}},
	{"book.safe-code", []string{"book.safe-code-office", "book.safe-code-fire", "book.safe-code-trades"}},
}
