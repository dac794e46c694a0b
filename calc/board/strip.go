package board

import (
	"cmp"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/layout"
	"seamwright/calc/length"
)

// quick tells, many thousand times in one search, how many sheets a list of pieces takes. It cuts like a careful
// estimator: largest first, each piece into the tightest place left, and tries several habits of splitting what is
// left and of picking a sheet size. The sheets of the answer are cut by package nest.
type quick struct {
	sheets []sheetKind
	stock  []sheetKind
	onHand []job.Stock
	kerf   length.Length
	rects  []freeRect
	used   []int
	filled []fill
	opened int // sheets for sale
	// orders are the wants in the two orders of work, kept up as sizes come in.
	orders [2][]int32
	// leastL and leastW are the least sides wanted: a rest below them is waste.
	leastL, leastW length.Length
	// habit is the way that did best last, by cost and by sheets; a warm tally of many pieces tries only that way and
	// its neighbour. The first ones after a start try all.
	habit   [2]int
	warm    int
	patient bool  // every way of cutting is tried, however many the pieces
	room    int   // how many sheets may be opened
	last    int32 // the sheet that the last piece was cut from
	placed  int   // pieces that within has placed
	// excess is the area still to be cut less all that is left to cut it from, in area units: what more sheets must
	// give. paid is the price of the opened sheets, each as short as it may be. With them a run knows when it can no
	// longer stay within its limit.
	excess, paid int64
	largest      int64   // area of the largest sheet for sale
	leastRate    float64 // least price of a unit of area
}

// areaUnit is the side of a unit of area: fine enough to tell layouts apart, coarse enough for sums over all sheets.
const areaUnit = length.Millimetre / 1000

func areaOf(l, w length.Length) int64 { return int64(l/areaUnit) * int64(w/areaUnit) }

// fewPieces is up to how many pieces every way of cutting is tried in every tally.
const fewPieces = 16

// sheetKind is a sheet for sale or on hand, sides one kerf larger.
type sheetKind struct {
	l, w   length.Length
	tapers int8
	cost   int64
	count  int // stock: how many
}

// freeRect is a part of an opened sheet that nothing is cut from yet; tapers counts its tapered long edges.
type freeRect struct {
	x      length.Length // from the sheet's end
	l, w   length.Length
	tapers int8
	sheet  int32
}

// fill is an opened sheet and the length that is used of it.
type fill struct {
	kind  int32 // into sheets; -1-i: stock i
	used  length.Length
	price int64 // of a sheet as long as that
}

// want is a size and how often it is asked for.
type want struct {
	size layout.Size
	n    int
}

// tally is what a set of pieces takes.
type tally struct {
	sheets int
	cost   int64
	ok     bool
	over   bool  // more than the limit: not counted to the end
	limit  int64 // of an over one
}

// measure is what a tally is limited by.
func (t tally) measure(bySheets bool) int64 {
	if bySheets {
		return int64(t.sheets)
	}
	return t.cost
}

func newQuick(p *job.Product, stock []job.Stock) *quick {
	q := &quick{kerf: p.Kerf, onHand: stock, room: anyNumber}
	for _, s := range p.Sizes {
		t := int8(0)
		if p.Tapered {
			t = 2
		}
		q.sheets = append(q.sheets, sheetKind{l: s.Length + p.Kerf, w: s.Width + p.Kerf, tapers: t, cost: int64(s.Price) * costUnit})
	}
	slices.SortStableFunc(q.sheets, func(a, b sheetKind) int {
		return cmp.Or(cmp.Compare(a.cost, b.cost), cmp.Compare(b.l, a.l), cmp.Compare(b.w, a.w))
	})
	for _, s := range stock {
		q.stock = append(q.stock, sheetKind{l: s.Length + p.Kerf, w: s.Width + p.Kerf, tapers: stockTapers(p, s), count: s.Count})
	}
	for i := range q.sheets {
		k := &q.sheets[i]
		q.largest = max(q.largest, areaOf(k.l, k.w))
		if rate := float64(k.cost) / float64(areaOf(k.l, k.w)); i == 0 || rate < q.leastRate {
			q.leastRate = rate
		}
	}
	return q
}

