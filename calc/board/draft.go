package board

import (
	"context"
	"fmt"
	"math"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/layout"
	"seamwright/calc/length"
	"seamwright/calc/memo"
	"seamwright/calc/money"
	"seamwright/calc/plan"
	"seamwright/calc/survey"
)

// Field is what a search has found: for every measure a layout of the whole building, made of the best of each group.
type Field struct{ *solver }

// Draft is one layout of a whole building and a way of cutting its sheets.
type Draft struct {
	*solver
	layouts []int // of every group, the place of its layout
	fewest  bool  // cut for the fewest sheets, else for the least money
	settled []settled
}

// Drafts lists what may be the answer for some aim and rate, each once: the best by every measure, cut for the fewest
// sheets and, where a product comes in several sizes, for the least money. In a building of many surfaces, where each draft
// takes long to work out, they are few, and cut as their measures go.
func (f *Field) Drafts() (drafts []*Draft) {
	sized := false
	for i := range f.zones {
		sized = sized || f.zones[i].Product != nil && len(f.zones[i].Product.Sizes) > 1
	}
	add := func(m, rank int, fewest bool) {
		layouts := f.layoutsBy(m, rank)
		if !slices.ContainsFunc(drafts, func(d *Draft) bool { return d.fewest == fewest && slices.Equal(d.layouts, layouts) }) {
			drafts = append(drafts, f.draft(layouts, fewest))
		}
	}
	if !f.deep() {
		for _, m := range searched[:draftedLarge] {
			add(m, 0, !sized || measures[m].order != leastMoney)
		}
		return drafts
	}
	for m := range measures {
		for rank := range ranks {
			add(m, rank, true)
			if sized {
				add(m, rank, false)
			}
		}
	}
	return drafts
}

// layoutsBy are the layouts of all groups that are best by a measure, or second best.
func (f *Field) layoutsBy(m, rank int) []int {
	layouts := make([]int, len(f.plans))
	for g, p := range f.plans {
		layouts[g] = p.best[m][rank]
	}
	return layouts
}

func (f *Field) draft(layouts []int, fewest bool) *Draft {
	d := &Draft{solver: f.solver, layouts: layouts, fewest: fewest, settled: make([]settled, len(f.zones))}
	for g, group := range f.byGroup {
		for n, i := range group {
			d.settled[i] = f.plans[g].layouts[layouts[g]].zones[n]
		}
	}
	return d
}

// likeliest is the measure under which layouts are the best by some weighing, as the search counts them.
func (f *Field) likeliest(w weighing) int {
	best := 0
	for m := range measures {
		if m == best || w.value(f.counted(m)).compare(w.value(f.counted(best))) < 0 {
			best = m
		}
	}
	return best
}

// counted is what the layouts of all groups come to by a measure, as the search counts them.
func (f *Field) counted(m int) (q quantities) {
	for _, p := range f.plans {
		q.add(p.layouts[p.best[m][0]].quantities)
	}
	return q
}

// Likeliest is the draft that looks best as the project weighs, without any having been cut.
func (f *Field) Likeliest() *Draft {
	w := weighingOf(f.job, f.sheet)
	return f.draft(f.layoutsBy(f.likeliest(w), 0), w.order != leastMoney)
}

// keyOf is the key of a group's layout.
func (d *Draft) keyOf(g int) memo.Key {
	var w writer
	w.Text("layout")
	w.Add(d.plans[g].key)
	w.Int(int64(d.layouts[g]))
	return w.Key()
}

// Answer cuts the sheets and puts everything together. An error is that of the context, or says which piece no sheet can
// give.
func (d *Draft) Answer() (*Answer, error) {
	a := &Answer{Zones: make([]plan.Zone, 0, len(d.zones)), Sheets: []plan.Sheet{}, Checks: []plan.Check{}}
	spots := d.spots()
	q := &a.quantities
	for g, p := range d.plans {
		q.add(p.layouts[d.layouts[g]].quantities)
	}
	q.sheets, q.price = 0, 0
	for p := range d.job.Products {
		n, paid, err := d.cutProduct(p, spots, a)
		if err != nil {
			return nil, err
		}
		q.sheets, q.price = q.sheets+n, q.price+paid*costUnit
	}
	panels := 0
	for i := range spots {
		panels += len(spots[i])
	}
	d.hangAll(a, spots, panels)
	a.Pieces, a.Breaks = panels, q.breaks
	a.Cost = money.Money((q.price + q.money + weighing{leastMoney, float64(d.job.Site.Worth()) * costUnit / hourUnit}.worked(q.hours) + costUnit/2) / costUnit)
	return a, nil
}

// spot is where a panel is cut, as an index of the answer's sheets and one of the sheet's parts, and which of its sides
// are edges of the sheet then.
type spot struct {
	sheet, part int
	far         bool // the half beyond the slanted cut of its part
	made        layout.Made
}

