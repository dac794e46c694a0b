package board

import (
	"fmt"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/layout"
	"seamwright/calc/length"
	"seamwright/calc/survey"
)

// aims in the order in which a group is solved for all of them.
var aims = [...]job.Aim{job.AimCost, job.AimSheets, job.AimJoints}

// groupPlans are the layouts of one group of zones, one for each aim.
type groupPlans struct {
	plans [len(aims)]groupPlan
	needs []*need // of each zone; nil where it is left open
}

// groupPlan is one layout of a group, parallel to its zones, and what the search counted for it.
type groupPlan struct {
	zones  []settled
	sheets int
	butt   length.Length
	rough  int64
	cost   int64
	value  value
}

// exchange gives every aim the best of the layouts in its own measure: a search for one aim may stumble on what serves
// another better.
func (g *groupPlans) exchange() {
	found := g.plans
	for a := range aims {
		for k := range found {
			in := found[k]
			in.value = valued(aims[a], in.value.breaks, in.sheets, in.cost, in.rough)
			if in.value.compare(g.plans[a].value) < 0 {
				g.plans[a] = in
			}
		}
	}
}

// settled is a zone whose layout has been decided. It is never changed afterwards, so plans and memo share it.
type settled struct {
	scheme  *layout.Scheme
	choices []*layout.Choice
	panels  []layout.Panel
	clashes []layout.Break
}

// groupSize is how many surfaces are solved together. Rooms are joined up to this many, and a larger room is a group
// of its own, so that an edit changes only the group that it lies in.
const groupSize = 12

// fewSurfaces is the size of a building up to which groups take several rooms; in a larger one every room is a group,
// since there the pass over leftovers finds what rooms can share.
const fewSurfaces = 24

// groups are lists of zones, by whole rooms.
func (s *solver) groups() [][]int {
	var groups [][]int
	var cur []int
	surfaces, zone := 0, 0
	size := groupSize
	if len(s.building.Surfaces) > fewSurfaces {
		size = 1
	}
	for i := 0; i < len(s.building.Surfaces); {
		room := s.building.Surfaces[i].Room
		n, zs := 0, []int(nil)
		for ; i < len(s.building.Surfaces) && s.building.Surfaces[i].Room == room; i++ {
			n++
			for range s.building.Surfaces[i].Zones {
				zs = append(zs, zone)
				zone++
			}
		}
		if surfaces > 0 && surfaces+n > size {
			groups, cur, surfaces = append(groups, cur), nil, 0
		}
		cur, surfaces = append(cur, zs...), surfaces+n
	}
	if len(cur) > 0 {
		groups = append(groups, cur)
	}
	return groups
}

// solveGroup finds the layouts of a group for every aim, or takes them from the memo. Layouts of earlier groups are
// settled already; where joints must keep clear of theirs, these are part of what the memo goes by.
func (s *solver) solveGroup(group []int) (*groupPlans, error) {
	w := newWriter()
	w.frame(s.job)
	for k, i := range group {
		if s.zones[i].Product == nil {
			w.int(-1)
			continue
		}
		w.zone(s.zones[i])
		for _, b := range s.before(i) {
			w.int(int64(slices.Index(group, b)))
		}
		w.int(int64(k))
		if s.outside(i, group) {
			for a := range aims {
				w.lines(s.lines(i, a))
			}
		}
	}
	k := w.sum()
	if g := s.memo.group(k); g != nil {
		return g, nil
	}
	g := &groupPlans{}
	search := newSearch(s.ctx, s.job, s.job.Stock)
	for _, i := range group {
		var n *need
		if z := s.zones[i]; z.Product != nil {
			var all []*layout.Scheme
			if len(s.before(i)) == 0 {
				all = search.prepare(z, nil).all
			}
			n = search.needOf(z, all)
		}
		g.needs = append(g.needs, n)
	}
	for k, p := range search.products {
		p.bound = boundOf(p.product, &s.job.Rules, of(g.needs, k), s.job.Stock)
	}
	for a := range aims {
		search.restart(aims[a])
		if err := s.solveFor(search, group, a); err != nil {
			return nil, err
		}
		p := &g.plans[a]
		for _, i := range group {
			p.zones = append(p.zones, s.settled[a][i])
		}
		p.value = search.evaluate()
		p.sheets, p.cost = search.totals()
		p.butt, p.rough = search.joints.butt, search.joints.rough()
	}
	if !slices.ContainsFunc(group, func(i int) bool { return s.outside(i, group) }) {
		g.exchange()
	}
	s.memo.keepGroup(k, g)
	return g, nil
}

// outside tells whether a zone must keep clear of joints in another group.
func (s *solver) outside(i int, group []int) bool {
	return slices.ContainsFunc(s.before(i), func(k int) bool { return !slices.Contains(group, k) })
}

