package board

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/layout"
	"seamwright/calc/memo"
	"seamwright/calc/money"
	"seamwright/calc/plan"
	"seamwright/calc/survey"
)

// Solve finds the layout of every zone and the cutting of every sheet. The answer depends on the input alone; a memo
// from earlier calls only saves work. An error is that of the context, or says which piece no sheet can give.
func Solve(ctx context.Context, j *job.Job, b *survey.Building, m *Memo, effort Effort) (*Answer, error) {
	if m == nil {
		m = &Memo{}
	}
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
	var err error
	if s.plans, err = s.solveGroups(); err != nil {
		return nil, err
	}
	for _, g := range s.plans {
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
	plans     []*groupPlans // of the groups
	aim       int           // index into aims
	settled   [len(aims)][]settled
	needs     []*need // of each zone; nil where it is left open
	bounds    []int   // of each zone: the sheets that it needs by itself
	named     [len(aims)]plan.Answer
	costs     [len(aims)]int64
}

// answer cuts the sheets and puts everything together.
func (s *solver) answer() (*Answer, error) {
	a := &Answer{Zones: make([]plan.Zone, 0, len(s.zones)), Sheets: []plan.Sheet{}, Checks: []plan.Check{}}
	spots := s.spots()
	rates := newRates(s.job)
	var cost float64
	for p := range s.job.Products {
		paid, err := s.cutProduct(p, spots, a)
		if err != nil {
			return nil, err
		}
		cost += float64(paid) * costUnit
	}
	panels := 0
	for i := range spots {
		panels += len(spots[i])
	}
	s.hangAll(a, spots, panels)
	cost += float64(panels) * float64(rates.piece+rates.cut)
	cost += float64(a.Tapered)*rates.tapered + float64(a.Butt+a.Mixed)*rates.butt
	a.Cost = money.Money(cost/costUnit + 0.5)
	a.Named = s.names(a)
	return a, nil
}

// spot is where a panel is cut, as an index of the answer's sheets and one of the sheet's parts, and which of its sides
// are edges of the sheet then.
type spot struct {
	sheet, part int
	far         bool // the half beyond the slanted cut of its part
	made        layout.Made
}

// spots has room for the spot of every panel, zone by zone.
func (s *solver) spots() [][]spot {
	n := 0
	for i := range s.zones {
		n += len(s.settled[s.aim][i].panels)
	}
	all, spots := make([]spot, n), make([][]spot, len(s.zones))
	for i := range spots {
		n := len(s.settled[s.aim][i].panels)
		spots[i], all = all[:n:n], all[n:]
	}
	return spots
}

// takes tells whether a zone is lined with a product.
func (s *solver) takes(i int, p *job.Product) bool {
	return s.zones[i].Product != nil && s.zones[i].Product.ID == p.ID
}

// cutProduct cuts the sheets of one product, adds them to the answer and gives what is paid for them.
func (s *solver) cutProduct(p int, spots [][]spot, a *Answer) (paid int64, err error) {
	product := &s.job.Products[p]
	n := 0
	for i := range s.zones {
		if s.takes(i, product) {
			n += len(spots[i])
		}
	}
	if n == 0 {
		return 0, nil
	}
	sizes, where, all := make([]layout.Size, 0, n), make([][2]int, 0, n), make([]int, n)
	batches := make([]batch, 0, len(s.byGroup))
	for g, group := range s.byGroup {
		first := len(sizes)
		for _, i := range group {
			if !s.takes(i, product) {
				continue
			}
			for k := range spots[i] {
				all[len(sizes)] = len(sizes)
				sizes = append(sizes, s.settled[s.aim][i].panels[k].Size)
				where = append(where, [2]int{i, k})
			}
		}
		if first < len(sizes) {
			batches = append(batches, batch{all[first:len(sizes):len(sizes)], s.plans[g].key})
		}
	}
	c, pairs, err := s.cutPaired(product, sizes, batches, where)
	if err != nil {
		return 0, err
	}
	base := len(a.Sheets)
	a.Sheets = slices.Grow(a.Sheets, len(c.sheets))
	parts := make([]plan.Part, 0, len(sizes))
	for k, sheet := range c.sheets {
		sheet.ID = fmt.Sprintf("S%03d", base+k+1)
		first := len(parts)
		parts = append(parts, sheet.Parts...)
		sheet.Parts = parts[first:len(parts):len(parts)]
		a.Sheets = append(a.Sheets, sheet)
	}
	for n, w := range where {
		at := c.at[n]
		sheet := &a.Sheets[base+at.sheet]
		part := &sheet.Parts[at.part]
		st := &s.settled[s.aim][w[0]]
		to := spot{sheet: base + at.sheet, part: at.part}
		if p := pairs[n]; p != nil {
			to.made, to.far = p.laid(product, sheet, part, n, s.job.Stock)
		} else {
			to.made = factory(product, sheet, part, &st.panels[w[1]].Piece, s.job.Stock)
			part.Turned = part.Turned != st.scheme.Swap
		}
		spots[w[0]][w[1]] = to
	}
	n, paid = c.bought()
	bound := boundOf(product, &s.job.Rules, of(s.needs, p), s.job.Stock)
	if len(s.byGroup) == 1 {
		bound = max(bound, s.plans[0].bound[p])
	}
	bound = min(bound, n) // a layout that breaks rules may take fewer than any lawful one
	a.Bounds = append(a.Bounds, ProductBound{Product: product.ID, Sheets: n, Bound: bound})
	a.Bound += bound
	return paid, nil
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
