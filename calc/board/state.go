package board

import (
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
	charged jointCharges
	starts  [starts]int // places in schemes where a search may begin
	cur     int
	pick    []int
}

// schemeState is a listed scheme with the pieces of its choices counted by size.
type schemeState struct {
	*listed
	rows [][]choice
}

// choice is a layout.Choice with its pieces counted by size.
type choice struct {
	layout.Choice
	wants []int32 // index of the size of each piece, in the wants of the product
}

// jointLengths are lengths of joint by the way they are finished; plain are the end joints of wood panels, which are
// not finished but seen.
type jointLengths struct{ butt, mixed, tapered, plain, shun length.Length }

// rough is what the aim of fewest butt joints makes least: mixed joints count like butt joints, and plain ones decide
// between equals.
func (j *jointLengths) rough() int64 { return int64(j.butt+j.mixed) + int64(j.plain)/1024 }

// productState is one product in the search: the sizes that any choice asks for, and how often they are asked for now.
type productState struct {
	product *job.Product
	quick   *quick
	scales  *scales
	weights map[layout.Size][]int64 // of sizes, under every pair
	wants   []want
	index   map[layout.Size]int32
	tally   tally
	bound   int
	fitted  bool // scales made for the case have been tried
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

// count tallies what is asked for, up to a limit, or takes the tally from what is known; counted: it had to.
func (p *productState) count(bySheets bool, limit int64) (t tally, counted bool) {
	known := p.known[0]
	if bySheets {
		known = p.known[1]
	}
	t, ok := known[p.state]
	if ok && t.over && limit > t.limit {
		ok = false // it was counted no further than a lower limit
	}
	if !ok {
		t = p.quick.tally(p.wants, bySheets, p.bound, limit)
		known[p.state] = t
		return t, true
	}
	t.over = t.over || t.ok && t.measure(bySheets) > limit
	return t, false
}

// forget drops what is known of the present picks, so that they are counted again.
func (p *productState) forget() {
	p.stale = true
	delete(p.known[0], p.state)
	delete(p.known[1], p.state)
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

// picked is the choice picked for a row under the current scheme, nil where no sheet for sale can cover it.
func (z *zoneState) picked(row int) *layout.Choice {
	if sc := z.schemes[z.cur]; len(sc.rows[row]) > 0 {
		return &sc.rows[row][z.pick[row]].Choice
	}
	return nil
}

// clashes weighs the pairs of adjoining rows whose end joints do not keep the stagger, for one row under one choice.
func (z *zoneState) clashes(sc *schemeState, row, pick int) int {
	n := 0
	c := &sc.rows[row][pick]
	for _, k := range sc.Near[row] {
		if len(sc.rows[k]) > 0 {
			n += layout.ClashWeight(c.Seams, sc.rows[k][z.pick[k]].Seams, sc.stag)
		}
	}
	return n
}

// allClashes weighs every clashing pair of a zone once.
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
