package survey_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/shape"
	"seamwright/calc/survey"
)

// Precut studs of 92-5/8 in and three plates make 97-1/8 in (facts of the trade: jlconline.com on precut lengths,
// 92.625 + 3·1.5). Two 48 in courses leave 1/2 in at the floor under a 5/8 in ceiling board, 5/8 in under a 1/2 in one.
func TestPrecutHeight(t *testing.T) {
	for product, gap := range map[string]length.Length{"gyp-16x": in / 2, "gyp-12": in * 5 / 8} {
		r := room("r", 97*in+in/8, []job.Zone{board(0, "gyp-12")}, 0, 0, 120, 0, 120, 120, 0, 120)
		r.Ceiling = ceiling(product)
		z := surveyed(t, house(r))["r/a"].Zones[0]
		require.Equal(t, gap, z.Outline.Bounds().H-2*48*in, product)
	}
}

func TestOnlyALinedCeilingLowersWalls(t *testing.T) {
	r := room("r", 96*in, []job.Zone{board(0, "gyp-12")}, 0, 0, 120, 0, 120, 120, 0, 120)
	r.Ceiling = ceiling(job.Open)
	s := surveyed(t, house(r))
	require.Equal(t, 96*in, s["r/a"].Zones[0].Outline.Bounds().H)
	require.Equal(t, survey.AtHead, s["r/a"].Zones[0].Edges[2].Meets)
	require.Equal(t, job.StartFloor, s["r/a"].Zones[0].Start, "no ceiling to be tight to")
	require.Empty(t, s["r/ceiling"].Zones)
	require.NotEmpty(t, s["r/ceiling"].Studs)
}

func TestStartFollowsTheHangOrderRule(t *testing.T) {
	r := room("r", 96*in, []job.Zone{board(48*in, "ply-18"), board(0, "gyp-12")}, 0, 0, 120, 0, 120, 120, 0, 120)
	r.Ceiling = ceiling("gyp-16x")
	r.Walls[1].Lining = []job.Zone{{Layers: []string{"gyp-12"}, Start: job.StartFloor}}
	j := house(r)
	s := surveyed(t, j)
	require.Equal(t, job.StartFloor, s["r/a"].Zones[0].Start, "wood panels stand from the floor")
	require.Equal(t, job.StartHead, s["r/a"].Zones[1].Start)
	require.Equal(t, job.StartFloor, s["r/b"].Zones[0].Start, "the user may choose")
	j.Site.People = 1
	require.Equal(t, job.StartFloor, surveyed(t, j)["r/a"].Zones[1].Start, "one person works from the floor up")
}

// A wainscot of 23/32 in plywood below 1/2 in board on the wall hung first: the neighbour's edge steps at 48 in.
func TestNeighboursZonesStepTheEdge(t *testing.T) {
	r := room("r", 96*in, []job.Zone{board(0, "gyp-12")}, 0, 0, 0, 120, 120, 120, 120, 0) // clockwise: a is west
	r.Walls[0].Lining = []job.Zone{board(48*in, "ply-18"), board(0, "gyp-12")}
	s := surveyed(t, house(r))
	b := s["r/b"].Zones[0] // b's left end is at a's right end
	ply := in * 23 / 32
	require.Equal(t, shape.Polygon{{X: ply, Y: 0}, {X: 120 * in, Y: 0}, {X: 120 * in, Y: 96 * in}, {X: in / 2, Y: 96 * in},
		{X: in / 2, Y: 48 * in}, {X: ply, Y: 48 * in}}, b.Outline)
	require.Equal(t, []survey.Meets{survey.AtFloor, survey.AtInsideCorner, survey.AtHead, survey.AtInsideCorner, survey.AtInsideCorner, survey.AtInsideCorner}, meets(b))
	require.Equal(t, "r/a", b.Edges[3].With)
	// a's own zones: the line between them, and only the lower one stands off the floor
	a := s["r/a"].Zones
	require.Equal(t, box(0, 0, 120*in, 48*in), a[0].Outline)
	require.Equal(t, box(0, 48*in, 120*in, 96*in), a[1].Outline)
	require.Equal(t, survey.AtZone, a[0].Edges[2].Meets)
	require.Equal(t, survey.AtZone, a[1].Edges[0].Meets)
	require.Zero(t, a[1].FloorGap)
}

