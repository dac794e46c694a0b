package nest

import (
	"cmp"
	"slices"
)

const (
	stackNear   = 24 // parts nearly as wide as the room that are tried in a stack
	stackThirds = 4  // of them tried as a third one
)

// stacker looks for two or three parts that fill a room together.
type stacker struct {
	list []lying // that nearby are part of
	near []nearby
	best []lying
}

// nearby is a part nearly as wide as a room: its size the other way, and which is the worthiest up to that size.
type nearby struct {
	size    int64
	worth   float64
	at, top int32
}

// stacked gives what is worth most in a slot: the part l, or a few parts, and the cut between them.
func (f *filler) stacked(o slot, l lying) (set []lying, cut Kind) {
	worth := l.worth
	f.stack.best = append(f.stack.best[:0], l)
	if o.h >= 2*f.s.leastH {
		if f.near(o, Rip); f.pairs(o.h, &worth) {
			cut = Rip
		}
	}
	if o.w >= 2*f.s.leastW {
		if f.near(o, Cross); f.pairs(o.w, &worth) {
			cut = Cross
		}
	}
	return f.stack.best, cut
}

// near lists the parts that fill most of a slot's width, the smallest the other way first.
func (f *filler) near(o slot, cut Kind) {
	list, across, room := f.wide, o.w, o.h
	if cut == Cross {
		list, across, room = f.high, o.h, o.w
	}
	at, _ := slices.BinarySearchFunc(list, across, func(l lying, x int64) int {
		if cut == Rip {
			return cmp.Compare(x, l.w)
		}
		return cmp.Compare(x, l.h)
	})
	near := f.stack.near[:0]
	for ; at < len(list) && len(near) < stackNear; at++ {
		l := &list[at]
		size := l.h
		if cut == Cross {
			size = l.w
		}
		if f.left[l.t] == 0 || size >= room {
			continue
		}
		near = append(near, nearby{})
		i := len(near) - 1
		for ; i > 0 && near[i-1].size > size; i-- {
			near[i] = near[i-1]
		}
		near[i] = nearby{size: size, worth: l.worth, at: int32(at)}
	}
	f.s.work += int64(len(near))
	for i := range near {
		if near[i].top = int32(i); i > 0 && near[near[i-1].top].worth > near[i].worth {
			near[i].top = near[i-1].top
		}
	}
	f.stack.list, f.stack.near = list, near
}

// pairs tries all pairs of the parts listed, and some triples; true if one is worth more than what was known.
func (f *filler) pairs(room int64, worth *float64) (found bool) {
	near := f.stack.near
	found = f.pair(room, none, worth)
	for range min(len(near), stackThirds) {
		third := f.rng.IntN(len(near))
		found = f.pair(room-near[third].size, third, worth) || found
	}
	return found
}

// pair finds the worthiest two that fit the room together, besides a third that has its place.
func (f *filler) pair(room int64, third int, worth *float64) (found bool) {
	near := f.stack.near
	have := 0.0
	if third != none {
		have = near[third].worth
	}
	j := len(near) - 1
	for i := range near {
		for j >= 0 && near[j].size+near[i].size > room {
			j--
		}
		if j < 0 {
			break
		}
		k := int(near[j].top)
		if v := have + near[i].worth + near[k].worth; v > *worth && f.enough(i, k, third) {
			*worth, found = v, true
			f.stack.best = f.stack.best[:0]
			for _, n := range [...]int{i, k, third} {
				if n != none {
					f.stack.best = append(f.stack.best, f.stack.list[near[n].at])
				}
			}
		}
	}
	return found
}

// enough tells whether as many of each type are left as a stack takes.
func (f *filler) enough(stack ...int) bool {
	for i, a := range stack {
		n := 1
		for _, b := range stack[i+1:] {
			if a != none && b != none && f.of(a) == f.of(b) {
				n++
			}
		}
		if n > 1 && n > f.left[f.of(a)] {
			return false
		}
	}
	return true
}

// of is the type of a part nearby.
func (f *filler) of(i int) int { return f.stack.list[f.stack.near[i].at].t }
