package board

import (
	"cmp"

	"seamwright/calc/job"
	"seamwright/calc/layout"
	"seamwright/calc/length"
	"seamwright/calc/survey"
)

// zoneState is one zone in the search: the schemes it may take, and for the current one the choice of every row.
type zoneState struct {
	zone    *survey.Zone
	product int // index into search.products
	schemes []*schemeState
	all     []*layout.Scheme // every scheme, those that the search leaves aside too
	cur     int
	pick    []int
}

// schemeState is one scheme with the choices of its rows and what does not depend on them.
type schemeState struct {
	*layout.Scheme
	rows   [][]choice
	start  []int // a good first pick for every row
	whole  bool  // every row lists all its choices
	breaks int
	long   jointLengths // of the long joints
	stag   length.Length
}

// choice is a layout.Choice with its pieces counted by size.
type choice struct {
	layout.Choice
	wants []int32 // index of the size of each piece, in search.sizes of the product
}

// jointLengths are lengths of joint by the way they are finished; plain are the end joints of wood panels, which are
// not finished but seen.
type jointLengths struct{ butt, mixed, tapered, plain length.Length }

// rough is what the aim of fewest butt joints makes least: mixed joints count like butt joints, and plain ones decide
// between equals.
func (j *jointLengths) rough() int64 { return int64(j.butt+j.mixed) + int64(j.plain)/1024 }

// productState is one product in the search: the sizes that any choice asks for, and how often they are asked for now.
type productState struct {
	product *job.Product
	quick   *quick
	scales  *scales
	wants   []want
	index   map[layout.Size]int32
	tally   tally
	bound   int
	stale   bool
	// state is a hash of what is asked for, a sum over pieces, and known the tallies by it.
	state uint64
	known [2]map[uint64]tally // by cost, by sheets
}

func (p *productState) sizeIndex(s layout.Size) int32 {
	i, ok := p.index[s]
	if !ok {
		i = int32(len(p.wants))
		p.index[s] = i
		p.wants = append(p.wants, want{size: s})
	}
	return i
}

// value is what a layout is judged by, smaller first; breaks of rules come before everything.
type value struct {
	breaks int
	by     [3]int64
}

func (v value) compare(o value) int {
	return cmp.Or(cmp.Compare(v.breaks, o.breaks), cmp.Compare(v.by[0], o.by[0]), cmp.Compare(v.by[1], o.by[1]), cmp.Compare(v.by[2], o.by[2]))
}

// add counts the pieces of a choice in or, with n -1, out.
func (p *productState) add(c *choice, n int) {
	for _, w := range c.wants {
		p.wants[w].n += n
		p.state += uint64(n) * scramble(uint64(w))
	}
	p.stale = true
}

// scramble spreads a small number over all bits (the finaliser of splitmix64: Steele, Lea, Flood 2014), so that sums
// of scrambled numbers stand for sets of them. Two sets that differ share a sum about once in 2^64 pairs.
func scramble(x uint64) uint64 {
	x += 0x9e3779b97f4a7c15
	x = (x ^ x>>30) * 0xbf58476d1ce4e5b9
	x = (x ^ x>>27) * 0x94d049bb133111eb
	return x ^ x>>31
}

// clashes counts the pairs of adjoining rows whose end joints do not keep the stagger, for one row under one choice.
func (z *zoneState) clashes(sc *schemeState, row, pick int) int {
	n := 0
	c := &sc.rows[row][pick]
	for _, k := range sc.Near[row] {
		if len(sc.rows[k]) > 0 && layout.Clash(c.Seams, sc.rows[k][z.pick[k]].Seams, sc.stag) {
			n++
		}
	}
	return n
}

// allClashes counts every clashing pair of a zone once.
func (z *zoneState) allClashes() int {
	sc := z.schemes[z.cur]
	n := 0
	for row := range sc.rows {
		if len(sc.rows[row]) > 0 {
			n += z.clashes(sc, row, z.pick[row])
		}
	}
	return n / 2
}
