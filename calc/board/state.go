package board

import (
	"seamwright/calc/board/tally"
	"seamwright/calc/job"
	"seamwright/calc/layout"
	"seamwright/calc/length"
	"seamwright/calc/survey"
)

// zoneState is one zone in the search: the schemes it may take, and for the current one the choice of every row.
type zoneState struct {
	id      int // among all that the search has prepared
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
	rows  [][]choice
	least []int64 // what the rows weigh at the least, under every pair; nil where that has not been asked
}

// choice is a layout.Choice with its pieces counted by size.
type choice struct {
	layout.Choice
	wants []int32 // number of the size of each piece, in the demand for the product
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
	onHand  []job.Stock
	counter *tally.Counter
	demand  *tally.Demand
	scales  *scales
	weights map[layout.Size][]int64 // of sizes, under every pair
	tally   tally.Count
	bound   int
	fitted  bool // scales made for the case have been tried
	stale   bool
	known   [2]map[uint64]tally.Count // counts by the state of the demand: by cost, by sheets
}

// count tallies what is asked for, up to a limit, or takes the count from what is known.
func (p *productState) count(bySheets bool, limit int64) tally.Count {
	known := p.known[0]
	if bySheets {
		known = p.known[1]
	}
	t, ok := known[p.demand.State()]
	if ok && t.Over && limit > t.Limit {
		ok = false // it was counted no further than a lower limit
	}
	if !ok {
		t = p.counter.Count(p.demand, bySheets, p.bound, limit)
		known[p.demand.State()] = t
		return t
	}
	t.Over = t.Over || t.OK && t.Measure(bySheets) > limit
	return t
}

// forget drops what is known of the present picks, so that they are counted again.
func (p *productState) forget() {
	p.stale = true
	delete(p.known[0], p.demand.State())
	delete(p.known[1], p.demand.State())
}

// add counts the pieces of a choice in or, with n -1, out.
func (p *productState) add(c *choice, n int) {
	for _, w := range c.wants {
		p.demand.Add(w, n)
	}
	p.stale = true
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
