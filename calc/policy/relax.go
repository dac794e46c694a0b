package policy

import (
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/layout"
	"seamwright/calc/memo"
	"seamwright/calc/plan"
	"seamwright/calc/survey"
)

// wish is a size that a zone asks for in spite of a limit.
type wish struct {
	product, size int
	surface       string
}

// Relax allows further sizes where zones have a better layout with them by the rules for seams, and tells whether there
// are any. asked is the job with every size, b the survey of the job with those that may be bought.
func (p *Policy) Relax(asked *job.Job, b *survey.Building, m *memo.Memo) bool {
	if !slices.ContainsFunc(p.Offers(), func(o plan.Offer) bool { return !o.Offered && o.Limit != plan.LimitYard }) {
		return false
	}
	var all []wish
	frame := memo.Of(p.offers)
	for i := range b.Rooms {
		var w memo.Writer
		w.Text("wishes")
		w.Add(frame)
		w.Add(b.Rooms[i].Key)
		all = append(all, memo.Do(m, w.Key(), func() []wish { return p.wishes(asked, &b.Rooms[i]) })...)
	}
	for _, x := range all {
		if !p.offers[x.product][x.size].Offered {
			p.allow(x.product, x.size, "without it "+x.surface+" has no layout that keeps the rules as well")
		}
	}
	return len(all) > 0
}

// wishes are the sizes that the zones of a room ask for: for each zone that breaks a rule however it is laid out, the
// smallest with which it breaks least.
func (p *Policy) wishes(asked *job.Job, r *survey.Room) (all []wish) {
	for _, s := range r.Surfaces {
		for _, z := range s.Zones {
			if z.Product == nil {
				continue
			}
			product := slices.IndexFunc(asked.Products, func(q job.Product) bool { return q.ID == z.Product.ID })
			at := p.candidates(product)
			if len(at) == 0 {
				continue
			}
			least, pick := layout.LeastBreach(z, &asked.Rules), -1
			for _, k := range at {
				if least == 0 {
					break
				}
				if n := layout.LeastBreach(with(z, asked.Products[product].Sizes[k]), &asked.Rules); n < least {
					least, pick = n, k
				}
			}
			if pick >= 0 {
				all = append(all, wish{product, pick, s.ID})
			}
		}
	}
	return all
}

// with is a zone whose product comes in one size more.
func with(z *survey.Zone, s job.Size) *survey.Zone {
	more, product := *z, *z.Product
	product.Sizes = append(slices.Clone(product.Sizes), s)
	more.Product = &product
	return &more
}
