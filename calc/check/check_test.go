package check_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/assets/words"
	"seamwright/calc/check"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/calc/survey"
)

const (
	in = length.Inch
	ft = length.Foot
)

// wall is a sound small case, made by hand: 16 ft by 8 ft of 1/2 in board on studs at 16 in, two courses across
// with end joints at 8 ft and 4 ft, 1/2 in clear of the floor; each test breaks one thing.
type wall struct {
	job      job.Job
	surveyed *survey.Surface
	asked    *survey.Zone
	planned  plan.Zone
}

func panel(id string, course int, x0, y0, x1, y1 length.Length) plan.Panel {
	return plan.Panel{ID: id, Course: course, Outline: shape.Rect{X: x0, Y: y0, W: x1 - x0, H: y1 - y0}.Polygon()}
}

func joint(kind plan.JointKind, x0, y0, x1, y1 length.Length, support plan.Support, panels ...string) plan.Joint {
	return plan.Joint{Kind: kind, From: shape.Point{X: x0, Y: y0}, To: shape.Point{X: x1, Y: y1}, Panels: panels, Support: support}
}

func sound() *wall {
	w := &wall{job: job.Job{Units: job.Imperial,
		Site:     job.Site{Celsius: 20, Humidity: 0.5},
		Products: []job.Product{{ID: "gyp-12", Kind: job.Gypsum, Thickness: in / 2, Tapered: true}, {ID: "ply-18", Kind: job.WoodPanel, Thickness: 23 * in / 32}},
		Rules:    job.Rules{Stagger: 16 * in, LeastPiece: 16 * in, LeastCourse: 6 * in, Opening: 6 * in, Backing: 2 * in, FloorGap: in / 2, Fit: in / 8, Cutouts: job.Notch},
	}}
	outline := shape.Rect{W: 16 * ft, H: 96*in + in/2}.Polygon()
	w.surveyed = &survey.Surface{
		Surface: plan.Surface{ID: "studio/south", Kind: plan.Wall, Room: "studio", Outline: outline, Members: plan.Members{Axis: "x"}},
		Wall: &job.Wall{ID: "south", Framing: job.Framing{Spacing: 16 * in, Member: 3 * in / 2}, Insulation: job.UnfacedBatt,
			Lining: []job.Zone{{Layers: []string{"gyp-12"}}}},
	}
	for x := length.Length(0); x <= 16*ft; x += 16 * in {
		w.surveyed.Studs = append(w.surveyed.Studs, survey.Member{At: x, Width: 3 * in / 2})
	}
	w.asked = &survey.Zone{Surface: w.surveyed, Index: 1, Layer: 1, Layers: 1, Product: &w.job.Products[0], Pattern: job.Staggered, Outline: outline,
		Edges: []survey.Edge{{Meets: survey.AtFloor}, {Meets: survey.AtInsideCorner}, {Meets: survey.AtHead}, {Meets: survey.AtInsideCorner}}, FloorGap: in / 2}
	w.surveyed.Zones = []*survey.Zone{w.asked}
	foot, mid, head := in/2, 48*in+in/2, 96*in+in/2
	w.planned = plan.Zone{Zone: 1, Layer: 1, Product: "gyp-12", Run: "across", Outline: outline,
		Panels: []plan.Panel{panel("A", 1, 0, foot, 8*ft, mid), panel("B", 1, 8*ft, foot, 16*ft, mid),
			panel("C", 2, 0, mid, 4*ft, head), panel("D", 2, 4*ft, mid, 12*ft, head), panel("E", 2, 12*ft, mid, 16*ft, head)},
		Joints: []plan.Joint{
			joint(plan.Butt, 8*ft, foot, 8*ft, mid, plan.OnMember, "A", "B"),
			joint(plan.Butt, 4*ft, mid, 4*ft, head, plan.OnMember, "C", "D"),
			joint(plan.Butt, 12*ft, mid, 12*ft, head, plan.OnMember, "D", "E"),
			joint(plan.Tapered, 0, mid, 16*ft, mid, plan.Unsupported, "A", "B", "C", "D", "E"),
		}}
	return w
}

