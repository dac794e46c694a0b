package price

import (
	"fmt"
	"math"

	"seamwright/calc/finish"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/calc/survey"
)

// Productivity in hours for 100 ft² of face, or as the unit says. Few such figures are published where they can be
// read; all are inputs.
var (
	hangWall = job.Figure{ID: "hang-wall", Value: 0.8, Unit: "h/100 ft2", What: "hanging and fixing board on walls", Source: "annual cost data", Status: job.Memory}
	hangCeil = job.Figure{ID: "hang-ceiling", Value: 1.2, Unit: "h/100 ft2", What: "hanging and fixing board on ceilings", Source: "annual cost data", Status: job.Memory}
	hangPly  = job.Figure{ID: "hang-panel", Value: 1.8, Unit: "h/100 ft2", What: "hanging and fixing wood panels", Source: "textbook of building estimating: 1.2 to 2.5", Status: job.Read}
	tapeCoat = job.Figure{ID: "tape-coat", Value: 0.4, Unit: "h/100 ft2", What: "one pass over joints and heads, its sanding included",
		Source: "three coats 1.0 to 1.5 h", Status: job.Memory}
	skimCoat  = job.Figure{ID: "skim-coat", Value: 0.8, Unit: "h/100 ft2", What: "skim of level 5", Source: "", Status: job.Practice}
	paintCoat = job.Figure{ID: "paint-coat", Value: 0.5, Unit: "h/100 ft2", What: "one coat of primer or paint by roller", Source: "0.4 to 0.7 h", Status: job.Memory}
	trimRun   = job.Figure{ID: "base-trim", Value: 2, Unit: "h/100 ft", What: "base trim", Source: "textbook of building estimating: 1.5 to 2.5", Status: job.Read}
	cutting   = job.Figure{ID: "cut-out", Value: 0.25, Unit: "h", What: "cutting out and fitting round an opening", Source: "", Status: job.Practice}
	boxCut    = job.Figure{ID: "cut-box", Value: 0.05, Unit: "h", What: "cutting out a box", Source: "", Status: job.Practice}
	highPart  = job.Figure{ID: "height-premium", Value: 40, Unit: "%", What: "more time for the part above 10 ft", Source: "trade association's estimating column", Status: job.Read}
)

var labourFigures = []job.Figure{hangWall, hangCeil, hangPly, tapeCoat, skimCoat, paintCoat, trimRun, cutting, boxCut, highPart}

// Work is the time that one trade takes on one surface.
type Work struct {
	Surface string
	Trade   string // hang, tape, paint, trim
	Hours   float64
	Basis   string
	Source  string
}

const squareMetresPer100Foot2 = 100 * 0.3048 * 0.3048

// Labour is the working time of the job, one person, surface by surface and trade by trade.
func Labour(j *job.Job, b *survey.Building, p *plan.Plan) []Work {
	var all []Work
	painted := map[string]float64{}
	for _, m := range finish.Measures(j, b, p) {
		painted[m.Surface] = m.Painted
	}
	planned := map[string]bool{}
	for _, s := range p.Surfaces {
		planned[s.ID] = true
	}
	for _, s := range b.Surfaces {
		if planned[s.ID] {
			all = append(all, surfaceWork(j, s, painted[s.ID])...)
		}
	}
	return all
}

func surfaceWork(j *job.Job, s *survey.Surface, painted float64) []Work {
	var hang, tape float64
	zones := 0
	for _, z := range s.Zones {
		if z.Product == nil {
			continue
		}
		zones++
		hundreds := effective(j, s, z) / squareMetresPer100Foot2
		rate := hangWall
		switch {
		case z.Product.Kind == job.WoodPanel:
			rate = hangPly
		case s.Kind == plan.Ceiling:
			rate = hangCeil
		}
		hang += hundreds * rate.Of(j)
		if z.Layer == 1 {
			hang += float64(len(z.Holes)) * cutting.Of(j)
		}
		if c := finish.CoatsOf(z.Finish); z.Layer == z.Layers && z.Product.Kind == job.Gypsum {
			tape += hundreds * tapeCoat.Of(j) * float64(c.Passes())
			if c.Skim {
				tape += hundreds * skimCoat.Of(j)
			}
		}
	}
	if zones == 0 {
		return nil
	}
	hang += float64(len(s.Boxes)) * boxCut.Of(j)
	coats := float64(j.Paint.Primer + j.Paint.Coats)
	paint := painted / squareMetresPer100Foot2 * paintCoat.Of(j) * coats
	trim := trimLength(s).Feet() / 100 * trimRun.Of(j)
	var works []Work
	add := func(trade string, hours float64, basis string, f job.Figure) {
		if hours > 0 {
			works = append(works, Work{s.ID, trade, hours, basis, f.Source + " (" + string(f.Status) + ")"})
		}
	}
	add("hang", hang, fmt.Sprintf("area of every layer at its rate, %d box(es), openings; + %g %% above 10 ft", len(s.Boxes), highPart.Of(j)), hangWall)
	add("tape", tape, fmt.Sprintf("face at %g h/100 ft² for each pass", tapeCoat.Of(j)), tapeCoat)
	add("paint", paint, fmt.Sprintf("%.1f m² x %.0f coats at %g h/100 ft²", painted, coats, paintCoat.Of(j)), paintCoat)
	add("trim", trim, fmt.Sprintf("base trim at %g h/100 ft", trimRun.Of(j)), trimRun)
	return works
}

// effective is a zone's area in m² less openings, what lies above 10 ft counted with its premium: the share of the
// zone's bounding height above that line on walls.
func effective(j *job.Job, s *survey.Surface, z *survey.Zone) float64 {
	area := z.Outline.Area()
	for _, h := range z.Holes {
		area -= h.Outline.Area()
	}
	m2 := math.Max(area.SquareMetres(), 0)
	if s.Kind != plan.Wall {
		return m2
	}
	const ten = 10 * length.Foot
	_, above := z.Outline.Cut(shape.AtY, ten)
	high := 0.0
	for _, p := range above {
		high += p.Area().SquareMetres()
	}
	return m2 + high*highPart.Of(j)/100
}

func trimLength(s *survey.Surface) length.Length {
	sum := length.Length(0)
	for _, l := range finish.BaseRuns(s) {
		sum += l
	}
	return sum
}

func hoursOf(all []Work) float64 {
	sum := 0.0
	for _, w := range all {
		sum += w.Hours
	}
	return sum
}
