package layout

import (
	"cmp"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
)

// Joints between upright courses stand on members; on backing, or between members where blocks may carry them, where the
// sheets' widths put them. Those that the user has fixed stand where they are.

// mostLines bounds the lines for joints between upright courses. Where narrow boards would stand at more places the first
// are looked at, counted from the low end by the widest sheet first, so that there always is a way across.
const mostLines = 1000

// lines are the lines for joints between upright courses, both ends of the field included, in order: the lawful ones and
// those fixed by hand; with relaxed also those that break rules, each with their weight.
func (f *Field) lines(widths []length.Length, relaxed bool) []line {
	low, high := f.Box.Y, f.Box.MaxY()
	ls := []line{{at: low, end: true}, {at: high, end: true}}
	for _, iv := range f.voids {
		ls = append(ls, line{at: iv.lo, end: true}, line{at: iv.hi, end: true})
	}
	for _, v := range slices.Concat(f.goingOn(true), f.fixedEdges()) {
		if !f.inVoid(v) {
			ls = append(ls, line{at: v, pinned: true, weight: Weigh(f.edgeBreaks(v))})
		}
	}
	seen := map[length.Length]bool{}
	add := func(v length.Length) {
		if v <= low || v >= high || seen[v] || len(seen) >= mostLines || f.inVoid(v) {
			return
		}
		seen[v] = true
		if w := Weigh(f.edgeBreaks(v)); w == 0 || relaxed {
			ls = append(ls, line{at: v, weight: w})
		}
	}
	f.candidateLines(widths, add)
	if relaxed {
		for _, from := range slices.Clone(ls) {
			add(from.at + middleCourse)
			add(from.at - middleCourse)
			for _, w := range widths {
				for k := w; k < high-low; k += w {
					add(from.at + k)
					add(from.at - k)
				}
			}
		}
	}
	slices.SortStableFunc(ls, func(a, b line) int { return cmp.Compare(a.at, b.at) })
	return slices.CompactFunc(ls, func(a, b line) bool { return a.at == b.at })
}

// candidateLines names the places that the rules of bearing allow, some of them more than once.
func (f *Field) candidateLines(widths []length.Length, add func(length.Length)) {
	low, high := f.Box.Y, f.Box.MaxY()
	for _, m := range f.members {
		add(m.At)
	}
	for _, m := range f.short {
		if f.borne(m.At) {
			add(m.At)
		}
	}
	if f.Backed || f.Blocked {
		if f.Blocked && !f.Backed {
			for _, v := range f.bays() {
				add(v)
			}
		}
		for _, w := range widths {
			for k := w; k < high-low; k += w {
				add(low + k)
				add(high - k)
			}
		}
		for _, v := range f.fixedEdges() {
			for _, w := range widths {
				add(v + w)
				add(v - w)
			}
		}
	}
	if f.Backed {
		for _, l := range f.avoid[1] {
			add(l.At + l.Clear)
			add(l.At - l.Clear)
		}
	}
}

// fixedEdges are the places where the user has fixed the joint between two upright courses, in order; those that lie
// outside the field, or in an opening that parts it, are left out.
func (f *Field) fixedEdges() (vs []length.Length) {
	for _, p := range f.Zone.Pins {
		if p.Edge && p.Seam > f.Box.Y && p.Seam < f.Box.MaxY() && !f.inVoid(p.Seam) {
			vs = append(vs, p.Seam)
		}
	}
	slices.Sort(vs)
	return slices.Compact(vs)
}

// isVoid tells whether two lines are the edges of an opening that parts the zone.
func (f *Field) isVoid(low, high length.Length) bool {
	return slices.Contains(f.voids, interval{low, high})
}

// edgeBreaks are the rules that a joint between upright courses at v breaks by its place alone.
func (f *Field) edgeBreaks(v length.Length) (breaks []Break) {
	at := f.point(shape.Point{X: f.Box.X, Y: v})
	if !f.borneAnyhow(v) {
		breaks = append(breaks, Break{Rule: RuleBearing, At: at,
			Says: plan.Tell("layout.upright-unsupported")})
	}
	return append(breaks, f.lineBreaks(v)...)
}

