package calc_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/planner"
)

// shop is a room of four walls and a ceiling.
func shop(t *testing.T) *job.Job {
	d, err := planner.Parse("shop", village(1))
	require.NoError(t, err)
	return d.Job()
}

// A hand may take a seam of a plan that an edit has just overtaken: it is told so, whatever the edit was.
func TestPlacesOfASeamInAnOvertakenPlan(t *testing.T) {
	edits := map[string]func(*job.Job){
		"other run": func(j *job.Job) {
			for i := range j.Rooms[0].Walls {
				for k := range j.Rooms[0].Walls[i].Lining {
					z := &j.Rooms[0].Walls[i].Lining[k]
					for l := range z.Runs {
						z.Runs[l] = job.RunAlong
					}
				}
			}
		},
		"left open": func(j *job.Job) {
			for i := range j.Rooms[0].Walls {
				j.Rooms[0].Walls[i].Lining = []job.Zone{{Layers: []string{job.Open}, Runs: []job.Run{job.RunAuto}, Pattern: job.Staggered}}
			}
		},
		"two layers": func(j *job.Job) {
			for i := range j.Rooms[0].Walls {
				for k := range j.Rooms[0].Walls[i].Lining {
					z := &j.Rooms[0].Walls[i].Lining[k]
					z.Layers = append([]string{z.Layers[0]}, z.Layers...)
					z.Runs = append([]job.Run{z.Runs[0]}, z.Runs...)
				}
			}
		},
		"lower":     func(j *job.Job) { j.Rooms[0].Height = 5 * length.Foot },
		"another":   func(j *job.Job) { j.Rooms = j.Rooms[1:] },
		"no rooms":  func(j *job.Job) { j.Rooms = nil },
		"untouched": func(*job.Job) {},
	}
	for name, edit := range edits {
		t.Run(name, func(t *testing.T) {
			p, err := calc.Prompt(t.Context(), shop(t), nil)
			require.NoError(t, err)
			j := shop(t)
			edit(j)
			movable, asked := 0, 0
			for i := range p.Surfaces {
				s := &p.Surfaces[i]
				for _, z := range s.Zones {
					for k := range z.Joints {
						asked++
						if _, err := calc.SeamPlaces(j, p, s.ID, z.Zone, z.Layer, k); err == nil {
							movable++
						} else {
							require.NotContains(t, err.Error(), "fault")
						}
					}
				}
			}
			require.NotZero(t, asked)
			if name == "untouched" {
				require.NotZero(t, movable)
			}
		})
	}
}
