// Package job is what the calculation is asked: rooms, linings, products, rules, site and stock, with every
// default already filled in. It is plain data; the document that the user edits lives in package planner.
package job

import (
	"seamwright/calc/length"
	"seamwright/calc/money"
	"seamwright/calc/shape"
)

// Job is one project as the calculation sees it.
type Job struct {
	Name         string
	Units        Units
	Language     Language
	Currency     string
	Aim          Aim
	Site         Site
	Rooms        []Room
	Stock        []Stock
	Rules        Rules
	Paint        Paint
	Products     []Product // sorted by id
	Supplies     []Supply  // sorted by id
	Alternatives []Alternative
	Progress     []Done
	// Figures are the user's own values for adjustable figures of the trade, by figure id.
	Figures map[string]float64
}

// Language is what a project is told in; "": as whoever shows it chooses.
type Language string

// The languages.
const (
	English Language = "en"
	Spanish Language = "es"
)

// Units is how lengths are shown.
type Units string

// The two ways of showing lengths.
const (
	Imperial Units = "imperial"
	Metric   Units = "metric"
)

// Aim is what the layout search makes least.
type Aim string

// The three aims: money with own time, bought sheets, feet of butt joint. Ties go to the other two.
const (
	AimCost   Aim = "cost"
	AimSheets Aim = "sheets"
	AimJoints Aim = "joints"
)

// Date is a civil day.
type Date struct{ Year, Month, Day int }

// Site is where and when the work is done.
type Site struct {
	Celsius  float64 // room temperature while finishing
	Humidity float64 // relative, 0 to 1
	Start    Date
	Hours    float64 // worked per day and person
	People   int
	Workdays [7]bool     // Sunday first, as time.Weekday counts
	Off      []Date      // days on which nobody works, workdays though they are
	TaxRate  float64     // 0.0825 for 8.25 %
	Rate     money.Money // of an own hour; 0: own time is not counted
	Assumed  money.Money // a placeholder rate, where the project states none: it weighs plans and is in no total
	Assumes  string      // what that rate is and of when
	Quote    money.Money // 0: none
	Access   Access
	Crew     Crew
}

// Crew is what those who hang the sheets carry. Not Known: the project says nothing of it, and no sheet is left out for its
// weight. A zero length or weight takes the usual figure for so many people.
type Crew struct {
	Known    bool
	Longest  length.Length // sheet
	Heaviest float64       // sheet, kg
	Lift     bool          // a lifting device is at hand
}

// Worth is the rate of own time that plans are compared at.
func (s *Site) Worth() money.Money {
	if s.Assumed > 0 {
		return s.Assumed
	}
	return s.Rate
}

// Access is what a sheet must be carried through; a zero length is not a limit. Turn is the corridor round the corner,
// StairHeight the headroom over the stair, measured square to its pitch.
type Access struct{ DoorWidth, DoorHeight, Corridor, Turn, StairWidth, StairHeight length.Length }

// Room is one room, its corners the faces of its framing as seen from above (x right, y up).
type Room struct {
	ID      string
	Height  length.Length
	Corners []shape.Point // in the order of the file; either direction
	Ceiling *Ceiling      // nil: nothing overhead to line
	Walls   []Wall        // one for each side, side i from corner i to corner i+1
	Solids  []Solid
}

// Wall is one side of a room. X runs from its left end as seen from inside the room, y up from the floor.
type Wall struct {
	ID         string // unique in its room
	Side       int    // 1-based
	Framing    Framing
	Backing    *Backing
	Insulation Insulation
	Duty       []Duty
	Back       string // surface id of the other face of this partition, "" if none was given
	Base       length.Length
	Trim       length.Length
	Top        []shape.Point // empty: what the ceiling's shape gives
	Bottom     []shape.Point // empty: the floor
	Lining     []Zone
	Openings   []Opening
	Boxes      []Box
	Floor      []shape.Point // measured floor levels along the wall
	Pins       []Pin
}

