package layout

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

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

// Cancelled, schemes are not made any further; the first always is.
func TestSchemesLookAtTheContext(t *testing.T) {
	z, rules := faceLayer(plan.Ceiling, [2]int64{0, 0}, [2]int64{144, 0}, [2]int64{144, 184}, [2]int64{0, 184})
	z.Run = ""
	all := len(Schemes(context.Background(), z, rules, nil))
	require.Greater(t, all, 2)
	for left := range all - 1 {
		require.Len(t, Schemes(&counted{context.Background(), left}, z, rules, nil), left+1)
	}
}
