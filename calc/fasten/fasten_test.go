package fasten_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamwright/assets/words"
	"seamwright/calc/fasten"
	"seamwright/calc/internal/sample"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/calc/span"
	"seamwright/calc/survey"
)

const (
	inch = length.Inch
	foot = length.Foot
)

// one 4x8 sheet laid across studs.
func oneSheet(spacing length.Length, product string) sample.Face {
	return sample.Face{ID: "w", Kind: plan.Wall, W: 8 * foot, H: 4 * foot, Spacing: spacing, Product: product, Long: 8 * foot, Wide: 4 * foot,
		Edges: [4]survey.Edge{{Meets: survey.AtFloor}, {Meets: survey.AtFree}, {Meets: survey.AtHead}, {Meets: survey.AtFree}}}
}

// The contract's own check: ceiling 12 ft by 12 ft, joists at 16 in, three 4x12 across, screws at 12 in (arithmetic).
func TestCeilingOfThreeSheets(t *testing.T) {
	corner := survey.Edge{Meets: survey.AtInsideCorner, With: "w"}
	ceiling := sample.Face{ID: "c", Kind: plan.Ceiling, W: 12 * foot, H: 12 * foot, Spacing: 16 * inch, Product: "gyp-12", Long: 12 * foot, Wide: 4 * foot,
		Edges: [4]survey.Edge{corner, corner, corner, corner}}
	j := sample.Job()
	b, p := sample.Build(j, ceiling)
	fasten.Fasten(j, b, p)
	require.Equal(t, 130, p.Summary.Screws, "floating along the two walls that the joists run into")

	j.Figures = map[string]float64{"floating-angle": 0}
	fasten.Fasten(j, b, p)
	require.Equal(t, 150, p.Summary.Screws)

	j = sample.Job()
	b, p = sample.Build(j, ceiling)
	b.Surfaces[0].Ceiling.Duty = []job.Duty{job.Rated}
	fasten.Fasten(j, b, p)
	require.Equal(t, 150, p.Summary.Screws, "no floating angle in rated work")
}

// Members that lie along x are the same case turned.
func TestTurnedCeilingHasTheSameScrews(t *testing.T) {
	corner := survey.Edge{Meets: survey.AtInsideCorner, With: "w"}
	free := survey.Edge{Meets: survey.AtFree}
	face := sample.Face{ID: "c", Kind: plan.Ceiling, W: 12 * foot, H: 8 * foot, Spacing: 16 * inch, Product: "gyp-12", Long: 8 * foot, Wide: 4 * foot,
		Edges: [4]survey.Edge{corner, free, corner, free}}
	j := sample.Job()
	b, p := sample.Build(j, face)
	fasten.Fasten(j, b, p)
	want := p.Summary.Screws

	s := b.Surfaces[0]
	z := s.Zones[0]
	s.Members.Axis, p.Surfaces[0].Members.Axis = "y", "y"
	edges := z.Edges
	z.Edges = []survey.Edge{edges[3], edges[2], edges[1], edges[0]} // bottom and left change places, right and top too
	z.Outline = shape.Rect{W: 8 * foot, H: 12 * foot}.Polygon()
	layer := &p.Surfaces[0].Zones[0]
	for i := range layer.Panels {
		layer.Panels[i].Outline = layer.Panels[i].Outline.Transposed().Normal()
	}
	for i := range layer.Joints {
		x := &layer.Joints[i]
		x.From, x.To = shape.Point{X: x.From.Y, Y: x.From.X}, shape.Point{X: x.To.Y, Y: x.To.X}
	}
	straight := layer.Fasteners.Points
	fasten.Fasten(j, b, p)
	require.Equal(t, want, p.Summary.Screws)
	for _, q := range p.Surfaces[0].Zones[0].Fasteners.Points {
		require.Contains(t, straight, shape.Point{X: q.Y, Y: q.X})
	}
}

