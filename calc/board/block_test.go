package board_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc/board"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/money"
	"seamwright/calc/plan"
	"seamwright/calc/survey"
)

// supports counts the joints along the members, in feet, by what lies behind them.
func supports(a *board.Answer, upright bool) map[plan.Support]float64 {
	feet := map[plan.Support]float64{}
	for _, z := range a.Zones {
		for _, jt := range z.Joints {
			if len(jt.Panels) == 2 && (jt.From.X == jt.To.X) == upright {
				feet[jt.Support] += jt.Long().Feet()
			}
		}
	}
	return feet
}

// With the rule on, a joint that is as good between members as on one goes between them, clear of both by the room
// that blocks need; and no more sheets are bought than without it, since every place on a member stays lawful.
func TestBackBlockedJointsLieBetweenMembers(t *testing.T) {
	for _, w := range []length.Length{250 * in, 196 * in, 330 * in} {
		var sheets [2]int
		for k, on := range []bool{false, true} {
			j := newJob(job.AimSheets, board48("gyp", true, 48, map[int64]money.Money{96: 1550, 120: 1950, 144: 2380}))
			j.Rules.BackBlocking = on
			s := wall("room/south", w, 96*in+in/2, 16*in, 10*in, &j.Products[0])
			a := solve(t, j, s)
			require.Empty(t, a.Checks)
			sheets[k] = bought(a)
			feet := supports(a, true)
			t.Logf("%v in, back-blocking %v: %s, %v", w/in, on, describe(a), feet)
			if !on {
				require.Zero(t, feet[plan.OnBackBlock])
				continue
			}
			require.Greater(t, feet[plan.OnBackBlock], feet[plan.OnMember])
			for _, jt := range a.Zones[0].Joints {
				if jt.Support == plan.OnBackBlock {
					for _, m := range s.Studs {
						require.GreaterOrEqual(t, (m.At - jt.From.X).Abs(), 4*in)
					}
				}
			}
		}
		require.LessOrEqual(t, sheets[1], sheets[0])
	}
}

// Upright sheets on studs that suit them badly, at 20 in: their long edges fall off the studs, and blocks carry them.
func TestUprightEdgesAreBackBlocked(t *testing.T) {
	j := newJob(job.AimSheets, board48("gyp", true, 48, map[int64]money.Money{96: 1550}))
	s := wall("room/south", 192*in, 96*in+in/2, 20*in, 20*in, &j.Products[0])
	s.Zones[0].Run = job.RunAlong
	without := bought(solve(t, j, s))
	j.Rules.BackBlocking = true
	a := solve(t, j, s)
	require.Empty(t, a.Checks)
	require.Equal(t, 4, bought(a), "16 ft by 4 ft widths")
	require.Less(t, bought(a), without)
	require.Positive(t, supports(a, true)[plan.OnBackBlock])
}

// Rated work, separations and bracing keep their joints on members whatever the rule says (IBC 2508.3).
func TestNoBackBlocksInRatedWork(t *testing.T) {
	for _, duty := range []job.Duty{job.Rated, job.Separation, job.Bracing} {
		j := newJob(job.AimSheets, board48("gyp", true, 48, map[int64]money.Money{96: 1550}))
		j.Rules.BackBlocking = true
		s := wall("room/south", 250*in, 96*in+in/2, 16*in, 10*in, &j.Products[0])
		s.Wall.Duty = []job.Duty{duty}
		a := solve(t, j, s)
		require.Zero(t, supports(a, true)[plan.OnBackBlock])
		var studs []length.Length
		for _, m := range s.Studs {
			if m.Kind == survey.Common {
				studs = append(studs, m.At)
			}
		}
		for _, x := range seams(a.Zones[0], 1) {
			require.Contains(t, studs, x)
		}
	}
}
