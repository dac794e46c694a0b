package proof_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc/nest"
	"seamwright/calc/nest/proof"
)

var board = &nest.Problem{
	Sheets: []nest.Sheet{{W: 30, H: 30, Cost: 1, Tapered: [2]bool{true, false}}},
	Items:  []nest.Item{{W: 20, H: 10, N: 4, Turn: true}, {W: 10, H: 10, N: 1}, {W: 12, H: 10, N: 1, Tapers: 1}},
}

func part(item int, x, y, w, h int64, turned bool) nest.Part {
	return nest.Part{Item: item, Rect: nest.Rect{X: x, Y: y, W: w, H: h}, Turned: turned}
}

// The pinwheel is the smallest layout that no cuts right across can part (Gilmore & Gomory 1965); without the middle it
// stays one, and with one arm gone it can be parted.
func TestPinwheelIsNotSeparable(t *testing.T) {
	wheel := []nest.Part{part(0, 0, 0, 20, 10, false), part(0, 20, 0, 10, 20, true), part(0, 10, 20, 20, 10, false),
		part(0, 0, 10, 10, 20, true)}
	require.ErrorContains(t, proof.Sheet(board, 0, wheel), "no cuts right across")
	require.NoError(t, proof.Sheet(board, 0, wheel[:3]))
}

func TestEveryFaultIsCaught(t *testing.T) {
	for want, parts := range map[string][]nest.Part{
		"runs out":          {part(0, 11, 0, 20, 10, false)},
		"less than a kerf":  {part(0, 0, 0, 20, 10, false), part(1, 19, 5, 10, 10, false)},
		"should be":         {part(0, 0, 0, 20, 11, false)},
		"may not be":        {part(1, 0, 0, 10, 10, true)},
		"0 tapered edges":   {part(2, 0, 20, 12, 10, false)},
		"there is no item":  {part(7, 0, 0, 1, 1, false)},
		"is turned and may": {part(2, 0, 0, 10, 12, true)},
	} {
		require.ErrorContains(t, proof.Sheet(board, 0, parts), want)
	}
	require.NoError(t, proof.Sheet(board, 0, []nest.Part{part(2, 0, 0, 12, 10, false)}))
}

func TestKerfKeepsPartsApart(t *testing.T) {
	p := *board
	p.Kerf = 2
	pair := []nest.Part{part(1, 0, 0, 10, 10, false), part(1, 11, 0, 10, 10, false)}
	require.ErrorContains(t, proof.Sheet(&p, 0, pair), "less than a kerf")
	pair[1].X = 12
	require.NoError(t, proof.Sheet(&p, 0, pair))
}

func TestCutsMustRunRightAcrossAndMakeTheParts(t *testing.T) {
	parts := []nest.Part{part(0, 0, 0, 20, 10, false)}
	cross := nest.Cut{Kind: nest.Cross, X1: 20, X2: 20, Y2: 30, Setting: 20}
	rip := nest.Cut{Kind: nest.Rip, Y1: 10, X2: 20, Y2: 10, Setting: 10}
	rests := []nest.Rect{{X: 20, W: 10, H: 30}, {Y: 10, W: 20, H: 20}}
	require.NoError(t, proof.Cuts(board, 0, parts, rests, []nest.Cut{cross, rip}))
	require.ErrorContains(t, proof.Cuts(board, 0, parts, rests, []nest.Cut{rip, cross}), "right across no piece")
	require.ErrorContains(t, proof.Cuts(board, 0, parts, rests[:1], []nest.Cut{cross, rip}), "neither part nor offcut")
	require.ErrorContains(t, proof.Cuts(board, 0, parts, rests, []nest.Cut{cross}), "do not make")
	cross.Setting = 19
	require.ErrorContains(t, proof.Cuts(board, 0, parts, rests, []nest.Cut{cross, rip}), "set to 19")
}

func TestResultCountsDemandStockAndCost(t *testing.T) {
	p := &nest.Problem{Sheets: []nest.Sheet{{W: 10, H: 10, Cost: 3, Max: 1}}, Items: []nest.Item{{W: 10, H: 10, N: 1}}}
	require.ErrorContains(t, proof.Result(p, &nest.Result{}), "cut 0 times")
	p.Items[0].N = 0
	require.ErrorContains(t, proof.Result(p, &nest.Result{Cost: 3}), "the sheets cost 0")
	require.ErrorContains(t, proof.Result(p, &nest.Result{Bound: 1}), "bound 1 above")
	l := &nest.LengthProblem{Sticks: []nest.Stick{{L: 10, Cost: 1}}, Pieces: []nest.Piece{{L: 5, N: 2}}, Kerf: 1}
	r := &nest.LengthResult{Cost: 1, Bars: []nest.Bar{{Pieces: []int{0, 0}}}}
	require.ErrorContains(t, proof.Lengths(l, r), "need 11")
}
