// Package calc is the whole calculation, in the order of the job itself: survey the rooms, board them, fasten,
// finish, schedule, price and check. It is a pure function of its input: no clock, no files, no globals, no map
// order; the same job gives the same plan on one core and on many.
//
// After an edit only what it touches is worked out again, by one idea: the room is the unit, and what depends on a room
// alone is kept under a hash of all that it depends on (package memo), never changed, and joined in order with what other
// rooms give. Kept are the survey of a room; the layouts of groups of rooms and the sheets cut for them (package board);
// what a room adds once its layout is known, that is screws, corners, tasks and findings (room.go); and the sticks of a few
// rooms at a time (package finish). What couples all rooms is worked out anew: pairs of faces of partitions, leftovers,
// the crew's calendar, quantities, packs and shares of the cost. A plan from a warm memo has the bytes of a cold one.
//
// Full answers make the bill of every draft that package board hands over, and choose among the bills (bill.go): up to 24
// surfaces a dozen or more, four in larger buildings. In two rooms the bills are an eighth of the work and the search the
// rest; in 75 walls they are about a third. Growth, in processor time on one core of a machine that was busy with other work,
// rooms of four and six walls by turns, each with a door, a window, boxes and a lined ceiling (one run each, and another at
// the same load may differ by a third):
//
//	walls   cold, prompt   cold, full
//	   10         0.09 s       2.4 s
//	   75         0.68 s       1.2 s
//	  150         1.4 s        2.2 s
//	  600         5.7 s        9.2 s
//
// Up to 24 surfaces package board plans several rooms as one group and searches it more deeply, so an edit takes longer in
// two rooms than in six.
package calc

import (
	"context"
	"errors"
	"math"
	"strings"

	"seamwright/calc/board"
	"seamwright/calc/check"
	"seamwright/calc/cut"
	"seamwright/calc/fasten"
	"seamwright/calc/finish"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/memo"
	"seamwright/calc/plan"
	"seamwright/calc/policy"
	"seamwright/calc/price"
	"seamwright/calc/schedule"
	"seamwright/calc/span"
	"seamwright/calc/survey"
)

// Format and Version name the plan's JSON form.
const (
	Format  = "seamwright-plan"
	Version = 1
)

// Memo keeps what earlier runs worked out, by content. It may be shared by runs at the same time; a run with it and
// one without give the same bytes. The efforts keep theirs apart, so that the many prompt answers of a long drag do not
// wear out what the full one knows of other rooms; listings serve both.
type Memo struct{ full, prompt, listings *memo.Memo }

// NewMemo is an empty memo.
func NewMemo() *Memo { return &Memo{&memo.Memo{}, &memo.Memo{}, board.NewListings()} }

// Plan answers a job in full: the plan of the job as it stands, and the numbers of every alternative beside it. It is
// what files, documents and commands show. A cancelled context gives its error and no plan.
func Plan(ctx context.Context, j *job.Job, m *Memo) (*plan.Plan, error) {
	if m == nil {
		m = NewMemo() // the drafts of a plan, and its variants, share most of their rooms
	}
	m.full.Begin()
	m.listings.Begin()
	p, err := one(ctx, j, m, board.Full)
	if err != nil {
		return nil, err
	}
	p.Alternatives = make([]plan.Alternative, 0, len(j.Alternatives))
	for _, a := range j.Alternatives {
		variant := j.With(a)
		other, err := one(ctx, variant, m, board.Full)
		if err != nil {
			return nil, of(a, err)
		}
		p.Alternatives = append(p.Alternatives, Compared(a.Name, variant, other))
	}
	return p, nil
}

// of says of a refusal that it is of an alternative.
func of(a job.Alternative, err error) error {
	var r *job.Refusal
	if !errors.As(err, &r) {
		return err
	}
	own := *r
	own.Alternative = a.Name
	return &own
}

// Prompt answers a job within a frame: a lawful plan with its bound, marked as searching, without alternatives and
// other airs, until Plan gives the one to keep. It too depends on the job alone.
func Prompt(ctx context.Context, j *job.Job, m *Memo) (*plan.Plan, error) {
	if m == nil {
		m = &Memo{}
	}
	m.prompt.Begin()
	m.listings.Begin()
	p, err := one(ctx, j, m, board.Prompt)
	if err != nil {
		return nil, err
	}
	p.Summary.Searching = true
	return p, nil
}

// one runs the pipeline for one set of linings.
func one(ctx context.Context, j *job.Job, m *Memo, effort board.Effort) (*plan.Plan, error) {
	results := m.full
	if effort == board.Prompt {
		results = m.prompt
	}
	o, err := offered(ctx, j, results)
	if err != nil {
		return nil, err
	}
	h, err := o.hang(ctx, &board.Memo{Results: results, Listings: m.listings}, effort)
	if err != nil {
		return nil, err
	}
	sizes, j, b := h.sizes, h.job, h.building
	weigh := choose
	if effort == board.Prompt {
		weigh = likeliest
	}
	best, err := weigh(ctx, j, b, h.field, results)
	if err != nil {
		return nil, err
	}
	p := best.plan
	p.Sizes = sizes.Offers()
	cut.Sheets(j, p)
	var tasks []schedule.Room
	var book []check.Room
	for _, room := range best.rooms {
		p.Checks = append(p.Checks, room.faults...)
		tasks, book = append(tasks, room.tasks), append(book, room.book)
	}
	schedule.Join(j, b, p, tasks, effort == board.Full)
	price.Price(j, p, best.items, best.measures)
	p.Checks = append(p.Checks, sizes.Checks()...)
	p.Checks = append(p.Checks, finish.Checks(j, b, p)...)
	p.Checks = append(p.Checks, price.Checks(j, p)...)
	p.Checks = append(p.Checks, schedule.Checks(j, p)...)
	check.Join(j, b, p, book)
	return p, ctx.Err()
}

