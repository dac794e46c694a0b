package board_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/money"
	"seamwright/calc/plan"
)

// overlap is the length over which two joints of one zone lie on each other.
func overlap(a, b plan.Joint) length.Length {
	if a.From.X == a.To.X && b.From.X == b.To.X && a.From.X == b.From.X {
		return min(max(a.From.Y, a.To.Y), max(b.From.Y, b.To.Y)) - max(min(a.From.Y, a.To.Y), min(b.From.Y, b.To.Y))
	}
	if a.From.Y == a.To.Y && b.From.Y == b.To.Y && a.From.Y == b.From.Y {
		return min(max(a.From.X, a.To.X), max(b.From.X, b.To.X)) - max(min(a.From.X, a.To.X), min(b.From.X, b.To.X))
	}
	return 0
}

// No stretch of a wall is listed as a joint twice, whatever the rule for cutouts, the run and the openings.
func TestJointsNeverOverlap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := newJob(job.AimSheets, board48("gyp", true, 48, map[int64]money.Money{96: 1550, 144: 2380}), plywood())
		j.Rules.Cutouts = rapid.SampledFrom([]job.Cutouts{job.RectOnly, job.Notch}).Draw(t, "cutouts")
		w := length.Inches(rapid.Int64Range(150, 420).Draw(t, "w"))
		s := wall("room/south", w, length.Inches(rapid.Int64Range(90, 130).Draw(t, "h")), 16*in, 16*in, &j.Products[rapid.IntRange(0, 1).Draw(t, "product")])
		s.Zones[0].Run = rapid.SampledFrom([]job.Run{job.RunAcross, job.RunAlong}).Draw(t, "run")
		s.Zones[0].Pattern = rapid.SampledFrom([]job.Pattern{job.Staggered, job.Stacked, job.Centred}).Draw(t, "pattern")
		opened(s, length.Inches(rapid.Int64Range(6, 60).Draw(t, "at")), length.Inches(rapid.Int64Range(0, 50).Draw(t, "sill")), 48*in, length.Inches(rapid.Int64Range(20, 39).Draw(t, "high")))
		a := solve(t, j, s)
		joints := a.Zones[0].Joints
		for i, x := range joints {
			require.Positive(t, x.Long())
			for _, y := range joints[:i] {
				require.LessOrEqual(t, overlap(x, y), length.Length(0), "%s %v %v and %s %v %v", x.Kind, x.From, x.To, y.Kind, y.From, y.To)
			}
		}
	})
}
