package plan

// Step is what a task does, whichever room and wall it does it for. What decides by kind of work asks for it; ids and names
// are for people.
type Step string

// The steps of the work, in the order of the trade.
const (
	LookStep      Step = "look"       // look behind, photograph what will be hidden
	CarryStep     Step = "carry"      // bring sheets in
	PlateStep     Step = "nail-plate" // plates in front of cables and pipes
	BlockStep     Step = "block"      // blocks and back-blocks behind joints
	MarkStep      Step = "mark"       // mark the members
	LevelStep     Step = "level"      // strike the level line
	ShimStep      Step = "shim"       // shims on the level line
	HangStep      Step = "hang"       // cut and hang sheets
	ReturnStep    Step = "return"     // strips of board in openings
	ScrewStep     Step = "screw-check"
	InspectStep   Step = "inspect"
	SealStep      Step = "seal"     // sealant round boxes
	CoverStep     Step = "cover"    // paper on the floor
	FillStep      Step = "fill"     // gaps before taping
	BeadStep      Step = "bead"     // bead, edge trim, control joints
	TapeStep      Step = "tape"     // tape in the first coat
	CoatStep      Step = "coat"     // further coats on joints
	SmoothStep    Step = "smooth"   // sand between coats
	SkimStep      Step = "skim"     // level 5
	DryStep       Step = "dry"      // compound, paint or clear coat dries
	SandStep      Step = "sand"     // sand the finished joints
	DustStep      Step = "dust-off" // before the first paint
	MaskStep      Step = "mask"
	PrimeStep     Step = "prime"
	RakingStep    Step = "raking-look"
	PaintStep     Step = "paint"
	UnmaskStep    Step = "unmask"
	PanelCoatStep Step = "panel-coat" // clear coats on wood panels
	RestStep      Step = "rest"       // wood panels take on the air of the room
	StripStep     Step = "edge-strip" // strips on edges of wood panels
	BattenStep    Step = "batten"
	CasingStep    Step = "casing"
	BaseStep      Step = "base-trim"
	BoxStep       Step = "box-cover" // box extenders and covers
)

// Trade is who does a step, and the word that a group of tasks goes by.
type Trade string

// The trades of a job, in the order in which they come.
const (
	Prepare Trade = "prepare"
	Hang    Trade = "hang"
	Finish  Trade = "finish"
	Coat    Trade = "paint"
	Panels  Trade = "panels"
	Trims   Trade = "trim"
)

// Trade of a step; what dries belongs to the coat before it, which the caller knows.
func (s Step) Trade() Trade {
	switch s {
	case LookStep, CarryStep, PlateStep, BlockStep, MarkStep, LevelStep, ShimStep:
		return Prepare
	case HangStep, ReturnStep, ScrewStep, InspectStep:
		return Hang
	case MaskStep, PrimeStep, RakingStep, PaintStep, UnmaskStep:
		return Coat
	case PanelCoatStep, RestStep:
		return Panels
	case StripStep, BattenStep, CasingStep, BaseStep, BoxStep:
		return Trims
	}
	return Finish
}

// Kinds of rows that are no supply of the catalog.
const (
	SheetKind   = "sheet"
	ChargeKind  = "charge"  // delivery, hire
	OffcutsKind = "offcuts" // cut from what is left over
)

// usedBy is the steps that use up what a row buys, by the kind of the row: a kind of supply, for trim with its type.
var usedBy = map[string][]Step{
	SheetKind: {HangStep}, OffcutsKind: {ReturnStep, BlockStep}, "screw": {HangStep, ReturnStep},
	"compound": {TapeStep, CoatStep, SkimStep}, "setting-compound": {TapeStep, CoatStep, SkimStep}, "tape": {TapeStep},
	"corner-bead": {BeadStep}, "control-joint": {BeadStep}, "primer": {PrimeStep}, "paint": {PaintStep}, "clear-finish": {PanelCoatStep},
	"masking-tape": {MaskStep}, "masking-paper": {MaskStep}, "floor-paper": {CoverStep}, "sandpaper": {SmoothStep, SandStep},
	"trim/base": {BaseStep}, "trim/casing": {CasingStep}, "panel-edge": {StripStep}, "batten": {BattenStep}, "lumber": {BlockStep},
	"shim": {ShimStep}, "box-extender": {BoxStep}, "nail-plate": {PlateStep}, "caulk": {SealStep},
}

// UsedBy is the steps that use up a row of a kind; none where no task does.
func UsedBy(kind string) []Step { return usedBy[kind] }