// Rows of IRC Table R702.3.5 (from memory), the maker's and Navy's rules (read) and the other duties, one by one.
func TestLimits(t *testing.T) {
	board := func(eighths length.Length) *job.Product {
		return &job.Product{Kind: job.Gypsum, Thickness: eighths * inch / 8}
	}
	sag := func(eighths length.Length) *job.Product {
		p := board(eighths)
		p.Sag = true
		return p
	}
	wall := func(members length.Length, glued bool) span.Use {
		return span.Use{Run: job.RunAcross, Bay: members * inch, Glued: glued}
	}
	ceiling := func(run job.Run, members length.Length, glued bool) span.Use {
		return span.Use{Ceiling: true, Run: run, Bay: members * inch, Glued: glued}
	}
	for _, c := range []struct {
		name   string
		board  *job.Product
		use    span.Use
		want   length.Length
		listed bool
	}{
		{"1/2 wall 16 (read as a general rule: walls 16)", board(4), wall(16, false), 16, true},
		{"1/2 wall 24", board(4), wall(24, false), 12, true},
		{"5/8 wall 16", board(5), wall(16, false), 16, true},
		{"5/8 wall 24", board(5), wall(24, false), 12, true},
		{"3/8 wall 16", board(3), wall(16, false), 16, true},
		{"3/8 wall 24: no row", board(3), wall(24, false), 12, false},
		{"1/2 ceiling 16 either way (read: ceilings 12)", board(4), ceiling(job.RunAlong, 16, false), 12, true},
		{"1/2 ceiling 24 across, sag-resistant", sag(4), ceiling(job.RunAcross, 24, false), 12, true},
		{"1/2 ceiling 24 across, plain: makers ask for ceiling board", board(4), ceiling(job.RunAcross, 24, false), 12, false},
		{"1/2 wall with one bay of 17 in", board(4), wall(17, false), 12, true},
		{"1/2 ceiling 24 along: no row", board(4), ceiling(job.RunAlong, 24, false), 12, false},
		{"3/8 ceiling across 16", board(3), ceiling(job.RunAcross, 16, false), 12, true},
		{"3/8 ceiling along: no row", board(3), ceiling(job.RunAlong, 16, false), 12, false},
		{"glued 1/2 wall 24", board(4), wall(24, true), 24, true},
		{"glued 3/8 wall 16", board(3), wall(16, true), 24, true},
		{"glued 1/2 ceiling 16", board(4), ceiling(job.RunAlong, 16, true), 16, true},
		{"glued 5/8 ceiling 24 across", board(5), ceiling(job.RunAcross, 24, true), 16, true},
		{"1/4 has no row", board(2), wall(16, false), 12, false},
	} {
		got := fasten.Limit(c.board, c.use)
		require.Equal(t, c.want, got.Limit/inch, c.name)
		require.Equal(t, c.listed, got.Listed, c.name)
		require.NotEmpty(t, got.Source)
	}
	braced := wall(16, false)
	braced.Duties = []job.Duty{job.Bracing}
	require.Equal(t, 7*inch, fasten.Limit(board(4), braced).Limit, "IRC R702.3.6: 7 in at all supports (read)")
	under := ceiling(job.RunAcross, 24, false)
	under.Duties = []job.Duty{job.Separation}
	fire := board(5)
	fire.FireType = true
	require.Equal(t, 6*inch, fasten.Limit(fire, under).Limit, "fire-type board under habitable rooms: 6 in (from memory)")
}

// Rules of other books against the table, board of 1/2 in and more on members at 16 in: the Navy's 12 in anywhere and 16 in
// on walls (read: NAVEDTRA 14044) are its limits; Canada's 300 mm, 400 mm on walls (read: CMHC note to OBC 9.29.5) are
// the same rounded down. The UK's 230 mm on ceilings (read: a maker's FAQ) is closer and is met by asking for it.
func TestRulesOfOtherBooks(t *testing.T) {
	for _, eighths := range []length.Length{4, 5} {
		board := &job.Product{Kind: job.Gypsum, Thickness: eighths * inch / 8}
		wall := fasten.Limit(board, span.Use{Run: job.RunAcross, Bay: 16 * inch}).Limit
		ceiling := fasten.Limit(board, span.Use{Ceiling: true, Run: job.RunAcross, Bay: 16 * inch}).Limit
		require.Equal(t, []length.Length{16 * inch, 12 * inch}, []length.Length{wall, ceiling})
		require.InDelta(t, 400, wall.MM(), 7)
		require.InDelta(t, 300, ceiling.MM(), 5)
	}
	j := sample.Job()
	j.Rules.Screws = 230 * length.Millimetre
	b, p := sample.Build(j, oneSheet(16*inch, "gyp-12"))
	fasten.Fasten(j, b, p)
	require.LessOrEqual(t, p.Surfaces[0].Zones[0].Fasteners.WidestGap, 230*length.Millimetre)
	require.Equal(t, 7*7, p.Summary.Screws, "1,200 mm less 3/8 in at both ends in six parts")
}

// The working spacing is the user's, but never above the table's.
func TestWorkingSpacing(t *testing.T) {
	for _, c := range []struct{ asked, want length.Length }{{10, 10}, {12, 12}, {16, 16}, {20, 16}} {
		j := sample.Job()
		j.Rules.Screws = c.asked * inch
		b, p := sample.Build(j, oneSheet(16*inch, "gyp-12"))
		fasten.Fasten(j, b, p)
		f := p.Surfaces[0].Zones[0].Fasteners
		require.Equal(t, c.want*inch, f.Spacing)
		require.LessOrEqual(t, f.WidestGap, f.Spacing)
		require.Contains(t, said(f.Basis), "limit")
	}
}