// stockTapers is how many tapered long edges a piece on hand has: both at full width, one where it has been ripped.
func stockTapers(p *job.Product, s job.Stock) int8 {
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

// ways of cutting that a tally tries.
const (
	ripFirst   = 1 << iota // part a strip off along the whole rest, else cross the rest first
	byLength               // longest pieces first, else widest first
	smallSheet             // open the cheapest sheet that holds the piece, else the one of the least price for its area
	waysTried  = 1 << 3
)

// sort brings the wants into the orders of work: widest first, longest first.
func (q *quick) sort(wants []want) {
	for k := range q.orders {
		q.orders[k] = q.orders[k][:0]
		for i := range wants {
			q.orders[k] = append(q.orders[k], int32(i))
		}
	}
	slices.SortFunc(q.orders[0], func(a, b int32) int {
		x, y := &wants[a].size, &wants[b].size
		return cmp.Or(cmp.Compare(y.W, x.W), cmp.Compare(y.L, x.L), cmp.Compare(y.Tapers, x.Tapers), turns(x)-turns(y), cmp.Compare(a, b))
	})
	slices.SortFunc(q.orders[1], func(a, b int32) int {
		x, y := &wants[a].size, &wants[b].size
		return cmp.Or(cmp.Compare(y.L, x.L), cmp.Compare(y.W, x.W), cmp.Compare(y.Tapers, x.Tapers), turns(x)-turns(y), cmp.Compare(a, b))
	})
}

// turns orders pieces that may not be turned first.
func turns(z *layout.Size) int {
	if z.Turn {
		return 1
	}
	return 0
}

// tally counts the sheets for a list of wants; bySheets: fewest sheets before least cost. It stops at a count that
// enough says cannot be beaten, and where every way of cutting comes to more than a limit.
func (q *quick) tally(wants []want, bySheets bool, enough int, limit int64) tally {
	pieces := 0
	asked := int64(0)
	q.leastL, q.leastW = 1<<62, 1<<62
	for i := range wants {
		if w := &wants[i]; w.n > 0 {
			pieces += w.n
			asked += int64(w.n) * areaOf(w.size.L+q.kerf, w.size.W+q.kerf)
			q.leastL, q.leastW = min(q.leastL, w.size.L+q.kerf), min(q.leastW, w.size.W+q.kerf)
			if w.size.Turn {
				q.leastL, q.leastW = min(q.leastL, q.leastW), min(q.leastL, q.leastW)
			}
		}
	}
	if len(q.orders[0]) != len(wants) {
		q.sort(wants)
	}
	for i := range q.stock {
		asked -= int64(q.stock[i].count) * areaOf(q.stock[i].l, q.stock[i].w)
	}
	var best tally
	over := false
	habit := &q.habit[0]
	if bySheets {
		habit = &q.habit[1]
	}
	from := *habit
	for k := 0; k < waysTried; k++ {
		way := from ^ k
		if len(q.sheets) == 1 && way&smallSheet != 0 || pieces > fewPieces && k > 1 && q.warm > 0 {
			continue
		}
		q.excess, q.paid = asked, 0
		t := q.run(wants, way, bySheets, limit)
		over = over || t.over
		if t.ok && (!best.ok || t.better(best, bySheets)) {
			best = t
			*habit = way
			limit = min(limit, t.measure(bySheets))
		}
		if best.ok && len(q.sheets) == 1 && best.sheets <= enough {
			break
		}
	}
	if !best.ok && over {
		return tally{over: true, limit: limit}
	}
	return best
}

// areaSlack is which part of a sheet stands for what rounding sums of areas may come to.
const areaSlack = 1000

// beyond tells whether a run can no longer stay within its limit: by the sheets opened, and those that the rest must
// still open.
func (q *quick) beyond(bySheets bool, limit int64) bool {
	more := max(0, q.excess-q.largest/areaSlack)
	if bySheets {
		return int64(q.opened)+(more+q.largest-1)/q.largest > limit
	}
	return q.paid+int64(float64(more)*q.leastRate) > limit
}

func (t tally) better(o tally, bySheets bool) bool {
	if bySheets {
		return cmp.Or(cmp.Compare(t.sheets, o.sheets), cmp.Compare(t.cost, o.cost)) < 0
	}
	return cmp.Or(cmp.Compare(t.cost, o.cost), cmp.Compare(t.sheets, o.sheets)) < 0
}

// run cuts all wants in one way.
func (q *quick) run(wants []want, way int, bySheets bool, limit int64) tally {
	q.rects, q.filled, q.used, q.opened = q.rects[:0], q.filled[:0], q.used[:0], 0
	for range q.stock {
		q.used = append(q.used, 0)
	}
	order := q.orders[0]
	if way&byLength != 0 {
		order = q.orders[1]
	}
	for _, i := range order {
		for range wants[i].n {
			if !q.place(&wants[i].size, way, bySheets) {
				return tally{}
			}
			if q.beyond(bySheets, limit) {
				return tally{over: true}
			}
		}
	}
	return tally{sheets: q.opened, cost: q.paid, ok: true}
}

// shrunk is the price of the cheapest sheet of the same width that is long enough for what is cut from one.
func (q *quick) shrunk(f *fill) int64 {
	k := &q.sheets[f.kind]
	for i := range q.sheets {
		s := &q.sheets[i]
		if s.w == k.w && s.l >= f.used {
			return min(s.cost, k.cost)
		}
	}
	return k.cost
}

// place cuts one piece from the tightest rest, or opens a sheet.
func (q *quick) place(s *layout.Size, way int, bySheets bool) bool {
	l, w := s.L+q.kerf, s.W+q.kerf
	best, bestTurned := -1, false
	var score int64 = 1 << 62
	for i := range q.rects {
		r := &q.rects[i]
		if sc, ok := fit(r, l, w, int8(s.Tapers)); ok && sc < score {
			best, bestTurned, score = i, false, sc
		}
		if s.Turn {
			if sc, ok := fit(r, w, l, 0); ok && sc < score {
				best, bestTurned, score = i, true, sc
			}
		}
	}
	if best < 0 {
		best, bestTurned = q.open(s, l, w, way, bySheets)
		if best < 0 {
			return false
		}
	}
	if bestTurned {
		l, w = w, l
	}
	r := q.rects[best]
	q.last = r.sheet
	if f := &q.filled[r.sheet]; r.x+l > f.used {
		f.used = r.x + l
		if f.kind >= 0 {
			price := q.shrunk(f)
			q.paid += price - f.price
			f.price = price
		}
	}
	rest := r.tapers
	if rest > 0 && (s.Tapers > 0 || rest == 2) {
		rest--
	}
	switch {
	case r.w == w:
		q.rects[best].l -= l
		q.rects[best].x += l
	case way&ripFirst != 0:
		q.rects[best] = freeRect{r.x, r.l, r.w - w, rest, r.sheet}
		mine := int8(0)
		if s.Tapers > 0 {
			mine = 1
		}
		q.rects = append(q.rects, freeRect{r.x + l, r.l - l, w, mine, r.sheet})
	default:
		q.rects[best].l -= l
		q.rects[best].x += l
		q.rects = append(q.rects, freeRect{r.x, l, r.w - w, rest, r.sheet})
	}
	q.drop(len(q.rects) - 1)
	if best < len(q.rects) {
		q.drop(best)
	}
	return true
}

// drop forgets a rest that is too small for any piece.
func (q *quick) drop(i int) {
	if r := &q.rects[i]; r.l < q.leastL || r.w < q.leastW {
		q.excess += areaOf(r.l, r.w)
		n := len(q.rects) - 1
		q.rects[i] = q.rects[n]
		q.rects = q.rects[:n]
	}
}

// fit scores a rest for a piece: a strip of just the right width first, then the least length left, then the least
// width left.
func fit(r *freeRect, l, w length.Length, tapers int8) (int64, bool) {
	if r.l < l || r.w < w || r.tapers < tapers || tapers == 2 && r.w != w {
		return 0, false
	}
	if r.w == w {
		return int64(r.l - l), true
	}
	return int64(r.l-l) + int64(r.w-w) + int64(1<<50), true
}

// open takes a piece from stock, the tightest first, or a new sheet.
func (q *quick) open(s *layout.Size, l, w length.Length, way int, bySheets bool) (rect int, turned bool) {
	kind, found := int32(0), false
	var score float64
	consider := func(k int32, sh *sheetKind, sc float64) {
		r := freeRect{l: sh.l, w: sh.w, tapers: sh.tapers}
		_, straight := fit(&r, l, w, int8(s.Tapers))
		_, across := fit(&r, w, l, 0)
		if !straight && !(s.Turn && across) {
			return
		}
		if !found || sc < score {
			kind, score, found, turned = k, sc, true, !straight
		}
	}
	for i := range q.stock {
		if q.used[i] < q.stock[i].count {
			consider(int32(-1-i), &q.stock[i], float64(q.stock[i].l)*float64(q.stock[i].w))
		}
	}
	if !found && q.opened < q.room {
		for i := range q.sheets {
			sh := &q.sheets[i]
			area := float64(sh.l) * float64(sh.w)
			switch {
			case way&smallSheet != 0:
				consider(int32(i), sh, float64(sh.cost)+float64(area*1e-20))
			case bySheets:
				consider(int32(i), sh, -area)
			default:
				consider(int32(i), sh, float64(sh.cost)/area)
			}
		}
	}
	if !found {
		return -1, false
	}
	var sh *sheetKind
	if kind < 0 {
		q.used[-1-kind]++
		sh = &q.stock[-1-kind]
	} else {
		sh = &q.sheets[kind]
		q.opened++
		q.excess -= areaOf(sh.l, sh.w)
	}
	q.filled = append(q.filled, fill{kind: kind})
	q.rects = append(q.rects, freeRect{0, sh.l, sh.w, sh.tapers, int32(len(q.filled) - 1)})
	return len(q.rects) - 1, turned
}
