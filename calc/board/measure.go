package board

import (
	"cmp"
	"math"

	"seamwright/calc/board/tally"
	"seamwright/calc/job"
	"seamwright/calc/money"
)

// order is what a measure compares first.
type order uint8

const (
	fewestSheets order = iota // sheets, then butt joint, then pieces
	leastJoint                // butt joint, then sheets
	leastMoney                // material with own hours at a rate, then butt joint, then pieces
)

// measure is one way to compare layouts. The search goes by a fixed list of them, which knows neither what a project aims
// for nor its rate of own time: so every project of the same rooms, products and prices gets the same layouts offered, and
// none of the answers for its aims and rates can be beaten by another.
type measure struct {
	order order
	rate  float64 // of an own hour, in prices of the cheapest sheet
}

// measures are the two orders that know no rate, and a ladder of rates. Between two steps the same layout is best, or two
// that are nearly alike. At 15 a sheet they are 0 to 180 an hour.
var measures = [...]measure{
	{fewestSheets, usual}, {leastJoint, usual},
	{leastMoney, 0}, {leastMoney, 0.25}, {leastMoney, 0.5}, {leastMoney, 1}, {leastMoney, usual}, {leastMoney, 2}, {leastMoney, 3},
	{leastMoney, 4}, {leastMoney, 6}, {leastMoney, 8}, {leastMoney, 12},
}

// usual is the rate that decides between equals where sheets or joints are asked for.
const usual = 1.5

// searched are the measures that the search goes by, as places in measures, the likeliest first; for the others it keeps
// what it meets. The first are searched most deeply; in a building of many surfaces the search goes by these alone, and
// the drafts are the best by those and by material money.
var searched = [...]int{6, 0, 1, 2, 10}

const (
	searchedDeeply = 3
	draftedLarge   = 4
)

// costUnit is how many units of the search's own money make one hundredth of the currency: joints are worth less than a
// hundredth an inch, so the search counts finer. hourUnit is how many units of its own time make an hour.
const (
	costUnit = tally.CostUnit
	hourUnit = 1_000_000
)

// quantities are what a layout comes to: all that a measure looks at.
type quantities struct {
	breaks int // weight of the rules that are broken
	sheets int
	price  int64 // of the sheets
	money  int64 // what joints take
	hours  int64 // of hanging pieces and finishing joints, as far as they depend on the layout
	rough  int64 // butt and mixed joint
	pieces int
	shun   int64 // end joint that would lie flatter on back-blocks: it decides between equals
}

func (q *quantities) add(o quantities) {
	q.breaks += o.breaks
	q.sheets += o.sheets
	q.price += o.price
	q.money += o.money
	q.hours += o.hours
	q.rough += o.rough
	q.pieces += o.pieces
	q.shun += o.shun
}

// value is what a layout is judged by, smaller first; breaks of rules come before everything.
type value struct {
	breaks int
	by     [5]int64
}

func (v value) compare(o value) int {
	return cmp.Or(cmp.Compare(v.breaks, o.breaks), cmp.Compare(v.by[0], o.by[0]), cmp.Compare(v.by[1], o.by[1]),
		cmp.Compare(v.by[2], o.by[2]), cmp.Compare(v.by[3], o.by[3]), cmp.Compare(v.by[4], o.by[4]))
}

// weighing is a measure with the worth of an hour in units of the search.
type weighing struct {
	order order
	hour  float64 // search money for one unit of time
}

// by weighs as a measure does; sheet is the price of the cheapest sheet, in hundredths.
func (m measure) by(sheet money.Money) weighing {
	return weighing{m.order, m.rate * float64(sheet) * costUnit / hourUnit}
}

// weighingOf is how the project itself weighs.
func weighingOf(j *job.Job, sheet money.Money) weighing {
	switch j.Aim {
	case job.AimSheets:
		return measures[0].by(sheet)
	case job.AimJoints:
		return measures[1].by(sheet)
	}
	return weighing{leastMoney, float64(j.Site.Worth()) * costUnit / hourUnit}
}

// worked is what hours are worth.
func (w weighing) worked(hours int64) int64 { return int64(math.Round(float64(hours) * w.hour)) }

func (w weighing) value(q quantities) value {
	cost := q.price + q.money + w.worked(q.hours)
	v := value{breaks: q.breaks}
	switch w.order {
	case fewestSheets:
		v.by = [5]int64{int64(q.sheets), q.rough, int64(q.pieces), cost, q.shun}
	case leastJoint:
		v.by = [5]int64{q.rough, int64(q.sheets), int64(q.pieces), cost, q.shun}
	default:
		v.by = [5]int64{cost, q.rough, int64(q.pieces), int64(q.sheets), q.shun}
	}
	return v
}

// nearest is the measure that weighs most alike.
func (w weighing) nearest(sheet money.Money) int {
	best, off := 0, math.Inf(1)
	for m := range measures {
		if measures[m].order != w.order {
			continue
		}
		if d := math.Abs(measures[m].by(sheet).hour - w.hour); d < off {
			best, off = m, d
		}
	}
	return best
}
