package proof

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"
)

// agree: takeoff, cost, cut list, sticks and handling say the same, to the cent and the piece.
func (p *proof) agree() {
	a := p.plan
	p.sheetRows()
	p.sticks()
	p.shares()
	count, kilograms := 0, 0.0
	for _, s := range a.Handling.Sheets {
		count += s.Count
		kilograms += s.Together
	}
	if count != a.Summary.Bought {
		p.fail("handling", "%d sheets are carried, %d bought", count, a.Summary.Bought)
	}
	if !near(kilograms, a.Handling.Delivery, 0.1*float64(1+len(a.Handling.Sheets))) || a.Handling.Delivery != a.Summary.Weight {
		p.fail("handling", "sheets weigh %.1f together, the delivery %.1f, the summary %.1f", kilograms, a.Handling.Delivery, a.Summary.Weight)
	}
	still := 0.0
	for _, r := range a.Takeoff {
		if r.Basis == "" || !told(r.Source) || r.Unit == "" {
			p.fail("explain", "%s has no basis, source with its status or unit: %q", r.Item, r.Source)
		}
		if r.StillBuy != r.Buy || r.Used != 0 {
			p.fail("progress", "nothing is done, yet %d of %d of %s are still to buy", r.StillBuy, r.Buy, r.Item)
		}
		if r.Buy > 0 && r.Holds > 0 && r.Need > r.Holds*float64(r.Buy)+1e-3 {
			p.fail("takeoff", "%s: %d of %.4g hold less than the %.4g needed", r.Item, r.Buy, r.Holds, r.Need)
		}
		if round := math.Round(r.Need*1e4) / 1e4; round != r.Need {
			p.fail("takeoff", "%s needs %v: more digits than anybody measures", r.Item, r.Need)
		}
		still += r.StillPay
	}
	if !near(still, a.Cost.Material, 0.005) || !near(a.Progress.LeftToBuy, a.Cost.Material, 0.005) {
		p.fail("progress", "nothing is bought, yet %.2f of %.2f are left to pay", still, a.Cost.Material)
	}
}

// told says whether a source ends with how well it is known.
func told(source string) bool {
	for _, status := range []string{"read", "from memory", "common practice", "derived", "as entered"} {
		if strings.Contains(source, status) {
			return true
		}
	}
	return false
}

// sheetRows: every row of sheets is as many sheets of its product, size and price as the cut list opens.
func (p *proof) sheetRows() {
	type key struct {
		product string
		cents   int
	}
	opened, rows := map[key]int{}, map[key]int{}
	for _, s := range p.plan.Sheets {
		if s.Source == "buy" {
			opened[key{s.Product, cents(s.Price)}]++
		}
	}
	for _, r := range p.plan.Takeoff {
		if r.Group == "sheets" && r.Buy > 0 {
			rows[key{r.Supply, cents(r.Price)}] += r.Buy
		}
	}
	for k, n := range opened {
		if rows[k] != n {
			p.fail("takeoff", "%d sheets of %s at %d cents are cut, %d bought", n, k.product, k.cents, rows[k])
		}
	}
	if len(rows) != len(opened) {
		p.fail("takeoff", "%d kinds of sheet are bought, %d cut", len(rows), len(opened))
	}
}

func cents(amount float64) int { return int(math.Round(amount * 100)) }

// sticks: as many sticks of each length as the takeoff buys, each holding its pieces; lengths of pieces are the need.
func (p *proof) sticks() {
	type kind struct {
		supply string
		mm     int // stock length
	}
	sticks, pieces := map[kind]int{}, map[kind]float64{}
	for _, s := range p.plan.Sticks {
		k := kind{s.Supply, int(math.Round(float64(s.Length)))}
		sticks[k]++
		sum := 0.0
		for _, l := range s.Pieces {
			sum += float64(l)
		}
		pieces[k] += sum
		if sum > float64(s.Length)+epsLength {
			p.fail("sticks", "%.1f mm are cut from a %s of %.1f", sum, s.Supply, float64(s.Length))
		}
	}
	unit := map[string]float64{"ft": 304.8, "m": 1000}
	for _, r := range p.plan.Takeoff {
		k := kind{r.Supply, int(math.Round(r.Holds * unit[r.Unit]))}
		if sticks[k] == 0 {
			continue
		}
		if sticks[k] != r.Buy || !near(pieces[k], r.Need*unit[r.Unit], 0.05) {
			p.fail("sticks", "%s: %d are bought for %.1f mm, %d cut into %.1f mm", r.Item, r.Buy, r.Need*unit[r.Unit], sticks[k], pieces[k])
		}
		delete(sticks, k)
	}
	for k, n := range sticks {
		p.fail("sticks", "%d sticks of %s, %d mm long, are cut but not bought", n, k.supply, k.mm)
	}
}

// shares: surfaces, rooms and trades add up to the total, to the cent; surfaces' sheets to those bought, hours to all hours.
func (p *proof) shares() {
	a := p.plan
	bySurface, sheets, hours := 0, 0, 0.0
	for _, s := range a.Cost.BySurface {
		bySurface += cents(s.Cost)
		sheets += s.Sheets
		hours += s.Hours
	}
	sum := func(parts []share) (n int) {
		for _, s := range parts {
			n += cents(s.Cost)
		}
		return n
	}
	for name, got := range map[string]int{"surface": bySurface, "room": sum(a.Cost.ByRoom), "trade": sum(a.Cost.ByTrade)} {
		if got != cents(a.Cost.Total) {
			p.fail("shares", "by %s the cost is %d cents, in all %d", name, got, cents(a.Cost.Total))
		}
	}
	if sheets != a.Summary.Bought {
		p.fail("shares", "%d sheets are given to surfaces, %d are bought", sheets, a.Summary.Bought)
	}
	if !near(hours, a.Summary.Hours, 0.01*float64(1+len(a.Cost.BySurface))) {
		p.fail("shares", "surfaces take %.2f h, the job %.2f", hours, a.Summary.Hours)
	}
}

