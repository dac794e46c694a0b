package layout

import (
	"cmp"
	"context"
	"math"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/calc/survey"
)

// Where rules leave no way to cover a row, every place is looked at at which a joint could stand at all, and those ways are
// kept whose breaches weigh least (see Weight). What the way that is chosen breaks is told joint by joint, with the rules
// that contradict each other: each of them alone, if it were dropped, would let the row be covered.

// Stage is how far the rules for one row are relaxed.
type Stage int

// Stages of relaxing.
const (
	Lawful Stage = iota
	Relaxed
)

// rowRules are the rules that a row alone may have to break, in the order in which they are named.
var rowRules = [...]string{RuleBearing, RuleOpening, RuleLeastPiece, RuleBacking, RuleLayers, RuleOpposite}

// relax lists the ways to cover a row that break least.
func (s *Scheme) relax(r *Row) {
	r.Stage = Relaxed
	r.Places = s.places(r)
	r.graph = s.newGraph(r)
	broken := make([][]string, len(r.graph.at)) // by an end joint at a place
	for i := range r.Places {
		if !r.Places[i].pinned {
			broken[i+1] = s.placeRules(r, r.Places[i].U)
		}
	}
	for _, rule := range rowRules {
		alone := func(i, to int) int {
			if s.shorts(r, r.graph.at[i], r.graph.at[to]) > 0 && rule != RuleLeastPiece || slices.ContainsFunc(broken[to], func(b string) bool { return b != rule }) {
				return 1
			}
			return 0
		}
		if least := r.graph.least(alone); least[0] == 0 {
			r.conflict = append(r.conflict, rule)
		}
	}
	weight := func(i, to int) (w int) {
		for _, b := range broken[to] {
			w += Weight(b)
		}
		return w + s.shorts(r, r.graph.at[i], r.graph.at[to])*Weight(RuleLeastPiece)
	}
	if least := r.graph.least(weight); least[0] < math.MaxInt {
		r.Weight = least[0]
		r.graph.keep(least, weight)
	}
}

// LeastBreach is the weight of what the best layout of a zone by itself breaks of the rules, 0 where it breaks none. A row
// that no sheet for sale covers outweighs all rules.
func LeastBreach(z *survey.Zone, rules *job.Rules) int {
	best := math.MaxInt
	for _, s := range Schemes(context.Background(), z, rules, nil) {
		sum := Weigh(s.Breaks)
		for r := range s.Rows {
			if s.Rows[r].graph.paths[0] == 0 {
				sum += Uncoverable
			}
			sum += s.Rows[r].Weight
		}
		best = min(best, sum)
	}
	return best
}

// placeRules are the rules that an end joint at u breaks by its place alone.
func (s *Scheme) placeRules(r *Row, u length.Length) (rules []string) {
	for i := range r.Spans {
		sp := &r.Spans[i]
		if u <= sp.U0 || u >= sp.U1 {
			continue
		}
		if !s.carried(u) && !s.bearing(u, sp.seam(u)) {
			rules = append(rules, RuleBearing)
		}
		if s.openingBars(sp, u) {
			rules = append(rules, RuleOpening)
		}
	}
	if rule, ok := s.clearOfLines(u, true); !ok {
		rules = append(rules, rule)
	}
	if !s.clearOfBacking(u, true) {
		rules = append(rules, RuleBacking)
	}
	return rules
}

// shorts counts the pieces of a stretch of a row that are shorter than the least piece.
func (s *Scheme) shorts(r *Row, from, to length.Length) (n int) {
	for k := range r.Spans {
		sp := &r.Spans[k]
		if a, b := max(from, sp.U0), min(to, sp.U1); a < b && s.shortPiece(r, sp, a, b) {
			n++
		}
	}
	return n
}

// shortPiece tells whether a piece of a span is shorter than the least piece, which neither the span nor the user asks for.
func (s *Scheme) shortPiece(r *Row, sp *Span, a, b length.Length) bool {
	return b-a < s.Rules.LeastPiece && !(a == sp.U0 && b == sp.U1) && !s.pinnedAt(r, a, b)
}

