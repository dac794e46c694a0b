package layout

import (
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/survey"
)

// EdgeSpots lists where the joint between an upright course and the next, counted from 1, could be moved to: every member
// behind it, and where backing or blocks carry it also the places a step apart and those of whole sheets. A spot is lawful
// when the joint breaks no rule there by itself and lawful courses cover the zone on both sides of it; joints fixed by
// hand, other than this one, stay where they are, all others are planned anew. Gives names one that would be too near.
// Not ok: the courses lie across the members, or there is no such joint.
func (s *Scheme) EdgeSpots(course int, step length.Length) (p plan.SeamPlaces, ok bool) {
	if course < 1 || course >= len(s.Bands) || s.Run != job.RunAlong || s.inVoid(s.Bands[course].V0) {
		return p, false
	}
	v := s.Bands[course].V0
	rest := s.withoutEdge(v)
	p = plan.SeamPlaces{Axis: s.axis(true), Course: course, Long: true, Upright: true}
	p.From, p.To, p.Ends = s.between(v)
	r := rest.reaches()
	for _, c := range s.edgeCandidates(v, p.From, p.To, step) {
		if c.Rule, c.Why = rest.edgeForbidden(c.At); c.Rule == "" {
			c.Rule, c.Why = r.uncovered(rest, c.At)
		}
		for _, b := range s.Bands[1:] {
			if d := (b.V0 - c.At).Abs(); c.Rule == "" && b.V0 != v && d < middleCourse && !s.inVoid(b.V0) && !slices.Contains(rest.fixedEdges(), b.V0) {
				c.Gives = plan.Tell("joint.gives-joint", "at", b.V0)
			}
		}
		p.Places = append(p.Places, c)
	}
	return p, true
}

// withoutEdge is the field with the joint that is in the hand taken out of those fixed in it.
func (f *Field) withoutEdge(v length.Length) *Field {
	rest, z := *f, *f.Zone
	z.Pins = nil
	for _, pin := range f.Zone.Pins {
		if !pin.Edge || pin.Seam != v {
			z.Pins = append(z.Pins, pin)
		}
	}
	rest.Zone = &z
	return &rest
}

// between is the stretch in which a joint between upright courses can be moved at all, and what stands at its ends.
func (f *Field) between(v length.Length) (from, to length.Length, ends [2]plan.Fact) {
	from, to = f.Box.Y, f.Box.MaxY()
	ends = [2]plan.Fact{beyond(f.Ends[LowV]), beyond(f.Ends[HighV])}
	for i, b := range f.Holes {
		if what := plan.Tell("joint.end-thing", "thing", f.names[i]); f.inVoid(b.Y+b.H/2) && b.MaxY() <= v && b.MaxY() > from {
			from, ends[0] = b.MaxY(), what
		} else if f.inVoid(b.Y+b.H/2) && b.Y >= v && b.Y < to {
			to, ends[1] = b.Y, what
		}
	}
	return from, to, ends
}

// beyond says what stops a seam where a zone ends.
func beyond(m survey.Meets) plan.Fact {
	switch m {
	case survey.AtInsideCorner, survey.AtOutsideCorner:
		return plan.Tell("joint.end-corner")
	case survey.AtFloor, survey.AtCurb:
		return plan.Tell("joint.end-floor")
	case survey.AtCeiling, survey.AtHead, survey.AtRidge:
		return plan.Tell("joint.end-head")
	default:
		return plan.Tell("joint.end-zone")
	}
}

// edgeCandidates lists the spots of a joint between upright courses before any rule is asked.
func (s *Scheme) edgeCandidates(v, from, to, step length.Length) []plan.SeamPlace {
	var all []plan.SeamPlace
	add := func(at length.Length, member int) {
		if at > from && at < to {
			all = append(all, plan.SeamPlace{At: at, Member: member, Support: s.longSupport(at, s.stretchesAt(at))})
		}
	}
	for _, m := range s.members {
		add(m.At, 1+slices.Index(s.Zone.Surface.Members.At, m.At))
	}
	for _, m := range s.short {
		add(m.At, 0)
	}
	add(v, 0)
	if s.Backed || s.Blocked {
		for at := from + step; at < to; at += step {
			add(at, 0)
		}
		s.candidateLines(s.widths, func(at length.Length) { add(at, 0) })
	}
	return inOrder(all)
}

// edgeForbidden names the rule that a joint between upright courses breaks by its place alone.
func (f *Field) edgeForbidden(v length.Length) (rule string, why plan.Fact) {
	least := f.Rules.LeastCourse
	switch rule = f.brokenEdge(v); rule {
	case RuleBearing:
		why = f.unborne(v, plan.Tell("joint.short-members"))
	case RuleOpposite:
		why = plan.Tell("joint.opposite-face")
	case RuleLayers:
		why = plan.Tell("joint.layer-below")
	case RuleBacking:
		why = plan.Tell("joint.backing", "required", f.Rules.Backing)
	case RuleLeastCourse:
		why = plan.Tell("joint.narrow-sheet", "least", least)
	case "":
		for _, other := range f.fixedEdges() {
			switch d := (other - v).Abs(); {
			case d == 0:
				return RulePin, plan.Tell("joint.fixed-already")
			case d < middleCourse:
				return RuleLeastCourse, plan.Tell("joint.near-fixed", "apart", d, "at", other, "required", middleCourse)
			}
		}
	}
	return rule, why
}

// reaches tells which lines lawful courses lead to from either end of a field, none of them by way of a sliver.
type reaches struct {
	lines    []line
	low, top []bool
}

func (f *Field) reaches() *reaches {
	r := &reaches{lines: slices.DeleteFunc(f.lines(f.widths, false), func(l line) bool { return !l.end && !l.pinned && f.sliver(l.at) })}
	n := len(r.lines)
	r.low, r.top = make([]bool, n), make([]bool, n)
	r.low[0], r.top[n-1] = true, true
	for i := range n {
		for j := i + 1; j < n && r.low[i]; j++ {
			r.low[j] = r.low[j] || f.lawfulStrip(&r.lines[i], &r.lines[j])
			if r.lines[j].pinned {
				break
			}
		}
	}
	for i := n - 1; i >= 0; i-- {
		for j := i - 1; j >= 0 && r.top[i]; j-- {
			r.top[j] = r.top[j] || f.lawfulStrip(&r.lines[j], &r.lines[i])
			if r.lines[j].pinned {
				break
			}
		}
	}
	return r
}

// lawfulStrip tells whether a course may stand between two lines, or an opening parts the zone there.
func (f *Field) lawfulStrip(low, high *line) bool {
	_, ok := f.stripCost(low, high, false)
	return ok && high.at-low.at <= f.widths[0] || f.isVoid(low.at, high.at)
}

// uncovered tells whether lawful courses leave the zone uncovered on a side of a joint at v.
func (r *reaches) uncovered(f *Field, v length.Length) (rule string, why plan.Fact) {
	here, low, high := line{at: v}, false, false
	for i := len(r.lines) - 1; i >= 0 && !low; i-- {
		if l := &r.lines[i]; l.at < v {
			low = r.low[i] && f.lawfulStrip(l, &here)
			if l.pinned {
				break
			}
		}
	}
	for i := 0; i < len(r.lines) && !high; i++ {
		if l := &r.lines[i]; l.at > v {
			high = r.top[i] && f.lawfulStrip(&here, l)
			if l.pinned {
				break
			}
		}
	}
	return notCovered(low, high, !f.Swap, "joint.uncovered-zone")
}
