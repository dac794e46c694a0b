package policy

import (
	"seamwright/calc/job"
	"seamwright/calc/plan"
)

// kilogramsPerPound is exact by definition.
const kilogramsPerPound = 0.45359237

// OneLift is the greatest weight for one person under the best conditions, in kg: the load constant of the revised
// NIOSH lifting equation, 51 lb (read). Sheets weigh more than that as a rule; see Carries for what crews put up with.
const OneLift = 51 * kilogramsPerPound

// What a crew carries where it names no figure of its own. One person's figure lets a 4x8 of 5/8 in board pass, 70.4 lb,
// and no 4x12 of 1/2 in board, 76.8 lb: what one hanger handles alone day by day and what not.
var (
	carries = job.Figure{ID: "carry-weight", Value: 72, Unit: "lb", Status: job.Practice}
	hands   = job.Figure{ID: "carry-hands", Value: 2, Unit: "people", Status: job.Practice}
	lifted  = job.Figure{ID: "lift-weight", Value: 150, Unit: "lb", Status: job.Practice}
)

// Figures are the adjustable numbers of the policy.
var Figures = []job.Figure{carries, hands, lifted}

// Heaviest is the heaviest sheet for the crew in kg, and what that goes by; 0: the project says nothing of its crew.
func Heaviest(j *job.Job) (kg float64, why plan.Fact) {
	c := j.Site.Crew
	switch {
	case !c.Known:
		return 0, plan.Fact{}
	case c.Heaviest > 0:
		return c.Heaviest, plan.Entered()
	}
	people := min(float64(max(j.Site.People, 1)), hands.Of(j))
	kg = carries.Of(j) * people * kilogramsPerPound
	if device := lifted.Of(j) * kilogramsPerPound; c.Lift && device > kg {
		return device, plan.Cited(plan.Tell("policy.device", "weight", plan.Kilograms(device)), string(lifted.Status))
	}
	return kg, plan.Cited(plan.Tell("policy.people", "count", people, "weight", plan.Kilograms(carries.Of(j)*kilogramsPerPound)), string(carries.Status))
}
