package finish_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc/finish"
	"seamwright/calc/internal/sample"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/money"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/calc/survey"
)

// one wall of 12 by 8 ft with the edges given: bottom, right, top, left.
func oneWall(product string, right, left survey.Meets) (*job.Job, *survey.Building, *plan.Plan) {
	j := sample.Job()
	stick := func(id, kind, sort string) job.Supply {
		return job.Supply{ID: id, Kind: kind, Type: sort, Packs: []job.Pack{{Name: "8 ft", Holds: 8, Unit: "ft", Price: 400}}}
	}
	j.Supplies = append(j.Supplies, stick("l-trim", "corner-bead", "trim"), stick("panel-edge", "panel-edge", ""), stick("casing", "trim", "casing"), stick("batten", "batten", ""),
		job.Supply{ID: "clear", Kind: "clear-finish", Packs: []job.Pack{{Name: "1 gal", Holds: 1, Unit: "gal", Price: 6000}}})
	b, p := sample.Build(j, sample.Face{ID: "w", Kind: plan.Wall, Room: "r", W: 12 * foot, H: 8 * foot, Spacing: 16 * inch, Product: product, Long: 8 * foot, Wide: 4 * foot, Finish: 4, Trim: 3 * inch,
		Edges: [4]survey.Edge{{Meets: survey.AtFloor}, {Meets: right, With: "x"}, {Meets: survey.AtHead}, {Meets: left, With: "x"}}})
	return j, b, p
}

func needs(rows []plan.Item) map[string]float64 {
	sum := map[string]float64{}
	for _, r := range rows {
		sum[r.Supply] += r.Need
	}
	return sum
}

// Edge trim goes to edges of board with nothing beyond, not under base trim; panels get a strip there and at outside
// corners (arithmetic on the wall's own edges).
func TestEdges(t *testing.T) {
	j, b, p := oneWall("gyp-12", survey.AtFree, survey.AtInsideCorner)
	n := needs(finish.Finish(j, b, p, nil, finish.Thorough))
	require.InDelta(t, 8, n["l-trim"], 1e-9)
	require.Zero(t, n["panel-edge"])
	require.InDelta(t, 12, n["trim"], 1e-9, "base trim along the floor")

	j, b, p = oneWall("ply-18", survey.AtFree, survey.AtOutsideCorner)
	n = needs(finish.Finish(j, b, p, nil, finish.Thorough))
	require.InDelta(t, 16, n["panel-edge"], 1e-9)
	require.Zero(t, n["l-trim"])
	j.Figures = map[string]float64{"panel-edge-strip": 0}
	require.Zero(t, needs(finish.Finish(j, b, p, nil, finish.Thorough))["panel-edge"])
}

// A dado of plywood with board above it: the line between them gets one strip, less the door that runs through it.
func TestStripOnADado(t *testing.T) {
	j, b, p := oneWall("ply-18", survey.AtInsideCorner, survey.AtInsideCorner)
	s := b.Surfaces[0]
	s.Zones[0].Outline = shape.Rect{W: 12 * foot, H: 4 * foot}.Polygon()
	s.Zones[0].Edges[2] = survey.Edge{Meets: survey.AtZone}
	s.Wall.Openings = []job.Opening{{Kind: job.Door, At: 3 * foot, Width: 3 * foot, Height: 7 * foot}, {Kind: job.Window, At: 8 * foot, Width: 2 * foot, Height: 3 * foot, Sill: 4 * foot}}
	require.InDelta(t, 9, needs(finish.Finish(j, b, p, nil, finish.Thorough))["panel-edge"], 1e-9, "the window only stands on the line")
}

// Casing with mitres: a door of 3 by 7 ft in 3 in casing takes two sides of 7 ft 3 in and a head of 3 ft 6 in; a window
// of 2 by 3 ft four pieces (arithmetic).
func TestCasing(t *testing.T) {
	j, b, p := oneWall("gyp-12", survey.AtInsideCorner, survey.AtInsideCorner)
	b.Surfaces[0].Wall.Openings = []job.Opening{{Kind: job.Door, At: 3 * foot, Width: 3 * foot, Height: 7 * foot}, {Kind: job.Window, At: 8 * foot, Width: 2 * foot, Height: 3 * foot, Sill: 4 * foot}}
	require.Zero(t, needs(finish.Finish(j, b, p, nil, finish.Thorough))["casing"], "none is asked for")
	j.Figures = map[string]float64{"casing": 3}
	require.InDelta(t, 2*7.25+3.5+2*2.5+2*3.5, needs(finish.Finish(j, b, p, nil, finish.Thorough))["casing"], 1e-9)
	require.InDelta(t, 12-3.5, needs(finish.Finish(j, b, p, nil, finish.Thorough))["trim"], 1e-9, "base trim ends at the casing of the door")
	b.Surfaces[0].Wall.Openings[1].Return = job.ReturnBoard
	require.InDelta(t, 2*7.25+3.5, needs(finish.Finish(j, b, p, nil, finish.Thorough))["casing"], 1e-9, "a return of board ends in a bead")
}

