package board_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamwright/calc/board"
	"seamwright/calc/check"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/money"
	"seamwright/calc/plan"
	"seamwright/calc/survey"
)

// drawn boards surfaces and puts the plan together.
func drawn(t require.TestingT, j *job.Job, surfaces ...*survey.Surface) (*survey.Building, *plan.Plan) {
	b := buildingOf(surfaces)
	a, err := board.Solve(context.Background(), j, b, nil, board.Full)
	require.NoError(t, err)
	p := &plan.Plan{Sheets: a.Sheets, Checks: a.Checks}
	n := 0
	for _, s := range surfaces {
		sf := s.Surface
		for range s.Zones {
			sf.Zones = append(sf.Zones, a.Zones[n])
			n++
		}
		p.Surfaces = append(p.Surfaces, sf)
	}
	return b, p
}

// endJoint is the first end joint of a course.
func endJoint(z *plan.Zone, course int) int {
	for i, jt := range z.Joints {
		if len(jt.Panels) == 2 && jt.From.X == jt.To.X && jt.Kind == plan.Butt {
			for _, p := range z.Panels {
				if p.ID == jt.Panels[0] && p.Course == course {
					return i
				}
			}
		}
	}
	return -1
}

// A wall of 16 ft with studs at 16 in, a window of 48 in at 72 in, two courses of 4 x 12 or 4 x 8 sheets. Worked by
// hand for the upper course, which the window cuts from 42 to 78 in: its jambs stand at 72 and 120 in.
func TestPlacesOfASeam(t *testing.T) {
	j := newJob(job.AimCost, board48("gyp", true, 48, map[int64]money.Money{96: 1550, 144: 2380}))
	s := wall("room/south", 192*in, 96*in+in/2, 16*in, 16*in, &j.Products[0])
	opened(s, 72*in, 42*in, 48*in, 36*in)
	b, p := drawn(t, j, s)
	z := &p.Surfaces[0].Zones[0]
	k := endJoint(z, 2)
	require.GreaterOrEqual(t, k, 0)
	places, err := board.SeamPlaces(j, b, p, "room/south", 1, 1, k)
	require.NoError(t, err)
	require.Equal(t, "x", places.Axis)
	require.Equal(t, [2]length.Length{0, 192 * in}, [2]length.Length{places.From, places.To})
	why := map[length.Length]string{}
	for _, c := range places.Places {
		why[c.At] = said(c.Why)
		require.Equal(t, c.Why.None(), c.Lawful())
	}
	require.Equal(t, `end piece of 3/4", shorter than 1' 4"`, why[3*in/4], "the end stud")
	require.Contains(t, why, 80*in)
	require.Empty(t, why[96*in], "the cripple in the middle of the window stands over and under it")
	require.Empty(t, why[48*in], "24 in left of the jamb; 48 and 144 in are covered by single sheets")
	require.Equal(t, plan.NoMember(), places.Why(100*in, 0))
	require.Equal(t, "beyond it is only the corner", said(places.Why(-in, 0)))
	near := places.Nearest(50 * in)
	require.Equal(t, 48*in, places.Places[near].At)

	// A stud beside the jamb: 4 in from it.
	s.Studs = append(s.Studs, survey.Member{At: 68 * in, Width: 3 * in / 2, To: 97 * in})
	s.Members.At = append(s.Members.At, 68*in)
	places, err = board.SeamPlaces(j, b, p, "room/south", 1, 1, k)
	require.NoError(t, err)
	require.Equal(t, `within 6" of the jamb of opening o`, said(places.Why(68*in, 0)))

	// A seam fixed by hand at 48 in of the lower course: one at 32 in lies just far enough away.
	s.Zones[0].Pins = []job.Pin{{Zone: 1, Layer: 1, Course: 1, Seam: 48 * in}}
	places, err = board.SeamPlaces(j, b, p, "room/south", 1, 1, k)
	require.NoError(t, err)
	require.Equal(t, `only 0" from the fixed joint below; 1' 4" is required`, said(places.Why(48*in, 0)))
	require.True(t, places.Why(32*in, 0).None())
}

