package planner

import (
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/money"
)

// SetName changes the project's name.
type SetName struct{ Name string }

// Label names the edit.
func (SetName) Label() string { return "rename project" }

// SetUnits changes how lengths are shown; lengths in the file stay as they are written, and what the file left to the
// units so far, usual framing and packs, is written out, so that the plan stays the same.
type SetUnits struct{ Units job.Units }

// Label names the edit.
func (SetUnits) Label() string { return "change units" }

// SetLanguage changes the language that the project is told in; "" takes it out of the file.
type SetLanguage struct{ Language job.Language }

// Label names the edit.
func (SetLanguage) Label() string { return "change language" }

// SetCurrency changes the currency that prices are in; it converts nothing.
type SetCurrency struct{ Currency string }

// Label names the edit.
func (SetCurrency) Label() string { return "change currency" }

// SetSold says whether the job's yard has a size of a product.
type SetSold struct {
	Product       string
	Length, Width length.Length
	Sold          bool
}

// Label names the edit.
func (SetSold) Label() string { return "change what the yard has" }

// SetAim changes what the layout makes least.
type SetAim struct{ Aim job.Aim }

// Label names the edit.
func (SetAim) Label() string { return "change aim" }

// SetSite changes where and when the work is done; only what differs is written.
type SetSite struct{ Site job.Site }

// Label names the edit.
func (SetSite) Label() string { return "change site" }

// SetRules changes the adjustable rules; only what differs is written.
type SetRules struct{ Rules job.Rules }

// Label names the edit.
func (SetRules) Label() string { return "change rules" }

// SetPaint changes the coats of paint.
type SetPaint struct{ Paint job.Paint }

// Label names the edit.
func (SetPaint) Label() string { return "change paint" }

// SetFigure gives an adjustable figure of the trade the user's own value.
type SetFigure struct {
	ID    string
	Value float64
}

// Label names the edit.
func (SetFigure) Label() string { return "change figure" }

// ResetFigure gives a figure its shipped value back.
type ResetFigure struct{ ID string }

// Label names the edit.
func (ResetFigure) Label() string { return "reset figure" }

// SetPrice changes the price of one size of a product.
type SetPrice struct {
	Product       string
	Length, Width length.Length
	Price         money.Money
}

// Label names the edit.
func (SetPrice) Label() string { return "change price" }

// SetSizes replaces the sizes of a product that are for sale.
type SetSizes struct {
	Product string
	Sizes   []job.Size
}

// Label names the edit.
func (SetSizes) Label() string { return "change sizes for sale" }

// SetPackPrice changes the price of one pack of a supply.
type SetPackPrice struct {
	Supply, Pack string
	Price        money.Money
}

// Label names the edit.
func (SetPackPrice) Label() string { return "change price" }

// AddStock adds pieces on hand.
type AddStock struct{ Stock job.Stock }

// Label names the edit.
func (AddStock) Label() string { return "add stock" }

// ChangeStock gives pieces on hand (counted from 0) other values.
type ChangeStock struct {
	Index int
	Stock job.Stock
}

// Label names the edit.
func (ChangeStock) Label() string { return "change stock" }

// RemoveStock takes pieces on hand (counted from 0) away.
type RemoveStock struct{ Index int }

// Label names the edit.
func (RemoveStock) Label() string { return "remove stock" }

// AddAlternative adds a named variant; with From it starts as a copy of that one.
type AddAlternative struct{ Name, From string }

// Label names the edit.
func (AddAlternative) Label() string { return "add alternative" }

// RenameAlternative gives a variant another name.
type RenameAlternative struct{ Name, To string }

// Label names the edit.
func (RenameAlternative) Label() string { return "rename alternative" }

// RemoveAlternative takes a variant away.
type RemoveAlternative struct{ Name string }

// Label names the edit.
func (RemoveAlternative) Label() string { return "remove alternative" }

// SetAlternativeLining gives surfaces other zones in one alternative; no zones: they follow the project again.
type SetAlternativeLining struct {
	Alternative string
	Surfaces    []string
	Zones       []job.Zone
}

// Label names the edit.
func (SetAlternativeLining) Label() string { return "choose lining" }

// TickTask records a task as done, or as not done after all.
type TickTask struct {
	Task  string
	Done  bool
	On    job.Date // zero: not noted
	Hours float64  // 0: not noted
}

// Label names the edit.
func (e TickTask) Label() string {
	if e.Done {
		return "tick task"
	}
	return "untick task"
}

// RecordUse records how much of an item a task that is ticked off used up; 0 removes the record.
type RecordUse struct {
	Task, Item string
	Quantity   float64
}

// Label names the edit.
func (RecordUse) Label() string { return "record use" }

// Lining is the edit that gives surfaces other zones where the user sees them: in the alternative shown, or in
// the project itself.
func (d *Document) Lining(surfaces []string, zones []job.Zone) Edit {
	if d.active != "" {
		return SetAlternativeLining{Alternative: d.active, Surfaces: surfaces, Zones: zones}
	}
	return SetLining{Surfaces: surfaces, Zones: zones}
}
