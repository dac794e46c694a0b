package price_test

import (
	"testing"

	"seamwright/calc/internal/fact"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/policy"
	"seamwright/calc/price"
)

func TestFacts(t *testing.T) {
	fact.Check(t, []fact.Fact{
		fact.Is("corridors of 8 and 27 m, longest rod", policy.RoundCorner(8*length.Metre, 27*length.Metre).Metres(), 46.872, 0.001, "(4 + 9)^1.5", job.Derived),
		fact.Is("one person's lift, lb", policy.OneLift/0.45359237, 51, 1e-9, "revised NIOSH lifting equation, load constant", job.Read),
		fact.Is("one person's lift, kg", policy.OneLift, 23, 0.2, "the same standard in kilograms", job.Read),
		fact.Is("5 % on 112 sheets of wall", float64(price.Spare(112, 0.05)), 118-112, 0, "Peterson and Dagostino, Estimating in Building Construction, 7th ed., ex. 16-3", job.Read),
		fact.Is("5 % on 38 sheets of ceiling", float64(price.Spare(38, 0.05)), 40-38, 0, "the same", job.Read),
	})
}
