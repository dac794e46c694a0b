package board_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc/board"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/money"
	"seamwright/calc/survey"
)

// village is n rooms side by side, each with a door, a window and a lined ceiling.
func village(n int) *job.Job {
	j := newJob(job.AimCost, board48("gyp", true, 48, map[int64]money.Money{96: 1550, 120: 1960, 144: 2380}))
	for i := range n {
		house(j, 180+int64(i*37%97), 150+int64(i*53%71), 102, 16*in, job.Zone{Layers: []string{"gyp"}, Runs: []job.Run{job.RunAuto}, Pattern: job.Staggered}, i%2 == 0)
		r := &j.Rooms[i]
		r.ID = fmt.Sprintf("room%d", i)
		for k := range r.Corners {
			r.Corners[k].X += length.Length(i) * 400 * in
		}
		r.Walls[0].Openings = []job.Opening{{ID: "d", Kind: job.Door, At: length.Inches(30 + int64(i*11%40)), Width: 38 * in, Height: 82*in + in/2}}
		r.Walls[2].Openings = []job.Opening{{ID: "w", Kind: job.Window, At: length.Inches(60 + int64(i*7%30)), Width: 48 * in, Height: 36 * in, Sill: 42 * in}}
	}
	return j
}

func solved(b testing.TB, j *job.Job, m *board.Memo) *board.Answer {
	s, err := survey.Survey(j)
	require.NoError(b, err)
	a, err := board.Solve(b.Context(), j, s, m, board.Full)
	require.NoError(b, err)
	return a
}

func BenchmarkOneRoomCornerMoved(b *testing.B) {
	for i := 0; b.Loop(); i++ {
		j := village(1)
		r := &j.Rooms[0]
		r.Corners[1].X += length.Inches(int64(i % 48))
		r.Corners[2].X += length.Inches(int64(i % 48))
		solved(b, j, nil)
	}
}

func BenchmarkWalls(b *testing.B) {
	for _, rooms := range []int{2, 6, 15, 30, 60, 120} {
		b.Run(fmt.Sprintf("%d", rooms*5), func(b *testing.B) {
			j := village(rooms)
			b.ReportAllocs()
			for b.Loop() {
				a := solved(b, j, nil)
				b.ReportMetric(float64(bought(a)), "sheets")
				b.ReportMetric(float64(a.Bound), "bound")
				b.ReportMetric(a.Cost.Float(), "cost")
			}
		})
	}
}

func BenchmarkEditOf600Walls(b *testing.B) {
	m := board.NewMemo()
	j := village(120)
	solved(b, j, m)
	for i := 0; b.Loop(); i++ {
		r := &j.Rooms[60]
		r.Walls[0].Openings[0].At = length.Inches(20 + int64(i%50))
		solved(b, j, m)
	}
}
