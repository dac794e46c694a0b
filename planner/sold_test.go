package planner_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc/job"
	"seamwright/planner"
)

// What the yard has is said size by size, and said no more where it has them all again.
func TestTheYardLacksASize(t *testing.T) {
	source := "seamwright: 1\nname: Shed # of old\n"
	for _, head := range []string{"", "units: metric\npacks: imperial\n"} {
		d, err := planner.Parse("shed", []byte(source+head))
		require.NoError(t, err)
		product := d.Job().Product("gyp-12")
		lacking := func() (list []job.Size) {
			read, err := planner.Parse("shed", d.Source())
			require.NoError(t, err, "%s", d.Source())
			for _, s := range read.Job().Product("gyp-12").Sizes {
				if s.NotSold {
					list = append(list, s)
				}
			}
			return list
		}
		first, last := product.Sizes[0], product.Sizes[len(product.Sizes)-1]
		set := func(s job.Size, sold bool) {
			require.NoError(t, d.Apply(planner.SetSold{Product: "gyp-12", Length: s.Length, Width: s.Width, Sold: sold}))
		}
		require.Empty(t, lacking())
		set(last, false)
		require.Len(t, lacking(), 1)
		set(first, false)
		require.Len(t, lacking(), 2)
		require.Equal(t, first.Length, lacking()[0].Length)
		set(last, true)
		set(first, true)
		require.Empty(t, lacking())
		require.Equal(t, source+head, string(d.Source()))
		require.ErrorContains(t, d.Apply(planner.SetSold{Product: "gyp-12", Length: 1, Width: 1}), "not sold in that size")
	}
}
