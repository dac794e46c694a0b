package planner

import (
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/shape"
)

// AddRoom draws a new room; its walls take the project's defaults.
type AddRoom struct {
	ID      string // "": the first free of room-1, room-2, …
	Corners []shape.Point
	Height  length.Length
}

// Label names the edit.
func (AddRoom) Label() string { return "add room" }

// RemoveRoom takes a room away, and its walls out of the alternatives.
type RemoveRoom struct{ Room string }

// Label names the edit.
func (RemoveRoom) Label() string { return "remove room" }

// RenameRoom gives a room another id, wherever the file names it.
type RenameRoom struct{ Room, To string }

// Label names the edit.
func (RenameRoom) Label() string { return "rename room" }

// MoveCorner moves a corner (1-based) of a room.
type MoveCorner struct {
	Room   string
	Corner int
	To     shape.Point
}

// Label names the edit.
func (MoveCorner) Label() string { return "move corner" }

// MoveSide moves a side (1-based) parallel to itself until its line passes through a point; its corners slide
// along the neighbouring sides.
type MoveSide struct {
	Room    string
	Side    int
	Through shape.Point
}

// Label names the edit.
func (MoveSide) Label() string { return "move wall" }

// MoveRoom moves a whole room.
type MoveRoom struct {
	Room string
	By   shape.Point
}

// Label names the edit.
func (MoveRoom) Label() string { return "move room" }

// AddCorner divides a side (1-based) at a point. Both parts keep framing and lining; openings and boxes stay
// where they stand.
type AddCorner struct {
	Room string
	Side int
	At   shape.Point
}

// Label names the edit.
func (AddCorner) Label() string { return "add corner" }

// RemoveCorner takes a corner (1-based) away: the side that begins there goes, with its openings, and the side
// before it runs on to the next corner.
type RemoveCorner struct {
	Room   string
	Corner int
}

// Label names the edit.
func (RemoveCorner) Label() string { return "remove corner" }

// SetRoomHeight changes a room's height.
type SetRoomHeight struct {
	Room   string
	Height length.Length
}

// Label names the edit.
func (SetRoomHeight) Label() string { return "change room height" }

// SetCeiling gives a room's ceiling the shape, framing, insulation and duty of another one, or takes the ceiling
// away where it is nil. Lining, openings, boxes and pins have edits of their own; they are taken from Ceiling
// only where the room had none before.
type SetCeiling struct {
	Room    string
	Ceiling *job.Ceiling
}

// Label names the edit.
func (e SetCeiling) Label() string {
	if e.Ceiling == nil {
		return "remove ceiling"
	}
	return "change ceiling"
}
