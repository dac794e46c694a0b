package check

import (
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/survey"
)

// The longest undivided runs, and the largest undivided area, of gypsum board. The ceiling's values hold where its
// edges are free to move.
const (
	longestWall    = 30 * length.Foot
	longestCeiling = 50 * length.Foot
	largestCeiling = 2500 * length.SquareFoot
)

func (s *site) controlJoints() (found []finding) {
	for _, l := range s.layers() {
		if l.asked.Product.Kind != job.Gypsum || l.asked.Layer != l.asked.Layers {
			continue
		}
		box := l.asked.Outline.Bounds()
		ceiling := l.surface.Kind == plan.Ceiling
		longest, limit := longestRun(box.X, box.MaxX(), true, l.seams()), longestWall
		large := longest.Times(box.H)
		if ceiling {
			high := longestRun(box.Y, box.MaxY(), false, l.seams())
			large = longest.Times(high)
			longest, limit = max(longest, high), longestCeiling
		}
		switch {
		case longest > limit:
			found = append(found, finding{where: l.surface.ID, at: l.asked.Outline[0], says: plan.Tell("check.control-joint", "long", longest, "most", limit)})
		case ceiling && large > largestCeiling:
			found = append(found, finding{where: l.surface.ID, at: l.asked.Outline[0],
				says: plan.Tell("check.control-joint-area", "area", large, "most", largestCeiling)})
		}
	}
	return append(found, s.bridgedControls()...)
}

// bridgedControls are the control joints that the board below runs through.
func (s *site) bridgedControls() (found []finding) {
	all := s.layers()
	for i, l := range all {
		if i == 0 || l.asked.Layer == 1 || l.asked.Product.Kind != job.Gypsum {
			continue
		}
		below := all[i-1]
		if below.surface != l.surface || below.asked.Index != l.asked.Index || below.asked.Product.Kind != job.Gypsum {
			continue
		}
		var seen []length.Length
		for _, a := range l.seams() {
			if a.Kind != plan.Control || slices.Contains(seen, a.at) || s.j.Rules.Cutouts == job.RectOnly && atJamb(l.asked, a) {
				continue
			}
			if !slices.ContainsFunc(below.seams(), a.goesOn) {
				seen = append(seen, a.at)
				found = append(found, finding{where: l.surface.ID, at: a.point(), says: plan.Tell("check.control-bridged", "at", a.at)})
			}
		}
	}
	return found
}

// goesOn says whether a control joint of another layer is the same joint.
func (s seam) goesOn(o seam) bool {
	return s.Kind == plan.Control && o.Kind == plan.Control && s.upright == o.upright && (s.at-o.at).Abs() <= sameLine
}

// longestRun is the longest stretch from low to high that no control joint divides.
func longestRun(low, high length.Length, upright bool, seams []seam) (longest length.Length) {
	cuts := []length.Length{low, high}
	for _, a := range seams {
		if a.Kind == plan.Control && a.upright == upright {
			cuts = append(cuts, a.at)
		}
	}
	slices.Sort(cuts)
	for i := 1; i < len(cuts); i++ {
		longest = max(longest, cuts[i]-cuts[i-1])
	}
	return longest
}

// controlFraming names the framing that control joints ask for: a second member beside a single one, or a break in
// members that the joint crosses.
func (s *site) controlFraming() (found []finding) {
	for _, l := range s.layers() {
		var beside, across []length.Length
		var first seam
		for _, a := range l.seams() {
			switch at := a.at; {
			case a.Kind != plan.Control || l.asked.Layer < l.asked.Layers || s.j.Rules.Cutouts == job.RectOnly && atJamb(l.asked, a) || twoMembers(l.surface, a.at) && l.alongMembers(a):
				continue
			case l.alongMembers(a) && !slices.Contains(beside, at):
				beside = append(beside, at)
			case !l.alongMembers(a) && !slices.Contains(across, at):
				across = append(across, at)
			}
			if first.Kind == "" {
				first = a
			}
		}
		if len(beside) > 0 {
			found = append(found, finding{where: l.surface.ID, at: first.point(), says: plan.Tell("check.control-second-member", "at", places(beside))})
		}
		if len(across) > 0 {
			found = append(found, finding{where: l.surface.ID, at: first.point(), says: plan.Tell("check.control-across", "at", places(across))})
		}
	}
	return found
}

// places tells a list of places.
func places(at []length.Length) (all []plan.Fact) {
	for _, l := range at {
		all = append(all, plan.Tell("list.length", "length", l))
	}
	return all
}

// alongMembers says whether a seam runs the way of the members.
func (l layer) alongMembers(a seam) bool { return a.upright == (l.surface.Members.Axis == "x") }

// atJamb says whether a seam stands on the edge of an opening.
func atJamb(z *survey.Zone, a seam) bool {
	return slices.ContainsFunc(z.Holes, func(h survey.Hole) bool {
		r := h.Opening.Rect()
		if a.upright {
			return a.at == r.X || a.at == r.MaxX()
		}
		return a.at == r.Y || a.at == r.MaxY()
	})
}

// slot is the widest space between two members that a control joint spans.
const slot = length.Inch

// twoMembers says whether a place lies between two members that stand close together.
func twoMembers(s *survey.Surface, at length.Length) bool {
	var low, high bool
	for _, m := range append(slices.Clone(s.Studs), s.Short...) {
		d := m.At - at
		near := d.Abs() <= (m.Width+slot)/2
		low, high = low || near && d < 0, high || near && d > 0
	}
	return low && high
}
