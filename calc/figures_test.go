package calc_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc"
)

// A figure's id stands once in the whole program, with unit, meaning and status, so that a project's own value
// reaches one rule only.
func TestFiguresAreDistinct(t *testing.T) {
	seen := map[string]bool{}
	for _, f := range calc.Figures() {
		require.False(t, seen[f.ID], f.ID)
		seen[f.ID] = true
		require.NotEmpty(t, f.Unit, f.ID)
		require.NotEmpty(t, f.Status, f.ID)
	}
}
