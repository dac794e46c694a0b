// Package plan is what the calculation answers, in the form that the window, the headless command and the
// documents share. Its JSON is the contract "seamwright-plan" version 1: lengths in millimetres, exact.
package plan

import (
	"math"

	"seamwright/calc/length"
	"seamwright/calc/money"
	"seamwright/calc/shape"
)

// Plan is the whole answer.
type Plan struct {
	Format       string        `json:"format"`
	Version      int           `json:"version"`
	Name         string        `json:"name"`
	Units        string        `json:"units"`
	Surfaces     []Surface     `json:"surfaces"`
	Sheets       []Sheet       `json:"sheets"`
	Summary      Summary       `json:"summary"`
	Answers      []Answer      `json:"answers"`
	Takeoff      []Item        `json:"takeoff"`
	Sticks       []Stick       `json:"sticks"`
	Cost         Cost          `json:"cost"`
	Schedule     []Task        `json:"schedule"`
	Alternatives []Alternative `json:"alternatives"`
	Checks       []Check       `json:"checks"`
	Returns      []Return      `json:"returns"`
	Levels       []LevelLine   `json:"levels"`
	Before       []Look        `json:"before_covering"`
	Handling     Handling      `json:"handling"`
	Sizes        []Offer       `json:"sizes"`
	WhatIf       []WhatIf      `json:"what_if"`
	Progress     Progress      `json:"progress"`
}

// Surface is one wall or ceiling plane. X runs from its left end as seen from inside, y up; a ceiling plane is
// laid flat (a flat one has the room's own x, y).
type Surface struct {
	ID        string          `json:"id"`
	Kind      SurfaceKind     `json:"kind"`
	Room      string          `json:"room"`
	Outline   shape.Polygon   `json:"outline"`
	Holes     []shape.Polygon `json:"holes"`
	Openings  []Opening       `json:"openings"`
	Boxes     []shape.Polygon `json:"boxes"`
	HangOrder int             `json:"hang_order"`
	Members   Members         `json:"members"`
	Cripples  []length.Length `json:"cripples"`
	Frame     Frame           `json:"frame"`
	BaseTrim  BaseTrim        `json:"base_trim"`
	Zones     []Zone          `json:"zones"`
}

// SurfaceKind is wall or ceiling.
type SurfaceKind string

// Kinds of surface.
const (
	Wall    SurfaceKind = "wall"
	Ceiling SurfaceKind = "ceiling"
)

// Opening names a rough opening; Outline is its rectangle. Keep-outs stand here but not in holes.
type Opening struct {
	ID      string        `json:"id"`
	Kind    string        `json:"kind"`
	Outline shape.Polygon `json:"outline"`
	Reveal  length.Length `json:"reveal"`
	Return  string        `json:"return"`
	Casing  length.Length `json:"casing"` // width of what goes round it, 0: none
}

// BaseTrim is the trim along the floor of a wall: from Foot up, and from where to where it runs along the wall.
type BaseTrim struct {
	Foot   length.Length      `json:"foot"`
	Height length.Length      `json:"height"` // 0: none
	Runs   [][2]length.Length `json:"runs"`
}

// Members are the full-height members: centres along Axis.
type Members struct {
	Axis     string          `json:"axis"`
	At       []length.Length `json:"at"`
	Width    length.Length   `json:"width"`
	Depth    length.Length   `json:"depth"`
	Material string          `json:"material"`
}

// Frame places a surface in the building (z up): a point p stands at Origin + p.X·X + p.Y·Y. Normal points
// into the room. Origin lies on the face of the framing.
type Frame struct {
	Origin [3]length.Length `json:"origin"`
	X      [3]float64       `json:"x"`
	Y      [3]float64       `json:"y"`
	Normal [3]float64       `json:"normal"`
}

