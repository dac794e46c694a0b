package nest

import (
	"cmp"
	"context"
	"math"
	"math/rand/v2"
	"slices"
)

// Stick is a stock length; Max 0: as many as wanted.
type Stick struct {
	L, Cost int64
	Max     int
}

// Piece is a length that is asked for N times.
type Piece struct {
	L int64
	N int
}

// LengthProblem asks for all pieces out of sticks at the least total cost.
type LengthProblem struct {
	Sticks []Stick
	Pieces []Piece
	Kerf   int64 // lost at every cut
}

// Bar is a stick and the pieces cut from it, in order, by index.
type Bar struct {
	Stick  int
	Pieces []int
}

// LengthResult is a cutting of every piece and a proven lower bound on the cost of any cutting.
type LengthResult struct {
	Cost, Bound int64
	Bars        []Bar
	Proven      bool // Cost == Bound: none cheaper is possible
}

// flat states a length problem as one of sheets one unit wide.
func (p *LengthProblem) flat() *Problem {
	q := &Problem{Kerf: p.Kerf}
	for _, s := range p.Sticks {
		q.Sheets = append(q.Sheets, Sheet{W: s.L, H: 1, Cost: s.Cost, Max: s.Max})
	}
	for _, it := range p.Pieces {
		q.Items = append(q.Items, Item{W: it.L, H: 1, N: it.N})
	}
	return q
}

// Check refuses what cannot be worked with; the error is a *ProblemError.
func (p *LengthProblem) Check() error { return p.flat().Check() }

