package draft_test

import (
	"testing"

	"seamwright/scene/draft"
)

func TestPlanPictures(t *testing.T) {
	j := studio()
	p := answer(j)
	for _, th := range []*draft.Theme{draft.Paper(), draft.Dark(), draft.HighContrast()} {
		s := draft.PlanState{Selected: []draft.Target{{Kind: draft.OnSurface, Room: "studio", Surface: "studio/south"}}}
		for _, scale := range []float64{1, 2} {
			img := drawn(560, 520, scale, func(c draft.Canvas) {
				draft.DrawPlan(c, th, p, j, draft.FitPlan(j, draft.Rect{W: 560, H: 520}), s)
			})
			look(t, "plan-"+th.Name+map[float64]string{1: "-1x", 2: "-2x"}[scale], img)
		}
	}
}
