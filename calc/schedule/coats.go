package schedule

import (
	"fmt"
	"slices"

	"seamwright/calc/finish"
	"seamwright/calc/job"
	"seamwright/calc/plan"
	"seamwright/calc/survey"
)

// finishing adds what turns hung board into a painted face: returns, screw check, inspection, beads, tape and coats with
// their drying and sanding, the floor covered, dust off, primer, the look in raking light, paint, and the masking tape off. Lengths and areas
// are those that the takeoff buys for; each place gets the coats of its finish level (GA-214).
func (s *sequence) finishing(r *job.Room, layers []layer, w finish.Work, after links) links {
	board, inspected := 0.0, false
	for _, l := range layers {
		if l.asked.Product.Kind == job.Gypsum {
			board += area(l.zone.Panels).SquareMetres()
			inspected = inspected || slices.ContainsFunc(duties(l.surveyed), func(d job.Duty) bool { return d == job.Rated || d == job.Separation })
		}
	}
	if board == 0 {
		return after
	}
	for _, q := range s.p.Returns {
		s.up = append(s.up, q.ID)
	}
	last := s.work(plan.ReturnStep, "returns-"+r.ID, plan.Tell("task.returns", "room", r.ID, "pieces", plan.Tell("count.pieces", "count", w.Strips)), s.count(w.Strips, fixReturn), after)
	s.up = nil
	last = s.work(plan.ScrewStep, "screws-"+r.ID, plan.Tell("task.screw-check", "room", r.ID), s.metres2(board, screwCheck), last)
	if inspected {
		last = s.inspect("inspect-"+r.ID, plan.Tell("task.inspection", "room", r.ID), plan.Tell("schedule.inspected"), last)
	}
	last = s.seal(r, w, last)
	last = s.work(plan.CoverStep, "floor-"+r.ID, plan.Tell("task.cover-floor", "room", r.ID), s.metres2(w.Floor, coverFloor), last)
	last = s.work(plan.FillStep, "fill-"+r.ID, plan.Tell("task.fill", "room", r.ID), s.metres2(board, fillGaps), last)
	last = s.work(plan.BeadStep, "beads-"+r.ID, plan.Tell("task.beads", "room", r.ID), s.run(w.Bead, setBead), last)
	for coat := 0; w.Coat(coat) > 0; coat++ {
		step, name := plan.CoatStep, plan.Tell("task.coat", "room", r.ID, "coat", coat+1)
		if coat == 0 {
			step, name = plan.TapeStep, plan.Tell("task.tape", "room", r.ID)
		}
		sanded, coated := s.coat(w, coat)
		last = s.work(plan.SmoothStep, fmt.Sprintf("smooth-%d-%s", coat, r.ID), plan.Tell("task.smooth", "room", r.ID, "coat", coat), sanded, last)
		last = s.work(step, fmt.Sprintf("coat-%d-%s", coat+1, r.ID), name, coated, last)
		last = s.dry(compound, fmt.Sprintf("dry-%d-%s", coat+1, r.ID), plan.Tell("task.coat-dries", "room", r.ID, "coat", coat+1), last)
	}
	if skim := w.Skim(); skim > 0 {
		last = s.work(plan.SkimStep, "skim-"+r.ID, plan.Tell("task.skim", "room", r.ID), s.metres2(skim, skimCoat), last)
		last = s.dry(skimFilm, "dry-skim-"+r.ID, plan.Tell("task.skim-dries", "room", r.ID), last)
	}
	if w.Painted == 0 {
		s.sanded, s.split = last, len(s.tasks)
		return last
	}
	last = s.work(plan.SandStep, "sand-"+r.ID, plan.Tell("task.sand", "room", r.ID), s.metres2(w.Painted, sand), last)
	s.sanded, s.split, s.clean = last, len(s.tasks), len(s.tasks)
	last = s.work(plan.DustStep, "dust-"+r.ID, plan.Tell("task.dust-off", "room", r.ID), s.metres2(w.Painted, dustOff), last)
	return s.painting(r, w, last)
}

