package board

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc/guard"
	"seamwright/calc/job"
	"seamwright/calc/layout"
	"seamwright/calc/length"
	"seamwright/calc/nest"
	"seamwright/calc/plan"
	"seamwright/calc/survey"
)

// What no sheet gives is the project's to mend, and names its surface; what the cutting refuses though every piece fits a
// sheet is a fault of the program.
func TestAPieceThatFitsNoSheetIsPlaced(t *testing.T) {
	const in = length.Inch
	board := job.Product{ID: "gyp-12", Kind: job.Gypsum, Tapered: true, Sizes: []job.Size{{Length: 96 * in, Width: 48 * in}}}
	j := &job.Job{Units: job.Imperial}
	s := &survey.Surface{Surface: plan.Surface{ID: "r/north"}}
	d := &Draft{solver: &solver{job: j, zones: []*survey.Zone{{Surface: s, Index: 1}, {Surface: s, Index: 2}}}}
	fits, long := layout.Size{L: 96 * in, W: 48 * in, Tapers: 2}, layout.Size{L: 97 * in, W: 12 * in, Tapers: 1}
	where := [][2]int{{0, 0}, {1, 0}}
	told := &nest.ProblemError{What: "item", Index: 1, Why: "fits none"}

	var refusal *job.Refusal
	require.ErrorAs(t, d.refused(told, &board, []layout.Size{fits, long}, where), &refusal)
	require.Equal(t, `r/north: a piece of gyp-12, 8' 1" by 1' 0" with a tapered edge, fits none of its sheets: `+
		"choose another product here, or add a larger size to its sizes in the catalog", refusal.Error())
	require.Equal(t, "lining", refusal.Key)
	require.Equal(t, 2, refusal.Item)

	var fault *guard.Fault
	require.ErrorAs(t, d.refused(told, &board, []layout.Size{fits, fits}, where), &fault)
	other := errors.New("cancelled")
	require.Equal(t, other, d.refused(other, &board, nil, nil))
}