// spots has room for the spot of every panel, zone by zone.
func (d *Draft) spots() [][]spot {
	n := 0
	for i := range d.zones {
		n += len(d.settled[i].panels)
	}
	all, spots := make([]spot, n), make([][]spot, len(d.zones))
	for i := range spots {
		n := len(d.settled[i].panels)
		spots[i], all = all[:n:n], all[n:]
	}
	return spots
}

// takes tells whether a zone is lined with a product.
func (d *Draft) takes(i int, p *job.Product) bool {
	return d.zones[i].Product != nil && d.zones[i].Product.ID == p.ID
}

// cutProduct cuts the sheets of one product, adds them to the answer and gives how many are bought and what is paid for them.
func (d *Draft) cutProduct(p int, spots [][]spot, a *Answer) (n int, paid int64, err error) {
	product := &d.job.Products[p]
	for i := range d.zones {
		if d.takes(i, product) {
			n += len(spots[i])
		}
	}
	if n == 0 {
		return 0, 0, nil
	}
	sizes, where, all := make([]layout.Size, 0, n), make([][2]int, 0, n), make([]int, n)
	batches := make([]batch, 0, len(d.byGroup))
	for g, group := range d.byGroup {
		first := len(sizes)
		for _, i := range group {
			if !d.takes(i, product) {
				continue
			}
			for k := range spots[i] {
				all[len(sizes)] = len(sizes)
				sizes = append(sizes, d.settled[i].panels[k].Size)
				where = append(where, [2]int{i, k})
			}
		}
		if first < len(sizes) {
			batches = append(batches, batch{all[first:len(sizes):len(sizes)], d.keyOf(g)})
		}
	}
	c, pairs, err := d.cutPaired(product, sizes, batches, where)
	if err != nil {
		return 0, 0, d.refused(err, product, sizes, where)
	}
	base := len(a.Sheets)
	a.Sheets = slices.Grow(a.Sheets, len(c.sheets))
	parts := make([]plan.Part, 0, len(sizes))
	for k, sheet := range c.sheets {
		sheet.ID = fmt.Sprintf("S%03d", base+k+1)
		first := len(parts)
		parts = append(parts, sheet.Parts...)
		sheet.Parts = parts[first:len(parts):len(parts)]
		a.Sheets = append(a.Sheets, sheet)
	}
	for n, w := range where {
		at := c.at[n]
		sheet := &a.Sheets[base+at.sheet]
		part := &sheet.Parts[at.part]
		st := &d.settled[w[0]]
		to := spot{sheet: base + at.sheet, part: at.part}
		if p := pairs[n]; p != nil {
			to.made, to.far = p.laid(product, sheet, part, n, d.job.Stock)
		} else {
			to.made = factory(product, sheet, part, &st.panels[w[1]].Piece, d.job.Stock)
			part.Turned = part.Turned != st.scheme.Swap
		}
		spots[w[0]][w[1]] = to
	}
	n, paid = c.bought()
	bound := boundOf(product, &d.job.Rules, of(d.needs, p), d.job.Stock)
	if len(d.byGroup) == 1 {
		bound = max(bound, d.plans[0].bound[p])
	}
	bound = min(bound, n) // a layout that breaks rules may take fewer than any lawful one
	a.Bounds = append(a.Bounds, ProductBound{Product: product.ID, Sheets: n, Bound: bound})
	a.Bound += bound
	return n, paid, nil
}

// Solve is the whole of it: a search, and of its drafts the best by what the search counts. The bill of the whole job, which
// the later stages make, may prefer another.
func Solve(ctx context.Context, j *job.Job, b *survey.Building, m *Memo, effort Effort) (*Answer, error) {
	f, err := Search(ctx, j, b, m, effort)
	if err != nil {
		return nil, err
	}
	if effort == Prompt {
		return f.Likeliest().Answer()
	}
	var best *Answer
	w := weighingOf(j, f.sheet)
	for _, d := range f.Drafts() {
		a, err := d.Answer()
		if err != nil {
			return nil, err
		}
		if best == nil || w.value(a.quantities).compare(w.value(best.quantities)) < 0 {
			best = a
		}
	}
	return best, nil
}

// Estimate changes an answer that is known into that for another aim, by the difference of what the search counts for
// them: what stands until all drafts have been cut.
func (f *Field) Estimate(aim job.Aim, a *plan.Answer) {
	other := *f.job
	other.Aim = aim
	own, there := f.counted(f.likeliest(weighingOf(f.job, f.sheet))), f.counted(f.likeliest(weighingOf(&other, f.sheet)))
	hours := there.hours - own.hours
	a.Sheets += there.sheets - own.sheets
	a.ButtJoint = max(a.ButtJoint+length.Length(there.rough-own.rough), 0)
	a.Pieces += there.pieces - own.pieces
	a.Hours = math.Round(100*(a.Hours+float64(hours)/hourUnit)) / 100
	a.Cost += money.Money((there.price+there.money-own.price-own.money)/costUnit) + f.job.Site.Rate.Part(hours, hourUnit)
	a.OwnTime += f.job.Site.Assumed.Part(hours, hourUnit)
}
