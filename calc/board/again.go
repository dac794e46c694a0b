package board

import (
	"slices"

	"seamwright/calc/layout"
)

// againTurns is how often the waves of a group are searched once more.
const againTurns = 2

// again searches the waves of a group once more, each with the others as they stand, while some product takes more sheets
// than its bound. The first waves were settled without a thought of those after them; now either side keeps clear of the
// other. What does not make the layout better is dropped.
func (s *solver) again(search *search, waves [][]int, m int) error {
	if !search.deep || search.by.order != fewestSheets || len(waves) < 2 {
		return nil
	}
	layers := false
	for _, i := range slices.Concat(waves...) {
		layers = layers || s.zones[i].Layer > 1
		if across, between := s.settled[m][i].scheme.Controls(); len(across)+len(between) > 0 {
			return nil // they go through all layers, which only the order of the waves sees to
		}
	}
	if !layers {
		return nil // the other face of a partition asks for little
	}
	search.brief = true
	defer func() { search.brief = false }()
	for range againTurns {
		better := false
		for n, wave := range waves {
			if n == len(waves)-1 && !better {
				break // it has been searched with all others as they stand
			}
			if !slices.ContainsFunc(search.products, func(p *productState) bool { return p.tally.ok && p.tally.sheets > p.bound }) {
				return nil
			}
			found, err := s.rework(search, waves, wave, m)
			if err != nil {
				return err
			}
			better = found || better
		}
		if !better {
			return nil
		}
	}
	return nil
}

// rework searches one wave with all others as they stand, and tells whether that has made the layout better.
func (s *solver) rework(search *search, waves [][]int, wave []int, m int) (better bool, err error) {
	before := search.evaluate()
	was := search.zones
	var fixed, old []*zoneState
	n := 0
	for _, w := range waves {
		for _, i := range w {
			if slices.Contains(wave, i) {
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
	for _, i := range wave {
		avoid := s.around(waves, i, m)
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
	best, err := search.improve()
	if err != nil {
		return false, err
	}
	if search.small() {
		best = search.exhaust(best)
	}
	search.attain(best)
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
		for k, i := range wave {
			s.settled[m][i] = settle(found[k])
		}
	}
	search.zones = search.zones[:0:0]
	search.fixed = len(was)
	for _, w := range waves {
		for _, i := range w {
			from := &fixed
			if slices.Contains(wave, i) {
				from = &found
			}
			search.zones = append(search.zones, (*from)[0])
			*from = (*from)[1:]
		}
	}
	return better, nil
}

// around are the joints that zone i must keep clear of and, in its group, those that must keep clear of it, in the layout
// by one measure.
func (s *solver) around(waves [][]int, i, m int) []layout.Line {
	z := s.zones[i]
	lines := s.lines(i, m)
	for _, k := range slices.Concat(waves...) {
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
