package price

import (
	"fmt"
	"math"
	"strings"

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
		Source: "product weights as the catalog gives them; revised NIOSH lifting equation (read); floor load of IRC R301.5 (from memory)"}
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
	h.Basis = fmt.Sprintf("delivery: sum of count x area x weight by area; one stack: %s on %.2f m2 under the largest sheet; spread: %s at %s by m2 want %.1f m2; longest sheet: the least of (a^(2/3) + b^(2/3))^(3/2) over the corners on the way in",
		kilograms(Weight(j, p)), largest.SquareMetres(), kilograms(Weight(j, p)), kilograms(floorLoad), h.Needs)
	return h
}

func kilograms(w float64) string { return fmt.Sprintf("%.1f kg", w) }

// Checks are the cautions of getting sheets in and up: those that do not go through door and corridor, those too heavy
// for one person, and stacks too high for an ordinary floor.
func Checks(j *job.Job, p *plan.Plan) []plan.Check {
	imperial := j.Units != job.Metric
	kg := func(w float64) string {
		if imperial {
			return fmt.Sprintf("%.1f lb", w/kilogramsPerPound)
		}
		return fmt.Sprintf("%.1f kg", w)
	}
	var stuck, heavy, stacks []string
	for _, k := range sheetKinds(p) {
		product := j.Product(k.product)
		if product == nil {
			continue
		}
		name := k.product + " " + job.SizeName(k.long, k.wide, imperial)
		why := whyBought(p, k)
		switch longest, ok := policy.LongestSheet(j.Site.Access, k.wide); {
		case !ok:
			stuck = append(stuck, name+" (wider than the door or the stair's headroom is high"+why+")")
		case longest > 0 && k.long > longest:
			stuck = append(stuck, fmt.Sprintf("%s (at most %s long%s)", name, longest.Show(imperial), why))
		}
		if w := product.SheetWeight(k.long, k.wide); w > policy.OneLift {
			heavy = append(heavy, fmt.Sprintf("%s (%s)", name, kg(w)))
		}
		if most := int(floorLoad / product.Weight); product.Weight > 0 && k.count > most {
			stacks = append(stacks, fmt.Sprintf("%d of %s (stacks of %d at most)", k.count, name, most))
		}
	}
	var found []plan.Check
	say := func(rule string, sheets []string, source, words string) {
		if len(sheets) > 0 {
			found = append(found, plan.Check{Rule: rule, Level: plan.Caution, Message: strings.Join(sheets, ", ") + words, Source: source})
		}
	}
	say("access", stuck, "geometry: (a^(2/3) + b^(2/3))^(3/2)",
		": carried upright and level, such sheets do not go through the door or round the corner on the way in; try them tilted, bring them through a window, or choose others")
	say("lifting", heavy, "revised NIOSH lifting equation, load constant 51 lb",
		": lift them with two people or a lifting device; "+kg(policy.OneLift)+" is one person's limit at best")
	say("stack", stacks, "IRC R301.5, 40 lb/ft² (from memory)",
		": one stack would load the floor more than a usual one is meant for; spread the sheets along walls and ask if in doubt")
	return found
}

// whyBought says why a size is bought that a limit keeps out, as a part of a sentence.
func whyBought(p *plan.Plan, k sheetCount) string {
	for _, o := range p.Sizes {
		if o.Product == k.product && o.Size == [2]length.Length{k.long, k.wide} && o.Why != "" {
			return "; bought since " + o.Why
		}
	}
	return ""
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
