package check

import (
	"slices"

	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/calc/survey"
)

var pieceRules = []Rule{
	{"least-piece", "no sliver along a course", plan.Error, plan.Practice(), (*site).leastPiece, room},
	{"least-course", "no sliver of a course", plan.Error, plan.Practice(), (*site).leastCourse, room},
	{"courses", "courses that the file fixes are level; sheets laid along upright members have none", plan.Note, plan.Tell("source.own-limit"), (*site).uprightCourses, room},
	{"edges", "tapered to tapered, square to square; a ripped edge goes to floor, ceiling, corner or under trim", plan.Note,
		plan.Tell("source.estimating"), (*site).mixedJoints, room},
	{"floor-gap", "the lowest edge stands clear of floor or curb", plan.Error,
		plan.Tell("source.floor-gap"), (*site).floorGap, room},
	{"wainscot-height", "no strip is ripped for the floor gap that a little more height would save", plan.Note, plan.Practice(), (*site).wainscotHeight, room},
	{"ripped-course", "a ripped course goes where its cut edge is hidden", plan.Note, plan.Practice(), (*site).rippedCourse, room},
	{"control-joint", "long runs and large ceilings are divided", plan.Caution,
		plan.Tell("source.control-joint"), (*site).controlJoints, room},
	{"control-framing", "each side of a control joint has a member of its own", plan.Note,
		plan.Tell("source.control-framing"), (*site).controlFraming, room},
}

// Least gap at the floor, least height of a course.
const (
	leastFloorGap = length.Inch / 4
	middleCourse  = 24 * length.Inch // a course that is not at floor or head: common practice, no source
)

// extent is a panel's bounding box.
func extent(p plan.Panel) shape.Rect { return p.Outline.Bounds() }

// along and high measure a panel in course coordinates.
func (l layer) along(p plan.Panel) length.Length {
	if l.coursesLevel() {
		return extent(p).W
	}
	return extent(p).H
}

func (l layer) high(p plan.Panel) length.Length {
	if l.coursesLevel() {
		return extent(p).H
	}
	return extent(p).W
}

// joined says which panels meet another one end to end.
func joined(seams []seam) map[string]bool {
	ids := map[string]bool{}
	for _, a := range seams {
		for _, id := range a.Panels {
			ids[id] = true
		}
	}
	return ids
}

// fits is what a panel may be shorter than its cell: the fit at its ends and half a panel gap.
func (s *site) fits() length.Length { return 2*s.j.Rules.Fit + sameLine }

func (s *site) leastPiece() (found []finding) {
	for _, l := range s.layers() {
		ends := joined(l.endJoints(&s.j.Rules))
		for _, p := range l.planned.Panels {
			if w := l.along(p); ends[p.ID] && w < s.j.Rules.LeastPiece-s.fits() {
				found = append(found, finding{where: l.surface.ID, at: p.Outline[0], says: plan.Tell("check.short-piece", "piece", p.ID, "long", w, "required", s.j.Rules.LeastPiece)})
			}
		}
	}
	return found
}

// leastCourse measures panels that another course stands above or below; the only course of a zone is as high as
// the zone. A gable's point makes low panels that no layout avoids, so only the height at the panel's middle counts.
func (s *site) leastCourse() (found []finding) {
	for _, l := range s.layers() {
		lines := slices.DeleteFunc(l.seams(), func(a seam) bool { return a.upright == l.coursesLevel() })
		joints := map[string]int{}
		for _, a := range lines {
			for _, id := range a.Panels {
				joints[id]++
			}
		}
		for _, p := range l.planned.Panels {
			asked := s.j.Rules.LeastCourse
			if joints[p.ID] > 1 && s.between(l, p, lines) {
				asked = middleCourse
			}
			h := l.high(p)
			if joints[p.ID] == 0 || h >= asked-s.fits() || s.cutShort(l, p) {
				continue
			}
			level := plan.Error
			if len(l.asked.Courses) > 0 {
				level = plan.Caution // the user fixed the courses
			}
			found = append(found, finding{where: l.surface.ID, at: p.Outline[0], level: level, says: plan.Tell("check.narrow-piece", "piece", p.ID, "high", h, "required", asked)})
		}
	}
	return found
}

// between says whether a panel has courses on both of its long sides.
func (s *site) between(l layer, p plan.Panel, lines []seam) bool {
	box := extent(p)
	low, high := box.Y, box.MaxY()
	if !l.coursesLevel() {
		low, high = box.X, box.MaxX()
	}
	var below, above bool
	for _, a := range lines {
		if slices.Contains(a.Panels, p.ID) {
			below = below || (a.at-low).Abs() <= s.fits()
			above = above || (a.at-high).Abs() <= s.fits()
		}
	}
	return below && above
}