// Pictures show the trim that is bought: the plan tells how wide the casing of each opening is and where base trim runs.
func TestTrimIsTold(t *testing.T) {
	j, b, p := oneWall("gyp-12", survey.AtInsideCorner, survey.AtInsideCorner)
	b.Surfaces[0].Wall.Openings = []job.Opening{{ID: "d", Kind: job.Door, At: 3 * foot, Width: 3 * foot, Height: 7 * foot},
		{ID: "w", Kind: job.Window, At: 8 * foot, Width: 2 * foot, Height: 3 * foot, Sill: 4 * foot, Return: job.ReturnBoard}}
	kept := []plan.Opening{{ID: "d"}, {ID: "w"}}
	p.Surfaces[0].Openings = kept
	finish.Finish(j, b, p, nil, finish.Thorough)
	require.Zero(t, p.Surfaces[0].Openings[0].Casing)
	require.Equal(t, [][2]length.Length{{0, 3 * foot}, {6 * foot, 12 * foot}}, p.Surfaces[0].BaseTrim.Runs)
	j.Figures = map[string]float64{"casing": 3}
	finish.Finish(j, b, p, nil, finish.Thorough)
	require.Equal(t, 3*inch, p.Surfaces[0].Openings[0].Casing)
	require.Zero(t, p.Surfaces[0].Openings[1].Casing)
	require.Equal(t, plan.BaseTrim{Height: 3 * inch, Runs: [][2]length.Length{{0, 33 * inch}, {75 * inch, 12 * foot}}}, p.Surfaces[0].BaseTrim)
	require.Zero(t, kept[0].Casing, "what is kept of the survey stays as it is")
}

// Clear coats on 96 ft² of panels: two at 400 ft² a gallon; battens over their joints where wanted, cut from 8 ft sticks.
func TestPanelsAreFinishedIfWanted(t *testing.T) {
	j, b, p := oneWall("ply-18", survey.AtInsideCorner, survey.AtInsideCorner)
	n := needs(finish.Finish(j, b, p, nil, finish.Thorough))
	require.Zero(t, n["clear-finish"]+n["batten"])
	j.Figures = map[string]float64{"panel-coats": 2, "panel-battens": 1}
	rows := finish.Finish(j, b, p, nil, finish.Thorough)
	n = needs(rows)
	require.InDelta(t, 2*96.0/400, n["clear-finish"], 1e-6)
	require.InDelta(t, 12+8, n["batten"], 1e-9, "one level joint of 12 ft, two upright ones of 4 ft")
	require.Contains(t, said(find(t, rows, "clear finish for panels").Basis), "2 coats")
}

// Metric board and inch board alike: the compound row names the published range, says why it leaves it, and what
// setting-type powder would do instead.
func TestCompoundSaysWhy(t *testing.T) {
	j, b, p := room(t, 4)
	basis := said(find(t, finish.Finish(j, b, p, nil, finish.Thorough), "joint compound").Basis)
	require.Contains(t, basis, "the geometry is between them")
	require.Contains(t, basis, "setting-type powder for the same volume")
	j, b, p = room(t, 1)
	require.Contains(t, said(find(t, finish.Finish(j, b, p, nil, finish.Thorough), "joint compound").Basis), "it is less, since level 1")
	j, b, p = room(t, 5)
	c := finish.CompoundFor(j, finish.Joints(b, p)).Total() / litresPerGallon
	basis = said(find(t, finish.Finish(j, b, p, nil, finish.Thorough), "joint compound").Basis)
	if c > finish.Allowances(640).High {
		require.Contains(t, basis, "whole faces are skimmed")
	} else {
		require.Contains(t, basis, "the geometry is between them")
	}
}