func TestOpenZonesCoverNothing(t *testing.T) {
	r := room("r", 96*in, []job.Zone{board(0, "gyp-12")}, 0, 0, 0, 120, 120, 120, 120, 0)
	r.Walls[0].Lining = []job.Zone{board(48*in, "ply-18"), board(0, job.Open)}
	r.Walls[0].Duty = []job.Duty{job.Bracing} // hung first, although it shows plywood
	s := surveyed(t, house(r))
	require.Len(t, s["r/a"].Zones, 1)
	require.Equal(t, survey.AtFree, s["r/a"].Zones[0].Edges[2].Meets)
	b := s["r/b"].Zones[0]
	require.Equal(t, in*23/32, b.Outline[0].X)
	require.Equal(t, length.Length(0), b.Outline[3].X, "above the open zone's foot nothing is in the way")
	require.Equal(t, survey.AtFree, b.Edges[3].Meets)
}

// Plywood comes into the room when the board has dried: its wall is hung last and gives way at both corners.
func TestPlywoodIsHungLast(t *testing.T) {
	r := room("r", 96*in, []job.Zone{board(0, "gyp-12")}, 0, 0, 0, 120, 120, 120, 120, 0)
	r.Walls[0].Lining = []job.Zone{board(0, "ply-18")}
	s := surveyed(t, house(r))
	require.Equal(t, 4, s["r/a"].HangOrder)
	require.Equal(t, box(in/2, 0, 120*in-in/2, 96*in), s["r/a"].Zones[0].Outline)
}

// Two layers of 5/8 in everywhere, hung layer by layer: a first. a's first layer is whole, its second stays
// 5/8 in (the neighbours' first layer) from either end; b's layers stay 5/8 and 1-1/4 in from a.
func TestTwoLayers(t *testing.T) {
	r := room("r", 96*in, []job.Zone{board(0, "gyp-16x", "gyp-16x")}, 0, 0, 0, 120, 120, 120, 120, 0)
	r.Ceiling = ceiling("gyp-16x", "gyp-16x")
	s := surveyed(t, house(r))
	top, l := 96*in-in*5/4, in*5/8
	require.Equal(t, box(0, 0, 120*in, top), s["r/a"].Zones[0].Outline)
	require.Equal(t, box(l, 0, 120*in-l, top), s["r/a"].Zones[1].Outline)
	require.Equal(t, box(l, 0, 120*in, top), s["r/b"].Zones[0].Outline)
	require.Equal(t, box(2*l, 0, 120*in-l, top), s["r/b"].Zones[1].Outline)
	require.Equal(t, box(2*l, 0, 120*in-2*l, top), s["r/d"].Zones[1].Outline)
	require.Equal(t, l, s["r/a"].Zones[1].Depth)
	require.Equal(t, 2, s["r/a"].Zones[1].Layers)
	require.Equal(t, box(0, 0, 120*in, 120*in), s["r/ceiling"].Zones[1].Outline, "a ceiling is whole before the walls begin")
}

// An L room, counter-clockwise: the corner between c and d is an outside one. c hangs first and ends flush with
// the framing, d covers its edge: longer by c's thickness.
func TestOutsideCorner(t *testing.T) {
	r := room("r", 96*in, []job.Zone{board(0, "gyp-12")}, 0, 0, 240, 0, 240, 120, 120, 120, 120, 240, 0, 240)
	r.Walls[2].Lining = []job.Zone{board(0, "gyp-16x")}
	s := surveyed(t, house(r))
	c, d := s["r/c"], s["r/d"] // c: y = 120 from 120 to 240; d: x = 120 from 120 to 240
	// c from inside: left end west (120,120), right end east (240,120) at b, hung before
	require.Equal(t, box(0, 0, 120*in-in/2, 96*in), c.Zones[0].Outline)
	require.Equal(t, survey.AtOutsideCorner, c.Zones[0].Edges[3].Meets)
	// d from inside: looking east, left end north (120,240) at e, right end south at c
	require.Equal(t, box(0, 0, 120*in+in*5/8, 96*in), d.Zones[0].Outline)
	require.Equal(t, survey.Edge{Meets: survey.AtOutsideCorner, With: "r/c"}, d.Zones[0].Edges[1])
}

