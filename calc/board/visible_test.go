package board_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc/job"
	"seamwright/calc/length"
)

// Plywood that stays visible, in one course and in two. The wall is so long, and its studs stand so, that end pieces of
// equal length are always possible (both x and w - x are studs): centred gives them, on every course alike. The grain
// runs one way: no piece is turned, leftovers included.
func TestCentredAndStackedPlywood(t *testing.T) {
	for _, pattern := range []job.Pattern{job.Centred, job.Stacked} {
		for w := length.Length(112); w <= 496; w += 48 {
			j := newJob(job.AimCost, plywood())
			s := wall("room/south", w*in, 96*in, 16*in, 16*in, &j.Products[0])
			s.Zones[0].Pattern, s.Zones[0].FloorGap = pattern, 0
			a := solve(t, j, s)
			require.Empty(t, a.Checks)
			xs := seams(a.Zones[0], 1)
			require.NotEmpty(t, xs)
			require.Equal(t, xs, seams(a.Zones[0], 2), "seams stand in one line")
			if pattern == job.Centred {
				for i, x := range xs {
					require.Equal(t, x, w*in-xs[len(xs)-1-i], "%d in: seams mirror each other", w)
				}
			}
			for _, sh := range a.Sheets {
				for _, q := range sh.Parts {
					require.False(t, q.Turned)
				}
			}
			t.Logf("%s, %d in: %d sheets, at least %d, %d end joints a course, first piece %d in", pattern, w, bought(a), a.Bound, len(xs), xs[0]/in)
		}
	}
}
