package proof

import (
	"fmt"
	"math"
	"strconv"
)

// sums: counts and money add up.
func (p *proof) sums() {
	a := p.plan
	if a.Format != "seamwright-plan" || a.Version != 1 {
		p.fail("format", "%q version %d", a.Format, a.Version)
	}
	bought, opened := map[string]int{}, 0.0
	count, stock := 0, map[string]int{}
	price := map[string]float64{}
	for _, s := range a.Sheets {
		opened += float64(s.Size[0]) * float64(s.Size[1])
		key := fmt.Sprintf("%s %.3f %.3f", s.Product, s.Size[0], s.Size[1])
		if s.Source == "buy" {
			bought[s.Product]++
			count++
			price[s.Product] += s.Price
		} else {
			stock[key]++
		}
	}
	if count != a.Summary.Bought {
		p.fail("count", "%d sheets are bought, the summary says %d", count, a.Summary.Bought)
	}
	if a.Summary.Bound > a.Summary.Bought {
		p.fail("bound", "the bound %d lies above the %d sheets bought", a.Summary.Bound, a.Summary.Bought)
	}
	for _, s := range a.Sheets {
		if s.Source != "stock" {
			continue
		}
		key, have := fmt.Sprintf("%s %.3f %.3f", s.Product, s.Size[0], s.Size[1]), 0
		for _, k := range p.asked.Stock {
			if fmt.Sprintf("%s %.3f %.3f", k.Product, float64(k.Size[0]), float64(k.Size[1])) == key {
				have += k.Count
			}
		}
		if stock[key] > have {
			p.fail("stock", "%d pieces of %s are used, %d are there", stock[key], key, have)
		}
	}
	net := 0.0
	for _, n := range p.panels {
		net += n.Outline.poly().area()
		for _, h := range n.Holes {
			net -= math.Abs(h.poly().area())
		}
	}
	for _, r := range a.Returns {
		if r.Sheet != "" {
			net += float64(r.Size[0]) * float64(r.Size[1])
		}
	}
	if opened > 0 && !near(a.Summary.Waste, 1-net/opened, 0.001) {
		p.fail("waste", "%.4f of the sheets opened is waste, the summary says %.4f", 1-net/opened, a.Summary.Waste)
	}
	screws := 0
	joints := map[string]float64{}
	for _, s := range a.Surfaces {
		for _, z := range s.Zones {
			screws += z.Fasteners.Count
			if z.Fasteners.Count != len(z.Fasteners.Points) {
				p.fail("count", "%s: %d fasteners at %d points", s.ID, z.Fasteners.Count, len(z.Fasteners.Points))
			}
			for _, j := range z.Joints {
				joints[j.Kind] += math.Hypot(float64(j.To[0]-j.From[0]), float64(j.To[1]-j.From[1]))
			}
		}
	}
	if screws != a.Summary.Screws {
		p.fail("count", "%d screws stand in the zones, the summary says %d", screws, a.Summary.Screws)
	}
	for kind, said := range map[string]mm{"butt": a.Summary.Butt, "tapered": a.Summary.Tapered, "mixed": a.Summary.Mixed} {
		if !near(joints[kind], float64(said), 0.01*float64(1+len(a.Surfaces))) {
			p.fail("joints", "%.1f mm of %s joint, the summary says %.1f", joints[kind], kind, said)
		}
	}
	p.money(bought, price)
}

func (p *proof) money(bought map[string]int, price map[string]float64) {
	a := p.plan
	const cent = 0.005
	material := 0.0
	rows, cost := map[string]int{}, map[string]float64{}
	for _, r := range a.Takeoff {
		material += r.Cost
		if !near(r.Cost, float64(r.Buy)*r.Price, cent) {
			p.fail("money", "%s: %d at %.2f cost %.2f, not %.2f", r.Item, r.Buy, r.Price, float64(r.Buy)*r.Price, r.Cost)
		}
		if r.Group == "sheets" {
			rows[r.Supply] += r.Buy
			cost[r.Supply] += r.Cost
		}
	}
	for product, n := range bought {
		if rows[product] != n || !near(cost[product], price[product], cent) {
			p.fail("takeoff", "%d sheets of %s for %.2f are bought, the takeoff says %d for %.2f", n, product, price[product], rows[product], cost[product])
		}
	}
	for product, n := range rows {
		if n != bought[product] {
			p.fail("takeoff", "the takeoff buys %d sheets of %s, the plan cuts %d", n, product, bought[product])
		}
	}
	if !near(a.Cost.Material, material, cent) {
		p.fail("money", "material costs %.2f, the rows add up to %.2f", a.Cost.Material, material)
	}
	if !near(a.Cost.Total, a.Cost.Material+a.Cost.Labour+a.Cost.Tax, cent) {
		p.fail("money", "the total is %.2f, not %.2f", a.Cost.Total, a.Cost.Material+a.Cost.Labour+a.Cost.Tax)
	}
	rate := 0.0
	if t := p.asked.Site.Tax; t != "" {
		rate, _ = strconv.ParseFloat(t[:len(t)-2], 64)
	}
	if !near(a.Cost.Tax, a.Cost.Material*rate/100, 0.01) {
		p.fail("money", "the tax on %.2f at %v %% is %.2f", a.Cost.Material, rate, a.Cost.Tax)
	}
	for _, s := range a.Sheets {
		for _, c := range p.asked.Catalog {
			if c.ID != s.Product || s.Source != "buy" {
				continue
			}
			for _, z := range c.Sizes {
				said, _ := strconv.ParseFloat(z.Price, 64)
				if near(float64(z.Size[0]), float64(s.Size[0]), epsLength) && near(float64(z.Size[1]), float64(s.Size[1]), epsLength) && !near(said, s.Price, cent) {
					p.fail("money", "%s costs %.2f, the file says %s", s.ID, s.Price, z.Price)
				}
			}
		}
	}
}
