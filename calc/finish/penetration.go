package finish

import (
	"math"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/survey"
)

// Figures of the bead that seals a penetration.
var (
	sealBead = job.Figure{ID: "seal-bead", Value: 0.1875, Unit: "in", Source: "gap of at most 1/8 in at a box", Status: job.Practice}
	sealTube = job.Figure{ID: "seal-tube", Value: 18.3, Unit: "in3", Source: "tubes of 300 mL", Status: job.Memory}
)

// Around is the length of joint round a box.
func Around(b job.Box) length.Length {
	if b.Diameter > 0 {
		return length.Length(math.Round(math.Pi * float64(b.Diameter)))
	}
	return 2 * (b.Width + b.Height)
}

// sealed says whether boxes in a surface are sealed: where it keeps fire, weather or sound of a neighbour out. Common
// practice, no source; rated work takes the sealant of its tested design.
func sealed(s *survey.Surface) bool {
	duties := []job.Duty{}
	switch {
	case s.Wall != nil:
		duties = s.Wall.Duty
	case s.Ceiling != nil:
		duties = s.Ceiling.Duty
	}
	return slices.ContainsFunc(duties, func(d job.Duty) bool { return d == job.Separation || d == job.Rated || d == job.Exterior })
}

// sealRows are the penetrations: the joints round boxes in separations, rated and exterior surfaces.
func (u units) sealRows(j *job.Job, b *survey.Building) []plan.Item {
	around, n := length.Length(0), 0
	for _, d := range Boxes(j, b) {
		if d.Sealed {
			around += Around(d.Box)
			n++
		}
	}
	if n == 0 {
		return nil
	}
	bead, tube := sealBead.Of(j), sealTube.Of(j)
	return []plan.Item{byCount("sundries", thing{"sealant round boxes", plan.Tell("item.sealant")}, "caulk", around.In()*bead*bead/2/tube,
		plan.Tell("finish.sealed", "count", n, "around", plan.Run(around), "bead", plan.Fine(length.Length(bead*float64(length.Inch))), "tube", plan.Litres(tube*litresPerCubicInch)), told(sealBead))}
}
