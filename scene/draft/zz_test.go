package draft_test

import (
	"context"
	"os"
	"testing"

	"seamwright/calc"
	"seamwright/planner"
	"seamwright/scene/draft"
)

func TestZZ(t *testing.T) {
	src, _ := os.ReadFile("../../assets/samples/lane-workshop.seam.yaml")
	d, err := planner.Parse("x.seam.yaml", src)
	if err != nil { t.Fatal(err) }
	p, err := calc.Plan(context.Background(), d.Job(), nil)
	if err != nil { t.Fatal(err) }
	n := 0
	for i := range p.Sheets {
		s := &p.Sheets[i]
		t.Log(s.ID, s.Like, s.Setups, len(s.Cuts), len(s.Parts), len(s.Rests))
		if len(s.Cuts) < 2 || n > 5 { continue }
		n++
		look(t, "real-"+s.ID, drawn(900, 420, 1, func(c draft.Canvas) {
			th := draft.Paper()
			w, h := c.Size()
			c.Fill(draft.Rect{W: w, H: h}.Path(), th.Pane)
			draft.DrawCutSheet(c, th, s, p, d.Job(), draft.Rect{X: 12, Y: 12, W: w - 24, H: h - 24}, draft.CutState{})
		}))
	}
	t.Log(p.Summary.Setups)
}
