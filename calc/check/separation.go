package check

import (
	"fmt"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
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
		for i, z := range linings(l.surface) {
			t := s.gypsum(z)
			if t < min(separationBoard, metricHalf) || s.heldBack(z) {
				continue
			}
			found = append(found, finding{where: l.surface.ID, at: zoneFoot(l.surface.Outline, linings(l.surface), i), message: fmt.Sprintf(
				"%s of gypsum board without a fire-type core of 5/8 in does under an attic, not under rooms that are lived in; %s", s.show(t), askOffice)})
		}
	})
	return found
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
			at := o.Outline[0]
			switch job.OpeningKind(o.Kind) {
			case job.Door:
				found = append(found, finding{where: l.surface.ID, at: at, message: fmt.Sprintf(
					"door %s: 1-3/8 in thick of solid wood or of solid or honeycomb-core steel, or rated 20 minutes, and closing by itself; none into a room where people sleep; %s", o.ID, askOffice)})
			case job.Window, job.Hatch:
				found = append(found, finding{where: l.surface.ID, at: at, message: fmt.Sprintf(
					"%s %s: what closes it must keep the separation as the board around it does; none into a room where people sleep; %s", o.Kind, o.ID, askOffice)})
			}
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