// Zone is one layer of one zone of a surface. Outline is what the layer must cover, before holes are taken out.
type Zone struct {
	Zone      int           `json:"zone"`
	Layer     int           `json:"layer"`
	Product   string        `json:"product"`
	Run       string        `json:"run"`
	Pattern   string        `json:"pattern"`
	Finish    int           `json:"finish"`
	Depth     length.Length `json:"depth"` // from the face of the framing to the back of this layer
	Outline   shape.Polygon `json:"outline"`
	Panels    []Panel       `json:"panels"`
	Joints    []Joint       `json:"joints"`
	Fasteners Fasteners     `json:"fasteners"`
	// Sheets is the bought sheets opened for this zone, and Bound the proven least for the whole zone alone; 0 unknown.
	Opened int `json:"opened"`
	Bound  int `json:"bound"`
}

// Panel is one piece as it hangs. Edges are bottom, right, top, left.
type Panel struct {
	ID      string          `json:"id"`
	Outline shape.Polygon   `json:"outline"`
	Holes   []shape.Polygon `json:"holes"`
	Course  int             `json:"course"`
	Sheet   string          `json:"sheet"`
	Edges   [4]Edge         `json:"edges"`
}

// Edge is what a panel's side is.
type Edge string

// Kinds of edge: the long factory edge, the short factory edge, a cut one, and a square long factory edge.
const (
	EdgeTapered Edge = "tapered"
	EdgeSquare  Edge = "square"
	EdgeEnd     Edge = "end"
	EdgeCut     Edge = "cut"
)

// Joint is a line where panels meet each other or something else.
type Joint struct {
	Kind    JointKind   `json:"kind"`
	From    shape.Point `json:"from"`
	To      shape.Point `json:"to"`
	Panels  []string    `json:"panels"`
	Support Support     `json:"support"`
}

// Long is the joint's length, rounded once where it is slanted.
func (j Joint) Long() length.Length {
	dx, dy := (j.To.X - j.From.X).Abs(), (j.To.Y - j.From.Y).Abs()
	if dx == 0 || dy == 0 {
		return dx + dy
	}
	return length.FromMM(math.Hypot(dx.MM(), dy.MM()))
}

// JointKind says how a joint is finished.
type JointKind string

// Kinds of joint.
const (
	Tapered       JointKind = "tapered"
	Mixed         JointKind = "mixed"
	Butt          JointKind = "butt"
	PanelGap      JointKind = "panel"
	InsideCorner  JointKind = "inside-corner"
	OutsideCorner JointKind = "outside-corner"
	Trim          JointKind = "trim"
	Control       JointKind = "control"
	Perimeter     JointKind = "perimeter"
)

// Support is what lies behind a joint.
type Support string

// Kinds of support.
const (
	OnMember    Support = "member"
	OnPlate     Support = "plate"
	OnBacking   Support = "backing"
	OnBackBlock Support = "back-block"
	OnBlocking  Support = "blocking"
	Unsupported Support = "none"
)

// Fasteners are the screws of a layer.
type Fasteners struct {
	Count     int           `json:"count"`
	Points    []shape.Point `json:"points"`
	Length    length.Length `json:"length"`
	Supply    string        `json:"supply"`
	Longest   length.Length `json:"longest"` // screw that may stand here, for what runs behind
	WidestGap length.Length `json:"widest_gap"`
	// Spacing is the working spacing along a member in the field of a sheet, Limit the table's; see Basis.
	Spacing length.Length `json:"spacing"`
	Limit   length.Length `json:"limit"`
	// Short of the points lie in keep-outs and take shorter screws.
	Short       int           `json:"short"`
	ShortLength length.Length `json:"short_length"`
	ShortSupply string        `json:"short_supply"`
	// Laminating of them stand between members and hold in gypsum board behind: they take laminating screws.
	Laminating       int           `json:"laminating"`
	LaminatingLength length.Length `json:"laminating_length"`
	LaminatingSupply string        `json:"laminating_supply"`
	Basis            Fact          `json:"basis"`
	Source           Fact          `json:"source"`
	// Gaps is the widest distance between neighbouring screws along a member, sheet by sheet.
	Gaps []SheetGap `json:"gaps"`
}

// SheetGap is the widest gap of one sheet and its middle.
type SheetGap struct {
	Panel  string        `json:"panel"`
	Widest length.Length `json:"widest"`
	At     shape.Point   `json:"at"`
}