// What the list of places says is held against the plan itself: a seam fixed at a lawful place is planned without a
// broken rule, and one fixed at an unlawful place is reported.
func TestPlacesAgreeWithThePlan(t *testing.T) {
	lawful, unlawful, doubtful := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		j := newJob(job.AimCost, board48("gyp", true, 48, map[int64]money.Money{96: 1550, 120: 1960, 144: 2380}))
		w := length.Inches(rapid.Int64Range(100, 330).Draw(t, "w"))
		spacing := rapid.SampledFrom([]length.Length{16 * in, 24 * in}).Draw(t, "spacing")
		s := wall("room/south", w, length.Inches(rapid.Int64Range(90, 130).Draw(t, "h")), spacing, spacing, &j.Products[0])
		s.Wall.Framing.Spacing = spacing
		if rapid.Bool().Draw(t, "window") {
			opened(s, length.Inches(rapid.Int64Range(8, int64(w/in)-58).Draw(t, "at")), 42*in, 48*in, 36*in)
		}
		b, p := drawn(t, j, s)
		if len(p.Checks) > 0 {
			return
		}
		k := endJoint(&p.Surfaces[0].Zones[0], 1)
		if k < 0 {
			return
		}
		places, err := board.SeamPlaces(j, b, p, s.ID, 1, 1, k)
		require.NoError(t, err)
		c := places.Places[rapid.IntRange(0, len(places.Places)-1).Draw(t, "place")]
		s.Zones[0].Pins = []job.Pin{{Zone: 1, Layer: 1, Course: places.Course, Seam: c.At}}
		_, p = drawn(t, j, s)
		check.Check(j, b, p)
		broken := 0
		for _, found := range p.Checks {
			if found.Level == plan.Error && layoutRules[found.Rule] || found.Rule == "pin" {
				broken++
			}
		}
		switch {
		case c.Lawful() && broken == 0:
			lawful++
		case c.Lawful():
			doubtful++ // rows are looked at one by one
		case broken == 0:
			require.Fail(t, "an unlawful place that breaks nothing", "%v: %s", c.At, c.Why)
		default:
			unlawful++
		}
	})
	t.Logf("%d lawful places planned, %d unlawful ones reported, %d lawful ones that the whole zone has no lawful plan for", lawful, unlawful, doubtful)
	require.LessOrEqual(t, doubtful*10, lawful+unlawful+10)
}

// The joint between two courses: neither may grow past a sheet, and one at an end may be ripped to 6 in.
func TestPlacesOfALongJoint(t *testing.T) {
	j := newJob(job.AimCost, board48("gyp", true, 48, map[int64]money.Money{96: 1550, 144: 2380}))
	s := wall("room/south", 144*in, 80*in+in/2, 16*in, 16*in, &j.Products[0])
	b, p := drawn(t, j, s)
	for k, jt := range p.Surfaces[0].Zones[0].Joints {
		if len(jt.Panels) != 2 || jt.From.Y != jt.To.Y {
			continue
		}
		places, err := board.SeamPlaces(j, b, p, s.ID, 1, 1, k)
		require.NoError(t, err)
		require.True(t, places.Long)
		require.Equal(t, "y", places.Axis)
		for _, c := range places.Places {
			require.Equal(t, c.At-in/2 <= 48*in && 80*in+in/2-c.At <= 48*in, c.Lawful(), "%v %s", c.At, c.Why)
		}
		return
	}
	require.Fail(t, "no long joint")
}

func TestSomeJointsCannotBeMoved(t *testing.T) {
	j := newJob(job.AimCost, board48("gyp", true, 48, map[int64]money.Money{96: 1550, 144: 2380}))
	s := wall("room/south", 144*in, 96*in+in/2, 16*in, 16*in, &j.Products[0])
	b, p := drawn(t, j, s)
	for k, jt := range p.Surfaces[0].Zones[0].Joints {
		if len(jt.Panels) < 2 {
			_, err := board.SeamPlaces(j, b, p, s.ID, 1, 1, k)
			require.ErrorContains(t, err, "where the surface ends")
		}
	}
	_, err := board.SeamPlaces(j, b, p, "room/attic", 1, 1, 0)
	require.ErrorContains(t, err, "no such surface")
	_, err = board.SeamPlaces(j, b, p, s.ID, 1, 1, 999)
	require.ErrorContains(t, err, "no such seam")
}

// longJoint is the first joint between two courses of a zone, upright or level.
func longJoint(z *plan.Zone) int {
	for k, jt := range z.Joints {
		if len(jt.Panels) == 2 && (jt.From.X == jt.To.X) == (z.Run == string(job.RunAlong)) {
			return k
		}
	}
	return -1
}

