package board_test

import (
	"context"
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamwright/calc/board"
	"seamwright/calc/check"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/money"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/calc/survey"
)

// house is one room of w by d by h inches with every side lined alike.
func house(j *job.Job, w, d, h int64, spacing length.Length, lining job.Zone, ceiling bool) {
	r := job.Room{ID: "studio", Height: length.Inches(h)}
	for _, c := range [][2]int64{{0, 0}, {w, 0}, {w, d}, {0, d}} {
		r.Corners = append(r.Corners, shape.Point{X: length.Inches(c[0]), Y: length.Inches(c[1])})
	}
	f := job.Framing{Material: job.Wood, Spacing: spacing, Member: 3 * in / 2, Depth: 7 * in / 2, Along: job.AxisY}
	for i, id := range []string{"south", "east", "north", "west"} {
		r.Walls = append(r.Walls, job.Wall{ID: id, Side: i + 1, Framing: f, Trim: 7 * in / 2, Lining: []job.Zone{lining}})
	}
	if ceiling {
		up := lining
		up.Courses, up.Start = nil, ""
		r.Ceiling = &job.Ceiling{Shape: job.Flat, Framing: f, Lining: []job.Zone{up}}
	}
	j.Rooms = append(j.Rooms, r)
}

// planned surveys and boards a job in full and puts the plan together as far as the layout goes.
func planned(t require.TestingT, j *job.Job) (*survey.Building, *board.Answer, *plan.Plan) {
	return answered(t, j, board.Full)
}

func answered(t require.TestingT, j *job.Job, effort board.Effort) (*survey.Building, *board.Answer, *plan.Plan) {
	b, err := survey.Survey(j)
	require.NoError(t, err)
	a, err := board.Solve(context.Background(), j, b, nil, effort)
	require.NoError(t, err)
	p := &plan.Plan{Sheets: a.Sheets}
	n := 0
	for _, s := range b.Surfaces {
		sf := s.Surface
		for range s.Zones {
			sf.Zones = append(sf.Zones, a.Zones[n])
			n++
		}
		p.Surfaces = append(p.Surfaces, sf)
	}
	return b, a, p
}

// layoutRules are the rules that the layout itself answers for.
var layoutRules = map[string]bool{"bearing": true, "edge-blocking": true, "stagger": true, "four-corners": true, "opening": true, "backing-seam": true,
	"layers": true, "opposite-faces": true, "floor-gap": true, "least-piece": true, "least-course": true, "control-joint": true, "edges": true}

// mustBeLawful checks a plan with the rule book, which shares no code with the search: a broken rule must have been
// reported by the search itself for the same surface.
func mustBeLawful(t require.TestingT, j *job.Job, b *survey.Building, a *board.Answer, p *plan.Plan) {
	reported := map[string]bool{}
	for _, c := range a.Checks {
		reported[c.Where] = true
	}
	check.Check(j, b, p)
	for _, c := range p.Checks {
		if c.Level == plan.Error && layoutRules[c.Rule] && !reported[c.Where] {
			require.Fail(t, "a broken rule that was not reported", "%s: %s at %v: %s", c.Rule, c.Where, c.At, said(c.Says))
		}
	}
}

// mustCover checks that panels lie in their zone, do not overlap, and leave open no more than gaps may.
func mustCover(t require.TestingT, j *job.Job, b *survey.Building, a *board.Answer) {
	n := 0
	for _, s := range b.Surfaces {
		for _, z := range s.Zones {
			pz := a.Zones[n]
			n++
			var sum length.Area
			var perimeter length.Length
			for i, p := range pz.Panels {
				for _, q := range pz.Panels[:i] {
					x, y := p.Outline.Bounds(), q.Outline.Bounds()
					if x.X < y.MaxX() && y.X < x.MaxX() && x.Y < y.MaxY() && y.Y < x.MaxY() && len(p.Outline) == 4 && len(q.Outline) == 4 && z.Holes == nil {
						require.Fail(t, "panels overlap", "%s %s", p.ID, q.ID)
					}
				}
				sum += shape.Region{Outline: p.Outline, Holes: p.Holes}.Area()
				bx := p.Outline.Bounds()
				perimeter += bx.W + bx.H
			}
			var want length.Area
			for _, g := range z.Outline.Subtract(holes(z)...) {
				want += g.Area()
			}
			slack := (in / 4).Times(2 * perimeter)
			if s.Wall != nil {
				slack += (4 * in).Times(z.Outline.Bounds().W)
			}
			require.LessOrEqual(t, sum, want+length.Area(len(pz.Panels)))
			require.GreaterOrEqual(t, sum+slack, want, "%s zone %d layer %d", s.ID, z.Index, z.Layer)
		}
	}
}

func holes(z *survey.Zone) (rs []shape.Rect) {
	for _, h := range z.Holes {
		rs = append(rs, h.Outline.Bounds())
	}
	return rs
}

