package board

import (
	"slices"

	"seamwright/calc/survey"
)

// archive keeps, of all the complete layouts of a group that the search meets, whichever measure it goes by at the time,
// the best by every measure: none of them is worse in everything than another. It is all that the search leaves behind.
type archive struct {
	weighings [len(measures)]weighing
	best      [len(measures)]standing
}

// standing is the best layout by one measure so far.
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
		if a.best[m].found != nil && v.compare(a.best[m].value) >= 0 {
			continue
		}
		if p == nil {
			p = &picked{quantities: q, zones: slices.Clone(zones)}
			for _, z := range zones {
				p.schemes, p.picks = append(p.schemes, z.cur), append(p.picks, slices.Clone(z.pick))
			}
		}
		a.best[m] = standing{v, p}
	}
}

// layouts settles what the archive holds, for the zones of a group in their order: the layouts, and which of them is best
// by each measure.
func (a *archive) layouts(group []*survey.Zone) (all []groupPlan, best [len(measures)]int) {
	at := map[*picked]int{}
	for m := range a.best {
		p := a.best[m].found
		n, known := at[p]
		if !known {
			n = len(all)
			at[p] = n
			all = append(all, p.settle(group))
		}
		best[m] = n
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