// Thickness + 5/8 in into wood, + 3/8 in into steel, rounded up to a stock length (screw tables of the trade, from
// memory): 1/2 board 1-1/4, two 1/2 or 5/8 + 1/2 1-5/8 to 2; steel 1 in and 1-5/8 in.
func TestScrewLengths(t *testing.T) {
	for _, c := range []struct {
		product        string
		below, backing length.Length // eighths
		steel          bool
		want           length.Length // eighths
	}{
		{"gyp-12", 0, 0, false, 10},
		{"gyp-16x", 0, 0, false, 10},
		{"gyp-12", 4, 0, false, 13},
		{"gyp-16x", 5, 0, false, 16},
		{"ply-18", 0, 0, false, 13},
		{"gyp-12", 0, 0, true, 8},
		{"gyp-16x", 5, 0, true, 13},
		{"gyp-12", 0, 4, false, 13},
	} {
		j := sample.Job()
		b, _ := sample.Build(j, oneSheet(16*inch, c.product))
		s := b.Surfaces[0]
		s.Zones[0].Depth = c.below * inch / 8
		if c.backing > 0 {
			s.Backing = &survey.Backing{Product: &job.Product{Kind: job.WoodPanel, Thickness: c.backing * inch / 8}}
		}
		if c.steel {
			s.Members.Material = string(job.Steel)
		}
		w := fasten.ScrewFor(j, s, s.Zones[0])
		require.Equal(t, c.want*inch/8, w.Length, "%+v", c)
		require.NotEmpty(t, w.Supply)
		require.GreaterOrEqual(t, w.Length-w.Through, w.Reach)
	}
}

// A screw that reaches more than 1-1/4 in into a stud is a caution (NEC 300.4, from memory).
func TestDeepScrewIsACaution(t *testing.T) {
	j := sample.Job()
	j.Supplies = nil
	j.Supplies = append(j.Supplies, job.Supply{ID: "long", Kind: "screw", Type: "W", Length: 2 * inch})
	b, p := sample.Build(j, oneSheet(16*inch, "gyp-12"))
	fasten.Fasten(j, b, p)
	rules := map[string]plan.Level{}
	for _, c := range fasten.Checks(j, b, p) {
		rules[c.Rule] = c.Level
	}
	require.Equal(t, plan.Caution, rules["screw-depth"])
	j.Supplies[0].Length = 7 * inch / 4
	fasten.Fasten(j, b, p)
	found := fasten.Checks(j, b, p)
	require.Len(t, found, 1, "1-3/4 in reaches exactly 1-1/4 in")
	require.Equal(t, "fastener-gap", found[0].Rule, "the largest gap is told, and lies within the limit")
	f := p.Surfaces[0].Zones[0].Fasteners
	require.Equal(t, f.WidestGap, f.Gaps[0].Widest)
	require.Contains(t, said(found[0].Says), f.WidestGap.Show(true))
}

// Wood panels: 6 in at supported edges, 12 in in the field (read: APA B360P p. 58; NAVEDTRA 14044). A whole 4x8 laid
// across at 16 in: two end studs with 9 screws each, five field studs with 5, and on sole and top plate what stands
// between studs at no more than 6 in: 16 in bays want two each, the end bays of 15-5/8 in too.
func TestWoodPanelEdges(t *testing.T) {
	j := sample.Job()
	b, p := sample.Build(j, oneSheet(16*inch, "ply-18"))
	fasten.Fasten(j, b, p)
	require.Equal(t, 2*9+5*5+2*6*2, p.Summary.Screws)
}

// The upper course of panels meets two sheets of the lower one: its edge is one line of screws, the same as over one.
func TestEdgeOverTwoSheets(t *testing.T) {
	j := sample.Job()
	face := oneSheet(16*inch, "ply-18")
	face.H = 8 * foot
	b, p := sample.Build(j, face)
	layer := &p.Surfaces[0].Zones[0]
	whole := layer.Joints[0]
	whole.Support = plan.OnBlocking
	left, right := whole, whole
	left.To.X, right.From.X = 40*inch, 40*inch
	layer.Joints = []plan.Joint{whole}
	fasten.Fasten(j, b, p)
	want := layer.Fasteners.Points
	layer.Joints = []plan.Joint{left, right}
	fasten.Fasten(j, b, p)
	require.Equal(t, want, layer.Fasteners.Points)
	require.Equal(t, 2*(2*9+5*5+2*6*2), p.Summary.Screws, "two sheets, all four edges of each fixed")
}

