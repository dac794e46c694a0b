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

const (
	in = length.Inch
	mm = length.Millimetre
)

// uprightWall is a wall of framing as the survey makes it, with one zone of upright sheets of one width.
func uprightWall(t *testing.T, w, h, spacing length.Length, sheet job.Size, openings ...job.Opening) (*survey.Zone, *job.Rules) {
	rules := &job.Rules{Stagger: 16 * in, LeastPiece: 16 * in, LeastCourse: 6 * in, Opening: 6 * in, Backing: 2 * in, FloorGap: in / 2, Fit: in / 8, Cutouts: job.Notch}
	framing := job.Framing{Material: job.Wood, Spacing: spacing, First: spacing, Member: 45 * mm, Depth: 95 * mm}
	board := job.Product{ID: "board", Kind: job.Gypsum, Thickness: in / 2, Tapered: true, Sizes: []job.Size{sheet}}
	far := 4 * length.Metre
	j := &job.Job{Rules: *rules, Products: []job.Product{board}, Rooms: []job.Room{{ID: "r", Height: h,
		Corners: []shape.Point{{}, {X: w}, {X: w, Y: far}, {Y: far}},
		Walls: []job.Wall{{ID: "a", Side: 1, Framing: framing, Openings: openings, Lining: []job.Zone{{Layers: []string{"board"}, Runs: []job.Run{job.RunAlong}, Pattern: job.Staggered}}},
			{ID: "b", Side: 2, Framing: framing}, {ID: "c", Side: 3, Framing: framing}, {ID: "d", Side: 4, Framing: framing}}}}}
	b, err := survey.Survey(j)
	require.NoError(t, err)
	require.Len(t, b.Surfaces[0].Zones, 1)
	return b.Surfaces[0].Zones[0], rules
}

// linesOf are the places of the joints between the courses of the likeliest scheme.
func linesOf(s *Scheme) (at []length.Length) {
	for _, b := range s.Bands[1:] {
		at = append(at, b.V0)
	}
	return at
}

// Sheets of 1,200 mm on studs at 400 mm, a window 1,400 mm wide that takes two of the studs out: joints over and under it
// land on cripples. Worked by hand: 3,600 mm lies on the jamb's edge, where nothing carries the left sheet.
func TestUprightJointsBearOnCripples(t *testing.T) {
	z, rules := uprightWall(t, 6000*mm, 2600*mm, 400*mm, job.Size{Length: 3000 * mm, Width: 1200 * mm},
		job.Opening{ID: "w", Kind: job.Window, At: 2200 * mm, Width: 1400 * mm, Sill: 900 * mm, Height: 1200 * mm})
	s := Schemes(context.Background(), z, rules, nil)[0]
	require.Empty(t, s.Breaks)
	for _, v := range []length.Length{2400, 2800, 3200} {
		require.True(t, s.borne(v*mm), "a cripple under the sill and one over the head stand at %d", v)
		require.Equal(t, plan.OnMember, s.longSupport(v*mm, s.stretches.seam(v*mm)))
	}
	require.True(t, s.borne(3600*mm+45*mm/2), "the jamb")
	require.False(t, s.borne(3600*mm))
	require.False(t, s.borne(2600*mm), "between two cripples")
	for _, v := range linesOf(s) {
		require.True(t, s.borne(v), "%s", v.Metric())
	}

	// Without the cripples under the sill the stretch there bears on nothing, though one over the head is left.
	z.Surface.Short = []survey.Member{{At: 2400 * mm, Width: 45 * mm, Kind: survey.Cripple, From: 2100 * mm, To: 2600 * mm}}
	f := NewField(z, rules, job.RunAlong, nil)
	require.False(t, f.borne(2400*mm))
	require.True(t, f.bearing(2400*mm, []interval{{2100 * mm, 2600 * mm}}))
}

// A door as high as the zone parts it: sheets end at its jambs, and nothing need carry a joint in it.
func TestAnOpeningOverTheWholeHeightPartsUprightCourses(t *testing.T) {
	z, rules := uprightWall(t, 3658*mm, 2100*mm, 406*mm, job.Size{Length: 2400 * mm, Width: 1200 * mm},
		job.Opening{ID: "d", Kind: job.Door, At: 1200 * mm, Width: 1258 * mm, Height: 2100 * mm})
	s := Schemes(context.Background(), z, rules, nil)[0]
	require.Empty(t, s.Breaks)
	require.Equal(t, []length.Length{1200 * mm, 2458 * mm}, linesOf(s), "one sheet on either side, though no member's middle stands at the jambs")
	strips, ok := Strips(z, rules)
	require.True(t, ok)
	ways := map[int]int{0: 1} // ways to reach a line, by how few sheets
	for i := range strips {
		for _, st := range strips[i] {
			n := ways[i] + min(1, len(st.Covers))
			if have, known := ways[st.To]; i == 0 || ways[i] > 0 {
				if !known || n < have {
					ways[st.To] = n
				}
			}
		}
	}
	require.Equal(t, 1+2, ways[len(strips)-1], "two sheets are the least")
}

