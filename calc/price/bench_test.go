package price_test

import (
	"fmt"
	"testing"

	"seamwright/calc/fasten"
	"seamwright/calc/finish"
	"seamwright/calc/internal/sample"
	"seamwright/calc/plan"
	"seamwright/calc/price"
	"seamwright/calc/survey"
)

// BenchmarkStages takes a number of rooms of four walls and a ceiling through screws, quantities and money. Growth should
// stay near linear.
func BenchmarkStages(b *testing.B) {
	for _, rooms := range []int{1, 12, 120} {
		b.Run(fmt.Sprintf("%d-walls", 4*rooms), func(b *testing.B) {
			j := sample.Job()
			building, p := &survey.Building{}, &plan.Plan{}
			for i := range rooms {
				one, q := sample.Room(j, fmt.Sprintf("r%03d", i), "gyp-12", 16*foot, 12*foot, 8*foot, 8*foot, 4)
				building.Surfaces = append(building.Surfaces, one.Surfaces...)
				p.Surfaces, p.Sheets = append(p.Surfaces, q.Surfaces...), append(p.Sheets, q.Sheets...)
			}
			b.ReportAllocs()
			for b.Loop() {
				fasten.Fasten(j, building, p)
				price.Price(j, p, finish.Finish(j, building, p, nil, finish.Thorough), finish.Measures(j, building, p))
			}
		})
	}
}
