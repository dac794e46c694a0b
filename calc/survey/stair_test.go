package survey_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc/job"
	"seamwright/calc/length"
)

// Under a stair the foot of a wall rises to its head. The area is that of the triangle: half of 12 ft by 8 ft, less what
// the ceiling's lining of 1/2 in takes off its head, which leaves 143-1/4 in by 95-1/2 in.
func TestFootMeetsHead(t *testing.T) {
	for _, c := range []struct {
		name    string
		lined   bool
		area    float64 // square inches
		rising  bool    // to the right end, else from the left one
		lengths [2]float64
	}{
		{"bare overhead, to the right", false, 144 * 96 / 2, true, [2]float64{144, 96}},
		{"bare overhead, to the left", false, 144 * 96 / 2, false, [2]float64{144, 96}},
		{"under a lined ceiling, to the right", true, 143.25 * 95.5 / 2, true, [2]float64{143.25, 95.5}},
		{"under a lined ceiling, to the left", true, 143.25 * 95.5 / 2, false, [2]float64{143.25, 95.5}},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := room("r", 96*in, nil, 0, 0, 0, 144, 144, 144, 144, 0)
			if c.lined {
				r.Ceiling = ceiling("gyp-12")
			}
			r.Walls[0].Lining = []job.Zone{board(0, "gyp-12")}
			r.Walls[0].Bottom = points(0, 0, 144, 96)
			if !c.rising {
				r.Walls[0].Bottom = points(0, 96, 144, 0)
			}
			s := surveyed(t, house(r))["r/a"]
			require.Len(t, s.Zones, 1)
			z := s.Zones[0]
			require.Len(t, z.Edges, len(z.Outline))
			require.InDelta(t, c.area/144, z.Outline.Area().SquareFeet(), 1e-5)
			b := z.Outline.Bounds()
			require.InDelta(t, c.lengths[0]*25.4, b.W.MM(), 1e-3)
			require.InDelta(t, c.lengths[1]*25.4, b.H.MM(), 1e-3)
		})
	}
}

// A foot that rises through the middle of the lined head parts nothing off the wall but its end.
func TestNeighborsOfAPointedWall(t *testing.T) {
	r := room("r", 96*in, []job.Zone{board(0, "gyp-12")}, 0, 0, 0, 144, 144, 144, 144, 0)
	r.Walls[0].Bottom = points(0, 0, 144, 96)
	s := surveyed(t, house(r))
	require.Equal(t, length.Length(0), s["r/b"].Zones[0].Outline.Bounds().X-s["r/b"].Outline.Bounds().X, "nothing stands beside its left end to keep clear of")
}
