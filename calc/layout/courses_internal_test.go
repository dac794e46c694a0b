package layout

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc/length"
)

// However many courses a zone takes, sets of them are found: narrow boards under a wide ceiling, sheets up a tall wall.
// The number of courses is arithmetic: the height in whole widths, and one ripped course for what is left.
func TestThereIsNoLimitToCourses(t *testing.T) {
	for _, c := range []struct {
		height, width length.Length
		courses       int
	}{
		{5100 * length.Millimetre, 121 * length.Millimetre, 43},
		{4100 * length.Millimetre, 96 * length.Millimetre, 43},
		{60 * length.Metre, 48 * length.Inch, 50},
		{600 * length.Metre, 48 * length.Inch, 493},
	} {
		sets := wholeCourses([]length.Length{c.width}, c.height, 0)
		require.NotEmpty(t, sets, c.height.Metric())
		require.Len(t, sets[0], c.courses-1)
	}
	// with several widths too, the sets of fewest courses are among those looked at
	sets := wholeCourses([]length.Length{54 * length.Inch, 48 * length.Inch, 4 * length.Inch}, 60*length.Metre, 0)
	require.Len(t, sets, mostCourseSets)
	require.Len(t, sets[0], 43, "43 sheets of 54 in are 58.98 m, and 1.02 m are left")
}
