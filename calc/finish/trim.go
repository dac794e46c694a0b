package finish

import (
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/survey"
)

// Casing is how wide the casing round an opening is, 0 where none goes. Doors and windows get it where the user wants
// some; a return of board ends in a bead instead.
func Casing(j *job.Job, o *job.Opening) length.Length {
	if (o.Kind != job.Door && o.Kind != job.Window) || o.Return == job.ReturnBoard {
		return 0
	}
	return max(inches(j, casing), 0)
}

// casingPieces are the lengths of casing round doors and windows, both mitres of a piece counted.
func casingPieces(j *job.Job, b *survey.Building) (pieces []piece) {
	for _, s := range b.Surfaces {
		if s.Wall == nil || len(s.Zones) == 0 {
			continue
		}
		for i := range s.Wall.Openings {
			o := &s.Wall.Openings[i]
			mitre := Casing(j, o)
			if mitre == 0 {
				continue
			}
			high := o.Height + mitre // mitred at the head; a door's stands on the floor
			pieces = append(pieces, piece{s.Room, o.Width + 2*mitre})
			if o.Kind == job.Window {
				high += mitre
				pieces = append(pieces, piece{s.Room, o.Width + 2*mitre})
			}
			pieces = append(pieces, piece{s.Room, high}, piece{s.Room, high})
		}
	}
	return pieces
}

// basePieces are the runs of base trim of all walls.
func basePieces(j *job.Job, b *survey.Building) (pieces []piece) {
	for _, s := range b.Surfaces {
		for _, r := range baseRuns(j, s) {
			pieces = append(pieces, piece{s.Room, r[1] - r[0]})
		}
	}
	return pieces
}

// baseRuns are where base trim runs along a wall, from the left: between its doors, up to their casing. A wall left open
// at the floor has no gap to cover and gets none.
func baseRuns(j *job.Job, s *survey.Surface) (runs [][2]length.Length) {
	if s.Wall == nil || s.Wall.Trim <= 0 || !slices.ContainsFunc(s.Zones, func(z *survey.Zone) bool { return z.Index == 1 && z.Product != nil }) {
		return nil
	}
	from := length.Length(0)
	for _, o := range byPlace(s.Wall.Openings) {
		wide := Casing(j, &o)
		if o.Kind == job.KeepOut || o.Sill-wide >= s.Wall.Base+s.Wall.Trim {
			continue
		}
		if o.At-wide > from {
			runs = append(runs, [2]length.Length{from, o.At - wide})
		}
		from = max(from, o.At+o.Width+wide)
	}
	if end := s.Outline.Bounds().MaxX(); end > from {
		runs = append(runs, [2]length.Length{from, end})
	}
	return runs
}

// dress notes on the plan's surfaces what trim they get, as it is bought: pictures show that and nothing else. What the
// survey keeps of a surface is not changed.
func dress(j *job.Job, b *survey.Building, p *plan.Plan) {
	for i, s := range b.Surfaces {
		if s.Wall == nil || len(s.Zones) == 0 {
			continue
		}
		q := &p.Surfaces[i]
		if runs := baseRuns(j, s); len(runs) > 0 {
			q.BaseTrim = plan.BaseTrim{Foot: s.Wall.Base, Height: s.Wall.Trim, Runs: runs}
		}
		q.Openings = slices.Clone(q.Openings)
		for k := range q.Openings { // those of the wall, in its order
			q.Openings[k].Casing = Casing(j, &s.Wall.Openings[k])
		}
	}
}
