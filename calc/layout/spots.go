package layout

import (
	"cmp"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/survey"
)

// Spots lists where the end joint of a course that stands at seam could be moved to: every member behind its row, and
// where an end joint needs none also the places a step apart and those of whole sheets. A spot is lawful when it breaks
// no rule by itself, when lawful seams and sheets cover the rest of the row on both sides of it, and when each adjoining
// row still has seams that keep the stagger; seams fixed by hand, other than this one, stay where they are. That the
// whole zone has a lawful layout then is likely, not certain: the adjoining rows are looked at one by one. Not ok: there
// is no such row. Cost: a piece is sized for each spot and place of the row.
func (s *Scheme) Spots(course int, seam, step length.Length) (p plan.SeamPlaces, ok bool) {
	row := s.rowOf(course, seam)
	if row < 0 {
		return p, false
	}
	r := &s.Rows[row]
	p = plan.SeamPlaces{Axis: s.axis(false), Course: course, From: r.U0, To: r.U1, Ends: [2]plan.Fact{s.endOf(r.U0, LowU), s.endOf(r.U1, HighU)}}
	rest := s.without(r, seam)
	from, to := s.reach(rest)
	for _, c := range s.candidates(r, step) {
		c.Rule, c.Why = s.forbidden(rest, c.At)
		if c.Rule == "" {
			c.Rule, c.Why = s.uncovered(rest, c.At, from, to)
		}
		for _, k := range s.Near[row] {
			if c.Rule == "" {
				c.Rule, c.Why = s.crowded(&s.Rows[k], s.side(row, k), c.At)
			}
		}
		p.Places = append(p.Places, c)
	}
	return p, true
}

// axis names the coordinate of the surface that runs along the courses, or across them.
func (f *Field) axis(across bool) string {
	if f.Swap != across {
		return string(job.AxisY)
	}
	return string(job.AxisX)
}

// rowOf is the row in which a course has an end joint at u, -1 where none can be.
func (s *Scheme) rowOf(course int, u length.Length) int {
	return slices.IndexFunc(s.Rows, func(r Row) bool {
		return slices.ContainsFunc(r.Spans, func(sp Span) bool { return sp.Band == course-1 && sp.U0 < u && u < sp.U1 })
	})
}

// side says where a row lies from another.
func (s *Scheme) side(row, other int) plan.Fact {
	sides := s.Sides()
	if s.Rows[other].Spans[0].Band > s.Rows[row].Spans[0].Band {
		return sides[1]
	}
	return sides[0]
}

// Sides are where the course before another lies, and the course behind it.
func (s *Scheme) Sides() [2]plan.Fact {
	if s.Swap {
		return [2]plan.Fact{plan.Tell("side.left"), plan.Tell("side.right")}
	}
	return [2]plan.Fact{plan.Tell("side.below"), plan.Tell("side.above")}
}

// endOf says what stops a seam at the end of its row.
func (s *Scheme) endOf(u length.Length, end int) plan.Fact {
	edge := s.Box.X
	if end == HighU {
		edge = s.Box.MaxX()
	}
	if u == edge {
		return beyond(s.Ends[end])
	}
	if slices.Contains(s.controls, u) {
		return plan.Tell("joint.end-control-joint")
	}
	for i, b := range s.Holes {
		if u == b.X || u == b.MaxX() {
			return plan.Tell("joint.end-thing", "thing", s.names[i])
		}
	}
	return plan.Tell("joint.end-course")
}

// without is a row with the seam that is in the hand taken out of those fixed in it.
func (s *Scheme) without(r *Row, seam length.Length) *Row {
	rest := *r
	rest.Places = nil
	for _, p := range r.Places {
		if p.pinned && p.U == seam {
			if s.brokenAt(r, seam) != "" {
				continue
			}
			p.pinned = false
		}
		rest.Places = append(rest.Places, p)
	}
	return &rest
}

// reach tells for every place of a row, its two ends included, whether lawful pieces lead there from the low end, and
// from there to the high end.
func (s *Scheme) reach(r *Row) (from, to []bool) {
	g := s.newGraph(r)
	n := len(g.at)
	from, to = make([]bool, n), make([]bool, n)
	from[0] = true
	for i := range n {
		to[i] = g.paths[i] > 0
		for j := i + 1; j < n && from[i]; j++ {
			_, ok, longer := s.cut(r, g.at[i], g.at[j])
			from[j] = from[j] || ok
			if longer || j < n-1 && r.Places[j-1].pinned {
				break
			}
		}
	}
	return from, to
}

