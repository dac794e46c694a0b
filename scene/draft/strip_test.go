package draft_test

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc/job"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/scene/draft"
)

func TestStripPictures(t *testing.T) {
	j := studio()
	p := answer(j)
	j.Rooms[0].Walls[2].Pins = []job.Pin{{Zone: 1, Layer: 1, Course: 1, Seam: 16 * ft}}
	for _, th := range []*draft.Theme{draft.Paper(), draft.Dark(), draft.HighContrast()} {
		south := draft.Target{Kind: draft.OnSurface, Room: "studio", Surface: "studio/south"}
		s := draft.StripState{Room: "studio", Selected: []draft.Target{south}, Drag: &draft.SeamDrag{
			Seam: draft.Target{Kind: draft.OnSeam, Surface: "studio/south", Zone: 1, Layer: 1, Index: 0, Drag: job.AxisX},
			At:   shape.Point{X: 9*ft + 4*in, Y: 2 * ft},
			From: shape.Point{X: 8 * ft}, To: shape.Point{X: 8 * ft, Y: 4 * ft},
			Barred: []shape.Point{{X: 10*ft + 8*in}},
			Ticks:  []shape.Point{{X: 4 * ft}, {X: 5*ft + 4*in}, {X: 6*ft + 8*in}, {X: 8 * ft}, {X: 9*ft + 4*in}},
			Lines:  []string{`Seam 9' 4" on stud 8`, `next lawful: 8' 0"`}}}
		for _, scale := range []float64{1, 2} {
			img := drawn(1000, 340, scale, func(c draft.Canvas) {
				draft.DrawStrip(c, th, p, j, draft.FitStrip(p, j, "studio", draft.Rect{W: 1000, H: 340}), s)
			})
			look(t, "strip-"+th.Name+map[float64]string{1: "-1x", 2: "-2x"}[scale], img)
		}
	}
	img := drawn(900, 500, 1, func(c draft.Canvas) {
		v := draft.FitSurface(p, j, "studio", "studio/north", draft.Rect{W: 900, H: 500})
		draft.DrawStrip(c, draft.Paper(), p, j, v, draft.StripState{Room: "studio", Screws: true, Members: true})
	})
	look(t, "strip-north", img)
}

// A strip with height to spare stands in rows: larger walls, every surface whole within the rectangle, none over
// another, and found where it is drawn.
func TestStripUsesItsHeight(t *testing.T) {
	j := studio()
	p := answer(j)
	low := draft.FitStrip(p, j, "studio", draft.Rect{W: 1000, H: 260})
	require.LessOrEqual(t, low.Rows, 1)
	for _, into := range []draft.Rect{{W: 1000, H: 620}, {X: 40, Y: 60, W: 700, H: 900}} {
		v := draft.FitStrip(p, j, "studio", into)
		require.Greater(t, v.Rows, 1)
		if into.W == 1000 {
			require.Greater(t, v.Scale, 1.15*low.Scale)
		}
		var boxes []draft.Rect
		for i := range p.Surfaces {
			s := &p.Surfaces[i]
			if s.Room != "studio" {
				continue
			}
			sv, ok := draft.SurfaceView(p, j, "studio", s.ID, v)
			require.True(t, ok)
			b := s.Outline.Bounds()
			a, z := sv.Place(shape.Point{X: b.X, Y: b.MaxY()}), sv.Place(shape.Point{X: b.MaxX(), Y: b.Y})
			box := draft.Rect{X: a.X, Y: a.Y, W: z.X - a.X, H: z.Y - a.Y}
			require.GreaterOrEqual(t, box.X, into.X)
			require.GreaterOrEqual(t, box.Y, into.Y)
			require.LessOrEqual(t, box.X+box.W, into.X+into.W)
			require.LessOrEqual(t, box.Y+box.H+40, into.Y+into.H, "captions stand below")
			for _, other := range boxes {
				require.False(t, other.Meets(draft.Rect{X: box.X, Y: box.Y, W: box.W, H: box.H + 40}), s.ID)
			}
			boxes = append(boxes, box)
			mid := sv.Place(shape.Point{X: b.X + b.W/2, Y: b.Y + b.H/2})
			require.Equal(t, s.ID, draft.StripHit(p, j, v, draft.StripState{Room: "studio"}, mid).Surface)
		}
		require.Greater(t, len(boxes), 3)
		img := drawn(int(into.X+into.W), int(into.Y+into.H), 1, func(c draft.Canvas) {
			draft.DrawStrip(c, draft.Paper(), p, j, v, draft.StripState{Room: "studio"})
		})
		look(t, "strip-rows-"+strconv.Itoa(v.Rows), img)
	}
}

// Where the floor was measured, figures of shims and floor stand on the sheets: no sheet's name stands over one, however
// near the wall is seen.
func TestNamesKeepClearOfShims(t *testing.T) {
	j := studio()
	p := answer(j)
	var low []plan.SheetLevel // of the sheets that stand on the floor
	for i := range p.Surfaces {
		if s := &p.Surfaces[i]; s.ID == "studio/north" {
			for _, q := range s.Zones[0].Panels {
				if q.Outline.Bounds().Y == 0 {
					low = append(low, plan.SheetLevel{Panel: q.ID, Shim: in / 4})
				}
			}
		}
	}
	require.NotEmpty(t, low)
	p.Levels = []plan.LevelLine{{Surface: "studio/north", Zone: 1, Line: 3 * in / 8, Sheets: low, Covered: true}}
	for wide := 490.0; wide < 700; wide += 2 {
		r := &record{w: wide, h: 600}
		v := draft.FitSurface(p, j, "studio", "studio/north", draft.Rect{W: r.w, H: r.h})
		draft.DrawStrip(r, draft.Paper(), p, j, v, draft.StripState{Room: "studio"})
		r.apart(t)
		r.has(t, `shim 1/4"`)
	}
}
