package draft_test

import (
	"testing"

	"seamwright/calc/job"
	"seamwright/calc/shape"
	"seamwright/scene/draft"
)

// A room being drawn shows its live lengths, or what has been typed; an outline that crosses itself says so.
func TestRubberSaysItsLengths(t *testing.T) {
	j := &job.Job{Units: job.Imperial}
	v := draft.View{Scale: 40, X: 80, Y: 420}
	s := draft.PlanState{Rubber: &draft.Rubber{Set: []shape.Point{{}, {X: 20 * ft}, {X: 20 * ft, Y: 12 * ft}}, To: shape.Point{X: 6 * ft, Y: 12 * ft}}}
	show := func(name string, want ...string) {
		r := &record{w: 460, h: 460}
		draft.DrawPlan(r, draft.Paper(), nil, j, v, s)
		r.judge(t)
		for _, w := range want {
			r.has(t, w)
		}
		look(t, name, drawn(460, 460, 1, func(c draft.Canvas) { draft.DrawPlan(c, draft.Paper(), nil, j, v, s) }))
	}
	show("rubber", `20' 0"`, `12' 0"`, `14' 0"`)
	s.Rubber.Typed = `13' 6`
	show("rubber-typed", `13' 6`)
	s.Rubber.Typed, s.Rubber.To, s.Rubber.Closing = "", shape.Point{}, true
	show("rubber-closing", "120 ft², click to close") // a triangle of 20 ft by 12 ft
	s.Rubber.Closing, s.Rubber.Wrong = false, true
	show("rubber-wrong", "sides would cross")
}

// Hovering, a finish in the hand, a selected opening and corner: drawn over the plan without adding words.
func TestHandsOnTheDrawings(t *testing.T) {
	j := studio()
	p := answer(j)
	s := draft.PlanState{Hand: []string{"gyp-12m"}, Hover: draft.Target{Kind: draft.OnSurface, Room: "studio", Surface: "studio/west"},
		Selected: []draft.Target{{Kind: draft.OnOpening, Room: "studio", Surface: "studio/south", Opening: "yard", Drag: job.AxisX}, {Kind: draft.OnCorner, Room: "studio", Corner: 2}}}
	look(t, "plan-hand", drawn(560, 520, 1, func(c draft.Canvas) {
		draft.DrawPlan(c, draft.Paper(), p, j, draft.FitPlan(j, draft.Rect{W: 560, H: 520}), s)
	}))
	v := draft.FitStrip(p, j, "", draft.Rect{W: 1500, H: 300})
	q := draft.StripState{Hand: s.Hand, Hover: s.Hover, Selected: []draft.Target{{Kind: draft.OnPanel, Surface: "studio/south", Zone: 1, Layer: 1, Panel: "S-09"}, {Kind: draft.OnSeam, Surface: "studio/north", Zone: 1, Layer: 1, Index: 3}}}
	r := &record{w: 1500, h: 300}
	draft.DrawStrip(r, draft.Paper(), p, j, v, q)
	r.judge(t)
	look(t, "strip-hand", drawn(1500, 300, 1, func(c draft.Canvas) { draft.DrawStrip(c, draft.Paper(), p, j, v, q) }))
	empty := &record{w: 600, h: 300}
	draft.DrawStrip(empty, draft.Paper(), nil, &job.Job{}, v, draft.StripState{})
	empty.judge(t)
	empty.has(t, "Draw a room: its walls will stand here side by side.")
	draft.DrawSequence(empty, draft.Paper(), nil, nil, draft.Pt{}, draft.SequenceState{})
	draft.DrawPlan(empty, draft.Paper(), nil, &job.Job{}, draft.FitPlan(&job.Job{}, draft.Rect{W: 600, H: 300}), draft.PlanState{})
}