// lettersOf is how the ids of each surface's panels begin; a surface without panels goes by its own id.
func lettersOf(b *survey.Building, a *board.Answer) map[string]string {
	letters, zones := map[string]string{}, a.Zones
	for _, s := range b.Surfaces {
		letters[s.ID] = s.ID
		for _, z := range zones[:len(s.Zones)] {
			if len(z.Panels) > 0 {
				letters[s.ID], _, _ = strings.Cut(z.Panels[0].ID, "-")
			}
		}
		zones = zones[len(s.Zones):]
	}
	return letters
}

// assemble puts the survey's surfaces and the board's answer together.
func assemble(j *job.Job, b *survey.Building, a *board.Answer, sheets []plan.Sheet, returns []plan.Return) *plan.Plan {
	p := &plan.Plan{
		Format: Format, Version: Version, Name: j.Name, Units: string(j.Units),
		Sheets: sheets, Returns: returns, Checks: a.Checks,
		Takeoff: []plan.Item{}, Sticks: []plan.Stick{}, Schedule: []plan.Task{}, Alternatives: []plan.Alternative{}, Before: []plan.Look{},
	}
	zones := a.Zones
	p.Surfaces = make([]plan.Surface, 0, len(b.Surfaces))
	for _, s := range b.Surfaces {
		surface := s.Surface
		surface.Zones = zones[:len(s.Zones):len(s.Zones)]
		zones = zones[len(s.Zones):]
		p.Surfaces = append(p.Surfaces, surface)
	}
	countOpened(p)
	sum := &p.Summary
	sum.SheetsBound, sum.ButtJoint, sum.TaperedJoint, sum.MixedJoint = a.Bound, a.Butt, a.Tapered, a.Mixed
	var opened length.Area
	for _, s := range p.Sheets {
		if s.Source == plan.Buy {
			sum.SheetsBought++
		} else {
			sum.StockUsed++
		}
		opened += s.Size[0].Times(s.Size[1])
	}
	if opened > 0 {
		sum.Waste = math.Round(1e6*(1-float64(netArea(p))/float64(opened))) / 1e6
	}
	return p
}

// countOpened counts a bought sheet for the zone of the first piece that is cut from it.
func countOpened(p *plan.Plan) {
	opens := make(map[string]bool, len(p.Sheets)) // panels cut first from a bought sheet
	for i := range p.Sheets {
		if s := &p.Sheets[i]; s.Source == plan.Buy {
			opens[s.Parts[0].Panel] = true
		}
	}
	for i := range p.Surfaces {
		for k := range p.Surfaces[i].Zones {
			z := &p.Surfaces[i].Zones[k]
			for n := range z.Panels {
				if opens[z.Panels[n].ID] {
					z.Opened++
				}
			}
		}
	}
}

// netArea is the area of all panels as they hang, and of the strips of returns.
func netArea(p *plan.Plan) (sum length.Area) {
	for _, s := range p.Surfaces {
		for _, z := range s.Zones {
			for _, panel := range z.Panels {
				sum += panel.Outline.Area()
				for _, h := range panel.Holes {
					sum -= h.Area()
				}
			}
		}
	}
	for _, r := range p.Returns {
		if r.Sheet != "" {
			sum += r.Size[0].Times(r.Size[1])
		}
	}
	return sum
}

// Compared gives the numbers by which one variant of a job is compared with another, for the job and wall by wall.
func Compared(name string, j *job.Job, p *plan.Plan) plan.Alternative {
	a := plan.Alternative{
		Name: name, Cost: p.Cost.Total, Sheets: p.Summary.SheetsBought, Bound: p.Summary.SheetsBound, Days: p.Summary.Days,
		Hours: p.Summary.Hours, Waste: p.Summary.Waste, ButtJoint: p.Summary.ButtJoint, MixedJoint: p.Summary.MixedJoint, Weight: p.Summary.Weight, Finish: p.Summary.Finish,
		BySurface: p.Cost.BySurface,
	}
	for i := range p.Sheets {
		a.Kept += price.Kept(&p.Sheets[i])
	}
	return a
}

// Figures lists every figure of the trade that a project may set itself, stage by stage.
func Figures() []job.Figure {
	var all []job.Figure
	for _, stage := range [][]job.Figure{policy.Figures, span.Figures, fasten.Figures, finish.Figures, schedule.Figures, price.Figures} {
		all = append(all, stage...)
	}
	return all
}
