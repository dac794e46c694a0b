package nest_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc/nest"
)

// setups counts how often the saw is set anew.
func setups(cuts []nest.Cut) (n int) {
	for i, c := range cuts {
		if i == 0 || c.Kind != cuts[i-1].Kind || c.Setting != cuts[i-1].Setting {
			n++
		}
	}
	return n
}

// Six equal parts on one sheet, in two rows of three with a rest each way: the saw is set once across and once along
// (no plan can do with fewer, since both directions are cut).
func TestEqualCutsAreOneSetUp(t *testing.T) {
	p := &nest.Problem{Sheets: []nest.Sheet{{W: 100, H: 50, Cost: 1}}, Items: []nest.Item{{W: 30, H: 20, N: 6}}, Kerf: 1}
	r, err := nest.Solve(context.Background(), p, nest.Budget{})
	require.NoError(t, err)
	require.EqualValues(t, 1, r.Cost)
	require.Equal(t, 2, setups(r.Bins[0].Cuts()))
}

// A sheet that is one part needs no cut and leaves nothing.
func TestWholeSheetNeedsNoCut(t *testing.T) {
	p := &nest.Problem{Sheets: []nest.Sheet{{W: 96, H: 48, Cost: 1, Tapered: [2]bool{true, true}}},
		Items: []nest.Item{{W: 96, H: 48, N: 1, Tapers: 2}}, Kerf: 1}
	r, err := nest.Solve(context.Background(), p, nest.Budget{})
	require.NoError(t, err)
	require.Empty(t, r.Bins[0].Cuts())
	require.Empty(t, r.Bins[0].Offcuts())
}

// Three rips of 16 make up a 48 board, but only two of them have a tapered edge: three tapered rips need two boards
// (common practice: the middle of three rips has none), and the bound knows it.
func TestTheMiddleOfThreeRipsHasNoTaper(t *testing.T) {
	for tapers, want := range map[int]int64{0: 1, 1: 2} {
		p := &nest.Problem{Sheets: []nest.Sheet{{W: 96, H: 48, Cost: 1, Tapered: [2]bool{true, true}}},
			Items: []nest.Item{{W: 96, H: 16, N: 3, Tapers: tapers}}}
		r, err := nest.Solve(context.Background(), p, nest.Budget{})
		require.NoError(t, err)
		require.Equal(t, want, r.Cost)
		require.Equal(t, want, r.Bound)
	}
}

// Nanometres: areas of boards summed leave 64 bits, and the bound must not notice (23 full 16 ft boards, by counting).
func TestBoundsHoldInNanometres(t *testing.T) {
	const inch = 25_400_000
	p := &nest.Problem{Sheets: []nest.Sheet{{W: 192 * inch, H: 54 * inch, Cost: 3000}},
		Items: []nest.Item{{W: 192 * inch, H: 27 * inch, N: 45}}}
	r, err := nest.Solve(context.Background(), p, nest.Budget{})
	require.NoError(t, err)
	require.EqualValues(t, 23*3000, r.Bound)
	require.True(t, r.Proven)
}

func TestRefusals(t *testing.T) {
	whole := []nest.Sheet{{W: 10, H: 10, Cost: 1}}
	for want, p := range map[string]*nest.Problem{
		"no sheet":        {},
		"sheet 1 is 0":    {Sheets: []nest.Sheet{{H: 5}}},
		"item 2 (11":      {Sheets: whole, Items: []nest.Item{{W: 1, H: 1, N: 1}, {W: 11, H: 1, N: 1, Turn: true}}},
		"tapered edges":   {Sheets: whole, Items: []nest.Item{{W: 1, H: 1, N: 1, Tapers: 1}}},
		"do not suffice":  {Sheets: []nest.Sheet{{W: 10, H: 10, Max: 1}}, Items: []nest.Item{{W: 6, H: 6, N: 2}}},
		"pieces are":      {Sheets: whole, Items: []nest.Item{{W: 1, H: 1, N: 1 << 40}}},
		"no side may be":  {Sheets: []nest.Sheet{{W: 1 << 50, H: 1}}},
		"both sides must": {Sheets: whole, Items: []nest.Item{{W: 1, H: -1, N: 1}}},
	} {
		_, err := nest.Solve(context.Background(), p, nest.Budget{})
		require.ErrorContains(t, err, want)
	}
}

func TestCancelledGivesNoResult(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	r, err := nest.Solve(ctx, &nest.Problem{Sheets: []nest.Sheet{{W: 9, H: 9, Cost: 1}}, Items: []nest.Item{{W: 5, H: 4, N: 40}}},
		nest.Budget{})
	require.ErrorIs(t, err, context.Canceled)
	require.Nil(t, r)
}
