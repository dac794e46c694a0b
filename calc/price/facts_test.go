package price_test

import (
	"fmt"
	"testing"

	"seamwright/calc/internal/fact"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/money"
	"seamwright/calc/policy"
	"seamwright/calc/price"
)

// Textbook is Peterson and Dagostino, Estimating in Building Construction, 7th ed., as page copies show it. It counts
// by area; a layout that obeys the rules of seams differs.
func TestFacts(t *testing.T) {
	const (
		lb, ft2 = 0.45359237, 0.3048 * 0.3048
		house   = "textbook of building estimating, ex. 16-3: house of 24 by 50 ft"
		niosh   = "revised NIOSH lifting equation, V 30 in, the rest at its best"
		mill    = "birch mill's data sheet, sheet of 1220 by 2440 mm"
	)
	outer, inner, over := price.SheetsByArea(148*8, 32), price.SheetsByArea(149*8*2, 32), price.SheetsByArea(24*50, 32)
	upright := 2 * price.SheetsByArea(346, 4)
	facts := []fact.Fact{
		fact.Is("sheets of outer walls", float64(outer), 37, 0, house, job.Read),
		fact.Is("sheets of inner walls", float64(inner), 75, 0, house, job.Read),
		fact.Is("sheets of the ceiling", float64(over), 38, 0, house, job.Read),
		fact.Is("walls with 5 %", float64(outer+inner+price.Spare(outer+inner, 0.05)), 118, 0, house, job.Read),
		fact.Is("ceiling with 5 %", float64(over+price.Spare(over, 0.05)), 40, 0, house, job.Read),
		fact.Is("wall sheathing of 1,256 ft2", float64(price.SheetsByArea(1256, 32)), 40, 0, "the same textbook, ex. 13", job.Read),
		fact.Is("soffit of 156 ft2", float64(price.SheetsByArea(1.5*104, 32)), 5, 0, "the same textbook, ex. 13", job.Read),
		fact.Is("20 rooms of 640 ft2", float64(price.SheetsByArea(20*640, 32)), 400, 0, "Elementary Technical Mathematics, s. 1.3 ex. 16", job.Read),
		fact.Is("house of 864 ft2, factor 3.5, 4x12", float64(price.SheetsByArea(864*3.5, 48)), 63, 0, "house-building book, drywall ordering", job.Read),
		fact.Is("346 ft of partition upright, 5 %", float64(upright+price.Spare(upright, 0.05)), 183, 0, "the same textbook, ex. 16-2; the way to it is our reconstruction", job.Read),
		fact.Is("452 ft at 8.33 ft an hour, whole hours at 25", money.Money(2500).Times(55).Float(), 1375, 0, "man-hour example: 54.26 h taken as 55, $1,375", job.Read),
		fact.Is("one person's lift, lb", policy.OneLift/lb, 51, 0, niosh, job.Read),
		fact.Is("one person's lift, kg", policy.OneLift, 23, 0.2, niosh, job.Read),
		fact.Is("weight by area, 1/2 in board, kg/m2", 1.6*lb/ft2, 7.8, 0.02, "1.6 lb/ft2 on a maker's submittal sheet", job.Read),
		fact.Is("weight by area, 5/8 in board, kg/m2", 2.2*lb/ft2, 10.7, 0.05, "2.2 lb/ft2 on a maker's submittal sheet", job.Read),
		fact.Is("stack of 40 sheets, lb/ft2", price.StackLoad(40, 58.8*lb/(32*ft2))/(lb/ft2), 73.5, 1e-9, "floor load of 40 sheets; the sheet of 58.8 lb is worked back", job.Read),
		fact.Is("corridors of 8 and 27 m, longest rod", policy.RoundCorner(8*length.Metre, 27*length.Metre).Metres(), 46.872, 0.001, "(4 + 9)^1.5", job.Derived),
		fact.Between("three 4x8 sheets and more in one hand: weight of a 4x8 of 1/2 in, lb", (&job.Product{Weight: 1.6 * lb / ft2}).SheetWeight(8*foot, 4*foot)/lb, 50, 120,
			"drywall sheets of 50 to 120 lb, NIOSH Workplace Solutions 2006", job.Read),
	}
	for _, c := range []struct{ h, want float64 }{{10, 51.0}, {15, 34.0}, {20, 25.5}, {25, 20.4}} {
		facts = append(facts, fact.Is(fmt.Sprintf("lift at %g in, lb", c.h), price.Lift(c.h, 30, 10)/lb, c.want, 0.05, niosh, job.Derived))
	}
	for _, c := range []struct{ mm, density, want float64 }{{9, 710, 19.0}, {12, 695, 24.8}, {15, 690, 30.8}, {18, 685, 36.7}, {21, 680, 42.5}} {
		p := &job.Product{Weight: c.density * c.mm / 1000}
		facts = append(facts, fact.Is(fmt.Sprintf("birch %g mm, kg a sheet", c.mm), p.SheetWeight(2440*length.Millimetre, 1220*length.Millimetre), c.want, 0.06, mill, job.Read))
	}
	fact.Check(t, facts)
}
