package board_test

import (
	"context"

	"github.com/stretchr/testify/require"

	"seamwright/calc/board"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/money"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/calc/survey"
)

const in = length.Inch

// rules are the shipped defaults of the rule book.
func rules() job.Rules {
	return job.Rules{Stagger: 16 * in, LeastPiece: 16 * in, LeastCourse: 6 * in, Opening: 6 * in, Backing: 2 * in,
		FloorGap: in / 2, Fit: in / 8, Screws: 12 * in, Cutouts: job.Notch}
}

// board48 is a gypsum board in the given lengths of one width, in inches.
func board48(id string, tapered bool, width int64, prices map[int64]money.Money) job.Product {
	p := job.Product{ID: id, Name: id, Kind: job.Gypsum, Thickness: in / 2, Tapered: tapered}
	for l := int64(96); l <= 192; l += 12 {
		if c, ok := prices[l]; ok {
			p.Sizes = append(p.Sizes, job.Size{Length: length.Inches(l), Width: length.Inches(width), Price: c})
		}
	}
	return p
}

func newJob(aim job.Aim, products ...job.Product) *job.Job {
	return &job.Job{Name: "test", Aim: aim, Rules: rules(), Products: products, Currency: "USD", Site: job.Site{People: 2, Hours: 6, Rate: 2500}}
}

// wall is a rectangular wall with members at a pitch, and one zone over all of it.
func wall(id string, w, h length.Length, pitch, first length.Length, p *job.Product) *survey.Surface {
	s := &survey.Surface{Surface: plan.Surface{ID: id, Kind: plan.Wall, Room: "room", Outline: shape.Rect{W: w, H: h}.Polygon(),
		Members: plan.Members{Axis: "x", Width: 3 * in / 2}}, Wall: &job.Wall{ID: id}}
	s.Frame.X = [3]float64{1, 0, 0}
	add := func(at length.Length, kind survey.MemberKind) {
		s.Studs = append(s.Studs, survey.Member{At: at, Width: 3 * in / 2, Kind: kind, To: h})
		s.Members.At = append(s.Members.At, at)
	}
	add(3*in/4, survey.End)
	for u := first; pitch > 0 && u < w-in; u += pitch {
		add(u, survey.Common)
	}
	add(w-3*in/4, survey.End)
	s.Zones = []*survey.Zone{zone(s, p)}
	return s
}

func zone(s *survey.Surface, p *job.Product) *survey.Zone {
	return &survey.Zone{Surface: s, Index: 1, Layer: 1, Layers: 1, Product: p, Run: job.RunAcross, Pattern: job.Staggered, Start: job.StartHead, Finish: 4,
		Outline: s.Outline, FloorGap: in / 2,
		Edges: []survey.Edge{{Meets: survey.AtFloor}, {Meets: survey.AtInsideCorner}, {Meets: survey.AtHead}, {Meets: survey.AtInsideCorner}}}
}

// opened cuts an opening into a wall: jambs at both sides, cripples at the members that it takes out.
func opened(s *survey.Surface, at, sill, w, h length.Length) {
	o := job.Opening{ID: "o", Kind: job.Door, At: at, Sill: sill, Width: w, Height: h}
	s.Holes = append(s.Holes, o.Rect().Polygon())
	var keep []survey.Member
	top := s.Outline.Bounds().H
	for _, m := range s.Studs {
		switch {
		case m.At > at && m.At < at+w:
			s.Short = append(s.Short, survey.Member{At: m.At, Width: m.Width, Kind: survey.Cripple, From: sill + h, To: top})
			if sill > 0 {
				s.Short = append(s.Short, survey.Member{At: m.At, Width: m.Width, Kind: survey.Cripple, To: sill})
			}
		default:
			keep = append(keep, m)
		}
	}
	s.Studs = keep
	for _, z := range s.Zones {
		z.Holes = append(z.Holes, survey.Hole{Opening: o, Outline: o.Rect().Polygon()})
	}
}

// buildingOf is a building of surfaces made by hand, room by room as they follow each other.
func buildingOf(surfaces []*survey.Surface) *survey.Building {
	b := &survey.Building{Surfaces: surfaces}
	for i, s := range surfaces {
		if n := len(b.Rooms); n == 0 || b.Rooms[n-1].ID != s.Room {
			b.Rooms = append(b.Rooms, survey.Room{ID: s.Room, First: i})
		}
		r := &b.Rooms[len(b.Rooms)-1]
		r.Surfaces = append(r.Surfaces, s)
	}
	return b
}

func solve(t require.TestingT, j *job.Job, surfaces ...*survey.Surface) *board.Answer {
	a, err := board.Solve(context.Background(), j, buildingOf(surfaces), nil, board.Full)
	require.NoError(t, err)
	return a
}

// byAim are the answers for every aim.
func byAim(t require.TestingT, j *job.Job, surfaces ...*survey.Surface) map[job.Aim]*board.Answer {
	all := map[job.Aim]*board.Answer{}
	for _, aim := range []job.Aim{job.AimCost, job.AimSheets, job.AimJoints} {
		one := *j
		one.Aim = aim
		all[aim] = solve(t, &one, surfaces...)
	}
	return all
}

func bought(a *board.Answer) (n int) {
	for i := range a.Sheets {
		if a.Sheets[i].Source == plan.Buy {
			n++
		}
	}
	return n
}
