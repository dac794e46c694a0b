package plan

import (
	"seamwright/calc/length"
	"seamwright/calc/money"
	"seamwright/calc/shape"
)

// Return is a piece of board that lines one side of an opening. It is cut from a sheet of the cut list, where a part
// bears its id; a side longer than the longest sheet is made of several.
type Return struct {
	ID      string           `json:"id"`
	Surface string           `json:"surface"`
	Opening string           `json:"opening"`
	Side    string           `json:"side"` // head, left, right, sill
	Product string           `json:"product"`
	Size    [2]length.Length `json:"size"`  // along the opening's edge, into the wall
	Sheet   string           `json:"sheet"` // "" where no sheet for sale holds it
}

// LevelLine is how the lowest course of a wall meets a floor that was measured: the floor's highest place gives the
// level line, from which everything is measured.
type LevelLine struct {
	Surface string        `json:"surface"`
	Zone    int           `json:"zone"`
	Hangs   bool          `json:"hangs"` // from the head; else the sheets stand on the level line
	High    shape.Point   `json:"high"`  // place along the wall and height of the floor's highest point
	Line    length.Length `json:"line"`  // height of the level line: lower edges of sheets that stand, or the planned ones of sheets that hang
	Sheets  []SheetLevel  `json:"sheets"`
	Largest length.Length `json:"largest_gap"` // widest gap between floor and lining
	Trim    length.Length `json:"trim"`        // height of the base trim, 0: none
	Covered bool          `json:"covered"`     // the trim covers the widest gap and laps onto the lining
}

// SheetLevel is one sheet of the lowest course.
type SheetLevel struct {
	Panel string        `json:"panel"`
	Left  length.Length `json:"gap_left"` // gap to the floor at the sheet's ends, as it will hang
	Right length.Length `json:"gap_right"`
	Shim  length.Length `json:"shim"` // thickest shim under a sheet that stands: its gap at the lower end of the floor
	Rip   length.Length `json:"rip"`  // what must come off the lower edge of a sheet that hangs to keep the floor gap
}

// Handling is what getting the sheets in and up asks for. Weights are kilograms.
type Handling struct {
	Delivery float64     `json:"delivery_kg"` // all sheets that are bought
	Sheets   []SheetLift `json:"sheets"`
	OneLift  float64     `json:"one_lift_kg"`    // the most for one person under the best conditions
	Floor    float64     `json:"floor_kg_m2"`    // live load that a usual floor is meant for
	Stacked  float64     `json:"stacked_kg_m2"`  // all bought sheets in one stack, on the floor area of the largest sheet
	Needs    float64     `json:"floor_needs_m2"` // floor on which they must be spread to keep to that load
	Basis    Fact        `json:"basis"`
	Source   Fact        `json:"source"`
}

// SheetLift is one kind of sheet that is bought.
type SheetLift struct {
	Product   string           `json:"product"`
	Size      [2]length.Length `json:"size"`
	Count     int              `json:"count"`
	Weight    float64          `json:"kg"` // of one sheet
	Together  float64          `json:"kg_together"`
	TwoPeople bool             `json:"two_people"`
	Longest   length.Length    `json:"longest_in"` // longest sheet of this width that reaches the room, 0: no limit is known
	Passes    bool             `json:"passes"`
	Stack     int              `json:"stack_at_most"` // sheets in one stack on a usual floor, 0: no weight is known
}

// Offer is one size of a product that the job lines with, and whether the plan may buy it. A limit keeps it out, for the
// reason given; where it is offered all the same, Why says what gave way.
type Offer struct {
	Product string           `json:"product"`
	Size    [2]length.Length `json:"size"`
	Name    string           `json:"name"`
	Weight  float64          `json:"kg"`
	Offered bool             `json:"offered"`
	Limit   Limit            `json:"limit"`
	Reason  Fact             `json:"reason"`
	Why     Fact             `json:"why"`
	Source  Fact             `json:"source"`
}

// SameReason tells whether two sizes are kept out for the same reason.
func (o Offer) SameReason(as Offer) bool {
	return o.Limit == as.Limit && o.Reason.Equal(as.Reason)
}

// Limit is what keeps a sheet size from being bought.
type Limit string

// The limits, from what is for sale to what can be carried.
const (
	NoLimit   Limit = ""
	LimitYard Limit = "yard"
	LimitWay  Limit = "way in"
	LimitRoom Limit = "room"
	LimitCrew Limit = "crew"
)

// Look is one thing to check and photograph before the lining hides it.
type Look struct {
	Surface string        `json:"surface"`
	What    string        `json:"what"` // studs, plates, blocking, backing, box, insulation
	At      []shape.Point `json:"at"`   // places on the surface, where it has some
	Text    Fact          `json:"text"`
	Source  Fact          `json:"source"`
}

// WhatIf is the end of the job in another room air or with another kind of compound. Finish is empty and Days 0
// where no date is promised.
type WhatIf struct {
	Celsius  float64 `json:"celsius"`
	Humidity float64 `json:"humidity"`
	Compound string  `json:"compound"` // drying, setting
	Coat     float64 `json:"coat_h"`   // hours from one coat to the next
	Finish   string  `json:"finish"`
	Days     int     `json:"days"`
	Today    bool    `json:"today"` // the project's own air and compound
}

// Progress sets what has been done against what was estimated.
type Progress struct {
	Tasks       int         `json:"tasks"`
	Done        int         `json:"done"`
	Estimated   float64     `json:"estimated_h"` // of the tasks that are done and have recorded hours
	Actual      float64     `json:"actual_h"`    // as recorded
	Left        float64     `json:"left_h"`      // of the tasks to come, as estimated
	Outlook     float64     `json:"outlook_h"`   // of the tasks to come, at the pace so far
	LeftToBuy   money.Money `json:"left_to_buy"`
	Basis       Fact        `json:"basis"`
	FirstFinish string      `json:"first_finish"` // the finish as it was planned before anything was ticked off
}

// Hired sets a crew's quote beside doing the work oneself.
type Hired struct {
	Quote     money.Money `json:"quote"`
	CrewDays  float64     `json:"crew_days"` // 0: not known
	Outlay    money.Money `json:"outlay"`    // own material, hire, delivery and tax
	Saved     money.Money `json:"saved"`     // quote less outlay: what own hours earn
	OwnHours  float64     `json:"own_hours"`
	OwnDays   int         `json:"own_days"`
	BreakEven money.Money `json:"break_even"` // own hour's worth at which both cost the same
	Basis     Fact        `json:"basis"`
}
