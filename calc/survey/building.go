// Package survey turns rooms into flat surfaces in their own x, y: outline, members, holes, backing, and for
// every layer of every zone the outline that it must cover, after hang order, corner build-up, ceiling build-up,
// curbs and the layers below have been taken into account. Slants are rounded here, once.
package survey

import (
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/memo"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
)

// Building is every surface of the job, in project order (rooms, then walls by side, then ceiling planes).
type Building struct {
	Surfaces []*Surface
	Rooms    []Room
}

// Room is the surfaces of one room, and the key of all that they were made from: the room itself and everything in the
// job but other rooms, progress, alternatives and the name. Only Backs depend on more.
type Room struct {
	ID       string
	Surfaces []*Surface
	First    int // index of the first of them in the building
	Key      memo.Key
}

// Surface is one wall or ceiling plane with what stands behind it.
type Surface struct {
	plan.Surface // id, kind, outline, holes, members, frame; its Zones stay empty here

	Wall    *job.Wall    // nil for a ceiling
	Ceiling *job.Ceiling // nil for a wall
	Studs   []Member     // every full-height member, left to right (or bottom to top where Members.Axis is y)
	Short   []Member     // cripples over and under openings
	Backing *Backing
	Backs   []*Surface // the other faces of the same partition
	Zones   []*Zone    // zone by zone from the floor up, layer by layer outward; none for a zone left open
	Placed  []job.Box  // the boxes behind Boxes, in this surface's x, y: each stands on one plane of a ceiling only

	rough []job.Opening // openings and keep-outs in this surface's x, y
}

// Member is one stud, joist or cripple: its centre and the width of its face.
type Member struct {
	At, Width length.Length
	Kind      MemberKind
	From, To  length.Length // its extent along its own length
}

// MemberKind says why a member stands where it stands.
type MemberKind string

// Kinds of member.
const (
	Common  MemberKind = "common"
	End     MemberKind = "end"
	Jamb    MemberKind = "jamb"
	Cripple MemberKind = "cripple"
)

// Backing is solid sheathing behind the lining; its seams as segments on the surface.
type Backing struct {
	Product *job.Product
	Seams   [][2]shape.Point
}

// Zone is one layer of one zone: what must be covered, and under which choices.
type Zone struct {
	Surface *Surface
	Index   int // 1-based, from the floor up
	Layer   int // 1-based, the first on the members
	Layers  int // how many layers the zone has
	Plies   int // how many of them are gypsum board
	Product *job.Product
	Run     job.Run
	Pattern job.Pattern
	Finish  int
	Courses []length.Length // from the bottom; empty: free
	Start   job.Start       // never auto: the hang-order rule has been applied
	Begins  bool            // the user has chosen which course is hung first, and so where a ripped one falls
	// Outline is what this layer must cover, counter-clockwise; Edges[i] runs from Outline[i] to Outline[i+1].
	Outline shape.Polygon
	Edges   []Edge
	// Holes are the parts of rough openings (not keep-outs) that lie in the outline.
	Holes []Hole
	// Large are the parts of large boxes that lie in the outline: board goes round them as round openings.
	Large []shape.Rect
	// KeepOuts are lined, with short screws.
	KeepOuts []shape.Rect
	// Depth is from the face of the framing to the back of this layer.
	Depth length.Length
	// FloorGap is how far the lowest edge of the panels stands above the outline's bottom: 0 where the zone does
	// not reach the floor.
	FloorGap length.Length
	Pins     []job.Pin
}

// Hole is an opening in a zone.
type Hole struct {
	Opening job.Opening
	Outline shape.Polygon
}

// Edge says what one side of a zone's outline meets.
type Edge struct {
	Meets Meets
	With  string // surface id at a corner, "" elsewhere
}

// Meets is what a side of a zone's outline meets.
type Meets string

// What a side can meet. AtZone is the line to the zone above or below, AtFree an edge with nothing beyond.
const (
	AtFloor         Meets = "floor"
	AtCurb          Meets = "curb"
	AtCeiling       Meets = "ceiling"
	AtHead          Meets = "head"
	AtInsideCorner  Meets = "inside-corner"
	AtOutsideCorner Meets = "outside-corner"
	AtZone          Meets = "zone"
	AtRidge         Meets = "ridge"
	AtFree          Meets = "free"
)
