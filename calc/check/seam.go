package check

import (
	"cmp"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/calc/survey"
)

// sameLine is how far two places may lie apart and still be one line: less than any gap that the trade leaves,
// more than the half gaps and fits by which neighbouring panels are shortened.
const sameLine = length.Inch / 8

var seamRules = []Rule{
	{"stagger", "end joints of adjoining courses lie apart, never on one line", plan.Error,
		plan.Cite("GA-216-2024 s. 4.6.7").Also(plan.Tell("source.distance-practice")), (*site).stagger, room},
	{"four-corners", "four sheets never meet in a point", plan.Error, plan.Practice(), (*site).fourCorners, room},
	{"opening", "no butt or mixed joint in line with an opening's edge or close to it; no tapered joint in line with sill or head",
		plan.Error, plan.Cite("NAVEDTRA 14044 ch. 5"), (*site).openings, room},
	{"backing-seam", "a sheet's seam keeps clear of a parallel seam in the backing", plan.Error, plan.Practice(), (*site).backingSeams, room},
	{"layers", "seams of a layer keep clear of parallel seams of the layer below", plan.Error, plan.Cite("GA-216-2024 s. 4.6.8"), (*site).layerSeams, room},
	{"opposite-faces", "seams on the two faces of one partition do not share a stud", plan.Error, plan.Cite("GA-216-2024 s. 4.6.7"), (*site).oppositeFaces, building},
}

// seam is a joint between panels as a line along one axis: at across it, from and to along it.
type seam struct {
	plan.Joint
	upright  bool
	at       length.Length
	from, to length.Length
}

// seams lists the joints between panels of a layer.
func (l layer) seams() []seam {
	var all []seam
	for _, j := range l.planned.Joints {
		switch j.Kind {
		case plan.Tapered, plan.Mixed, plan.Butt, plan.PanelGap, plan.Control:
		default:
			continue
		}
		s := seam{Joint: j}
		switch {
		case j.From.X == j.To.X:
			s.upright, s.at, s.from, s.to = true, j.From.X, min(j.From.Y, j.To.Y), max(j.From.Y, j.To.Y)
		case j.From.Y == j.To.Y:
			s.at, s.from, s.to = j.From.Y, min(j.From.X, j.To.X), max(j.From.X, j.To.X)
		default:
			continue
		}
		all = append(all, s)
	}
	return all
}

// endJoints are the seams that run across the courses, without those that openings put there: control joints, and joints
// at the jambs where only rectangles are allowed.
func (l layer) endJoints(rules *job.Rules) []seam {
	return slices.DeleteFunc(l.seams(), func(s seam) bool {
		return s.upright != l.coursesLevel() || s.Kind == plan.Control || rules.Cutouts == job.RectOnly && atJamb(l.asked, s)
	})
}

// coursesLevel says whether the courses run along x: sheets across upright members, or along level ones.
func (l layer) coursesLevel() bool {
	return (l.planned.Run == string(job.RunAcross)) == (l.surface.Members.Axis == "x")
}

func (s seam) point() shape.Point { return s.place(s.from/2 + s.to/2) }

// place is the point of the seam at a place along it.
func (s seam) place(along length.Length) shape.Point {
	if s.upright {
		return shape.Point{X: s.at, Y: along}
	}
	return shape.Point{X: along, Y: s.at}
}

// meets says whether two parallel seams follow each other end to end, as in adjoining courses.
func (s seam) meets(o seam) bool {
	return (s.to-o.from).Abs() <= sameLine || (o.to-s.from).Abs() <= sameLine
}

// overlap is the length over which two parallel seams run beside each other.
func (s seam) overlap(o seam) length.Length { return min(s.to, o.to) - max(s.from, o.from) }

// adjoining calls yield for every two end joints of adjoining courses.
func (l layer) adjoining(rules *job.Rules, yield func(a, b seam)) {
	joints := l.endJoints(rules)
	slices.SortStableFunc(joints, func(a, b seam) int { return cmp.Compare(a.from, b.from) })
	for i, a := range joints {
		for _, b := range joints[i+1:] {
			if b.from > a.to+sameLine {
				break
			}
			if a.meets(b) {
				yield(a, b)
			}
		}
	}
}

func (s *site) stagger() (found []finding) {
	for _, l := range s.layers() {
		if l.asked.Pattern != job.Staggered {
			continue
		}
		asked := min(s.j.Rules.Stagger, l.surface.Space())
		l.adjoining(&s.j.Rules, func(a, b seam) {
			if d := (a.at - b.at).Abs(); d < asked-sameLine {
				found = append(found, finding{where: l.surface.ID, at: a.point(), says: plan.Tell("check.stagger", "one", a.at, "other", b.at, "apart", d, "required", asked)})
			}
		})
	}
	return found
}

func (s *site) fourCorners() (found []finding) {
	for _, l := range s.layers() {
		if l.asked.Pattern != job.Staggered {
			continue
		}
		l.adjoining(&s.j.Rules, func(a, b seam) {
			if (a.at - b.at).Abs() <= sameLine {
				found = append(found, finding{where: l.surface.ID, at: a.place(max(a.from, b.from)),
					says: plan.Tell("check.four-corners", "at", a.at)})
			}
		})
	}
	return found
}

