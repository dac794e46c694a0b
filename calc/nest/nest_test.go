package nest_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamwright/calc/nest"
	"seamwright/calc/nest/proof"
)

// anyProblem draws small problems of every kind: kerf, several sheets, limited ones, tapers, turning.
func anyProblem(t *rapid.T) *nest.Problem {
	p := &nest.Problem{Kerf: rapid.Int64Range(0, 2).Draw(t, "kerf")}
	for i := range rapid.IntRange(1, 3).Draw(t, "sheets") {
		s := nest.Sheet{
			W:       rapid.Int64Range(4, 20).Draw(t, "W"),
			H:       rapid.Int64Range(4, 12).Draw(t, "H"),
			Tapered: [2]bool{rapid.Bool().Draw(t, "low"), rapid.Bool().Draw(t, "high")},
			Cost:    rapid.Int64Range(0, 9).Draw(t, "cost"),
		}
		if i > 0 {
			s.Max = rapid.IntRange(0, 3).Draw(t, "max")
		} else {
			s.Cost++
		}
		p.Sheets = append(p.Sheets, s)
	}
	for range rapid.IntRange(1, 6).Draw(t, "items") {
		s := p.Sheets[0]
		it := nest.Item{
			W: rapid.Int64Range(1, s.W).Draw(t, "w"), H: rapid.Int64Range(1, s.H).Draw(t, "h"),
			N: rapid.IntRange(0, 4).Draw(t, "n"), Turn: rapid.Bool().Draw(t, "turn"),
		}
		if s.Tapered[0] || s.Tapered[1] {
			it.Tapers = rapid.IntRange(0, 1).Draw(t, "tapers")
			if it.H == s.H && s.Tapered[0] && s.Tapered[1] {
				it.Tapers = rapid.IntRange(0, 2).Draw(t, "tapers")
			}
		}
		p.Items = append(p.Items, it)
	}
	return p
}

func TestEveryAnswerHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyProblem(t)
		r, err := nest.Solve(context.Background(), p, nest.Budget{Nodes: 2000})
		require.NoError(t, err)
		require.NoError(t, proof.Result(p, r))
	})
}

// Two pieces of 40 by 48 and two of 40 by 24 fill a sheet of 120 by 48 as they are drawn. Each of the narrow ones by itself
// lies best across the sheet, which leaves no room for the other.
func TestAPieceThatLiesBestByItselfMayBeInTheWay(t *testing.T) {
	for _, n := range []int{1, 2, 3} {
		p := &nest.Problem{Sheets: []nest.Sheet{{W: 120, H: 48, Cost: 1}}, Items: []nest.Item{{W: 40, H: 48, N: 2 * n, Turn: true}, {W: 40, H: 24, N: 2 * n, Turn: true}}}
		r, err := nest.Solve(context.Background(), p, nest.Budget{Nodes: 100_000})
		require.NoError(t, err)
		require.EqualValues(t, n, r.Cost)
	}
}
