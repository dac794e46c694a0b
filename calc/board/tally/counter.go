// Package tally tells, many thousand times in one search, how many sheets a list of pieces takes. It cuts like a careful
// estimator: largest first, each piece into the tightest place left, and tries several habits of splitting what is left
// and of picking a sheet size. It never counts less than some cutting takes; the sheets of an answer are cut by package
// nest.
package tally

import (
	"cmp"
	"math"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/layout"
	"seamwright/calc/length"
)

// CostUnit is how many units of a count's money make one hundredth of the currency: joints, which the search sets against
// sheets, are worth less than a hundredth an inch.
const CostUnit = 100

// Meter counts the work of a search, in places on sheets that are looked at for a piece; whatever else is done is counted
// at what it comes to beside that. It is the measure of all budgets.
type Meter struct{ Work int64 }

// Counter counts the sheets of one product.
type Counter struct {
	meter *Meter
	// Warm counts of many pieces try only the way of cutting that did best last, and its neighbour.
	Warm bool
	// Patient ones try every way, however many the pieces.
	Patient bool

	sheets, stock []sheetKind
	bySize        [3][]int32 // sheets in the order in which they are opened: see opening
	kerf          length.Length
	largest       int64   // area of the largest sheet for sale
	leastRate     float64 // least price of a unit of area
	habit         [2]int  // the way that did best last, by cost and by sheets

	// What follows is the state of one run.
	rects          []rest
	opened         []sheet
	used           []int         // of each kind of stock
	bought         int           // sheets for sale that are open
	room           int           // how many may be
	leastL, leastW length.Length // the least sides asked for: a rest below them is waste
	last           int32         // the sheet that the last piece was cut from
	excess         int64         // area asked for or wasted, less that of the sheets open and on hand: what more sheets must give
	paid           int64         // price of the sheets open, each as short as it may be
}

// areaUnit is the side of a unit of area: fine enough to tell layouts apart, coarse enough for sums over all sheets.
const areaUnit = length.Millimetre / 1000

func areaOf(l, w length.Length) int64 { return int64(l/areaUnit) * int64(w/areaUnit) }

// fewPieces is up to how many pieces every way of cutting is tried in every count.
const fewPieces = 16

// anyNumber stands for no limit on the sheets that may be opened.
const anyNumber = 1 << 30

// sheetKind is a sheet for sale or on hand, sides one kerf larger.
type sheetKind struct {
	l, w   length.Length
	tapers int8
	cost   int64
	count  int // stock: how many
}

// rest is a part of an opened sheet that nothing is cut from yet; tapers counts its tapered long edges.
type rest struct {
	x      length.Length // from the sheet's end
	l, w   length.Length
	tapers int8
	sheet  int32
}

// sheet is an opened sheet and the length that is used of it.
type sheet struct {
	kind  int32 // into sheets; -1-i: stock i
	used  length.Length
	price int64 // of a sheet as long as that
}

// New is a counter for a product with pieces on hand. What it does is counted by a meter.
func New(p *job.Product, stock []job.Stock, m *Meter) *Counter {
	c := &Counter{meter: m, kerf: p.Kerf}
	for _, s := range p.Sizes {
		t := int8(0)
		if p.Tapered {
			t = 2
		}
		c.sheets = append(c.sheets, sheetKind{l: s.Length + p.Kerf, w: s.Width + p.Kerf, tapers: t, cost: int64(s.Price) * CostUnit})
	}
	slices.SortStableFunc(c.sheets, func(a, b sheetKind) int {
		return cmp.Or(cmp.Compare(a.cost, b.cost), cmp.Compare(b.l, a.l), cmp.Compare(b.w, a.w))
	})
	for _, s := range stock {
		c.stock = append(c.stock, sheetKind{l: s.Length + p.Kerf, w: s.Width + p.Kerf, tapers: StockTapers(p, s), count: s.Count})
	}
	for i := range c.sheets {
		k := &c.sheets[i]
		c.largest = max(c.largest, areaOf(k.l, k.w))
		if rate := float64(k.cost) / float64(areaOf(k.l, k.w)); i == 0 || rate < c.leastRate {
			c.leastRate = rate
		}
	}
	c.orderKinds()
	return c
}

