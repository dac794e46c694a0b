package price

import (
	"math"
	"slices"
	"strings"

	"seamwright/calc/job"
	"seamwright/calc/plan"
)

// remaining sets what is recorded as used against the takeoff, and what is still to buy against what is still to do.
//
// What is recorded is named by its row, or by the row without its pack ("joint compound"), or by the supply or product;
// rows of one name are filled in turn. Expected is the row's need (for sheets, those that the cut list opens) times the
// share of its own tasks, by hours, that is done (sheets: the tasks that hang their product); Left is the rest. Packs that
// have been opened count as bought, so StillBuy is the packs that used and left together fill, less those that used alone
// has opened. Rows that no task uses (masking paper, say) count as used what is recorded.
func remaining(j *job.Job, p *plan.Plan) {
	used := map[string]float64{}
	for _, d := range j.Progress {
		for _, u := range d.Used {
			used[u.Item] += u.Quantity
		}
	}
	shares := doneShares(p.Schedule)
	p.Progress.LeftToBuy = 0
	for i := range p.Takeoff {
		row := &p.Takeoff[i]
		for _, name := range names(*row) {
			take := used[name]
			if more := i+1 < len(p.Takeoff) && shareNames(p.Takeoff[i+1], name); more { // the rest fills the next row
				take = math.Min(take, whole(*row))
			}
			used[name] -= take
			row.Used += take
		}
		row.Used = fine(row.Used)
		all := whole(*row)
		if share, ok := shares[work(*row)]; ok {
			row.Expected = fine(all * share)
			row.Left = fine(all - row.Expected)
		} else {
			row.Expected = row.Used
			row.Left = fine(math.Max(all-row.Used, 0))
		}
		row.StillBuy = stillBuy(*row)
		row.StillPay = row.Price.Times(float64(row.StillBuy))
		p.Progress.LeftToBuy += row.StillPay
	}
}

// whole is what a row uses up in all: sheets are opened whole, whatever hangs of them.
func whole(row plan.Item) float64 {
	if row.Group == "sheets" {
		return float64(row.Buy)
	}
	return row.Need
}

// names by which a quantity of a row may be recorded, the closest first.
func names(row plan.Item) []string {
	all := []string{row.Item}
	if short, _, ok := strings.Cut(row.Item, ", "); ok {
		all = append(all, short)
	}
	if row.Supply != "" && row.Supply != row.Item {
		all = append(all, row.Supply)
	}
	return all
}

func shareNames(row plan.Item, name string) bool { return slices.Contains(names(row), name) }

// stillBuy counts the packs of a row that are still to be bought. With nothing used that is all that what is left needs.
func stillBuy(row plan.Item) int {
	if row.Buy == 0 {
		return 0
	}
	if row.Used == 0 && row.Left >= whole(row) {
		return row.Buy
	}
	holds := row.Holds
	if holds <= 0 {
		return 0
	}
	const slack = 1e-6 // a whole number of packs is not rounded up
	packs := func(n float64) int { return int(math.Ceil(n/holds - slack)) }
	return max(packs(row.Used+row.Left)-packs(row.Used), 0)
}

// kinds of work that use up rows of the takeoff.
const (
	hangs   = "hang"
	joints  = "joints"
	primes  = "prime"
	paints  = "paint"
	trims   = "trim"
	nowhere = ""
)

// work is the kind of task that uses a row.
func work(row plan.Item) string {
	switch {
	case row.Group == "sheets":
		return hanging(row.Supply)
	case row.Group == "fasteners":
		return hangs
	case row.Group == "joints":
		return joints
	case strings.HasPrefix(row.Item, "drywall primer"):
		return primes
	case strings.HasPrefix(row.Item, "wall and ceiling paint"):
		return paints
	case row.Group == "trim":
		return trims
	}
	return nowhere
}

// hanging is the work that uses up the sheets of one product.
func hanging(product string) string { return hangs + " " + product }

// doneShares is the share by hours of each kind of work that is done; kinds without tasks are not in it.
func doneShares(tasks []plan.Task) map[string]float64 {
	all, done := map[string]float64{}, map[string]float64{}
	count := func(kind string, t plan.Task) {
		all[kind] += t.Hours
		if t.Done {
			done[kind] += t.Hours
		}
	}
	for _, t := range tasks {
		kind, _, _ := strings.Cut(t.ID, "-")
		switch kind {
		case "hang":
			kind = hangs
			count(hanging(t.Product), t)
		case "coat", "beads", "skim":
			kind = joints
		case "prime":
			kind = primes
		case "paint":
			kind = paints
		case "trim", "battens":
			kind = trims
		default:
			continue
		}
		count(kind, t)
	}
	shares := map[string]float64{}
	for kind, hours := range all {
		if hours > 0 {
			shares[kind] = done[kind] / hours
		}
	}
	return shares
}