// least is the least weight of a way from every node to the end, as a step from node to node weighs; math.MaxInt where
// there is none.
func (g *graph) least(weight func(from, to int) int) []int {
	n := len(g.at)
	least := make([]int, n)
	for i := n - 2; i >= 0; i-- {
		least[i] = math.MaxInt
		for _, st := range g.steps[i] {
			if least[st.To] < math.MaxInt {
				least[i] = min(least[i], weight(i, st.To)+least[st.To])
			}
		}
	}
	return least
}

// keep leaves only the steps of ways of least weight.
func (g *graph) keep(least []int, weight func(from, to int) int) {
	for i := len(g.at) - 2; i >= 0; i-- {
		g.steps[i] = slices.DeleteFunc(g.steps[i], func(st Step) bool { return least[st.To] == math.MaxInt || weight(i, st.To)+least[st.To] > least[i] })
		g.paths[i] = 0
		for _, st := range g.steps[i] {
			g.paths[i] = min(pathLimit, g.paths[i]+g.paths[st.To])
		}
	}
}

// Loosened lists choices with pieces shorter than the least piece for a row that has at most limit lawful ones, at most as
// many more, those with the fewest such pieces first: for where all lawful choices of adjoining rows stand in each other's
// way. Each weighs what it breaks.
func (s *Scheme) Loosened(row int, prices Prices, limit int) (choices []Choice) {
	r := s.Rows[row]
	if r.Stage != Lawful || r.graph.paths[0] > int64(limit) || s.Zone.Pattern != job.Staggered {
		return nil
	}
	lawful := int(r.graph.paths[0])
	r.Stage = Relaxed
	r.graph = s.newGraph(&r)
	for _, p := range r.graph.cheapest(prices, lawful+limit) {
		c := s.choice(&r, p)
		for i := range c.Pieces {
			if k := &c.Pieces[i]; s.shortPiece(&r, &r.Spans[k.Span], k.Cell.X, k.Cell.MaxX()) {
				c.Weight += Weight(RuleLeastPiece)
			}
		}
		if c.Weight > 0 {
			choices = append(choices, c)
		}
	}
	slices.SortStableFunc(choices, func(a, b Choice) int { return cmp.Compare(a.Weight, b.Weight) })
	return choices[:min(len(choices), limit)]
}

// Breaches tells what a choice for a row breaks, joint by joint and piece by piece.
func (s *Scheme) Breaches(row int, c *Choice) (breaks []Break) {
	r := &s.Rows[row]
	if r.Stage == Lawful && c.Weight == 0 {
		return nil
	}
	add := func(rule string, u, v length.Length) {
		b := Break{Rule: rule, At: s.point(shape.Point{X: u, Y: v}), Says: r.contradiction(rule)}
		if !slices.ContainsFunc(breaks, func(o Break) bool { return o.Rule == b.Rule && o.At == b.At }) {
			breaks = append(breaks, b)
		}
	}
	if r.Stage == Relaxed {
		for _, u := range c.Seams {
			if r.pinned(u) {
				continue
			}
			for _, rule := range s.placeRules(r, u) {
				add(rule, u, r.Spans[0].V0)
			}
		}
	}
	for i := range c.Pieces {
		p := &c.Pieces[i]
		if s.shortPiece(r, &r.Spans[p.Span], p.Cell.X, p.Cell.MaxX()) {
			add(RuleLeastPiece, p.Cell.X, p.Cell.Y)
		}
	}
	return breaks
}

// named is a rule in a sentence.
func named(rule string) plan.Fact { return plan.Tell("rule." + rule) }

// fixedBreaks tells that a joint fixed by hand breaks a rule.
func fixedBreaks(rule string) plan.Fact {
	return plan.Tell("layout.fixed-breaks", "rule", named(rule))
}

// contradiction says why a rule is broken: which rules are in each other's way, and that this one gives way.
func (r *Row) contradiction(rule string) plan.Fact {
	switch {
	case len(r.conflict) == 1 && r.conflict[0] == RuleBearing:
		return plan.Tell("layout.no-member")
	case r.Stage == Lawful:
		return plan.Tell("layout.short-piece")
	case len(r.conflict) < 2:
		return plan.Tell("layout.no-lawful-joints", "rule", named(rule))
	}
	var rules []plan.Fact
	for _, c := range r.conflict {
		rules = append(rules, named(c))
	}
	return plan.Tell("layout.contradiction", "rules", rules, "rule", named(rule))
}
