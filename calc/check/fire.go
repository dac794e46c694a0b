package check

import (
	"fmt"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
)

// askOffice ends every message where a code may ask for something else.
const askOffice = "the local code and the building office decide"

var fireRules = []Rule{
	{"rated", "rated work is built as the tested design says, its own fastening included", plan.Caution, "IBC ch. 7; Gypsum Association, Using Gypsum Board, s. III", (*site).rated, room},
	{"foam", "foam plastic stands behind a thermal barrier", plan.Error,
		"IRC R316.4 (1/2 in gypsum board; 23/32 in structural panel from memory)", (*site).foam, room},
	{"kraft", "kraft facing is not left open", plan.Caution, "IRC R302.10", (*site).kraft, room},
	{"wet", "no paper-faced board behind tub and shower tile", plan.Caution, "IRC R702.4.2, from memory", (*site).wet, room},
	{"hot-appliance", "stoves and kilns keep their clearance to wood", plan.Caution, "the appliance's listing and the mechanical code", (*site).hot, building},
}

// Thinnest linings that the fire rules accept.
const (
	barrierPanel = 23 * length.Inch / 32
	metricHalf   = 12 * length.Millimetre // 12.5 mm board stands for 1/2 in
)

// gypsum is the thickness of the gypsum board in a zone's layers.
func (s *site) gypsum(z job.Zone) (sum length.Length) {
	for _, id := range z.Layers {
		if p := s.j.Product(id); p != nil && p.Kind == job.Gypsum {
			sum += p.Thickness
		}
	}
	return sum
}

// zoneFoot is a place in a zone of a surface, to look at.
func zoneFoot(outline shape.Polygon, zones []job.Zone, i int) shape.Point {
	at := outline.Bounds()
	p := shape.Point{X: at.X + at.W/2, Y: at.Y}
	if i > 0 {
		p.Y = max(p.Y, zones[i-1].To)
	}
	return p
}

func (s *site) rated() (found []finding) {
	for _, surface := range s.b.Surfaces {
		if (layer{surface: surface}).has(job.Rated) {
			found = append(found, finding{where: surface.ID, at: surface.Outline[0], message: "rated work: board type, layers, screws and joints follow the tested design, not this plan's usual spacing; have it inspected before the joints are taped; " + askOffice})
		}
	}
	return found
}

func (s *site) foam() (found []finding) {
	for _, surface := range s.b.Surfaces {
		if insulation(surface) != job.FoamPlastic {
			continue
		}
		zones := linings(surface)
		for i, z := range zones {
			var wood length.Length
			for _, id := range z.Layers {
				if p := s.j.Product(id); p != nil && p.Kind == job.WoodPanel {
					wood = max(wood, p.Thickness)
				}
			}
			if s.gypsum(z) >= metricHalf || wood >= barrierPanel-length.Inch/32 {
				continue
			}
			found = append(found, finding{where: surface.ID, at: zoneFoot(surface.Outline, zones, i),
				message: "foam plastic has no thermal barrier here: cover it with 1/2 in gypsum board or what the local code accepts"})
		}
	}
	return found
}

func (s *site) kraft() (found []finding) {
	for _, surface := range s.b.Surfaces {
		zones := linings(surface)
		for i, z := range zones {
			if insulation(surface) == job.KraftBatt && isOpen(z) {
				found = append(found, finding{where: surface.ID, at: zoneFoot(surface.Outline, zones, i),
					message: "kraft facing stays visible and burns: cover it, or use batts made to be left open; " + askOffice})
			}
		}
	}
	return found
}

func (s *site) wet() (found []finding) {
	for _, l := range s.layers() {
		if p := l.asked.Product; l.has(job.Wet) && p.Kind == job.Gypsum && !p.Moisture {
			found = append(found, finding{where: l.surface.ID, at: l.asked.Outline[0],
				message: fmt.Sprintf("%s is paper-faced board without moisture resistance: use a backer made for wet areas behind tile", p.ID)})
		}
	}
	return found
}

func (s *site) hot() (found []finding) {
	for _, l := range s.layers() {
		if l.asked.Product.Kind == job.WoodPanel && l.asked.Layer == l.asked.Layers {
			return []finding{{where: l.surface.ID, at: l.asked.Outline[0],
				message: "plywood stays visible here: keep every stove, kiln and flue at the clearance that its papers ask; " + askOffice}}
		}
	}
	return nil
}
