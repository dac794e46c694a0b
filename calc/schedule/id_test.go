package schedule_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc/schedule"
)

// Every task of a plan goes with its room, and those that hang a wall with that wall; nothing goes with another.
func TestIDsFollowNames(t *testing.T) {
	j, b, p := studio()
	j.Figures = map[string]float64{"panel-coats": 2, "casing": 2.5}
	schedule.Schedule(j, b, p)
	for _, k := range p.Schedule {
		require.NotEqual(t, k.ID, schedule.RenamedRoom(k.ID, "studio", "kiln", []string{"studio", "store"}), "no rule for it")
		require.Equal(t, k.ID, schedule.RenamedRoom(k.ID, "store", "kiln", []string{"studio", "store"}))
		if k.Surface != "" {
			require.NotEqual(t, k.ID, schedule.RenamedSurface(k.ID, k.Surface, "studio/yard"))
		}
	}
	for _, c := range []struct{ id, from, want string }{
		{"hang-a-b-south-course-1", "a", "hang-a-b-south-course-1"}, // of the room a-b
		{"hang-a-b-south-course-1", "a-b", "hang-x-south-course-1"},
		{"hang-a-south-layer-2-zone-1-course-12", "a", "hang-x-south-layer-2-zone-1-course-12"},
		{"look-b", "b", "look-x"},
		{"look-a-b", "b", "look-a-b"},
		{"dry-primer-1-a", "a", "dry-primer-1-x"},
	} {
		require.Equal(t, c.want, schedule.RenamedRoom(c.id, c.from, "x", []string{"a", "a-b", "b"}), c.id)
	}
	require.Equal(t, "hang-a-sun-zone-2-course-1", schedule.RenamedSurface("hang-a-south-zone-2-course-1", "a/south", "a/sun"))
	require.Equal(t, "hang-a-south-2-course-1", schedule.RenamedSurface("hang-a-south-2-course-1", "a/south", "a/sun"), "another wall")
}