// broken lists the rules that the plan breaks or that give a caution, without those that every job gets.
func (w *wall) broken(more ...*survey.Surface) []string {
	surface := w.surveyed.Surface
	surface.Zones = []plan.Zone{w.planned}
	b := &survey.Building{Surfaces: append([]*survey.Surface{w.surveyed}, more...)}
	p := &plan.Plan{Surfaces: []plan.Surface{surface}}
	for _, s := range more {
		other := s.Surface
		p.Surfaces = append(p.Surfaces, other)
	}
	check.Check(&w.job, b, p)
	var ids []string
	for _, c := range p.Checks {
		if !slices.Contains([]string{"dust", "old-building", "before-covering"}, c.Rule) {
			ids = append(ids, c.Rule)
			if c.Source.None() || c.Says.None() {
				ids = append(ids, "no source or message")
			}
		}
	}
	slices.Sort(ids)
	return slices.Compact(ids)
}

func TestSoundWallPasses(t *testing.T) { require.Empty(t, sound().broken()) }

// Boxes that stand as they are set every day: nailed to the side of a stud, clear of the seams; a panelboard between two studs
// that the joint between courses meets.
func TestBoxesThatStandWell(t *testing.T) {
	w := sound()
	w.surveyed.Placed = []job.Box{{At: 64*in + 3*in/4 + in, Up: 16 * in, Width: 2 * in, Height: 4 * in},
		{At: 56 * in, Up: 60 * in, Width: 29 * in / 2, Height: 28 * in}, {At: 40 * in, Up: 90 * in, Diameter: 4 * in}}
	require.Empty(t, w.broken())
}

