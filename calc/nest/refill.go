package nest

import (
	"math/rand/v2"
	"slices"
)

// Lengths that fill their sticks nearly to the end are a matter of many small exchanges: a few sticks are emptied, filled
// again as tightly as a small search finds, and what is left over in the end is less or no more than before (in the
// manner of Fleszar & Hindi 2002; Alvim, Ribeiro, Glover & Aloise 2004).

const (
	refillMost  = 4   // sticks emptied in a round, at most
	refillLoose = 24  // pieces without a stick that take part in a round, at most
	refillWalk  = 120 // steps of the search for one fill
	refillPast  = 40  // rounds that more may be left over for
)

// rack is a number of sticks with what they hold, by size, and the pieces that found no place.
type rack struct {
	w     *sawyer
	rng   *rand.Rand
	from  *bars // the cutting that it began with
	bars  []rackBar
	loose []int
	rest  int64 // length of the loose ones

	rounds int
	past   [refillPast]int64 // what was left over in the last rounds

	pool  []int  // sizes of the pieces of a round, longest first
	gone  []bool // those already put somewhere
	chose []int  // the fill in the making, by position in the pool
	best  []int
	left  int64 // room beside the best fill
	steps int
	ahead []int64 // length of all from a position on
	old   []rackBar
	oldL  []int
}

type rackBar struct {
	kind   int
	pieces []int // sizes by index
	room   int64
}

// refill looks for an answer one step cheaper by refilling sticks; false where no stick can be saved at all. With one kind
// of stick it goes on where it was left; with several, another change of kinds is tried each time.
func (w *sawyer) refill(work int64) bool {
	if w.done() || w.best == nil {
		return false
	}
	if w.rack == nil || w.rack.from != w.best || len(w.s.sheets) > 1 {
		w.rack = newRack(w)
		if !w.rack.save() {
			return false
		}
		for i := range w.rack.past {
			w.rack.past[i] = w.rack.rest
		}
	}
	r := w.rack
	for end := w.s.work + work; len(r.loose) > 0; r.rounds++ {
		if w.s.work >= end || w.s.done() || len(r.bars) == 0 {
			return true
		}
		was := r.rest
		r.round()
		h := &r.past[r.rounds%refillPast]
		if r.rest > was && r.rest > *h {
			r.back(was)
		}
		*h = min(*h, r.rest)
	}
	w.keep(r.answer())
	return true
}

// newRack puts the best cutting on a rack.
func newRack(w *sawyer) *rack {
	r := &rack{w: w, rng: w.rng, from: w.best}
	for _, c := range w.best.cuts {
		for range c.n {
			b := rackBar{kind: c.kind, room: w.s.sheets[c.kind].w}
			for i, n := range c.counts {
				for range n {
					b.pieces, b.room = append(b.pieces, i), b.room-w.size[i]
				}
			}
			r.bars = append(r.bars, b)
		}
	}
	return r
}

// save gives up the stick that holds least for its cost, or takes a cheaper kind instead of one.
func (r *rack) save() bool {
	kinds := r.w.s.sheets
	used := make([]int, len(kinds))
	for _, b := range r.bars {
		used[b.kind]++
	}
	type change struct{ at, to int }
	var all []change
	for i, b := range r.bars {
		if kinds[b.kind].cost == 0 {
			continue
		}
		all = append(all, change{i, none})
		for k := range kinds {
			if kinds[k].cost < kinds[b.kind].cost && (kinds[k].most == 0 || used[k] < kinds[k].most) {
				all = append(all, change{i, k})
			}
		}
	}
	if len(all) == 0 {
		return false
	}
	lost := func(c change) int64 { // length that no longer has room, as far as the stick itself tells
		b := r.bars[c.at]
		if c.to == none {
			return kinds[b.kind].w - b.room
		}
		return kinds[b.kind].w - b.room - kinds[c.to].w
	}
	slices.SortStableFunc(all, func(a, b change) int { return int(min(max(lost(a)-lost(b), -1), 1)) })
	c := all[0]
	if len(kinds) > 1 { // which change is right is hard to tell with several kinds
		c = all[r.rng.IntN(min(len(all), 6*len(kinds)))]
	}
	b := &r.bars[c.at]
	for _, i := range b.pieces {
		r.loose, r.rest = append(r.loose, i), r.rest+r.w.size[i]
	}
	if c.to == none {
		r.bars = slices.Delete(r.bars, c.at, c.at+1)
	} else {
		*b = rackBar{kind: c.to, room: kinds[c.to].w}
	}
	return true
}

