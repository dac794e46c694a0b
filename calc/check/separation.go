package check

import (
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
		plan.Tell("source.separation"), (*site).separation, room},
	{"separation-ceiling", "fire-type board of 5/8 in separates rooms that are lived in from what lies below", plan.Caution,
		plan.Tell("source.separation-ceiling"), (*site).separationCeiling, room},
	{"separation-joints", "the joints of a separation are taped", plan.Caution,
		plan.Tell("source.separation-joints"), (*site).separationJoints, room},
	{"separation-door", "doors in a separation hold fire back and close by themselves", plan.Caution,
		plan.Tell("source.separation-doors"), (*site).separationDoors, room},
	{"separation-openings", "ducts, pipes and boxes leave no hole in a separation", plan.Note,
		plan.CiteMemory("IRC R302.5.2, R302.5.3"), (*site).separationOpenings, room},
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
				found = append(found, finding{where: l.surface.ID, at: zoneFoot(l.surface.Outline, zones, i), says: plan.Tell("check.separation", "required", plan.Fine(separationBoard), "has", plan.Fine(t)).Also(askOffice())})
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
				f.says = plan.Tell("check.separation-ceiling-fixing").Also(askOffice())
				f.source = plan.Tell("source.under-habitable-rooms")
			default:
				f.says = plan.Tell("check.separation-ceiling", "thick", plan.Fine(t)).Also(askOffice())
			}
			found = append(found, f)
		}
		found = append(found, s.carriers(l.surface)...)
	})
	return found
}

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
			found = append(found, finding{where: w.ID, at: zoneFoot(w.Outline, w.Wall.Lining, i), says: plan.Tell("check.separation-carrier", "required", plan.Fine(separationBoard)).Also(askOffice())})
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
				f.says = plan.Tell("check.separation-tape-hidden").Also(askOffice())
			case z.Finish < 1:
				f.says = plan.Tell("check.separation-tape").Also(askOffice())
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
			name := plan.Tell("opening."+o.Kind, "id", o.ID)
			switch job.OpeningKind(o.Kind) {
			case job.Door:
				f.says = plan.Tell("check.separation-door", "opening", name).Also(askOffice())
			case job.Window, job.Hatch:
				f.says = plan.Tell("check.separation-opening", "opening", name).Also(askOffice())
				f.source = plan.Tell("source.separation-opening")
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
		found = append(found, finding{where: l.surface.ID, at: l.surface.Outline[0], says: plan.Tell("check.separation-ducts").Also(askOffice())})
	})
	return found
}