// candidates lists the spots of a row before any rule is asked.
func (s *Scheme) candidates(r *Row, step length.Length) []plan.SeamPlace {
	var all []plan.SeamPlace
	add := func(u length.Length, member int, sup plan.Support) {
		if u > r.U0 && u < r.U1 {
			all = append(all, plan.SeamPlace{At: u, Member: member, Support: sup})
		}
	}
	if s.Run == job.RunAcross {
		for _, m := range s.members {
			add(m.At, 1+slices.Index(s.Zone.Surface.Members.At, m.At), plan.OnMember)
		}
		for _, m := range s.short {
			sup := plan.OnMember
			if !s.carriedAt(r, m.At) {
				sup = s.freeSupport()
			}
			add(m.At, 0, sup)
		}
	}
	if s.Free {
		sup := s.freeSupport()
		for u := r.U0 + step; u < r.U1; u += step {
			add(u, 0, sup)
		}
		for _, p := range r.Places {
			add(p.U, 0, p.Support)
		}
	}
	return inOrder(all)
}

// inOrder sorts spots, each place once: as it was named first.
func inOrder(all []plan.SeamPlace) []plan.SeamPlace {
	slices.SortStableFunc(all, func(a, b plan.SeamPlace) int { return cmp.Compare(a.At, b.At) })
	return slices.CompactFunc(all, func(a, b plan.SeamPlace) bool { return a.At == b.At })
}

// unborne says why nothing carries a joint at a place; short is what to say of short members there.
func (f *Field) unborne(at length.Length, short plan.Fact) plan.Fact {
	switch {
	case slices.ContainsFunc(f.short, func(m survey.Member) bool { return m.At == at }):
		return short
	case f.Blocked:
		return plan.Tell("joint.beside-member")
	default:
		return plan.NoMember()
	}
}

// forbidden names the rule that an end joint at u breaks by its place alone, in the order of brokenAt.
func (s *Scheme) forbidden(r *Row, u length.Length) (rule string, why plan.Fact) {
	switch rule = s.brokenAt(r, u); rule {
	case RuleBearing:
		why = s.unborne(u, plan.Tell("joint.short-member"))
	case RuleOpening:
		why = plan.Tell("joint.opening", "required", s.Rules.Opening)
		for i, b := range s.Holes {
			if (u-b.X).Abs() < s.Rules.Opening || (u-b.MaxX()).Abs() < s.Rules.Opening {
				why = plan.Tell(s.besideOpening(), "required", s.Rules.Opening, "opening", s.names[i])
			}
		}
	case RuleLeastPiece:
		for i := range r.Spans {
			if sp := &r.Spans[i]; sp.U0 < u && u < sp.U1 && min(u-sp.U0, sp.U1-u) < s.Rules.LeastPiece {
				why = plan.Tell("joint.short-piece", "long", min(u-sp.U0, sp.U1-u), "required", s.Rules.LeastPiece)
			}
		}
	case RuleBacking:
		why = plan.Tell("joint.backing", "required", s.Rules.Backing)
	case RuleOpposite:
		why = plan.Tell("joint.opposite-face")
	case RuleLayers:
		for _, l := range s.avoid[0] {
			if d := (u - l.At).Abs(); d < l.Clear {
				why = plan.Tell("joint.near-layer-below", "apart", d, "required", l.Clear)
			}
		}
	case "":
		for _, p := range r.Places {
			if d := (p.U - u).Abs(); p.pinned && d > 0 && d < s.Rules.LeastPiece {
				return RuleLeastPiece, plan.Tell("joint.piece-to-fixed", "apart", d, "at", p.U, "required", s.Rules.LeastPiece)
			}
		}
	}
	return rule, why
}

// besideOpening is the kind of fact about an end joint beside an edge of an opening: a jamb, where courses lie level.
func (s *Scheme) besideOpening() string {
	if s.Swap {
		return "joint.opening-edge"
	}
	return "joint.opening-jamb"
}

// uncovered tells whether lawful seams and the sheets for sale leave the row uncovered on a side of u.
func (s *Scheme) uncovered(r *Row, u length.Length, from, to []bool) (rule string, why plan.Fact) {
	at := func(i int) length.Length {
		switch i {
		case 0:
			return r.U0
		case len(from) - 1:
			return r.U1
		}
		return r.Places[i-1].U
	}
	low, high := false, false
	for i := len(from) - 1; i >= 0 && !low; i-- {
		if at(i) >= u {
			continue
		}
		_, ok, longer := s.cut(r, at(i), u)
		low = ok && from[i]
		if longer || i > 0 && r.Places[i-1].pinned {
			break
		}
	}
	for i := 0; i < len(to) && !high; i++ {
		if at(i) <= u {
			continue
		}
		_, ok, longer := s.cut(r, u, at(i))
		high = ok && to[i]
		if longer || i < len(to)-1 && i > 0 && r.Places[i-1].pinned {
			break
		}
	}
	return notCovered(low, high, s.Swap, "joint.uncovered-course")
}

