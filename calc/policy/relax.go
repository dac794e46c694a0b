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
			p.allow(x.product, x.size, needed(x.surface))
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
				if n := layout.LeastBreach(sold(z, asked.Products[product].Sizes[k]), &asked.Rules); n < least {
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

// sold is a zone whose product comes in one size more.
func sold(z *survey.Zone, s job.Size) *survey.Zone {
	more, product := *z, *z.Product
	product.Sizes = append(slices.Clone(product.Sizes), s)
	more.Product = &product
	return &more
}

// Wider is a policy with more sizes of one product: all that a limit leaves out, and each of them by itself, the smallest
// first.
type Wider struct {
	All  *Policy
	Each []*Policy
}

// Wider lists what may help where layouts break rules that no zone shows by itself: further sizes of every product that one of
// the surfaces is lined with.
func (p *Policy) Wider(j *job.Job, b *survey.Building, surfaces []string) (all []Wider) {
	seen := map[int]bool{}
	for _, s := range b.Surfaces {
		if !slices.Contains(surfaces, s.ID) {
			continue
		}
		for _, z := range s.Zones {
			if z.Product == nil {
				continue
			}
			product := slices.IndexFunc(j.Products, func(q job.Product) bool { return q.ID == z.Product.ID })
			at := p.candidates(product)
			if seen[product] || len(at) == 0 {
				continue
			}
			seen[product] = true
			w := Wider{All: p.with(product, at, s.ID)}
			for _, k := range at {
				w.Each = append(w.Each, p.with(product, []int{k}, s.ID))
			}
			all = append(all, w)
		}
	}
	return all
}

// with is the policy with further sizes of a product, for a surface.
func (p *Policy) with(product int, sizes []int, surface string) *Policy {
	more := *p
	more.offers = slices.Clone(p.offers)
	more.offers[product] = slices.Clone(p.offers[product])
	for _, k := range sizes {
		more.allow(product, k, needed(surface))
	}
	return &more
}

// needed is the reason for a size that a surface needs.
func needed(surface string) plan.Fact { return plan.Tell("policy.needed-by", "surface", surface) }

// AllowAs allows what a plan of the job was made with.
func (p *Policy) AllowAs(offers []plan.Offer) {
	for _, o := range offers {
		for i := range p.offers {
			for k := range p.offers[i] {
				if own := &p.offers[i][k]; o.Offered && own.Product == o.Product && own.Size == o.Size {
					own.Offered, own.Why = true, o.Why
				}
			}
		}
	}
}
