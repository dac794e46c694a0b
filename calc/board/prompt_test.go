package board_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamwright/calc/board"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/money"
)

// A prompt answer covers every wall and keeps every rule just as the full one does, and its bound is no claim too many:
// the full answer, found with far more work, never gets below it.
func TestPromptAnswersAreLawful(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := village(rapid.IntRange(1, 3).Draw(t, "rooms"))
		j.Aim = rapid.SampledFrom([]job.Aim{job.AimCost, job.AimSheets, job.AimJoints}).Draw(t, "aim")
		j.Site.Rate = money.Money(rapid.Int64Range(0, 40).Draw(t, "rate") * 100)
		r := &j.Rooms[0]
		r.Height = length.Inches(rapid.Int64Range(90, 118).Draw(t, "height"))
		r.Walls[2].Lining[0].Pattern = rapid.SampledFrom([]job.Pattern{job.Staggered, job.Stacked, job.Centred}).Draw(t, "pattern")
		b, prompt, p := answered(t, j, board.Prompt)
		mustCover(t, j, b, prompt)
		mustBeLawful(t, j, b, prompt, p)
		full, err := board.Solve(context.Background(), j, b, nil, board.Full)
		require.NoError(t, err)
		require.GreaterOrEqual(t, bought(full), prompt.Bound)
		require.GreaterOrEqual(t, full.Bound, prompt.Bound)
		require.GreaterOrEqual(t, bought(prompt), full.Bound)
	})
}

// What the prompt effort gives away is small: over many rooms its answers cost some hundredths more.
func TestPromptAnswersAreGood(t *testing.T) {
	var prompt, full float64
	for n := range 12 {
		j := village(1 + n%3)
		j.Rooms[0].Height += length.Inches(int64(n))
		_, quick, _ := answered(t, j, board.Prompt)
		_, best, _ := answered(t, j, board.Full)
		prompt, full = prompt+quick.Cost.Float(), full+best.Cost.Float()
	}
	t.Logf("prompt %.2f, full %.2f: %.2f %% more", prompt, full, 100*(prompt/full-1))
	require.Less(t, prompt, 1.08*full)
}
