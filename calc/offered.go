package calc

import (
	"context"
	"slices"

	"seamwright/calc/board"
	"seamwright/calc/job"
	"seamwright/calc/memo"
	"seamwright/calc/plan"
	"seamwright/calc/policy"
	"seamwright/calc/survey"
)

// offer is a job that knows only the sheets that may be bought, with its rooms surveyed for it.
type offer struct {
	asked    *job.Job // with every size
	sizes    *policy.Policy
	job      *job.Job
	building *survey.Building
}

// offered settles which sheets may be bought as far as single zones tell, if the job is not too large.
func offered(ctx context.Context, asked *job.Job, m *memo.Memo) (*offer, error) {
	o, err := surveyed(ctx, asked, policy.Of(asked), m)
	if err != nil {
		return nil, err
	}
	if o.sizes.Relax(asked, o.building, m) {
		return surveyed(ctx, asked, o.sizes, m)
	}
	return o, nil
}

// surveyed is a job under a policy.
func surveyed(ctx context.Context, asked *job.Job, sizes *policy.Policy, m *memo.Memo) (*offer, error) {
	o := &offer{asked: asked, sizes: sizes, job: sizes.Job(asked)}
	if err := withinBudget(o.job); err != nil {
		return nil, err
	}
	var err error
	o.building, err = survey.Remembered(ctx, o.job, m)
	return o, err
}

// hanging is the layouts that were found for what is offered.
type hanging struct {
	*offer
	field  *board.Field
	breaks int      // weight of the rules that the likeliest of them breaks
	broken []string // surfaces where it does
}

// hang finds layouts for what is offered. Where they break a rule that they could keep with a sheet which a limit leaves
// out, that sheet is allowed: two layers of one wall, say, bar so many of each other's places that neither shows it by itself.
// Whether a size helps only another search tells.
func (o *offer) hang(ctx context.Context, m *board.Memo, effort board.Effort) (*hanging, error) {
	h, err := o.search(ctx, m, effort)
	for err == nil && h.breaks > 0 {
		var more *hanging
		if more, err = h.wider(ctx, m, effort); more == nil {
			break
		}
		h = more
	}
	return h, err
}

func (o *offer) search(ctx context.Context, m *board.Memo, effort board.Effort) (*hanging, error) {
	h := &hanging{offer: o}
	var err error
	if h.field, err = board.Search(ctx, o.job, o.building, m, effort); err != nil {
		return nil, err
	}
	best, err := h.field.Likeliest().Answer()
	if err != nil {
		return nil, err
	}
	h.breaks = best.Breaks
	for _, c := range best.Checks {
		if c.Level == plan.Error && !slices.Contains(h.broken, c.Where) {
			h.broken = append(h.broken, c.Where)
		}
	}
	return h, nil
}

// wider is what is found with one size more that mends what is broken, nil where none does. Of the sizes of a product the
// smallest is taken that helps as much as all of them do.
func (h *hanging) wider(ctx context.Context, m *board.Memo, effort board.Effort) (*hanging, error) {
	search := func(sizes *policy.Policy) (*hanging, error) {
		o, err := surveyed(ctx, h.asked, sizes, m.Results)
		if err != nil {
			return nil, err
		}
		return o.search(ctx, m, effort)
	}
	for _, w := range h.sizes.Wider(h.asked, h.building, h.broken) {
		all, err := search(w.All)
		if err != nil {
			return nil, err
		}
		if all.breaks >= h.breaks {
			continue
		}
		for _, one := range w.Each {
			if more, err := search(one); err != nil || more.breaks <= all.breaks {
				return more, err
			}
		}
		return all, nil
	}
	return nil, nil
}
