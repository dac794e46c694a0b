package layout

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
)

// A board 1 mm wide beside one of 600 mm puts a joint at every millimetre from every member: more than are looked at. There
// is a way across all the same.
func TestLinesForNarrowBoardsAreBounded(t *testing.T) {
	z, rules := faceLayer(plan.Wall, [2]int64{0, 0}, [2]int64{160, 0}, [2]int64{160, 96}, [2]int64{0, 96})
	z.Layer, z.Layers, z.Run = 1, 1, job.RunAlong
	for i := range z.Surface.Studs { // no multiple of either width
		z.Surface.Studs[i].At += length.Length(i*i) * 7 * length.Millimetre / 3
	}
	z.Product.Sizes = []job.Size{{Length: 96 * in, Width: length.Millimetre}, {Length: 96 * in, Width: 600 * length.Millimetre}}
	f := NewField(z, rules, job.RunAlong, nil)
	require.LessOrEqual(t, len(f.lines(f.widths, true)), mostLines+2)
	labels, last := f.strips(f.lines(f.widths, true), f.widths, true)
	require.NotEmpty(t, labels)
	require.NotEmpty(t, last)
}