// coat is the effort of one coat of compound, and of sanding the one before it.
func (c crew) coat(w finish.Work, coat int) (sanded, coated effort) {
	if coat == 0 {
		return effort{}, c.joints(w, coat, tapeCoat)
	}
	return c.joints(w, coat, smooth), c.joints(w, coat, nextCoat)
}

// joints is the effort for all joints that get a coat, wide ones counted as often as they take longer.
func (c crew) joints(w finish.Work, coat int, f job.Figure) effort {
	e := c.run(w.Coat(coat), f)
	if wide := w.Wide(coat); wide > 0 {
		more := (buttWork.Of(c.j) - 1) * wide.Feet() / 100 * f.Of(c.j)
		e = e.plus(effort{hours: more, basis: plan.Tell("schedule.wide-joints", "hours", more, "share", plan.Share(float64(wide)/float64(w.Coat(coat))), "times", buttWork.Of(c.j)), source: cite(buttWork)})
	}
	return e
}

// JointHours are the person-hours of finishing some joints, all their coats: what the tasks of a room come to for them.
func JointHours(j *job.Job, seams []finish.Seams) (hours float64) {
	c, w := crew{j: j}, finish.Work{Seams: seams}
	for coat := 0; w.Coat(coat) > 0; coat++ {
		sanded, coated := c.coat(w, coat)
		hours += sanded.hours + coated.hours
	}
	return hours
}

// PieceHours are the person-hours of hanging one piece more in the same area.
func PieceHours(j *job.Job) float64 { return hangPiece.Of(j) }

func (s *sequence) painting(r *job.Room, w finish.Work, last links) links {
	coats := s.j.Paint.Primer + s.j.Paint.Coats
	if coats > 0 {
		last = s.work(plan.MaskStep, "mask-"+r.ID, plan.Tell("task.mask", "room", r.ID), s.run(w.Masked, mask), last)
	}
	s.trade = plan.Coat
	defer func() { s.trade = "" }()
	for i := range s.j.Paint.Primer {
		last = s.work(plan.PrimeStep, fmt.Sprintf("prime-%d-%s", i+1, r.ID), plan.Tell("task.prime", "room", r.ID, "coat", i+1), s.metres2(w.Painted, prime), last)
		last = s.paintDries(fmt.Sprintf("dry-primer-%d-%s", i+1, r.ID), plan.Tell("task.primer-dries", "room", r.ID), primerCoat, last)
	}
	last = s.work(plan.RakingStep, "raking-"+r.ID, plan.Tell("task.raking-look", "room", r.ID), s.metres2(w.Painted, rakingLook), last)
	for i := range s.j.Paint.Coats {
		last = s.work(plan.PaintStep, fmt.Sprintf("paint-%d-%s", i+1, r.ID), plan.Tell("task.paint", "room", r.ID, "coat", i+1), s.metres2(w.Painted, paint), last)
		last = s.paintDries(fmt.Sprintf("dry-paint-%d-%s", i+1, r.ID), plan.Tell("task.paint-dries", "room", r.ID), paintCoat, last)
	}
	if coats > 0 {
		last = s.work(plan.UnmaskStep, "unmask-"+r.ID, plan.Tell("task.unmask", "room", r.ID), s.run(w.Masked, unmask), last)
	}
	return last
}

// seal puts sealant round the boxes of a room that ask for it, before the joints are taped.
func (s *sequence) seal(r *job.Room, w finish.Work, after links) links {
	return s.work(plan.SealStep, "seal-"+r.ID, plan.Tell("task.seal", "room", r.ID), s.count(w.Sealed, sealBox), after)
}

func duties(f *survey.Surface) []job.Duty {
	if f.Wall != nil {
		return f.Wall.Duty
	}
	return f.Ceiling.Duty
}
