package policy

import (
	"math"

	"seamwright/calc/job"
	"seamwright/calc/length"
)

// RoundCorner is the longest thing without width that goes level round a square corner from a corridor a wide into one
// b wide: (a^(2/3) + b^(2/3))^(3/2), the least over all angles t of a/sin t + b/cos t. A sheet is carried on its long
// edge, upright, and is thin, so this bounds its length.
func RoundCorner(a, b length.Length) length.Length {
	third := math.Pow(float64(a), 2.0/3) + math.Pow(float64(b), 2.0/3)
	return length.Length(math.Floor(math.Pow(third, 1.5)))
}

// LongestSheet is the longest sheet of a width that reaches the room, carried upright on its long edge: it must stand
// under the door's head and the stair's headroom, and go round every corner on the way: from the stair into the corridor,
// between corridor and turn, and from the corridor through the door.
// ok is false where no length does; 0 with ok means no limit is known.
func LongestSheet(a job.Access, wide length.Length) (longest length.Length, ok bool) {
	if a.DoorHeight > 0 && wide > a.DoorHeight && (a.DoorWidth == 0 || wide > a.DoorWidth) {
		return 0, false
	}
	if a.StairHeight > 0 && wide > a.StairHeight {
		return 0, false
	}
	limit := func(x, y length.Length) {
		if x <= 0 || y <= 0 {
			return
		}
		if l := RoundCorner(x, y); longest == 0 || l < longest {
			longest = l
		}
	}
	limit(a.Corridor, a.Turn)
	limit(a.Corridor, a.DoorWidth)
	limit(a.StairWidth, a.Corridor)
	return longest, true
}

// fromCornerToCorner is the longest straight line between two corners of a room: a sheet on its long edge that is longer
// cannot stand in it, however it is turned.
func fromCornerToCorner(r *job.Room) (longest length.Length) {
	for i, a := range r.Corners {
		for _, b := range r.Corners[:i] {
			longest = max(longest, length.Length(math.Hypot(float64(a.X-b.X), float64(a.Y-b.Y))))
		}
	}
	return longest
}
