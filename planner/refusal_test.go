package planner

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"seamwright/calc"
	"seamwright/calc/job"
)

// Every place that the calculation can name is found in the file, whether it is written there or not: ¦ marks it.
func TestRefusalsHaveAPlace(t *testing.T) {
	const src = `seamwright: 1
rooms:
  - id: shed
    height: 8'
    corners: [[0, 0], ¦1[12', 0], [12', 10'], [0, 10']]
    ceiling: {lining: ¦2[{product: gyp-12}], openings: [{id: h, at: [1', 1'], size: [1', 1']}, ¦3{id: i, at: [4', 4'], size: [1', 1']}]}
    walls:
      - ¦4side: 1
        lining: [{product: gyp-12, to: 4'}, ¦5{product: gyp-12}]
        top: ¦6[[0, 7'], [12', 7']]
alternatives:
  - ¦7name: ply
    set: [{walls: [shed/north], lining: ¦8[{product: ply-18}]}]
`
	for _, c := range []struct {
		mark string
		job.Refusal
	}{
		{"¦1", job.Refusal{Where: "shed/east", Key: "lining"}},
		{"¦2", job.Refusal{Where: "shed/ceiling", Key: "lining"}},
		{"¦2", job.Refusal{Where: "shed/ceiling-south", Key: "lining", Item: 7}},
		{"¦3", job.Refusal{Where: "shed/ceiling", Key: "openings", Item: 2}},
		{"¦4", job.Refusal{Where: "shed/south", Key: "bottom"}},
		{"¦5", job.Refusal{Where: "shed/south", Key: "lining", Item: 2}},
		{"¦6", job.Refusal{Where: "shed/south", Key: "top"}},
		{"¦7", job.Refusal{Where: "shed/south", Key: "lining", Alternative: "ply"}},
		{"¦8", job.Refusal{Where: "shed/north", Key: "lining", Alternative: "ply"}},
	} {
		text, want := src, ""
		for k := 1; k < 9; k++ {
			mark := fmt.Sprintf("¦%d", k)
			if before, _, _ := strings.Cut(text, mark); mark == c.mark {
				line := before[strings.LastIndex(before, "\n")+1:]
				want = fmt.Sprintf("f:%d:%d: ", 1+strings.Count(before, "\n"), 1+utf8.RuneCountInString(line))
			}
			text = strings.Replace(text, mark, "", 1)
		}
		d, err := Parse("f", []byte(text))
		require.NoError(t, err)
		c.Problem, c.Remedy = "it does not fit", "make it fit"
		got := d.Placed(fmt.Errorf("planning: %w", &c.Refusal)).Error()
		require.True(t, strings.HasPrefix(got, want), "%s should be at %s", got, want)
		require.True(t, strings.HasSuffix(got, c.Where+": it does not fit: make it fit"), got)
	}
}

// What the file may say and the calculation refuses is told like any fault of the file: an opening that a file may have,
// since only the laid-out ceiling shows that it reaches across the ridge.
func TestTheCalculationRefusesWithAPlace(t *testing.T) {
	const before = `  - {id: r, height: 8', corners: [[0, 0], [12', 0], [12', 10'], [0, 10']], ceiling: {shape: {ridge: {along: x, at: 5', height: 10'}}, openings: [`
	d, err := Parse("f", []byte("seamwright: 1\nrooms:\n"+before+"{id: h, at: [4', 4'], size: [2', 2']}]}}\n"))
	require.NoError(t, err)
	_, err = calc.Plan(context.Background(), d.Job(), nil)
	require.Error(t, err)
	want := fmt.Sprintf("f:3:%d: r/ceiling-south: the opening \"h\" does not lie wholly on one side of the ridge: over the ridge write two openings", len(before)+1)
	require.True(t, strings.HasPrefix(d.Placed(err).Error(), want), d.Placed(err).Error())
}
