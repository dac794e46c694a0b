package check

import (
	"fmt"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/calc/span"
	"seamwright/calc/survey"
)

var spanRules = []Rule{
	{"span", "the sheet's thickness suits the bays and direction of the members", plan.Error,
		"IRC Table R702.3.5 (from memory); makers' tables (read)", (*site).span, room},
	{"insulation-weight", "a ceiling bears the insulation that lies on it", plan.Caution,
		"a maker's sheet of 1/2 in ceiling board (read): 1.3 psf over 24 in, 2.2 psf over 16 in; 5/8 in: GA-216 (from memory)", (*site).insulationWeight, room},
	{"texture", "thin ceiling board gets no water-based texture", plan.Note, "IRC Table R702.3.5, footnote d (from memory)", (*site).texture, room},
}

// inBay is a place in the middle of a bay behind the layer.
func (l layer) inBay(b survey.Bay) shape.Point {
	at := l.asked.Outline.Bounds()
	p := shape.Point{X: at.X + at.W/2, Y: at.Y + at.H/2}
	if l.surface.Members.Axis == string(job.AxisY) {
		p.Y = b.From + (b.To-b.From)/2
	} else {
		p.X = b.From + (b.To-b.From)/2
	}
	return p
}

// laid words the direction that a layer lies in.
func (l layer) laid(run job.Run) string {
	members := "studs"
	if l.surface.Kind == plan.Ceiling {
		members = "joists"
	}
	return string(run) + " the " + members
}

func (s *site) span() (found []finding) {
	for _, l := range s.layers() {
		run := job.Run(l.planned.Run)
		limit, ok := l.asked.Spans(run)
		if ok {
			continue
		}
		bay, use := l.asked.Widest(), l.asked.Use(run)
		f := finding{where: l.surface.ID, at: l.inBay(bay)}
		row, listed := span.Widest(l.asked.Product, use)
		board := fmt.Sprintf("%s board laid %s", s.show(l.asked.Product.Thickness), l.laid(run))
		stands := fmt.Sprintf("the widest bay here is %s, from %s to %s", s.show(bay.To-bay.From), s.show(bay.From), s.show(bay.To))
		if listed {
			f.source = row.From.Told()
			f.message = fmt.Sprintf("%s carries over %s at most; %s", board, s.show(limit), stands)
		} else {
			f.message = fmt.Sprintf("%s: %s; %s", board, s.unlisted(l, use), stands)
		}
		f.message += s.otherWay(l, run, limit)
		found = append(found, f)
	}
	return found
}

// unlisted says why the span table has no row for a board, whatever the bays.
func (s *site) unlisted(l layer, use span.Use) string {
	across, bare := use, use
	across.Run, bare.Loaded = job.RunAcross, false
	if _, ok := span.Widest(l.asked.Product, bare); ok && use.Loaded {
		return "it may bear no insulation on a ceiling"
	}
	if _, ok := span.Widest(l.asked.Product, across); ok {
		if use.Has(job.Separation) {
			return "fire-type board under rooms that are lived in goes across the joists only"
		}
		return "on a ceiling it goes across the joists only"
	}
	return "no table lists it here"
}

// otherWay tells what the other direction of a board that carries too little would have done.
func (s *site) otherWay(l layer, run job.Run, limit length.Length) string {
	other := job.RunAlong
	if run == job.RunAlong {
		other = job.RunAcross
	}
	far, ok := l.asked.Spans(other)
	switch {
	case ok:
		return fmt.Sprintf("; laid %s it carries far enough", l.laid(other))
	case far < limit && l.asked.Run != run:
		return fmt.Sprintf("; it is laid so since %s it carries still less: put members between, or take thicker board", l.laid(other))
	}
	return "; put members between, or take thicker board"
}

func (s *site) insulationWeight() (found []finding) {
	for _, l := range s.layers() {
		use := l.asked.Use(job.Run(l.planned.Run))
		row, ok := span.Find(l.asked.Product, use)
		if !l.asked.Spanning() || !use.Loaded || !ok || row.Bears == span.Unstated {
			continue
		}
		psf := span.Weight(s.j, insulation(l.surface), l.surface.Ceiling.Framing.Depth)
		if psf <= row.Bears/2 {
			continue
		}
		f := finding{where: l.surface.ID, at: l.inBay(l.asked.Widest()), message: fmt.Sprintf(
			"%s board bears %.1f psf over bays of %s; insulation as deep as the joists (%s) weighs about %.1f psf", s.show(l.asked.Product.Thickness), row.Bears,
			s.show(l.asked.Widest().Width), words(insulation(l.surface)), psf)}
		if psf <= row.Bears {
			f.level = plan.Note
			f.message += "; loose fill on top counts too"
		} else {
			f.message += ": take thicker board, lighter insulation, or hang the insulation from the joists"
		}
		found = append(found, f)
	}
	return found
}

// words names an insulation.
func words(i job.Insulation) string {
	switch i {
	case job.UnfacedBatt, job.KraftBatt:
		return "batts"
	case job.MineralWool:
		return "mineral wool"
	}
	return "foam"
}

func (s *site) texture() (found []finding) {
	for _, l := range s.layers() {
		use := l.asked.Use(job.Run(l.planned.Run))
		row, ok := span.Find(l.asked.Product, use)
		if l.asked.Spanning() && use.Ceiling && ok && row.Bears == 0 && row.Plies == 1 {
			found = append(found, finding{where: l.surface.ID, at: l.asked.Outline[0], message: fmt.Sprintf(
				"%s board overhead takes no water-based texture and no insulation", s.show(l.asked.Product.Thickness))})
		}
	}
	return found
}
