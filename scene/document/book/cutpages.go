package book

import (
	"cmp"
	"math"
	"slices"

	"seamwright/calc/plan"
	"seamwright/scene/draft"
)

// cuts draws how every sheet is cut up, several sheets a page, in the order in which their pieces are hung, so that a helper
// can cut ahead. What hangs as it comes is a list at the end.
func (b *book) cuts() {
	f := b.flow(b.say.Text("book.cuts"), false)
	f.entry = f.title
	f.para(b.say.Text("book.cuts-lead"))
	homes := draft.HomesOf(b.plan)
	whole := &table{columns: []column{{tick: true, width: 14}, {head: b.say.Text("book.sheet"), width: 46}, {head: b.say.Text("book.piece"), width: 60},
		{head: b.say.Text("book.product"), share: 3}, {head: b.say.Text("book.size"), share: 2, right: true}, {head: b.say.Text("book.where"), share: 2}}}
	for _, sh := range b.cutOrder() {
		if piece, ok := asItComes(sh, homes); ok {
			whole.add("", sh.ID, piece.Panel, b.product(sh.Product), b.sheetSize(sh), b.name(piece.Surface))
			continue
		}
		card := draft.NewCutCard(b.th, sh, b.plan, b.job, homes, b.say, f.room.W)
		f.gap(cardGap)
		f.need(card.Height())
		at := draft.Rect{X: f.room.X, Y: f.y, W: f.room.W, H: card.Height()}
		f.draw(func(c leaf) { card.Draw(c.within(at)) })
		f.y += card.Height()
	}
	if len(whole.rows) > 0 {
		f.head(b.say.Text("book.whole-sheets"), 4*lineHigh)
		f.table(whole)
	}
	f.end()
}

// cardGap stands between cut sheets.
const cardGap = 16.0

// cutOrder is the sheets by the first of their pieces to be hung; what no task hangs stands last.
func (b *book) cutOrder() []*plan.Sheet {
	rank := map[string]int{}
	for _, g := range plan.Groups(b.plan.Schedule) {
		for _, t := range g.Tasks {
			for _, id := range t.Pieces {
				if _, known := rank[id]; !known {
					rank[id] = len(rank)
				}
			}
		}
	}
	first := map[*plan.Sheet]int{}
	list := make([]*plan.Sheet, len(b.plan.Sheets))
	for i := range b.plan.Sheets {
		sh := &b.plan.Sheets[i]
		list[i], first[sh] = sh, math.MaxInt
		for _, q := range sh.Parts {
			if n, ok := rank[q.Panel]; ok {
				first[sh] = min(first[sh], n)
			}
		}
	}
	slices.SortStableFunc(list, func(s, t *plan.Sheet) int { return cmp.Compare(first[s], first[t]) })
	return list
}

// asItComes gives the one piece of a sheet that nothing is cut from.
func asItComes(sh *plan.Sheet, homes draft.Homes) (plan.Part, bool) {
	if len(sh.Cuts) > 0 || len(sh.Parts) != 1 || sh.Parts[0].Pair != nil || sh.Parts[0].Ease > 0 || homes.Notched(sh.Parts[0]) {
		return plan.Part{}, false
	}
	return sh.Parts[0], true
}

// sheetSize is a sheet's size, width before length as the trade says it.
func (b *book) sheetSize(sh *plan.Sheet) string {
	return b.say.Length(sh.Size[1]) + " × " + b.say.Length(sh.Size[0])
}