// A seam between members over solid backing has its own row on both sides.
func TestBackingSeamHasItsOwnRows(t *testing.T) {
	j := sample.Job()
	face := oneSheet(16*inch, "gyp-12")
	face.W = 9 * foot // studs at 0, 16, ... 96, 108; sheets of 7 ft meet at 84, between studs
	face.Long = 7 * foot
	b, p := sample.Build(j, face)
	layer := &p.Surfaces[0].Zones[0]
	count := func() map[length.Length]int {
		fasten.Fasten(j, b, p)
		rows := map[length.Length]int{}
		for _, q := range layer.Fasteners.Points {
			rows[q.X]++
		}
		return rows
	}
	layer.Joints[0].Support = plan.Unsupported
	require.NotContains(t, count(), 7*foot-3*inch/8)
	layer.Joints[0].Support = plan.OnBacking
	rows := count()
	require.Equal(t, 5, rows[7*foot-3*inch/8])
	require.Equal(t, 5, rows[7*foot+3*inch/8])
}

// Short screws in keep-outs.
func TestKeepOut(t *testing.T) {
	j := sample.Job()
	b, p := sample.Build(j, oneSheet(16*inch, "gyp-12"))
	b.Surfaces[0].Zones[0].KeepOuts = []shape.Rect{{X: 30 * inch, W: 20 * inch, H: 4 * foot}} // studs at 32 and 48
	fasten.Fasten(j, b, p)
	f := p.Surfaces[0].Zones[0].Fasteners
	require.Equal(t, 10, f.Short)
	require.Equal(t, inch, f.ShortLength, "1/2 in board and at most 1/2 in behind it")
	require.Less(t, f.ShortLength, f.Length)
}

// Screws stand on the sheet and on a member, 3/8 in from edges, never in an opening, and no gap exceeds the spacing;
// every member under a sheet is fixed. The sheets are notched by a window at random.
func TestEveryScrewHoldsSomething(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := sample.Job()
		j.Rules.Screws = length.Length(rapid.IntRange(5, 20).Draw(t, "screws")) * inch
		face := oneSheet(length.Length(rapid.SampledFrom([]int{12, 16, 24}).Draw(t, "studs"))*inch, rapid.SampledFrom([]string{"gyp-12", "ply-18"}).Draw(t, "product"))
		face.W = length.Length(rapid.IntRange(30, 300).Draw(t, "w")) * inch
		face.H = length.Length(rapid.IntRange(20, 130).Draw(t, "h")) * inch
		b, p := sample.Build(j, face)
		hole := shape.Rect{X: length.Length(rapid.IntRange(2, 200).Draw(t, "x")) * inch, Y: length.Length(rapid.IntRange(2, 80).Draw(t, "y")) * inch, W: 20 * inch, H: 20 * inch}
		layer := &p.Surfaces[0].Zones[0]
		var whole []plan.Panel
		for _, panel := range layer.Panels {
			if left := panel.Outline.Subtract(hole); len(left) == 1 {
				panel.Outline, panel.Holes = left[0].Outline, left[0].Holes
				whole = append(whole, panel)
			}
		}
		layer.Panels = whole
		fasten.Fasten(j, b, p)
		f := layer.Fasteners
		require.Equal(t, len(f.Points), f.Count)
		require.LessOrEqual(t, f.WidestGap, f.Spacing)
		seen := map[shape.Point]bool{}
		for _, q := range f.Points {
			require.False(t, seen[q], "two screws in one place")
			seen[q] = true
			require.False(t, hole.X-3*inch/8 < q.X && q.X < hole.MaxX()+3*inch/8 && hole.Y-3*inch/8 < q.Y && q.Y < hole.MaxY()+3*inch/8 &&
				(q.X >= hole.X && q.X <= hole.MaxX() || q.Y >= hole.Y && q.Y <= hole.MaxY()), "screw %v nearer than 3/8 in to the opening", q)
			var on *plan.Panel
			for i := range whole {
				if whole[i].Outline.Contains(q) == shape.Inside {
					on = &whole[i]
				}
			}
			require.NotNil(t, on, "screw on no sheet")
			r := on.Outline.Bounds()
			require.True(t, q.X-r.X >= 3*inch/8 && r.MaxX()-q.X >= 3*inch/8 && q.Y-r.Y >= 3*inch/8 && r.MaxY()-q.Y >= 3*inch/8)
			if face.Product == "gyp-12" {
				held := false
				for _, m := range b.Surfaces[0].Studs {
					held = held || (q.X-m.At).Abs() <= m.Width/2
				}
				require.True(t, held, "screw beside the studs")
			}
		}
	})
}

// said is a fact in English, in feet and inches.
func said(f plan.Fact) string { return words.In(words.English, words.Units{Imperial: true}).Fact(f) }
