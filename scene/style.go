package scene

import (
	"math"

	"seamwright/scene/light"
)

// Theme is the set of colours that a picture is drawn in.
type Theme int

// The three themes: warm drafting paper, its dark counterpart, and black, white and blue.
const (
	Paper Theme = iota
	Ink
	HighContrast
)

// Ref names a panel by surface and panel id; an empty Panel means the whole surface.
type Ref struct{ Surface, Panel string }

// Style is how a scene is drawn. The zero value is a plain picture on paper, seams "as built", walls between the
// eye and the room solid.
type Style struct {
	Theme    Theme
	Seams    float64 // emphasis of seams, 0 "as built" to 1 "diagram"
	Members  bool    // show the members behind the lining as dashed lines
	SheetIDs bool    // letter each panel with its id
	Cutaway  bool    // show walls that stand between eye and room as outlines only
	Ceilings bool    // show ceilings seen from below; from above they are outlines when Cutaway is set
	Selected []Ref   // drawn in the accent colour
	Hovered  Ref     // drawn in a lighter accent
	Raking   Raking
	// Scale is device pixels per logical pixel: line widths and letters grow with it. 0 means 1.
	Scale float64
	// Sharp renders four samples a pixel: for pictures at rest and in files.
	Sharp bool
	// Clear leaves the ground transparent.
	Clear bool
}

// Raking is a lamp held close to a wall, and the wall finished and painted under it.
type Raking struct {
	On      bool
	Surface string  // the surface lit; empty: every finished surface
	Angle   float64 // radians above the wall's plane
	From    float64 // direction on the wall that the light comes from: 0 from the left end, π/2 from above
	Sheen   Sheen
	Level   int // finish level 3 to 5; 0 takes the plan's
}

// Sheen is how glossy the paint is.
type Sheen = light.Sheen

// Paint sheens, dull to bright.
const (
	Flat      = light.Flat
	Eggshell  = light.Eggshell
	Satin     = light.Satin
	SemiGloss = light.SemiGloss
	Gloss     = light.Gloss
)

// DefaultStyle is what the room view starts with.
func DefaultStyle() Style {
	return Style{Seams: 0.6, Cutaway: true, Ceilings: true, Raking: Raking{Angle: 12 * math.Pi / 180}}
}
