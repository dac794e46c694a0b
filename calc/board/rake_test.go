package board_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamwright/calc/board"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/money"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/calc/survey"
)

// rakedWall is a wall whose head slopes from one height to another.
func rakedWall(id string, w, left, right length.Length, run job.Run, p *job.Product) *survey.Surface {
	s := wall(id, w, max(left, right), 16*in, 16*in, p)
	z := s.Zones[0]
	s.Outline = shape.Polygon{{}, {X: w}, {X: w, Y: right}, {Y: left}}
	z.Outline, z.Run, z.FloorGap = s.Outline, run, 0
	return s
}

// lying is a panel's outline as it lies on its sheet, its bounds at the origin.
func lying(p plan.Panel, turned, halfRound bool) shape.Polygon {
	o := p.Outline.Bounds()
	w, h := o.W, o.H
	if turned {
		w, h = h, w
	}
	var lie shape.Polygon
	for _, q := range p.Outline {
		at := shape.Point{X: q.X - o.X, Y: q.Y - o.Y}
		if turned {
			at = shape.Point{X: q.Y - o.Y, Y: o.MaxX() - q.X}
		}
		if halfRound {
			at = shape.Point{X: w - at.X, Y: h - at.Y}
		}
		lie = append(lie, at)
	}
	return lie
}

// mustShare checks two raked pieces in one rectangle: each lies in it as it may be turned in its plane, never mirrored, on
// its own side of the slanted cut, and a blade's width apart.
func mustShare(t require.TestingT, s *plan.Sheet, q *plan.Part, near, far plan.Panel) {
	const slack = 0.2e6 // nanometres: what slants are rounded by, and sizes marked up
	k := q.Pair
	dx, dy := float64(k.To.X-k.From.X), float64(k.To.Y-k.From.Y)
	long := math.Hypot(dx, dy)
	beyond := func(p shape.Point) float64 { // distance from the cut, on the far side
		d := (dx*float64(p.Y-k.From.Y) - dy*float64(p.X-k.From.X)) / long
		if k.Steep(q.Rect) {
			return -d
		}
		return d
	}
	place := func(lie shape.Polygon, far bool) (all []shape.Point) {
		b := lie.Bounds()
		at := shape.Point{X: q.Rect.X, Y: q.Rect.Y}
		if far {
			at = shape.Point{X: q.Rect.MaxX() - b.W, Y: q.Rect.MaxY() - b.H}
		}
		for _, p := range lie {
			all = append(all, shape.Point{X: p.X + at.X, Y: p.Y + at.Y})
		}
		return all
	}
	most, least := -1e18, 1e18
	for _, p := range place(lying(near, q.Turned, k.HalfRound[0]), false) {
		most = max(most, beyond(p))
		require.True(t, p.X <= q.Rect.MaxX() && p.Y <= q.Rect.MaxY(), "%s leaves its rectangle", near.ID)
	}
	for _, p := range place(lying(far, k.Turned, k.HalfRound[1]), true) {
		least = min(least, beyond(p))
		require.True(t, p.X >= q.Rect.X && p.Y >= q.Rect.Y, "%s leaves its rectangle", far.ID)
	}
	require.InDelta(t, 0, most, slack, "%s does not end at the slanted cut", near.ID)
	require.GreaterOrEqual(t, least, float64(s.Kerf)-slack, "the blade cuts into %s", far.ID)
	require.Equal(t, s.ID, far.Sheet)
}

// pairsOf counts the rectangles that two pieces share.
func pairsOf(a *board.Answer) (n int) {
	for i := range a.Sheets {
		n += len(a.Sheets[i].Slants())
	}
	return n
}