func TestEveryRuleCanBeBroken(t *testing.T) {
	door := func(at length.Length) func(*wall) {
		return func(w *wall) {
			o := job.Opening{ID: "d1", Kind: job.Door, At: at, Width: 3 * ft, Height: 80 * in}
			w.asked.Holes = []survey.Hole{{Opening: o, Outline: o.Rect().Polygon()}}
		}
	}
	for name, c := range map[string]struct {
		spoil func(*wall)
		rule  string
	}{
		"joints 8 in apart":      {func(w *wall) { w.planned.Joints[1].From.X, w.planned.Joints[1].To.X = 8*ft-8*in, 8*ft-8*in }, "stagger"},
		"joints in line":         {func(w *wall) { w.planned.Joints[1].From.X, w.planned.Joints[1].To.X = 8*ft, 8*ft }, "four-corners"},
		"joint 4 in from a jamb": {door(8*ft + 4*in), "opening"},
		"joint over a backing seam": {func(w *wall) {
			w.surveyed.Backing = &survey.Backing{Seams: [][2]shape.Point{{{X: 8*ft + in, Y: 0}, {X: 8*ft + in, Y: 8 * ft}}}}
		}, "backing-seam"},
		"piece of 12 in": {func(w *wall) {
			w.planned.Panels[2] = panel("C", 2, 0, 48*in+in/2, 12*in, 96*in)
		}, "least-piece"},
		"course of 4 in": {func(w *wall) {
			for i := 2; i < 5; i++ {
				w.planned.Panels[i].Outline = shape.Rect{X: w.planned.Panels[i].Outline[0].X, Y: 48*in + in/2, W: 4 * ft, H: 4 * in}.Polygon()
			}
		}, "least-course"},
		"courses for upright sheets": {func(w *wall) {
			w.planned.Run, w.asked.Courses = "along", []length.Length{48 * in, 48 * in}
		}, "courses"},
		"mixed joint":        {func(w *wall) { w.planned.Joints[3].Kind = plan.Mixed }, "edges"},
		"board on the floor": {func(w *wall) { w.planned.Panels[0] = panel("A", 1, 0, in/8, 8*ft, 48*in) }, "floor-gap"},
		"gap without trim": {func(w *wall) {
			w.planned.Panels[0] = panel("A", 1, 0, in, 8*ft, 48*in)
			w.planned.Panels[1] = panel("B", 1, 8*ft, in, 16*ft, 48*in)
		}, "floor-gap"},
		"31 ft of wall": {func(w *wall) {
			w.asked.Outline = shape.Rect{W: 31 * ft, H: 8 * ft}.Polygon()
		}, "control-joint"},
		"a panel left out":             {func(w *wall) { w.planned.Panels = w.planned.Panels[:4] }, "cover"},
		"a panel over another":         {func(w *wall) { w.planned.Panels[2] = panel("C", 2, 0, 48*in+in/2, 4*ft+in, 96*in+in/2) }, "cover"},
		"a panel an inch narrow":       {func(w *wall) { w.planned.Panels[2] = panel("C", 2, 0, 48*in+in/2, 4*ft-in, 96*in+in/2) }, "cover"},
		"a control joint on one stud":  {func(w *wall) { w.planned.Joints[0].Kind = plan.Control }, "control-framing"},
		"a control joint across studs": {func(w *wall) { w.planned.Joints[3].Kind = plan.Control }, "control-framing"},
		"joint between studs":          {func(w *wall) { w.planned.Joints[0].From.X, w.planned.Joints[0].To.X = 8*ft+3*in, 8*ft+3*in }, "bearing"},
		"joint on a stud cut short": {func(w *wall) {
			w.surveyed.Studs = slices.DeleteFunc(w.surveyed.Studs, func(m survey.Member) bool { return m.At == 8*ft })
			w.surveyed.Short = []survey.Member{{At: 8 * ft, Width: 3 * in / 2, Kind: survey.Cripple, From: 60 * in, To: 96*in + in/2}}
		}, "bearing"},
		"joint with nothing behind": {func(w *wall) { w.planned.Joints[0].Support = plan.Unsupported }, "bearing"},
		"back block not allowed":    {func(w *wall) { w.planned.Joints[0].Support = plan.OnBackBlock }, "bearing"},
		"backing in a rated wall": {func(w *wall) {
			w.planned.Joints[0].Support = plan.OnBacking
			w.surveyed.Backing, w.surveyed.Wall.Duty = &survey.Backing{}, []job.Duty{job.Bracing}
		}, "bearing"},
		"plywood edge in the air": {func(w *wall) { w.asked.Product = &w.job.Products[1] }, "edge-blocking"},
		"3/8 in board, one stud left out": {func(w *wall) {
			w.job.Products[0].Thickness = 3 * in / 8
			w.surveyed.Studs = slices.Delete(w.surveyed.Studs, 4, 5)
		}, "span"},
		"1/2 in board, one stud left out": {func(w *wall) { w.surveyed.Studs = slices.Delete(w.surveyed.Studs, 4, 5) }, "span"},
		"1/4 in plywood, one stud left out": {func(w *wall) {
			w.asked.Product = &job.Product{ID: "ply-6", Kind: job.WoodPanel, Thickness: in / 4}
			w.surveyed.Studs = slices.Delete(w.surveyed.Studs, 4, 5)
		}, "wood-span"},
		"separation wall in plywood": {func(w *wall) {
			w.surveyed.Wall.Duty = []job.Duty{job.Separation}
			w.surveyed.Wall.Lining = []job.Zone{{Layers: []string{"ply-18"}}}
		}, "separation"},
		"a box on a stud": {func(w *wall) {
			w.surveyed.Placed = []job.Box{{At: 64 * in, Up: 16 * in, Width: 2 * in, Height: 4 * in}}
		}, "box-member"},
		"a box wider than a bay": {func(w *wall) {
			w.surveyed.Placed = []job.Box{{At: 56 * in, Up: 60 * in, Width: 20 * in, Height: 28 * in}}
		}, "box-member"},
		"a box on a seam": {func(w *wall) {
			w.surveyed.Placed = []job.Box{{At: 56 * in, Up: 49 * in, Width: 2 * in, Height: 4 * in}}
		}, "box-seam"},
		"a butt joint into a panelboard": {func(w *wall) {
			w.surveyed.Placed = []job.Box{{At: 8 * ft, Up: 30 * in, Width: 15 * in, Height: 28 * in}}
		}, "box-seam"},
		"separation not taped": {func(w *wall) { w.surveyed.Wall.Duty = []job.Duty{job.Separation} }, "separation-joints"},
		"plywood over a separation's board": {func(w *wall) {
			w.surveyed.Wall.Duty, w.surveyed.Wall.Lining = []job.Duty{job.Separation}, []job.Zone{{Layers: []string{"gyp-12", "ply-18"}, Finish: 4}}
		}, "separation-joints"},
		"a door in a separation": {func(w *wall) {
			w.surveyed.Wall.Duty = []job.Duty{job.Separation}
			w.surveyed.Openings = []plan.Opening{{ID: "d1", Kind: "door", Outline: w.asked.Outline}}
		}, "separation-door"},
		"a duct in a separation": {func(w *wall) { w.surveyed.Wall.Duty = []job.Duty{job.Separation} }, "separation-openings"},
		"rated wall":             {func(w *wall) { w.surveyed.Wall.Duty = []job.Duty{job.Rated} }, "rated"},
		"foam left open": {func(w *wall) {
			w.surveyed.Wall.Insulation, w.surveyed.Wall.Lining = job.FoamPlastic, []job.Zone{{Layers: []string{job.Open}}}
		}, "foam"},
		"kraft left open": {func(w *wall) {
			w.surveyed.Wall.Insulation, w.surveyed.Wall.Lining = job.KraftBatt, []job.Zone{{Layers: []string{job.Open}}}
		}, "kraft"},
		"paper-faced board in the wet": {func(w *wall) { w.surveyed.Wall.Duty = []job.Duty{job.Wet} }, "wet"},
		"plywood stays visible":        {func(w *wall) { w.asked.Product = &w.job.Products[1] }, "hot-appliance"},
		"40 °F":                        {func(w *wall) { w.job.Site.Celsius = 4.4 }, "cold"},
		"separation to inspect":        {func(w *wall) { w.surveyed.Wall.Duty = []job.Duty{job.Separation} }, "inspection"},
		"a column":                     {func(w *wall) { w.job.Rooms = []job.Room{{ID: "studio", Solids: []job.Solid{{ID: "column"}}}} }, "not-planned"},
	} {
		t.Run(name, func(t *testing.T) {
			w := sound()
			c.spoil(w)
			require.Contains(t, w.broken(), c.rule)
		})
	}
}