// solveFor decides a group's layout for one aim, in waves: zones whose joints must keep clear of those of others come
// after them.
func (s *solver) solveFor(search *search, group []int, aim int) error {
	left := slices.DeleteFunc(slices.Clone(group), func(i int) bool { return s.zones[i].Product == nil })
	for len(left) > 0 {
		var wave, rest []int
		for _, i := range left {
			if slices.ContainsFunc(s.before(i), func(k int) bool { return slices.Contains(left, k) }) {
				rest = append(rest, i)
			} else {
				wave = append(wave, i)
			}
		}
		for _, i := range wave {
			z := search.prepare(s.zones[i], s.lines(i, aim))
			search.zones = append(search.zones, z)
			search.enter(z, 1)
		}
		best, err := search.improve()
		if err != nil {
			return err
		}
		search.exhaust(best)
		for k, i := range wave {
			s.settled[aim][i] = settle(search.zones[search.fixed+k])
		}
		search.fixed = len(search.zones)
		left = rest
	}
	return s.ctx.Err()
}

// before are the zones whose joints zone i must keep clear of: the layer below, and the base layer on the other face
// of the partition where that surface comes first.
func (s *solver) before(i int) []int {
	z := s.zones[i]
	var ks []int
	for _, k := range s.ofSurface[z.Surface] {
		if o := s.zones[k]; keepsClear(z, o) {
			ks = append(ks, k)
		}
	}
	if z.Surface.Back != nil && z.Layer == 1 {
		for _, k := range s.ofSurface[z.Surface.Back] {
			if o := s.zones[k]; k < i && keepsClear(z, o) {
				ks = append(ks, k)
			}
		}
	}
	return ks
}

// keepsClear tells whether the joints of a zone must keep clear of those of another: of the layer below, or of the base
// layer on the other face of the partition.
func keepsClear(z, o *survey.Zone) bool {
	switch {
	case o.Product == nil:
		return false
	case o.Surface == z.Surface:
		return o.Index == z.Index && o.Layer == z.Layer-1
	default:
		return o.Surface == z.Surface.Back && z.Layer == 1 && o.Layer == 1
	}
}

// Clearances of parallel joints. Between layers: one member space along the members, else 16 in (GA-216-2024
// s. 4.6.8; distance as the rule book gives it). Joints on two faces nearer than a member's width share a stud.
const (
	layerClear = 16 * length.Inch
	studShare  = length.Inch
)

// lines are the joints that zone i must keep clear of, in the layout for one aim.
func (s *solver) lines(i, aim int) []layout.Line {
	z := s.zones[i]
	var lines []layout.Line
	for _, k := range s.before(i) {
		st := &s.settled[aim][k]
		if st.scheme == nil {
			continue
		}
		for _, l := range st.lines() {
			if l, ok := cleared(z, s.zones[k], st.scheme.Spacing(), l); ok {
				lines = append(lines, l)
			}
		}
	}
	return lines
}

// cleared is a joint of another zone as a line that zone z must keep clear of; not ok where it need not.
func cleared(z, o *survey.Zone, spacing length.Length, l layout.Line) (_ layout.Line, ok bool) {
	if o.Surface == z.Surface {
		l.Clear, l.Rule = layerClear, layout.RuleLayers
		if l.Upright == (z.Surface.Members.Axis != "y") {
			l.Clear = spacing
		}
		return l, true
	}
	l.Clear, l.Rule = max(studShare, z.Surface.Members.Width), layout.RuleOpposite
	l.At = across(z.Surface, o.Surface, l.At)
	return l, l.Upright
}

// across carries an x of one wall over to the facing wall.
func across(to, from *survey.Surface, x length.Length) length.Length {
	var sum float64
	for k := range 3 {
		p := float64(from.Frame.Origin[k]) + float64(x)*from.Frame.X[k]
		sum += (p - float64(to.Frame.Origin[k])) * to.Frame.X[k]
	}
	return length.Length(sum)
}

// lines are a settled zone's joints as lines on its surface, each once.
func (st *settled) lines() []layout.Line {
	var lines []layout.Line
	seen := map[layout.Line]bool{}
	add := func(l layout.Line) {
		if !seen[l] {
			seen[l] = true
			lines = append(lines, l)
		}
	}
	for k := 1; k < len(st.scheme.Bands); k++ {
		add(layout.Line{Upright: st.scheme.Swap, At: st.scheme.Bands[k].V0})
	}
	for _, c := range st.choices {
		for _, u := range c.Seams {
			add(layout.Line{Upright: !st.scheme.Swap, At: u})
		}
	}
	return lines
}

// settle keeps the picks of a zone.
func settle(z *zoneState) settled {
	sc := z.schemes[z.cur]
	st := settled{scheme: sc.Scheme}
	for r := range sc.rows {
		if len(sc.rows[r]) == 0 {
			continue
		}
		st.choices = append(st.choices, &sc.rows[r][z.pick[r]].Choice)
		if n := z.clashes(sc, r, z.pick[r]); n > 0 {
			sp := sc.Rows[r].Spans[0]
			st.clashes = append(st.clashes, layout.Break{Rule: layout.RuleStagger, At: sc.At((sp.U0+sp.U1)/2, sp.V0),
				Message: fmt.Sprintf("course %d: the least piece, the members and the sheets for sale leave no end joints that keep the stagger: the rules stagger, least piece and bearing contradict each other", sp.Band+1)})
		}
	}
	st.panels = sc.Panels(st.choices)
	return st
}