// Two walls of 8 ft whose heads rise from 4 ft to 8 ft, boarded upright from boards of 10 ft. Worked by hand: each takes a
// piece from 48 to 72 in high and one from 72 to 96, both 48 wide. Cut apart, no two share a board. The low ones of both
// walls together fill one of 120: 48 + 72 at either end; the high ones would take 168.
func TestTwoRakedPiecesFromOneBoard(t *testing.T) {
	j := newJob(job.AimSheets, board48("gyp", true, 48, map[int64]money.Money{120: 1960}))
	j.Rules.Fit, j.Rules.LeastPiece, j.Rules.LeastCourse = 0, 60*in, 48*in // each strip is of one piece, and as wide as a board
	walls := func() []*survey.Surface {
		var all []*survey.Surface
		for _, id := range []string{"room/south", "room/north"} {
			all = append(all, rakedWall(id, 96*in, 48*in, 96*in, job.RunAlong, &j.Products[0]))
		}
		return all
	}
	a := solve(t, j, walls()...)
	mustBeCut(t, j, a)
	require.Equal(t, 4, bought(a))
	require.Zero(t, pairsOf(a))
	j.Rules.Rakes = job.RakesPaired
	a = solve(t, j, walls()...)
	mustBeCut(t, j, a)
	require.Equal(t, 3, bought(a))
	require.Equal(t, 1, pairsOf(a))
	require.LessOrEqual(t, a.Bound, 3)
	for _, s := range a.Sheets {
		for _, k := range s.Slants() {
			require.Equal(t, [2]length.Length{48 * in, 72 * in}, [2]length.Length{min(k.Measures[0], k.Measures[1]), max(k.Measures[0], k.Measures[1])})
		}
	}
	for _, z := range a.Zones {
		for _, p := range z.Panels {
			require.Equal(t, plan.EdgeCut, p.Edges[2], "the raked head of %s is cut", p.ID)
			inner := 1 // the joint between the two lies at the right of the left one
			if p.Outline.Bounds().X > 0 {
				inner = 3
			}
			require.Equal(t, plan.EdgeTapered, p.Edges[inner], "%s: %v", p.ID, p.Edges)
		}
	}
	// One wall rises to the left, the other to the right: one would have to be flipped.
	mirrored := walls()
	mirrored[1] = rakedWall("room/north", 96*in, 96*in, 48*in, job.RunAlong, &j.Products[0])
	a = solve(t, j, mirrored...)
	require.Equal(t, 4, bought(a))
	require.Zero(t, pairsOf(a))
}

// Random raked walls: pairs never take more sheets than pieces apart, lie as they may, and the bound keeps below them.
func TestRandomRakedPairs(t *testing.T) {
	draws(t, 60)
	pairs := 0
	rapid.Check(t, func(t *rapid.T) {
		p := board48("gyp", rapid.Bool().Draw(t, "tapered"), 48, map[int64]money.Money{96: 1550, 120: 1960, 144: 2380})
		if rapid.Bool().Draw(t, "wood") {
			p = job.Product{ID: "gyp", Kind: job.WoodPanel, Thickness: 18 * length.Millimetre, Kerf: in / 8, Gap: in / 32, Sizes: []job.Size{{Length: 96 * in, Width: 48 * in, Price: 4500}}}
		}
		j := newJob(rapid.SampledFrom([]job.Aim{job.AimCost, job.AimSheets}).Draw(t, "aim"), p)
		j.Rules.LeastPiece = rapid.SampledFrom([]length.Length{16 * in, 48 * in}).Draw(t, "least")
		slope := rapid.SampledFrom([]length.Length{-8, -5, 4, 6, 9, 12}).Draw(t, "slope") // in in a foot
		var walls []func() *survey.Surface
		for n := rapid.IntRange(2, 4).Draw(t, "walls"); n > 0; n-- {
			w := length.Inches(rapid.SampledFrom([]int64{48, 48, 64, 72, 96, 96, 100}).Draw(t, "w"))
			low := length.Inches(rapid.Int64Range(0, 60).Draw(t, "low"))
			run := rapid.SampledFrom([]job.Run{job.RunAlong, job.RunAcross, job.RunAuto}).Draw(t, "run")
			left, right := low, low+w*slope/12
			if slope < 0 {
				left, right = low-w*slope/12, low
			}
			id := "room/" + string(rune('a'+n))
			walls = append(walls, func() *survey.Surface { return rakedWall(id, w, left, right, run, &j.Products[0]) })
		}
		draw := func() (all []*survey.Surface) {
			for _, f := range walls {
				all = append(all, f())
			}
			return all
		}
		apart := solve(t, j, draw()...)
		j.Rules.Rakes = job.RakesPaired
		a := solve(t, j, draw()...)
		mustBeCut(t, j, a)
		if j.Aim == job.AimSheets {
			require.LessOrEqual(t, bought(a), bought(apart))
		}
		require.LessOrEqual(t, a.Bound, bought(a))
		pairs += pairsOf(a)
	})
	t.Logf("%d pairs", pairs)
	require.Positive(t, pairs)
}
