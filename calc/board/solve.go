package board

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/layout"
	"seamwright/calc/length"
	"seamwright/calc/memo"
	"seamwright/calc/money"
	"seamwright/calc/plan"
	"seamwright/calc/survey"
)

// Solve finds the layout of every zone and the cutting of every sheet. The answer depends on the input alone; a memo
// from earlier calls only saves work. An error is that of the context, or says which piece no sheet can give.
func Solve(ctx context.Context, j *job.Job, b *survey.Building, m *Memo, effort Effort) (*Answer, error) {
	s := &solver{ctx: ctx, effort: effort, job: j, building: b, memo: m, ofSurface: map[*survey.Surface][]int{}}
	for _, sf := range b.Surfaces {
		for _, z := range sf.Zones {
			s.ofSurface[sf] = append(s.ofSurface[sf], len(s.zones))
			s.zones = append(s.zones, z)
		}
	}
	for a := range aims {
		s.settled[a] = make([]settled, len(s.zones))
		if aims[a] == aimOf(j) {
			s.aim = a
		}
	}
	s.needs, s.bounds = make([]*need, len(s.zones)), make([]int, len(s.zones))
	s.writeKeys()
	s.byGroup = s.groups()
	plans, err := s.solveGroups()
	if err != nil {
		return nil, err
	}
	for _, g := range plans {
		s.bound = g.bound
		for a := range aims {
			p := &g.plans[a]
			s.named[a].Sheets += p.sheets
			s.named[a].ButtJoint += p.butt
			s.costs[a] += p.cost
		}
	}
	return s.answer()
}

// aimOf is what the plan makes least. Where own time is not counted, money alone would spend it freely on more pieces
// to finish, so the least cost gives way to the fewest sheets with the least butt joint.
func aimOf(j *job.Job) job.Aim {
	if j.Aim == job.AimCost && j.Site.Rate == 0 {
		return job.AimSheets
	}
	return j.Aim
}

// solver is the state of one call of Solve.
type solver struct {
	ctx       context.Context
	effort    Effort
	job       *job.Job
	building  *survey.Building
	memo      *Memo
	zones     []*survey.Zone
	ofSurface map[*survey.Surface][]int
	keys      []memo.Key // of the content of each zone, with what all zones share
	byGroup   [][]int
	aim       int // index into aims
	settled   [len(aims)][]settled
	needs     []*need // of each zone; nil where it is left open
	bounds    []int   // of each zone: the sheets that it needs by itself
	bound     []int   // of each product: what the last group needs by itself
	named     [len(aims)]plan.Answer
	costs     [len(aims)]int64
}

