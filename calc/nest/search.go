package nest

import (
	"cmp"
	"context"
	"math"
	"slices"
)

// sheetType and itemType are sheets and items as the search sees them: one kerf larger, and what is asked often made plain.
type sheetType struct {
	w, h   int64
	tapers int8
	cost   int64
	most   int // 0: no limit
	area   float64
}

type itemType struct {
	w, h, least int64
	need        int8
	turn        bool
	n, item     int
	area        float64
}

// search is the state of one call of Solve.
type search struct {
	ctx    context.Context
	budget Budget
	kerf   int64
	sheets []sheetType
	types  []itemType
	work   int64
	asked  int
	live   []bool // scratch of without
	recall *recall

	leastW, leastH int64 // of any part, as it may lie
	stripWeight    float64
	ways           int  // that parts may lie in
	only           int  // kind of sheet that alone may be opened of the unlimited ones; none: any
	bought         bool // the sheets on hand stay where they are: a cheap small one can cost a large one more
}

// answer is a set of filled sheets.
type answer struct {
	bins []bin
	cost int64
}

func newSearch(ctx context.Context, p *Problem, budget Budget) *search {
	s := &search{ctx: ctx, budget: budget, kerf: p.Kerf, stripWeight: 0.25, ways: straight | turned, only: none}
	for _, sh := range p.Sheets {
		w, h := sh.W+p.Kerf, sh.H+p.Kerf
		s.sheets = append(s.sheets, sheetType{w, h, int8(sh.tapers()), sh.Cost, sh.Max, float64(w) * float64(h)})
	}
	for i, it := range p.Items {
		if it.N == 0 {
			continue
		}
		w, h := it.W+p.Kerf, it.H+p.Kerf
		turn := it.Turn && it.Tapers == 0 && w != h
		if len(s.types) == 0 {
			s.leastW, s.leastH = w, h
		}
		s.leastW, s.leastH = min(s.leastW, w), min(s.leastH, h)
		if turn {
			s.leastW, s.leastH = min(s.leastW, h), min(s.leastH, w)
		}
		s.types = append(s.types, itemType{w, h, min(w, h), int8(it.Tapers), turn, it.N, i, float64(w) * float64(h)})
	}
	if budget.Nodes == 0 {
		s.budget.Nodes = max(DefaultNodes, min(defaultPiece*int64(s.pieces()), defaultMost))
	}
	return s
}

// orders is how many orders of the items construct knows.
const orders = 5

// order lists every piece wanted, by type, in one of the usual orders, the dearest to place first.
func (s *search) order(kind int) []int {
	var list []int
	for t := range s.types {
		for range s.types[t].n {
			list = append(list, t)
		}
	}
	key := func(t int) float64 {
		ty := &s.types[t]
		w, h := float64(ty.w), float64(ty.h)
		switch kind {
		case 0:
			return ty.area
		case 1:
			return max(w, h)
		case 2:
			return float64(h*1e6) + w
		case 3:
			return float64(w*1e6) + h
		default:
			return w + h
		}
	}
	slices.SortStableFunc(list, func(a, b int) int {
		return cmp.Or(cmp.Compare(s.types[b].need, s.types[a].need), cmp.Compare(key(b), key(a)))
	})
	return list
}

// construct puts the pieces, in the order given, each in the best place of any open sheet, and opens a sheet where there
// is none. nil: the sheets do not suffice.
func (s *search) construct(list []int) *answer {
	a := &answer{}
	used := make([]int, len(s.sheets))
	r := s.recalls()
	for _, t := range list {
		at, where := none, place{}
		var best *known
		row, ty := r.row(t), &s.types[t]
		for i := range r.free {
			if !r.free[i].holds(ty) {
				continue
			}
			if k := r.find(&row[i], i, t, &a.bins[i], false); k.fits() && (best == nil || k.score < best.score) {
				at, best = i, k
			}
		}
		if best != nil {
			where = best.place()
		} else {
			var ok bool
			if where, ok = s.open(a, used, t); !ok {
				return nil
			}
			at = len(a.bins) - 1
		}
		s.put(&a.bins[at], t, where)
		r.touch(at, &a.bins[at])
	}
	for _, b := range a.bins {
		a.cost += s.sheets[b.sheet].cost
	}
	return a
}

// open adds the sheet that is cheapest for its area and holds a piece of type t.
func (s *search) open(a *answer, used []int, t int) (where place, ok bool) {
	best := none
	for i := range s.sheets {
		sh := &s.sheets[i]
		if sh.most < 0 || sh.most > 0 && used[i] >= sh.most || s.only >= 0 && s.only != i && sh.most == 0 || s.bought && sh.most > 0 {
			continue
		}
		e := s.empty(i)
		p, fits := s.best(&e, t)
		if !fits {
			continue
		}
		if best == none || float64(sh.cost)*s.sheets[best].area < float64(s.sheets[best].cost)*sh.area {
			best, where = i, p
		}
	}
	if best == none {
		return place{}, false
	}
	used[best]++
	a.bins = append(a.bins, s.empty(best))
	return where, true
}

// start is the best of the constructions; nil where the sheets did not suffice for any. It ends once one meets the bound,
// or once there is one and the time is over.
func (s *search) start(bound int64) (best *answer) {
	try := func(order int) (enough bool) {
		if a := s.construct(s.order(order)); a != nil && (best == nil || a.cost < best.cost) {
			best = a
		}
		return best != nil && (best.cost <= bound || s.halted())
	}
	s.only = none
	for k := range orders {
		if try(k) {
			return best
		}
	}
	if slices.ContainsFunc(s.types, func(t itemType) bool { return t.turn }) {
		defer func() { s.ways = straight | turned }()
		for _, s.ways = range []int{straight, turned} {
			if try(0) {
				return best
			}
		}
		s.ways = straight | turned
	}
	if len(s.sheets) == 1 {
		return best
	}
	defer func() { s.only, s.bought = none, false }()
	for _, s.bought = range []bool{false, true} {
		for s.only = range s.sheets {
			if try(0) {
				return best
			}
		}
	}
	return best
}

// run searches until the budget ends or the bound is met; it may raise the bound.
func (s *search) run(bound int64) (*answer, int64) {
	best := s.start(bound)
	if best == nil && bound < math.MaxInt64 {
		best = s.rescue()
	}
	if best == nil || best.cost <= bound {
		return best, bound
	}
	if s.patternPays(len(best.bins)) {
		best, bound = s.patterns(best, bound)
	}
	if best.cost > bound && s.sequencePays() {
		return s.sequences(best, bound), bound
	}
	return s.improve(best, bound), bound
}
