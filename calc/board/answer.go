package board

import (
	"seamwright/calc/length"
	"seamwright/calc/memo"
	"seamwright/calc/money"
	"seamwright/calc/plan"
)

// Answer is a lawful layout of a whole building and the sheets it is cut from.
type Answer struct {
	Zones   []plan.Zone // parallel to the building's zones: surfaces in order, their zones in order; panels and joints filled
	Sheets  []plan.Sheet
	Bound   int // proven least number of bought sheets over all lawful layouts, summed over products
	Bounds  []ProductBound
	Checks  []plan.Check // rules that no layout can obey here, and pins that break one, with the nearest lawful place
	Butt    length.Length
	Tapered length.Length
	Mixed   length.Length
	Pieces  int
	Breaks  int         // weight of the rules that are broken
	Cost    money.Money // sheets, joints and own time as the search counts them, at the project's rate
	// Hung is the key, for each room of the building, of its zones with all that they hold but the sheets of the panels.
	Hung []memo.Key `json:"-"`

	quantities quantities
}

// ProductBound is the proven least number of sheets of one product.
type ProductBound struct {
	Product       string
	Sheets, Bound int
}
