package check

import (
	"seamwright/calc/job"
	"seamwright/calc/plan"
)

var siteRules = []Rule{
	{"cold", "the room is warm enough for compound", plan.Caution,
		plan.Tell("source.cold"), (*site).cold, building},
	{"inspection", "rated and separation work is inspected before its joints are taped", plan.Note,
		plan.Cite("IRC R109.1.5.1; IBC 110.3.6 (2021)"), (*site).inspection, building},
	{"before-covering", "what the lining will hide is checked and photographed first", plan.Note, plan.Practice(), (*site).beforeCovering, building},
	{"dust", "sanding dust is kept out of lungs", plan.Caution,
		plan.Tell("source.dust"), (*site).dust, building},
	{"old-building", "old paint, compound and insulation are tested before they are disturbed", plan.Caution,
		plan.Tell("source.old-building"), (*site).oldBuilding, building},
	{"not-planned", "everything in the project is planned", plan.Note, plan.Tell("source.own-limit"), (*site).notPlanned, building},
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
	return []finding{{says: plan.Tell("check.cold", "temperature", plan.Celsius(s.j.Site.Celsius), "least", plan.Celsius(coldest))}}
}

func (s *site) inspection() (found []finding) {
	for _, surface := range s.b.Surfaces {
		l := layer{surface: surface}
		if len(surface.Zones) > 0 && (l.has(job.Rated) || l.has(job.Separation)) {
			found = append(found, finding{where: surface.ID, at: surface.Outline[0],
				says: plan.Tell("check.inspection")})
		}
	}
	return found
}

func (s *site) beforeCovering() []finding {
	if len(s.layers()) == 0 {
		return nil
	}
	return []finding{{says: plan.Tell("check.before-covering", "count", len(s.p.Before))}}
}

func (s *site) dust() []finding {
	if !s.hasGypsum() {
		return nil
	}
	return []finding{{says: plan.Tell("check.dust")}}
}

func (s *site) oldBuilding() []finding {
	if len(s.layers()) == 0 {
		return nil
	}
	return []finding{{says: plan.Tell("check.old-building")}}
}

func (s *site) notPlanned() (found []finding) {
	for _, r := range s.j.Rooms {
		for _, solid := range r.Solids {
			found = append(found, finding{where: r.ID, says: plan.Tell("check.not-planned", "solid", solid.ID)})
		}
	}
	return found
}
