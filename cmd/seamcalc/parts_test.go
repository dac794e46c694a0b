package main

import (
	"bytes"
	"encoding/csv"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// The sequence is read day by day, however many rooms share the days: what one trade does in a room on a day stands
// together, in its order, and such groups follow each other by their first step.
func TestScheduleIsInTheOrderOfTime(t *testing.T) {
	var out, errs bytes.Buffer
	require.Equal(t, exitFine, run([]string{"schedule", "../../" + sample, "--format", "csv"}, nil, &out, &errs), errs.String())
	rows, err := csv.NewReader(&out).ReadAll()
	require.NoError(t, err)
	var groups, steps []string // first starts of groups, and starts within the last group
	last := ""
	for _, row := range rows[1:] {
		start, kind, group := row[0], row[5], strings.Join(row[6:9], "/")
		if kind == "to come" { // the rows behind it are about the job as a whole
			break
		}
		if kind != "work" || group != last {
			groups, steps = append(groups, start), nil
		}
		if last = group; kind != "work" {
			last = ""
		}
		steps = append(steps, start)
		require.True(t, slices.IsSorted(steps), "%s: %v", group, steps)
	}
	require.True(t, slices.IsSorted(groups), "%v", groups)
	require.Greater(t, len(groups), 10)
}
