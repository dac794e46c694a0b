package main

import (
	"bytes"
	"encoding/csv"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// The sequence is read day by day, however many rooms share the days.
func TestScheduleIsInTheOrderOfTime(t *testing.T) {
	var out, errs bytes.Buffer
	require.Equal(t, exitFine, run([]string{"schedule", "../../" + sample, "--format", "csv"}, nil, &out, &errs), errs.String())
	rows, err := csv.NewReader(&out).ReadAll()
	require.NoError(t, err)
	var starts []string
	for _, row := range rows[1:] {
		if row[5] == "to come" { // the rows behind it are about the job as a whole
			break
		}
		starts = append(starts, row[0])
	}
	require.True(t, slices.IsSorted(starts), "%v", starts)
	require.Greater(t, len(starts), 10)
}