// reduced is the same problem in the coarsest unit that holds it: every length one kerf larger, so that no kerf is left
// (see the package comment), and divided by the greatest common divisor of the pieces. A stick is as good as the largest
// multiple of it. How fine the unit of the lengths is then makes no difference, neither to the answer nor to the work.
func (p *LengthProblem) reduced() *LengthProblem {
	unit := int64(0)
	for _, q := range p.Pieces {
		if q.N > 0 {
			unit = gcd(q.L+p.Kerf, unit)
		}
	}
	r := &LengthProblem{Sticks: slices.Clone(p.Sticks), Pieces: slices.Clone(p.Pieces)}
	if unit == 0 {
		return r
	}
	for i := range r.Pieces {
		r.Pieces[i].L = (r.Pieces[i].L + p.Kerf) / unit
	}
	for i := range r.Sticks {
		r.Sticks[i].L = (r.Sticks[i].L + p.Kerf) / unit
	}
	return r
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// bars is a cutting in the making: patterns and how often each is cut.
type bars struct {
	cost int64
	cuts []cutBar
}

type cutBar struct {
	kind   int
	counts []int64
	n      int64
}

// How the budget is shared out.
const (
	diveRounds = 400
	refillWork = 1 << 17 // of one go at refilling
	quickGain  = 1e-3    // share of a stick's cost above which a pattern found in a small tree is taken as it is
)

// sawyer is the state of one call of Lengths, on the reduced problem. Sizes are all different, longest first.
type sawyer struct {
	s      *search
	size   []int64
	demand []int64
	of     [][]int // pieces asked for under each size: index and number
	g      generator
	k      knapsack
	best   *bars
	bound  int64
	rng    *rand.Rand
	rack   *rack
}

// Lengths cuts every piece from sticks at the least cost that it finds within the budget. It fills stick by stick as
// tightly as it can, bounds the cost by column generation, and then dives: patterns of the continuous optimum are cut as
// often as they are whole, the rest is solved anew. An error is a *ProblemError, or that of the context.
func Lengths(ctx context.Context, p *LengthProblem, budget Budget) (*LengthResult, error) {
	if err := p.Check(); err != nil {
		return nil, err
	}
	if budget.Nodes == 0 {
		budget.Nodes = DefaultLengthNodes
	}
	r := p.reduced()
	w := newSawyer(newSearch(ctx, r.flat(), budget), r)
	w.run()
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	if w.best == nil {
		return nil, &ProblemError{Why: "the sticks on hand do not suffice for all pieces"}
	}
	return w.result(), nil
}

func newSawyer(s *search, p *LengthProblem) *sawyer {
	w := &sawyer{s: s, rng: rand.New(rand.NewPCG(3, 5))}
	index := make([]int, 0, len(p.Pieces))
	for i, q := range p.Pieces {
		if q.N > 0 {
			index = append(index, i)
		}
	}
	slices.SortStableFunc(index, func(a, b int) int { return cmp.Compare(p.Pieces[b].L, p.Pieces[a].L) })
	for _, i := range index {
		q := p.Pieces[i]
		if n := len(w.size); n == 0 || w.size[n-1] != q.L {
			w.size, w.demand = append(w.size, q.L), append(w.demand, 0)
			w.of = append(w.of, nil)
		}
		n := len(w.size) - 1
		w.demand[n] += int64(q.N)
		for range q.N {
			w.of[n] = append(w.of[n], i)
		}
	}
	w.k.size = w.size
	w.g = generator{kinds: s.sheets, price: w.price, stop: s.done, spent: func(n int64) { s.work += n }}
	for i, l := range w.size {
		w.g.single, w.g.often = append(w.g.single, none), append(w.g.often, 0)
		for k, st := range s.sheets {
			if st.most > 0 || st.w < l {
				continue
			}
			n := min(st.w/l, w.demand[i])
			if c := w.g.single[i]; c == none || float64(st.cost)/float64(n) < float64(s.sheets[c].cost)/float64(w.g.often[i]) {
				w.g.single[i], w.g.often[i] = k, n
			}
		}
	}
	return w
}

// price is the pricing of column generation: a bounded knapsack.
func (w *sawyer) price(kind int, value, demand []int64, worth int64) ([]int64, *bin, int64) {
	w.k.value, w.k.count = value, demand
	stick := &w.s.sheets[kind]
	counts, ok := w.k.quick(stick.w, int64(float64(worth)*(1+quickGain)))
	w.s.work += w.k.nodes/4 + int64(len(w.size))
	if ok {
		return slices.Clone(counts), nil, math.MaxInt64
	}
	most, counts, _ := w.k.solve(stick.w)
	w.s.work += w.k.nodes / 4
	return slices.Clone(counts), nil, most
}

// keep takes an answer if it is the cheapest yet.
func (w *sawyer) keep(b *bars) {
	if b != nil && (w.best == nil || b.cost < w.best.cost) {
		w.best = &bars{b.cost, slices.Clone(b.cuts)}
	}
}

func (w *sawyer) done() bool { return w.best != nil && w.best.cost <= w.bound || w.s.done() }

func (w *sawyer) run() {
	w.bound = w.s.bound()
	if len(w.size) == 0 {
		w.best = &bars{}
		return
	}
	none := make([]int, len(w.s.sheets))
	for only := range w.ways() {
		w.keep(w.fill(w.demand, none, &bars{}, only-1))
	}
	w.refill(refillWork)
	if w.done() {
		return
	}
	if w.best != nil { // its bars are good columns to begin with
		for _, c := range w.best.cuts {
			w.g.pool = append(w.g.pool, w.g.column(c.kind, c.counts, nil, nil))
		}
	}
	root := w.g.solve(w.demand, none, 0)
	if root.bound < math.MaxInt64 {
		w.bound = max(w.bound, root.bound)
	}
	for round := 0; !w.done() && round < diveRounds; round++ {
		w.dive(root, round)
		w.refill(refillWork)
	}
	for !w.done() && w.refill(refillWork) {
	}
	if !w.done() {
		w.ruin()
	}
}

// ways is how many fills there are: with the kinds free, and with each of several alone.
func (w *sawyer) ways() int {
	if len(w.s.sheets) == 1 {
		return 1
	}
	return 1 + len(w.s.sheets)
}

// fill cuts stick by stick: the longest piece left and with it what fills the stick best; and, with several kinds of
// stick, on the kind that comes cheapest for what it holds. only ≥ 0 takes unlimited sticks of that kind alone.
func (w *sawyer) fill(demand []int64, used []int, from *bars, only int) *bars {
	out := &bars{from.cost, slices.Clone(from.cuts)}
	left := slices.Clone(demand)
	used = slices.Clone(used)
	for first := 0; ; {
		for first < len(left) && left[first] == 0 {
			first++
		}
		if first == len(left) {
			return out
		}
		steps := walkMost
		if w.s.halted() {
			steps = walkLeast
		}
		best, rate := cutBar{kind: none}, 0.0
		for k, st := range w.s.sheets {
			if st.w < w.size[first] || st.most > 0 && used[k] >= st.most || only >= 0 && k != only && st.most == 0 {
				continue
			}
			counts := w.tightest(first, left, st.w, steps)
			sum := int64(0)
			for i, c := range counts {
				sum += c * w.size[i]
			}
			if r := float64(st.cost) / float64(sum); best.kind == none || r < rate {
				best, rate = cutBar{k, counts, 1}, r
			}
		}
		if best.kind == none {
			return nil
		}
		most := int64(math.MaxInt64)
		for i, c := range best.counts {
			if c > 0 {
				most = min(most, left[i]/c)
			}
		}
		if l := w.s.sheets[best.kind].most; l > 0 {
			most = min(most, int64(l-used[best.kind]))
		}
		best.n = max(1, most/2) // equal sticks together, but not so that the last ones starve
		for i, c := range best.counts {
			left[i] -= c * best.n
		}
		used[best.kind] += int(best.n)
		out.cost += best.n * w.s.sheets[best.kind].cost
		out.cuts = append(out.cuts, best)
	}
}

// Steps of the walk for one stick: at most, and once the time is over, when the longest that fit must do.
const (
	walkMost  = 2000
	walkLeast = 50
)

// tightest fills a stick around the piece first: least rest found in a bounded walk (Gupta & Ho 1999).
func (w *sawyer) tightest(first int, left []int64, length int64, steps int) []int64 {
	take, best := make([]int64, len(left)), make([]int64, len(left))
	take[first] = 1
	left[first]--
	rest := int64(math.MaxInt64)
	work := 0
	var walk func(at int, room int64)
	walk = func(at int, room int64) {
		if room < rest {
			rest = room
			copy(best, take)
		}
		for i := at; i < len(left) && rest > 0 && work < steps; i++ {
			if left[i] == 0 || w.size[i] > room {
				continue
			}
			work++
			take[i]++
			left[i]--
			walk(i, room-w.size[i])
			take[i]--
			left[i]++
		}
	}
	walk(first, length-w.size[first])
	left[first]++
	w.s.work += int64(work)
	return best
}

// dive cuts the whole part of the continuous optimum, then one more pattern, and solves for what is left, until nothing
// is. Later rounds choose differently.
func (w *sawyer) dive(root solved, round int) {
	left := slices.Clone(w.demand)
	used := make([]int, len(w.s.sheets))
	at := &bars{}
	now := root
	for depth := 0; !w.done(); depth++ {
		type share struct {
			j int
			x float64
		}
		var order []share
		any := false
		for j, x := range now.x {
			n := whole(x)
			if round > 0 && n > 0 && w.rng.IntN(8) == 0 {
				n-- // leave one to be decided anew
			}
			n = w.cut(at, left, used, now.basis[j], n)
			any = any || n > 0
			order = append(order, share{j, x - float64(whole(x))})
		}
		if round > 0 {
			for i := range order {
				order[i].x += float64((float64(w.rng.Float64()) - 0.5) * min(1, 0.2+float64(0.02*float64(round))))
			}
		}
		slices.SortStableFunc(order, func(a, b share) int { return cmp.Compare(b.x, a.x) })
		for i, o := range order {
			if i > 0 && (o.x < 0.75 || !any && i > 1) {
				break
			}
			any = w.cut(at, left, used, now.basis[o.j], 1) > 0 || any
		}
		if !slices.ContainsFunc(left, func(n int64) bool { return n > 0 }) {
			w.keep(at)
			return
		}
		for only := range w.ways() {
			w.keep(w.fill(left, used, at, only-1))
		}
		if !any {
			return
		}
		now = w.g.solve(left, used, 0)
		if w.best != nil && at.cost+now.bound >= w.best.cost {
			return
		}
	}
}

// cut cuts a pattern up to n times, as long as all of it is wanted; a last one may hold some of it only.
func (w *sawyer) cut(at *bars, left []int64, used []int, c column, n int64) int64 {
	if n == 0 {
		return 0
	}
	if l := w.s.sheets[c.Of.kind].most; l > 0 {
		n = min(n, int64(l-used[c.Of.kind]))
	}
	made := int64(0)
	for made < n {
		counts := make([]int64, len(left))
		times, some := n-made, false
		for j, i := range c.Row {
			counts[i] = min(int64(c.Count[j]), left[i])
			if counts[i] > 0 {
				some = true
				times = min(times, left[i]/counts[i])
			}
		}
		if !some {
			break
		}
		for i, k := range counts {
			left[i] -= k * times
		}
		at.cuts = append(at.cuts, cutBar{c.Of.kind, counts, times})
		at.cost += times * w.s.sheets[c.Of.kind].cost
		used[c.Of.kind] += int(times)
		made += times
	}
	return made
}

// ruin leaves the rest of the budget to ruin and recreate, on sheets one unit wide.
func (w *sawyer) ruin() {
	start := w.s.start(w.bound)
	if start == nil {
		return
	}
	a := w.s.improve(start, w.bound)
	out := &bars{cost: a.cost}
	for _, b := range a.bins {
		c := cutBar{int(b.sheet), make([]int64, len(w.size)), 1}
		for _, n := range b.nodes {
			if n.item != none {
				c.counts[slices.Index(w.size, n.w)]++
			}
		}
		out.cuts = append(out.cuts, c)
	}
	w.keep(out)
}

// result hands out the cutting: the pieces of each bar, longest first.
func (w *sawyer) result() *LengthResult {
	r := &LengthResult{Cost: w.best.cost, Bound: min(w.bound, w.best.cost)}
	r.Proven = r.Cost == r.Bound
	next := make([]int, len(w.size))
	for _, c := range w.best.cuts {
		for range c.n {
			b := Bar{Stick: c.kind}
			for i, n := range c.counts {
				for range n {
					b.Pieces = append(b.Pieces, w.of[i][next[i]])
					next[i]++
				}
			}
			r.Bars = append(r.Bars, b)
		}
	}
	return r
}