// Framing 97-1/8 in under a 1/2 in ceiling board leaves 5/8 in under two whole courses: no rip, and one caution
// where a 3-1/2 in base covers it (arithmetic; common practice, no source).
func TestGapUnderTrimIsACaution(t *testing.T) {
	w := sound()
	w.surveyed.Wall.Trim = 7 * in / 2
	for i := range 2 {
		q := w.planned.Panels[i].Outline
		q[0].Y, q[1].Y = 5*in/8, 5*in/8
	}
	require.Equal(t, []string{"floor-gap"}, w.broken())
}

// Where the floor was measured, the gap that is told is the one over its lowest place.
func TestFloorGapOverAMeasuredFloor(t *testing.T) {
	w := sound()
	w.planned.Panels[0] = panel("A", 1, 0, in, 8*ft, 48*in)
	w.planned.Panels[1] = panel("B", 1, 8*ft, in, 16*ft, 48*in)
	w.surveyed.Wall.Trim = 3 * in
	surface := w.surveyed.Surface
	surface.Zones = []plan.Zone{w.planned}
	p := &plan.Plan{Surfaces: []plan.Surface{surface}, Levels: []plan.LevelLine{{Surface: surface.ID, Zone: 1, Largest: 3 * in / 2}}}
	check.Check(&w.job, &survey.Building{Surfaces: []*survey.Surface{w.surveyed}}, p)
	i := slices.IndexFunc(p.Checks, func(c plan.Check) bool { return c.Rule == "floor-gap" })
	require.GreaterOrEqual(t, i, 0)
	require.Equal(t, plan.Caution, p.Checks[i].Level)
	require.Contains(t, said(p.Checks[i].Says), `1 1/2"`)
}

