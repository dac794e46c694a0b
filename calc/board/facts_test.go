package board_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/money"
	"seamwright/calc/plan"
	"seamwright/calc/survey"
)

// Framing 97-1/8 in (92-5/8 in studs and three plates): under a 5/8 in ceiling board the gap at the floor is exactly
// 1/2 in and nothing is ripped; under a 1/2 in one it is 5/8 in, which a 3-1/2 in base covers. Arithmetic, no source.
func TestPrecutStudsNeedNoRip(t *testing.T) {
	for _, c := range []struct{ ceiling, gap length.Length }{{5 * in / 8, in / 2}, {in / 2, 5 * in / 8}} {
		j := newJob(job.AimCost, board48("gyp", true, 48, map[int64]money.Money{96: 1550}))
		s := wall("room/south", 192*in, 97*in+in/8-c.ceiling, 16*in, 16*in, &j.Products[0])
		s.Wall.Trim = 7 * in / 2
		s.Zones[0].Edges[2] = survey.Edge{Meets: survey.AtCeiling}
		a := solve(t, j, s)
		require.Equal(t, 4, bought(a))
		for _, p := range a.Zones[0].Panels {
			b := p.Outline.Bounds()
			require.Equal(t, 48*in, b.H, "no rip")
			if p.Course == 1 {
				require.Equal(t, c.gap, b.Y, "gap at the floor")
			}
		}
	}
}

// A ceiling of 12 ft by 12 ft with joists at 16 in takes three 4x12 sheets across them: 24 ft of tapered joint and no
// butt joint. Arithmetic, no source.
func TestCeilingOfThreeSheets(t *testing.T) {
	j := newJob(job.AimCost, board48("gyp", true, 48, map[int64]money.Money{96: 1550, 144: 2380}))
	s := wall("room/ceiling", 144*in, 144*in, 16*in, 16*in, &j.Products[0])
	s.Kind, s.Wall, s.Ceiling = plan.Ceiling, nil, &job.Ceiling{}
	for i := range s.Zones[0].Edges {
		s.Zones[0].Edges[i] = survey.Edge{Meets: survey.AtInsideCorner}
	}
	s.Zones[0].FloorGap = 0
	a := solve(t, j, s)
	require.Equal(t, 3, bought(a))
	require.Equal(t, 24*length.Foot, a.Tapered)
	require.Zero(t, a.Butt)
	require.Zero(t, a.Mixed)
	require.Equal(t, 3, a.Bound)
}

// Wall of 20 ft by 10 ft, 4x8 and 4x10 for sale: five 4x10 upright, no butt joint, four tapered joints as high as the
// panels, beat seven 4x8. Arithmetic, no source.
func TestFiveUprightBeatSevenAcross(t *testing.T) {
	for _, aim := range []job.Aim{job.AimCost, job.AimSheets, job.AimJoints} {
		j := newJob(aim, board48("gyp", true, 48, map[int64]money.Money{96: 1550, 120: 1960}))
		s := wall("room/south", 240*in, 120*in, 16*in, 16*in, &j.Products[0])
		s.Zones[0].Run = job.RunAuto
		a := solve(t, j, s)
		require.Equal(t, 5, bought(a))
		require.Equal(t, 5, a.Bound)
		require.Zero(t, a.Butt)
		require.Equal(t, 4*(120*in-in/2), a.Tapered)
		require.Equal(t, "along", a.Zones[0].Run)
		require.Empty(t, a.Checks)
	}
}

// Wall of 20 ft by 10 ft with solid backing, 4x8 across: seven sheets bought, six with a piece of 48 in by 24 in in
// stock, and the stagger kept.
func TestStockSparesASheet(t *testing.T) {
	for _, stock := range []int{0, 1} {
		j := newJob(job.AimSheets, board48("gyp", true, 48, map[int64]money.Money{96: 1550}))
		j.Rules.FloorGap = 0
		if stock > 0 {
			j.Stock = []job.Stock{{Product: "gyp", Length: 48 * in, Width: 24 * in, Tapered: true, Count: 1}}
		}
		s := wall("room/south", 240*in, 120*in, 16*in, 16*in, &j.Products[0])
		s.Zones[0].FloorGap = 0
		s.Backing = &survey.Backing{}
		a := solve(t, j, s)
		require.Equal(t, 7-stock, bought(a))
		require.Equal(t, 7-stock, a.Bound)
		require.Empty(t, a.Checks)
	}
}

// The same ceiling where 4-1/2 ft sheets are for sale too: three of 4 ft by 12 ft at 29.50 do with as few sheets and as
// little joint as two wide ones and a rip, which cost 102.20. Arithmetic, no source.
func TestEqualSheetsTakeTheCheaper(t *testing.T) {
	p := board48("gyp", true, 48, map[int64]money.Money{96: 1855, 108: 2120, 120: 2390, 144: 2950, 168: 3540, 192: 4155})
	p.Sizes = append(p.Sizes, board48("gyp", true, 54, map[int64]money.Money{120: 2950, 144: 3635, 168: 4350}).Sizes...)
	for _, aim := range []job.Aim{job.AimSheets, job.AimJoints} {
		j := newJob(aim, p)
		s := wall("room/ceiling", 144*in, 144*in, 16*in, 16*in, &j.Products[0])
		s.Kind, s.Wall, s.Ceiling = plan.Ceiling, nil, &job.Ceiling{}
		for i := range s.Zones[0].Edges {
			s.Zones[0].Edges[i] = survey.Edge{Meets: survey.AtInsideCorner}
		}
		s.Zones[0].FloorGap, s.Zones[0].Run = 0, job.RunAuto
		a := solve(t, j, s)
		require.Equal(t, 3, bought(a))
		require.Zero(t, a.Butt)
		var price money.Money
		for _, sh := range a.Sheets {
			price += sh.Price
		}
		require.Equal(t, money.Money(3*2950), price)
	}
}