func TestSeparationWallHangsFirst(t *testing.T) {
	r := room("r", 96*in, []job.Zone{board(0, "gyp-12")}, 0, 0, 0, 120, 120, 120, 120, 0)
	r.Walls[3].Duty = []job.Duty{job.Separation}
	s := surveyed(t, house(r))
	require.Equal(t, 1, s["r/d"].HangOrder)
	require.Equal(t, box(0, 0, 120*in, 96*in), s["r/d"].Zones[0].Outline)
	require.Equal(t, box(in/2, 0, 120*in, 96*in), s["r/a"].Zones[0].Outline)
}

func TestCurb(t *testing.T) {
	r := room("r", 96*in, []job.Zone{board(0, "gyp-12")}, 0, 0, 0, 120, 120, 120, 120, 0)
	r.Walls[0].Base = in * 3 / 2
	z := surveyed(t, house(r))["r/a"].Zones[0]
	require.Equal(t, box(0, in*3/2, 120*in, 96*in), z.Outline)
	require.Equal(t, survey.AtCurb, z.Edges[0].Meets)
	require.Equal(t, in/2, z.FloorGap)
}

// A box overhead stands on one of the two planes of a ridge, in that plane's x and y.
func TestBoxOnOnePlane(t *testing.T) {
	r := room("r", 96*in, []job.Zone{board(0, "gyp-12")}, 0, 0, 288, 0, 288, 192, 0, 192)
	r.Ceiling = ceiling("gyp-12")
	r.Ceiling.Shape, r.Ceiling.Along, r.Ceiling.At, r.Ceiling.High = job.Ridge, job.AxisX, 96*in, 156*in
	r.Ceiling.Boxes = []job.Box{{At: 100 * in, Up: 48 * in, Diameter: 4 * in, Kind: "light"}, {At: 100 * in, Up: 150 * in, Diameter: 4 * in}}
	s := surveyed(t, house(r))
	for _, plane := range []string{"r/ceiling-south", "r/ceiling-north"} {
		require.Len(t, s[plane].Placed, 1, plane)
		b := s[plane].Placed[0]
		require.NotEqual(t, shape.Outside, s[plane].Boxes[0].Contains(shape.Point{X: b.At, Y: b.Up}))
	}
	require.Equal(t, "light", s["r/ceiling-south"].Placed[0].Kind)
}

// A ridge over 16 ft with 5 ft of rise on 8 ft: the slope's length is √(64+25) ft. The lining's thickness upright is
// t·√89/8. 1/2 in: 12.7 mm·√89/8 = 14.976445 mm.
func TestGable(t *testing.T) {
	r := room("r", 96*in, []job.Zone{board(0, "gyp-12")}, 0, 0, 288, 0, 288, 192, 0, 192)
	r.Ceiling = ceiling("gyp-12")
	r.Ceiling.Shape, r.Ceiling.Along, r.Ceiling.At, r.Ceiling.High = job.Ridge, job.AxisX, 96*in, 156*in
	s := surveyed(t, house(r))
	gable := s["r/b"] // east
	require.Equal(t, shape.Polygon(points(0, 0, 192, 0, 192, 96, 96, 156, 0, 96)), gable.Outline)
	down := length.Length(14_976_445)
	// b's left end from inside is north (c hangs later), its right end is at a, hung before
	z := gable.Zones[0]
	require.Equal(t, shape.Point{X: 96 * in, Y: 156*in - down}, z.Outline[3])
	require.Equal(t, shape.Point{X: 0, Y: 96*in - down}, z.Outline[4])
	require.Equal(t, 192*in-in/2, z.Outline[1].X)
	require.Equal(t, 96*in-down+in*5/8*in/2/in, z.Outline[2].Y, "half an inch along a slope of 5 in 8")
	require.Equal(t, []survey.Meets{survey.AtFloor, survey.AtInsideCorner, survey.AtCeiling, survey.AtCeiling, survey.AtInsideCorner}, meets(z))
	require.Equal(t, 96*in-down, s["r/a"].Zones[0].Outline.Bounds().H, "the wall under the eave")
	slope := length.Length(2_875_477_449) // 8 ft·√89/8 = √89 ft in nanometres, from 9.433981132 ft
	south, north := s["r/ceiling-south"], s["r/ceiling-north"]
	require.InDelta(t, float64(slope), float64(south.Outline.Bounds().H), 1)
	require.Equal(t, box(0, 0, 288*in, south.Outline.Bounds().H), south.Zones[0].Outline)
	// north stops at south's board: at 180° - 2·atan(5/8) its end touches the front edge of south's square end,
	// t·sin φ = 12.7·sin(115.99°) = 12.7·2·(5/8)/(1+(5/8)²) = 12.7·80/89 mm
	touch := length.Length(11_415_730)
	require.Equal(t, touch, north.Zones[0].Outline[0].Y)
	require.Equal(t, survey.Edge{Meets: survey.AtRidge, With: "r/ceiling-south"}, north.Zones[0].Edges[0])
	require.Equal(t, survey.Edge{Meets: survey.AtInsideCorner, With: "r/c"}, north.Zones[0].Edges[2])
}

