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
		require.NotEqual(t, k.ID, schedule.RenamedRoom(k.ID, "studio", "kiln"), "no rule for it")
		require.Equal(t, k.ID, schedule.RenamedRoom(k.ID, "store", "kiln"))
		if k.Surface != "" {
			require.NotEqual(t, k.ID, schedule.RenamedSurface(k.ID, k.Surface, "studio/yard"))
		}
	}
	for _, c := range []struct{ id, from, want string }{
		{"hang-a-b/south/course-1", "a", "hang-a-b/south/course-1"}, // of the room a-b
		{"hang-a-b/south/course-1", "a-b", "hang-x/south/course-1"},
		{"hang-a/south/layer-2-zone-1-course-12", "a", "hang-x/south/layer-2-zone-1-course-12"},
		{"look-b", "b", "look-x"},
		{"look-a-b", "b", "look-a-b"},
		{"dry-primer-1-a", "a", "dry-primer-1-x"},
	} {
		require.Equal(t, c.want, schedule.RenamedRoom(c.id, c.from, "x"), c.id)
	}
	require.Equal(t, "hang-a/sun/zone-2-course-1", schedule.RenamedSurface("hang-a/south/zone-2-course-1", "a/south", "a/sun"))
	require.Equal(t, "hang-a/south-2/course-1", schedule.RenamedSurface("hang-a/south-2/course-1", "a/south", "a/sun"), "another wall")
}

// Ids as they were before names were parted by slashes are read as they are now.
func TestIDsOfOldFiles(t *testing.T) {
	for id, want := range map[string]string{
		"hang-a-south-course-1":                 "hang-a/south/course-1",
		"hang-a-b-south-course-1":               "hang-a-b/south/course-1",
		"hang-a-ceiling-north-layer-2-course-3": "hang-a/ceiling-north/layer-2-course-3",
		"hang-a-south-zone-2-course-12":         "hang-a/south/zone-2-course-12",
		"hang-a/south/course-1":                 "hang-a/south/course-1",
		"hang-c-south-course-1":                 "hang-c-south-course-1", // there is no such room
		"look-a":                                "look-a",
	} {
		require.Equal(t, want, schedule.CurrentID(id, []string{"a", "a-b"}))
	}
}