// An equal distance is enough: 16 in on studs at 16 in.
func TestStaggerOfOneMemberSpaceIsLawful(t *testing.T) {
	w := sound()
	w.planned.Joints[1].From.X, w.planned.Joints[1].To.X = 8*ft-16*in, 8*ft-16*in
	require.Empty(t, w.broken())
}

// The other face of the partition stands turned round, 3-1/2 in away; 4 ft on it is 12 ft here.
func TestSharedStud(t *testing.T) {
	w := sound()
	w.surveyed.Frame = plan.Frame{X: [3]float64{1, 0, 0}}
	back := sound()
	back.surveyed.ID, back.surveyed.Room = "store/north", "store"
	back.surveyed.Frame = plan.Frame{Origin: [3]length.Length{16 * ft, -7 * in / 2, 0}, X: [3]float64{-1, 0, 0}}
	back.surveyed.Surface.Zones = []plan.Zone{back.planned}
	w.surveyed.Backs, back.surveyed.Backs = []*survey.Surface{back.surveyed}, []*survey.Surface{w.surveyed}
	require.Equal(t, []string{"opposite-faces"}, w.broken(back.surveyed))
	z := &back.surveyed.Surface.Zones[0]
	for i := range 3 { // move every end joint of the other face by one stud, where it stays staggered
		z.Joints[i].From.X += 16 * in
		z.Joints[i].To.X += 16 * in
	}
	require.Empty(t, w.broken(back.surveyed))
}

func TestRulesAreNamedOnce(t *testing.T) {
	seen := map[string]bool{}
	for _, r := range check.Rules() {
		require.False(t, seen[r.ID], r.ID)
		seen[r.ID] = true
		require.NotEmpty(t, r.Asks, r.ID)
		require.NotEmpty(t, r.Source, r.ID)
	}
}

// Two studs side by side carry a control joint between them, and nothing is said.
func TestControlJointBetweenTwoStuds(t *testing.T) {
	w := sound()
	w.surveyed.Studs = append(w.surveyed.Studs, survey.Member{At: 8*ft + 3*in/2, Width: 3 * in / 2})
	w.planned.Joints[0].Kind = plan.Control
	w.planned.Joints[0].From.X += 3 * in / 4
	w.planned.Joints[0].To.X += 3 * in / 4
	require.Empty(t, w.broken())
}

// A low door is no gap, and a sloping head is followed: 8 ft high on the left and 6 ft on the right, cut
// from the same panels.
func TestCoverKnowsOpeningsAndSlopes(t *testing.T) {
	w := sound()
	o := job.Opening{ID: "d1", Kind: job.Door, At: 9 * ft, Width: 3 * ft, Height: 30 * in}
	w.asked.Holes = []survey.Hole{{Opening: o, Outline: o.Rect().Polygon()}}
	w.planned.Panels[1].Outline = shape.Polygon{{X: 8 * ft, Y: in / 2}, {X: 9 * ft, Y: in / 2}, {X: 9 * ft, Y: 30 * in}, {X: 12 * ft, Y: 30 * in},
		{X: 12 * ft, Y: in / 2}, {X: 16 * ft, Y: in / 2}, {X: 16 * ft, Y: 48*in + in/2}, {X: 8 * ft, Y: 48*in + in/2}}
	require.NotContains(t, w.broken(), "cover")
	w.asked.Holes[0].Outline = shape.Rect{X: 9 * ft, W: 3 * ft, H: 33 * in}.Polygon()
	require.Contains(t, w.broken(), "cover", "the panel now reaches over the opening")
	w.asked.Holes = nil
	require.Contains(t, w.broken(), "cover", "without the opening its place is open")

	w = sound()
	w.asked.Outline = shape.Polygon{{}, {X: 16 * ft}, {X: 16 * ft, Y: 6 * ft}, {Y: 96*in + in/2}}
	require.Contains(t, w.broken(), "cover", "panels stand out above the slope")
	slope := func(x length.Length) length.Length { return 96*in + in/2 - (24*in+in/2)*x/(16*ft) }
	for i := 2; i < 5; i++ {
		q := w.planned.Panels[i].Outline
		q[2].Y, q[3].Y = slope(q[2].X), slope(q[3].X)
	}
	require.NotContains(t, w.broken(), "cover")
}

