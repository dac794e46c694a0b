package check

import (
	"fmt"

	"seamwright/calc/job"
	"seamwright/calc/plan"
)

var siteRules = []Rule{
	{"cold", "the room is warm enough for compound", plan.Caution,
		"maker's guide: 50 °F held from 48 h before finishing until dry; Ontario 9.29.5.10: 10 °C", (*site).cold, building},
	{"inspection", "rated and separation work is inspected before its joints are taped", plan.Note,
		"IRC R109.1.5.1; IBC 110.3.6 (2021)", (*site).inspection, building},
	{"before-covering", "what the lining will hide is checked and photographed first", plan.Note, "common practice, no source", (*site).beforeCovering, building},
	{"dust", "sanding dust is kept out of lungs", plan.Caution,
		"NIOSH 99-113: dry sanding reaches ten times the dust limit; 29 CFR 1926.1153", (*site).dust, building},
	{"old-building", "old paint, compound and insulation are tested before they are disturbed", plan.Caution,
		"16 CFR 1304: patching compounds with asbestos were sold until 1978", (*site).oldBuilding, building},
	{"not-planned", "everything in the project is planned", plan.Note, "this program's own limit", (*site).notPlanned, building},
}

// coldest is the room temperature below which compound is not promised to dry: 50 °F.
const coldest = 10.0

// hasGypsum says whether any board will be finished.
func (s *site) hasGypsum() bool {
	for _, l := range s.layers() {
		if l.asked.Product.Kind == job.Gypsum {
			return true
		}
	}
	return false
}

func (s *site) cold() []finding {
	if s.j.Site.Celsius >= coldest || !s.hasGypsum() {
		return nil
	}
	return []finding{{message: fmt.Sprintf(
		"the room is at %.0f °F (%.0f °C): hold 50 °F (10 °C) day and night from 48 h before taping until all is dry; unvented heaters add moisture and fumes. No finishing dates are promised",
		s.j.Site.Celsius*9/5+32, s.j.Site.Celsius)}}
}

func (s *site) inspection() (found []finding) {
	for _, surface := range s.b.Surfaces {
		l := layer{surface: surface}
		if len(surface.Zones) > 0 && (l.has(job.Rated) || l.has(job.Separation)) {
			found = append(found, finding{where: surface.ID, at: surface.Outline[0],
				message: "leave joints and screw heads bare until this surface has been inspected, where the authority asks for it"})
		}
	}
	return found
}

func (s *site) beforeCovering() []finding {
	if len(s.layers()) == 0 {
		return nil
	}
	return []finding{{message: fmt.Sprintf("before covering: photograph every wall with a rule in the picture, and go through the list of %d things that the lining will hide: studs out of line, nail plates, blocking, backing at ceiling edges, boxes and their set-out", len(s.p.Before))}}
}

func (s *site) dust() []finding {
	if !s.hasGypsum() {
		return nil
	}
	return []finding{{message: "wear a respirator, sand wet or with a vacuum (80 to 97 % less dust in NIOSH tests), and keep the room closed off while sanding"}}
}

func (s *site) oldBuilding() []finding {
	if len(s.layers()) == 0 {
		return nil
	}
	return []finding{{message: "in an old building: have paint tested for lead, and plaster, compound and insulation for asbestos, before cutting or sanding; a licensed firm removes them"}}
}

func (s *site) notPlanned() (found []finding) {
	for _, r := range s.j.Rooms {
		for _, solid := range r.Solids {
			found = append(found, finding{where: r.ID, message: fmt.Sprintf("%s is kept in the file, but columns, beams, soffits and half walls are not planned yet", solid.ID)})
		}
	}
	return found
}
