package tally

import (
	"cmp"
	"iter"
	"math/bits"
	"slices"

	"seamwright/calc/layout"
)

// Demand is the pieces of one product that are asked for, by size. Sizes are known by their number, in the order in which
// they came up; many may be known that are not asked for now.
type Demand struct {
	sizes  []layout.Size
	n      []int
	index  map[layout.Size]int32
	orders [2]order
	pieces int
	state  uint64
}

// order is an order of work: widest first, or longest first.
type order struct {
	by    func(a, b *layout.Size) int
	ranks []int32  // of each size, its place among all that are known
	sizes []int32  // by rank
	asked []uint64 // a bit by rank: the size is asked for
	list  []int32  // the sizes asked for, in order
	stale bool     // the list is of an earlier demand
}

const longestFirst = 1

// NewDemand asks for nothing.
func NewDemand() *Demand {
	byWidth := func(a, b *layout.Size) int { return cmp.Compare(b.W, a.W) }
	byLength := func(a, b *layout.Size) int { return cmp.Compare(b.L, a.L) }
	return &Demand{index: map[layout.Size]int32{}, orders: [2]order{
		{by: func(a, b *layout.Size) int { return cmp.Or(byWidth(a, b), byLength(a, b)) }},
		longestFirst: {by: func(a, b *layout.Size) int { return cmp.Or(byLength(a, b), byWidth(a, b)) }},
	}}
}

// Number is the number of a size, a new one if it has none.
func (d *Demand) Number(s layout.Size) int32 {
	i, ok := d.index[s]
	if !ok {
		i = int32(len(d.sizes))
		d.index[s] = i
		d.sizes, d.n = append(d.sizes, s), append(d.n, 0)
	}
	return i
}

// Add asks for n pieces more of a size, or for fewer where n is negative.
func (d *Demand) Add(size int32, n int) {
	was := d.n[size]
	d.n[size] += n
	d.pieces += n
	d.state += uint64(n) * Hash(size)
	if (was == 0) == (d.n[size] == 0) {
		return
	}
	for k := range d.orders {
		o := &d.orders[k]
		o.stale = true
		if int(size) < len(o.ranks) {
			r := o.ranks[size]
			o.asked[r/64] ^= 1 << (r % 64)
		}
	}
}

// Asked gives the sizes that are asked for with their numbers, widest first.
func (d *Demand) Asked() iter.Seq2[int32, layout.Size] {
	return func(yield func(int32, layout.Size) bool) {
		for _, i := range d.inOrder(0) {
			if !yield(i, d.sizes[i]) {
				return
			}
		}
	}
}

// Of is how many pieces of a size are asked for.
func (d *Demand) Of(size int32) int { return d.n[size] }

// State is a hash of what is asked for: a sum of Hash over the pieces, so that whoever knows what he would add can tell the
// state that this leads to. Two demands that differ share a state about once in 2^64 pairs.
func (d *Demand) State() uint64 { return d.state }

// Hash spreads the number of a size over all bits.
func Hash(size int32) uint64 { return Mix(uint64(size)) }

// Mix spreads a number over all bits (the finaliser of splitmix64: Steele, Lea, Flood 2014), so that sums of mixed numbers
// stand for sets of them.
func Mix(x uint64) uint64 {
	x += 0x9e3779b97f4a7c15
	x = (x ^ x>>30) * 0xbf58476d1ce4e5b9
	x = (x ^ x>>27) * 0x94d049bb133111eb
	return x ^ x>>31
}

// inOrder are the sizes asked for in an order of work.
func (d *Demand) inOrder(k int) []int32 {
	o := &d.orders[k]
	if len(o.ranks) != len(d.sizes) {
		d.sort(o)
	}
	if !o.stale {
		return o.list
	}
	o.list, o.stale = o.list[:0], false
	for w, word := range o.asked {
		for ; word != 0; word &= word - 1 {
			o.list = append(o.list, o.sizes[w*64+bits.TrailingZeros64(word)])
		}
	}
	return o.list
}

// sort ranks all sizes that are known. Pieces with tapered edges, and such that may not be turned, come first among equals.
func (d *Demand) sort(o *order) {
	for i := len(o.sizes); i < len(d.sizes); i++ {
		o.sizes = append(o.sizes, int32(i))
	}
	slices.SortFunc(o.sizes, func(a, b int32) int {
		x, y := &d.sizes[a], &d.sizes[b]
		if c := o.by(x, y); c != 0 {
			return c
		}
		if c := cmp.Compare(y.Tapers, x.Tapers); c != 0 || x.Turn == y.Turn {
			return cmp.Or(c, cmp.Compare(a, b))
		}
		if y.Turn {
			return -1
		}
		return 1
	})
	o.ranks = append(o.ranks, make([]int32, len(d.sizes)-len(o.ranks))...)
	o.asked = make([]uint64, (len(d.sizes)+63)/64)
	for r, i := range o.sizes {
		o.ranks[i] = int32(r)
		if d.n[i] != 0 {
			o.asked[r/64] |= 1 << (r % 64)
		}
	}
	o.stale = true
}

// order is the order in which a way of cutting takes the sizes.
func (d *Demand) order(way int) []int32 {
	if way&byLength != 0 {
		return d.inOrder(longestFirst)
	}
	return d.inOrder(0)
}
