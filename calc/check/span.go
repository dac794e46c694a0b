package check

import (
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/calc/span"
	"seamwright/calc/survey"
)

var spanRules = []Rule{
	{"span", "the sheet's thickness suits the bays and direction of the members", plan.Error,
		plan.CiteMemory("IRC Table R702.3.5").Also(plan.Tell("source.makers-tables")), (*site).span, room},
	{"insulation-weight", "a ceiling bears the insulation that lies on it", plan.Caution,
		plan.Tell("source.insulation-weight"), (*site).insulationWeight, room},
	{"texture", "thin ceiling board gets no water-based texture", plan.Note, plan.CiteMemory("IRC Table R702.3.5, footnote d"), (*site).texture, room},
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

// board tells the board of a layer and the direction that it lies in.
func (l layer) board(run job.Run) plan.Fact {
	return plan.Tell("check.board", "thick", plan.Fine(l.asked.Product.Thickness), "laid", l.laid(run))
}

// laid tells a direction of a layer by what it has behind it.
func (l layer) laid(run job.Run) plan.Fact {
	members := "studs"
	if l.surface.Kind == plan.Ceiling {
		members = "joists"
	}
	return plan.Tell("laid." + string(run) + "-" + members)
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
		stands := plan.Tell("check.widest-bay", "wide", bay.To-bay.From, "from", bay.From, "to", bay.To)
		if listed {
			f.source = row.From
			f.says = plan.Tell("check.span", "board", l.board(run), "most", limit)
		} else {
			f.says = plan.Tell("check.span-unlisted", "board", l.board(run), "why", s.unlisted(l, use))
		}
		f.says = f.says.Also(stands).Also(s.otherWay(l, run, limit))
		found = append(found, f)
	}
	return found
}

// unlisted says why the span table has no row for a board, whatever the bays.
func (s *site) unlisted(l layer, use span.Use) plan.Fact {
	across, bare := use, use
	across.Run, bare.Loaded = job.RunAcross, false
	if _, ok := span.Widest(l.asked.Product, bare); ok && use.Loaded {
		return plan.Tell("check.bears-nothing")
	}
	if _, ok := span.Widest(l.asked.Product, across); ok {
		if use.Has(job.Separation) {
			return plan.Tell("check.fire-across-only")
		}
		return plan.Tell("check.across-only")
	}
	return plan.Tell("check.not-listed")
}

// otherWay tells what the other direction of a board that carries too little would have done.
func (s *site) otherWay(l layer, run job.Run, limit length.Length) plan.Fact {
	other := job.RunAlong
	if run == job.RunAlong {
		other = job.RunAcross
	}
	far, ok := l.asked.Spans(other)
	switch {
	case ok:
		return plan.Tell("check.other-way-carries", "laid", l.laid(other))
	case far < limit && l.asked.Run != run:
		return plan.Tell("check.other-way-less", "laid", l.laid(other))
	}
	return plan.Tell("check.thicker-board")
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
		f := finding{where: l.surface.ID, at: l.inBay(l.asked.Widest()), says: plan.Tell("check.insulation-weight", "thick", plan.Fine(l.asked.Product.Thickness), "bears", psfLoad(row.Bears),
			"bay", l.asked.Widest().Width, "insulation", insulationName(insulation(l.surface)), "weighs", psfLoad(psf))}
		if psf <= row.Bears {
			f.level = plan.Note
			f.says = f.says.Also(plan.Tell("check.loose-fill"))
		} else {
			f.says = f.says.Also(plan.Tell("check.insulation-remedy"))
		}
		found = append(found, f)
	}
	return found
}

// psfLoad is a load in pounds for a square foot that is told.
func psfLoad(psf float64) plan.KilogramsM2 {
	const kilogramsPerPound, squareMetresPerFoot2 = 0.45359237, 0.3048 * 0.3048 // exact by definition
	return plan.KilogramsM2(psf * kilogramsPerPound / squareMetresPerFoot2)
}

// insulationName tells an insulation.
func insulationName(i job.Insulation) plan.Fact { return plan.Tell("insulation." + string(i)) }

func (s *site) texture() (found []finding) {
	for _, l := range s.layers() {
		use := l.asked.Use(job.Run(l.planned.Run))
		row, ok := span.Find(l.asked.Product, use)
		if l.asked.Spanning() && use.Ceiling && ok && row.Bears == 0 && row.Plies == 1 {
			found = append(found, finding{where: l.surface.ID, at: l.asked.Outline[0], says: plan.Tell("check.texture", "thick", plan.Fine(l.asked.Product.Thickness))})
		}
	}
	return found
}
