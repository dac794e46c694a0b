package layout

import (
	"slices"

	"seamwright/calc/length"
	"seamwright/calc/plan"
)

// Where no lawful layout exists the least unlawful one is looked for: breaches are weighed by what they put at risk, and
// one of a graver kind outweighs any number of lighter ones. Common practice, no source.
const (
	Looks  = 1       // seen, or felt while working: slivers, other courses than the ones asked for
	Cracks = 1000    // the joint is likely to open: no stagger, in line with an opening's edge or with a seam behind it
	Holds  = 1000000 // what holds the board or stops fire is missing: bearing, four corners, seams through all layers
)

// Uncoverable weighs a row that no sheet for sale can cover: more than any broken rules.
const Uncoverable = 1000 * Holds

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
	r, worst, fixed, seam := &s.Rows[row], 0, true, length.Length(0)
	for _, k := range s.Near[row] {
		other := picked(k)
		if other == nil {
			continue
		}
		for _, u := range picked(row).Seams {
			for _, w := range other.Seams {
				if d := (u - w).Abs(); d < s.Stagger() {
					if weight := ClashWeight([]length.Length{u}, []length.Length{w}, s.Stagger()); weight > worst {
						worst, seam = weight, u
					}
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
	b.Says = plan.Tell("layout.no-stagger", "course", sp.Band+1)
	if fixed {
		b.Says = plan.Tell("layout.fixed-too-near")
		b.Pin = &PinBreak{Course: s.courseAt(r, seam), Seam: seam, Rule: b.Rule}
		b.Pin.Nearest, b.Pin.Found = s.nearestSpot(r, b.Pin.Course, seam)
	}
	return b, true
}

// courseAt is the course, counted from 1, whose end joint stands at u in a row.
func (s *Scheme) courseAt(r *Row, u length.Length) int {
	k := slices.IndexFunc(r.Spans, func(sp Span) bool { return sp.U0 < u && u < sp.U1 })
	return r.Spans[k].Band + 1
}

// nearestSpot is the lawful place of a row, among those that a search knows, nearest to a seam that the user has fixed;
// other fixed seams stay where they stand.
func (s *Scheme) nearestSpot(r *Row, course int, seam length.Length) (u length.Length, ok bool) {
	places, ok := s.Spots(course, seam, r.U1-r.U0)
	if k := places.Nearest(seam); ok && k >= 0 {
		return places.Places[k].At, true
	}
	return 0, false
}

// pinned tells whether the user has fixed the seam at u.
func (r *Row) pinned(u length.Length) bool {
	return slices.ContainsFunc(r.Places, func(p Place) bool { return p.pinned && p.U == u })
}