// notCovered says on which side of a joint nothing lawful covers the course or the zone; nothing where both are covered. A
// level joint has a lower side and an upper one.
func notCovered(low, high, level bool, kind string) (rule string, why plan.Fact) {
	parts := [2]plan.Fact{plan.Tell("part.left"), plan.Tell("part.right")}
	if level {
		parts = [2]plan.Fact{plan.Tell("part.lower"), plan.Tell("part.upper")}
	}
	if low && high {
		return "", plan.Fact{}
	}
	part := parts[0]
	if low {
		part = parts[1]
	}
	return RuleSize, plan.Tell(kind, "part", part)
}

// crowded tells whether an adjoining row keeps the stagger from an end joint at u under one choice of its seams at
// least.
func (s *Scheme) crowded(r *Row, side plan.Fact, u length.Length) (rule string, why plan.Fact) {
	stagger := s.Stagger()
	for _, p := range r.Places {
		if d := (p.U - u).Abs(); p.pinned && d < stagger {
			return RuleStagger, plan.Tell("joint.stagger-to-fixed", "apart", d, "side", side, "required", stagger)
		}
	}
	g := r.graph
	if g.paths[0] == 0 {
		return "", plan.Fact{} // the row has no lawful seams in any case
	}
	n := len(g.at)
	open := make([]bool, n)
	open[n-1] = true
	for i := n - 2; i >= 0; i-- {
		if i > 0 && (g.at[i]-u).Abs() < stagger {
			continue
		}
		open[i] = slices.ContainsFunc(g.steps[i], func(st Step) bool { return open[st.To] })
	}
	if !open[0] {
		return RuleStagger, plan.Tell("joint.stagger-course", "side", side, "required", stagger)
	}
	return "", plan.Fact{}
}

// LongSpots lists where the joint between a course and the next, counted from 1, could be moved to when all other
// courses stay as they are. Not ok: the courses run along the members (see EdgeSpots), or there is no such joint.
func (s *Scheme) LongSpots(course int, step length.Length) (p plan.SeamPlaces, ok bool) {
	if course < 1 || course >= len(s.Bands) || s.Run != job.RunAcross {
		return p, false
	}
	low, high := s.Bands[course-1].V0, s.Bands[course].V1
	p = plan.SeamPlaces{Axis: s.axis(true), Course: course, Long: true, From: low, To: high,
		Ends: [2]plan.Fact{plan.Tell("joint.end-course"), plan.Tell("joint.end-course")}}
	vs := []length.Length{s.Bands[course].V0}
	for v := low + step; v < high; v += step {
		vs = append(vs, v)
	}
	for _, w := range Widths(s.Zone.Product) {
		vs = append(vs, low+w, high-w)
	}
	slices.Sort(vs)
	for _, v := range slices.Compact(vs) {
		if v > low && v < high {
			c := plan.SeamPlace{At: v, Support: s.longSupport(v, nil)}
			c.Rule, c.Why = s.longForbidden(course, v)
			p.Places = append(p.Places, c)
		}
	}
	return p, true
}

// longForbidden names the rule that the joint above a course would break at v.
func (s *Scheme) longForbidden(course int, v length.Length) (rule string, why plan.Fact) {
	bands := slices.Clone(s.Bands)
	bands[course-1].V1, bands[course].V0 = v, v
	widest := Widths(s.Zone.Product)[0]
	for i, side := range s.Sides() {
		k := course - 1 + i
		least := middleCourse
		if k == 0 || k == len(bands)-1 {
			least = s.Rules.LeastCourse
		}
		switch h := bands[k].V1 - bands[k].V0; {
		case h > widest:
			return RuleSize, plan.Tell("joint.course-too-wide", "side", side, "wide", h, "widest", widest)
		case h < least:
			return RuleLeastCourse, plan.Tell("joint.course-too-narrow", "side", side, "wide", h, "required", least)
		}
	}
	s.chooseEdges(bands)
	switch rule, ok := s.clearOfLines(v, false); {
	case !ok:
		return rule, plan.Tell("joint.layer-below")
	case !s.clearOfBacking(v, false):
		return RuleBacking, plan.Tell("joint.backing", "required", s.Rules.Backing)
	case !(bands[course-1].High && bands[course].Low) && s.nearOpening(v):
		return RuleOpening, plan.Tell("joint.sill-or-head", "required", s.Rules.Opening)
	}
	return "", plan.Fact{}
}
