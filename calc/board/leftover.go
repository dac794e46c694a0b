package board

import (
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/layout"
	"seamwright/calc/length"
	"seamwright/calc/plan"
)

// Work of the nesting: of one group, and of what is left over between groups.
const (
	groupNodes    = 60_000
	leftoverNodes = 200_000
)

// fullSheet is the share of a sheet that must be cut into panels for it to stand as its group cut it.
const fullSheet = 0.97

// cutAll cuts the sheets of one product: every group by itself, then what stands on sheets that are not full, of all
// groups together, with the pieces in stock. A single group is cut in one go.
func (s *solver) cutAll(p *job.Product, sizes []layout.Size, byGroup [][]int) (*cutting, error) {
	byGroup = slices.DeleteFunc(byGroup, func(g []int) bool { return len(g) == 0 })
	if len(byGroup) == 1 {
		return s.cut(p, s.job.Stock, sizes, leftoverNodes)
	}
	all := &cutting{at: make([]place, len(sizes))}
	var rest []int
	for _, g := range byGroup {
		own := make([]layout.Size, len(g))
		for k, i := range g {
			own[k] = sizes[i]
		}
		c, err := s.cut(p, nil, own, groupNodes)
		if err != nil {
			return nil, err
		}
		on := make([][]int, len(c.sheets))
		for k, at := range c.at {
			on[at.sheet] = append(on[at.sheet], k)
		}
		for n := range c.sheets {
			if share(&c.sheets[n]) < fullSheet {
				for _, k := range on[n] {
					rest = append(rest, g[k])
				}
				continue
			}
			for _, k := range on[n] {
				all.at[g[k]] = place{len(all.sheets), c.at[k].part}
			}
			all.sheets = append(all.sheets, c.sheets[n])
		}
	}
	if len(rest) == 0 {
		return all, nil
	}
	own := make([]layout.Size, len(rest))
	for k, i := range rest {
		own[k] = sizes[i]
	}
	c, err := s.cut(p, s.job.Stock, own, leftoverNodes)
	if err != nil {
		return nil, err
	}
	for k, i := range rest {
		all.at[i] = place{len(all.sheets) + c.at[k].sheet, c.at[k].part}
	}
	all.sheets = append(all.sheets, c.sheets...)
	return all, nil
}

// share is how much of a sheet is cut into parts.
func share(sh *plan.Sheet) float64 {
	var used float64
	for _, p := range sh.Parts {
		used += float64(p.Rect.W+sh.Kerf) * float64(p.Rect.H+sh.Kerf)
	}
	return used / (float64(sh.Size[0]+sh.Kerf) * float64(sh.Size[1]+sh.Kerf))
}

// cut nests pieces, or takes their cutting from the memo.
func (s *solver) cut(p *job.Product, stock []job.Stock, sizes []layout.Size, nodes int64) (*cutting, error) {
	w := newWriter()
	w.product(p)
	for _, st := range stock {
		if st.Product == p.ID {
			w.stock(st)
		}
	}
	w.text(string(s.job.Aim))
	for _, z := range sizes {
		w.lengths([]length.Length{z.L, z.W, length.Length(z.Tapers)})
		w.bool(z.Turn)
	}
	w.int(nodes)
	k := w.sum()
	if c := s.memo.cut(k); c != nil {
		return c, nil
	}
	c, err := cutSheets(s.ctx, p, stock, sizes, s.job.Aim, nodes)
	if err != nil {
		return nil, err
	}
	s.memo.keepCut(k, c)
	return c, nil
}