// A wall of 16 ft with studs at 16 in and upright sheets of 48 in: their joint can go to any stud that leaves courses of
// at least 24 in (6 in at the ends), and the joints that are not fixed give way. Worked by hand.
func TestPlacesOfAJointBetweenUprightSheets(t *testing.T) {
	j := newJob(job.AimCost, board48("gyp", true, 48, map[int64]money.Money{96: 1550, 144: 2380}))
	s := wall("room/south", 192*in, 96*in+in/2, 16*in, 16*in, &j.Products[0])
	s.Zones[0].Run = job.RunAlong
	b, p := drawn(t, j, s)
	z := &p.Surfaces[0].Zones[0]
	k := longJoint(z)
	require.Equal(t, 48*in, z.Joints[k].From.X)
	places, err := board.SeamPlaces(j, b, p, s.ID, 1, 1, k)
	require.NoError(t, err)
	require.True(t, places.Long && places.Upright)
	require.Equal(t, "x", places.Axis)
	require.Equal(t, [2]plan.Fact{plan.Tell("joint.end-corner"), plan.Tell("joint.end-corner")}, places.Ends)
	of := map[length.Length]plan.SeamPlace{}
	for _, c := range places.Places {
		of[c.At] = c
	}
	require.Equal(t, plan.SeamPlace{At: 64 * in, Member: 5, Support: plan.OnMember}, of[64*in], "members 1 and 2 stand at the end and 16 in")
	require.Equal(t, `the joint at 8' 0"`, said(of[80*in].Gives), "80 and 96 in leave 16 in between them")
	require.Equal(t, "a sheet narrower than 6\" would be beside it", said(of[3*in/4].Why), "the end stud")
	require.Equal(t, plan.NoMember(), places.Why(40*in, in))

	s.Zones[0].Pins = []job.Pin{{Zone: 1, Layer: 1, Edge: true, Seam: 64 * in}}
	b, p = drawn(t, j, s)
	require.Empty(t, p.Checks)
	z = &p.Surfaces[0].Zones[0]
	at := map[length.Length]int{}
	for n, jt := range z.Joints {
		if len(jt.Panels) == 2 && jt.From.X == jt.To.X {
			at[jt.From.X] = n
		}
	}
	require.Contains(t, at, 64*in)
	delete(at, 64*in)
	for x, n := range at {
		places, err = board.SeamPlaces(j, b, p, s.ID, 1, 1, n)
		require.NoError(t, err)
		require.Equal(t, `only 1' 4" from the fixed joint at 5' 4"; 2' 0" is required`, said(places.Why(80*in, 0)), "the joint at %v", x)
	}
}

// What the list says of the places of a joint between upright sheets is held against the plan with the joint fixed there.
func TestPlacesOfUprightJointsAgreeWithThePlan(t *testing.T) {
	draws(t, 40)
	lawful, unlawful := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		j := newJob(job.AimCost, board48("gyp", true, 48, map[int64]money.Money{96: 1550, 120: 1960, 144: 2380}))
		w := length.Inches(rapid.Int64Range(100, 330).Draw(t, "w"))
		spacing := rapid.SampledFrom([]length.Length{12 * in, 16 * in, 24 * in}).Draw(t, "spacing")
		s := wall("room/south", w, length.Inches(rapid.Int64Range(90, 130).Draw(t, "h")), spacing, spacing, &j.Products[0])
		s.Wall.Framing.Spacing, s.Zones[0].Run = spacing, job.RunAlong
		if rapid.Bool().Draw(t, "window") {
			opened(s, length.Inches(rapid.Int64Range(8, int64(w/in)-58).Draw(t, "at")), 42*in, 48*in, 36*in)
		}
		b, p := drawn(t, j, s)
		if len(p.Checks) > 0 {
			return
		}
		k := longJoint(&p.Surfaces[0].Zones[0])
		if k < 0 {
			return
		}
		places, err := board.SeamPlaces(j, b, p, s.ID, 1, 1, k)
		require.NoError(t, err)
		c := places.Places[rapid.IntRange(0, len(places.Places)-1).Draw(t, "place")]
		s.Zones[0].Pins = []job.Pin{{Zone: 1, Layer: 1, Edge: true, Seam: c.At}}
		_, p = drawn(t, j, s)
		met := false
		for _, jt := range p.Surfaces[0].Zones[0].Joints {
			met = met || len(jt.Panels) == 2 && jt.From.X == c.At && jt.To.X == c.At
		}
		require.True(t, met, "a joint fixed at %v stands elsewhere", c.At)
		check.Check(j, b, p)
		broken := 0
		for _, found := range p.Checks {
			if found.Level == plan.Error && layoutRules[found.Rule] || found.Rule == "pin" {
				broken++
			}
		}
		require.Equal(t, c.Lawful(), broken == 0, "%v: %q, %v", c.At, c.Why, p.Checks)
		if c.Lawful() {
			lawful++
		} else {
			unlawful++
		}
	})
	t.Logf("%d lawful places planned, %d unlawful ones reported", lawful, unlawful)
}
