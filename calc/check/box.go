package check

import (
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/calc/survey"
)

var boxRules = []Rule{
	{"box-member", "boxes stand between members", plan.Caution, plan.Tell("source.geometry-of-framing"), (*site).boxMembers, room},
	{"box-seam", "no seam runs into a box", plan.Caution, plan.Practice(), (*site).boxSeams, room},
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
			switch bay := surface.Space() - surface.Members.Width; {
			case boxAcross(surface, b) > bay:
				kind := "check.box-wider-than-studs"
				if surface.Kind == plan.Ceiling {
					kind = "check.box-wider-than-joists"
				}
				f.says = plan.Tell(kind, "box", boxAt(b), "wide", boxAcross(surface, b), "bay", bay)
			case surface.Kind == plan.Ceiling:
				f.says = plan.Tell("check.box-on-joist", "box", boxAt(b), "at", members[0].At)
			default:
				f.says = plan.Tell("check.box-on-stud", "box", boxAt(b), "at", members[0].At)
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

// boxAt tells a box by its kind and place.
func boxAt(b job.Box) plan.Fact {
	return plan.Tell("check.box-at", "box", plan.Box(b.Kind), "at", b.At, "up", b.Up)
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
				found = append(found, finding{where: l.surface.ID, at: shape.Point{X: b.At, Y: b.Up}, says: plan.Tell("check.box-on-joint", "box", boxAt(b), "kind", plan.JointName(a.Kind), "at", a.at, "by", off)})
				break
			}
		}
	}
	return found
}
