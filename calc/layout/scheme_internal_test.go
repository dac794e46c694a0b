package layout

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/calc/survey"
)

// faceLayer is a second layer over a surface of the given outline, in inches, laid across members of no account.
func faceLayer(kind plan.SurfaceKind, corners ...[2]int64) (*survey.Zone, *job.Rules) {
	var outline shape.Polygon
	for _, c := range corners {
		outline = append(outline, shape.Point{X: length.Inches(c[0]), Y: length.Inches(c[1])})
	}
	s := &survey.Surface{Surface: plan.Surface{Kind: kind, Outline: outline, Members: plan.Members{Axis: "x", Width: 3 * in / 2}}}
	if kind == plan.Wall {
		s.Wall = &job.Wall{Framing: job.Framing{Spacing: 16 * in}}
	} else {
		s.Ceiling = &job.Ceiling{Framing: job.Framing{Spacing: 16 * in}}
	}
	for x := 16 * in; x < outline.Bounds().MaxX(); x += 16 * in {
		s.Studs = append(s.Studs, survey.Member{At: x, Width: 3 * in / 2, Kind: survey.Common})
	}
	board := &job.Product{ID: "board", Kind: job.Gypsum, Tapered: true, Thickness: 5 * in / 8, Sizes: []job.Size{{Length: 144 * in, Width: 48 * in}}}
	z := &survey.Zone{Surface: s, Index: 1, Layer: 2, Layers: 2, Product: board, Run: job.RunAcross, Pattern: job.Staggered, Outline: outline}
	s.Zones = []*survey.Zone{z}
	return z, &job.Rules{Stagger: 16 * in, LeastPiece: 16 * in, LeastCourse: 6 * in, Opening: 6 * in, Fit: in / 8}
}

// below are level joints of the layer below.
func below(at ...length.Length) (lines []Line) {
	for _, v := range at {
		lines = append(lines, Line{At: v, Clear: 16 * in, Rule: RuleLayers})
	}
	return lines
}

// Under a raked head courses are counted up from the floor, so the lowest is cut to keep the layers' joints apart.
func TestCoursesOfAGableKeepClearOfTheLayerBelow(t *testing.T) {
	z, rules := faceLayer(plan.Wall, [2]int64{0, 0}, [2]int64{144, 0}, [2]int64{144, 96}, [2]int64{72, 150}, [2]int64{0, 96})
	lines := below(48*in, 96*in, 144*in)
	s := Schemes(context.Background(), z, rules, lines)[0]
	require.Empty(t, s.Breaks)
	require.Equal(t, []length.Length{24 * in, 72 * in, 120 * in}, linesOf(s), "half a sheet at the floor")
}

// Joints of the layer below stand so that no usual shift is clear of all: 40, 88 and 136 in are.
func TestCoursesStandJustClearOfTheLayerBelow(t *testing.T) {
	z, rules := faceLayer(plan.Ceiling, [2]int64{0, 0}, [2]int64{144, 0}, [2]int64{144, 184}, [2]int64{0, 184})
	lines := below(24*in, 56*in, 72*in, 104*in, 120*in, 152*in)
	s := Schemes(context.Background(), z, rules, lines)[0]
	require.Empty(t, s.Breaks)
	for _, v := range linesOf(s) {
		for _, l := range lines {
			require.GreaterOrEqual(t, (v - l.At).Abs(), 16*in)
		}
	}
}

// A joint an inch from the angle of a U-shaped ceiling would leave an inch of board beside it, so the rip goes to the
// other side.
func TestNoSliverInTheAngleOfACeiling(t *testing.T) {
	z, rules := faceLayer(plan.Ceiling, [2]int64{0, 0}, [2]int64{200, 0}, [2]int64{200, 164}, [2]int64{135, 164}, [2]int64{135, 49}, [2]int64{67, 49}, [2]int64{67, 164}, [2]int64{0, 164})
	z.Layer, z.Layers = 1, 1
	s := Schemes(context.Background(), z, rules, nil)
	require.Equal(t, []length.Length{20 * in, 68 * in, 116 * in}, linesOf(s[0]))
	require.Empty(t, s[0].Breaks)
	require.Equal(t, []length.Length{48 * in, 96 * in, 144 * in}, linesOf(s[1]))
	require.Equal(t, RuleLeastCourse, s[1].Breaks[0].Rule)
}

// Of courses that are lawful alike those come first whose joints run into no box.
func TestCoursesClearOfABoxComeFirst(t *testing.T) {
	z, rules := faceLayer(plan.Ceiling, [2]int64{0, 0}, [2]int64{144, 0}, [2]int64{144, 124}, [2]int64{0, 124})
	z.Layer, z.Layers = 1, 1
	before := Schemes(context.Background(), z, rules, nil)
	require.Greater(t, len(before), 1)
	first := linesOf(before[0])
	z.Surface.Placed = []job.Box{{At: 40 * in, Up: first[0] + in, Width: 4 * in, Height: 4 * in}}
	after := Schemes(context.Background(), z, rules, nil)
	require.Len(t, after, len(before))
	require.Equal(t, Weigh(before[0].Breaks), Weigh(after[0].Breaks))
	require.NotContains(t, linesOf(after[0]), first[0])
}

// The span table settles the direction: fire-type board under rooms that are lived in lies across though either way would
// carry; where neither way carries far enough, across carries farther.
func TestDirectionsFollowTheSpanTable(t *testing.T) {
	z, _ := faceLayer(plan.Ceiling, [2]int64{0, 0}, [2]int64{144, 0}, [2]int64{144, 120}, [2]int64{0, 120})
	z.Layer, z.Layers, z.Run = 1, 1, job.RunAuto
	z.Product.FireType = true
	both, across := []job.Run{job.RunAcross, job.RunAlong}, []job.Run{job.RunAcross}
	require.Equal(t, both, runsOf(z))
	z.Surface.Ceiling.Duty = []job.Duty{job.Separation}
	require.Equal(t, across, runsOf(z))
	z.Surface.Ceiling.Duty = nil
	z.Surface.Studs = z.Surface.Studs[1:4:4] // 32, 48 and 64 in
	require.Equal(t, both, runsOf(z))
	z.Surface.Studs = append(z.Surface.Studs, survey.Member{At: 96 * in, Width: 3 * in / 2, Kind: survey.Common})
	require.Equal(t, across, runsOf(z), "32 in: across carries 24, along 16")
}
