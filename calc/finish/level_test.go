package finish_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc/finish"
	"seamwright/calc/internal/sample"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/calc/survey"
)

// The level line of the format's own example of floor levels: sheets that stand and sheets that hang.
func TestLevelLine(t *testing.T) {
	j := sample.Job()
	face := sample.Face{ID: "w", Kind: plan.Wall, W: 24 * foot, H: 8 * foot, Spacing: 16 * inch, Product: "gyp-12", Long: 8 * foot, Wide: 4 * foot, Trim: 7 * inch / 2,
		Edges: [4]survey.Edge{{Meets: survey.AtFloor}, {Meets: survey.AtFree}, {Meets: survey.AtHead}, {Meets: survey.AtFree}}}
	b, p := sample.Build(j, face)
	s := b.Surfaces[0]
	s.Wall.Floor = []shape.Point{{}, {X: 12 * foot, Y: 3 * inch / 8}, {X: 24 * foot, Y: inch / 4}}
	s.Zones[0].FloorGap = inch / 2
	for i := range p.Surfaces[0].Zones[0].Panels[:3] { // the planned lower edges stand the floor gap above a level floor
		r := p.Surfaces[0].Zones[0].Panels[i].Outline.Bounds()
		r.Y, r.H = r.Y+inch/2, r.H-inch/2
		p.Surfaces[0].Zones[0].Panels[i].Outline = r.Polygon()
	}
	hung := finish.Level(b, p, inch/2)
	require.Len(t, hung, 1)
	require.True(t, hung[0].Hangs)
	require.Equal(t, shape.Point{X: 12 * foot, Y: 3 * inch / 8}, hung[0].High)
	require.Len(t, hung[0].Sheets, 3)
	require.Equal(t, inch/4, hung[0].Sheets[0].Rip, "the floor has risen by 1/4 in at 8 ft")
	require.Equal(t, 3*inch/8, hung[0].Sheets[1].Rip, "its highest place lies under the second sheet")
	require.Equal(t, 3*inch/4, hung[0].Sheets[0].Left)
	require.Equal(t, inch/2, hung[0].Sheets[0].Right)
	require.True(t, hung[0].Covered)

	s.Zones[0].Start = job.StartFloor
	stands := finish.Level(b, p, inch/2)[0]
	require.Equal(t, 7*inch/8, stands.Line, "highest place and floor gap")
	require.Equal(t, 7*inch/8, stands.Sheets[0].Shim)
	require.Equal(t, 7*inch/8, stands.Largest)
	require.Equal(t, 3*inch/8, stands.Sheets[0].Rip, "planned for 1/2 in and lifted to 7/8 in")
	for i := range p.Surfaces[0].Zones[0].Panels[:3] { // planned 2 in above the floor, tight to the head
		r := p.Surfaces[0].Zones[0].Panels[i].Outline.Bounds()
		r.Y, r.H = 2*inch, r.MaxY()-2*inch
		p.Surfaces[0].Zones[0].Panels[i].Outline = r.Polygon()
	}
	tight := finish.Level(b, p, inch/2)[0]
	require.Equal(t, 2*inch, tight.Line, "sheets that end at the head stand where they are planned")
	require.Equal(t, []length.Length{2 * inch, 0}, []length.Length{tight.Sheets[0].Shim, tight.Sheets[0].Rip})
	require.Contains(t, said(finish.Checks(j, b, p)[0].Says), "blocks and shims under the sheets are up to 2\" thick")
	for i := range p.Surfaces[0].Zones[0].Panels[:3] {
		r := p.Surfaces[0].Zones[0].Panels[i].Outline.Bounds()
		r.Y, r.H = inch/2, r.MaxY()-inch/2
		p.Surfaces[0].Zones[0].Panels[i].Outline = r.Polygon()
	}
	s.Wall.Trim = inch
	require.False(t, finish.Level(b, p, inch/2)[0].Covered, "1 in trim cannot lap 1/2 in over a gap of 7/8 in")
	rules := map[string]plan.Level{}
	for _, c := range finish.Checks(j, b, p) {
		rules[c.Rule] = c.Level
	}
	require.Equal(t, map[string]plan.Level{"level-line": plan.Note, "floor-cover": plan.Caution}, rules)
}

// Upright board and plywood stand on the level line and get shims, whatever the hang order says of the wall.
func TestWhatStandsIsShimmed(t *testing.T) {
	for _, c := range []struct {
		product, run string
		hangs        bool
	}{{"gyp-12", "across", true}, {"gyp-12", "along", false}, {"ply-18", "across", false}} {
		j, b, p := oneWall(c.product, survey.AtInsideCorner, survey.AtInsideCorner)
		b.Surfaces[0].Wall.Floor = []shape.Point{{}, {X: 12 * foot, Y: inch / 2}}
		b.Surfaces[0].Zones[0].FloorGap = inch / 2
		p.Surfaces[0].Zones[0].Run = c.run
		lines := finish.Level(b, p, inch/2)
		require.Equal(t, c.hangs, lines[0].Hangs, "%+v", c)
		rows := needs(finish.Finish(j, b, p, nil, finish.Thorough))
		require.Equal(t, lines, p.Levels)
		if c.hangs {
			require.Zero(t, rows["shim"])
		} else {
			require.InDelta(t, 2*float64(len(lines[0].Sheets)), rows["shim"], 1e-9)
			require.Equal(t, inch, lines[0].Line)
		}
	}
}
