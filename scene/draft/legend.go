package draft

import (
	"seamwright/calc/plan"
)

// legendRow is the height of one row of the legend; at is the foot of its first.
const legendRow = 18.0

// DrawLegend draws the signs of the seams in rows within the width, and gives the height it took. The place is the
// foot of the first row; further rows stand above it, so that a legend grows from the bottom of a drawing.
func DrawLegend(c Canvas, th *Theme, at Pt, width float64) (height float64) {
	entries := []struct {
		kind plan.JointKind
		text string
	}{{plan.Tapered, "tapered joint"}, {plan.Butt, "butt joint"}, {plan.Mixed, "mixed joint"}, {plan.PanelGap, "gap between panels"}, {plan.Control, "control joint"}}
	const sample, apart = 34.0, 18.0
	c.Begin("legend")
	defer c.End()
	t := Type{Size: Small, Color: th.Quiet}
	x, rows := 0.0, 1.0
	y := at.Y
	for _, e := range entries {
		w := Measure(e.text, Small, Regular) + 6 + sample
		if x > 0 && x+w > width {
			x, y, rows = 0, y-legendRow, rows+1
		}
		c.Text(Pt{at.X + x, y}, e.text, t)
		line := Pt{at.X + x + w - sample, y - 4}
		strokeSeam(c, th, e.kind, line, line.Add(Pt{sample, 0}), Material{Fill: th.Pane})
		x += w + apart
	}
	return rows * legendRow
}
