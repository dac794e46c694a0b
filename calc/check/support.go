package check

import (
	"cmp"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/span"
	"seamwright/calc/survey"
)

var supportRules = []Rule{
	{"bearing", "a joint parallel to the members lands on one, else on solid backing, else it is back-blocked", plan.Error,
		plan.Tell("source.bearing"), (*site).bearing, room},
	{"edge-blocking", "wood panels laid across have their level edges blocked", plan.Error, plan.Cite("APA B360P p. 58"), (*site).edgeBlocking, room},
	{"wood-span", "a wood panel's thickness suits the bays between the studs", plan.Caution,
		plan.Tell("source.wood-span"), (*site).woodSpan, room},
}

// offCentre is how far a seam may lie from the middle of its member: then each sheet still bears on half of a
// 1-1/2 in member less 1/8 in.
const offCentre = length.Inch / 8

func (s *site) bearing() (found []finding) {
	for _, l := range s.layers() {
		strict := l.has(job.Rated) || l.has(job.Separation) || l.has(job.Bracing)
		onBacking := 0
		for _, a := range l.seams() {
			if a.upright != (l.surface.Members.Axis == "x") {
				continue
			}
			f := finding{where: l.surface.ID, at: a.point()}
			switch a.Support {
			case plan.OnMember, plan.OnPlate:
				if a.Support == plan.OnPlate || s.j.Rules.Cutouts == job.RectOnly && atJamb(l.asked, a) || onMember(l.surface, a) || a.Kind == plan.Control && twoMembers(l.surface, a.at) {
					continue
				}
				f.says = plan.Tell("check.no-member", "at", a.at)
			case plan.OnBacking:
				onBacking++
				if l.surface.Backing != nil && !strict {
					continue
				}
				f.says = plan.Tell("check.backing-only", "at", a.at)
			case plan.OnBackBlock, plan.OnBlocking:
				if s.j.Rules.BackBlocking && !strict {
					continue
				}
				f.says = plan.Tell("check.back-blocked", "at", a.at)
			default:
				f.says = plan.Tell("check.unsupported", "at", a.at)
			}
			found = append(found, f)
		}
		if onBacking > 0 {
			found = append(found, finding{where: l.surface.ID, at: l.asked.Outline[0], level: plan.Note, says: plan.Tell("check.on-backing", "count", onBacking)})
		}
	}
	return found
}

// endGrain is how far a seam may run past the end of its member: there it lies on the plate, sill or header that the member
// is nailed to.
const endGrain = 3 * length.Inch / 2

// onMember says whether members stand behind a seam from end to end: a full one, or short ones that follow each other.
func onMember(s *survey.Surface, a seam) bool {
	behind := slices.Concat(s.Studs, s.Short)
	slices.SortStableFunc(behind, func(m, n survey.Member) int { return cmp.Compare(m.From, n.From) })
	reached := a.from
	for _, m := range behind {
		switch {
		case (m.At - a.at).Abs() > offCentre:
		case m.From == m.To: // its ends are not known
			return true
		case m.From <= reached+endGrain:
			reached = max(reached, m.To)
		}
	}
	return reached > a.from && reached >= a.to-endGrain
}

func (s *site) edgeBlocking() (found []finding) {
	for _, l := range s.layers() {
		if l.asked.Product.Kind != job.WoodPanel || l.asked.Layer > 1 || l.planned.Run != string(job.RunAcross) {
			continue
		}
		for _, a := range l.seams() {
			if a.upright == (l.surface.Members.Axis == "x") || a.Support != plan.Unsupported {
				continue
			}
			found = append(found, finding{where: l.surface.ID, at: a.point(),
				says: plan.Tell("check.edge-blocking", "at", a.at)})
		}
	}
	return found
}

// Wood panels straight on studs.
const (
	thinPanel   = 7 * length.Inch / 32  // 1/4 in panels measure 0.219 in at least (PS 1)
	commonPanel = 11 * length.Inch / 32 // 3/8 in
	thinSpacing = 16 * length.Inch
	widestStuds = 24 * length.Inch
)

func (s *site) woodSpan() (found []finding) {
	for _, l := range s.layers() {
		t, bay := l.asked.Product.Thickness, l.asked.Widest()
		if l.asked.Product.Kind != job.WoodPanel || l.asked.Layer > 1 || l.surface.Backing != nil {
			continue
		}
		limit := widestStuds
		switch {
		case t < thinPanel:
			limit = 0
		case t < commonPanel:
			limit = thinSpacing
		}
		if bay.Width <= limit+span.Slack {
			continue
		}
		kind := "check.thin-panel"
		if bay.Width > widestStuds+span.Slack { // where board behind it would carry no farther
			kind = "check.thin-panel-wide-bay"
		}
		found = append(found, finding{where: l.surface.ID, at: l.inBay(bay), says: plan.Tell(kind, "thick", plan.Fine(t), "apart", bay.To-bay.From)})
	}
	return found
}
