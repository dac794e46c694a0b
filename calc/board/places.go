package board

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/layout"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/survey"
)

// Steps between the places of a seam that needs no member behind it: what a hand can aim at.
const (
	stepImperial = length.Inch
	stepMetric   = 20 * length.Millimetre
)

// SeamPlaces tells where one joint of a plan, counted as in its zone, may be moved to. The rules are asked of the same
// courses as the plan has; joints of the layer below and of the other face of the partition are taken from the plan. An
// error says why the joint cannot be moved by hand at all; ErrOvertaken where the plan does not answer the job as it is.
func SeamPlaces(j *job.Job, b *survey.Building, p *plan.Plan, surface string, zone, layer, joint int) (*plan.SeamPlaces, error) {
	if !answered(b, p) {
		return nil, ErrOvertaken
	}
	i := slices.IndexFunc(b.Surfaces, func(s *survey.Surface) bool { return s.ID == surface })
	if i < 0 || i >= len(p.Surfaces) || p.Surfaces[i].ID != surface {
		return nil, fmt.Errorf("%s: no such surface in this plan", surface)
	}
	k := slices.IndexFunc(b.Surfaces[i].Zones, func(z *survey.Zone) bool { return z.Index == zone && z.Layer == layer })
	if k < 0 || k >= len(p.Surfaces[i].Zones) || joint < 0 || joint >= len(p.Surfaces[i].Zones[k].Joints) {
		return nil, fmt.Errorf("%s: no such seam in this plan", surface)
	}
	z, pz := b.Surfaces[i].Zones[k], &p.Surfaces[i].Zones[k]
	seam := pz.Joints[joint]
	courses := coursesOf(pz, &seam)
	switch {
	case len(courses) < 2:
		return nil, fmt.Errorf("%s: a joint with a corner, the floor or the head stands where the surface ends", surface)
	case seam.Kind == plan.Control:
		return nil, fmt.Errorf("%s: a control joint stands where the run must be divided", surface)
	}
	s := planned(j, z, pz, linesOf(b, p, z))
	if s == nil { // another run is asked for now
		return nil, ErrOvertaken
	}
	step := stepImperial
	if j.Units == job.Metric {
		step = stepMetric
	}
	if courses[0] != courses[1] {
		if places, ok := s.LongSpots(min(courses[0], courses[1]), step); ok {
			return &places, nil
		}
		if places, ok := s.EdgeSpots(min(courses[0], courses[1]), step); ok {
			return &places, nil
		}
		return nil, fmt.Errorf("%s: the joint stands at an opening's edge, where its courses end", surface)
	}
	at := seam.From.X
	if s.Swap {
		at = seam.From.Y
	}
	places, ok := s.Spots(courses[0], at, step)
	if !ok {
		return nil, fmt.Errorf("%s: the seam stands at an opening's edge, where its course ends", surface)
	}
	giveWay(s, pz, &places)
	return &places, nil
}

// ErrOvertaken says that a plan is that of an earlier state of the job.
var ErrOvertaken = errors.New("this plan is being worked out anew: take the seam again when it stands")

// answered says whether a plan has the surfaces and zones of a building.
func answered(b *survey.Building, p *plan.Plan) bool {
	return slices.EqualFunc(b.Surfaces, p.Surfaces, func(s *survey.Surface, ps plan.Surface) bool {
		return s.ID == ps.ID && slices.EqualFunc(s.Zones, ps.Zones, func(z *survey.Zone, pz plan.Zone) bool {
			return z.Index == pz.Zone && z.Layer == pz.Layer && z.Product.ID == pz.Product && slices.Equal(z.Outline, pz.Outline)
		})
	})
}

// coursesOf are the courses of the panels on either side of a joint.
func coursesOf(z *plan.Zone, seam *plan.Joint) (courses []int) {
	for _, id := range seam.Panels {
		for _, panel := range z.Panels {
			if panel.ID == id {
				courses = append(courses, panel.Course)
			}
		}
	}
	return courses
}

// planned is the scheme that a zone of a plan was boarded by: of its run, with the courses nearest to those planned.
func planned(j *job.Job, z *survey.Zone, pz *plan.Zone, avoid []layout.Line) *layout.Scheme {
	var best *layout.Scheme
	least := length.Longest
	for _, s := range layout.Schemes(context.Background(), z, &j.Rules, avoid) {
		if string(s.Run) != pz.Run {
			continue
		}
		if d := distance(s, pz); best == nil || d < least {
			best, least = s, d
		}
	}
	return best
}

// distance sums how far the courses of a scheme lie from those that the panels of a zone fill.
func distance(s *layout.Scheme, z *plan.Zone) (sum length.Length) {
	for i, band := range s.Bands {
		low, high := length.Longest, -length.Longest
		for _, panel := range z.Panels {
			if panel.Course == i+1 {
				b := panel.Outline.Bounds()
				if s.Swap {
					b.Y, b.H = b.X, b.W
				}
				low, high = min(low, b.Y), max(high, b.MaxY())
			}
		}
		if low < high {
			sum += (low - band.V0).Abs() + (high - band.V1).Abs()
		}
	}
	for _, panel := range z.Panels {
		if panel.Course > len(s.Bands) {
			sum += panel.Outline.Bounds().W
		}
	}
	return sum
}

// linesOf are the joints of a plan that a zone must keep clear of: those of zones that are boarded before it.
func linesOf(b *survey.Building, p *plan.Plan, z *survey.Zone) (lines []layout.Line) {
	for i, sf := range b.Surfaces {
		for k, o := range sf.Zones {
			if o == z {
				return lines
			}
			if !keepsClear(z, o) {
				continue
			}
			pz := &p.Surfaces[i].Zones[k]
			for _, jt := range pz.Joints {
				l := layout.Line{Upright: jt.From.X == jt.To.X, At: jt.From.X, Control: jt.Kind == plan.Control}
				if !l.Upright {
					l.At = jt.From.Y
				}
				if len(coursesOf(pz, &jt)) < 2 || !l.Upright && jt.From.Y != jt.To.Y {
					continue
				}
				if l, ok := cleared(z, o, l); ok && !slices.Contains(lines, l) {
					lines = append(lines, l)
				}
			}
		}
	}
	return lines
}

// giveWay names, at every lawful place, the seams of adjoining courses that would have to move.
func giveWay(s *layout.Scheme, z *plan.Zone, p *plan.SeamPlaces) {
	sides := s.Sides()
	names := map[int]plan.Fact{p.Course - 1: sides[0], p.Course + 1: sides[1]}
	stagger := s.Stagger()
	for _, jt := range z.Joints {
		courses := coursesOf(z, &jt)
		if len(courses) < 2 || courses[0] != courses[1] || names[courses[0]].None() || z.Pattern != string(job.Staggered) {
			continue
		}
		u := jt.From.X
		if s.Swap {
			u = jt.From.Y
		}
		for i := range p.Places {
			if c := &p.Places[i]; c.Lawful() && (c.At-u).Abs() < stagger {
				c.Gives = plan.Tell("joint.gives-course", "at", u, "side", names[courses[0]])
			}
		}
	}
}
