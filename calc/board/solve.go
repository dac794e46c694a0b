package board

import (
	"context"

	"seamwright/calc/job"
	"seamwright/calc/memo"
	"seamwright/calc/money"
	"seamwright/calc/survey"
	"seamwright/calc/worth"
)

// Search finds layouts of every zone, the best by every measure. They depend on rooms, products, prices, rules and stock
// alone, and with full effort neither on the aim nor on the rate of own time. A memo from earlier calls only saves work.
// An error is that of the context.
func Search(ctx context.Context, j *job.Job, b *survey.Building, m *Memo, effort Effort) (*Field, error) {
	if m == nil {
		m = &Memo{}
	}
	s := &solver{ctx: ctx, effort: effort, job: j, building: b, memo: m, book: worth.Of(j), sheet: cheapestSheet(b), ofSurface: map[*survey.Surface][]int{}}
	for _, sf := range b.Surfaces {
		for _, z := range sf.Zones {
			s.ofSurface[sf] = append(s.ofSurface[sf], len(s.zones))
			s.zones = append(s.zones, z)
		}
	}
	for m := range measures {
		s.settled[m] = make([]settled, len(s.zones))
	}
	s.own = weighingOf(j, s.sheet).nearest(s.sheet)
	s.needs, s.bounds = make([]*need, len(s.zones)), make([]int, len(s.zones))
	s.writeKeys()
	s.byGroup = s.groups()
	var err error
	if s.plans, err = s.solveGroups(); err != nil {
		return nil, err
	}
	return &Field{s}, nil
}

// cheapestSheet is the price of the cheapest sheet of all products that a building is lined with, which rates of own time
// are measured in; 1 where nothing has a price.
func cheapestSheet(b *survey.Building) (least money.Money) {
	for _, sf := range b.Surfaces {
		for _, z := range sf.Zones {
			if z.Product == nil {
				continue
			}
			for _, size := range z.Product.Sizes {
				if size.Price > 0 && (least == 0 || size.Price < least) {
					least = size.Price
				}
			}
		}
	}
	return max(least, 1)
}

// solver is the state of one search.
type solver struct {
	ctx       context.Context
	effort    Effort
	job       *job.Job
	building  *survey.Building
	memo      *Memo
	book      *worth.Book
	sheet     money.Money // price of the cheapest sheet
	zones     []*survey.Zone
	ofSurface map[*survey.Surface][]int
	keys      []memo.Key // of the content of each zone, with what all zones share
	byGroup   [][]int
	plans     []*groupPlans // of the groups
	own       int           // the measure that is most like the project's own
	settled   [len(measures)][]settled
	needs     []*need // of each zone; nil where it is left open
	bounds    []int   // of each zone: the sheets that it needs by itself
}