// The member in the angle of an L-shaped ceiling stands along one wing only: a joint in the other has none there.
func TestAMemberInAnAngleCarriesItsOwnWingOnly(t *testing.T) {
	ell := shape.Polygon{{}, {X: 200 * in}, {X: 200 * in, Y: 100 * in}, {X: 90 * in, Y: 100 * in}, {X: 90 * in, Y: 180 * in}, {Y: 180 * in}}
	s := &survey.Surface{Surface: plan.Surface{ID: "r/ceiling", Kind: plan.Ceiling, Outline: ell, Members: plan.Members{Axis: "x", Width: 3 * in / 2}}, Ceiling: &job.Ceiling{}}
	angle := 90*in - 3*in/4
	s.Studs = []survey.Member{{At: 48 * in, Width: 3 * in / 2, Kind: survey.Common, To: 180 * in},
		{At: angle, Width: 3 * in / 2, Kind: survey.End, From: 100 * in, To: 180 * in}, {At: 144 * in, Width: 3 * in / 2, Kind: survey.Common, To: 100 * in}}
	board := &job.Product{ID: "board", Kind: job.Gypsum, Sizes: []job.Size{{Length: 96 * in, Width: 48 * in}}}
	z := &survey.Zone{Surface: s, Index: 1, Layer: 1, Layers: 1, Product: board, Run: job.RunAcross, Outline: ell}
	f := NewField(z, &job.Rules{}, job.RunAcross, nil)
	require.False(t, f.bearing(angle, []interval{{0, 48 * in}}))
	require.True(t, f.bearing(angle, []interval{{100 * in, 148 * in}}))
	require.True(t, f.bearing(144*in, []interval{{0, 48 * in}}))
}

func pinnedAt(z *survey.Zone, at ...length.Length) {
	z.Pins = nil
	for _, v := range at {
		z.Pins = append(z.Pins, job.Pin{Zone: 1, Layer: 1, Seam: v, Edge: true})
	}
}

// A joint between upright courses stays where the user has fixed it, the others are planned round it; one that breaks a
// rule is kept and told with the lawful place nearest to it.
func TestJointsOfUprightCoursesAreObeyedWhereFixed(t *testing.T) {
	z, rules := uprightWall(t, 6000*mm, 2600*mm, 400*mm, job.Size{Length: 3000 * mm, Width: 1200 * mm})
	pinnedAt(z, 2000*mm)
	s := Schemes(context.Background(), z, rules, nil)[0]
	require.Empty(t, s.Breaks)
	require.Contains(t, linesOf(s), 2000*mm)
	require.Len(t, s.Bands, 6, "800 and 1,200 mm on one side, 4,000 mm in four on the other")

	pinnedAt(z, 2100*mm)
	s = Schemes(context.Background(), z, rules, nil)[0]
	require.Contains(t, linesOf(s), 2100*mm)
	require.Len(t, s.Breaks, 1)
	require.Equal(t, RulePin, s.Breaks[0].Rule)
	require.Equal(t, PinBreak{Edge: true, Rule: RuleBearing, Seam: 2100 * mm, Nearest: 2000 * mm, Found: true}, *s.Breaks[0].Pin)
	for _, v := range linesOf(s) {
		require.True(t, v == 2100*mm || s.borne(v), "the others still land on studs")
	}

	// Two joints nearer to each other than a course may be wide.
	pinnedAt(z, 2000*mm, 2400*mm)
	s = Schemes(context.Background(), z, rules, nil)[0]
	require.Subset(t, linesOf(s), []length.Length{2000 * mm, 2400 * mm})
	require.Len(t, s.Breaks, 1)
	require.Equal(t, RuleLeastCourse, s.Breaks[0].Rule)

	// No courses meet beyond the wall's end.
	pinnedAt(z, 6500*mm)
	s = Schemes(context.Background(), z, rules, nil)[0]
	require.Len(t, s.Breaks, 1)
	require.Equal(t, "", s.Breaks[0].Pin.Rule)
	require.Equal(t, 5600*mm, s.Breaks[0].Pin.Nearest)

	// Nor where the sheets lie across.
	pinnedAt(z, 2000*mm)
	z.Run = job.RunAcross
	s = Schemes(context.Background(), z, rules, nil)[0]
	require.Len(t, s.Breaks, 1)
	require.Equal(t, "layout.no-upright-courses", s.Breaks[0].Says.Kind)
	z.Run = job.RunAuto
	require.Equal(t, job.RunAlong, leastOf(Schemes(context.Background(), z, rules, nil)).Run, "where the direction is open the wish is obeyed")
}

func leastOf(schemes []*Scheme) *Scheme {
	best := schemes[0]
	for _, s := range schemes {
		if Weigh(s.Breaks) < Weigh(best.Breaks) {
			best = s
		}
	}
	return best
}

// Studs stand too far apart for the sheets on one side of the wall only: joints there bear on nothing, all others on
// studs, and a joint that the user has fixed is among them.
func TestOnlyTheJointsThatMustBearOnNothing(t *testing.T) {
	z, rules := uprightWall(t, 6000*mm, 2600*mm, 400*mm, job.Size{Length: 3000 * mm, Width: 1200 * mm})
	z.Surface.Studs = []survey.Member{{At: 22 * mm, Width: 45 * mm, Kind: survey.End}, {At: 1200 * mm, Width: 45 * mm}, {At: 2400 * mm, Width: 45 * mm}, {At: 5978 * mm, Width: 45 * mm, Kind: survey.End}}
	s := Schemes(context.Background(), z, rules, nil)[0]
	require.Len(t, s.Bands, 5)
	require.Len(t, s.Breaks, 2)
	require.Equal(t, []length.Length{1200 * mm, 2400 * mm}, linesOf(s)[:2])
	for _, b := range s.Breaks {
		require.Equal(t, RuleBearing, b.Rule)
	}
	pinnedAt(z, 4000*mm)
	s = Schemes(context.Background(), z, rules, nil)[0]
	require.Contains(t, linesOf(s), 4000*mm)
	require.Len(t, s.Breaks, 3, "at 3,200, 4,000 and 5,200 mm or thereabouts")
}
