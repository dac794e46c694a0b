package price

import (
	"cmp"
	"math"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/money"
	"seamwright/calc/plan"
)

// kindOfSheet is one row of sheets.
type kindOfSheet struct {
	product    string
	long, wide length.Length
	source     plan.Source
	price      money.Money
}

// netAreas is the area of every panel and strip of a return by id, holes taken out.
func netAreas(p *plan.Plan) map[string]float64 {
	n := len(p.Returns)
	for _, s := range p.Surfaces {
		for _, z := range s.Zones {
			n += len(z.Panels)
		}
	}
	areas := make(map[string]float64, n)
	for _, s := range p.Surfaces {
		for _, z := range s.Zones {
			for i := range z.Panels {
				panel := &z.Panels[i]
				a := panel.Outline.Area()
				for _, h := range panel.Holes {
					a -= h.Area()
				}
				areas[panel.ID] = a.SquareMetres()
			}
		}
	}
	for _, r := range p.Returns {
		areas[r.ID] = r.Size[0].Times(r.Size[1]).SquareMetres()
	}
	return areas
}

// sheetRows are the sheets of the cut list by product, size and price; pieces in stock stand with nothing to buy. up names
// the pieces that hang already: their sheets are opened, and what else is cut from these need not be bought again.
func sheetRows(j *job.Job, p *plan.Plan, areas map[string]float64, up map[string]bool) []plan.Item {
	counts, opened, used := map[kindOfSheet]int{}, map[kindOfSheet]int{}, map[kindOfSheet]float64{}
	for i := range p.Sheets {
		s := &p.Sheets[i]
		k := kindOfSheet{s.Product, max(s.Size[0], s.Size[1]), min(s.Size[0], s.Size[1]), s.Source, s.Price}
		counts[k]++
		begun := false
		for _, part := range s.Parts {
			used[k] += areas[part.Panel]
			begun = begun || up[part.Panel]
			if part.Pair != nil {
				used[k] += areas[part.Pair.Panel]
				begun = begun || up[part.Pair.Panel]
			}
		}
		if begun {
			opened[k]++
		}
	}
	kinds := make([]kindOfSheet, 0, len(counts))
	for k := range counts {
		kinds = append(kinds, k)
	}
	slices.SortFunc(kinds, func(a, b kindOfSheet) int {
		return cmp.Or(cmp.Compare(a.product, b.product), cmp.Compare(a.source, b.source), cmp.Compare(a.long, b.long),
			cmp.Compare(a.wide, b.wide), cmp.Compare(a.price, b.price))
	})
	rows := []plan.Item{} // an empty takeoff is an empty list, never null
	for _, k := range kinds {
		n := counts[k]
		name := job.SizeName(k.long, k.wide, j.Units != job.Metric)
		need := used[k] / k.long.Times(k.wide).SquareMetres()
		row := plan.Item{Item: plan.Tell("item.sheet", "product", k.product, "size", name), Record: k.product + " " + name, Thing: k.product, Kind: plan.SheetKind, Supply: k.product,
			Group: "sheets", Need: need, Unit: "sheet", Buy: n, Holds: 1, Price: k.price, Expected: float64(opened[k]), Source: plan.Tell("source.cut-list")}
		row.Basis = plan.Tell("price.sheets", "net", need, "opened", n)
		if k.source == plan.Stock {
			row.Item, row.Record, row.Buy, row.Price = plan.Tell("item.sheet-from-stock", "product", k.product, "size", name), row.Record+" from stock", 0, 0
			row.Basis = row.Basis.Also(plan.Tell("price.on-hand"))
		} else if k.price == 0 {
			row.Basis = row.Basis.Also(plan.Tell("price.no-price"))
		}
		rows = append(rows, row)
		if extra := Spare(n, spare.Of(j)/100); k.source == plan.Buy && extra > 0 {
			row.Item, row.Record, row.Need, row.Buy, row.Expected = plan.Tell("item.spare-sheet", "product", k.product, "size", name), row.Record+" spare", 0, extra, 0
			row.Basis = plan.Tell("price.spare", "count", n, "spare", plan.Share(spare.Of(j)/100))
			rows = append(rows, row)
		}
	}
	return rows
}

// Spare is how many sheets a waste allowance adds: n x (1 + w) rounded up, less n.
func Spare(n int, w float64) int {
	const slack = 1e-9
	return int(math.Ceil(float64(float64(n)*(1+w))-slack)) - n
}
