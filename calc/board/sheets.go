package board

import (
	"context"

	"seamwright/calc/board/tally"
	"seamwright/calc/cut"
	"seamwright/calc/job"
	"seamwright/calc/layout"
	"seamwright/calc/nest"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
)

// cutting is the sheets of one product and, for every piece, where it lies.
type cutting struct {
	sheets []plan.Sheet
	at     []place // parallel to the sizes that were asked for
}

// place is where a piece lies: the sheet and its part.
type place struct{ sheet, part int }

// sheetWeight is what a sheet counts where few sheets are wanted: more than any price, so that price only
// decides between equal counts.
const sheetWeight = 1 << 28

// cutSheets nests pieces of one product, for the fewest sheets or for the least money. Stock costs nothing and so is taken where it saves buying.
func cutSheets(ctx context.Context, p *job.Product, stock []job.Stock, sizes []layout.Size, fewest bool, nodes int64) (*cutting, error) {
	if len(sizes) == 0 {
		return &cutting{}, nil
	}
	pr := problem(p, stock, fewest)
	demand, of := bySize(sizes)
	var queue [][]int
	for size, z := range demand.Asked() {
		pr.Items = append(pr.Items, itemOf(z, len(of[size])))
		queue = append(queue, of[size])
	}
	res, err := nest.Solve(ctx, pr, nest.Budget{Nodes: nodes, Plain: true})
	if err != nil {
		return nil, err
	}
	return readCutting(p, pr, res, queue, len(sizes)), nil
}

// bySize is the demand for pieces, and the pieces of every size in it.
func bySize(pieces []layout.Size) (demand *tally.Demand, of [][]int) {
	demand = tally.NewDemand()
	for i, z := range pieces {
		k := demand.Number(z)
		if int(k) == len(of) {
			of = append(of, nil)
		}
		demand.Add(k, 1)
		of[k] = append(of[k], i)
	}
	return demand, of
}

// itemOf asks the nesting for n pieces of a size.
func itemOf(z layout.Size, n int) nest.Item {
	return nest.Item{W: int64(z.L), H: int64(z.W), N: n, Turn: z.Turn, Tapers: z.Tapers}
}

// problem is the sheets that pieces of a product can be cut from: those for sale, then those on hand.
func problem(p *job.Product, stock []job.Stock, fewest bool) *nest.Problem {
	pr := &nest.Problem{Kerf: int64(p.Kerf)}
	for _, z := range p.Sizes {
		cost := int64(z.Price)
		if fewest {
			cost += sheetWeight
		}
		pr.Sheets = append(pr.Sheets, nest.Sheet{W: int64(z.Length), H: int64(z.Width), Tapered: [2]bool{p.Tapered, p.Tapered}, Cost: cost})
	}
	for _, st := range stock {
		if st.Product != p.ID || st.Count <= 0 {
			continue
		}
		t := tally.StockTapers(p, st)
		pr.Sheets = append(pr.Sheets, nest.Sheet{W: int64(st.Length), H: int64(st.Width), Tapered: [2]bool{t > 0, t > 1}, Max: st.Count})
	}
	return pr
}

// readCutting turns the answer of the nesting into the plan's sheets. Equal pieces go to their sheets in turn.
func readCutting(p *job.Product, pr *nest.Problem, res *nest.Result, queue [][]int, pieces int) *cutting {
	c := &cutting{at: make([]place, pieces)}
	next := make([]int, len(queue))
	for b := range res.Bins {
		bin := &res.Bins[b]
		for k, part := range bin.Parts() {
			piece := queue[part.Item][next[part.Item]]
			next[part.Item]++
			c.at[piece] = place{len(c.sheets), k}
		}
		c.sheets = append(c.sheets, cut.Sheet(p, pr, bin))
	}
	return c
}

// bought counts the sheets that are paid for, and their price.
func (c *cutting) bought() (n int, cost int64) {
	for i := range c.sheets {
		if c.sheets[i].Source == plan.Buy {
			n++
			cost += int64(c.sheets[i].Price)
		}
	}
	return n, cost
}

// factory tells which sides of a part are edges of the sheet as it came, on the wall: at low u, high u, low v, high v.
// A piece may be hung either way up, so the part is turned half round where that brings a tapered edge where it is
// wanted.
func factory(p *job.Product, sh *plan.Sheet, part *plan.Part, piece *layout.Piece, stock []job.Stock) layout.Made {
	e := edgesOf(p, sh, part.Rect, stock)
	start, end, low, high := e[layout.LowU], e[layout.HighU], e[layout.LowV], e[layout.HighV]
	if part.Turned {
		return layout.Made{low, high, start, end}
	}
	wantLow, wantHigh := piece.Tapers[0], piece.Tapers[1]
	if wantLow && low == plan.EdgeCut || wantHigh && high == plan.EdgeCut {
		low, high, start, end = high, low, end, start
	}
	return layout.Made{start, end, low, high}
}

// edgesOf tells which sides of a rectangle are edges of its sheet as it came: at the sheet's start, its end, its lower
// and its upper edge.
func edgesOf(p *job.Product, sh *plan.Sheet, r shape.Rect, stock []job.Stock) layout.Made {
	tapers := int8(2)
	long := plan.EdgeSquare
	if p.Tapered {
		long = plan.EdgeTapered
	}
	if sh.Source == plan.Stock {
		tapers = 0
		for _, st := range stock {
			if st.Product == p.ID && st.Length == sh.Size[0] && st.Width == sh.Size[1] {
				tapers = max(tapers, tally.StockTapers(p, st))
				if !p.Tapered && st.Tapered {
					tapers = 2
				}
			}
		}
	}
	pick := func(at bool, e plan.Edge) plan.Edge {
		if at {
			return e
		}
		return plan.EdgeCut
	}
	return layout.Made{
		layout.LowU: pick(r.X == 0, plan.EdgeEnd), layout.HighU: pick(r.MaxX() == sh.Size[0], plan.EdgeEnd),
		layout.LowV: pick(r.Y == 0 && tapers > 0, long), layout.HighV: pick(r.MaxY() == sh.Size[1] && tapers > 1, long),
	}
}
