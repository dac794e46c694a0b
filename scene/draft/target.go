package draft

import (
	"seamwright/assets/words"
	"seamwright/calc/job"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
)

// TargetKind is what a pointer can find in a drawing.
type TargetKind uint8

// What lies under the pointer, in the plan, in the strip, or in both.
const (
	Nothing TargetKind = iota
	OnRoom
	OnSurface // a wall in the plan; a wall or ceiling in the strip, where nothing nearer is found
	OnCorner
	OnOpening
	OnZone
	OnPanel
	OnSeam
	OnBox
	OnPin
	OnCheck
)

// Target is one thing in a drawing. Fields that do not belong to its kind are zero.
type Target struct {
	Kind    TargetKind
	Room    string      // room id
	Surface string      // "room/wall" or "room/ceiling"
	Corner  int         // OnCorner: index in Room.Corners, counted from 0
	Opening string      // OnOpening: its id; "" where the file gave none, then Index tells
	Index   int         // OnOpening, OnBox, OnPin: index in the job's list; OnSeam: in Zone.Joints; OnCheck: in Plan.Checks
	Zone    int         // from 1
	Layer   int         // from 1
	Panel   string      // OnPanel
	Drag    job.Axis    // OnSeam: the way it may lawfully move, "" where it may not; OnOpening: x
	At      shape.Point // the point itself: on the floor plan, or on the surface
}

// Same says whether two targets are one thing, wherever on it they point.
func (t Target) Same(o Target) bool {
	t.At, o.At = shape.Point{}, shape.Point{}
	return t == o
}

// How near the pointer must come, in logical pixels. Targets that are handles have 24 px across, as fingers and
// unsteady hands need (WCAG 2.2, 2.5.8).
const (
	CornerReach  = 12.0
	OpeningReach = 6.0
	WallReach    = 6.0
	SeamReach    = 5.0
	PinReach     = 12.0
	BoxReach     = 3.0
)

// PlanState is what the hand is doing in the plan.
type PlanState struct {
	Selected []Target
	Hover    Target
	Hand     []string // a finish in hand: product ids layer by layer, shown on the hovered wall
	Rubber   *Rubber
	Snap     *shape.Point // a point that the pointer has caught on
	NoGrid   bool
	Say      *words.Voice // nil: English
}

// Rubber is an outline being drawn: the corners set so far and the pointer, already snapped.
type Rubber struct {
	Set     []shape.Point
	To      shape.Point
	Closing bool   // the pointer stands on the first corner
	Typed   string // a length typed so far, shown in place of the measured one
	Wrong   bool   // the outline would cross itself
}

// StripState is what the strip shows and what the hand is doing there.
type StripState struct {
	Room     string // "" shows every room in turn
	Layer    int    // 0 the outermost layer; n shows layer n where a zone has one
	Members  bool   // members through the sheets
	Screws   bool   // screws at any zoom
	NoIDs    bool   // leave panel ids out
	Crosses  bool   // screws as crosses, which no printer takes for a hatch
	Selected []Target
	Hover    Target
	Hand     []string
	Drag     *SeamDrag
	Say      *words.Voice // nil: English
}

// SeamDrag is a seam in the hand. Ticks are its lawful places and Barred those that a rule forbids, along its axis; At
// is where it stands now, From and To its ends as it was taken.
type SeamDrag struct {
	Seam     Target
	At       shape.Point // on the seam
	From, To shape.Point
	Ticks    []shape.Point
	Barred   []shape.Point
	Lines    []string // the label: on what it lies, why it cannot go further
}

// CutState says how far a sheet has been cut and what is picked.
type CutState struct {
	Step  int          // cuts shown as done: 0 shows all of them as still to be made
	Panel string       // the part picked
	Say   *words.Voice // nil: English
	Inch  float64      // how many pixels an inch on paper has: the sheet is drawn to a usual scale; 0: as large as there is room
}

// SequenceState is what is picked in the sequence.
type SequenceState struct {
	Selected string // task id
	Hover    string
	Say      *words.Voice // nil: English
}

func selected(list []Target, t Target) bool {
	for _, s := range list {
		if s.Same(t) {
			return true
		}
	}
	return false
}

// picked says whether a surface is selected, as itself or by a part of it.
func picked(list []Target, surface string) bool {
	for _, s := range list {
		if s.Surface == surface && s.Kind == OnSurface {
			return true
		}
	}
	return false
}

// surfaceOf finds a surface of the plan by id, or nil.
func surfaceOf(p *plan.Plan, id string) *plan.Surface {
	if p == nil {
		return nil
	}
	for i := range p.Surfaces {
		if p.Surfaces[i].ID == id {
			return &p.Surfaces[i]
		}
	}
	return nil
}