// A window's returns: their bead is coated and their inside corners taped as those of the wall.
func TestReturnsAreFinished(t *testing.T) {
	j, b, p := room(t, 4)
	bare := finish.Joints(b, p)
	window(j, b, p, 4*foot)
	wrapped := finish.Joints(b, p)
	around := func(kind plan.JointKind) length.Length { return finish.Total(wrapped, kind) - finish.Total(bare, kind) }
	require.Equal(t, 2*4*foot+2*(3*foot-inch), around(plan.OutsideCorner))
	require.Equal(t, 4*4*inch, around(plan.InsideCorner))
	with, without := finish.Finish(j, b, p, nil, finish.Thorough), []plan.Item(nil)
	p.Returns = nil
	without = finish.Finish(j, b, p, nil, finish.Thorough)
	require.InDelta(t, 1.1*16.0/12, find(t, with, "joint tape").Need-find(t, without, "joint tape").Need, 1e-6)
	screws := find(t, with, "screws").Need - find(t, without, "screws").Need
	require.InDelta(t, 1.05*(2*5+2*4), screws, 0.999, "whole screws; 12 in apart and both ends: five in 4 ft, four in 35 in")
}

// A window that reaches over two zones of board has its returns once, in what is painted and in what is measured.
func TestReturnsOverTwoZones(t *testing.T) {
	j, b, p := room(t, 4)
	window(j, b, p, 4*foot)
	primer := find(t, finish.Finish(j, b, p, nil, finish.Thorough), "drywall primer").Need
	joints := finish.Measures(j, b, p)[0].Joints
	wall, planned := b.Surfaces[0], &p.Surfaces[0]
	low, high := *wall.Zones[0], *wall.Zones[0]
	box := low.Outline.Bounds()
	half := shape.Rect{X: box.X, Y: box.Y, W: box.W, H: 5 * foot} // through the window
	low.Outline = half.Polygon()
	high.Outline = shape.Rect{X: box.X, Y: half.MaxY(), W: box.W, H: box.MaxY() - half.MaxY()}.Polygon()
	low.Index, high.Index = 1, 2
	o := low.Holes[0].Opening
	part := func(from, to length.Length) []survey.Hole {
		return []survey.Hole{{Opening: o, Outline: shape.Rect{X: o.At, Y: from, W: o.Width, H: to - from}.Polygon()}}
	}
	low.Holes, high.Holes = part(o.Sill, half.MaxY()), part(half.MaxY(), o.Sill+o.Height)
	wall.Zones = []*survey.Zone{&low, &high}
	planned.Zones = append(planned.Zones, plan.Zone{Zone: 2, Layer: 1, Product: planned.Zones[0].Product})
	require.InDelta(t, primer, find(t, finish.Finish(j, b, p, nil, finish.Thorough), "drywall primer").Need, 1e-6)
	require.InDelta(t, joints, finish.Measures(j, b, p)[0].Joints, 1e-9)
}

// A run of 5.0 m under sticks of 4.8 m at 18.10, 3.0 m at 11.30 and 2.4 m at 9.05 is joined from a 3.0 and a 2.4 for 20.35:
// a whole 4.8 and a rest of 0.2 m in a 2.4 would cost 27.15 and leave a sliver. The claim of the cutting says what it is about.
func TestLongRunsAreJoinedCheaply(t *testing.T) {
	j, b, p := oneWall("gyp-12", survey.AtInsideCorner, survey.AtInsideCorner)
	j.Units = job.Metric
	for i := range j.Supplies {
		if j.Supplies[i].Kind == "trim" {
			j.Supplies[i].Packs = []job.Pack{{Name: "4.8 m", Holds: 4.8, Unit: "m", Price: 1810}, {Name: "3 m", Holds: 3, Unit: "m", Price: 1130}, {Name: "2.4 m", Holds: 2.4, Unit: "m", Price: 905}}
		}
	}
	s := b.Surfaces[0]
	s.Wall.Trim = 80 * length.Millimetre
	s.Outline = shape.Rect{W: 5 * length.Metre, H: 8 * foot}.Polygon()
	cost, long := money.Money(0), 0.0
	for _, r := range finish.Finish(j, b, p, nil, finish.Thorough) {
		if r.Group == "trim" {
			cost += r.Price.Times(r.Buy)
			long += r.Need
			require.Contains(t, said(r.Basis), "none cheaper is possible with the joins made so")
		}
	}
	require.Equal(t, money.Money(2035), cost)
	require.InDelta(t, 5, long, 1e-9)
	for _, k := range p.Sticks {
		for _, l := range k.Pieces {
			require.GreaterOrEqual(t, l, 16*inch)
		}
	}
}
