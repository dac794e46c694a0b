package ui

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
)

// A choice that asks for little and gives much is said in one line; one that asks for much, or gives little, is not.
func TestAChoiceThatIsNearlyAsGoodIsSaid(t *testing.T) {
	b := newBench(t, oneRoom)
	aim := b.standing()
	other := job.AimJoints
	if aim == other {
		other = job.AimCost
	}
	now := plan.Answer{Aim: string(aim), Sheets: 11, ButtJoint: 16 * length.Foot, Cost: 100000}
	for _, c := range []struct {
		name   string
		change func(*plan.Answer)
		want   string
	}{
		{"cents halve the butt joints", func(a *plan.Answer) { a.Cost += 23; a.ButtJoint = 8 * length.Foot }, "$0.23 more takes 8 ft off 16 ft of butt joints."},
		{"a sheet for none", func(a *plan.Answer) { a.Cost += 1500; a.Sheets++; a.ButtJoint = 0 }, "$15.00 and 1 sheet more leaves no butt joint (now 16 ft)."},
		{"joints for sheets", func(a *plan.Answer) { a.Sheets -= 2; a.ButtJoint += 4 * length.Foot }, "4 ft of butt joint more saves 2 sheets."},
		{"a mixed joint is finished like a butt joint", func(a *plan.Answer) { a.Cost += 23; a.ButtJoint, a.MixedJoint = 0, 8*length.Foot }, "$0.23 more takes 8 ft off 16 ft of butt joints."},
		{"a butt joint turned into a mixed one", func(a *plan.Answer) { a.Cost += 23; a.ButtJoint, a.MixedJoint = 0, 16*length.Foot }, ""},
		{"a sheet for money", func(a *plan.Answer) { a.Sheets++; a.Cost -= 6000 }, "1 sheet more saves $60.00."},
		{"too dear", func(a *plan.Answer) { a.Cost += 2001; a.ButtJoint = 0 }, ""},
		{"too little", func(a *plan.Answer) { a.Cost += 23; a.ButtJoint -= 7 * length.Foot }, ""},
		{"the same", func(*plan.Answer) {}, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			second := now
			second.Aim = string(other)
			c.change(&second)
			b.model.Plan.Answers, b.model.Plan.Cost.Total = []plan.Answer{now, second}, now.Cost
			answer, words := b.nearly()
			require.Equal(t, c.want, words)
			if c.want == "" {
				require.Nil(t, answer)
				return
			}
			require.Equal(t, string(other), answer.Aim)
			b.model.Plan.Summary.Searching = true
			_, other := b.nearly()
			require.Empty(t, other, "estimates are not spoken of")
			b.model.Plan.Summary.Searching = false
			b.ledger.refresh(PlanChanged)
			require.True(t, hasText(b.ledger.head, wrap(words, sizeSmall, false, ledgerInner)[0]))
		})
	}
}
