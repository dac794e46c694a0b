package price

import (
	"slices"

	"seamwright/calc/finish"
	"seamwright/calc/job"
	"seamwright/calc/money"
	"seamwright/calc/plan"
)

// OneLength gives layers the screws of longer ones where one length for both is cheaper by whole boxes than two, and where
// the longer screw reaches no deeper behind any of them than screws may. Two lengths at a time are joined, those first that
// save most, until nothing is saved. The plan's screws are changed before they are counted.
func OneLength(j *job.Job, p *plan.Plan) {
	for {
		needs := finish.ScrewNeeds(j, p)
		var from, to job.Supply
		most := money.Money(0)
		for _, short := range needs {
			for _, long := range needs {
				if saved := saving(j, p, short, long); saved > most {
					most, from, to = saved, supply(j, short.Supply), supply(j, long.Supply)
				}
			}
		}
		if most == 0 {
			return
		}
		lengthen(j, p, from, to)
	}
}

// saving is what is saved where the layers with one screw take a longer one of the same type that other layers take anyway;
// 0 where they may not.
func saving(j *job.Job, p *plan.Plan, short, long finish.ScrewNeed) money.Money {
	a, b := supply(j, short.Supply), supply(j, long.Supply)
	if a.ID == "" || b.ID == "" || a.Type != b.Type || a.Length >= b.Length {
		return 0
	}
	moved := short
	for i := range p.Surfaces {
		for k := range p.Surfaces[i].Zones {
			f := &p.Surfaces[i].Zones[k].Fasteners
			if f.Supply == a.ID && f.Longest < b.Length {
				return 0
			}
			if f.Short > 0 && f.ShortSupply == a.ID {
				moved.Count -= f.Short // these are short for what runs behind
			}
		}
	}
	kept := short
	kept.Count -= moved.Count
	together := long
	together.Count += moved.Count
	return paid(j, a, short) + paid(j, b, long) - paid(j, a, kept) - paid(j, b, together)
}

// paid is the price of the boxes for so many screws.
func paid(j *job.Job, s job.Supply, n finish.ScrewNeed) money.Money {
	_, cost := coverWith(j, s, n.WithLoss(j), "count")
	return cost
}

// lengthen gives every layer with one screw another.
func lengthen(j *job.Job, p *plan.Plan, from, to job.Supply) {
	for i := range p.Surfaces {
		for k := range p.Surfaces[i].Zones {
			if f := &p.Surfaces[i].Zones[k].Fasteners; f.Supply == from.ID {
				f.Basis = f.Basis.Also(plan.Tell("price.longer-screw", "long", to.Length))
				f.Supply, f.Length = to.ID, to.Length
			}
		}
	}
}

// supply finds a supply by its id.
func supply(j *job.Job, id string) job.Supply {
	if i := slices.IndexFunc(j.Supplies, func(s job.Supply) bool { return s.ID == id }); i >= 0 {
		return j.Supplies[i]
	}
	return job.Supply{}
}
