package board_test

import (
	"context"
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamwright/calc/board"
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
	m := board.NewMemo()
	rapid.Check(t, func(t *rapid.T) {
		j := village(rapid.IntRange(1, 4).Draw(t, "rooms"))
		r := &j.Rooms[len(j.Rooms)-1]
		r.Walls[0].Openings[0].At = length.Inches(rapid.Int64Range(10, 60).Draw(t, "door"))
		r.Walls[1].Lining[0].Pattern = "stacked"
		solve := func(m *board.Memo) string {
			b, err := survey.Survey(j)
			require.NoError(t, err)
			a, err := board.Solve(context.Background(), j, b, m)
			require.NoError(t, err)
			return bytesOf(t, a)
		}
		require.Equal(t, solve(nil), solve(m))
	})
}

func TestCancelledIsNoAnswer(t *testing.T) {
	j := village(1)
	b, err := survey.Survey(j)
	require.NoError(t, err)
	ctx, stop := context.WithCancel(context.Background())
	stop()
	a, err := board.Solve(ctx, j, b, nil)
	require.ErrorIs(t, err, context.Canceled)
	require.Nil(t, a)
}

// The three named answers are each the best of the three in their own aim.
func TestNamedAnswersAreBestInTheirAim(t *testing.T) {
	a := solved(t, village(2), nil)
	require.Len(t, a.Named, 3)
	for _, n := range a.Named {
		require.LessOrEqual(t, a.Named[0].Cost, n.Cost, "least cost")
		require.LessOrEqual(t, a.Named[1].Sheets, n.Sheets, "fewest sheets")
		require.LessOrEqual(t, a.Named[2].ButtJoint, n.ButtJoint, "fewest butt joints")
		require.GreaterOrEqual(t, n.Sheets, n.Bound)
	}
	t.Logf("%+v", a.Named)
}