// One slope rising from south to north: the end walls are raked. At the high wall the ceiling falls into the room,
// so square ends give way with their front edges.
func TestSlope(t *testing.T) {
	r := room("r", 96*in, []job.Zone{board(0, "gyp-12")}, 0, 0, 120, 0, 120, 120, 0, 120)
	r.Ceiling = ceiling("gyp-12")
	r.Ceiling.Shape, r.Ceiling.From, r.Ceiling.To, r.Ceiling.High = job.Slope, "south", "north", 186*in // 3 in 4
	s := surveyed(t, house(r))
	require.Equal(t, shape.Polygon(points(0, 0, 120, 0, 120, 96, 0, 186)), s["r/b"].Outline)
	down := in / 2 * 5 / 4 // 1/2 in over the cosine 4/5
	require.Equal(t, 96*in-down, s["r/a"].Zones[0].Outline.Bounds().H, "low wall")
	require.Equal(t, 186*in-down-in/2*3/4, s["r/c"].Zones[0].Outline.Bounds().H, "high wall: and 1/2 in times the slope")
	// the ceiling is 150 in along the slope; its front edge stays 1/2 in·cot 53.13° = 1/2 in·3/4 from the high wall
	require.Equal(t, box(0, 0, 120*in, 150*in-in*3/8), s["r/ceiling"].Zones[0].Outline)
	require.Equal(t, [3]float64{0, 0.8, 0.6}, s["r/ceiling"].Frame.Y)
	require.Equal(t, [3]float64{0, 0.6, -0.8}, s["r/ceiling"].Frame.Normal)
}

func TestStairWallAndMeasuredHead(t *testing.T) {
	r := room("r", 10*ft, []job.Zone{board(0, "gyp-12")}, 0, 0, 0, 240, 240, 240, 240, 0)
	r.Walls[0].Bottom = points(0, 0, 100, 0, 240, 60)
	r.Walls[2].Top = points(0, 96, 120, 96, 120, 108, 240, 108)
	s := surveyed(t, house(r))
	require.Equal(t, shape.Polygon(points(0, 0, 100, 0, 240, 60, 240, 120, 0, 120)), s["r/a"].Zones[0].Outline)
	require.Equal(t, survey.AtFloor, s["r/a"].Zones[0].Edges[1].Meets)
	b := s["r/b"].Zones[0]
	require.Equal(t, 60*in, b.Outline[4].Y, "below the stair wall's foot nothing is in b's way")
	require.Equal(t, length.Length(0), b.Outline[0].X)
	c := s["r/c"].Zones[0]
	require.Equal(t, points(120, 108)[0], c.Outline[3])
	require.Equal(t, survey.AtHead, c.Edges[3].Meets, "the upright step of the head")
}

// Angled inside corners. At 135° the second board's square end touches the first one's front edge: it stays
// t·sin 135° from the corner; at 45° it stays (t + t·cos 45°)/sin 45° and the first t·cot 45° = t.
func TestAngledCorners(t *testing.T) {
	r := room("r", 96*in, []job.Zone{board(0, "gyp-12")}, 0, 0, 0, 120, 120, 240, 240, 240, 240, 0)
	s := surveyed(t, house(r))
	b := s["r/b"].Zones[0].Outline // from (0,120) to (120,240), its left end at a
	require.InDelta(t, 12.7*0.70710678, b[0].X.MM(), 1e-5)
	require.InDelta(t, 120*25.4*1.41421356, s["r/b"].Outline.Bounds().W.MM(), 1e-4)
	require.Equal(t, length.Length(0), s["r/a"].Zones[0].Outline[0].X)

	sharp := room("r", 96*in, []job.Zone{board(0, "gyp-12")}, 0, 0, 120, 120, 240, 0)
	s = surveyed(t, house(sharp))
	a := s["r/a"].Zones[0].Outline // left end at c in the 45° corner, hung later
	require.InDelta(t, 12.7, a[0].X.MM(), 1e-5)
	c := s["r/c"].Zones[0].Outline
	require.InDelta(t, 12.7*(1+0.70710678)/0.70710678, s["r/c"].Outline.Bounds().W.MM()-c.Bounds().MaxX().MM(), 1e-5)
}

