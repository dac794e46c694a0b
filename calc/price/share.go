package price

import (
	"math"
	"math/bits"
	"slices"

	"seamwright/calc/finish"
	"seamwright/calc/job"
	"seamwright/calc/money"
	"seamwright/calc/plan"
)

// Apportion splits an amount by weights into whole hundredths that add up to it exactly: everybody gets the whole part
// of their share, and what is left goes one by one to the largest remainders (Hamilton's method), the first of equals
// first. Without any weight all share alike. Weights are whole numbers, so that no rounding of a processor's moves a cent.
func Apportion(amount money.Money, weights []int64) []money.Money {
	shares := make([]money.Money, len(weights))
	if len(weights) == 0 {
		return shares
	}
	sum := uint64(0)
	for _, w := range weights {
		sum += uint64(w)
	}
	if sum == 0 {
		return Apportion(amount, slices.Repeat([]int64{1}, len(weights)))
	}
	sign, whole := money.Money(1), uint64(amount)
	if amount < 0 {
		sign, whole = -1, -whole
	}
	rest, left := make([]uint64, len(weights)), whole // rest: what a share is short of its next hundredth, in sum-ths of one
	for i, w := range weights {
		hi, lo := bits.Mul64(whole, uint64(w))
		q, r := bits.Div64(hi, lo, sum)
		shares[i], rest[i] = sign*money.Money(q), r
		left -= q
	}
	order := slices.Clone(rest)
	slices.Sort(order)
	served := order[len(order)-int(left):] // fewer than there are shares
	if len(served) == 0 {
		return shares
	}
	least := served[0]
	equal := 0 // of those served that stand at the least
	for equal < len(served) && served[equal] == least {
		equal++
	}
	for i, r := range rest {
		switch {
		case r > least:
			shares[i] += sign
		case r == least && equal > 0:
			shares[i] += sign
			equal--
		}
	}
	return shares
}

// grains turns weights into whole numbers, a millionth of their unit each: a square millimetre, a micrometre.
func grains(weights []float64) []int64 {
	whole := make([]int64, len(weights))
	for i, w := range weights {
		whole[i] = parts(w, 1e6)
	}
	return whole
}

// lot is what several rows of the takeoff cost that are used in the same places.
type lot struct {
	name    string
	cost    money.Money
	weights []float64
}

// share gives every cent of the total to surfaces, rooms and trades: material by what it is used for, own time by the
// hours of its tasks, tax with the material.
func share(j *job.Job, p *plan.Plan, areas map[string]float64, measures []finish.Measure) {
	index := make(map[string]int, len(p.Surfaces))
	for i := range p.Surfaces {
		index[p.Surfaces[i].ID] = i
	}
	w := weightsOf(j, p, index, areas, measures)
	costs := make([]money.Money, len(p.Surfaces))
	give := func(amount money.Money, weights []int64) {
		for i, part := range Apportion(amount, weights) {
			costs[i] += part
		}
	}
	var trades []plan.ShareCost
	var lots []lot
	for _, row := range p.Takeoff {
		name, weights := row.Group, w.area
		switch row.Group {
		case "sheets":
			name, weights = row.Group+" "+row.Supply, w.sheets[row.Supply]
		case "fasteners":
			weights = w.screws
		case "joints":
			weights = w.joints
		case "paint":
			weights = w.painted
		case "trim":
			weights = w.trim
		}
		if weights == nil {
			weights = w.area
		}
		i := slices.IndexFunc(lots, func(l lot) bool { return l.name == name })
		if i < 0 {
			i, lots = len(lots), append(lots, lot{name: name, weights: weights})
		}
		lots[i].cost += row.Cost
		trades = addTo(trades, row.Group, row.Cost)
	}
	for _, l := range lots {
		give(l.cost, grains(l.weights))
	}
	material := slices.Clone(costs)
	hours := hoursOf(p, w.area, index)
	give(p.Cost.Labour, grains(hours))
	give(p.Cost.Tax, cents(material))
	trades = addTo(trades, "labour", p.Cost.Labour)
	trades = addTo(trades, "tax", p.Cost.Tax)

	p.Cost.ByTrade, p.Cost.BySurface, p.Cost.ByRoom = trades, []plan.SurfaceCost{}, nil
	p.Cost.AreaUnit = "m2"
	unit := 1.0
	if j.Units != job.Metric {
		p.Cost.AreaUnit = "ft2"
		unit, _ = Convert(1, "m2", "ft2")
	}
	people := math.Max(float64(j.Site.People), 1) * math.Max(j.Site.Hours, 0.5)
	area := 0.0
	for i := range p.Surfaces {
		lined := float64(w.area[i] * unit)
		area += lined
		c := plan.SurfaceCost{Surface: p.Surfaces[i].ID, Sheets: w.opened[i], Cost: costs[i], Material: material[i], Hours: math.Round(hours[i]*100) / 100,
			Days: math.Round(hours[i]/people*100) / 100, Weight: grams(w.weight[i]), Kept: w.kept[i], Area: math.Round(lined*100) / 100}
		if lined > 0 {
			c.PerArea = perArea(c.Cost, lined)
		}
		p.Cost.BySurface = append(p.Cost.BySurface, c)
		p.Cost.ByRoom = addTo(p.Cost.ByRoom, p.Surfaces[i].Room, costs[i])
	}
	if area > 0 {
		p.Cost.PerArea = perArea(p.Cost.Total, area)
	}
}