// borneAnyhow tells whether a member, backing or blocks carry a joint between upright courses.
func (f *Field) borneAnyhow(v length.Length) bool {
	return f.Backed || f.Blocked && f.blockFits(v) || f.borne(v) || f.doubledAt(v) && slices.Contains(f.goingOn(true), v)
}

// lineBreaks are the rules on what runs beside it that a joint between courses at v breaks.
func (f *Field) lineBreaks(v length.Length) (breaks []Break) {
	at := f.point(shape.Point{X: f.Box.X, Y: v})
	if rule, ok := f.clearOfLines(v, false); !ok {
		breaks = append(breaks, Break{Rule: rule, At: at, Says: plan.Tell("layout.long-joint-line")})
	}
	if !f.clearOfBacking(v, false) {
		breaks = append(breaks, Break{Rule: RuleBacking, At: at, Says: plan.Tell("layout.long-joint-backing")})
	}
	return breaks
}

// narrowStrips are the upright courses that are narrower than the rules allow.
func (f *Field) narrowStrips(bands []Band) (breaks []Break) {
	ends := func(v length.Length) line { return line{at: v, end: v == f.Box.Y || v == f.Box.MaxY() || f.inVoid(v)} }
	fixed := f.fixedEdges()
	for i := range bands {
		low, high := ends(bands[i].V0), ends(bands[i].V1)
		if _, ok := f.stripCost(&low, &high, false); ok || f.isVoid(low.at, high.at) {
			continue
		}
		why := plan.Tell("layout.narrow-sheet")
		if slices.Contains(fixed, low.at) || slices.Contains(fixed, high.at) {
			why = plan.Tell("layout.narrow-sheet-fixed")
		}
		breaks = append(breaks, Break{Rule: RuleLeastCourse, At: f.point(shape.Point{X: f.Box.X, Y: low.at}), Says: why})
	}
	return breaks
}

// pinnedEdge tells what a joint between upright courses that the user has fixed breaks, and where it could stand lawfully;
// not ok: it breaks nothing.
func (f *Field) pinnedEdge(v length.Length, tapered bool) (Break, bool) {
	rule := f.brokenEdge(v)
	if rule == "" && !tapered && f.nearOpening(v) {
		rule = RuleOpening
	}
	if rule == "" {
		return Break{}, false
	}
	b := Break{Rule: RulePin, At: f.point(shape.Point{X: f.Box.X, Y: v}), Says: fixedBreaks(rule),
		Pin: &PinBreak{Edge: true, Seam: v, Rule: rule}}
	f.nearestEdge(b.Pin)
	return b, true
}

// brokenEdge names the gravest rule that a joint between upright courses breaks by its place alone, "" where it breaks none.
func (f *Field) brokenEdge(v length.Length) (rule string) {
	breaks := f.edgeBreaks(v)
	for i := range breaks {
		if rule == "" || Weight(breaks[i].Rule) > Weight(rule) {
			rule = breaks[i].Rule
		}
	}
	if least := f.Rules.LeastCourse; rule == "" && (v-f.Box.Y < least || f.Box.MaxY()-v < least || f.sliver(v)) {
		rule = RuleLeastCourse
	}
	return rule
}

// nearestEdge finds the lawful place nearest to a joint that the user has fixed.
func (f *Field) nearestEdge(p *PinBreak) {
	for _, l := range f.lines(f.widths, false) {
		if l.end || l.pinned || f.brokenEdge(l.at) != "" {
			continue
		}
		if !p.Found || (l.at-p.Seam).Abs() < (p.Nearest-p.Seam).Abs() {
			p.Nearest, p.Found = l.at, true
		}
	}
}

// idleEdge tells whether a joint that the user has fixed between upright courses is not used, and why.
func (f *Field) idleEdge(v length.Length) (Break, bool) {
	at := f.point(shape.Point{X: f.Box.X, Y: min(max(v, f.Box.Y), f.Box.MaxY())})
	b := Break{Rule: RulePin, At: at, Pin: &PinBreak{Edge: true, Seam: v}}
	switch {
	case f.Run == job.RunAcross:
		b.Says = plan.Tell("layout.no-upright-courses")
	case !slices.Contains(f.fixedEdges(), v):
		b.Says = plan.Tell("layout.fixed-not-used")
		f.nearestEdge(b.Pin)
	default:
		return b, false
	}
	return b, true
}