func (s *site) openings() (found []finding) {
	for _, l := range s.layers() {
		for _, h := range l.asked.Holes {
			r := h.Opening.Rect()
			for _, a := range l.seams() {
				low, high, near, far := r.X, r.MaxX(), r.Y, r.MaxY()
				if !a.upright {
					low, high, near, far = r.Y, r.MaxY(), r.X, r.MaxX()
				}
				if a.to < near-sameLine || a.from > far+sameLine {
					continue // does not meet the opening
				}
				away := min((a.at - low).Abs(), (a.at - high).Abs())
				name := h.Opening.ID
				switch {
				case a.Kind == plan.Tapered && away <= sameLine:
					found = append(found, finding{where: l.surface.ID, at: a.point(), level: plan.Caution,
						says: plan.Tell("check.tapered-at-opening", "at", a.at, "opening", name)})
				case a.Kind != plan.Butt && a.Kind != plan.Mixed || away >= s.j.Rules.Opening-sameLine:
				case s.j.Rules.Cutouts == job.RectOnly && away <= sameLine:
					found = append(found, finding{where: l.surface.ID, at: a.point(), level: plan.Caution,
						says: plan.Tell("check.jamb-joint", "at", a.at, "opening", name)})
				default:
					found = append(found, finding{where: l.surface.ID, at: a.point(), says: plan.Tell("check.near-opening",
						"kind", plan.JointName(a.Kind), "at", a.at, "away", away, "opening", name, "required", s.j.Rules.Opening)})
				}
			}
		}
	}
	return found
}

func (s *site) backingSeams() (found []finding) {
	for _, l := range s.layers() {
		if l.surface.Backing == nil || l.asked.Layer != 1 {
			continue
		}
		for _, b := range l.surface.Backing.Seams {
			behind := seam{upright: b[0].X == b[1].X, at: b[0].X, from: min(b[0].Y, b[1].Y), to: max(b[0].Y, b[1].Y)}
			if !behind.upright {
				behind.at, behind.from, behind.to = b[0].Y, min(b[0].X, b[1].X), max(b[0].X, b[1].X)
			}
			for _, a := range l.seams() {
				if d := (a.at - behind.at).Abs(); a.upright == behind.upright && a.overlap(behind) > 0 && d < s.j.Rules.Backing-sameLine {
					found = append(found, finding{where: l.surface.ID, at: a.point(), says: plan.Tell("check.backing-joint", "at", a.at, "apart", d, "required", s.j.Rules.Backing)})
				}
			}
		}
	}
	return found
}

// layerClearance is the distance between parallel seams of two layers that run across the members; along them it
// is one member space. GA-216-2024 s. 4.6.8 gives one cavity; 16 in is a city's rule (Rancho Palos Verdes checklist).
const layerClearance = 16 * length.Inch

func (s *site) layerSeams() (found []finding) {
	all := s.layers()
	for i, l := range all {
		if i == 0 || l.asked.Layer == 1 || all[i-1].surface != l.surface {
			continue
		}
		for _, a := range l.seams() {
			asked := layerClearance
			if a.upright == (l.surface.Members.Axis == "x") {
				asked = l.surface.Space()
			}
			for _, b := range all[i-1].seams() {
				if d := (a.at - b.at).Abs(); a.upright == b.upright && a.overlap(b) > sameLine && d < asked-sameLine && !a.goesOn(b) {
					found = append(found, finding{where: l.surface.ID, at: a.point(), says: plan.Tell("check.layer-joint", "at", a.at, "layer", l.asked.Layer, "apart", d, "required", asked)})
				}
			}
		}
	}
	return found
}

func (s *site) oppositeFaces() (found []finding) {
	planned := map[*survey.Surface][]layer{}
	for _, l := range s.layers() {
		planned[l.surface] = append(planned[l.surface], l)
	}
	for _, surface := range s.b.Surfaces {
		for _, back := range surface.Backs {
			if back.ID < surface.ID { // each partition once
				continue
			}
			for _, front := range planned[surface] {
				for _, behind := range planned[back] {
					found = append(found, s.sharedStuds(front, behind)...)
				}
			}
		}
	}
	return found
}

// sharedStuds compares the upright seams on the two faces where both belong to the base layer.
func (s *site) sharedStuds(front, behind layer) (found []finding) {
	if front.asked.Layer != 1 || behind.asked.Layer != 1 {
		return nil
	}
	width := max(framing(front.surface).Member, sameLine)
	for _, a := range front.seams() {
		for _, b := range behind.seams() {
			if !a.upright || !b.upright || a.overlap(b) <= sameLine {
				continue
			}
			if there := across(front.surface.Frame, behind.surface.Frame, b.at); (a.at - there).Abs() < width {
				found = append(found, finding{where: front.surface.ID, at: a.point(), says: plan.Tell("check.shared-stud", "at", a.at, "other", behind.surface.ID)})
			}
		}
	}
	return found
}

// across gives the x on one face of a partition of a place on the other.
func across(to, from plan.Frame, x length.Length) length.Length {
	sum := 0.0
	for k := range 3 {
		p := from.Origin[k].MM() + float64(from.X[k]*x.MM())
		sum += float64((p - to.Origin[k].MM()) * to.X[k])
	}
	return length.FromMM(sum)
}
