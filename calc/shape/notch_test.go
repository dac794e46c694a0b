package shape

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// A notch takes the area of its piece off, whatever edge or corner it lies at, and leaves a simple outline.
func TestNotch(t *testing.T) {
	sheet := Rect{0, 0, 100, 60}.Polygon()
	for name, piece := range map[string]Polygon{
		"below":           {{20, 0}, {40, 0}, {35, 8}, {25, 8}},
		"right":           {{100, 10}, {100, 30}, {90, 20}},
		"above":           {{60, 60}, {40, 60}, {50, 45}},
		"left":            {{0, 40}, {0, 20}, {12, 30}},
		"corner":          {{80, 0}, {100, 0}, {100, 20}, {85, 15}},
		"from the corner": {{0, 0}, {10, 0}, {10, 10}, {0, 5}},
	} {
		out, ok := sheet.Notch(piece)
		require.True(t, ok, name)
		require.True(t, out.Simple(), name)
		require.True(t, out.CounterClockwise(), name)
		require.Equal(t, sheet.Area()-piece.Area(), out.Area(), name)
	}
	_, ok := sheet.Notch(Polygon{{10, 10}, {20, 10}, {20, 20}, {10, 20}})
	require.False(t, ok, "a hole touches nothing")
	_, ok = sheet.Notch(Polygon{{10, 0}, {20, 0}, {20, 60}, {10, 60}})
	require.False(t, ok, "a piece from edge to edge parts the sheet")
}
