package reveal

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"sort"

	"seamwright/calc/cut"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/nest"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
)

// work is the search budget for the sheets of strips that fit no offcut: a few dozen strips are proven within it.
const work = 1 << 18

// Cut joins the strips to the cut list: parts and cuts in the offcuts of the sheets, then sheets of their own from the
// pieces in stock that are left and from the yard. It gives the whole list and the strips with their sheets; what came
// in is not changed. A strip that no sheet can hold keeps no sheet. The error is the context's.
func Cut(ctx context.Context, j *job.Job, sheets []plan.Sheet, pieces []plan.Return) ([]plan.Sheet, []plan.Return, error) {
	if len(pieces) == 0 {
		return sheets, pieces, nil
	}
	c := cutting{sheets: slices.Clone(sheets), pieces: slices.Clone(pieces), own: map[int]bool{}, rests: map[string][]rest{}}
	c.narrowest, c.shortest = leastOf(pieces)
	for i := range sheets {
		for _, o := range sheets[i].Offcuts {
			if c.serves(o) {
				c.rests[sheets[i].Product] = append(c.rests[sheets[i].Product], rest{i, o})
			}
		}
	}
	for _, rests := range c.rests {
		slices.SortStableFunc(rests, rest.compare)
	}
	left := map[string][]int{}
	for _, i := range longestFirst(pieces) {
		if product := pieces[i].Product; !c.intoOffcut(i) {
			left[product] = append(left[product], i)
		}
	}
	for k := range j.Products {
		if p := &j.Products[k]; len(left[p.ID]) > 0 {
			if err := c.ontoSheets(ctx, j, p, left[p.ID]); err != nil {
				return nil, nil, err
			}
		}
	}
	return c.sheets, c.pieces, nil
}

// leastOf are the least short side and the least long side of the strips.
func leastOf(pieces []plan.Return) (narrowest, shortest length.Length) {
	narrowest, shortest = math.MaxInt64, math.MaxInt64
	for _, p := range pieces {
		narrowest, shortest = min(narrowest, p.Size[0], p.Size[1]), min(shortest, max(p.Size[0], p.Size[1]))
	}
	return narrowest, shortest
}

// cutting is the cut list while strips join it.
type cutting struct {
	sheets              []plan.Sheet
	pieces              []plan.Return
	own                 map[int]bool      // sheets whose lists are copies of our own
	rests               map[string][]rest // by product: the offcuts that may hold a strip, the smallest first
	narrowest, shortest length.Length     // of all strips
}

// rest is an offcut of a sheet.
type rest struct {
	sheet int
	shape.Rect
}

// compare puts the smaller first, and of equal ones that of the earlier sheet.
func (r rest) compare(o rest) int {
	return cmp.Or(cmp.Compare(r.Area(), o.Area()), cmp.Compare(r.sheet, o.sheet))
}

// serves tells whether an offcut holds the least strip.
func (c *cutting) serves(o shape.Rect) bool {
	return min(o.W, o.H) >= c.narrowest && max(o.W, o.H) >= c.shortest
}

// intoOffcut cuts strip i from the smallest offcut that holds it.
func (c *cutting) intoOffcut(i int) bool {
	product, long, wide := c.pieces[i].Product, c.pieces[i].Size[0], c.pieces[i].Size[1]
	upright := func(o rest) bool { return o.W >= long && o.H >= wide }
	at := slices.IndexFunc(c.rests[product], func(o rest) bool { return upright(o) || o.W >= wide && o.H >= long })
	if at < 0 {
		return false
	}
	o := c.rests[product][at]
	c.rests[product] = slices.Delete(c.rests[product], at, at+1)
	turned := !upright(o)
	if turned {
		long, wide = wide, long
	}
	for _, r := range c.part(o, i, long, wide, turned) {
		if c.serves(r) {
			rests := c.rests[product]
			n := sort.Search(len(rests), func(k int) bool { return rests[k].compare(rest{o.sheet, r}) > 0 })
			c.rests[product] = slices.Insert(rests, n, rest{o.sheet, r})
		}
	}
	return true
}

