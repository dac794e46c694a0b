// Package policy decides which sheets a job may buy, before anything is laid out: what the yard has, what the crew
// carries, and what reaches the room. The layout, the cutting and the bound then know only those sizes, so that a plan
// never asks for a sheet that cannot be had or brought in and mentions it afterwards.
//
// What the yard has is binding. The other limits give way where nothing else works: where a product has no size left, and
// where the rules for seams are kept better with a further size than with all that are left: in a zone by itself (Relax), or
// among zones that bar each other's places, as two layers do (Wider). Then the smallest size that helps is allowed, with the
// reason.
//
// A project that says nothing of yard, crew or way in is offered every size.
package policy

import (
	"cmp"
	"math"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
)

// Policy is the sizes of a job that may be bought, and why others may not.
type Policy struct {
	imperial bool
	offers   [][]plan.Offer // of the job's products, in their order, each parallel to the product's sizes
	used     []bool         // by product: the job lines with it
}

// Of decides for every size of every product.
func Of(j *job.Job) *Policy {
	p := &Policy{imperial: j.Units != job.Metric, offers: make([][]plan.Offer, len(j.Products)), used: make([]bool, len(j.Products))}
	for i := range j.Products {
		product := &j.Products[i]
		rooms := lined(j, product.ID)
		p.used[i] = len(rooms) > 0
		for _, s := range product.Sizes {
			o := plan.Offer{Product: product.ID, Size: [2]length.Length{s.Length, s.Width}, Name: s.Name(p.imperial),
				Weight: math.Round(product.SheetWeight(s.Length, s.Width)*10) / 10}
			o.Limit, o.Reason, o.Source = hindrance(j, product, s, rooms)
			o.Offered = o.Limit == plan.NoLimit
			p.offers[i] = append(p.offers[i], o)
		}
		if p.used[i] && !slices.ContainsFunc(p.offers[i], func(o plan.Offer) bool { return o.Offered }) {
			p.relaxLeast(i)
		}
	}
	return p
}

// lined are the rooms with a lining of a product.
func lined(j *job.Job, id string) (rooms []*job.Room) {
	takes := func(zones []job.Zone) bool {
		return slices.ContainsFunc(zones, func(z job.Zone) bool { return slices.Contains(z.Layers, id) })
	}
	for i := range j.Rooms {
		r := &j.Rooms[i]
		if r.Ceiling != nil && takes(r.Ceiling.Lining) || slices.ContainsFunc(r.Walls, func(w job.Wall) bool { return takes(w.Lining) }) {
			rooms = append(rooms, r)
		}
	}
	return rooms
}

// hindrance is the first limit that keeps a size from being bought, and the reason.
func hindrance(j *job.Job, p *job.Product, s job.Size, rooms []*job.Room) (limit plan.Limit, reason, source plan.Fact) {
	whole := func(l length.Length) length.Length {
		if j.Units == job.Metric {
			return l - l%(10*length.Millimetre)
		}
		return l - l%length.Inch
	}
	if s.NotSold {
		return plan.LimitYard, plan.Tell("policy.yard"), plan.Entered()
	}
	if longest, ok := LongestSheet(j.Site.Access, s.Width); !ok {
		return plan.LimitWay, plan.Tell("policy.too-wide"), WayIn()
	} else if longest > 0 && s.Length > longest {
		return plan.LimitWay, plan.Tell("policy.too-long", "longest", whole(longest)), WayIn()
	}
	if j.Site.Access != (job.Access{}) && len(rooms) > 0 {
		widest := length.Length(0)
		for _, r := range rooms {
			widest = max(widest, fromCornerToCorner(r))
		}
		if s.Length > widest {
			return plan.LimitRoom, plan.Tell("policy.no-room", "longest", whole(widest)), plan.Tell("source.geometry")
		}
	}
	if longest := j.Site.Crew.Longest; longest > 0 && s.Length > longest {
		return plan.LimitCrew, plan.Tell("policy.crew-length", "longest", whole(longest)), plan.Entered()
	}
	if most, why := Heaviest(j); most > 0 && p.SheetWeight(s.Length, s.Width) > most {
		return plan.LimitCrew, plan.Tell("policy.crew-weight", "heaviest", plan.Kilograms(most)), why
	}
	return plan.NoLimit, plan.Fact{}, plan.Fact{}
}

// WayIn is where the limits of the way in come from.
func WayIn() plan.Fact { return plan.Tell("source.way-in") }

// candidates are the sizes of a product that may be allowed where nothing else works, the smallest first.
func (p *Policy) candidates(product int) (at []int) {
	for k, o := range p.offers[product] {
		if !o.Offered && o.Limit != plan.LimitYard {
			at = append(at, k)
		}
	}
	slices.SortStableFunc(at, func(a, b int) int {
		x, y := p.offers[product][a].Size, p.offers[product][b].Size
		return cmp.Compare(x[0].Times(x[1]), y[0].Times(y[1]))
	})
	return at
}

// relaxLeast allows the smallest size of a product that has none left.
func (p *Policy) relaxLeast(product int) {
	if at := p.candidates(product); len(at) > 0 {
		p.allow(product, at[0], plan.Tell("policy.no-smaller"))
	}
}

// allow lets a size be bought in spite of its limit.
func (p *Policy) allow(product, size int, why plan.Fact) {
	o := &p.offers[product][size]
	o.Offered, o.Why = true, why
}

// Job is the job with the sizes that may be bought. The receiver's job is not changed; what stays is shared.
func (p *Policy) Job(j *job.Job) *job.Job {
	limited := *j
	for i := range p.offers {
		if !slices.ContainsFunc(p.offers[i], func(o plan.Offer) bool { return !o.Offered }) || !p.used[i] {
			continue
		}
		if &limited.Products[0] == &j.Products[0] {
			limited.Products = slices.Clone(j.Products)
		}
		limited.Products[i].Sizes = nil
		for k, s := range j.Products[i].Sizes {
			if p.offers[i][k].Offered {
				limited.Products[i].Sizes = append(limited.Products[i].Sizes, s)
			}
		}
	}
	return &limited
}

// Offers are the sizes of the products that the job lines with.
func (p *Policy) Offers() []plan.Offer {
	all := []plan.Offer{} // none is an empty list, never null
	for i := range p.offers {
		if p.used[i] {
			all = append(all, p.offers[i]...)
		}
	}
	return all
}
