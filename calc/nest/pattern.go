package nest

import (
	"math"
	"slices"
)

// Where every item is asked for many times, patterns pay: the continuous optimum over guillotine patterns, rounded, with
// only the rest left to search (Gilmore & Gomory 1965; Cintra, Miyazawa, Wakabayashi & Xavier 2008).

const (
	patternDemand = 4           // pieces a type, on average, from which patterns pay
	patternParts  = 12          // pieces a sheet, on average, up to which they are few enough to price
	patternStates = 4_000_000   // rectangles between normal positions, at most
	patternFew    = 100_000     // the same where demands are low and patterns merely help to choose the kinds of sheet
	patternRest   = 10          // sheets, by area, that are left to the search in the end
	patternSearch = 8_000_000   // work of that search in one round
	patternShare  = 16          // part of the budget that it may take at most
	patternIdle   = 6           // rounds without a better answer before all sheets are searched together
	gridWork      = 250_000_000 // steps of one exact pricing; a larger grid gives no bound
)

// sawmill prices two-dimensional patterns.
type sawmill struct {
	s       *search
	value   []int64
	xs, ys  []int64   // normal positions: sums of sizes (Herz 1972)
	cells   []cell    // best way for xs[i] × ys[j], if its stamp is that of this pricing
	lessX   [][]int32 // for each lot: index of the normal position that is left of xs[i]
	lessY   [][]int32
	stamp   int32
	stopped bool // the time ended within a pricing, whose value is then worth nothing
	lots    []lot
	g       generator
}

// lot is an item lying one way.
type lot struct {
	t      int
	w, h   int64
	x, y   int32 // index of w, h among the normal positions
	turned bool
}

// cell is the best way found to cut a rectangle: the item in its corner, and which strip is cut off first.
type cell struct {
	value int64
	lot   int32 // none: waste
	stamp int32
	cut   Kind
}

func newSawmill(s *search) *sawmill {
	m := &sawmill{s: s}
	var ws, hs []int64
	w, h := int64(0), int64(0)
	for t, ty := range s.types {
		m.lots = append(m.lots, lot{t: t, w: ty.w, h: ty.h})
		if ty.turn {
			m.lots = append(m.lots, lot{t: t, w: ty.h, h: ty.w, turned: true})
		}
	}
	for _, l := range m.lots {
		ws, hs = append(ws, l.w), append(hs, l.h)
	}
	for _, sh := range s.sheets {
		w, h = max(w, sh.w), max(h, sh.h)
	}
	m.xs, m.ys = normal(ws, w), normal(hs, h)
	states := patternStates
	if !s.oftenAsked() {
		states = patternFew
	}
	if len(m.xs) == 0 || len(m.ys) == 0 || len(m.xs)*len(m.ys) > states {
		return nil
	}
	m.cells = make([]cell, len(m.xs)*len(m.ys))
	for i := range m.lots {
		l := &m.lots[i]
		l.x, l.y = int32(len(upTo(m.xs, l.w))-1), int32(len(upTo(m.ys, l.h))-1)
		m.lessX = append(m.lessX, less(m.xs, l.w))
		m.lessY = append(m.lessY, less(m.ys, l.h))
	}
	m.g = generator{kinds: s.sheets, price: m.price, stop: s.done, often: make([]int64, len(s.types))}
	for range s.types {
		m.g.single = append(m.g.single, none)
	}
	return m
}

// less gives, for each position, the index of the largest one that is at least size below it; none: it is smaller.
func less(list []int64, size int64) []int32 {
	out := make([]int32, len(list))
	j := int32(none)
	for i, v := range list {
		for v-size >= 0 && int(j+1) < len(list) && list[j+1] <= v-size {
			j++
		}
		out[i] = j
	}
	return out
}