// round empties a few sticks and fills them again.
func (r *rack) round() {
	r.pool, r.old = r.pool[:0], r.old[:0]
	r.oldL = append(r.oldL[:0], r.loose...)
	n := len(r.bars)
	take := min(n, 1+r.rng.IntN(refillMost))
	for i := range take { // to the front
		j := i + r.rng.IntN(n-i)
		if k := i + r.rng.IntN(n-i); r.bars[k].room > r.bars[j].room {
			j = k
		}
		r.bars[i], r.bars[j] = r.bars[j], r.bars[i]
		b := &r.bars[i]
		r.old = append(r.old, *b)
		r.pool = append(r.pool, b.pieces...)
		b.pieces, b.room = nil, r.w.s.sheets[b.kind].w
	}
	for range max(0, len(r.loose)-refillLoose) { // the rest of them waits
		j := r.rng.IntN(len(r.loose))
		r.loose[j], r.loose[len(r.loose)-1] = r.loose[len(r.loose)-1], r.loose[j]
		r.loose = r.loose[:len(r.loose)-1]
	}
	waiting := r.oldL[:0:0] // none
	if len(r.loose) < len(r.oldL) {
		waiting = without(r.oldL, r.loose)
	}
	r.pool = append(r.pool, r.loose...)
	slices.Sort(r.pool) // sizes are numbered from the longest on
	r.gone = append(r.gone[:0], make([]bool, len(r.pool))...)
	for i := range take {
		r.fill(&r.bars[i])
	}
	r.loose, r.rest = append(r.loose[:0], waiting...), 0
	for at, i := range r.pool {
		if !r.gone[at] {
			r.loose = append(r.loose, i)
		}
	}
	for _, i := range r.loose {
		r.rest += r.w.size[i]
	}
	r.w.s.work += int64(len(r.pool))
}

// without is a list less the members of another, each as often as it stands there.
func without(list, less []int) (out []int) {
	count := map[int]int{}
	for _, i := range less {
		count[i]++
	}
	for _, i := range list {
		if count[i] > 0 {
			count[i]--
		} else {
			out = append(out, i)
		}
	}
	return out
}

// fill puts into a stick, of what is in the pool, the longest or any one, and what fills the rest best; some are passed
// over, so that it is not always the same, unless there is room for them in the end.
func (r *rack) fill(b *rackBar) {
	first := r.rng.IntN(len(r.pool))
	if r.rng.IntN(2) == 0 {
		first = 0
	}
	for k := 0; k < len(r.pool) && r.gone[(first+k)%len(r.pool)]; k++ {
		first++
	}
	if first %= len(r.pool); r.gone[first] {
		return
	}
	passed := r.rng.Uint64()
	open := r.chose[:0]
	sum := int64(0)
	for at, i := range r.pool {
		if !r.gone[at] && at != first && r.w.size[i] <= b.room && passed>>(uint(3*at)&63)&7 != 0 {
			open = append(open, at)
			sum += r.w.size[i]
		}
	}
	size := r.w.size[r.pool[first]]
	if size > b.room {
		first, size = none, 0
	}
	r.ahead = r.ahead[:0]
	for _, at := range open {
		r.ahead = append(r.ahead, sum)
		sum -= r.w.size[r.pool[at]]
	}
	r.chose = open
	r.left, r.steps, r.best = b.room-size+1, 0, r.best[:0]
	r.walk(0, b.room-size, nil)
	if first != none {
		r.best = append(r.best, first)
	}
	for _, at := range r.best {
		r.put(b, at)
	}
	for at, i := range r.pool {
		if !r.gone[at] && r.w.size[i] <= b.room {
			r.put(b, at)
		}
	}
	r.w.s.work += int64(r.steps) / 2
}

func (r *rack) put(b *rackBar, at int) {
	r.gone[at] = true
	b.pieces = append(b.pieces, r.pool[at])
	b.room -= r.w.size[r.pool[at]]
}

// walk tries the open pieces from one on, longest first.
func (r *rack) walk(from int, room int64, have []int) {
	if room < r.left {
		r.left = room
		r.best = append(r.best[:0], have...)
	}
	before := none
	for k := from; k < len(r.chose) && r.left > 0 && r.steps < refillWalk; k++ {
		if room-r.ahead[k] >= r.left { // all that is still to come leaves more
			return
		}
		at := r.chose[k]
		if i := r.pool[at]; i != before && r.w.size[i] <= room {
			before = i
			r.steps++
			r.walk(k+1, room-r.w.size[i], append(have, at))
		}
	}
}

// back undoes the last round.
func (r *rack) back(rest int64) {
	copy(r.bars, r.old)
	r.loose, r.rest = append(r.loose[:0], r.oldL...), rest
}

// answer is the rack as a cutting.
func (r *rack) answer() *bars {
	out := &bars{}
	for _, b := range r.bars {
		if len(b.pieces) == 0 {
			continue
		}
		c := cutBar{b.kind, make([]int64, len(r.w.size)), 1}
		for _, i := range b.pieces {
			c.counts[i]++
		}
		out.cuts = append(out.cuts, c)
		out.cost += r.w.s.sheets[b.kind].cost
	}
	return out
}
