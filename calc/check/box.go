package check

import (
	"fmt"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/calc/survey"
)

var boxRules = []Rule{
	{"box-member", "boxes stand between members", plan.Caution, "geometry of the framing", (*site).boxMembers, room},
	{"box-seam", "no seam runs into a box", plan.Caution, "common practice, no source", (*site).boxSeams, room},
}

// onFace is how far a box may reach over a member's face and still be said to stand beside it.
const onFace = length.Inch / 8

// boxMembers finds the boxes that stand where a member stands: nailed to its side a box reaches over none of its face.
func (s *site) boxMembers() (found []finding) {
	for _, surface := range s.b.Surfaces {
		for _, b := range surface.Placed {
			members := behind(surface, b)
			if len(members) == 0 || len(surface.Zones) == 0 {
				continue
			}
			f := finding{where: surface.ID, at: shape.Point{X: b.At, Y: b.Up}}
			member := "stud"
			if surface.Kind == plan.Ceiling {
				member = "joist"
			}
			switch bay := surface.Space() - surface.Members.Width; {
			case boxAcross(surface, b) > bay:
				f.message = fmt.Sprintf("%s is %s wide, more than the %s between the %ss: cut and head off what stands behind it, or set it on the face of the wall",
					s.box(b), s.show(boxAcross(surface, b)), s.show(bay), member)
			case surface.Kind == plan.Ceiling:
				f.message = fmt.Sprintf("%s stands on the joist at %s: move it clear, or take a box shallow enough to be screwed to the joist's face", s.box(b), s.show(members[0].At))
			default:
				f.message = fmt.Sprintf("%s stands on the stud at %s: move it beside the stud", s.box(b), s.show(members[0].At))
			}
			found = append(found, f)
		}
	}
	return found
}

// behind are the members whose face a box reaches over.
func behind(surface *survey.Surface, b job.Box) (all []survey.Member) {
	r := b.Rect()
	if surface.Members.Axis == string(job.AxisY) {
		r = shape.Rect{X: r.Y, Y: r.X, W: r.H, H: r.W}
	}
	for _, list := range [][]survey.Member{surface.Studs, surface.Short} {
		for _, m := range list {
			over := min(r.MaxX(), m.At+m.Width/2) - max(r.X, m.At-m.Width/2)
			if along := m.From == m.To || m.From < r.MaxY() && r.Y < m.To; along && over > onFace {
				all = append(all, m)
			}
		}
	}
	return all
}

// boxAcross is a box's size across the members.
func boxAcross(surface *survey.Surface, b job.Box) length.Length {
	if surface.Members.Axis == string(job.AxisY) {
		return b.Rect().H
	}
	return b.Rect().W
}

// box names a box by its kind and place.
func (s *site) box(b job.Box) string {
	kind := b.Kind
	if kind == "" {
		kind = "box"
	}
	return fmt.Sprintf("%s at %s, %s up,", kind, s.show(b.At), s.show(b.Up))
}

// boxSeams finds the boxes that a seam runs into: both sheets are cut for it, and the joint ends at a plate that does not
// cover it. A tapered joint that meets a large box is no worse than one that meets a window.
func (s *site) boxSeams() (found []finding) {
	for _, l := range s.layers() {
		if l.asked.Layer < l.asked.Layers {
			continue // covered
		}
		for _, b := range l.surface.Placed {
			r := b.Rect()
			for _, a := range l.seams() {
				low, high, near, far := r.X, r.MaxX(), r.Y, r.MaxY()
				if !a.upright {
					low, high, near, far = r.Y, r.MaxY(), r.X, r.MaxX()
				}
				// a large box has taken the seam away where it stands: one that ends at it runs into it
				crosses := a.at > low && a.at < high && a.from <= far && a.to >= near
				if !crosses || b.Large(l.asked.Outline.Bounds()) && a.Kind == plan.Tapered {
					continue
				}
				off := min(a.at-low, high-a.at)
				found = append(found, finding{where: l.surface.ID, at: shape.Point{X: b.At, Y: b.Up}, message: fmt.Sprintf(
					"%s stands on the %s joint at %s: both sheets are cut for it; move it %s or more, or fix the courses", s.box(b), a.Kind, s.show(a.at), s.show(off))})
				break
			}
		}
	}
	return found
}
