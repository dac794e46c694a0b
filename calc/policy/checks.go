package policy

import (
	"slices"
	"strings"

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
		add := func(level plan.Level, message, source string) {
			checks = append(checks, plan.Check{Rule: Rule, Level: level, Message: message, Source: source})
		}
		var reasons []string
		for _, o := range p.offers[i] {
			switch {
			case o.Offered && o.Limit == plan.LimitCrew:
				add(plan.Caution, o.Product+" "+o.Name+" is bought though "+o.Reason+": "+o.Why, o.Source)
			case !o.Offered && o.Limit != plan.LimitYard && !slices.Contains(reasons, o.Reason):
				reasons = append(reasons, o.Reason)
				add(plan.Note, o.Product+" is planned without "+strings.Join(p.without(i, o.Reason), ", ")+": "+o.Reason, o.Source)
			}
		}
	}
	return checks
}

// without names the sizes of a product that are left out for one reason.
func (p *Policy) without(product int, reason string) (names []string) {
	for _, o := range p.offers[product] {
		if !o.Offered && o.Reason == reason {
			names = append(names, o.Name)
		}
	}
	return names
}
