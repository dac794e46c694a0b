package board_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc/check"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/money"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/calc/survey"
)

func plywood() job.Product {
	return job.Product{ID: "ply", Kind: job.WoodPanel, Thickness: 18 * length.Millimetre, Kerf: in / 8, Gap: in / 32,
		Sizes: []job.Size{{Length: 96 * in, Width: 48 * in, Price: 4500}}}
}

func seams(z plan.Zone, course int) (xs []length.Length) {
	for _, j := range z.Joints {
		if j.Kind != plan.Butt && j.Kind != plan.PanelGap || j.From.X != j.To.X {
			continue
		}
		for _, p := range z.Panels {
			if p.ID == j.Panels[0] && p.Course == course {
				xs = append(xs, j.From.X)
			}
		}
	}
	return xs
}

func TestStackedSeamsStandInOneLine(t *testing.T) {
	j := newJob(job.AimCost, plywood())
	s := wall("room/south", 250*in, 96*in, 16*in, 16*in, &j.Products[0])
	s.Zones[0].Pattern = job.Stacked
	a := solve(t, j, s)
	require.Empty(t, a.Checks)
	require.NotEmpty(t, seams(a.Zones[0], 1))
	require.Equal(t, seams(a.Zones[0], 1), seams(a.Zones[0], 2))
}

// Centred: the two end pieces of a course are equally long. With members at 16 in from the left of a wall of 240 in
// they can be: 72 in at either end of a whole sheet.
func TestCentredEndPiecesAreEqual(t *testing.T) {
	j := newJob(job.AimCost, plywood())
	s := wall("room/south", 256*in, 48*in, 16*in, 16*in, &j.Products[0])
	s.Zones[0].Pattern, s.Zones[0].FloorGap = job.Centred, 0
	a := solve(t, j, s)
	require.Empty(t, a.Checks)
	xs := seams(a.Zones[0], 1)
	require.NotEmpty(t, xs)
	require.Equal(t, xs[0], 256*in-xs[len(xs)-1])
}

// Fewer sheets are no reason for uneven end pieces: with members at 16 in on walls of whole spaces they can be equal, and
// half an inch from it where such a wall is half an inch shorter.
func TestCentredEndPiecesStayEqualWhereFewerSheetsAreAsked(t *testing.T) {
	ply := plywood()
	ply.Kerf, ply.Sizes = in*3/32, []job.Size{{Length: 96 * in, Width: 48 * in, Price: 4500}, {Length: 120 * in, Width: 48 * in, Price: 5900}}
	for _, wide := range []length.Length{144 * in, 208 * in, 240 * in, 287 * in / 2} {
		j := newJob(job.AimSheets, ply)
		s := wall("room/south", wide, 97*in, 16*in, 16*in, &j.Products[0])
		s.Zones[0].Pattern, s.Zones[0].Run = job.Centred, job.RunAcross
		a := solve(t, j, s)
		require.Empty(t, a.Checks)
		for course := range 3 {
			xs := seams(a.Zones[0], course+1)
			require.NotEmpty(t, xs)
			require.LessOrEqual(t, (slices.Min(xs) + slices.Max(xs) - wide).Abs(), wide%in, "course %d of %v", course+1, wide)
		}
	}
}

// Strip case "every row can only be 96+96": two rows of two sheets, least piece 96 in. No lawful layout exists: seams
// must coincide. The plan says so, names the rules, and still covers the wall.
func TestContradictionIsNamed(t *testing.T) {
	j := newJob(job.AimSheets, board48("gyp", false, 48, map[int64]money.Money{96: 1500}))
	j.Rules.LeastPiece, j.Rules.FloorGap, j.Rules.Fit = 96*in, 0, 0
	s := wall("room/south", 192*in, 96*in, 16*in, 16*in, &j.Products[0])
	s.Zones[0].FloorGap = 0
	a := solve(t, j, s)
	require.NotEmpty(t, a.Checks)
	require.Equal(t, plan.Error, a.Checks[0].Level)
	require.Contains(t, said(a.Checks[0].Says), "shortest piece")
	require.Contains(t, said(a.Checks[0].Says), "stagger")
	require.Equal(t, 4, bought(a))
}

func TestPinsAreObeyed(t *testing.T) {
	for _, c := range []struct {
		at     length.Length
		lawful bool
	}{{80 * in, true}, {85 * in, false}} {
		j := newJob(job.AimCost, board48("gyp", true, 48, map[int64]money.Money{96: 1550, 144: 2380}))
		s := wall("room/south", 144*in, 97*in, 16*in, 16*in, &j.Products[0])
		s.Zones[0].Pins = []job.Pin{{Zone: 1, Layer: 1, Course: 1, Seam: c.at}}
		s.Wall.Trim = 7 * in / 2
		a := solve(t, j, s)
		require.Contains(t, seams(a.Zones[0], 1), c.at)
		if c.lawful {
			require.Empty(t, a.Checks)
			continue
		}
		require.Equal(t, "pin", a.Checks[0].Rule)
		require.Contains(t, said(a.Checks[0].Says), "6' 8\"", "the nearest stud, 80 in")
	}
}

// A gable: 8 ft at the eaves, 12 ft at the ridge of a wall of 16 ft. The area is 16 x 10 = 160 ft².
func TestGableIsCovered(t *testing.T) {
	j := newJob(job.AimCost, board48("gyp", true, 48, map[int64]money.Money{96: 1550, 144: 2380}))
	s := wall("room/south", 192*in, 144*in, 16*in, 16*in, &j.Products[0])
	s.Outline = shape.Polygon{{}, {X: 192 * in}, {X: 192 * in, Y: 96 * in}, {X: 96 * in, Y: 144 * in}, {Y: 96 * in}}
	s.Zones[0].Outline, s.Zones[0].FloorGap = s.Outline, 0
	j.Rules.Fit = 0
	s.Zones[0].Edges = []survey.Edge{{Meets: survey.AtFloor}, {Meets: survey.AtInsideCorner}, {Meets: survey.AtHead}, {Meets: survey.AtHead}, {Meets: survey.AtInsideCorner}}
	for _, run := range []job.Run{job.RunAcross, job.RunAlong} {
		s.Zones[0].Run = run
		a := solve(t, j, s)
		require.Empty(t, a.Checks, run)
		var sum length.Area
		for _, p := range a.Zones[0].Panels {
			sum += p.Outline.Area()
		}
		require.InDelta(t, 160, sum.SquareFeet(), 1e-6, run)
		mustBeCut(t, j, a)
		require.GreaterOrEqual(t, bought(a), a.Bound)
		t.Log(run, describe(a))
	}
}

// A wall of 400 ft in wood panels, which no control joint divides: its rows have more ways than can be listed, and more
// places than a short wall, yet it is covered from end to end and its courses keep the stagger.
func TestAVeryLongWall(t *testing.T) {
	j := newJob(job.AimSheets, plywood())
	s := wall("room/south", 4800*in, 96*in+in/2, 16*in, 16*in, &j.Products[0])
	s.Wall.Framing.Spacing = 16 * in
	b, p := drawn(t, j, s)
	require.Empty(t, p.Checks)
	require.Len(t, p.Sheets, 100)
	right := length.Length(0)
	for _, q := range p.Surfaces[0].Zones[0].Panels {
		right = max(right, q.Outline.Bounds().MaxX())
	}
	require.GreaterOrEqual(t, right, 4800*in-in/8)
	check.Check(j, b, p)
	for _, c := range p.Checks {
		require.NotEqual(t, plan.Error, c.Level, said(c.Says))
	}
}