// perArea is what a unit of area comes to; nothing where there is less than a grain of it.
func perArea(cost money.Money, area float64) money.Money {
	n := parts(area, areaGrain)
	if n <= 0 {
		return 0
	}
	return cost.Part(areaGrain, n)
}

// hoursOf gives the hours of the sequence to surfaces: those of a task on one surface to it, those of a room's tasks to its
// surfaces by lined area.
func hoursOf(p *plan.Plan, area []float64, index map[string]int) []float64 {
	hours := make([]float64, len(p.Surfaces))
	ofRoom := map[string]float64{}
	lined := map[string]float64{}
	for i := range p.Surfaces {
		lined[p.Surfaces[i].Room] += area[i]
	}
	for _, t := range p.Schedule {
		if t.Kind != "work" {
			continue
		}
		if i, ok := index[t.Surface]; ok {
			hours[i] += t.Hours
		} else {
			ofRoom[t.Room] += t.Hours
		}
	}
	for i := range p.Surfaces {
		if room := p.Surfaces[i].Room; lined[room] > 0 {
			hours[i] += ofRoom[room] * area[i] / lined[room]
		}
	}
	return hours
}

func addTo(parts []plan.ShareCost, name string, amount money.Money) []plan.ShareCost {
	for i := range parts {
		if parts[i].Name == name {
			parts[i].Cost += amount
			return parts
		}
	}
	return append(parts, plan.ShareCost{Name: name, Cost: amount})
}

// cents are amounts as weights; a quantity that is bought costs nothing less than nothing.
func cents(amounts []money.Money) []int64 {
	whole := make([]int64, len(amounts))
	for i, a := range amounts {
		whole[i] = max(int64(a), 0)
	}
	return whole
}

// weights say, surface by surface, how much of a group's cost belongs where.
type weights struct {
	area, screws, joints, painted, trim []float64
	weight                              []float64            // of what hangs, kg
	sheets                              map[string][]float64 // by product: area of its panels
	opened                              []int                // bought sheets, each counted where its first panel hangs
	kept                                []int                // offcuts large enough to keep, counted likewise
}

func weightsOf(j *job.Job, p *plan.Plan, index map[string]int, areas map[string]float64, measures []finish.Measure) weights {
	n := len(p.Surfaces)
	w := weights{area: make([]float64, n), screws: make([]float64, n), joints: make([]float64, n), painted: make([]float64, n),
		trim: make([]float64, n), weight: make([]float64, n), sheets: map[string][]float64{}, opened: make([]int, n), kept: make([]int, n)}
	home := make(map[string]int, len(areas))
	for i := range p.Surfaces {
		for _, z := range p.Surfaces[i].Zones {
			w.screws[i] += float64(z.Fasteners.Count)
			if w.sheets[z.Product] == nil {
				w.sheets[z.Product] = make([]float64, n)
			}
			for _, panel := range z.Panels {
				home[panel.ID] = i
				w.sheets[z.Product][i] += areas[panel.ID]
			}
		}
	}
	for _, r := range p.Returns {
		if i, ok := index[r.Surface]; ok {
			home[r.ID] = i
			w.sheets[r.Product][i] += areas[r.ID]
		}
	}
	for _, m := range measures {
		i := index[m.Surface]
		w.area[i], w.joints[i], w.painted[i], w.trim[i] = m.Lined, m.Joints, m.Painted, m.Trim
	}
	for k := range j.Products {
		for i, a := range w.sheets[j.Products[k].ID] {
			w.weight[i] += float64(a * j.Products[k].Weight)
		}
	}
	for k := range p.Sheets {
		s := &p.Sheets[k]
		i, ok := 0, false
		if len(s.Parts) > 0 {
			i, ok = home[s.Parts[0].Panel]
		}
		if ok && s.Source == plan.Buy {
			w.opened[i]++
		}
		if ok {
			w.kept[i] += Kept(s)
		}
	}
	return w
}

// Kept counts the offcuts of a sheet that are kept.
func Kept(s *plan.Sheet) (n int) {
	for _, r := range s.Rests {
		if r.Use == plan.Keep {
			n++
		}
	}
	return n
}
