package board_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/assets/words"
	"seamwright/calc/job"
	"seamwright/calc/money"
	"seamwright/calc/plan"
	"seamwright/calc/survey"
)

// Walls that no layout can board lawfully: the plan names the rules that are in each other's way, breaks the lightest of
// them as seldom as can be, and covers the wall all the same, from as few sheets. By hand: three rows of 96 + 96 in would
// have their joints on one line, so the middle one is 48 + 96 + 48 in; without studs two joints of 240 in bear on nothing;
// a piece of 10 in is lighter than a joint 4 in from a jamb.
func TestRulesInConflictAreNamed(t *testing.T) {
	for name, c := range map[string]struct {
		build  func(j *job.Job) *survey.Surface
		rule   string
		words  []string
		broken int
		sheets int
	}{
		"three rows that can only be 96 + 96": {func(j *job.Job) *survey.Surface {
			j.Rules.LeastPiece = 96 * in
			return wall("room/south", 192*in, 144*in, 16*in, 16*in, &j.Products[0])
		}, "least-piece", []string{"stagger", "shortest piece", "bearing"}, 2, 6},
		"no stud within reach of a sheet": {func(j *job.Job) *survey.Surface {
			return wall("room/south", 240*in, 48*in, 120*in, 120*in, &j.Products[0])
		}, "bearing", []string{"members are too far apart", "sheets for sale"}, 2, 3},
		"a stud near the jamb and one near the corner": {func(j *job.Job) *survey.Surface {
			s := wall("room/south", 106*in, 48*in, 0, 0, &j.Products[0])
			s.Studs = append(s.Studs[:1:1], survey.Member{At: 10 * in, Width: 3 * in / 2, To: 48 * in}, survey.Member{At: 44 * in, Width: 3 * in / 2, To: 48 * in}, s.Studs[1])
			opened(s, 48*in, 12*in, 36*in, 24*in)
			return s
		}, "least-piece", []string{"the opening rule", "the shortest piece", "contradict"}, 1, 2},
		"studs at the jambs only": {func(j *job.Job) *survey.Surface {
			s := wall("room/south", 170*in, 48*in, 0, 0, &j.Products[0])
			s.Studs = append(s.Studs[:1:1], survey.Member{At: 76 * in, Width: 3 * in / 2, To: 48 * in}, survey.Member{At: 92 * in, Width: 3 * in / 2, To: 48 * in}, s.Studs[1])
			opened(s, 77*in, 12*in, 14*in, 24*in)
			return s
		}, "opening", []string{"opening rule", "bearing rule"}, 1, 2},
	} {
		t.Run(name, func(t *testing.T) {
			j := newJob(job.AimSheets, board48("gyp", false, 48, map[int64]money.Money{96: 1500}))
			j.Rules.FloorGap, j.Rules.Fit = 0, 0
			s := c.build(j)
			s.Zones[0].FloorGap = 0
			a := solve(t, j, s)
			mustCover(t, j, &survey.Building{Surfaces: []*survey.Surface{s}}, a)
			require.Len(t, a.Checks, c.broken, "%v", a.Checks)
			for _, k := range a.Checks {
				require.Equal(t, c.rule, k.Rule)
				require.Equal(t, plan.Error, k.Level)
				for _, w := range c.words {
					require.True(t, strings.Contains(said(k.Says), w), "%q does not name %q", said(k.Says), w)
				}
			}
			require.Equal(t, c.sheets, bought(a))
			require.LessOrEqual(t, a.Bound, c.sheets)
		})
	}
}

// Seams fixed on one line in two courses stay there, and each is told where it could go instead. By hand: with studs each
// 16 in and a stagger of 16 in the places nearest to 112 in are 96 and 128 in, and sheets of 96 to 144 in reach there.
func TestSeamsFixedTooNearAreToldWhereTheyCouldStand(t *testing.T) {
	j := newJob(job.AimSheets, board48("gyp", false, 48, map[int64]money.Money{96: 1500, 144: 2300, 192: 3100}))
	s := wall("room/south", 240*in, 96*in, 16*in, 16*in, &j.Products[0])
	s.Zones[0].Pins = []job.Pin{{Zone: 1, Layer: 1, Course: 1, Seam: 112 * in}, {Zone: 1, Layer: 1, Course: 2, Seam: 112 * in}}
	a := solve(t, j, s)
	var told []string
	for _, k := range a.Checks {
		require.Equal(t, "four-corners", k.Rule)
		told = append(told, said(k.Says))
	}
	require.Equal(t, []string{
		`course 1, joint at 9' 4": the joint fixed by hand is too near to one fixed in the next course; the nearest lawful place is 8' 0"`,
		`course 2, joint at 9' 4": the joint fixed by hand is too near to one fixed in the next course; the nearest lawful place is 8' 0"`,
	}, told)
}

// said is a fact in English, in feet and inches.
func said(f plan.Fact) string { return words.In(words.English, words.Units{Imperial: true}).Fact(f) }
