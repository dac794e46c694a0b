package board

import (
	"slices"

	"seamwright/calc/guard"
	"seamwright/calc/job"
	"seamwright/calc/layout"
	"seamwright/calc/length"
	"seamwright/calc/memo"
	"seamwright/calc/plan"
)

// fullSheet is the share of a sheet that must be cut into panels for it to stand as its group cut it.
const fullSheet = 0.97

// blockGroups is how many groups in project order share what is left over: so many that little is lost, so few that
// an edit leaves the other blocks as they are.
const blockGroups = 12

// batch is the pieces of one product that a group asks for, by their index, and the key of the group's layout.
type batch struct {
	pieces []int
	key    memo.Key
}

// cutAll cuts the sheets of one product: every group by itself, then, block by block, what stands on sheets that are
// not full, with the pieces in stock that earlier blocks have left. A single group is cut in one go.
func (s *Draft) cutAll(p *job.Product, sizes []layout.Size, batches []batch) (*cutting, error) {
	work := s.budget()
	if len(batches) == 1 {
		return s.cut(p, s.job.Stock, sizes, work.leftover)
	}
	own, errs := make([]*cutting, len(batches)), make([]error, len(batches))
	guard.Each(len(batches), func(g int) {
		own[g], errs[g] = s.cutBatch(p, &batches[g], sizes, work.piece)
	})
	for _, err := range errs {
		if err != nil {
			return nil, err
		}
	}
	sheets := 0
	for _, c := range own {
		sheets += len(c.sheets)
	}
	all := &cutting{at: make([]place, len(sizes)), sheets: make([]plan.Sheet, 0, sheets)}
	stock := slices.Clone(s.job.Stock)
	for first := 0; first < len(batches); first += blockGroups {
		var rest []int
		for g := first; g < min(first+blockGroups, len(batches)); g++ {
			rest = append(rest, all.take(own[g], batches[g].pieces, func(sh *plan.Sheet) bool { return share(sh) >= fullSheet })...)
		}
		if len(rest) == 0 {
			continue
		}
		c, err := s.cut(p, stock, pick(sizes, rest), work.leftover)
		if err != nil {
			return nil, err
		}
		all.take(c, rest, func(*plan.Sheet) bool { return true })
		stock = without(stock, c)
	}
	return all, nil
}

func pick(sizes []layout.Size, at []int) []layout.Size {
	own := make([]layout.Size, len(at))
	for k, i := range at {
		own[k] = sizes[i]
	}
	return own
}

// take adds the sheets of another cutting that are wanted; its pieces are those listed in at. It returns the pieces of
// the sheets that are not taken.
func (c *cutting) take(o *cutting, at []int, wanted func(*plan.Sheet) bool) (rest []int) {
	moved := make([]int, len(o.sheets)) // where a sheet that is taken goes
	for n := range o.sheets {
		moved[n] = notTaken
		if wanted(&o.sheets[n]) {
			moved[n] = len(c.sheets)
			c.sheets = append(c.sheets, o.sheets[n])
		}
	}
	for k, pl := range o.at {
		if to := moved[pl.sheet]; to != notTaken {
			c.at[at[k]] = place{to, pl.part}
		} else {
			rest = append(rest, at[k])
		}
	}
	return rest
}

// notTaken marks a sheet that stays behind.
const notTaken = -1

// without takes the pieces in stock that a cutting has used off the list.
func without(stock []job.Stock, c *cutting) []job.Stock {
	left := slices.Clone(stock)
	for i := range c.sheets {
		sh := &c.sheets[i]
		if sh.Source != plan.Stock {
			continue
		}
		for k := range left {
			if st := &left[k]; st.Product == sh.Product && st.Length == sh.Size[0] && st.Width == sh.Size[1] && st.Count > 0 {
				st.Count--
				break
			}
		}
	}
	return left
}

// share is how much of a sheet is cut into parts.
func share(sh *plan.Sheet) float64 {
	var used float64
	for _, p := range sh.Parts {
		used += float64(float64(p.Rect.W+sh.Kerf) * float64(p.Rect.H+sh.Kerf))
	}
	return used / (float64(sh.Size[0]+sh.Kerf) * float64(sh.Size[1]+sh.Kerf))
}

// cutBatch nests the pieces of a group, or takes their cutting from the memo.
func (s *Draft) cutBatch(p *job.Product, b *batch, sizes []layout.Size, piece int64) (*cutting, error) {
	var w writer
	w.Text("batch")
	w.Add(b.key)
	w.Bool(s.fewest)
	w.Text(p.ID)
	return memo.Try(s.memo.Results, w.Key(), func() (*cutting, error) {
		return s.nest(p, nil, pick(sizes, b.pieces), piece*int64(len(b.pieces)))
	})
}

// cut nests pieces, or takes their cutting from the memo.
func (s *Draft) cut(p *job.Product, stock []job.Stock, sizes []layout.Size, nodes int64) (*cutting, error) {
	var w writer
	w.Text("cut")
	w.product(p)
	for _, st := range stock {
		if st.Product == p.ID {
			w.stock(st)
		}
	}
	w.Bool(s.fewest)
	for _, z := range sizes {
		w.lengths([]length.Length{z.L, z.W, length.Length(z.Tapers)})
		w.Bool(z.Turn)
	}
	w.Int(nodes)
	w.Int(int64(s.effort))
	return memo.Try(s.memo.Results, w.Key(), func() (*cutting, error) { return s.nest(p, stock, sizes, nodes) })
}

// nest nests pieces, and by hand too where fewest sheets are asked for.
func (s *Draft) nest(p *job.Product, stock []job.Stock, sizes []layout.Size, nodes int64) (*cutting, error) {
	c, err := cutSheets(s.ctx, p, stock, sizes, s.fewest, nodes)
	if err == nil && s.fewest {
		c = s.cutByHand(p, stock, sizes, c)
	}
	return c, err
}