// Two upright sheets meet over and under a window, where cripples stand and no full stud does.
func TestUprightJointOnCripples(t *testing.T) {
	w := sound()
	head := 96*in + in/2
	o := job.Opening{ID: "w1", Kind: job.Window, At: 5 * ft, Width: 6 * ft, Sill: 3 * ft, Height: 3 * ft}
	w.asked.Holes = []survey.Hole{{Opening: o, Outline: o.Rect().Polygon()}}
	w.asked.Pattern, w.planned.Run = job.Stacked, "along"
	w.planned.Panels = []plan.Panel{panel("A", 1, 0, in/2, 4*ft, head), panel("B", 2, 12*ft, in/2, 16*ft, head)}
	for i, x := range []length.Length{4 * ft, 8 * ft} {
		side := plan.Panel{ID: []string{"C", "D"}[i], Course: 3 + i}
		for _, g := range (shape.Rect{X: x, Y: in / 2, W: 4 * ft, H: 96 * in}).Polygon().Subtract(o.Rect()) {
			side.Outline = g.Outline
		}
		w.planned.Panels = append(w.planned.Panels, side)
	}
	w.planned.Joints = []plan.Joint{
		joint(plan.Tapered, 4*ft, in/2, 4*ft, head, plan.OnMember, "A", "C"), joint(plan.Tapered, 12*ft, in/2, 12*ft, head, plan.OnMember, "D", "B"),
		joint(plan.Tapered, 8*ft, in/2, 8*ft, 3*ft, plan.OnMember, "C", "D"), joint(plan.Tapered, 8*ft, 6*ft, 8*ft, head, plan.OnMember, "C", "D")}
	w.surveyed.Studs = slices.DeleteFunc(w.surveyed.Studs, func(m survey.Member) bool { return m.At > 5*ft && m.At < 11*ft })
	for x := length.Length(64) * in; x < 11*ft; x += 16 * in {
		w.surveyed.Short = append(w.surveyed.Short, survey.Member{At: x, Width: 3 * in / 2, Kind: survey.Cripple, From: 6 * ft, To: head})
		w.surveyed.Short = append(w.surveyed.Short, survey.Member{At: x, Width: 3 * in / 2, Kind: survey.Cripple, To: 3 * ft})
	}
	require.Empty(t, w.broken())
	w.surveyed.Short = slices.DeleteFunc(w.surveyed.Short, func(m survey.Member) bool { return m.At == 8*ft && m.From == 0 })
	require.Contains(t, w.broken(), "span", "32 in under the sill")
	w.surveyed.Short = append(w.surveyed.Short, survey.Member{At: 8*ft + in, Width: 3 * in / 2, Kind: survey.Cripple, To: 3 * ft})
	require.Equal(t, []string{"bearing"}, w.broken())
}

