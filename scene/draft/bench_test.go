package draft_test

import (
	"fmt"
	"image"
	"testing"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/scene/draft"
)

// village is n rooms of four walls and a ceiling in a row, with 8 ft sheets on all of them.
func village(n int) (*job.Job, *plan.Plan) {
	j := studio()
	one := j.Rooms[1]
	j.Rooms = nil
	p := &plan.Plan{}
	ids := []string{"gyp-12", "gyp-16x", "ply-18", "gyp-12m"}
	for i := 0; i < n; i++ {
		r := one
		r.ID = fmt.Sprintf("room-%d", i+1)
		r.Corners = nil
		for _, q := range []shape.Point{{}, {X: 16 * ft}, {X: 16 * ft, Y: 12 * ft}, {Y: 12 * ft}} {
			r.Corners = append(r.Corners, shape.Point{X: q.X + 17*ft*length.Length(i%12), Y: q.Y + 13*ft*length.Length(i/12)})
		}
		j.Rooms = append(j.Rooms, r)
		for k, w := range r.Walls {
			p.Surfaces = append(p.Surfaces, lined(r.ID+"/"+w.ID, plan.Wall, 16*ft, 10*ft, j.Product(ids[(i+k)%4]), 1, shape.Rect{X: 6 * ft, Y: 40 * in, W: 3 * ft, H: 3 * ft}))
		}
		p.Surfaces = append(p.Surfaces, lined(r.ID+"/ceiling", plan.Ceiling, 16*ft, 12*ft, j.Product("gyp-16x"), 1))
	}
	return j, p
}

func bench(b *testing.B, w, h int, draw func(c draft.Canvas)) {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	draw(draft.NewRaster(img, 1)) // letters, dots and tiles are cached from here on
	b.ReportAllocs()
	b.ResetTimer()
	for range b.N {
		draw(draft.NewRaster(img, 1))
	}
}

// A frame is to stay within a few milliseconds: the strip of one room, of 120 rooms with 600 surfaces scrolled to a
// readable scale, and of all of them at once.
func BenchmarkStripRoom(b *testing.B) {
	j := studio()
	p := answer(j)
	v := draft.FitStrip(p, j, "studio", draft.Rect{W: 1600, H: 400})
	bench(b, 1600, 400, func(c draft.Canvas) {
		draft.DrawStrip(c, draft.Paper(), p, j, v, draft.StripState{Room: "studio"})
	})
}

func BenchmarkStripRoomScrews(b *testing.B) {
	j := studio()
	p := answer(j)
	v := draft.FitStrip(p, j, "studio", draft.Rect{W: 1600, H: 400})
	bench(b, 1600, 400, func(c draft.Canvas) {
		draft.DrawStrip(c, draft.Paper(), p, j, v, draft.StripState{Room: "studio", Screws: true, Members: true})
	})
}

func BenchmarkStrip600(b *testing.B) {
	j, p := village(120)
	for name, v := range map[string]draft.View{
		"readable": {Scale: 40, X: -20000, Y: 300},
		"small":    {Scale: 6, X: -2000, Y: 300},
		"all":      draft.FitStrip(p, j, "", draft.Rect{W: 1600, H: 400}),
	} {
		b.Run(name, func(b *testing.B) {
			bench(b, 1600, 400, func(c draft.Canvas) { draft.DrawStrip(c, draft.Paper(), p, j, v, draft.StripState{}) })
		})
	}
}

func BenchmarkPlan600(b *testing.B) {
	j, p := village(120)
	v := draft.FitPlan(j, draft.Rect{W: 1000, H: 900})
	bench(b, 1000, 900, func(c draft.Canvas) { draft.DrawPlan(c, draft.Paper(), p, j, v, draft.PlanState{}) })
}

func BenchmarkPlanRoom(b *testing.B) {
	j := studio()
	p := answer(j)
	v := draft.FitPlan(j, draft.Rect{W: 1000, H: 900})
	bench(b, 1000, 900, func(c draft.Canvas) { draft.DrawPlan(c, draft.Paper(), p, j, v, draft.PlanState{}) })
}

func BenchmarkStripHit600(b *testing.B) {
	j, p := village(120)
	v := draft.View{Scale: 40, X: -20000, Y: 300}
	for range b.N {
		draft.StripHit(p, j, v, draft.StripState{}, draft.Pt{X: 800, Y: 250})
	}
}