func TestHolesAndKeepOuts(t *testing.T) {
	r := room("r", 96*in, []job.Zone{board(48*in, "ply-18"), board(0, "gyp-12")}, 0, 0, 0, 240, 240, 240, 240, 0)
	r.Walls[0].Openings = []job.Opening{
		{ID: "w", Kind: job.Window, At: 60 * in, Width: 40 * in, Height: 36 * in, Sill: 42 * in},
		{ID: "p", Kind: job.KeepOut, At: 120 * in, Width: 30 * in, Height: 84 * in},
	}
	a := surveyed(t, house(r))["r/a"]
	require.Len(t, a.Holes, 1)
	require.Len(t, a.Openings, 2)
	require.Equal(t, box(60*in, 42*in, 100*in, 48*in), a.Zones[0].Holes[0].Outline)
	require.Equal(t, box(60*in, 48*in, 100*in, 78*in), a.Zones[1].Holes[0].Outline)
	require.Equal(t, shape.Rect{X: 120 * in, Y: 48 * in, W: 30 * in, H: 36 * in}, a.Zones[1].KeepOuts[0])
}

func TestImpossibleRoomsAreNamed(t *testing.T) {
	for want, change := range map[string]func(*job.Room){
		"r/a: zone 2 lies above the head": func(r *job.Room) {
			r.Walls[0].Lining = []job.Zone{board(120*in, "ply-18"), board(0, "gyp-12")}
		},
		"r/a: zone 1 has no height":        func(r *job.Room) { r.Walls[0].Lining = []job.Zone{board(in, "ply-18")}; r.Walls[0].Base = 2 * in },
		"r/a: the wall is too low":         func(r *job.Room) { r.Walls[0].Base = 96 * in },
		"r/a: there is no product \"tin\"": func(r *job.Room) { r.Walls[0].Lining = []job.Zone{board(0, "tin")} },
		"r: the room's outline crosses":    func(r *job.Room) { r.Corners[0], r.Corners[1] = r.Corners[1], r.Corners[0] },
		"r/a: the opening \"d\" does not lie": func(r *job.Room) {
			r.Walls[0].Openings = []job.Opening{{ID: "d", At: 100 * in, Width: 40 * in, Height: ft}}
		},
		"r/ceiling: the ridge does not lie": func(r *job.Room) { r.Ceiling.Shape, r.Ceiling.Along, r.Ceiling.At = job.Ridge, job.AxisX, 20*ft },
		"r/b: its other face \"attic/x\"":   func(r *job.Room) { r.Walls[1].Back = "attic/x" },
		"r/b: the linings of the neighbouring walls": func(r *job.Room) { // an inch wide, between two linings of 1/2 in
			r.Corners = points(0, 0, 0, 120, 1, 120, 1, 0)
			r.Walls[0].Duty, r.Walls[2].Duty = []job.Duty{job.Rated}, []job.Duty{job.Rated}
		},
	} {
		r := room("r", 96*in, []job.Zone{board(0, "gyp-12")}, 0, 0, 0, 120, 120, 120, 120, 0)
		r.Ceiling = ceiling("gyp-12")
		change(&r)
		_, err := survey.Survey(house(r))
		require.ErrorContains(t, err, want)
	}
}

// Courses that the user fixes are heights, so the sheets lie across where the direction is left open; a further layer stays
// open, since the same courses would put its joints over those of the first.
func TestFixedCoursesLieAcross(t *testing.T) {
	lining := job.Zone{Layers: []string{"gyp-12", "gyp-12"}, Courses: []length.Length{24 * in, 48 * in, 24 * in}}
	s := surveyed(t, house(room("r", 96*in, []job.Zone{lining}, 0, 0, 120, 0, 120, 120, 0, 120)))
	require.Equal(t, job.RunAcross, s["r/a"].Zones[0].Run)
	require.Equal(t, job.RunAuto, s["r/a"].Zones[1].Run)
	lining.Runs = []job.Run{job.RunAlong}
	s = surveyed(t, house(room("r", 96*in, []job.Zone{lining}, 0, 0, 120, 0, 120, 120, 0, 120)))
	require.Equal(t, job.RunAlong, s["r/a"].Zones[0].Run, "the user may choose")
}
