package scene

import "seamwright/scene/raster"

// The pens, in the order of the frame's list.
const (
	penEdge      = iota // edges of sheets, openings and rooms
	penFine             // lines within a window
	penStud             // edges of members
	penCut              // the section where a wall is cut
	penGhost            // outline of a wall that is cut away
	penGhostHole        // of its openings
	penMember           // members behind a lining
	penTapered          // joints
	penMixed
	penButt
	penPanel
	penControl
	penLetter
	penSelected
	penFloor
	penSeen // joints of a finished wall that would be seen
	penCount
)

// setPens sets every pen for a style. Joints differ by line as well as by width: tapered a thin line, butt a thick
// one, mixed a thick broken one, panel gaps dotted, control joints doubled.
func setPens(pens *[penCount]raster.Pen, p *palette, st Style) {
	k := float32(st.Scale)
	if k <= 0 {
		k = 1
	}
	e := float32(clamp(st.Seams, 0, 1))
	grow := func(plain, diagram float32) float32 { return k * (plain + (diagram-plain)*e) }
	line := p.line
	*pens = [penCount]raster.Pen{
		penEdge:      {Width: grow(1.1, 1.3), Colour: line, Alpha: 0.55 + 0.3*e},
		penFine:      {Width: k, Colour: line, Alpha: 0.45},
		penStud:      {Width: k * 1.1, Colour: line, Alpha: 0.7},
		penCut:       {Width: k * 1.4, Colour: p.cut, Alpha: 0.9},
		penGhost:     {Width: k * 1.2, Colour: p.accent, Alpha: 0.6, Dash: [4]float32{7 * k, 5 * k, 7 * k, 5 * k}, Over: true},
		penGhostHole: {Width: k, Colour: p.accent, Alpha: 0.35, Dash: [4]float32{3 * k, 4 * k, 3 * k, 4 * k}, Over: true},
		penTapered:   {Width: grow(1.0, 1.5), Colour: line, Alpha: 0.20 + 0.65*e},
		penButt:      {Width: grow(1.2, 3.4), Colour: line, Alpha: 0.25 + 0.65*e},
		penMixed:     {Width: grow(1.2, 3.0), Colour: line, Alpha: 0.25 + 0.65*e, Dash: [4]float32{9 * k, 3 * k, 9 * k, 3 * k}},
		penPanel:     {Width: grow(1.2, 2.2), Colour: line, Alpha: 0.45 + 0.45*e, Dash: [4]float32{2.5 * k, 2.5 * k, 2.5 * k, 2.5 * k}},
		penControl:   {Width: grow(2.4, 4.0), Colour: line, Alpha: 0.4 + 0.5*e, Double: true},
		penLetter:    {Width: grow(1.2, 1.4), Colour: line, Alpha: 0.8},
		penFloor:     {Width: k, Colour: line, Alpha: 0.16},
		penSeen:      {Width: k * 2, Colour: p.accent, Alpha: 0.75, Dash: [4]float32{2 * k, 5 * k, 2 * k, 5 * k}},
		penSelected:  {Width: k * 2.4, Colour: p.accent, Alpha: 1},
	}
	if e < 0.25 {
		pens[penPanel].Dash = [4]float32{} // as built, a gap is a plain dark line
	}
	if st.Members {
		pens[penMember] = raster.Pen{Width: k * 1.1, Colour: line, Alpha: 0.45, Dash: [4]float32{8 * k, 3 * k, 2 * k, 3 * k}}
	}
	if !st.SheetIDs {
		pens[penLetter].Width = 0
	}
}
