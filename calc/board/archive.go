package board

import (
	"slices"

	"seamwright/calc/survey"
)

// archive keeps, of all the complete layouts of a group that the search meets, whichever measure it goes by at the time,
// the best by every measure, and the second best: packs, which come whole, may turn the bill between the two. None of the
// best is worse in everything than another. It is all that the search leaves behind.
type archive struct {
	weighings [len(measures)]weighing
	best      [len(measures)][ranks]standing
}

// ranks is how many layouts are kept by one measure.
const ranks = 2

// standing is one of the best layouts by one measure so far.
type standing struct {
	value value
	found *picked
}

// picked is a layout as the search has it: the scheme of every zone and the choices of its rows.
type picked struct {
	quantities quantities
	zones      []*zoneState
	schemes    []int
	picks      [][]int
}

// offer hands a complete layout to the archive.
func (a *archive) offer(q quantities, zones []*zoneState) {
	var p *picked
	for m := range a.best {
		v := a.weighings[m].value(q)
		at := 0
		for at < ranks && a.best[m][at].found != nil && v.compare(a.best[m][at].value) > 0 {
			at++
		}
		if at == ranks || a.best[m][at].found != nil && v == a.best[m][at].value {
			continue // no better, or no different
		}
		if p == nil {
			p = &picked{quantities: q, zones: slices.Clone(zones)}
			for _, z := range zones {
				p.schemes, p.picks = append(p.schemes, z.cur), append(p.picks, slices.Clone(z.pick))
			}
		}
		copy(a.best[m][at+1:], a.best[m][at:])
		a.best[m][at] = standing{v, p}
	}
}

// layouts settles what the archive holds, for the zones of a group in their order: the layouts, and which of them is best
// by each measure, and second. Where there is but one, it stands for both.
func (a *archive) layouts(group []*survey.Zone) (all []groupPlan, best [len(measures)][ranks]int) {
	at := map[*picked]int{}
	for m := range a.best {
		for r := range a.best[m] {
			p := a.best[m][r].found
			if p == nil {
				best[m][r] = best[m][r-1]
				continue
			}
			n, known := at[p]
			if !known {
				n = len(all)
				at[p] = n
				all = append(all, p.settle(group))
			}
			best[m][r] = n
		}
	}
	return all, best
}

// settle makes the layout that was picked; zones left open stay empty.
func (p *picked) settle(group []*survey.Zone) groupPlan {
	g := groupPlan{zones: make([]settled, len(group)), quantities: p.quantities}
	for k, z := range p.zones {
		as := *z
		as.cur, as.pick = p.schemes[k], p.picks[k]
		g.zones[slices.Index(group, z.zone)] = settle(&as)
	}
	return g
}
