package survey_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/shape"
	"seamwright/calc/survey"
)

// Peterson and Dagostino, Estimating in Building Construction, 7th ed., examples 13-11 and 13-15: 148 ft of wall at
// 16 in are 111 spaces, 112 studs; a gable of 24 ft has 19.
func TestStudCounts(t *testing.T) {
	for _, c := range []struct{ feet, studs length.Length }{{148, 112}, {24, 19}} {
		r := room("r", 96*in, nil, 0, 0, 12*c.feet, 0, 12*c.feet, 120, 0, 120)
		require.Len(t, surveyed(t, house(r))["r/a"].Members.At, int(c.studs))
	}
}

func TestMembersOfAWallWithAWindow(t *testing.T) {
	r := room("r", 96*in, nil, 0, 0, 0, 120, 120, 120, 120, 0)
	w := &r.Walls[0]
	w.Openings = []job.Opening{{ID: "w", Kind: job.Window, At: 40 * in, Width: 30 * in, Height: 36 * in, Sill: 40 * in},
		{ID: "p", Kind: job.KeepOut, At: 90 * in, Width: 12 * in, Height: 80 * in}}
	w.Framing.Also, w.Framing.Without = []length.Length{20 * in}, []length.Length{16 * in}
	s := surveyed(t, house(r))["r/a"]
	want := []length.Length{in * 3 / 4, 20 * in, 32 * in, 40*in - in*3/4, 70*in + in*3/4, 80 * in, 90*in - in*3/4, 96 * in, 102*in + in*3/4, 112 * in, 120*in - in*3/4}
	require.Equal(t, want, s.Members.At, "16 is left out; 48 and 64 are cut by the window; the pocket is lined and keeps its stud")
	require.Equal(t, []length.Length{48 * in, 64 * in}, s.Cripples)
	require.Equal(t, survey.Member{At: 48 * in, Width: in * 3 / 2, Kind: survey.Cripple, From: 0, To: 40 * in}, s.Short[0])
	require.Equal(t, survey.Member{At: 48 * in, Width: in * 3 / 2, Kind: survey.Cripple, From: 76 * in, To: 96 * in}, s.Short[1])
	require.Equal(t, survey.Jamb, s.Studs[3].Kind)
	require.Equal(t, survey.End, s.Studs[0].Kind)
}

func TestGridGivesWayToWhatStandsThere(t *testing.T) {
	r := room("r", 96*in, nil, 0, 0, 0, 96, 120, 96, 120, 0)
	at := surveyed(t, house(r))["r/a"].Members.At
	require.Equal(t, []length.Length{in * 3 / 4, 16 * in, 32 * in, 48 * in, 64 * in, 80 * in, 96*in - in*3/4}, at, "none at 96 in, beyond the end")
	r.Walls[0].Framing.First = in * 61 / 4 // 15-1/4 in
	at = surveyed(t, house(r))["r/a"].Members.At
	require.Equal(t, in*61/4, at[1])
}

func TestStudsReachTheRoof(t *testing.T) {
	r := room("r", 96*in, nil, 0, 0, 288, 0, 288, 192, 0, 192)
	r.Ceiling = ceiling()
	r.Ceiling.Shape, r.Ceiling.Along, r.Ceiling.At, r.Ceiling.High = job.Ridge, job.AxisX, 96*in, 144*in // 6 in 12
	for _, m := range surveyed(t, house(r))["r/b"].Studs {
		want := 96*in + min(m.At, 192*in-m.At)/2
		require.Equal(t, want, m.To)
	}
}

// Twelve feet of joists at 16 in are nine spaces, ten joists (the four checks that catch a naive program).
func TestJoists(t *testing.T) {
	r := room("r", 96*in, nil, 0, 0, 144, 0, 144, 144, 0, 144)
	r.Ceiling = ceiling("gyp-12")
	c := surveyed(t, house(r))["r/ceiling"]
	require.Len(t, c.Members.At, 10)
	require.Equal(t, "x", c.Members.Axis, "joists along y are counted along x")
	r.Ceiling.Framing.Along = job.AxisX
	r.Ceiling.Openings = []job.Opening{{ID: "hatch", Kind: job.Hatch, At: 48 * in, Sill: 36 * in, Width: 30 * in, Height: in * 45 / 2}}
	c = surveyed(t, house(r))["r/ceiling"]
	require.Equal(t, "y", c.Members.Axis)
	require.Len(t, c.Studs, 11, "48 in is cut; a trimmer stands at either side of the hatch")
	require.Equal(t, []survey.Member{{At: 48 * in, Width: in * 3 / 2, Kind: survey.Cripple, From: 0, To: 48 * in},
		{At: 48 * in, Width: in * 3 / 2, Kind: survey.Cripple, From: 78 * in, To: 144 * in}}, c.Short)
}