// part takes a strip of w by h from the lower left corner of an offcut. Of the two orders of cutting it takes the one
// that leaves the larger piece, and gives what is left over.
func (c *cutting) part(o rest, piece int, w, h length.Length, turned bool) (rests []shape.Rect) {
	s := &c.sheets[o.sheet]
	if !c.own[o.sheet] {
		c.own[o.sheet] = true
		s.Parts, s.Offcuts, s.Cuts = slices.Clone(s.Parts), slices.Clone(s.Offcuts), slices.Clone(s.Cuts)
	}
	at := slices.Index(s.Offcuts, o.Rect)
	s.Offcuts = slices.Delete(s.Offcuts, at, at+1)
	right, above := o.W-w-s.Kerf, o.H-h-s.Kerf // what is left beside and above
	saw := func(kind string, from, to shape.Point) {
		s.Cuts = append(s.Cuts, plan.Cut{Order: len(s.Cuts) + 1, Kind: kind, From: from, To: to})
	}
	keep := func(r shape.Rect) {
		if r.W > 0 && r.H > 0 {
			rests = append(rests, r)
		}
	}
	crossFirst := max(right, 0).Times(o.H) >= max(above, 0).Times(o.W)
	high, wide := h, w // how far the second of the two cuts runs
	if crossFirst {
		high = o.H
	} else {
		wide = o.W
	}
	cross := func() {
		if o.W > w {
			saw("cross", shape.Point{X: o.X + w, Y: o.Y}, shape.Point{X: o.X + w, Y: o.Y + high})
			keep(shape.Rect{X: o.X + w + s.Kerf, Y: o.Y, W: right, H: high})
		}
	}
	rip := func() {
		if o.H > h {
			saw("rip", shape.Point{X: o.X, Y: o.Y + h}, shape.Point{X: o.X + wide, Y: o.Y + h})
			keep(shape.Rect{X: o.X, Y: o.Y + h + s.Kerf, W: wide, H: above})
		}
	}
	if crossFirst {
		cross()
		rip()
	} else {
		rip()
		cross()
	}
	s.Offcuts = append(s.Offcuts, rests...)
	s.Parts = append(s.Parts, plan.Part{Panel: c.pieces[piece].ID, Rect: shape.Rect{X: o.X, Y: o.Y, W: w, H: h}, Turned: turned})
	c.pieces[piece].Sheet = s.ID
	return rests
}

// ontoSheets nests strips that fit no offcut onto sheets of their product.
func (c *cutting) ontoSheets(ctx context.Context, j *job.Job, p *job.Product, pieces []int) error {
	problem := &nest.Problem{Kerf: int64(p.Kerf)}
	for _, z := range p.Sizes {
		problem.Sheets = append(problem.Sheets, nest.Sheet{W: int64(z.Length), H: int64(z.Width), Cost: int64(z.Price) + 1})
	}
	for _, st := range c.stockLeft(j, p.ID) {
		problem.Sheets = append(problem.Sheets, nest.Sheet{W: int64(st.Length), H: int64(st.Width), Max: st.Count})
	}
	var asked []int
	for _, i := range pieces {
		item := nest.Item{W: int64(c.pieces[i].Size[0]), H: int64(c.pieces[i].Size[1]), N: 1, Turn: true}
		one := nest.Problem{Sheets: problem.Sheets, Items: []nest.Item{item}, Kerf: problem.Kerf}
		if one.Check() == nil {
			problem.Items, asked = append(problem.Items, item), append(asked, i)
		}
	}
	if len(asked) == 0 {
		return nil
	}
	answer, err := nest.Solve(ctx, problem, nest.Budget{Nodes: work})
	if err != nil {
		return err
	}
	for b := range answer.Bins {
		bin := &answer.Bins[b]
		s := cut.Sheet(p, problem, bin)
		s.ID = fmt.Sprintf("S%03d", len(c.sheets)+1)
		for k, part := range bin.Parts() {
			i := asked[part.Item]
			s.Parts[k].Panel = c.pieces[i].ID
			c.pieces[i].Sheet = s.ID
		}
		c.sheets = append(c.sheets, s)
	}
	return nil
}

// stockLeft is what the cut list has not used of the pieces on hand of a product. Pieces of one size serve alike.
func (c *cutting) stockLeft(j *job.Job, product string) []job.Stock {
	used := map[[2]length.Length]int{}
	for _, s := range c.sheets {
		if s.Product == product && s.Source == plan.Stock {
			used[s.Size]++
		}
	}
	var left []job.Stock
	for _, st := range j.Stock {
		size := [2]length.Length{st.Length, st.Width}
		if st.Product != product {
			continue
		}
		n := min(used[size], st.Count)
		used[size] -= n
		if st.Count -= n; st.Count > 0 {
			left = append(left, st)
		}
	}
	return left
}
