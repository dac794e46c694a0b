package check

import (
	"seamwright/calc/length"
	"seamwright/calc/plan"
)

// rippedCourse tells where the ripped course of a wall of level courses went, and why: a hanger puts it at the floor, where
// its cut edge is seen least, so that factory edges meet above it and at the ceiling. Where the file has sheets begin at the
// floor, it is told what would turn that round. Walls of a room that are ripped alike are told of once.
func (s *site) rippedCourse() (found []finding) {
	told := map[[2]length.Length]bool{}
	for _, l := range s.layers() {
		if l.surface.Wall == nil || len(l.surface.Wall.Lining) > 1 || l.asked.Layer > 1 || l.asked.Product == nil || !l.asked.Product.Tapered || !l.coursesLevel() {
			continue
		}
		foot, head := l.ripped(0), l.ripped(2)
		if told[[2]length.Length{foot, head}] {
			continue
		}
		told[[2]length.Length{foot, head}] = true
		switch {
		case foot > 0 && head == 0:
			found = append(found, finding{where: l.surface.ID, at: l.asked.Outline[0], says: plan.Tell("check.rip-at-floor", "high", foot)})
		case head > 0 && foot == 0 && l.asked.Begins:
			found = append(found, finding{where: l.surface.ID, at: l.asked.Outline[0], says: plan.Tell("check.rip-at-head", "high", head)})
		}
	}
	return found
}

// ripped is the height of the course at the foot or the head of a layer, given by the side of its panels there (0 below, 2
// above), where it is cut along that side and is one of several courses. 0: it is whole, or lacks no more than the gap at the
// floor.
func (l layer) ripped(side int) (high length.Length) {
	box := l.asked.Outline.Bounds()
	several := false
	for _, p := range l.planned.Panels {
		r := extent(p)
		edge := r.Y - l.asked.FloorGap
		if side == 2 {
			edge = box.MaxY() - r.MaxY()
		} else {
			edge -= box.Y
		}
		if edge > 0 {
			several = true
			continue
		}
		if p.Edges[side] != plan.EdgeCut {
			return 0
		}
		high = max(high, r.H)
	}
	for _, z := range l.asked.Product.Sizes {
		if lacks := z.Width - high; lacks > 0 && lacks <= l.asked.FloorGap {
			return 0
		}
	}
	if !several {
		return 0
	}
	return high
}