// StockTapers is how many tapered long edges a piece on hand has: both at full width, one where it has been ripped.
func StockTapers(p *job.Product, s job.Stock) int8 {
	if !p.Tapered || !s.Tapered {
		return 0
	}
	for _, z := range p.Sizes {
		if z.Width == s.Width {
			return 2
		}
	}
	return 1
}

// ways of cutting that a count tries.
const (
	ripFirst   = 1 << iota // part a strip off along the whole rest, else cross the rest first
	byLength               // longest pieces first, else widest first
	smallSheet             // open the cheapest sheet that holds the piece, else the largest or the one of the least price for its area
	waysTried  = 1 << 3
)

// orders in which sheets for sale are asked whether they hold a piece.
const (
	cheapestFirst = iota
	largestFirst
	leastRateFirst
)

func (c *Counter) orderKinds() {
	score := [3]func(k *sheetKind) float64{
		cheapestFirst:  func(k *sheetKind) float64 { return float64(k.cost) + float64(float64(k.l)*float64(k.w)*1e-20) },
		largestFirst:   func(k *sheetKind) float64 { return -float64(k.l) * float64(k.w) },
		leastRateFirst: func(k *sheetKind) float64 { return float64(k.cost) / (float64(k.l) * float64(k.w)) },
	}
	for o := range c.bySize {
		for i := range c.sheets {
			c.bySize[o] = append(c.bySize[o], int32(i))
		}
		slices.SortStableFunc(c.bySize[o], func(a, b int32) int { return cmp.Compare(score[o](&c.sheets[a]), score[o](&c.sheets[b])) })
	}
}

// opening is the order in which sheets are asked by a way of cutting.
func (c *Counter) opening(way int, bySheets bool) []int32 {
	switch {
	case way&smallSheet != 0:
		return c.bySize[cheapestFirst]
	case bySheets:
		return c.bySize[largestFirst]
	}
	return c.bySize[leastRateFirst]
}

// Cheapest is the price of the cheapest sheet for sale, which bounds what a number of sheets costs.
func (c *Counter) Cheapest() int64 {
	if len(c.sheets) == 0 {
		return 0
	}
	return c.sheets[0].cost
}

// SheetArea is the area, in mm², of the cheapest sheet for sale.
func (c *Counter) SheetArea() float64 {
	return float64(c.sheets[0].l) / 1e6 * (float64(c.sheets[0].w) / 1e6)
}

// Shares are two ways to value a piece by itself: what its area comes to of a sheet, the cheapest way, and what one of as
// many as a sheet gives comes to. What is left beside it counts with it where it is narrower than leastCourse: nobody
// hangs such a strip.
func (c *Counter) Shares(z layout.Size, leastCourse length.Length) (area, share int64) {
	for i := range c.sheets {
		sh := &c.sheets[i]
		l, w := z.L+c.kerf, z.W+c.kerf
		if l > sh.l || w > sh.w {
			continue
		}
		cost := float64(max(1, sh.cost))
		taken := w
		if sh.w-w < leastCourse {
			taken = sh.w
		}
		a := int64(cost * float64(l) * float64(taken) / (float64(sh.l) * float64(sh.w)))
		s := int64(cost / float64(int64(sh.l/l)*int64(sh.w/w)))
		if area == 0 || a < area {
			area = a
		}
		if share == 0 || s < share {
			share = s
		}
	}
	return area, share
}

// begin opens a new cutting of so many bought sheets.
func (c *Counter) begin(room int) {
	c.rects, c.opened, c.used = c.rects[:0], c.opened[:0], c.used[:0]
	c.bought, c.paid, c.room = 0, 0, room
	for range c.stock {
		c.used = append(c.used, 0)
	}
}

// measure finds the least sides asked for, and the area above that of the pieces on hand.
func (c *Counter) measure(d *Demand) (excess int64) {
	c.leastL, c.leastW = math.MaxInt64, math.MaxInt64
	for _, i := range d.inOrder(0) {
		z := &d.sizes[i]
		l, w := z.L+c.kerf, z.W+c.kerf
		excess += int64(d.n[i]) * areaOf(l, w)
		c.leastL, c.leastW = min(c.leastL, l), min(c.leastW, w)
		if z.Turn {
			c.leastL, c.leastW = min(c.leastL, c.leastW), min(c.leastL, c.leastW)
		}
	}
	for i := range c.stock {
		excess -= int64(c.stock[i].count) * areaOf(c.stock[i].l, c.stock[i].w)
	}
	return excess
}
