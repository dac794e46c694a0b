package draft

import (
	"slices"

	"seamwright/assets/words"
	"seamwright/calc/plan"
)

// legendRow is the height of one row of the legend.
const legendRow = 18.0

// signs are the seams that a legend explains, in the order of how often they occur.
var signs = [...]struct {
	kind plan.JointKind
	text string // the key of its name
}{{plan.Tapered, "draft.tapered-joint"}, {plan.Butt, "draft.butt-joint"}, {plan.Mixed, "draft.mixed-joint"}, {plan.PanelGap, "draft.panel-gap"}, {plan.Control, "draft.control-joint"}}

// DrawLegend draws the signs of the given seams, of all where none is given, in rows within the width, and gives the height
// it took. The place is the foot of the last row; the others stand above it, so that a legend grows from the bottom of a
// drawing.
func DrawLegend(c Canvas, th *Theme, say *words.Voice, at Pt, width float64, kinds ...plan.JointKind) (height float64) {
	return legend(c, th, say, at, width, func(k plan.JointKind) bool { return len(kinds) == 0 || slices.Contains(kinds, k) })
}

// legend draws the signs that are asked for.
func legend(c Canvas, th *Theme, say *words.Voice, at Pt, width float64, shown func(plan.JointKind) bool) (height float64) {
	const sample, apart = 34.0, 18.0
	type placed struct {
		x, w float64
		row  int
		text string
		kind plan.JointKind
	}
	var list []placed
	x, row := 0.0, 0
	for _, s := range signs {
		if !shown(s.kind) {
			continue
		}
		text := say.Text(s.text)
		w := Measure(text, Small, Regular) + 6 + sample
		if x > 0 && x+w > width {
			x, row = 0, row+1
		}
		list = append(list, placed{x, w, row, text, s.kind})
		x += w + apart
	}
	c.Begin("legend")
	defer c.End()
	for _, p := range list {
		y := at.Y - legendRow*float64(row-p.row)
		c.Text(Pt{at.X + p.x, y}, p.text, Type{Size: Small, Color: th.Quiet})
		line := Pt{at.X + p.x + p.w - sample, y - 4}
		strokeSeam(c, th, p.kind, line, line.Add(Pt{sample, 0}), Material{Fill: th.Pane})
	}
	if len(list) == 0 {
		return 0
	}
	return legendRow * float64(row+1)
}