// Sheet is one factory sheet or stock piece, and how it is cut up.
type Sheet struct {
	ID      string           `json:"id"`
	Product string           `json:"product"`
	Size    [2]length.Length `json:"size"`
	Kerf    length.Length    `json:"kerf"`
	Source  Source           `json:"source"`
	Price   money.Money      `json:"price"`
	Parts   []Part           `json:"parts"`
	Offcuts []shape.Rect     `json:"offcuts"`
	Cuts    []Cut            `json:"cuts"`
	// Rests says what becomes of every offcut. Setups counts how often saw or knife is set for this sheet; Like is the
	// first sheet that is cut in the same way, itself where it is that.
	Rests  []Rest `json:"rests"`
	Setups int    `json:"setups"`
	Like   string `json:"like"`
}

// Rest is what is left of a sheet, and what becomes of it.
type Rest struct {
	Rect shape.Rect `json:"rect"`
	Use  Use        `json:"use"`
}

// Use is what becomes of a rest.
type Use string

// What becomes of a rest. Pieces for another surface are parts, not rests.
const (
	Keep  Use = "keep"
	Waste Use = "waste"
)

// Source says whether a sheet is bought or on hand.
type Source string

// Sources of a sheet.
const (
	Buy   Source = "buy"
	Stock Source = "stock"
)

// Part is where a panel is cut from its sheet: x along the sheet's length. Turned: the sheet's long edge stands
// upright on the wall.
type Part struct {
	Panel  string     `json:"panel"`
	Rect   shape.Rect `json:"rect"`
	Turned bool       `json:"turned"`
	// Surface is where it goes. Later: another part of the sheet is hung on an earlier surface, so this one is an offcut
	// that waits.
	Surface string `json:"surface"`
	Later   bool   `json:"later"`
	// Ease is what is trimmed off the length of a whole sheet that is as long as the bay it goes into, between two fixed
	// faces; it is cut in the part afterwards, like notches. 0: none.
	Ease length.Length `json:"ease"`
	// Pair is the raked piece that shares the rectangle, nil where the part has it to itself.
	Pair *Pair `json:"pair,omitempty"`
}

// Pair is the other half of a rectangle that holds two raked pieces, and the slanted cut that parts them once the straight
// cuts have freed it. The part itself lies below the cut, or left of it where the cut runs from the lower to the upper
// edge; the other half lies beyond the blade.
type Pair struct {
	Panel   string `json:"panel"`
	Turned  bool   `json:"turned"`
	Surface string `json:"surface"`
	Later   bool   `json:"later"`
	// HalfRound tells whether the part, and the other half, lie turned half round in their plane, never face down.
	HalfRound [2]bool `json:"half_round"`
	// Order continues that of the cuts. From and To lie on the near side of the blade. Measures are its places: up the left
	// and the right end from the lower edge, or along the lower and the upper edge from the left end.
	Order    int              `json:"order"`
	From     shape.Point      `json:"from"`
	To       shape.Point      `json:"to"`
	Measures [2]length.Length `json:"measures"`
}

// Slants are the slanted cuts of a sheet, which follow its straight ones.
func (s *Sheet) Slants() (pairs []*Pair) {
	for i := range s.Parts {
		if s.Parts[i].Pair != nil {
			pairs = append(pairs, s.Parts[i].Pair)
		}
	}
	return pairs
}

// Steep tells whether the slanted cut runs from the lower to the upper edge of its rectangle r, rather than from end to
// end.
func (p *Pair) Steep(r shape.Rect) bool { return p.From.X != r.X || p.To.X != r.MaxX() }

// Cut is one straight cut right across the piece it is made in; from and to lie on the near side of the blade.
type Cut struct {
	Order int         `json:"order"`
	Kind  string      `json:"kind"` // cross | rip
	From  shape.Point `json:"from"`
	To    shape.Point `json:"to"`
	// Measure is how far the cut is marked from Edge, an edge of the piece that it is made in, as the sheet lies. Cuts with
	// one Setup follow each other at one setting of saw or knife; set-ups are counted from 1.
	Measure length.Length `json:"measure"`
	Edge    Side          `json:"edge"`
	Setup   int           `json:"setup"`
}