// normal lists the sums of sizes up to side, or nil where there are too many to keep.
func normal(sizes []int64, side int64) []int64 {
	const most = 4000
	slices.Sort(sizes)
	sizes = slices.Compact(sizes)
	seen := map[int64]bool{0: true}
	out := []int64{0}
	for i := 0; i < len(out); i++ {
		for _, z := range sizes {
			if v := out[i] + z; v <= side && !seen[v] {
				if len(out) >= most {
					return nil
				}
				seen[v] = true
				out = append(out, v)
			}
		}
	}
	slices.Sort(out)
	return out
}

// best is the greatest value found for the rectangle of positions i, j: an item in the corner, then the strip beside it
// and the rest, the first cut along either side of the item.
func (m *sawmill) best(i, j int32) int64 {
	if i <= 0 || j <= 0 {
		return 0
	}
	at := int(i)*len(m.ys) + int(j)
	if c := &m.cells[at]; c.stamp == m.stamp {
		return c.value
	}
	c := cell{lot: none, stamp: m.stamp}
	if m.s.work++; m.s.work&1023 == 0 && m.s.halted() {
		m.stopped = true
	}
	if m.stopped {
		return 0
	}
	for k := range m.lots {
		l := &m.lots[k]
		v := m.value[l.t]
		x, y := m.lessX[k][i], m.lessY[k][j]
		if v == 0 || x < 0 || y < 0 {
			continue
		}
		if a := v + m.best(l.x, y) + m.best(x, j); a > c.value {
			c.value, c.lot, c.cut = a, int32(k), Cross
		}
		if a := v + m.best(x, l.y) + m.best(i, y); a > c.value {
			c.value, c.lot, c.cut = a, int32(k), Rip
		}
	}
	m.cells[at] = c
	return c.value
}

// build notes the pattern of a rectangle as nodes; it gives the root, none for waste.
func (m *sawmill) build(b *bin, i, j int32) int32 {
	if i <= 0 || j <= 0 {
		return none
	}
	c := m.cells[int(i)*len(m.ys)+int(j)]
	if c.stamp != m.stamp || c.lot == none {
		return none
	}
	l := m.lots[c.lot]
	x, y := m.lessX[c.lot][i], m.lessY[c.lot][j]
	ty := &m.s.types[l.t]
	me := int32(len(b.nodes))
	b.nodes = append(b.nodes, node{w: l.w, h: l.h, item: int32(l.t), turned: l.turned, up: none, kid: none, sib: none})
	b.area += ty.area
	b.parts++
	if c.cut == Cross {
		strip := m.join(b, Rip, me, m.build(b, l.x, y))
		return m.join(b, Cross, strip, m.build(b, x, j))
	}
	strip := m.join(b, Cross, me, m.build(b, x, l.y))
	return m.join(b, Rip, strip, m.build(b, i, y))
}

// join makes one node of two; kids of a join of the same direction become kids of the new one.
func (m *sawmill) join(b *bin, k Kind, x, y int32) int32 {
	if x == none || y == none {
		return max(x, y)
	}
	j := int32(len(b.nodes))
	b.nodes = append(b.nodes, node{item: none, cut: k, up: none, kid: none, sib: none})
	for _, c := range []int32{y, x} {
		if n := &b.nodes[c]; n.item == none && n.cut == k {
			for g := n.kid; g != none; {
				after := b.nodes[g].sib
				b.nodes[g].up, b.nodes[g].sib = j, b.nodes[j].kid
				b.nodes[j].kid = g
				g = after
			}
			n.w, n.kid = -1, none
			continue
		}
		b.nodes[c].up, b.nodes[c].sib = j, b.nodes[j].kid
		b.nodes[j].kid = c
	}
	return j
}