// cutShort says whether the zone itself, or an opening, leaves no more height where the panel hangs.
func (s *site) cutShort(l layer, p plan.Panel) bool {
	for _, q := range p.Outline {
		if !l.onAxis(p, q) {
			return true // a slanted head or foot
		}
	}
	for _, h := range l.asked.Holes {
		box, r := extent(p), h.Opening.Rect()
		if !l.coursesLevel() { // the same picture turned a quarter
			box, r = shape.Rect{X: box.Y, Y: box.X, W: box.H, H: box.W}, shape.Rect{X: r.Y, Y: r.X, W: r.H, H: r.W}
		}
		beside := r.X < box.MaxX() && r.MaxX() > box.X
		if beside && ((r.MaxY()-box.Y).Abs() <= s.fits() || (r.Y-box.MaxY()).Abs() <= s.fits()) {
			return true
		}
	}
	return false
}

// onAxis says whether both sides at a corner of the panel's outline run along an axis.
func (l layer) onAxis(p plan.Panel, corner shape.Point) bool {
	i := slices.Index(p.Outline, corner)
	next := p.Outline[(i+1)%len(p.Outline)]
	return corner.X == next.X || corner.Y == next.Y
}

func (s *site) uprightCourses() (found []finding) {
	for _, l := range s.layers() {
		if len(l.asked.Courses) > 0 && !l.coursesLevel() {
			found = append(found, finding{where: l.surface.ID, at: l.asked.Outline[0],
				says: plan.Tell("check.courses-not-used")})
		}
	}
	return found
}

func (s *site) mixedJoints() (found []finding) {
	for _, l := range s.layers() {
		var sum length.Length
		var at shape.Point
		for _, a := range l.seams() {
			if a.Kind == plan.Mixed {
				sum, at = sum+a.to-a.from, a.point()
			}
		}
		if sum > 0 {
			found = append(found, finding{where: l.surface.ID, at: at,
				says: plan.Tell("check.mixed-joint", "long", sum)})
		}
	}
	return found
}

func (s *site) floorGap() (found []finding) {
	for _, l := range s.layers() {
		wall := l.surface.Wall
		if wall == nil {
			continue
		}
		for i, e := range l.asked.Edges {
			if e.Meets != survey.AtFloor && e.Meets != survey.AtCurb {
				continue
			}
			a, b := l.asked.Outline[i], l.asked.Outline[(i+1)%len(l.asked.Outline)]
			if a.Y != b.Y {
				continue // a raked foot: its gap is measured square to the slope by whoever sets it out
			}
			if gap, at, ok := l.gapAbove(a, b); ok {
				found = append(found, s.judgeGap(l, gap, at)...)
			}
		}
	}
	return found
}

// widest is the largest gap over a floor that was measured under a layer, 0 where none was.
func (s *site) widest(l layer) length.Length {
	for _, line := range s.p.Levels {
		if line.Surface == l.surface.ID && line.Zone == l.asked.Index && l.asked.Layer == 1 {
			return line.Largest
		}
	}
	return 0
}

// gapAbove is the least height of the panels above one level stretch of floor, with the widest panel's place.
func (l layer) gapAbove(a, b shape.Point) (gap length.Length, at shape.Point, ok bool) {
	lowest := length.Longest
	for _, p := range l.planned.Panels {
		box := extent(p)
		if box.X < max(a.X, b.X) && box.MaxX() > min(a.X, b.X) && box.Y < lowest && box.Y >= a.Y {
			lowest, at, ok = box.Y, shape.Point{X: box.X, Y: box.Y}, true
		}
	}
	return lowest - a.Y, at, ok
}

func (s *site) judgeGap(l layer, gap length.Length, at shape.Point) []finding {
	f := finding{where: l.surface.ID, at: at}
	trim := l.surface.Wall.Trim
	switch {
	case gap < leastFloorGap:
		f.says = plan.Tell("check.floor-gap-small", "gap", gap, "required", leastFloorGap)
		return []finding{f}
	case gap <= max(s.j.Rules.FloorGap, leastFloorGap)+length.Inch/16:
		return nil
	}
	gap = max(gap, s.widest(l)) // a floor that was measured falls away under it
	if trim > gap {
		f.level = plan.Caution
		f.says = plan.Tell("check.floor-gap-covered", "gap", gap, "asked", s.j.Rules.FloorGap, "trim", trim)
	} else {
		f.says = plan.Tell("check.floor-gap-uncovered", "gap", gap, "asked", s.j.Rules.FloorGap)
	}
	return []finding{f}
}
