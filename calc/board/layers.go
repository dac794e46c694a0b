package board

import (
	"slices"

	"seamwright/calc/layout"
)

// layerTurns is how often the tiers of a group are searched once more.
const layerTurns = 2

// searchLayersAgain searches the tiers of a group once more, each with the others as they stand, while some product takes more sheets
// than its bound. The first tiers were settled without a thought of those after them; now either side keeps clear of the
// other. What does not make the layout better is dropped.
func (s *solver) searchLayersAgain(search *search, tiers [][]int, m int) {
	if !search.deep || search.by.order != fewestSheets || len(tiers) < 2 {
		return
	}
	layers := false
	for _, i := range slices.Concat(tiers...) {
		layers = layers || s.zones[i].Layer > 1
		if across, between := s.settled[m][i].scheme.Controls(); len(across)+len(between) > 0 {
			return // they go through all layers, which only the order of the tiers sees to
		}
	}
	if !layers {
		return // the other face of a partition asks for little
	}
	search.brief = true
	defer func() { search.brief = false }()
	for range layerTurns {
		better := false
		for n, tier := range tiers {
			if n == len(tiers)-1 && !better {
				break // it has been searched with all others as they stand
			}
			if !slices.ContainsFunc(search.products, func(p *productState) bool { return p.tally.OK && p.tally.Sheets > p.bound }) {
				return
			}
			better = s.searchLayer(search, tiers, tier, m) || better
		}
		if !better {
			return
		}
	}
}

// searchLayer searches one tier with all others as they stand, and tells whether that has made the layout better.
func (s *solver) searchLayer(search *search, tiers [][]int, tier []int, m int) (better bool) {
	before := search.evaluate()
	was := search.zones
	var fixed, old []*zoneState
	n := 0
	for _, w := range tiers {
		for _, i := range w {
			if slices.Contains(tier, i) {
				old = append(old, was[n])
			} else {
				fixed = append(fixed, was[n])
			}
			n++
		}
	}
	for _, z := range old {
		search.enter(z, -1)
	}
	search.zones, search.fixed = slices.Clone(fixed), len(fixed)
	for _, i := range tier {
		avoid := s.around(tiers, i, m)
		l := s.listing(search, i, s.listingKey(i, avoid), avoid)
		// What is prepared stays as it stands, for the measures that follow: whether the memo has given the very same listing once
		// more must make no difference.
		of := preparedKey{s.zones[i], l}
		stands := search.prepared[of]
		delete(search.prepared, of)
		z := search.prepare(s.zones[i], l)
		delete(search.prepared, of)
		if stands != nil {
			search.prepared[of] = stands
		}
		search.zones = append(search.zones, z)
		search.enter(z, 1)
	}
	best := search.begin()
	search.share(oneHalf, func() { best = search.polish(best, nil) })
	if search.small() {
		search.share(oneHalf, func() { best = search.exhaust(best) })
	}
	search.fewerSheets(best)
	found := search.zones[search.fixed:]
	if better = search.evaluate().compare(before) < 0; !better {
		for _, z := range found {
			search.enter(z, -1)
		}
		for _, z := range old {
			search.enter(z, 1)
		}
		found = old
	} else {
		for k, i := range tier {
			s.settled[m][i] = settle(found[k])
		}
	}
	search.zones = search.zones[:0:0]
	search.fixed = len(was)
	for _, w := range tiers {
		for _, i := range w {
			from := &fixed
			if slices.Contains(tier, i) {
				from = &found
			}
			search.zones = append(search.zones, (*from)[0])
			*from = (*from)[1:]
		}
	}
	return better
}

// around are the joints that zone i must keep clear of and, in its group, those that must keep clear of it, in the layout
// by one measure.
func (s *solver) around(tiers [][]int, i, m int) []layout.Line {
	z := s.zones[i]
	lines := s.lines(i, m)
	for _, k := range slices.Concat(tiers...) {
		if !slices.Contains(s.before(k), i) {
			continue
		}
		st := &s.settled[m][k]
		for _, l := range st.lines() {
			if l, ok := cleared(z, s.zones[k], l); ok {
				l.Control = false
				lines = append(lines, l)
			}
		}
	}
	return lines
}