// Side is an edge of a piece as its sheet lies, the length of the sheet from left to right.
type Side string

// The four edges.
const (
	Left   Side = "left"
	Right  Side = "right"
	Bottom Side = "bottom"
	Top    Side = "top"
)

// Summary is the job in a few numbers.
type Summary struct {
	SheetsBought int           `json:"sheets_bought"`
	SheetsBound  int           `json:"sheets_bound"`
	StockUsed    int           `json:"stock_used"`
	Waste        float64       `json:"waste"`
	ButtJoint    length.Length `json:"butt_joint"`
	TaperedJoint length.Length `json:"tapered_joint"`
	MixedJoint   length.Length `json:"mixed_joint"`
	Screws       int           `json:"screws"`
	Hours        float64       `json:"hours"`
	Days         int           `json:"days"`
	Finish       string        `json:"finish"`
	Weight       float64       `json:"weight_kg"` // of the sheets that are bought
	Setups       int           `json:"setups"`    // of saw or knife, sheets that are cut alike cut together
	Searching    bool          `json:"searching,omitempty"`
}

// Answer is one of the named answers: least cost, fewest sheets, fewest butt joints. It holds what the plan for that aim
// prints.
type Answer struct {
	Aim        string        `json:"aim"`
	Sheets     int           `json:"sheets"`
	Bound      int           `json:"bound"`
	ButtJoint  length.Length `json:"butt_joint"`
	MixedJoint length.Length `json:"mixed_joint"` // finished like butt joints, and counted with them where joints are compared
	Pieces     int           `json:"pieces"`
	Hours      float64       `json:"hours"`
	Cost       money.Money   `json:"cost"`     // the total
	OwnTime    money.Money   `json:"own_time"` // own hours at a placeholder rate, which the total does not hold; 0 where the project states one
}

// Item is one row of the takeoff.
type Item struct {
	Item   Fact        `json:"item"`
	Record string      `json:"record"` // by which a quantity of this row is recorded, whatever the language
	Thing  string      `json:"thing"`  // the same without its pack or size: rows of one thing are filled in turn
	Kind   string      `json:"kind"`   // sheet, charge, offcuts, else the kind of supply, for trim with its type: trim/base
	Supply string      `json:"supply"` // product or supply id
	Group  string      `json:"group"`  // sheets|fasteners|joints|paint|trim|sundries
	Need   float64     `json:"need"`
	Unit   string      `json:"unit"`
	Buy    int         `json:"buy"`
	Pack   string      `json:"pack"`
	Price  money.Money `json:"price"`
	Cost   money.Money `json:"cost"`
	Basis  Fact        `json:"basis"`
	Source Fact        `json:"source"`
	// Used is what has been recorded as used up, Expected what the tasks that are done should have used, Left what those
	// to come will use, all in Unit; StillBuy is the packs still to buy, opened ones counted as bought.
	Used     float64     `json:"used"`
	Holds    float64     `json:"holds"` // contents of a pack in Unit, 0 unknown
	Expected float64     `json:"expected"`
	Left     float64     `json:"left"`
	StillBuy int         `json:"still_buy"`
	StillPay money.Money `json:"still_pay"`
}

// Stick is one stock length of bead, trim or batten and the pieces cut from it, in order.
type Stick struct {
	Supply string          `json:"supply"`
	Length length.Length   `json:"length"`
	Pieces []length.Length `json:"pieces"`
}

// Cost is the money of the job.
type Cost struct {
	Currency   string        `json:"currency"`
	Material   money.Money   `json:"material"`
	Labour     money.Money   `json:"labour"`
	Tax        money.Money   `json:"tax"`
	Total      money.Money   `json:"total"`
	Rate       money.Money   `json:"rate"`        // of an own hour, that plans are compared at
	RateSource Fact          `json:"rate_source"` // as entered, or what placeholder it is and of when
	OwnTime    money.Money   `json:"own_time"`    // own hours at that rate: the labour, or beside the total where the rate is a placeholder
	Quote      money.Money   `json:"quote"`
	BreakEven  money.Money   `json:"break_even"` // own hour's worth at which doing it oneself costs the quote
	BySurface  []SurfaceCost `json:"by_surface"`
	ByRoom     []ShareCost   `json:"by_room"`
	ByTrade    []ShareCost   `json:"by_trade"` // groups of the takeoff, labour, tax
	PerArea    money.Money   `json:"per_area"` // total for each unit of lined area
	AreaUnit   string        `json:"area_unit"`
	Basis      Fact          `json:"basis"`
	Hired      Hired         `json:"hired"`
}

