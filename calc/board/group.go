package board

import (
	"slices"

	"seamwright/calc/guard"
	"seamwright/calc/layout"
	"seamwright/calc/length"
	"seamwright/calc/memo"
	"seamwright/calc/survey"
)

// groupPlans are the layouts of one group of zones that are best by some measure.
type groupPlans struct {
	key     memo.Key
	layouts []groupPlan
	best    [len(measures)][ranks]int // places among the layouts of the best by each measure, and of the second best
	needs   []*need                   // of each zone; nil where it is left open
	alone   []int                     // of each zone: the sheets that it needs by itself
	bound   []int                     // of each product: the least that the group needs by itself
}

// groupPlan is one layout of a group, parallel to its zones, and what the search counted for it.
type groupPlan struct {
	zones      []settled
	quantities quantities
}

// settled is a zone whose layout has been decided. It is never changed afterwards, so plans and memo share it.
type settled struct {
	scheme  *layout.Scheme
	seams   []length.Length // u of its end joints, row by row
	panels  []layout.Panel
	clashes []layout.Break
}

// groupSize is how many surfaces are solved together. Rooms are joined up to this many, and a larger room is a group
// of its own, so that an edit changes only the group that it lies in.
const groupSize = 12

// fewSurfaces is the size of a building up to which groups take several rooms; in a larger one every room is a group,
// since there the pass over leftovers finds what rooms can share.
const fewSurfaces = 24

// deep tells whether rooms are searched for fewer sheets too: with full effort, in a building of few surfaces.
func (s *solver) deep() bool { return s.effort == Full && len(s.building.Surfaces) <= fewSurfaces }

// budget is the work that the answer may take.
func (s *solver) budget() *budget { return s.effort.budget(s.deep()) }

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

// writeKeys hashes all that each zone's layout depends on, or takes the keys of a room from the memo.
func (s *solver) writeKeys() {
	var w writer
	w.frame(s.job, s.book, s.sheet)
	frame := w.Key()
	for i := range s.building.Rooms {
		r := &s.building.Rooms[i]
		w.Text("zones")
		w.Add(r.Key)
		s.keys = append(s.keys, memo.Do(s.memo.Results, w.Key(), func() []memo.Key { return keysOf(r, frame) })...)
	}
}

// keysOf are the keys of a room's zones; those of zones left open stay empty.
func keysOf(r *survey.Room, frame memo.Key) (keys []memo.Key) {
	var w writer
	for _, sf := range r.Surfaces {
		for _, z := range sf.Zones {
			k := memo.Key{}
			if z.Product != nil {
				w.Add(frame)
				w.zone(z)
				k = w.Key()
			}
			keys = append(keys, k)
		}
	}
	return keys
}

// solveGroups solves all groups, each as soon as those before it are solved whose joints it must keep clear of.
func (s *solver) solveGroups() ([]*groupPlans, error) {
	plans, errs := make([]*groupPlans, len(s.byGroup)), make([]error, len(s.byGroup))
	solved := make([]chan struct{}, len(s.byGroup))
	groupOf := make([]int, len(s.zones))
	for g, group := range s.byGroup {
		solved[g] = make(chan struct{})
		for _, i := range group {
			groupOf[i] = g
		}
	}
	guard.Each(len(s.byGroup), func(g int) {
		defer close(solved[g])
		for _, i := range s.byGroup[g] {
			for _, b := range s.before(i) {
				if groupOf[b] != g {
					<-solved[groupOf[b]]
				}
			}
		}
		if plans[g], errs[g] = s.solveGroup(s.byGroup[g]); errs[g] != nil {
			return
		}
		for n, i := range s.byGroup[g] {
			s.needs[i], s.bounds[i] = plans[g].needs[n], plans[g].alone[n]
			for m := range measures {
				s.settled[m][i] = plans[g].layouts[plans[g].best[m][0]].zones[n]
			}
		}
	})
	for _, err := range errs {
		if err != nil {
			return nil, err
		}
	}
	return plans, nil
}

// solveGroup finds the layouts of a group, or takes them from the memo. Layouts of earlier groups are
// settled already; where joints must keep clear of theirs, these are part of what the memo goes by.
func (s *solver) solveGroup(group []int) (*groupPlans, error) {
	var w writer
	w.Text("group")
	w.Int(int64(s.effort))
	if s.effort == Prompt {
		w.Int(int64(s.own)) // it is gone by first, and longest
	}
	w.Bool(s.deep())
	for _, i := range group {
		w.Add(s.keys[i])
		for _, b := range s.before(i) {
			w.Int(int64(slices.Index(group, b)))
			if z, o := s.zones[i], s.zones[b]; o.Surface != z.Surface {
				w.facing(z.Surface, o.Surface)
			}
		}
		w.Int(-2)
		if s.outside(i, group) {
			for m := range measures {
				w.lines(s.lines(i, m))
			}
		}
	}
	k := w.Key()
	return memo.Try(s.memo.Results, k, func() (*groupPlans, error) { return s.searchGroup(group, k) })
}