// Framing is the members of a wall or ceiling.
type Framing struct {
	Material Material
	Spacing  length.Length
	First    length.Length // centre of the first member past the left end; 0: one spacing
	Along    Axis          // ceilings: the axis that the members run parallel to
	Member   length.Length // width of a member's face
	Depth    length.Length
	Also     []length.Length // further member centres
	Without  []length.Length // centres left out
}

// Material of the framing.
type Material string

// What members are made of.
const (
	Wood  Material = "wood"
	Steel Material = "steel"
)

// Axis of a flat surface.
type Axis string

// The two axes.
const (
	AxisX Axis = "x"
	AxisY Axis = "y"
)

// Backing is solid sheathing behind the lining, with its own seams.
type Backing struct {
	Product string
	Seams   [][2]shape.Point
}

// Insulation in the bays.
type Insulation string

// What may stand in the bays.
const (
	NoInsulation Insulation = "none"
	UnfacedBatt  Insulation = "unfaced-batt"
	KraftBatt    Insulation = "kraft-batt"
	MineralWool  Insulation = "mineral-wool"
	FoamPlastic  Insulation = "foam-plastic"
)

// Duty is what a wall must do besides closing the room.
type Duty string

// The duties that change rules.
const (
	Separation Duty = "separation"
	Rated      Duty = "rated"
	Wet        Duty = "wet"
	Bracing    Duty = "bracing"
	Exterior   Duty = "exterior"
)

// Zone is a part of a surface's height with one lining, from the floor up.
type Zone struct {
	To      length.Length // 0: to the head
	Layers  []string      // product ids, the first on the members; {"open"} leaves it uncovered
	Runs    []Run         // one for each layer
	Pattern Pattern
	Finish  int             // level 0 to 5
	Courses []length.Length // from the bottom; empty: chosen by the search
	Start   Start
}

// Open is the product that leaves a zone uncovered.
const Open = "open"

// Run is the direction of a sheet's long edge against the members.
type Run string

// Directions of the long edge.
const (
	RunAuto   Run = "auto"
	RunAcross Run = "across"
	RunAlong  Run = "along"
)

// Pattern is how the end joints of adjoining courses stand to each other.
type Pattern string

// Seam patterns.
const (
	Staggered Pattern = "staggered"
	Stacked   Pattern = "stacked"
	Centred   Pattern = "centred"
)

// Start is the course that is hung first.
type Start string

// Where hanging starts; StartAuto follows the hang-order rule.
const (
	StartAuto  Start = ""
	StartHead  Start = "head"
	StartFloor Start = "floor"
)

// Opening is a rough opening; At is its left edge, Sill its lower one.
type Opening struct {
	ID                      string
	Kind                    OpeningKind
	At, Width, Height, Sill length.Length
	Reveal                  length.Length
	Return                  Return
}

// Rect is the opening as a rectangle on the surface.
func (o Opening) Rect() shape.Rect { return shape.Rect{X: o.At, Y: o.Sill, W: o.Width, H: o.Height} }

// OpeningKind says what fills the opening.
type OpeningKind string

// Kinds of opening. A keep-out is lined, with short screws and no boxes.
const (
	Door    OpeningKind = "door"
	Window  OpeningKind = "window"
	Hatch   OpeningKind = "hatch"
	KeepOut OpeningKind = "keep-out"
)

// Return is how the sides of a window opening are closed.
type Return string

// Kinds of return.
const (
	ReturnBoard Return = "board"
	ReturnJamb  Return = "jamb"
	ReturnNone  Return = "none"
)

// Box is an electrical box; At and Up are its centre.
type Box struct {
	At, Up, Width, Height length.Length
	Diameter              length.Length // not 0: a round box
	SetOut                length.Length // how far it stands out from the framing's face
	Kind                  string
}

