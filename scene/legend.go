package scene

import (
	"image/color"
	"slices"

	"seamwright/calc/plan"
	"seamwright/scene/draft"
	"seamwright/scene/raster"
)

// LegendEntry says what a line in the picture means.
type LegendEntry struct {
	Kind  plan.JointKind
	Words string
	Width float32    // device pixels
	Dash  [4]float32 // device pixels
	Twice bool       // two parallel strokes
	Blue  bool       // in the accent colour
}

// Legend lists the joints' lines in a style; under raking light the marks of the finished ones.
func Legend(st Style) []LegendEntry {
	var pens [penCount]raster.Pen
	setPens(&pens, palettes()[st.Theme], st)
	var out []LegendEntry
	for _, e := range []struct {
		kind  plan.JointKind
		words string
	}{
		{plan.Tapered, "tapered joint"}, {plan.Butt, "butt joint"}, {plan.Mixed, "mixed joint"},
		{plan.PanelGap, "gap between panels"}, {plan.Control, "control joint"},
	} {
		pen, _ := penOf(e.kind)
		p := &pens[pen]
		out = append(out, LegendEntry{Kind: e.kind, Words: e.words, Width: p.Width, Dash: p.Dash, Twice: p.Double})
	}
	if !st.Raking.On {
		return out
	}
	// Joints of finished walls have no lines: what is left are gaps between panels, and the marks.
	out = slices.DeleteFunc(out, func(e LegendEntry) bool { return e.Kind != plan.PanelGap })
	if st.Raking.Joint != nil {
		out = append(out, LegendEntry{Words: "joint that is judged", Width: pens[penSelected].Width, Blue: true})
	}
	if st.Raking.Marks {
		out = append(out, LegendEntry{Words: "joint that shows", Width: pens[penSeen].Width, Dash: pens[penSeen].Dash, Blue: true})
	}
	return out
}

// Legend lists the lines of the joints that the scene has.
func (s *Scene) Legend(st Style) []LegendEntry {
	has := map[plan.JointKind]bool{}
	for _, q := range s.parts {
		tops := topLayers(q.surface, s.opt.Layers)
		for i := range q.surface.Zones {
			if z := &q.surface.Zones[i]; tops[z.Zone] == z.Layer {
				for k := range z.Joints {
					has[z.Joints[k].Kind] = true
				}
			}
		}
	}
	return slices.DeleteFunc(Legend(st), func(e LegendEntry) bool { return e.Kind != "" && !has[e.Kind] })
}

// Sizes of the legend, in logical pixels.
const (
	legendRow    = 19.0
	legendSample = 52.0
	legendMargin = 10.0
)

// DrawLegend draws the scene's joints with the pens of a style, one a row, on a strip of paper whose lower left corner
// is given, and gives the strip's size. Width and dashes tell the joints apart; colour says nothing.
func (s *Scene) DrawLegend(c draft.Canvas, st Style, at draft.Pt) (width, height float64) {
	entries := s.Legend(st)
	if len(entries) == 0 {
		return 0, 0
	}
	th := map[Theme]*draft.Theme{Paper: draft.Paper(), Ink: draft.Dark(), HighContrast: draft.HighContrast()}[st.Theme]
	for _, e := range entries {
		width = max(width, draft.Measure(e.Words, draft.Small, draft.Regular))
	}
	width += legendSample + 3*legendMargin
	height = legendRow*float64(len(entries)) + legendMargin
	paper := draft.Rect{X: at.X, Y: at.Y - height, W: width, H: height}
	c.Begin("legend")
	defer c.End()
	c.Fill(paper.Path(), th.Pane)
	c.Stroke(paper.Path()[0], true, draft.Pen{Width: 1, Color: th.Hairline})
	scale := max(1, st.Scale)
	for i, e := range entries {
		ink := th.Ink
		if e.Blue {
			ink = th.Accent
		}
		y := paper.Y + legendMargin/2 + legendRow*(float64(i)+0.5)
		a, b := draft.Pt{X: at.X + legendMargin, Y: y}, draft.Pt{X: at.X + legendMargin + legendSample, Y: y}
		sample(c, e, a, b, scale, ink)
		c.Text(draft.Pt{X: b.X + legendMargin, Y: y + draft.Small*0.35}, e.Words, draft.Type{Size: draft.Small, Color: th.Ink})
	}
	return width, height
}

// sample draws a joint's line from a to b.
func sample(c draft.Canvas, e LegendEntry, a, b draft.Pt, scale float64, ink color.NRGBA) {
	wide := float64(e.Width) / scale
	pen := draft.Pen{Width: wide, Color: ink}
	if e.Dash[0] > 0 {
		for _, d := range e.Dash {
			pen.Dash = append(pen.Dash, float64(d)/scale)
		}
	}
	if !e.Twice {
		c.Stroke([]draft.Pt{a, b}, false, pen)
		return
	}
	pen.Width = wide / 3
	for _, off := range []float64{-wide / 3, wide / 3} {
		d := draft.Pt{Y: off}
		c.Stroke([]draft.Pt{a.Add(d), b.Add(d)}, false, pen)
	}
}