// A control joint of the face goes on through the board below it; where it does, the layers may share its line.
func TestAControlJointGoesThroughTheLayerBelow(t *testing.T) {
	two := func(below plan.JointKind) []string {
		w := sound()
		face, foot, mid := *w.asked, in/2, 48*in+in/2
		w.asked.Layers, face.Layer, face.Layers = 2, 2, 2
		w.surveyed.Zones = []*survey.Zone{w.asked, &face}
		w.surveyed.Studs = append(w.surveyed.Studs, survey.Member{At: 8*ft - 2*in, Width: 3 * in / 2}, survey.Member{At: 8*ft + in, Width: 3 * in / 2})
		under, over := w.planned, w.planned
		under.Joints = []plan.Joint{joint(below, 8*ft, foot, 8*ft, mid, plan.OnMember, "A", "B")}
		over.Layer = 2
		over.Joints = []plan.Joint{joint(plan.Control, 8*ft, foot, 8*ft, mid, plan.OnMember, "A", "B")}
		surface := w.surveyed.Surface
		surface.Zones = []plan.Zone{under, over}
		p := &plan.Plan{Surfaces: []plan.Surface{surface}}
		check.Check(&w.job, &survey.Building{Surfaces: []*survey.Surface{w.surveyed}}, p)
		var ids []string
		for _, c := range p.Checks {
			if c.Rule == "control-joint" || c.Rule == "layers" {
				ids = append(ids, c.Rule)
			}
		}
		return ids
	}
	require.Empty(t, two(plan.Control))
	require.ElementsMatch(t, []string{"control-joint", "layers"}, two(plan.Butt), "an ordinary seam there is bridged by compound below, and lies in line")
}

// Where only rectangles are allowed the joints at the jambs stand where the opening puts them: they ask for no stagger and
// may leave short pieces.
func TestJointsAtJambsAskForNoStagger(t *testing.T) {
	w := sound()
	w.planned.Joints[1].From.X, w.planned.Joints[1].To.X = 8*ft, 8*ft
	require.Subset(t, w.broken(), []string{"four-corners", "stagger"})
	o := job.Opening{ID: "d1", Kind: job.Door, At: 8 * ft, Width: 3 * ft, Height: 40 * in}
	w.asked.Holes = []survey.Hole{{Opening: o, Outline: o.Rect().Polygon()}}
	w.job.Rules.Cutouts = job.RectOnly
	require.NotContains(t, w.broken(), "stagger")
	require.NotContains(t, w.broken(), "four-corners")
}

// overhead lays the sound case on a ceiling: joists at 16 in, or only every second of them, with an insulation and a duty.
func overhead(product job.Product, apart int, depth length.Length, insulation job.Insulation, duties ...job.Duty) *wall {
	w := sound()
	product.Kind, product.ID = job.Gypsum, "gyp-12"
	w.job.Products[0] = product
	framing := w.surveyed.Wall.Framing
	framing.Depth = depth
	w.surveyed.Kind, w.surveyed.ID, w.surveyed.Wall = plan.Ceiling, "studio/ceiling", nil
	w.surveyed.Ceiling = &job.Ceiling{Framing: framing, Insulation: insulation, Duty: duties, Lining: []job.Zone{{Layers: []string{"gyp-12"}, Finish: 4}}}
	for i := len(w.surveyed.Studs) - 1; i >= 0; i-- {
		if i*16%apart != 0 {
			w.surveyed.Studs = slices.Delete(w.surveyed.Studs, i, i+1)
		}
	}
	return w
}