// Rect is the box's bounding rectangle.
func (b Box) Rect() shape.Rect {
	w, h := b.Width, b.Height
	if b.Diameter > 0 {
		w, h = b.Diameter, b.Diameter
	}
	return shape.Rect{X: b.At - w/2, Y: b.Up - h/2, W: w, H: h}
}

// smallBox is the longest side of a box that a sheet always swallows as a hole or a notch: no course is lower, no piece
// shorter than that but for what the zone itself leaves.
const smallBox = 6 * length.Inch

// Large says whether a box is cut round like an opening in what must be covered: a panelboard, which may be taller than a course,
// or any box that leaves nothing beside it. A round hole parts no sheet.
func (b Box) Large(cover shape.Rect) bool {
	return b.Diameter == 0 && (max(b.Width, b.Height) > smallBox || b.Height >= cover.H || b.Width >= cover.W)
}

// Pin is a seam that the user has fixed by hand: the end joint of a course at an x on a wall laid across, else at a y; or,
// with Edge, the joint where the long edges of two upright courses meet, an x on a wall. It belongs to no one course.
type Pin struct {
	Zone, Layer, Course int // 1-based; Course 0 with Edge
	Seam                length.Length
	Edge                bool
}

// Ceiling is the framing overhead and its lining.
type Ceiling struct {
	Shape      CeilingShape
	Along      Axis          // ridge: the axis the ridge runs along
	At         length.Length // ridge: its place on the other axis
	High       length.Length // ridge or high side of a slope: height above the floor
	From, To   string        // slope: rises from this compass side to that one
	Framing    Framing
	Insulation Insulation
	Duty       []Duty
	Lining     []Zone
	Openings   []Opening
	Boxes      []Box
	Pins       []Pin
}

// CeilingShape is the form of the ceiling framing.
type CeilingShape string

// Forms of ceiling.
const (
	Flat  CeilingShape = "flat"
	Ridge CeilingShape = "ridge"
	Slope CeilingShape = "slope"
)

// Solid is a column, beam, soffit or half wall; kept, and named as not planned.
type Solid struct {
	ID       string
	At       shape.Point // its lower left corner on the floor plan
	Size     shape.Point // along x and y
	From, To length.Length
	Lining   []Zone
}

// Stock is a piece on hand: Length runs with the paper or grain, Width across it.
type Stock struct {
	Product       string
	Length, Width length.Length
	Tapered       bool
	Count         int
	Note          string
}

// Paint is the coats that painted surfaces get.
type Paint struct {
	Primer, Coats int
	Sheen         string
}

// Rules are the adjustable values of the rule book.
type Rules struct {
	Stagger      length.Length // 16 in
	LeastPiece   length.Length // 16 in
	LeastCourse  length.Length // 6 in
	Opening      length.Length // 6 in
	Backing      length.Length // 2 in
	FloorGap     length.Length // 1/2 in
	Fit          length.Length // 1/8 in
	Screws       length.Length // 12 in
	Cutouts      Cutouts
	BackBlocking bool
	Rakes        Rakes
}

// Cutouts says whether a sheet may run past an opening and be notched.
type Cutouts string

// Ways of cutting round openings.
const (
	Notch    Cutouts = "notch"
	RectOnly Cutouts = "rect"
)

// Rakes says whether two raked pieces may come from one rectangle of a sheet.
type Rakes string

// Ways of cutting raked pieces. Paired: two whose slants run alike share a rectangle that one slanted cut parts.
const (
	RakesApart  Rakes = "apart"
	RakesPaired Rakes = "paired"
)

// Alternative is a named variant that changes linings only.
type Alternative struct {
	Name string
	Set  []LiningChange
}

// LiningChange gives the named surfaces ("room/wall", "room/ceiling") another lining.
type LiningChange struct {
	Surfaces []string
	Lining   []Zone
}

// Done is a task ticked off, with what it took.
type Done struct {
	Task  string
	On    Date
	Hours float64
	Used  []Used
}

// Used is a quantity that has been used up.
type Used struct {
	Item     string
	Quantity float64
}
