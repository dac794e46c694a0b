package calc

import (
	"context"

	"seamwright/calc/board"
	"seamwright/calc/job"
	"seamwright/calc/plan"
	"seamwright/calc/policy"
)

// SeamPlaces tells where one seam of a plan may be moved to by hand, and for every other place why not; for a hand that
// drags a seam. The job is the one that the plan answers. Joint is the index of the seam in the joints of the zone and
// layer of the surface. An end joint moves within its course (pin it there); a joint between level courses moves across
// them (fix the courses so). Seams fixed by hand elsewhere stay, all other seams are planned anew: a place is lawful
// though a seam that is not fixed lies too near now, and Gives names that seam. Whether a lawful place leaves a lawful
// plan for the whole zone the plan itself must tell. An error says in words why this joint cannot be moved at all.
// It is quick: a fraction of a frame for one seam.
func SeamPlaces(j *job.Job, p *plan.Plan, surface string, zone, layer, joint int) (*plan.SeamPlaces, error) {
	sizes := policy.Of(j)
	sizes.AllowAs(p.Sizes)
	o, err := surveyed(context.Background(), j, sizes, nil)
	if err != nil {
		return nil, err
	}
	return board.SeamPlaces(o.job, o.building, p, surface, zone, layer, joint)
}
