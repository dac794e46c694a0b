package planner

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/assets"
	"seamwright/calc/length"
	"seamwright/calc/shape"
)

// largeProject has as many rooms and walls as the limits allow.
func largeProject(rooms int) []byte {
	var b strings.Builder
	b.WriteString("seamwright: 1\nrooms:\n")
	for i := range rooms {
		fmt.Fprintf(&b, "  - id: room-%d\n    height: 8'\n    corners: [[0, 0], [12', 0], [12', 5'], [24', 5'], [24', 10'], [20', 10'], [20', 12'], [4', 12'], [4', 10'], [0, 10']]\n    walls:\n", i)
		for side := 1; side <= 10; side++ {
			fmt.Fprintf(&b, "      - {side: %d, id: w%d, lining: [{product: gyp-12}], boxes: [{at: 1', up: 16\", width: 2\", height: 3\"}]}\n", side, side)
		}
	}
	return []byte(b.String())
}

func BenchmarkParseLargest(b *testing.B) {
	src := largeProject(mostRooms)
	b.SetBytes(int64(len(src)))
	for b.Loop() {
		_, err := Parse("f", src)
		require.NoError(b, err)
	}
}

// BenchmarkDragCorner is one step of dragging a corner in the sample: edit and a fresh reading.
func BenchmarkDragCorner(b *testing.B) {
	d, err := Parse("f", assets.KilnYardStudio)
	require.NoError(b, err)
	d.BeginGroup("move corner")
	i := 0
	for b.Loop() {
		i++
		to := shape.Point{X: 34*length.Foot + length.Inches(int64(4+i%2)), Y: 14 * length.Foot}
		require.NoError(b, d.Apply(MoveCorner{"store", 3, to}))
	}
}
