package policy

import (
	"slices"

	"seamwright/calc/plan"
)

// Rule is the id of the policy's findings.
const Rule = "sheet-sizes"

// Checks tell which sizes were left out for the crew or the way in, by the limit that they pass, and where the crew's limit
// gave way. Where the way in did, the finding about the way in says so; what the yard does not have is the user's own word
// and stands only among the offers.
func (p *Policy) Checks() (checks []plan.Check) {
	for i := range p.offers {
		if !p.used[i] {
			continue
		}
		add := func(level plan.Level, what, source plan.Fact) {
			checks = append(checks, plan.Check{Rule: Rule, Level: level, Says: what, Source: source})
		}
		var told []plan.Offer // one of each reason
		for _, o := range p.offers[i] {
			switch {
			case o.Offered && o.Limit == plan.LimitCrew:
				add(plan.Caution, plan.Tell("policy.bought-though", "product", o.Product, "size", o.Name, "reason", o.Reason, "why", o.Why), o.Source)
			case !o.Offered && o.Limit != plan.LimitYard && !slices.ContainsFunc(told, o.SameReason):
				told = append(told, o)
				add(plan.Note, plan.Tell("policy.planned-without", "product", o.Product, "sizes", p.without(i, o), "reason", o.Reason), o.Source)
			}
		}
	}
	return checks
}

// without names the sizes of a product that are left out for the reason of one of them.
func (p *Policy) without(product int, like plan.Offer) (names []plan.Fact) {
	for _, o := range p.offers[product] {
		if !o.Offered && o.SameReason(like) {
			names = append(names, plan.Verbatim(o.Name))
		}
	}
	return names
}