// price is the pricing of column generation: the pattern by recursion, the bound from the grid where it is small enough.
func (m *sawmill) price(kind int, value, _ []int64, worth int64) ([]int64, *bin, int64) {
	s := m.s
	m.value = value
	m.stamp++
	sh := &s.sheets[kind]
	i, j := int32(len(upTo(m.xs, sh.w))-1), int32(len(upTo(m.ys, sh.h))-1)
	top := m.best(i, j)
	b := s.empty(kind)
	b.root = m.build(&b, i, j)
	b.sweep()
	s.settle(&b)
	counts := make([]int64, len(s.types))
	for _, n := range b.nodes {
		if n.item != none {
			counts[n.item]++
		}
	}
	most := int64(math.MaxInt64)
	if !m.stopped && float64(top) <= float64(worth)*(1+1e-7) { // nothing to gain: worth a proof
		if v := m.grid(sh.w, sh.h); v > 0 {
			most = v
		}
	}
	return counts, &b, most
}

// grid is the exact greatest value of a sheet, any number of each item: all guillotine cuts at normal positions
// (Beasley 1985). 0: the grid is too large, or the time is over.
func (m *sawmill) grid(w, h int64) int64 {
	xs, ys := upTo(m.xs, w), upTo(m.ys, h)
	nx, ny := len(xs), len(ys)
	if nx*ny*(nx+ny)/4 > gridWork {
		return 0
	}
	v := make([]int64, nx*ny)
	for i := 1; i < nx; i++ {
		if m.s.halted() {
			return 0
		}
		for j := 1; j < ny; j++ {
			best := max(v[(i-1)*ny+j], v[i*ny+j-1])
			for _, l := range m.lots {
				if l.w <= xs[i] && l.h <= ys[j] {
					best = max(best, m.value[l.t])
				}
			}
			for a, r := 1, i-1; a < nx && 2*xs[a] <= xs[i]; a++ {
				for xs[r] > xs[i]-xs[a] {
					r--
				}
				best = max(best, v[a*ny+j]+v[r*ny+j])
			}
			row := v[i*ny : (i+1)*ny]
			for a, r := 1, j-1; a < ny && 2*ys[a] <= ys[j]; a++ {
				for ys[r] > ys[j]-ys[a] {
					r--
				}
				best = max(best, row[a]+row[r])
			}
			v[i*ny+j] = best
		}
	}
	m.s.work += int64(nx * ny * (nx + ny) / 8)
	return v[nx*ny-1]
}

func upTo(list []int64, v int64) []int64 {
	i, ok := slices.BinarySearch(list, v)
	if ok {
		i++
	}
	return list[:i]
}

// patternPays tells whether patterns are worth making: items asked for often, or several kinds of sheet.
func (s *search) patternPays(sheets int) bool {
	if s.pieces() > patternParts*sheets || slices.ContainsFunc(s.types, func(t itemType) bool { return t.need > 0 }) {
		return false
	}
	return s.oftenAsked() || len(s.sheets) > 1 && s.budget.Nodes >= mixLeast
}

// oftenAsked tells whether items are asked for often enough to fill whole sheets with patterns again and again.
func (s *search) oftenAsked() bool {
	return s.pieces() >= patternDemand*len(s.types)
}

// patterns answers a problem of high demand: whole patterns first, then search on what is left, several times with
// different patterns left to the search.
func (s *search) patterns(best *answer, bound int64) (*answer, int64) {
	m := newSawmill(s)
	if m == nil {
		return best, bound
	}
	demand := make([]int64, len(s.types))
	for t := range s.types {
		demand[t] = int64(s.types[t].n)
	}
	root := m.g.solve(demand, make([]int, len(s.sheets)), 0)
	if root.bound < math.MaxInt64 {
		bound = max(bound, root.bound)
	}
	best = s.choose(m.g.pool, root, best, bound)
	for round, idle := 0, 0; best.cost > bound && !s.done() && idle < patternIdle; round++ {
		idle++
		left := slices.Clone(demand)
		fixed := &answer{}
		used := make([]int, len(s.sheets))
		now := root
		for s.round(now, left, used, fixed, round) && !s.done() {
			area := 0.0
			for t, n := range left {
				area += float64(float64(n) * s.types[t].area)
			}
			if area < patternRest*s.sheets[0].area {
				break
			}
			now = m.g.solve(left, used, 0)
		}
		rest := s.remainder(left, used)
		sub := max(rest.bound(), bound-fixed.cost)
		got := rest.start(sub)
		if got != nil && got.cost > sub {
			rest.budget.Nodes = min(s.budget.Nodes-s.work, max(s.budget.Nodes/patternShare, 1), patternSearch)
			got = rest.improve(got, sub)
		}
		s.work += rest.work
		if got != nil && got.cost+fixed.cost < best.cost {
			fixed.bins = append(fixed.bins, got.bins...)
			fixed.cost += got.cost
			best, idle = fixed, 0
		}
	}
	return s.choose(m.g.pool, root, best, bound), bound // among the patterns of all rounds
}

