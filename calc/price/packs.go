package price

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"seamwright/calc/finish"
	"seamwright/calc/job"
	"seamwright/calc/money"
	"seamwright/calc/plan"
)

// Choice is how many of one pack are bought.
type Choice struct {
	Pack  job.Pack
	Count int
}

// grain is the fineness in which packs are weighed against each other: thousandths of the need's unit.
const grain = 1000

// largestTable bounds the work on one row: beyond it whole packs of the best price by content are taken first.
const largestTable = 200_000

// Cover chooses packs that hold at least the need, at least cost; of equal cost, the fewest packs. holds are the packs'
// contents in the unit of the need. It is the covering knapsack solved by dynamic programming over the contents'
// common divisor (Bellman), exact up to largestTable steps.
func Cover(packs []job.Pack, holds []float64, need float64) ([]Choice, money.Money) {
	size, step := make([]int, len(packs)), 0
	best := -1
	for i, h := range holds {
		size[i] = int(math.Round(h * grain))
		if size[i] <= 0 {
			continue
		}
		step = gcd(step, size[i])
		if best < 0 || float64(packs[i].Price)*holds[best] < float64(packs[best].Price)*h {
			best = i
		}
	}
	if best < 0 || need <= 0 {
		return nil, 0
	}
	const slack = 1e-6 // a need that is a whole number of packs is not rounded up
	cells := int(math.Ceil(need*grain/float64(step) - slack))
	counts := make([]int, len(packs))
	if unit := size[best] / step; cells > largestTable {
		n := (cells - largestTable + unit - 1) / unit
		counts[best] += n
		cells -= n * unit
	}
	type cell struct {
		cost money.Money
		n    int
		by   int
	}
	table := make([]cell, max(cells, 0)+1)
	for c := 1; c < len(table); c++ {
		table[c] = cell{cost: math.MaxInt64, by: -1}
		for i := range packs {
			if size[i] <= 0 {
				continue
			}
			from := table[max(0, c-size[i]/step)]
			if cost, n := from.cost+packs[i].Price, from.n+1; cost < table[c].cost || cost == table[c].cost && n < table[c].n {
				table[c] = cell{cost, n, i}
			}
		}
	}
	for c := len(table) - 1; c > 0; c = max(0, c-size[table[c].by]/step) {
		counts[table[c].by]++
	}
	var chosen []Choice
	cost := money.Money(0)
	for i, n := range counts {
		if n > 0 {
			chosen = append(chosen, Choice{packs[i], n})
			cost += packs[i].Price.Times(n)
		}
	}
	return chosen, cost
}

