package planner

import (
	"seamwright/calc/job"
)

// A surface is named by its room and wall, "studio/south", or "studio/ceiling".

// SetWall gives a wall the properties of Wall: id, framing, backing, insulation, duty, back, base, trim, top,
// bottom, floor. Only what differs is written. Lining, openings, boxes and pins have edits of their own.
type SetWall struct {
	Surface string
	Wall    job.Wall
}

// Label names the edit.
func (SetWall) Label() string { return "change wall" }

// SetLining gives surfaces other zones, from the floor up. The active alternative is left alone; see
// Document.Lining.
type SetLining struct {
	Surfaces []string
	Zones    []job.Zone
}

// Label names the edit.
func (SetLining) Label() string { return "choose lining" }

// AddOpening puts an opening into a wall or ceiling; an empty ID gets the first free of d1, w1, h1, k1, … On a
// ceiling At and Sill are the x and y of its corner.
type AddOpening struct {
	Surface string
	Opening job.Opening
}

// Label names the edit.
func (e AddOpening) Label() string { return "add " + openingName(e.Opening.Kind) }

// ChangeOpening gives an opening other values; its ID may change too.
type ChangeOpening struct {
	Surface string
	ID      string
	Opening job.Opening
}

// Label names the edit.
func (e ChangeOpening) Label() string { return "change " + openingName(e.Opening.Kind) }

// RemoveOpening takes an opening away.
type RemoveOpening struct{ Surface, ID string }

// Label names the edit.
func (RemoveOpening) Label() string { return "remove opening" }

func openingName(k job.OpeningKind) string {
	if k == "" {
		return "opening"
	}
	return string(k)
}

// AddBox puts an electrical box on a surface.
type AddBox struct {
	Surface string
	Box     job.Box
}

// Label names the edit.
func (AddBox) Label() string { return "add box" }

// ChangeBox gives a box (counted from 0) other values.
type ChangeBox struct {
	Surface string
	Index   int
	Box     job.Box
}

// Label names the edit.
func (ChangeBox) Label() string { return "change box" }

// RemoveBox takes a box (counted from 0) away.
type RemoveBox struct {
	Surface string
	Index   int
}

// Label names the edit.
func (RemoveBox) Label() string { return "remove box" }

// AddPin fixes a seam.
type AddPin struct {
	Surface string
	Pin     job.Pin
}

// Label names the edit.
func (AddPin) Label() string { return "pin seam" }

// RemovePin lets a seam (counted from 0) go.
type RemovePin struct {
	Surface string
	Index   int
}

// Label names the edit.
func (RemovePin) Label() string { return "unpin seam" }
