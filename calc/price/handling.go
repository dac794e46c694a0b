package price

import (
	"math"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/policy"
)

// kilogramsPerPound is exact by definition.
const kilogramsPerPound = 0.45359237

// Weight is the weight of the sheets that are bought, in kg.
func Weight(j *job.Job, p *plan.Plan) float64 {
	sum := 0.0
	for _, s := range p.Sheets {
		if product := j.Product(s.Product); product != nil && s.Source == plan.Buy {
			sum += product.SheetWeight(s.Size[0], s.Size[1])
		}
	}
	return sum
}

// grams rounds a weight, or a load, to the gram: finer than anybody weighs, so that what is shown is rounded once, in the
// units of the project.
func grams(kg float64) float64 { return math.Round(kg*1000) / 1000 }

// floorLoad is the residential live load that a stack is compared with, in kg/m²: 40 lb/ft² (IRC R301.5, from memory).
const floorLoad = 40 * kilogramsPerPound / (0.3048 * 0.3048)

// handling lists what getting the sheets in and up asks for.
func handling(j *job.Job, p *plan.Plan) plan.Handling {
	h := plan.Handling{Delivery: grams(Weight(j, p)), OneLift: grams(policy.OneLift), Floor: grams(floorLoad), Sheets: []plan.SheetLift{},
		Source: plan.Tell("source.handling")}
	largest := length.Area(0)
	for _, k := range sheetKinds(p) {
		product := j.Product(k.product)
		if product == nil {
			continue
		}
		one := product.SheetWeight(k.long, k.wide)
		longest, ok := policy.LongestSheet(j.Site.Access, k.wide)
		lift := plan.SheetLift{Product: k.product, Size: [2]length.Length{k.long, k.wide}, Count: k.count, Weight: grams(one), Together: grams(one * float64(k.count)),
			TwoPeople: one > policy.OneLift, Longest: longest, Passes: ok && (longest == 0 || k.long <= longest)}
		if product.Weight > 0 {
			lift.Stack = int(floorLoad / product.Weight)
		}
		h.Sheets = append(h.Sheets, lift)
		largest = max(largest, k.long.Times(k.wide))
	}
	if largest > 0 {
		h.Stacked = grams(Weight(j, p) / largest.SquareMetres())
	}
	h.Needs = grams(Weight(j, p) / floorLoad)
	h.Basis = plan.Tell("price.handling", "weight", plan.Kilograms(h.Delivery), "largest", largest, "load", plan.KilogramsM2(floorLoad),
		"needs", length.Area(math.Round(h.Needs*float64(length.SquareMetre))))
	return h
}

// Checks are the cautions of getting sheets in and up: those that do not go through door and corridor, those too heavy
// for one person, and stacks too high for an ordinary floor.
func Checks(j *job.Job, p *plan.Plan) []plan.Check {
	imperial := j.Units != job.Metric
	var stuck, heavy, stacks []plan.Fact
	for _, k := range sheetKinds(p) {
		product := j.Product(k.product)
		if product == nil {
			continue
		}
		sheet := plan.Tell("item.sheet", "product", k.product, "size", job.SizeName(k.long, k.wide, imperial))
		switch longest, ok := policy.LongestSheet(j.Site.Access, k.wide); {
		case !ok:
			stuck = append(stuck, boughtAnyway(p, k, plan.Tell("price.too-wide", "sheet", sheet)))
		case longest > 0 && k.long > longest:
			stuck = append(stuck, boughtAnyway(p, k, plan.Tell("price.too-long", "sheet", sheet, "longest", longest)))
		}
		if w := product.SheetWeight(k.long, k.wide); w > policy.OneLift {
			heavy = append(heavy, plan.Tell("price.weighs", "sheet", sheet, "weight", plan.Kilograms(w)))
		}
		if most := int(floorLoad / product.Weight); product.Weight > 0 && k.count > most {
			stacks = append(stacks, plan.Tell("price.stacked", "number", k.count, "sheet", sheet, "most", most))
		}
	}
	var found []plan.Check
	say := func(rule string, sheets []plan.Fact, what, source plan.Fact) {
		if len(sheets) > 0 {
			found = append(found, plan.Check{Rule: rule, Level: plan.Caution, Says: what, Source: source})
		}
	}
	say("access", stuck, plan.Tell("price.access", "sheets", stuck), policy.WayIn())
	say("lifting", heavy, plan.Tell("price.lifting", "sheets", heavy, "limit", plan.Kilograms(policy.OneLift)), plan.Tell("source.niosh-lift"))
	say("stack", stacks, plan.Tell("price.stack", "sheets", stacks), plan.CiteMemory("IRC R301.5, 40 lb/ft²"))
	return found
}

// boughtAnyway tells of a sheet why it is bought though a limit keeps it out, where that is so.
func boughtAnyway(p *plan.Plan, k sheetCount, sheet plan.Fact) plan.Fact {
	for _, o := range p.Sizes {
		if o.Product == k.product && o.Size == [2]length.Length{k.long, k.wide} && !o.Why.None() {
			return plan.Tell("price.bought-anyway", "sheet", sheet, "why", o.Why)
		}
	}
	return sheet
}

type sheetCount struct {
	product    string
	long, wide length.Length
	count      int
}

// sheetKinds counts bought sheets by product and size, in the order of the cut list.
func sheetKinds(p *plan.Plan) []sheetCount {
	var kinds []sheetCount
	at := map[sheetCount]int{}
	for _, s := range p.Sheets {
		if s.Source != plan.Buy {
			continue
		}
		k := sheetCount{product: s.Product, long: max(s.Size[0], s.Size[1]), wide: min(s.Size[0], s.Size[1])}
		i, known := at[k]
		if !known {
			i = len(kinds)
			at[k] = i
			kinds = append(kinds, k)
		}
		kinds[i].count++
	}
	return kinds
}