func gcd(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// measures are how many of a base unit (metre, square metre, litre, kilogram, piece) each unit is; exact by definition.
var measures = map[string]struct {
	of     string
	amount float64
}{
	"count": {"count", 1}, "m": {"m", 1}, "ft": {"m", 0.3048}, "m2": {"m2", 1}, "ft2": {"m2", 0.3048 * 0.3048},
	"L": {"L", 1}, "gal": {"L", 3.785411784}, "kg": {"kg", 1}, "lb": {"kg", 0.45359237},
}

// Convert gives an amount in another unit; false where the units measure different things.
func Convert(amount float64, from, to string) (float64, bool) {
	a, b := measures[from], measures[to]
	if a.of == "" || a.of != b.of {
		return 0, false
	}
	if from == to {
		return amount, true
	}
	return amount * a.amount / b.amount, true
}

// supplies that could serve a row: the one it names, else all of the kind it names.
func supplies(j *job.Job, name string) []job.Supply {
	for _, s := range j.Supplies {
		if s.ID == name {
			return []job.Supply{s}
		}
	}
	return finish.SuppliesOf(j, name)
}

// coverWith chooses packs of one supply; nil where it has none in such a unit.
func coverWith(j *job.Job, s job.Supply, need float64, unit string) ([]Choice, money.Money) {
	var packs []job.Pack
	var holds []float64
	for _, p := range s.Packs {
		if h, ok := contents(j, s, p, unit); ok {
			packs, holds = append(packs, p), append(holds, h)
		}
	}
	return Cover(packs, holds, need)
}

// kindOf is the kind of a row of the takeoff, which names a supply by its id, else its kind already.
func kindOf(j *job.Job, supply string) string {
	i, found := slices.BinarySearchFunc(j.Supplies, supply, func(s job.Supply, id string) int { return cmp.Compare(s.ID, id) })
	switch {
	case !found:
		kind, _, _ := strings.Cut(supply, "/")
		if plan.UsedBy(supply) != nil { // trim by its type
			kind = supply
		}
		return kind
	case j.Supplies[i].Type != "" && plan.UsedBy(j.Supplies[i].Kind) == nil:
		return j.Supplies[i].Kind + "/" + j.Supplies[i].Type
	}
	return j.Supplies[i].Kind
}

// packRows buys a row of the takeoff: one row for each pack that is taken. A row that is bought already, comes from
// offcuts or needs nothing stays as it is; one that nobody sells stands with nothing bought and a note.
func packRows(j *job.Job, item plan.Item) []plan.Item {
	if item.Buy > 0 || item.Need <= 0 || item.Supply == finish.Offcuts {
		return []plan.Item{item}
	}
	var best []Choice
	var cost money.Money
	var from job.Supply
	for _, s := range supplies(j, item.Supply) {
		chosen, c := coverWith(j, s, item.Need, item.Unit)
		if chosen != nil && (best == nil || c < cost) {
			best, cost, from = chosen, c, s
		}
	}
	if best == nil {
		item.Basis = item.Basis.Also(plan.Tell("price.no-price"))
		return []plan.Item{item}
	}
	slices.SortStableFunc(best, func(a, b Choice) int {
		x, _ := contents(j, from, a.Pack, item.Unit)
		y, _ := contents(j, from, b.Pack, item.Unit)
		return cmp.Compare(y, x)
	})
	var rows []plan.Item
	left := item.Need
	for i, c := range best {
		row := item
		holds, _ := contents(j, from, c.Pack, item.Unit)
		row.Supply, row.Pack, row.Price, row.Buy, row.Holds = from.ID, c.Pack.Name, c.Pack.Price, c.Count, fine(holds)
		row.Need = left
		if i < len(best)-1 {
			row.Need = math.Min(left, holds*float64(c.Count))
		}
		left -= row.Need
		if len(best) > 1 {
			row.Item = plan.Tell("item.in-pack", "item", item.Item, "pack", plan.Pack(c.Pack.Name))
			row.Record += ", " + c.Pack.Name
		}
		row.Basis = row.Basis.Also(packsTold(c))
		rows = append(rows, row)
	}
	return rows
}

// ByContent is the price of what a row needs as if packs were sold in parts, in hundredths: need times the least price by
// content. Buying whole packs costs at least as much.
func ByContent(j *job.Job, item plan.Item) float64 {
	least := math.Inf(1)
	for _, s := range supplies(j, item.Supply) {
		for _, p := range s.Packs {
			if h, ok := contents(j, s, p, item.Unit); ok && h > 0 {
				least = math.Min(least, float64(p.Price)/h)
			}
		}
	}
	if math.IsInf(least, 1) {
		return 0
	}
	return item.Need * least
}

// contents is what a pack holds in a unit; screws sold by weight are counted by their length.
func contents(j *job.Job, s job.Supply, p job.Pack, unit string) (float64, bool) {
	if unit == "count" && s.Length > 0 {
		if pounds, ok := Convert(p.Holds, p.Unit, "lb"); ok {
			return pounds * finish.ScrewsPerPound(j, s.Length), true
		}
	}
	return Convert(p.Holds, p.Unit, unit)
}

// packsTold tells what is bought of one pack, and why: what a pack holds stands beside it where it is no count.
func packsTold(c Choice) plan.Fact {
	if c.Pack.Unit == "count" {
		return plan.Tell("price.packs-of-pieces", "number", c.Count, "pack", plan.Pack(c.Pack.Name))
	}
	return plan.Tell("price.packs", "number", c.Count, "pack", plan.Pack(c.Pack.Name), "holds", c.Pack.Holds, "unit", plan.Unit(c.Pack.Unit))
}
