package finish

import (
	"fmt"
	"math"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/survey"
)

// paintLevel is the finish level from which board is painted.
const paintLevel = 3

// painted reports whether a face gets primer and paint: gypsum board from level 3 up, since lower levels are hidden,
// tiled over or left (GA-214 asks for primer from level 3).
func painted(f face) bool { return f.gypsum() && f.zone.Finish >= paintLevel }

// PaintedArea is the area of a face that is painted, in m²: less openings, plus returns of board.
func paintedArea(f face) float64 {
	if !painted(f) {
		return 0
	}
	area := f.area()
	for _, h := range f.zone.Holes {
		if paintedAbove(f.zone, h.Opening.ID) {
			continue
		}
		for _, q := range f.returns {
			if q.Opening == h.Opening.ID {
				area += q.Size[0].Times(q.Size[1]).SquareMetres()
			}
		}
	}
	return area
}

// paintedAbove tells whether an opening reaches into a painted zone higher up, which then has its returns.
func paintedAbove(z *survey.Zone, opening string) bool {
	return slices.ContainsFunc(z.Surface.Zones, func(o *survey.Zone) bool {
		return o.Index > z.Index && o.Product != nil && o.Layer == o.Layers && o.Product.Kind == job.Gypsum && o.Finish >= paintLevel &&
			slices.ContainsFunc(o.Holes, func(h survey.Hole) bool { return h.Opening.ID == opening })
	})
}

// Coverage is how many litres a number of coats takes on an area of new board in m²: the first coat at its own
// coverage, the others at theirs. coverage is in square feet for a gallon.
func Coverage(m2 float64, coats int, first, later float64) float64 {
	if coats <= 0 {
		return 0
	}
	gallons := m2 / squareMetresPerFoot2 * (1/first + float64(coats-1)/later)
	return gallons * litresPerGallon
}

// paintRows are primer, paint and clear coats.
func (u units) paintRows(j *job.Job, all []face) []plan.Item {
	area, panels := 0.0, 0.0
	for _, f := range all {
		area += paintedArea(f)
		if !f.gypsum() {
			panels += f.area()
		}
	}
	var rows []plan.Item
	first, later := firstCoat.Of(j), laterCoat.Of(j)
	volume := func(item, kind string, m2 float64, coats int, first float64, source string) {
		if m2 <= 0 || coats <= 0 {
			return
		}
		basis := fmt.Sprintf("%s, openings taken out and returns added; %d coats: the first at %s, others at %s", u.area(m2), coats, u.coverage(first), u.coverage(later))
		if coats == 1 {
			basis = fmt.Sprintf("%s, openings taken out and returns added; 1 coat at %s", u.area(m2), u.coverage(first))
		}
		rows = append(rows, u.byVolume("paint", item, kind, Coverage(m2, coats, first, later), basis, source))
	}
	volume("drywall primer", "primer", area, j.Paint.Primer, first, told(firstCoat))
	if j.Paint.Primer > 0 {
		first = later
	}
	volume("wall and ceiling paint", "paint", area, j.Paint.Coats, first, told(laterCoat))
	if n := PanelCoats(j); n > 0 && panels > 0 {
		rows = append(rows, u.byVolume("paint", "clear finish for panels", "clear-finish", Coverage(panels, n, clearCover.Of(j), clearCover.Of(j)),
			fmt.Sprintf("%s of wood panels, openings taken out, x %d coats at %s", u.area(panels), n, u.coverage(clearCover.Of(j))), told(clearCover)))
	}
	return rows
}

// maskRows are tape and paper along what must stay clean, and paper on the floor.
func (u units) maskRows(j *job.Job, all []face) []plan.Item {
	edge, round := length.Length(0), length.Length(0)
	for _, f := range all {
		if j.Paint.Primer+j.Paint.Coats == 0 { // nothing to keep clean from
			break
		}
		along, about := masked(f)
		edge, round = edge+along, round+about
	}
	edge += round
	lap := 1 + paperLap.Of(j)/100
	var rows []plan.Item
	if edge > 0 {
		rows = append(rows, u.byLength("paint", "masking tape", "masking-tape", length.Length(float64(edge)*lap),
			fmt.Sprintf("edges of openings, floor and unpainted lining %s x %.2f", u.long(edge), lap), told(paperLap)))
	}
	if round > 0 {
		const strip = length.Foot // the usual roll
		rows = append(rows, u.byArea("paint", "masking paper", "masking-paper", round.Times(strip).SquareMetres()*lap,
			fmt.Sprintf("a strip of %s along the edges of openings, %s x %.2f", strip.Show(u.imperial), u.long(round), lap), told(paperLap)))
	}
	byRoom := map[string][]face{}
	for _, f := range all {
		byRoom[f.room] = append(byRoom[f.room], f)
	}
	covered, floor := coveredFloors(j, byRoom), 0.0
	for _, r := range j.Rooms { // in their order
		floor += covered[r.ID]
	}
	if floor > 0 {
		rows = append(rows, u.byArea("sundries", "floor paper", "floor-paper", floor*lap,
			fmt.Sprintf("%s of floor: all of it under a ceiling that is taped, else %s along each wall that is; x %.2f", u.area(floor), inches(j, floorStrip).Show(u.imperial), lap), told(paperLap)))
	}
	return rows
}

// coveredFloors is the floor of every room that is papered while its board is taped and painted, in m²: the whole room where
// its ceiling is, else a strip along every wall that is, and never more than the room. Wood panels and board that is only
// hung drip nothing.
func coveredFloors(j *job.Job, byRoom map[string][]face) map[string]float64 {
	covered := map[string]float64{}
	for _, r := range j.Rooms {
		overhead, along := false, length.Length(0)
		seen := map[*survey.Surface]bool{}
		for _, f := range byRoom[r.ID] {
			if seen[f.surface] || !f.gypsum() || f.zone.Finish < 1 {
				continue
			}
			seen[f.surface] = true // a zone above another is not counted twice
			overhead = overhead || f.surface.Kind == plan.Ceiling
			along += f.surface.Outline.Bounds().W
		}
		switch {
		case len(seen) == 0:
		case overhead:
			covered[r.ID] = floorArea(r)
		default:
			covered[r.ID] = math.Min(floorArea(r), along.Times(inches(j, floorStrip)).SquareMetres())
		}
	}
	return covered
}

// masked is what a painted face has masked: its edges to floor, curb and other linings, and round its openings.
func masked(f face) (edge, round length.Length) {
	if !painted(f) {
		return 0, 0
	}
	for _, h := range f.zone.Holes {
		o := h.Opening
		round += 2*o.Height + o.Width
		if o.Sill > 0 {
			round += o.Width
		}
	}
	for i, e := range f.zone.Edges {
		a, b := f.zone.Outline[i], f.zone.Outline[(i+1)%len(f.zone.Outline)]
		switch e.Meets {
		case survey.AtFloor, survey.AtCurb, survey.AtFree, survey.AtZone:
			edge += between(a.X-b.X, a.Y-b.Y)
		}
	}
	return edge, round
}

// floorArea is the area within a room's framing, in m².
func floorArea(r job.Room) float64 {
	twice := 0.0
	for i, a := range r.Corners {
		b := r.Corners[(i+1)%len(r.Corners)]
		twice += float64(a.X.Metres()*b.Y.Metres()) - float64(a.Y.Metres()*b.X.Metres())
	}
	if twice < 0 {
		twice = -twice
	}
	return twice / 2
}
