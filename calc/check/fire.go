package check

import (
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
)

// askOffice ends every message where a code may ask for something else.
func askOffice() plan.Fact { return plan.Tell("check.ask-office") }

var fireRules = []Rule{
	{"rated", "rated work is built as the tested design says, its own fastening included", plan.Caution, plan.Cite("IBC ch. 7; Gypsum Association, Using Gypsum Board, s. III"), (*site).rated, room},
	{"foam", "foam plastic stands behind a thermal barrier", plan.Error,
		plan.Tell("source.foam"), (*site).foam, room},
	{"kraft", "kraft facing is not left open", plan.Caution, plan.Cite("IRC R302.10"), (*site).kraft, room},
	{"wet", "no paper-faced board behind tub and shower tile", plan.Caution, plan.CiteMemory("IRC R702.4.2"), (*site).wet, room},
	{"hot-appliance", "stoves and kilns keep their clearance to wood", plan.Caution, plan.Tell("source.appliance"), (*site).hot, building},
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
			found = append(found, finding{where: surface.ID, at: surface.Outline[0], says: plan.Tell("check.rated").Also(askOffice())})
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
				says: plan.Tell("check.foam", "board", plan.Fine(separationBoard))})
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
					says: plan.Tell("check.kraft").Also(askOffice())})
			}
		}
	}
	return found
}

func (s *site) wet() (found []finding) {
	for _, l := range s.layers() {
		if p := l.asked.Product; l.has(job.Wet) && p.Kind == job.Gypsum && !p.Moisture {
			found = append(found, finding{where: l.surface.ID, at: l.asked.Outline[0],
				says: plan.Tell("check.wet", "product", p.ID)})
		}
	}
	return found
}

func (s *site) hot() (found []finding) {
	for _, l := range s.layers() {
		if l.asked.Product.Kind == job.WoodPanel && l.asked.Layer == l.asked.Layers {
			return []finding{{where: l.surface.ID, at: l.asked.Outline[0],
				says: plan.Tell("check.hot-appliance").Also(askOffice())}}
		}
	}
	return nil
}
