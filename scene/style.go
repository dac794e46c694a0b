package scene

import (
	"math"

	"seamwright/calc/plan"
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
	Legend   bool // explain the joints' lines in the lower left corner
	// Scale is device pixels per logical pixel: line widths and letters grow with it. 0 means 1.
	Scale float64
	// Sharp renders four samples a pixel: for pictures at rest and in files.
	Sharp bool
	// Clear leaves the ground transparent.
	Clear bool
}

// Raking is a wall finished and painted, under lights that show how even it is. The zero value of everything but On
// is one flood lamp far off, seen from two metres.
type Raking struct {
	On      bool
	Surface string     // the surface that the flood lamp is held to, which lights its room alone; empty: every surface has its own
	Lamps   Lamps      // what is lit; 0: the flood lamp alone
	Angle   float64    // of the flood lamp's light above the wall's plane where it is aimed, radians
	From    float64    // direction on the wall that the flood lamp stands in: 0 to the left end, π/2 above
	Reach   float64    // metres from the flood lamp to where it is aimed; 0: far off, its light parallel
	Shift   [2]float64 // metres along the wall's x and y from its middle to where the flood lamp is aimed
	Sheen   Sheen
	Level   int         // finish level 3 to 5; 0 takes the plan's
	View    float64     // metres from which joints are judged; 0: two
	Marks   bool        // mark the joints that would be seen from there
	Joint   *plan.Joint // drawn in the accent colour: the one that is asked about
}

// Lamps is a set of lights.
type Lamps uint8

// The lights of a room.
const (
	Flood        Lamps = 1 << iota // a lamp held close to the wall
	CeilingLamps                   // at the light boxes of the ceiling, or under its middle where there is none
	Daylight                       // an even sky before every window
)

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

// SheenNamed finds a sheen by the name that projects give it; "matte" is flat. False where there is none of the name.
func SheenNamed(name string) (Sheen, bool) { return light.SheenNamed(name) }

// DefaultStyle is what the room view starts with.
func DefaultStyle() Style {
	return Style{Seams: 0.6, Cutaway: true, Ceilings: true, Raking: Raking{Angle: 12 * math.Pi / 180}}
}