// Each footnote of the span table on a ceiling, laid across and along its joists.
func TestCeilingsAsTheTableSays(t *testing.T) {
	thin, half, sag, fire := job.Product{Thickness: 3 * in / 8}, job.Product{Thickness: in / 2}, job.Product{Thickness: in / 2, Sag: true}, job.Product{Thickness: 5 * in / 8, FireType: true, Sag: true}
	for name, c := range map[string]struct {
		w    *wall
		run  string
		want string
	}{
		"3/8 in across carries 16 in, without texture": {overhead(thin, 16, 6*in, job.NoInsulation), "across", "texture"},
		"3/8 in along":                              {overhead(thin, 16, 6*in, job.NoInsulation), "along", "span"},
		"3/8 in under batts":                        {overhead(thin, 16, 6*in, job.UnfacedBatt), "across", "span"},
		"1/2 in at 16 in either way":                {overhead(half, 16, 6*in, job.NoInsulation), "along", ""},
		"sag-resistant 1/2 in at 16 in under batts": {overhead(sag, 16, 6*in, job.UnfacedBatt), "along", ""},
		"mineral wool of 12 in weighs 2.5 psf":      {overhead(sag, 16, 12*in, job.MineralWool), "across", "insulation-weight"},
		"1/2 in under rooms lived in":               {overhead(half, 16, 6*in, job.NoInsulation, job.Separation), "across", "separation-ceiling"},
		"fire type under rooms lived in, along":     {overhead(fire, 16, 6*in, job.NoInsulation, job.Separation), "along", "span separation-ceiling"},
		"1/2 in at 32 in":                           {overhead(sag, 32, 6*in, job.NoInsulation), "across", "span"},
	} {
		t.Run(name, func(t *testing.T) {
			c.w.planned.Run = c.run
			asked := []string{"span", "texture", "insulation-weight", "separation-ceiling"}
			got := slices.DeleteFunc(c.w.broken(), func(id string) bool { return !slices.Contains(asked, id) })
			if c.want == "" {
				require.Empty(t, got)
				return
			}
			require.ElementsMatch(t, strings.Fields(c.want), got)
		})
	}
	w := overhead(fire, 16, 6*in, job.NoInsulation, job.Separation)
	require.NotContains(t, w.broken(), "span", "across")
	require.Contains(t, w.broken(), "separation-ceiling", "a note on its fasteners")
}

// The walls that the joists of a separation run into carry what lies above: gypsum board covers them too.
func TestWhatCarriesTheFloorIsCovered(t *testing.T) {
	w := overhead(job.Product{Thickness: 5 * in / 8, FireType: true}, 16, 6*in, job.NoInsulation, job.Separation)
	carries := func(normal [3]float64, layers ...string) bool {
		wall := &survey.Surface{Surface: plan.Surface{ID: "studio/x", Room: "studio", Outline: w.asked.Outline, Frame: plan.Frame{Normal: normal}},
			Wall: &job.Wall{Lining: []job.Zone{{Layers: layers}}}}
		surface := w.surveyed.Surface
		surface.Zones = []plan.Zone{w.planned}
		p := &plan.Plan{Surfaces: []plan.Surface{surface, wall.Surface}}
		check.Check(&w.job, &survey.Building{Surfaces: []*survey.Surface{w.surveyed, wall}}, p)
		return slices.ContainsFunc(p.Checks, func(c plan.Check) bool { return c.Rule == "separation-ceiling" && c.Where == "studio/x" })
	}
	along, across := [3]float64{0, 1, 0}, [3]float64{1, 0, 0} // joists lie along y
	require.True(t, carries(along, "ply-18"))
	require.True(t, carries(along, job.Open))
	require.False(t, carries(along, "gyp-12"))
	require.False(t, carries(across, "ply-18"), "the joists run beside this wall")
}

// Where neither direction carries far enough, the finding names the bay and says why the board lies as it does.
func TestSpanGivesItsReason(t *testing.T) {
	w := overhead(job.Product{Thickness: in / 2, Sag: true}, 32, 6*in, job.NoInsulation)
	surface := w.surveyed.Surface
	surface.Zones = []plan.Zone{w.planned}
	p := &plan.Plan{Surfaces: []plan.Surface{surface}}
	check.Check(&w.job, &survey.Building{Surfaces: []*survey.Surface{w.surveyed}}, p)
	i := slices.IndexFunc(p.Checks, func(c plan.Check) bool { return c.Rule == "span" })
	require.GreaterOrEqual(t, i, 0)
	require.Equal(t, `1/2" board laid across the joists carries over 2' 0" at most; the widest bay here is 2' 8", from 0" to 2' 8"; it is laid this way since along the joists it carries even less: put members between, or use thicker board`, said(p.Checks[i].Says))
	require.Equal(t, 16*in, p.Checks[i].At.X, "in the middle of that bay")
}

// said is a fact in English, in feet and inches.
func said(f plan.Fact) string { return words.In(words.English, words.Units{Imperial: true}).Fact(f) }