// ShareCost is a named part of the total; parts of one list add up to it exactly.
type ShareCost struct {
	Name string      `json:"name"`
	Cost money.Money `json:"cost"`
}

// SurfaceCost is one surface's share: sheets by where their first piece hangs, hours by the tasks on it and its part
// of the room's, weight of what hangs, and the offcuts of its sheets that are large enough to keep.
type SurfaceCost struct {
	Surface  string      `json:"surface"`
	Sheets   int         `json:"sheets"`
	Cost     money.Money `json:"cost"`
	Material money.Money `json:"material"`
	Hours    float64     `json:"hours"`
	Days     float64     `json:"days"` // of the crew's working time
	Weight   float64     `json:"weight_kg"`
	Kept     int         `json:"kept_offcuts"`
	Area     float64     `json:"area"` // lined, in the cost's area unit
	PerArea  money.Money `json:"per_area"`
}

// Task is one step of the sequence. Times are local, written 2027-03-01T08:00.
type Task struct {
	ID     string   `json:"id"`
	Name   Fact     `json:"name"`
	Kind   string   `json:"kind"` // work|wait|inspect
	Step   Step     `json:"step"`
	Trade  Trade    `json:"trade"` // with room and day, what tasks are grouped by
	Day    string   `json:"day"`   // on which it starts, 2027-03-01; "" where none is promised
	After  []string `json:"after"`
	Start  string   `json:"start"`
	Finish string   `json:"finish"`
	Hours  float64  `json:"hours"`
	Slack  float64  `json:"slack_h"`
	Done   bool     `json:"done"`
	Basis  Fact     `json:"basis"`
	Source Fact     `json:"source"`
	// Room, and Surface where the task is about one only; Product where it hangs sheets.
	Room    string `json:"room"`
	Surface string `json:"surface"`
	Product string `json:"product"`
	// Pieces are the panels that it hangs and the strips that it fixes.
	Pieces []string `json:"pieces"`
	// Meanwhile is the work planned while this wait runs.
	Meanwhile []string `json:"meanwhile"`
	DoneOn    string   `json:"done_on"`  // 2027-03-01, where it is done
	Actual    float64  `json:"actual_h"` // hours recorded when it was ticked off, 0: none
}

// Alternative is a named variant's numbers.
type Alternative struct {
	Name       string        `json:"name"`
	Cost       money.Money   `json:"cost"`
	Sheets     int           `json:"sheets"`
	Bound      int           `json:"sheets_bound"`
	Days       int           `json:"days"`
	Hours      float64       `json:"hours"`
	Waste      float64       `json:"waste"`
	Weight     float64       `json:"weight_kg"`
	ButtJoint  length.Length `json:"butt_joint"`
	MixedJoint length.Length `json:"mixed_joint"` // finished like butt joints
	Kept       int           `json:"kept_offcuts"`
	Finish     string        `json:"finish"`
	BySurface  []SurfaceCost `json:"by_surface"`
}

// Check is one finding of the rule book.
type Check struct {
	Rule   string      `json:"rule"`
	Level  Level       `json:"level"`
	Where  string      `json:"where"`
	At     shape.Point `json:"at"` // a place on that surface to look at
	Says   Fact        `json:"message"`
	Source Fact        `json:"source"`
}

// Same tells whether two findings are one.
func (c Check) Same(as Check) bool {
	return c.Rule == as.Rule && c.Level == as.Level && c.Where == as.Where && c.At == as.At && c.Says.Equal(as.Says)
}

// Level of a check.
type Level string

// Levels: a broken rule, a thing to look at, a thing to know.
const (
	Error   Level = "error"
	Caution Level = "caution"
	Note    Level = "note"
)
