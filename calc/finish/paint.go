package finish

import (
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
	volume := func(item thing, kind string, m2 float64, coats int, first float64, source plan.Fact) {
		if m2 <= 0 || coats <= 0 {
			return
		}
		basis := plan.Tell("finish.paint-coats", "area", squareMetres(m2), "coats", coats, "first", coverage(first), "others", coverage(later))
		if coats == 1 {
			basis = plan.Tell("finish.paint-coat", "area", squareMetres(m2), "first", coverage(first))
		}
		rows = append(rows, u.byVolume("paint", item, kind, Coverage(m2, coats, first, later), basis, source))
	}
	volume(thing{"drywall primer", plan.Tell("item.primer")}, "primer", area, j.Paint.Primer, first, told(firstCoat))
	if j.Paint.Primer > 0 {
		first = later
	}
	volume(thing{"wall and ceiling paint", plan.Tell("item.paint")}, "paint", area, j.Paint.Coats, first, told(laterCoat))
	if n := PanelCoats(j); n > 0 && panels > 0 {
		rows = append(rows, u.byVolume("paint", thing{"clear finish for panels", plan.Tell("item.clear-finish")}, "clear-finish", Coverage(panels, n, clearCover.Of(j), clearCover.Of(j)),
			plan.Tell("finish.clear-coats", "area", squareMetres(panels), "count", n, "coverage", coverage(clearCover.Of(j))), told(clearCover)))
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
		rows = append(rows, u.byLength("paint", thing{"masking tape", plan.Tell("item.masking-tape")}, "masking-tape", length.Length(float64(edge)*lap),
			plan.Tell("finish.masked-edges", "edges", plan.Run(edge), "lap", lap), told(paperLap)))
	}
	if round > 0 {
		const strip = length.Foot // the usual roll
		rows = append(rows, u.byArea("paint", thing{"masking paper", plan.Tell("item.masking-paper")}, "masking-paper", round.Times(strip).SquareMetres()*lap,
			plan.Tell("finish.masking-strip", "strip", strip, "edges", plan.Run(round), "lap", lap), told(paperLap)))
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
		rows = append(rows, u.byArea("sundries", thing{"floor paper", plan.Tell("item.floor-paper")}, "floor-paper", floor*lap,
			plan.Tell("finish.floor-covered", "floor", squareMetres(floor), "strip", inches(j, floorStrip), "lap", lap), told(paperLap)))
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
