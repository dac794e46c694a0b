package price

import (
	"math"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/plan"
)

// remaining sets what is recorded as used against the takeoff, and what is still to buy against what is still to do.
//
// What is recorded is named by its row, by the thing without its pack ("joint compound"), or by the supply or product; rows of
// one name are filled in turn. Expected is what the work that is done has used up: of sheets those that pieces which are up
// were cut from; of screws the share by area of the pieces that they hold; of the rest the row's need times the share, by
// hours, of its own tasks. Left is what remains. Packs that have been opened count as bought, so StillBuy is the packs that
// used and left together fill, less those that used alone has opened. Rows that no task uses count as used what is recorded.
func remaining(j *job.Job, p *plan.Plan, areas map[string]float64) {
	used := map[string]float64{}
	for _, d := range j.Progress {
		for _, u := range d.Used {
			used[u.Item] += u.Quantity
		}
	}
	hours, screws := hoursDone(p.Schedule), screwsDriven(p, areas, up(p.Schedule))
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
		driven, counted := screws[row.Supply]
		done, known := hours.of(plan.UsedBy(row.Kind))
		switch {
		case row.Kind == plan.SheetKind: // sheetRows has counted those that are opened
		case counted:
			row.Expected = fine(driven.share() * all)
		case known:
			row.Expected = fine(done * all)
		default:
			row.Expected = math.Min(row.Used, all)
		}
		row.Left = fine(all - row.Expected)
		row.StillBuy = stillBuy(*row)
		row.StillPay = row.Price.Times(row.StillBuy)
		p.Progress.LeftToBuy += row.StillPay
	}
}

// whole is what a row uses up in all: sheets are opened whole, whatever hangs of them.
func whole(row plan.Item) float64 {
	if row.Kind == plan.SheetKind {
		return float64(row.Buy)
	}
	return row.Need
}

// names by which a quantity of a row may be recorded, the closest first.
func names(row plan.Item) []string {
	all := []string{row.Record}
	for _, other := range []string{row.Thing, row.Supply} {
		if other != "" && !slices.Contains(all, other) {
			all = append(all, other)
		}
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

// up names the pieces that hang by the tasks that are done.
func up(tasks []plan.Task) map[string]bool {
	all := map[string]bool{}
	for i := range tasks {
		if tasks[i].Done {
			for _, id := range tasks[i].Pieces {
				all[id] = true
			}
		}
	}
	return all
}

// part is how much there is of something, and how much of it is done.
type part struct{ all, done float64 }

func (p part) share() float64 {
	if p.all == 0 {
		return 0
	}
	return p.done / p.all
}

// workDone is the hours of every step and how many of them are done.
type workDone map[plan.Step]part

func hoursDone(tasks []plan.Task) workDone {
	w := workDone{}
	for i := range tasks {
		t := &tasks[i]
		p := w[t.Step]
		p.all += t.Hours
		if t.Done {
			p.done += t.Hours
		}
		w[t.Step] = p
	}
	return w
}

// of is the share that is done of some steps together; false where no task does any of them.
func (w workDone) of(steps []plan.Step) (share float64, known bool) {
	var sum part
	for _, s := range steps {
		sum.all, sum.done = sum.all+w[s].all, sum.done+w[s].done
	}
	return sum.share(), sum.all > 0
}

// screwsDriven is the screws of every supply and how many of them hold pieces that are up: of a zone's screws the share by
// area of its pieces.
func screwsDriven(p *plan.Plan, areas map[string]float64, up map[string]bool) map[string]part {
	driven := map[string]part{}
	add := func(supply string, n int, share float64) {
		if supply != "" && n > 0 {
			q := driven[supply]
			driven[supply] = part{q.all + float64(n), q.done + float64(float64(n)*share)}
		}
	}
	for _, s := range p.Surfaces {
		for i := range s.Zones {
			var area part
			for k := range s.Zones[i].Panels {
				a := areas[s.Zones[i].Panels[k].ID]
				area.all += a
				if up[s.Zones[i].Panels[k].ID] {
					area.done += a
				}
			}
			f, share := &s.Zones[i].Fasteners, area.share()
			add(f.Supply, f.Count-f.Short-f.Laminating, share)
			add(f.ShortSupply, f.Short, share)
			add(f.LaminatingSupply, f.Laminating, share)
		}
	}
	return driven
}
