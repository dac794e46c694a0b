package finish

import (
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/survey"
)

// freeEdges are the lengths of edges with nothing beyond, of gypsum or of wood faces. Gypsum gets edge trim there from level 1
// up, since level 0 has no accessories (GA-214, read).
func freeEdges(all []face, gypsum bool) (pieces []piece) {
	for _, f := range all {
		if f.gypsum() != gypsum || gypsum && f.zone.Finish < 1 {
			continue
		}
		for i, e := range f.zone.Edges {
			if e.Meets == survey.AtFree {
				pieces = append(pieces, piece{f.room, side(f.zone, i)})
			}
		}
	}
	return pieces
}

// side is the length of one side of a zone's outline.
func side(z *survey.Zone, i int) length.Length {
	a, b := z.Outline[i], z.Outline[(i+1)%len(z.Outline)]
	return between(a.X-b.X, a.Y-b.Y)
}

// panelEdges are the edges of wood faces that stay in sight and get a strip: free ones, outside corners (once, with the
// face that is named first), and the line where wood meets another lining, openings that cross it left out.
func panelEdges(all []face) []piece {
	pieces := freeEdges(all, false)
	wood := map[string]bool{} // surfaces with a wood face
	for _, f := range all {
		wood[f.surface.ID] = wood[f.surface.ID] || !f.gypsum()
	}
	for _, f := range all {
		for i, e := range f.zone.Edges {
			switch {
			case f.gypsum():
			case e.Meets == survey.AtOutsideCorner && (!wood[e.With] || f.surface.ID < e.With):
				pieces = append(pieces, piece{f.room, side(f.zone, i)})
			case e.Meets == survey.AtZone && e.With == "" && upper(f.zone, i):
				pieces = append(pieces, piecesOf(f.room, lessOpenings(f.zone, i))...)
			}
		}
		for i, e := range f.zone.Edges { // gypsum below wood: the line stands with the lower zone
			if f.gypsum() && e.Meets == survey.AtZone && e.With == "" && upper(f.zone, i) && woodAbove(all, f) {
				pieces = append(pieces, piecesOf(f.room, lessOpenings(f.zone, i))...)
			}
		}
	}
	return pieces
}

// upper says whether a side of a zone is its level upper one.
func upper(z *survey.Zone, i int) bool {
	a, b := z.Outline[i], z.Outline[(i+1)%len(z.Outline)]
	return a.Y == b.Y && a.X > b.X
}

func woodAbove(all []face, f face) bool {
	for _, g := range all {
		if g.surface == f.surface && g.zone.Index == f.zone.Index+1 {
			return !g.gypsum()
		}
	}
	return false
}

// lessOpenings is a level side of a zone without the openings that it runs through; one that only begins or ends
// there is no interruption.
func lessOpenings(z *survey.Zone, i int) []length.Length {
	a, b := z.Outline[i], z.Outline[(i+1)%len(z.Outline)]
	left, right := min(a.X, b.X), max(a.X, b.X)
	parts := []length.Length{}
	from := left
	for _, o := range crossing(z, a.Y) {
		if o.At > from {
			parts = append(parts, o.At-from)
		}
		from = max(from, o.At+o.Width)
	}
	if right > from {
		parts = append(parts, right-from)
	}
	return parts
}

// crossing lists the openings of a zone's surface that reach below and above a height, from the left.
func crossing(z *survey.Zone, y length.Length) []job.Opening {
	if z.Surface == nil || z.Surface.Wall == nil {
		return nil
	}
	var found []job.Opening
	for _, o := range byPlace(z.Surface.Wall.Openings) {
		if o.Kind != job.KeepOut && o.Sill < y && o.Sill+o.Height > y {
			found = append(found, o)
		}
	}
	return found
}

// shimmed counts the sheets of a level line that stand on shims.
func shimmed(l *plan.LevelLine) (n int) {
	for _, s := range l.Sheets {
		if s.Shim > 0 {
			n++
		}
	}
	return n
}

// shimRows are the shims under sheets that stand on a floor that is not level.
func (u units) shimRows(j *job.Job, p *plan.Plan) []plan.Item {
	sheets, thickest := 0, length.Length(0)
	for _, l := range p.Levels {
		sheets += shimmed(&l)
		for _, s := range l.Sheets {
			thickest = max(thickest, s.Shim)
		}
	}
	if sheets == 0 {
		return nil
	}
	return []plan.Item{byCount("sundries", thing{"shims", plan.Tell("item.shims")}, "shim", float64(sheets)*shims.Of(j),
		plan.Tell("finish.shimmed", "count", sheets, "each", shims.Of(j), "thick", plan.Fine(thickest)), told(shims))}
}
