package layout

import (
	"fmt"
	"slices"

	"seamwright/calc/length"
)

// Where no lawful layout exists the least unlawful one is looked for: breaches are weighed by what they put at risk, and
// one of a graver kind outweighs any number of lighter ones. Common practice, no source.
const (
	Looks  = 1       // seen, or felt while working: slivers, other courses than the ones asked for
	Cracks = 1000    // the joint is likely to open: no stagger, in line with an opening's edge or with a seam behind it
	Holds  = 1000000 // what holds the board or stops fire is missing: bearing, four corners, seams through all layers
)

// Weight says how grave a breach of a rule is.
func Weight(rule string) int {
	switch rule {
	case RuleBearing, RuleSize:
		return 2 * Holds // an edge that hangs free is worse than one too near to another
	case RuleFourCorners, RuleLayers, RuleOpposite:
		return Holds
	case RuleStagger, RuleOpening, RuleBacking, RuleControl, RuleEdges:
		return Cracks
	default:
		return Looks
	}
}

// Weight is how grave a break is. A seam fixed by hand weighs like the rule that it breaks; one that is not used is a wish
// not obeyed, which only what holds the board may outweigh.
func (b *Break) Weight() int {
	switch {
	case b.Pin == nil:
		return Weight(b.Rule)
	case b.Pin.Rule == "":
		return Holds
	default:
		return Weight(b.Pin.Rule)
	}
}

// Weigh sums the weights of breaks.
func Weigh(breaks []Break) (sum int) {
	for i := range breaks {
		sum += breaks[i].Weight()
	}
	return sum
}

// oneLine is how near two end joints of adjoining courses make one line, on which four sheets meet in a point.
const oneLine = length.Inch / 8

// ClashWeight sums the weights of the end joints of two adjoining rows that stand nearer to each other than the stagger.
func ClashWeight(a, b []length.Length, stagger length.Length) (sum int) {
	for i, k := 0, 0; i < len(a) && k < len(b); {
		d := a[i] - b[k]
		switch {
		case d.Abs() >= stagger:
		case d.Abs() <= oneLine:
			sum += Weight(RuleFourCorners)
		default:
			sum += Weight(RuleStagger)
		}
		if d < 0 {
			i++
		} else {
			k++
		}
	}
	return sum
}

// Clashing tells which rule the end joints of a row break that stand too near to those of adjoining rows, picked by row;
// not ok: none. Seams that the user has fixed on both sides are no fault of the other rules.
func (s *Scheme) Clashing(row int, picked func(row int) *Choice) (b Break, ok bool) {
	r, worst, fixed := &s.Rows[row], 0, true
	for _, k := range s.Near[row] {
		other := picked(k)
		if other == nil {
			continue
		}
		for _, u := range picked(row).Seams {
			for _, w := range other.Seams {
				if d := (u - w).Abs(); d < s.Stagger() {
					worst = max(worst, ClashWeight([]length.Length{u}, []length.Length{w}, s.Stagger()))
					fixed = fixed && r.pinned(u) && s.Rows[k].pinned(w)
				}
			}
		}
	}
	if worst == 0 {
		return b, false
	}
	sp := r.Spans[0]
	b = Break{Rule: RuleStagger, At: s.At((sp.U0+sp.U1)/2, sp.V0)}
	if worst >= Weight(RuleFourCorners) {
		b.Rule = RuleFourCorners
	}
	if b.Message = fmt.Sprintf("course %d: the least piece, the members and the sheets for sale leave no end joints that keep the stagger: the rules stagger, least piece and bearing contradict each other", sp.Band+1); fixed {
		b.Message = fmt.Sprintf("course %d: the seams fixed by hand here and in the next course stand too near to each other", sp.Band+1)
	}
	return b, true
}

// pinned tells whether the user has fixed the seam at u.
func (r *Row) pinned(u length.Length) bool {
	return slices.ContainsFunc(r.Places, func(p Place) bool { return p.pinned && p.U == u })
}
