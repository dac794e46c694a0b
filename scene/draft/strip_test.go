package draft_test

import (
	"testing"

	"seamwright/calc/job"
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
