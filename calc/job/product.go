package job

import (
	"sort"
	"strconv"

	"seamwright/calc/length"
	"seamwright/calc/money"
)

// Product is a sheet good for sale.
type Product struct {
	ID        string
	Name      string
	Kind      Kind
	Thickness length.Length
	Tapered   bool    // both long edges tapered; else square
	Weight    float64 // kg/m²
	FireType  bool    // type X or F core
	Moisture  bool    // moisture resistant core and face
	Sag       bool    // sag-resistant
	Strand    bool    // wood panel of strands (OSB), not of plies
	Kerf      length.Length
	Gap       length.Length // between panels
	Sizes     []Size
	Dated     string // day of the shipped or user's price
	Source    string // where price and figures come from
}

// MetricBoard says whether a gypsum board is made to millimetres (EN 520: 9.5, 12.5, 15 mm) and not to inches: its thickness
// is a whole number of half millimetres. Then the rules for metric boards hold.
func (p *Product) MetricBoard() bool {
	return p.Kind == Gypsum && p.Thickness > 0 && p.Thickness%(length.Millimetre/2) == 0
}

// Kind of sheet good.
type Kind string

// Kinds of sheet goods.
const (
	Gypsum    Kind = "gypsum"
	WoodPanel Kind = "wood" // plywood and OSB
)

// Size is one sheet size that the trade sells; Length runs with the paper or grain.
type Size struct {
	Length, Width length.Length
	Price         money.Money
	NotSold       bool // the yard of this job does not have it
}

// Name is the size as the trade writes it.
func (s Size) Name(imperial bool) string { return SizeName(s.Length, s.Width, imperial) }

// SizeName writes a sheet size as the trade does, width before length: 4x8, 4.5x12 in feet where both are whole or half
// ones, else inches; millimetres in metric projects.
func SizeName(long, wide length.Length, imperial bool) string {
	const half = length.Foot / 2
	number := func(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
	switch {
	case imperial && long%half == 0 && wide%half == 0:
		return number(wide.Feet()) + "x" + number(long.Feet())
	case imperial && long%(length.Inch/16) == 0 && wide%(length.Inch/16) == 0:
		return number(wide.In()) + "x" + number(long.In()) + " in"
	}
	return number(wide.MM()) + "x" + number(long.MM()) + " mm"
}

// SheetWeight is the weight of a sheet in kg.
func (p *Product) SheetWeight(long, wide length.Length) float64 {
	return float64(p.Weight * long.Times(wide).SquareMetres())
}

// Supply is anything bought that is not a sheet: screws, compound, tape, bead, primer, paint, trim, paper.
type Supply struct {
	ID     string
	Name   string
	Kind   string        // screw, compound, setting-compound, tape, corner-bead, primer, paint, trim, batten, masking-tape, ...
	Type   string        // screws: W, S or G; beads: outside, trim
	Length length.Length // screws: their length; sticks: 0, see Packs
	Packs  []Pack        // ways of buying it
	Dated  string
	Source string
}

// Pack is one way of buying a supply: what it holds, in the unit named, for a price.
type Pack struct {
	Name  string
	Holds float64 // count, gallons, feet, square feet: see Unit
	Unit  string
	Price money.Money
}

// Product finds a product by id, or nil.
func (j *Job) Product(id string) *Product {
	i := sort.Search(len(j.Products), func(i int) bool { return j.Products[i].ID >= id })
	if i < len(j.Products) && j.Products[i].ID == id {
		return &j.Products[i]
	}
	return nil
}

// SuppliesOf lists the supplies of one kind, in id order.
func (j *Job) SuppliesOf(kind string) []Supply {
	var s []Supply
	for _, x := range j.Supplies {
		if x.Kind == kind {
			s = append(s, x)
		}
	}
	return s
}