// order of the trade within one room: a task whose id begins with the first never starts before one of the second is over.
var order = [][2]string{
	{"mark-", "look-"}, {"stock-", "mark-"}, {"stock-", "level-"}, {"stock-", "shims-"}, {"hang-", "stock-"}, {"screws-", "hang-"}, {"coat-1-", "fill-"}, {"coat-2-", "dry-1-"}, {"coat-3-", "dry-2-"}, {"sand-", "dry-3-"},
	{"dust-", "sand-"}, {"prime-1-", "dust-"}, {"raking-", "dry-primer-1-"}, {"paint-1-", "raking-"}, {"paint-2-", "dry-paint-1-"},
	{"unmask-", "paint-2-"}, {"carry-", "unmask-"}, {"rest-", "carry-"}, {"trim-", "hang-"}, {"covers-", "trim-"},
}

// sequence: nothing starts before what it follows is over, nobody works on a day off or out of hours or on two things at
// once, the trade keeps its order, ceilings hang before walls, and every task says how it came about.
func (p *proof) sequence() {
	const firstHour, hoursADay = 8, 8 // the drawn projects leave both as they are
	at := func(stamp string) time.Time {
		v, err := time.Parse("2006-01-02T15:04", stamp)
		if err != nil {
			p.fail("sequence", "%q is no time", stamp)
		}
		return v
	}
	byID := map[string]task{}
	for _, t := range p.plan.Schedule {
		if t.Start == "" {
			p.fail("sequence", "%s has no date, though the room is warm", t.ID)
			return
		}
		byID[t.ID] = t
	}
	free := time.Time{}
	for _, t := range inOrder(p.plan.Schedule) {
		start, end := at(t.Start), at(t.Finish)
		if t.Basis == "" || !told(t.Source) || t.Room == "" {
			p.fail("explain", "%s has no basis, source with its status or room: %q", t.ID, t.Source)
		}
		for _, id := range t.After {
			if before, ok := byID[id]; !ok || at(before.Finish).After(start) {
				p.fail("sequence", "%s starts before %s is over", t.ID, id)
			}
		}
		if t.Kind != "work" {
			continue
		}
		for _, when := range []time.Time{start, end} {
			if d := when.Weekday(); !p.asked.works(d) {
				p.fail("sequence", "%s is worked on on a %s", t.ID, d)
			}
			if clock := when.Hour()*60 + when.Minute(); clock < firstHour*60 || clock > (firstHour+hoursADay)*60 {
				p.fail("sequence", "%s is worked on at %s", t.ID, when.Format("15:04"))
			}
		}
		if start.Before(free) {
			p.fail("sequence", "%s starts while the crew is at another task", t.ID)
		}
		free = end
	}
	for _, first := range p.plan.Schedule {
		for _, then := range p.plan.Schedule {
			if first.Room != then.Room {
				continue
			}
			for _, o := range order {
				late := o[1] == "hang-" && p.visibleWood(first)
				if begins(first.ID, o[1]) && begins(then.ID, o[0]) && !late && at(first.Finish).After(at(then.Start)) {
					p.fail("sequence", "%s starts before %s is over", then.ID, first.ID)
				}
			}
			if p.isCeiling(first.Surface) && then.Surface != "" && !p.isCeiling(then.Surface) && at(first.Start).After(at(then.Start)) && !p.visibleWood(first) {
				p.fail("sequence", "%s starts before the ceiling's %s", then.ID, first.ID)
			}
		}
	}
}

// works tells whether a day of the week is worked: Monday to Friday where the file names none.
func (p *project) works(d time.Weekday) bool {
	if len(p.Site.Workdays) == 0 {
		return d != time.Saturday && d != time.Sunday
	}
	return slices.Contains(p.Site.Workdays, strings.ToLower(d.String()[:3]))
}

func begins(id, prefix string) bool { return len(id) >= len(prefix) && id[:len(prefix)] == prefix }

func (p *proof) isCeiling(surface string) bool {
	for i := range p.plan.Surfaces {
		if p.plan.Surfaces[i].ID == surface {
			return p.plan.Surfaces[i].Kind == "ceiling"
		}
	}
	return false
}

// visibleWood: the task hangs on a surface that has wood as a last layer, which is hung when the room has dried.
func (p *proof) visibleWood(t task) bool {
	for i := range p.plan.Surfaces {
		s := &p.plan.Surfaces[i]
		for _, z := range s.Zones {
			if s.ID == t.Surface && !isGypsum(z.Product) {
				return true
			}
		}
	}
	return false
}

// inOrder lists tasks by their start; of those that start together, the one that ends first.
func inOrder(tasks []task) []task {
	sorted := append([]task(nil), tasks...)
	for i := range sorted {
		for k := i; k > 0 && fmt.Sprint(sorted[k].Start, sorted[k].Finish) < fmt.Sprint(sorted[k-1].Start, sorted[k-1].Finish); k-- {
			sorted[k], sorted[k-1] = sorted[k-1], sorted[k]
		}
	}
	return sorted
}
