package check

import (
	"fmt"
	"math"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/survey"
)

// A separation keeps a dwelling from a garage or workshop. What is asked of it stands in IRC R302.5 and R302.6; whether they
// hold here is for the local code.
var separationRules = []Rule{
	{"separation", "a separation is lined with gypsum board; plywood may go over it, never instead of it", plan.Error,
		"IRC Table R302.6 (read): 1/2 in gypsum board or equivalent on the garage side", (*site).separation, room},
	{"separation-ceiling", "fire-type board of 5/8 in separates rooms that are lived in from what lies below", plan.Caution,
		"IRC Table R302.6 (read in a restatement): 5/8 in type X under habitable rooms, 1/2 in under attics, 1/2 in on what carries that floor", (*site).separationCeiling, room},
	{"separation-joints", "the joints of a separation are taped", plan.Caution,
		"GA-214, level 1: joints and corners taped where smoke and fire are kept back (from memory)", (*site).separationJoints, room},
	{"separation-door", "doors in a separation hold fire back and close by themselves", plan.Caution,
		"IRC R302.5.1, 2018 (read in a county's words)", (*site).separationDoors, room},
	{"separation-openings", "ducts, pipes and boxes leave no hole in a separation", plan.Note,
		"IRC R302.5.2 and R302.5.3 (from memory)", (*site).separationOpenings, room},
}

// Boards that a separation asks for.
const (
	separationBoard = length.Inch / 2
	livedInBoard    = 19 * length.Inch / 32 // 5/8 in less its tolerance
	metricFire      = 15 * length.Millimetre
)

// separations are the surfaces that keep a dwelling from a garage or workshop.
func (s *site) separations(yield func(layer)) {
	for _, surface := range s.b.Surfaces {
		if l := (layer{surface: surface}); l.has(job.Separation) {
			yield(l)
		}
	}
}

func (s *site) separation() (found []finding) {
	s.separations(func(l layer) {
		zones := linings(l.surface)
		for i, z := range zones {
			if t := s.gypsum(z); t < min(separationBoard, metricHalf) {
				found = append(found, finding{where: l.surface.ID, at: zoneFoot(l.surface.Outline, zones, i), message: fmt.Sprintf(
					"a separation needs at least %s of gypsum board over its whole face; here it has %s; %s", s.show(separationBoard), s.show(t), askOffice)})
			}
		}
	})
	return found
}

func (s *site) separationCeiling() (found []finding) {
	s.separations(func(l layer) {
		if l.surface.Kind != plan.Ceiling {
			return
		}
		zones := linings(l.surface)
		for i, z := range zones {
			f := finding{where: l.surface.ID, at: zoneFoot(l.surface.Outline, zones, i)}
			switch t := s.gypsum(z); {
			case t < min(separationBoard, metricHalf):
				continue // said of every separation
			case s.heldBack(z):
				f.level = plan.Note
				f.message = "fire-type board under rooms that are lived in: across the joists, fastened every 6 in with 1-7/8 in 6d coated nails or screws that hold as well; " + askOffice
				f.source = living
			default:
				f.message = fmt.Sprintf("%s of gypsum board without a fire-type core of 5/8 in does under an attic, not under rooms that are lived in; %s", s.show(t), askOffice)
			}
			found = append(found, f)
		}
		found = append(found, s.carriers(l.surface)...)
	})
	return found
}

// living is the row of the span table for ceilings under rooms that are lived in.
const living = "IRC R302.6 with Table R702.3.5, type X on ceilings under habitable rooms (from memory)"

// carriers are the walls of a ceiling's room that its joists run into and that gypsum board does not cover from foot to head.
// They carry the floor above, if rooms lie there.
func (s *site) carriers(ceiling *survey.Surface) (found []finding) {
	for _, w := range s.b.Surfaces {
		if w.Wall == nil || w.Room != ceiling.Room || slices.Contains(w.Wall.Duty, job.Separation) || !runsInto(ceiling, w) {
			continue
		}
		for i, z := range w.Wall.Lining {
			if s.gypsum(z) >= min(separationBoard, metricHalf) {
				continue
			}
			found = append(found, finding{where: w.ID, at: zoneFoot(w.Outline, w.Wall.Lining, i), message: fmt.Sprintf(
				"the joists bear on this wall: where they carry rooms that are lived in, the table asks for %s of gypsum board on it too; %s", s.show(separationBoard), askOffice)})
			break
		}
	}
	return found
}

// runsInto tells whether the members of a ceiling run towards a wall and end on it.
func runsInto(ceiling, wall *survey.Surface) bool {
	toward := wall.Frame.Normal[1] // members counted along x lie along y
	if ceiling.Members.Axis == string(job.AxisY) {
		toward = wall.Frame.Normal[0]
	}
	return math.Abs(toward) > 0.5
}

// heldBack says whether a ceiling's lining is fit to lie under rooms that are lived in: one sheet of fire-type board, thick enough.
func (s *site) heldBack(z job.Zone) bool {
	for _, id := range z.Layers {
		if p := s.j.Product(id); p != nil && p.FireType && (p.Thickness >= livedInBoard || p.MetricBoard() && p.Thickness >= metricFire) {
			return true
		}
	}
	return false
}

func (s *site) separationJoints() (found []finding) {
	s.separations(func(l layer) {
		zones := linings(l.surface)
		for i, z := range zones {
			if s.gypsum(z) == 0 {
				continue
			}
			f := finding{where: l.surface.ID, at: zoneFoot(l.surface.Outline, zones, i)}
			face := s.j.Product(z.Layers[len(z.Layers)-1])
			switch {
			case face == nil:
				continue
			case face.Kind != job.Gypsum:
				f.message = "tape the joints of the gypsum board in one coat of compound, level 1 at least, before plywood covers it: this plan does not count that work; " + askOffice
			case z.Finish < 1:
				f.message = "the joints of a separation are taped in compound, level 1 at least; here none are asked for; " + askOffice
			default:
				continue
			}
			found = append(found, f)
		}
	})
	return found
}

func (s *site) separationDoors() (found []finding) {
	s.separations(func(l layer) {
		for _, o := range l.surface.Openings {
			f := finding{where: l.surface.ID, at: o.Outline[0]}
			name := o.Kind
			if o.ID != o.Kind {
				name += " " + o.ID
			}
			switch job.OpeningKind(o.Kind) {
			case job.Door:
				f.message = name + ": 1-3/8 in thick of solid wood or of solid or honeycomb-core steel, or rated 20 minutes, and closing by itself; none into a room where people sleep; " + askOffice
			case job.Window, job.Hatch:
				f.message = name + ": what closes it must keep the separation as the board around it does; " + askOffice
				f.source = "IRC R302.6 (read) asks for the separation; of such openings: common practice, no source"
			default:
				continue
			}
			found = append(found, f)
		}
	})
	return found
}

func (s *site) separationOpenings() (found []finding) {
	s.separations(func(l layer) {
		if len(l.surface.Zones) == 0 {
			return
		}
		found = append(found, finding{where: l.surface.ID, at: l.surface.Outline[0], message: "ducts through it are of sheet steel, 26 gauge at least, and open nowhere on the garage's side; the gaps round pipes, cables and boxes are filled; " + askOffice})
	})
	return found
}
