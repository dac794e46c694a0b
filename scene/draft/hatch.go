package draft

import (
	"image/color"
)

// Hatch is a pattern laid over a fill. Its tiles start at From, so that the pattern moves with the drawing; Upright
// turns the pattern a quarter turn, for grain and paper that run up the wall.
type Hatch struct {
	Kind    HatchKind
	Color   color.NRGBA
	From    Pt
	Upright bool
}

// HatchKind is the sign of a material or a state; it reads without colour.
type HatchKind uint8

// The hatches.
const (
	Stipple         HatchKind = iota // gypsum board
	StippleDiagonal                  // fire board
	Wave                             // wet-area board
	Grain                            // plywood, along the sheet
	Batt                             // insulation in an open bay
	Waste                            // what is thrown away
	Wait                             // drying and other waits
)