// answer cuts the sheets and puts everything together.
func (s *solver) answer() (*Answer, error) {
	a := &Answer{Zones: []plan.Zone{}, Sheets: []plan.Sheet{}, Checks: []plan.Check{}}
	made := make([][]layout.Made, len(s.zones))
	names := make([][]string, len(s.zones))
	letters := initials(s.building)
	numbers := map[*survey.Surface]int{}
	for i, z := range s.zones {
		made[i] = make([]layout.Made, len(s.settled[s.aim][i].panels))
		names[i] = make([]string, len(s.settled[s.aim][i].panels))
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
		pieces := make([][]int, len(s.byGroup))
		for g, group := range s.byGroup {
			for _, i := range group {
				if s.zones[i].Product == nil || s.zones[i].Product.ID != product.ID {
					continue
				}
				for k := range s.settled[s.aim][i].panels {
					pieces[g] = append(pieces[g], len(sizes))
					sizes = append(sizes, s.settled[s.aim][i].panels[k].Size)
					where = append(where, [2]int{i, k})
				}
			}
		}
		if len(sizes) == 0 {
			continue
		}
		c, err := s.cutAll(product, sizes, pieces)
		if err != nil {
			return nil, err
		}
		base := len(a.Sheets)
		sheets := slices.Clone(c.sheets)
		for k := range sheets {
			sheets[k].ID = fmt.Sprintf("S%03d", base+k+1)
			sheets[k].Parts = slices.Clone(sheets[k].Parts)
		}
		for n, w := range where {
			sh := &sheets[c.at[n].sheet]
			part := &sh.Parts[c.at[n].part]
			i, k := w[0], w[1]
			panel := &s.settled[s.aim][i].panels[k]
			part.Panel = names[i][k]
			made[i][k] = factory(product, sh, part, &panel.Piece, s.job.Stock)
			part.Turned = part.Turned != s.settled[s.aim][i].scheme.Swap
			sheetOf[i][k] = sh.ID
			cost += float64(rates.piece + rates.cut)
		}
		n, price := c.bought()
		cost += float64(price) * costUnit
		bound := boundOf(product, &s.job.Rules, of(s.needs, p), s.job.Stock)
		if len(s.byGroup) == 1 {
			bound = max(bound, s.bound[p])
		}
		bound = min(bound, n) // a layout that breaks rules may take fewer than any lawful one
		a.Bounds = append(a.Bounds, ProductBound{Product: product.ID, Sheets: n, Bound: bound})
		a.Bound += bound
		a.Sheets = append(a.Sheets, sheets...)
	}
	order, lined := map[string]int{}, map[string]bool{}
	for i, sf := range s.building.Surfaces {
		order[sf.ID] = i
		for _, z := range sf.Zones {
			lined[sf.ID] = lined[sf.ID] || z.Product != nil
		}
	}
	for i, z := range s.zones {
		if s.settled[s.aim][i].scheme == nil {
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
	a.Named = s.names(a)
	return a, nil
}

// names are the three named answers. The one that the project aims for is the answer itself; the others are what the
// same search finds for their aims. None is worse in its own aim than another.
func (s *solver) names(a *Answer) []plan.Answer {
	own := plan.Answer{ButtJoint: a.Butt, Cost: a.Cost}
	for _, b := range a.Bounds {
		own.Sheets += b.Sheets
	}
	found := []plan.Answer{own}
	for k := range aims {
		n := s.named[k]
		n.Cost = money.Money((s.costs[k] + costUnit/2) / costUnit)
		// What is cut may need more than the search counted: what was only counted must not look better for that.
		if k != s.aim && measured(aims[s.aim], &n) >= measured(aims[s.aim], &own) {
			found = append(found, n)
		}
	}
	var named []plan.Answer
	for k, aim := range aims {
		n := own
		if k != s.aim {
			n = slices.MinFunc(found, func(a, b plan.Answer) int { return cmp.Compare(measured(aim, &a), measured(aim, &b)) })
		}
		n.Aim, n.Bound = string(aim), a.Bound
		named = append(named, n)
	}
	return named
}

// measured is what an aim makes least.
func measured(aim job.Aim, n *plan.Answer) int64 {
	switch aim {
	case job.AimSheets:
		return int64(n.Sheets)
	case job.AimJoints:
		return int64(n.ButtJoint)
	}
	return int64(n.Cost)
}

// zone fills in one zone of the plan.
func (s *solver) zone(i int, names []string, made []layout.Made, sheetOf []string, a *Answer) plan.Zone {
	z, st := s.zones[i], &s.settled[s.aim][i]
	pz := plan.Zone{Zone: z.Index, Layer: z.Layer, Product: z.Product.ID, Run: string(st.scheme.Run), Pattern: string(z.Pattern), Finish: z.Finish,
		Depth: z.Depth, Outline: z.Outline, Panels: []plan.Panel{}, Joints: []plan.Joint{}}
	pz.Bound = s.bounds[i]
	for k := range st.panels {
		outline, holes := st.scheme.Outline(&st.panels[k])
		outline, holes = boxed(outline, holes, z.Surface.Boxes)
		pz.Panels = append(pz.Panels, plan.Panel{ID: names[k], Outline: outline, Holes: holes, Course: st.panels[k].Band + 1,
			Sheet: sheetOf[k], Edges: st.scheme.Edges(made[k])})
	}
	for _, jt := range st.scheme.Joints(st.panels, made) {
		l := (jt.To.X - jt.From.X).Abs() + (jt.To.Y - jt.From.Y).Abs()
		switch jt.Kind {
		case plan.Butt:
			a.Butt += l
		case plan.Mixed:
			a.Mixed += l
		case plan.Tapered:
			a.Tapered += l
		}
		pz.Joints = append(pz.Joints, plan.Joint{Kind: jt.Kind, From: jt.From, To: jt.To, Panels: []string{names[jt.A], names[jt.B]}, Support: jt.Support})
	}
	return pz
}

// report turns what a zone breaks into checks.
func (s *solver) report(i int, a *Answer) {
	st := &s.settled[s.aim][i]
	add := func(b layout.Break) {
		if b.Pin != nil {
			b.Message = s.pinMessage(b)
		}
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
	if s.job.Rules.Cutouts == job.RectOnly {
		for _, h := range s.zones[i].Holes {
			a.Checks = append(a.Checks, plan.Check{Rule: layout.RuleOpening, Level: plan.Caution, Where: s.zones[i].Surface.ID, At: h.Outline[0],
				Message: "joints stand at the jambs of opening " + h.Opening.ID + ", as cutouts: rect asks; board cracks there, so they are made as control joints", Source: layout.Source(layout.RuleOpening)})
		}
	}
}

// pinMessage tells where a seam fixed by hand could stand instead.
func (s *solver) pinMessage(b layout.Break) string {
	show := func(l length.Length) string { return l.Show(s.job.Units != job.Metric) }
	where, none := fmt.Sprintf("course %d, seam", b.Pin.Course), "in this course"
	if b.Pin.Edge {
		where, none = "joint between upright courses", "for it here"
	}
	m := fmt.Sprintf("%s at %s: %s", where, show(b.Pin.Seam), b.Message)
	if b.Pin.Found {
		return m + "; the nearest lawful place is " + show(b.Pin.Nearest)
	}
	return m + "; there is no lawful place " + none
}
