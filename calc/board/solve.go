package board

import (
	"context"
	"fmt"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/layout"
	"seamwright/calc/length"
	"seamwright/calc/money"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/calc/survey"
)

// Solve finds the layout of every zone and the cutting of every sheet. The answer depends on the input alone; a memo
// from earlier calls only saves work. An error is that of the context, or says which piece no sheet can give.
func Solve(ctx context.Context, j *job.Job, b *survey.Building, m *Memo) (*Answer, error) {
	s := &solver{ctx: ctx, job: j, building: b, memo: m}
	for _, sf := range b.Surfaces {
		s.zones = append(s.zones, sf.Zones...)
	}
	s.settled = make([]settled, len(s.zones))
	for _, g := range s.groups() {
		if err := s.solveGroup(g); err != nil {
			return nil, err
		}
	}
	return s.answer()
}

// solver is the state of one call of Solve.
type solver struct {
	ctx      context.Context
	job      *job.Job
	building *survey.Building
	memo     *Memo
	zones    []*survey.Zone
	settled  []settled
}

// settled is a zone whose layout has been decided.
type settled struct {
	scheme  *layout.Scheme
	choices []*layout.Choice
	panels  []layout.Panel
	clashes []layout.Break
}

// groupSize is how many surfaces are solved together. Rooms are joined up to this many, and a larger room is a group
// of its own, so that an edit changes only the group that it lies in.
const groupSize = 12

// groups are ranges of zones, by whole rooms.
func (s *solver) groups() [][]int {
	var groups [][]int
	var cur []int
	surfaces, zone := 0, 0
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
		if surfaces > 0 && surfaces+n > groupSize {
			groups, cur, surfaces = append(groups, cur), nil, 0
		}
		cur, surfaces = append(cur, zs...), surfaces+n
	}
	if len(cur) > 0 {
		groups = append(groups, cur)
	}
	return groups
}

// solveGroup decides the layout of a group of zones, in waves: zones whose joints must keep clear of those of others
// come after them.
func (s *solver) solveGroup(group []int) error {
	search := newSearch(s.ctx, s.job, s.job.Aim, s.job.Stock)
	for _, p := range search.products {
		var mine []*survey.Zone
		for _, i := range group {
			mine = append(mine, s.zones[i])
		}
		p.bound = areaBound(p.product, &s.job.Rules, mine, s.job.Stock)
	}
	left := slices.DeleteFunc(slices.Clone(group), func(i int) bool { return s.zones[i].Product == nil })
	for len(left) > 0 {
		var wave, rest []int
		for _, i := range left {
			if s.waits(i, left) {
				rest = append(rest, i)
			} else {
				wave = append(wave, i)
			}
		}
		if len(wave) == 0 {
			wave, rest = left, nil
		}
		for _, i := range wave {
			z := search.prepare(s.zones[i], s.lines(i))
			z.cur, z.pick = 0, slices.Clone(z.schemes[0].start)
			search.zones = append(search.zones, z)
			search.enter(z, 1)
		}
		best, err := search.improve()
		if err != nil {
			return err
		}
		search.exhaust(best)
		for k, i := range wave {
			s.settle(i, search.zones[search.fixed+k])
		}
		search.fixed = len(search.zones)
		left = rest
	}
	return s.ctx.Err()
}

// waits tells whether a zone must come after another that is still open.
func (s *solver) waits(i int, open []int) bool {
	for _, k := range s.before(i) {
		if slices.Contains(open, k) {
			return true
		}
	}
	return false
}

// before are the zones whose joints zone i must keep clear of: the layer below, and the outermost layer on the other
// face of the partition where that surface comes first.
func (s *solver) before(i int) []int {
	z := s.zones[i]
	var ks []int
	for k := range i {
		o := s.zones[k]
		if o.Product == nil {
			continue
		}
		if o.Surface == z.Surface && o.Index == z.Index && o.Layer == z.Layer-1 {
			ks = append(ks, k)
		}
		if z.Surface.Back != nil && o.Surface == z.Surface.Back && o.Layer == 1 && z.Layer == 1 {
			ks = append(ks, k)
		}
	}
	return ks
}

// Clearances of parallel joints. Between layers: one member space along the members, else 16 in (GA-216-2024
// s. 4.6.8; distance as the rule book gives it). Joints on two faces nearer than a member's width share a stud.
const (
	layerClear = 16 * length.Inch
	studShare  = length.Inch
)

