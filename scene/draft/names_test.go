package draft_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc/job"
	"seamwright/scene/draft"
)

// Sentences of a plan name rooms and surfaces by their ids; people read names.
func TestSentencesAreReadPlainly(t *testing.T) {
	j := &job.Job{Rooms: []job.Room{{ID: "room-1"}, {ID: "shop"}}}
	for s, want := range map[string]string{
		"Hang room-1/ceiling-south, course 1: 2 pieces": "Hang Room 1, ceiling south, course 1: 2 pieces",
		"room-1: mark the members":                      "Room 1: mark the members",
		"shop/west: plywood stays visible":              "Shop, west: plywood stays visible",
		"shop/west and room-1/east":                     "Shop, west and Room 1, east",
		"workshop/west is another room":                 "workshop/west is another room",
		"glue/shop/ and nothing":                        "glue/shop/ and nothing",
		"":                                              "",
	} {
		require.Equal(t, want, draft.Plainly(j, s))
	}
	require.Equal(t, "Side 5", draft.WallName("shop/side-5"))
	require.Equal(t, "Shop, side 5", draft.SurfaceName("shop/side-5"))
	require.Equal(t, "unchanged", draft.Plainly(nil, "unchanged"))
}
