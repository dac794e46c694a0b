// Package fact holds numbers of the program against numbers that stand elsewhere: published tables, standards, worked
// examples. For tests only. Every line names its source and says how well that is known;
//
//	go test ./calc/... -run TestFacts -v | grep fact:
//
// lists those that were published; what is only derived is counted apart, under "derived:".
package fact

import (
	"math"
	"testing"

	"seamwright/calc/job"
)

// Fact is one number of the program beside the one that it must meet.
type Fact struct {
	What   string
	Got    float64
	Want   float64
	Within float64 // how far they may lie apart; 0: not at all
	Source string
	Status job.Status
}

// slack bounds what sums of floating-point numbers may be off where a fact is exact.
const slack = 1e-9

// Check holds the facts one by one.
func Check(t *testing.T, facts []Fact) {
	t.Helper()
	for _, f := range facts {
		if f.What == "" || f.Source == "" || f.Status == "" {
			t.Errorf("a fact without name, source or status: %+v", f)
		}
		if math.IsNaN(f.Got) || math.Abs(f.Got-f.Want) > f.Within+slack*math.Max(1, math.Abs(f.Want)) {
			t.Errorf("%s: %.6g, but %s (%s) has %.6g", f.What, f.Got, f.Source, f.Status, f.Want)
		}
		kind := "fact"
		if f.Status == job.Derived { // our own algebra beside itself is no published number
			kind = "derived"
		}
		t.Logf("%s: %s = %.6g (%.6g ± %.3g): %s (%s)", kind, f.What, f.Got, f.Want, f.Within, f.Source, f.Status)
	}
}

// Is is a fact whose number must be as the source has it, but for what it may lie apart.
func Is(what string, got, want, within float64, source string, status job.Status) Fact {
	return Fact{What: what, Got: got, Want: want, Within: within, Source: source, Status: status}
}

// Between is a fact whose number must lie in a published range.
func Between(what string, got, low, high float64, source string, status job.Status) Fact {
	return Fact{What: what, Got: got, Want: (low + high) / 2, Within: (high - low) / 2, Source: source, Status: status}
}
