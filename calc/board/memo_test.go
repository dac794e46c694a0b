package board_test

import (
	"context"
	"encoding/json"
	"math/rand/v2"
	"runtime"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamwright/calc/board"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/survey"
)

func bytesOf(t require.TestingT, a *board.Answer) string {
	text, err := json.Marshal(a)
	require.NoError(t, err)
	return string(text)
}

// A plan never depends on what was planned before: after any edits the memo gives the same bytes as a cold start.
func TestWarmIsCold(t *testing.T) {
	draws(t, 10)
	m := board.NewMemo()
	rapid.Check(t, func(t *rapid.T) {
		j := village(rapid.IntRange(1, 4).Draw(t, "rooms"))
		r := &j.Rooms[len(j.Rooms)-1]
		r.Walls[0].Openings[0].At = length.Inches(rapid.Int64Range(10, 60).Draw(t, "door"))
		r.Walls[1].Lining[0].Pattern = "stacked"
		solve := func(m *board.Memo) string {
			b, err := survey.Survey(j)
			require.NoError(t, err)
			a, err := board.Solve(context.Background(), j, b, m, board.Full)
			require.NoError(t, err)
			return bytesOf(t, a)
		}
		require.Equal(t, solve(nil), solve(m))
	})
}

// One core and many, cold and warm, through a row of edits: the same bytes. The rooms share partitions, so groups wait
// for each other; some walls have two layers; pieces on hand pass from block to block.
func TestCoresAndMemoChangeNothing(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 1))
	j := village(9)
	for i := range j.Rooms {
		r := &j.Rooms[i]
		for k := range r.Corners { // 200 in wide, 5 in from the next
			r.Corners[k].X = length.Inches(int64(205*i + []int{0, 200, 200, 0}[k]))
		}
		if i%3 == 0 {
			r.Walls[1].Lining[0].Layers = []string{"gyp", "gyp"}
		}
	}
	j.Stock = []job.Stock{{Product: "gyp", Length: 70 * in, Width: 48 * in, Tapered: true, Count: 3}}
	b, err := survey.Survey(j)
	require.NoError(t, err)
	require.True(t, slices.ContainsFunc(b.Surfaces, func(s *survey.Surface) bool { return len(s.Backs) > 0 && s.Backs[0].Room != s.Room }), "rooms share partitions")
	m := board.NewMemo()
	for range 3 {
		r := &j.Rooms[rng.IntN(len(j.Rooms))]
		switch rng.IntN(3) {
		case 0:
			r.Walls[0].Openings[0].At = length.Inches(20 + rng.Int64N(60))
		case 1:
			r.Height = length.Inches(96 + rng.Int64N(12))
		case 2:
			by := length.Inches(rng.Int64N(12))
			r.Corners[2].Y += by
			r.Corners[3].Y += by
		}
		cores := runtime.GOMAXPROCS(1)
		alone := bytesOf(t, solved(t, j, nil))
		runtime.GOMAXPROCS(4)
		many := bytesOf(t, solved(t, j, nil))
		warm := bytesOf(t, solved(t, j, m))
		runtime.GOMAXPROCS(cores)
		require.Equal(t, alone, many, "one core and many")
		require.Equal(t, alone, warm, "cold and warm")
	}
}

func TestCancelledIsNoAnswer(t *testing.T) {
	j := village(1)
	b, err := survey.Survey(j)
	require.NoError(t, err)
	ctx, stop := context.WithCancel(context.Background())
	stop()
	a, err := board.Solve(ctx, j, b, nil, board.Full)
	require.ErrorIs(t, err, context.Canceled)
	require.Nil(t, a)
}