// searchGroup finds the layouts of a group.
func (s *solver) searchGroup(group []int, k memo.Key) (*groupPlans, error) {
	g := &groupPlans{key: k, needs: make([]*need, len(group)), alone: make([]int, len(group))}
	search := newSearch(s.ctx, s.budget(), s.job, s.job.Stock, s.book, s.sheet)
	search.deep, search.ways = s.deep(), make([]zoneWays, len(group))
	lists := make([]*listing, len(group))
	guard.Each(len(group), func(k int) {
		switch z := s.zones[group[k]]; {
		case z.Product == nil || s.ctx.Err() != nil:
			return
		case len(s.before(group[k])) == 0:
			lists[k] = s.listing(search, group[k], s.listingKey(group[k], nil), nil)
			g.needs[k] = lists[k].need
			if search.deep {
				search.ways[k] = zoneWays{z, lists[k].need, lists[k].all}
				if !layout.Complete(lists[k].all) {
					search.ways[k] = search.waysOf(z)
				}
			}
		case search.deep:
			search.ways[k] = search.waysOf(z)
		default:
			g.needs[k] = search.needOf(z, nil)
		}
		if search.deep {
			g.needs[k] = search.ways[k].need
		}
		if g.needs[k] != nil {
			g.alone[k] = boundOf(s.zones[group[k]].Product, &s.job.Rules, g.needs[k:k+1], s.job.Stock)
		}
	})
	if err := s.ctx.Err(); err != nil {
		return nil, err
	}
	for k, p := range search.products {
		p.bound = boundOf(p.product, &s.job.Rules, of(g.needs, k), s.job.Stock)
	}
	zones := make([]*survey.Zone, len(group))
	for n, i := range group {
		zones[n] = s.zones[i]
	}
	search.until = s.budget().of(len(group))
	sets := s.alike(group)
	for k, alike := range sets {
		search.archive = s.archive()
		var err error
		search.share(1/float64(len(sets)-k), func() { err = s.searchBy(search, group, lists, alike) })
		if err != nil {
			return nil, err
		}
		layouts, best := search.archive.layouts(zones)
		for _, m := range alike {
			for r := range best[m] {
				g.best[m][r] = len(g.layouts) + best[m][r]
			}
		}
		g.layouts = append(g.layouts, layouts...)
	}
	for _, p := range search.products {
		g.bound = append(g.bound, p.bound)
	}
	return g, nil
}

// searchBy searches a group by some measures in turn. Where rooms are searched deeply, it does so from other schemes too:
// where it ends depends much on where it begins.
func (s *solver) searchBy(search *search, group []int, lists []*listing, alike []int) error {
	order := s.inOrder(alike)
	from := 1
	if search.deep {
		from = starts
	}
	left := int64(0)
	for start := range from {
		for _, m := range order {
			left += s.weight(m, start)
		}
	}
	for start := range from {
		for _, m := range order {
			weight := s.weight(m, start)
			search.restart(measures[m].by(s.sheet))
			search.start = start
			var err error
			search.share(float64(weight)/float64(left), func() { err = s.solveFor(search, group, lists, m) })
			if left -= weight; err != nil {
				return err
			}
		}
	}
	return nil
}

// weight is the part of the work that the search by a measure from a start gets: most from the first; promptly for what the
// project asks for, and in full for the measures that are searched deeply.
func (s *solver) weight(m, start int) int64 {
	weight := int64(1)
	if s.effort == Prompt && m == s.own || s.effort == Full && slices.Contains(searched[:searchedDeeply], m) {
		weight = 4
	}
	if start == 0 {
		weight *= 3
	}
	return weight
}

func (s *solver) archive() *archive {
	a := &archive{}
	for m := range measures {
		a.weighings[m] = measures[m].by(s.sheet)
	}
	return a
}

// alike parts the measures into those under which a group must keep clear of the same joints in other groups: layouts found
// for one of them serve the others.
func (s *solver) alike(group []int) (sets [][]int) {
	at := map[memo.Key]int{}
	for m := range measures {
		var w writer
		for _, i := range group {
			if s.outside(i, group) {
				w.lines(s.lines(i, m))
			}
		}
		k := w.Key()
		n, known := at[k]
		if !known {
			n = len(sets)
			at[k], sets = n, append(sets, nil)
		}
		sets[n] = append(sets[n], m)
	}
	return sets
}