// In an L room joists have two lengths and a nailer stands along the inner wall.
func TestJoistsOfAnL(t *testing.T) {
	r := room("r", 96*in, nil, 0, 0, 240, 0, 240, 120, 120, 120, 120, 240, 0, 240)
	r.Ceiling = ceiling("gyp-12")
	for _, m := range surveyed(t, house(r))["r/ceiling"].Studs {
		switch {
		case m.At == 120*in-in*3/4:
			require.Equal(t, shape.Span{From: 120 * in, To: 240 * in}, shape.Span{From: m.From, To: m.To})
		case m.At < 120*in:
			require.Equal(t, 240*in, m.To)
		default:
			require.Equal(t, 120*in, m.To)
		}
	}
}

func TestRoundBox(t *testing.T) {
	r := room("r", 96*in, nil, 0, 0, 0, 120, 120, 120, 120, 0)
	r.Walls[0].Boxes = []job.Box{{At: 20 * in, Up: 48 * in, Diameter: 4 * in}, {At: 40 * in, Up: 16 * in, Width: in * 9 / 4, Height: in * 15 / 4}}
	s := surveyed(t, house(r))["r/a"]
	require.Len(t, s.Boxes[0], 24)
	circle := 3.14159265 * 4 // square inches
	require.InDelta(t, circle, s.Boxes[0].Area().SquareFeet()*144, 0.01*circle)
	require.Equal(t, box(40*in-in*9/8, 16*in-in*15/8, 40*in+in*9/8, 16*in+in*15/8), s.Boxes[1])
}

// Two rooms with a 4-1/2 in partition between them; the other face is found, in its own x from its own left end.
func TestPartition(t *testing.T) {
	a := room("a", 96*in, nil, 0, 0, 120, 0, 120, 120, 0, 120)
	b := job.Room{ID: "b", Height: 96 * in}
	for _, p := range points(0, 24, 90, 24, 90, 120, 0, 120) {
		b.Corners = append(b.Corners, shape.Point{X: p.X + 120*in + in*9/2, Y: p.Y})
	}
	for i := range b.Corners {
		b.Walls = append(b.Walls, job.Wall{ID: string(rune('a' + i)), Side: i + 1, Framing: studs})
	}
	s := surveyed(t, house(a, b))
	require.Equal(t, []*survey.Surface{s["b/d"]}, s["a/b"].Backs)
	require.Equal(t, []*survey.Surface{s["a/b"]}, s["b/d"].Backs)
	require.Empty(t, s["a/a"].Backs)
	// a/b from inside: left end north, y = 120; b/d from inside: left end south, y = 24
	require.Equal(t, 96*in, s["a/b"].FromFace(s["b/d"], 0))
	require.Equal(t, length.Length(0), s["b/d"].FromFace(s["a/b"], 96*in))
}

// A long wall of a hall is the other face of the walls of two rooms beside each other.
func TestPartitionOfSeveralRooms(t *testing.T) {
	hall := room("hall", 96*in, nil, 0, 0, 120, 0, 120, 240, 0, 240)
	beside := func(id string, y length.Length) job.Room {
		b := job.Room{ID: id, Height: 96 * in}
		for _, p := range points(0, y, 90, y, 90, y+100, 0, y+100) {
			b.Corners = append(b.Corners, shape.Point{X: p.X + 120*in + in*9/2, Y: p.Y})
		}
		for i := range b.Corners {
			b.Walls = append(b.Walls, job.Wall{ID: string(rune('a' + i)), Side: i + 1, Framing: studs})
		}
		return b
	}
	s := surveyed(t, house(hall, beside("n", 130), beside("s", 10)))
	require.ElementsMatch(t, []*survey.Surface{s["n/d"], s["s/d"]}, s["hall/b"].Backs)
	require.Equal(t, []*survey.Surface{s["hall/b"]}, s["n/d"].Backs)
	require.Equal(t, []*survey.Surface{s["hall/b"]}, s["s/d"].Backs)
	require.Equal(t, 110*in, s["hall/b"].FromFace(s["n/d"], 0)) // y = 130, seen from a left end at y = 240
}