// lines are the joints that zone i must keep clear of.
func (s *solver) lines(i int) []layout.Line {
	z := s.zones[i]
	var lines []layout.Line
	for _, k := range s.before(i) {
		st := &s.settled[k]
		if st.scheme == nil {
			continue
		}
		o := s.zones[k]
		for _, l := range st.lines() {
			if o.Surface == z.Surface {
				l.Clear, l.Rule = layerClear, layout.RuleLayers
				if l.Upright == (z.Surface.Members.Axis != "y") {
					l.Clear = st.scheme.Spacing()
				}
			} else {
				if !l.Upright {
					continue
				}
				l.Clear, l.Rule = max(studShare, z.Surface.Members.Width), layout.RuleOpposite
				l.At = across(z.Surface, o.Surface, l.At)
			}
			lines = append(lines, l)
		}
	}
	return lines
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
func (s *solver) settle(i int, z *zoneState) {
	sc := z.schemes[z.cur]
	st := &s.settled[i]
	st.scheme = sc.Scheme
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
}

// nestNodes is the work of the final nesting of one product.
const nestNodes = 200_000

// answer cuts the sheets and puts everything together.
func (s *solver) answer() (*Answer, error) {
	a := &Answer{Zones: []plan.Zone{}, Sheets: []plan.Sheet{}, Checks: []plan.Check{}}
	made := make([][]layout.Made, len(s.zones))
	names := make([][]string, len(s.zones))
	letters := initials(s.building)
	numbers := map[*survey.Surface]int{}
	for i, z := range s.zones {
		made[i] = make([]layout.Made, len(s.settled[i].panels))
		names[i] = make([]string, len(s.settled[i].panels))
		for k := range names[i] {
			numbers[z.Surface]++
			names[i][k] = fmt.Sprintf("%s-%02d", letters[z.Surface], numbers[z.Surface])
		}
	}
	sheetOf := make([][]string, len(s.zones))
	for i := range s.zones {
		sheetOf[i] = make([]string, len(names[i]))
	}
	rates := newRates(s.job)
	var cost float64
	for p := range s.job.Products {
		product := &s.job.Products[p]
		var sizes []layout.Size
		var where [][2]int
		for i, z := range s.zones {
			if z.Product != product {
				continue
			}
			for k := range s.settled[i].panels {
				sizes = append(sizes, s.settled[i].panels[k].Size)
				where = append(where, [2]int{i, k})
			}
		}
		if len(sizes) == 0 {
			continue
		}
		c, err := cutSheets(s.ctx, product, s.job.Stock, sizes, s.job.Aim, nestNodes)
		if err != nil {
			return nil, err
		}
		base := len(a.Sheets)
		for k := range c.sheets {
			c.sheets[k].ID = fmt.Sprintf("S%03d", base+k+1)
		}
		for n, w := range where {
			sh := &c.sheets[c.at[n].sheet]
			part := &sh.Parts[c.at[n].part]
			i, k := w[0], w[1]
			panel := &s.settled[i].panels[k]
			part.Panel = names[i][k]
			made[i][k] = factory(product, sh, part, &panel.Piece, s.job.Stock)
			part.Turned = part.Turned != s.settled[i].scheme.Swap
			sheetOf[i][k] = sh.ID
			cost += float64(rates.piece + rates.cut)
		}
		n, price := c.bought()
		cost += float64(price) * costUnit
		bound := areaBound(product, &s.job.Rules, s.zones, s.job.Stock)
		a.Bounds = append(a.Bounds, ProductBound{Product: product.ID, Sheets: n, Bound: bound})
		a.Bound += bound
		a.Sheets = append(a.Sheets, c.sheets...)
	}
	order, lined := map[string]int{}, map[string]bool{}
	for i, sf := range s.building.Surfaces {
		order[sf.ID] = i
		for _, z := range sf.Zones {
			lined[sf.ID] = lined[sf.ID] || z.Product != nil
		}
	}
	for i, z := range s.zones {
		if s.settled[i].scheme == nil {
			a.Zones = append(a.Zones, openZone(z))
			continue
		}
		pz := s.zone(i, names[i], made[i], sheetOf[i], a)
		pz.Joints = append(pz.Joints, perimeter(z, order, lined, pz.Panels)...)
		a.Zones = append(a.Zones, pz)
		s.report(i, a)
	}
	cost += float64(a.Tapered)*rates.tapered + float64(a.Butt+a.Mixed)*rates.butt
	a.Cost = money.Money(cost/costUnit + 0.5)
	return a, nil
}

// zone fills in one zone of the plan.
func (s *solver) zone(i int, names []string, made []layout.Made, sheetOf []string, a *Answer) plan.Zone {
	z, st := s.zones[i], &s.settled[i]
	pz := plan.Zone{Zone: z.Index, Layer: z.Layer, Product: z.Product.ID, Run: string(st.scheme.Run), Pattern: string(z.Pattern), Finish: z.Finish,
		Depth: z.Depth, Outline: z.Outline, Panels: []plan.Panel{}, Joints: []plan.Joint{}}
	for k := range st.panels {
		outline, holes := st.scheme.Outline(&st.panels[k])
		if holes == nil {
			holes = []shape.Polygon{}
		}
		pz.Panels = append(pz.Panels, plan.Panel{ID: names[k], Outline: outline, Holes: holes, Course: st.panels[k].Band + 1,
			Sheet: sheetOf[k], Edges: st.scheme.Edges(made[k])})
	}
	for _, jt := range st.scheme.Joints(st.panels, made) {
		l := (jt.To.X - jt.From.X).Abs() + (jt.To.Y - jt.From.Y).Abs()
		switch {
		case jt.Forced:
		case jt.Kind == plan.Butt:
			a.Butt += l
		case jt.Kind == plan.Mixed:
			a.Mixed += l
		case jt.Kind == plan.Tapered:
			a.Tapered += l
		}
		pz.Joints = append(pz.Joints, plan.Joint{Kind: jt.Kind, From: jt.From, To: jt.To, Panels: []string{names[jt.A], names[jt.B]}, Support: jt.Support})
	}
	return pz
}

// report turns what a zone breaks into checks.
func (s *solver) report(i int, a *Answer) {
	st := &s.settled[i]
	add := func(b layout.Break) {
		a.Checks = append(a.Checks, plan.Check{Rule: b.Rule, Level: plan.Error, Where: s.zones[i].Surface.ID, At: b.At, Message: b.Message, Source: layout.Source(b.Rule)})
	}
	for _, b := range st.scheme.Breaks {
		add(b)
	}
	for r := range st.scheme.Rows {
		for _, b := range st.scheme.Rows[r].Breaks {
			add(b)
		}
	}
	for _, b := range st.clashes {
		add(b)
	}
}