// mustBeCut checks that every panel is a part of its sheet, parts lie apart in their sheet, and stock is not overdrawn.
func mustBeCut(t require.TestingT, j *job.Job, a *board.Answer) {
	panels := map[string]plan.Panel{}
	for _, z := range a.Zones {
		for _, p := range z.Panels {
			_, twice := panels[p.ID]
			require.False(t, twice, "panel id %s stands twice", p.ID)
			panels[p.ID] = p
		}
	}
	for _, s := range a.Sheets {
		for i, p := range s.Parts {
			require.GreaterOrEqual(t, p.Rect.X, length.Length(0))
			require.GreaterOrEqual(t, p.Rect.Y, length.Length(0))
			require.LessOrEqual(t, p.Rect.MaxX(), s.Size[0])
			require.LessOrEqual(t, p.Rect.MaxY(), s.Size[1])
			for _, q := range s.Parts[:i] {
				apart := p.Rect.MaxX()+s.Kerf <= q.Rect.X || q.Rect.MaxX()+s.Kerf <= p.Rect.X || p.Rect.MaxY()+s.Kerf <= q.Rect.Y || q.Rect.MaxY()+s.Kerf <= p.Rect.Y
				require.True(t, apart, "parts overlap on %s", s.ID)
			}
			panel, ok := panels[p.Panel]
			require.True(t, ok, "part for no panel: %q", p.Panel)
			require.Equal(t, s.ID, panel.Sheet)
			if p.Pair != nil {
				far, ok := panels[p.Pair.Panel]
				require.True(t, ok, "half for no panel: %q", p.Pair.Panel)
				mustShare(t, &s, &p, panel, far)
				delete(panels, p.Panel)
				delete(panels, far.ID)
				continue
			}
			b := panel.Outline.Bounds()
			w, h := p.Rect.W, p.Rect.H
			if b.W > w || b.H > h || w-b.W > in/2 || h-b.H > in/2 {
				w, h = h, w
			}
			require.LessOrEqual(t, b.W, w, "%s is wider than its part", p.Panel)
			require.LessOrEqual(t, b.H, h, "%s is higher than its part", p.Panel)
			delete(panels, p.Panel)
		}
	}
	require.Empty(t, panels, "panels cut from no sheet")
}

func TestRandomRoomsAreLawful(t *testing.T) {
	draws(t, 30)
	rapid.Check(t, func(t *rapid.T) {
		prices := map[int64]money.Money{96: 1550}
		if rapid.Bool().Draw(t, "long") {
			prices[120], prices[144] = 1960, 2380
		}
		wood := job.Product{ID: "ply", Kind: job.WoodPanel, Thickness: 18 * length.Millimetre, Kerf: in / 8, Gap: in / 32,
			Sizes: []job.Size{{Length: 96 * in, Width: 48 * in, Price: 4500}}}
		j := newJob(rapid.SampledFrom([]job.Aim{job.AimCost, job.AimSheets, job.AimJoints}).Draw(t, "aim"), board48("gyp", true, 48, prices), wood)
		lining := job.Zone{Layers: []string{rapid.SampledFrom([]string{"gyp", "gyp", "ply"}).Draw(t, "product")}, Pattern: job.Staggered, Finish: 4,
			Runs: []job.Run{rapid.SampledFrom([]job.Run{job.RunAuto, job.RunAcross, job.RunAlong}).Draw(t, "run")}}
		if rapid.IntRange(0, 3).Draw(t, "layers") == 0 {
			lining.Layers = append(lining.Layers, "gyp")
		}
		spacing := rapid.SampledFrom([]length.Length{16 * in, 24 * in}).Draw(t, "spacing")
		house(j, rapid.Int64Range(60, 380).Draw(t, "w"), rapid.Int64Range(60, 240).Draw(t, "d"), rapid.Int64Range(84, 132).Draw(t, "h"), spacing, lining, rapid.Bool().Draw(t, "ceiling"))
		r := &j.Rooms[0]
		width := r.Corners[1].X
		if rapid.Bool().Draw(t, "door") && width > 70*in {
			r.Walls[0].Openings = append(r.Walls[0].Openings, job.Opening{ID: "d", Kind: job.Door, Width: 38 * in, Height: 82*in + in/2,
				At: length.Inches(rapid.Int64Range(6, int64(width/in)-50).Draw(t, "at"))})
		}
		if rapid.Bool().Draw(t, "window") && width > 70*in {
			r.Walls[2].Openings = append(r.Walls[2].Openings, job.Opening{ID: "w", Kind: job.Window, Width: 48 * in, Height: 36 * in, Sill: 42 * in,
				At: length.Inches(rapid.Int64Range(6, int64(width/in)-60).Draw(t, "at2"))})
		}
		b, a, p := planned(t, j)
		mustCover(t, j, b, a)
		mustBeCut(t, j, a)
		mustBeLawful(t, j, b, a, p)
		require.LessOrEqual(t, a.Bound, bought(a))
	})
}

func describe(a *board.Answer) string {
	return fmt.Sprintf("%d sheets, at least %d; butt %.1f ft, tapered %.1f ft, mixed %.1f ft", bought(a), a.Bound, a.Butt.Feet(), a.Tapered.Feet(), a.Mixed.Feet())
}