// round cuts the whole part of every pattern, and where there is none the pattern nearest to a whole one; later rounds
// leave some undecided. false: nothing could be cut.
func (s *search) round(now solved, left []int64, used []int, fixed *answer, round int) bool {
	any := false
	near, share := none, -1.0
	for j, c := range now.basis {
		if c.Of.bin == nil {
			continue
		}
		n := whole(now.x[j])
		f := now.x[j] - float64(n)
		if round > 0 {
			f = math.Mod(f+float64(0.37*float64(round))+float64(0.61*float64(j*round)), 1)
			if n > 1 && (j+round)%4 == 0 {
				n--
			}
		}
		any = s.cutWhole(c, n, left, used, fixed) || any
		if f > share && s.wanted(c, left) {
			near, share = j, f
		}
	}
	if near != none {
		any = s.cutWhole(now.basis[near], 1, left, used, fixed) || any
	}
	return any
}

// cutWhole cuts a pattern up to n times, as long as all of it is wanted.
func (s *search) cutWhole(c column, n int64, left []int64, used []int, fixed *answer) (any bool) {
	if n == 0 || !s.wanted(c, left) {
		return false
	}
	b := s.trimmed(c)
	most := s.sheets[c.Of.kind].most
	for ; n > 0 && s.wanted(c, left) && (most == 0 || used[c.Of.kind] < most); n-- {
		for i, t := range c.Row {
			left[t] -= int64(c.Count[i])
		}
		used[c.Of.kind]++
		fixed.bins = append(fixed.bins, b)
		fixed.cost += s.sheets[c.Of.kind].cost
		any = true
	}
	return any
}

// trimmed is the pattern without the parts that its column does not count, since they were not asked for any more.
func (s *search) trimmed(c column) bin {
	want := make([]int64, len(s.types))
	for i, t := range c.Row {
		want[t] = int64(c.Count[i])
	}
	var extra []int32
	for i, n := range c.Of.bin.nodes {
		if n.item == none {
			continue
		}
		if want[n.item]--; want[n.item] < 0 {
			extra = append(extra, int32(i))
		}
	}
	b, _ := s.without(c.Of.bin, extra, bin{}, nil)
	return b
}

// wanted tells whether all of a pattern is still asked for.
func (s *search) wanted(c column, left []int64) bool {
	for i, t := range c.Row {
		if left[t] < int64(c.Count[i]) {
			return false
		}
	}
	return true
}

// remainder is the search for what is left, with the same types.
func (s *search) remainder(left []int64, used []int) *search {
	r := *s
	r.work, r.asked = 0, 0
	r.types = slices.Clone(s.types)
	r.sheets = slices.Clone(s.sheets)
	for t := range r.types {
		r.types[t].n = int(left[t])
	}
	for k := range r.sheets {
		if r.sheets[k].most > 0 {
			if r.sheets[k].most -= used[k]; r.sheets[k].most == 0 {
				r.sheets[k].most = -1
			}
		}
	}
	return &r
}
