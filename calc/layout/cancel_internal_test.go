package layout

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc/length"
	"seamwright/calc/plan"
)

// counted is a context that is cancelled once it has been asked so many times, so that no clock decides what is tested.
type counted struct {
	context.Context
	left int
}

func (c *counted) Err() error {
	if c.left--; c.left < 0 {
		return context.Canceled
	}
	return nil
}

// Cancelled after whichever look at the context, schemes are not made any further, though there always is one, and what is
// asked of them then ends well: rows that were not made have no way across.
func TestSchemesLookAtTheContext(t *testing.T) {
	z, rules := faceLayer(plan.Ceiling, [2]int64{0, 0}, [2]int64{144, 0}, [2]int64{144, 184}, [2]int64{0, 184})
	z.Run = ""
	whole := &counted{context.Background(), math.MaxInt}
	all := len(Schemes(whole, z, rules, nil))
	looks := math.MaxInt - whole.left
	require.Greater(t, all, 2)
	require.Greater(t, looks, 3*all, "rows are looked at too")
	one := Prices{Piece: func(Size) int64 { return 1 }, Butt: func(length.Length) int64 { return 0 }}
	for left := range looks {
		some := Schemes(&counted{context.Background(), left}, z, rules, nil)
		require.NotEmpty(t, some)
		require.LessOrEqual(t, len(some), all)
		for _, s := range some {
			s.LongJoints()
			for r := range s.Rows {
				choices, _ := s.Choices(r, []Prices{one}, 4)
				_, _, ok := s.Cheapest(r, one)
				require.Equal(t, ok, len(choices) > 0)
				s.Steps(r)
				s.Covers(r)
			}
		}
	}
}