// inOrder are the measures among some that a group is searched by, in their order. Promptly, that of the project comes
// first, since most of the work is meant for it and the others start from where it ended; then those of the other aims.
func (s *solver) inOrder(alike []int) (order []int) {
	all := searched[:]
	switch {
	case s.effort == Prompt:
		all = []int{s.own, 0, 1}
	case !s.deep():
		all = searched[:searchedDeeply]
	}
	for _, m := range all {
		if slices.Contains(alike, m) && !slices.Contains(order, m) {
			order = append(order, m)
		}
	}
	if len(order) == 0 {
		order = alike[:1]
	}
	return order
}

// listingKey is what the listing of a zone that keeps clear of some lines goes by.
func (s *solver) listingKey(i int, avoid []layout.Line) memo.Key {
	var w writer
	w.Text("listing")
	w.Add(s.keys[i])
	w.lines(avoid)
	w.Bool(len(s.before(i)) == 0)
	return w.Key()
}

// listing lists a zone, or takes the listing from the memo.
func (s *solver) listing(search *search, i int, k memo.Key, avoid []layout.Line) *listing {
	l, _ := memo.Try(s.memo.Listings, k, func() (*listing, error) { // one that was broken off is not kept
		return search.list(s.zones[i], avoid, len(s.before(i)) == 0), s.ctx.Err()
	})
	search.choose(s.zones[i], l)
	return l
}

// outside tells whether a zone must keep clear of joints in another group.
func (s *solver) outside(i int, group []int) bool {
	return slices.ContainsFunc(s.before(i), func(k int) bool { return !slices.Contains(group, k) })
}

// solveFor decides a group's layout by one measure, in tiers: zones whose joints must keep clear of those of others come
// after them.
func (s *solver) solveFor(search *search, group []int, lists []*listing, m int) error {
	tiers := s.tiers(group)
	for n, tier := range tiers {
		for _, i := range tier {
			l := lists[slices.Index(group, i)]
			if l == nil {
				avoid := s.lines(i, m)
				k := s.listingKey(i, avoid)
				if l = search.listings[k]; l == nil {
					l = s.listing(search, i, k, avoid)
					search.listings[k] = l
				}
			}
			z := search.prepare(s.zones[i], l)
			search.zones = append(search.zones, z)
			search.enter(z, 1)
		}
		search.complete = n == len(tiers)-1
		search.share(1/float64(len(tiers)-n), func() { search.decide(m) })
		if err := s.ctx.Err(); err != nil {
			return err
		}
		for k, i := range tier {
			s.settled[m][i] = settle(search.zones[search.fixed+k])
		}
		search.fixed = len(search.zones)
	}
	s.searchLayersAgain(search, tiers, m)
	return s.ctx.Err()
}

// tiers are the zones of a group, those first whose joints keep clear of no others in it.
func (s *solver) tiers(group []int) (tiers [][]int) {
	left := slices.DeleteFunc(slices.Clone(group), func(i int) bool { return s.zones[i].Product == nil })
	for len(left) > 0 {
		var tier, rest []int
		for _, i := range left {
			if slices.ContainsFunc(s.before(i), func(k int) bool { return slices.Contains(left, k) }) {
				rest = append(rest, i)
			} else {
				tier = append(tier, i)
			}
		}
		tiers, left = append(tiers, tier), rest
	}
	return tiers
}

// oneHalf is the part of the work that is left which a stage gets before another.
const oneHalf = 0.5

// decide searches the zones that are not yet settled, stage by stage.
func (s *search) decide(m int) {
	best := s.begin()
	part := 1.0
	if s.by.order == fewestSheets && s.budget != &promptly {
		part = oneHalf // the rest is for what comes then
	}
	s.share(part, func() { best = s.polish(best, nil) })
	if s.small() {
		s.share(part, func() { best = s.exhaust(best) })
	}
	if s.budget == &promptly {
		return
	}
	s.share(oneHalf, func() { best = s.fewerSheets(best) })
	if s.deep && slices.Contains(searched[:searchedDeeply], m) && (s.start == 0 || m == 0) {
		if v := s.everyScheme(best); v.compare(best) < 0 {
			s.fewerSheets(v)
		}
	}
}

// settle keeps the picks of a zone.
func settle(z *zoneState) settled {
	sc := z.schemes[z.cur]
	st := settled{scheme: sc.Settled()}
	var picks []*layout.Choice
	for r := range sc.rows {
		if len(sc.rows[r]) == 0 {
			continue
		}
		c := &sc.rows[r][z.pick[r]].Choice
		picks, st.seams = append(picks, c), append(st.seams, c.Seams...)
		st.clashes = append(st.clashes, sc.Breaches(r, c)...)
		if b, clash := sc.Clashing(r, z.picked); clash {
			st.clashes = append(st.clashes, b)
		}
	}
	st.panels = sc.Panels(picks)
	return st
}
