package calc_test

import (
	"math/rand/v2"
	"runtime"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/shape"
	"seamwright/planner"
)

// A plan never depends on what was planned before: after any edits, some taken back, a warm memo gives the bytes of a
// cold start, the prompt effort and the full one, which share it. Edits that the calculation refuses are refused alike.
// The last village is large enough for several lots of sticks and for rooms by themselves.
func TestAnyEditsWarmIsCold(t *testing.T) {
	memo := calc.NewMemo()
	planned := 0
	for n, rooms := range []int{1, 2, 1, 3, 2, 1, 14} {
		rng := rand.New(rand.NewPCG(2, uint64(n)))
		d := loaded(t, village(rooms))
		for range 6 {
			if anyEdit(rng, d) != nil {
				continue // the document refuses it, and stays as it was
			}
			for _, e := range efforts {
				warm, warmErr := e.effort(t.Context(), d.Job(), memo)
				cold, coldErr := e.effort(t.Context(), d.Job(), nil)
				require.Equal(t, coldErr, warmErr)
				if coldErr == nil {
					require.Equal(t, string(encoded(t, cold)), string(encoded(t, warm)), e.name)
					planned++
				}
			}
		}
	}
	require.Greater(t, planned, 50)
}

// anyEdit makes one change of the kinds that a drag or a click makes, or takes one back.
func anyEdit(rng *rand.Rand, d *planner.Document) error {
	rooms := d.Job().Rooms
	if len(rooms) == 0 {
		d.Undo()
		return nil
	}
	r := rooms[rng.IntN(len(rooms))]
	side, by := rng.IntN(len(r.Walls)), length.Inches(int64(rng.IntN(41)-20))
	switch rng.IntN(9) {
	case 0, 1:
		at := r.Corners[side]
		return d.Apply(planner.MoveCorner{Room: r.ID, Corner: side + 1, To: shape.Point{X: at.X + by, Y: at.Y}})
	case 2:
		for _, w := range r.Walls {
			if len(w.Openings) > 0 {
				o := w.Openings[0]
				o.At += by
				return d.Apply(planner.ChangeOpening{Surface: r.ID + "/" + w.ID, ID: o.ID, Opening: o})
			}
		}
	case 3:
		linings := [][]string{{"ply-18"}, {"gyp-16x"}, {job.Open}, {"gyp-12", "gyp-12"}}
		zone := job.Zone{Layers: linings[rng.IntN(len(linings))], Finish: 4}
		return d.Apply(planner.SetLining{Surfaces: []string{r.ID + "/" + r.Walls[side].ID}, Zones: []job.Zone{zone}})
	case 4:
		return d.Apply(planner.SetRoomHeight{Room: r.ID, Height: r.Height + by})
	case 5: // 400 in are what parts two rooms: some now share a partition
		return d.Apply(planner.MoveRoom{Room: r.ID, By: shape.Point{X: 180*length.Inch - by, Y: by}})
	case 6:
		return d.Apply(planner.RemoveRoom{Room: r.ID})
	case 7:
		site := d.Job().Site
		site.People, site.Rate = 3-site.People, 0
		return d.Apply(planner.SetSite{Site: site})
	}
	d.Undo()
	return nil
}

// However many prompt answers a drag has asked for, the full one at its end works out the room in the hand alone: what it
// allocates tells.
func TestALongDragWearsNothingOut(t *testing.T) {
	allocated := func(work func()) uint64 {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		work()
		runtime.ReadMemStats(&after)
		return after.TotalAlloc - before.TotalAlloc
	}
	d, memo := loaded(t, village(14)), calc.NewMemo()
	full := func() {
		_, err := calc.Plan(t.Context(), d.Job(), memo)
		require.NoError(t, err)
	}
	cold := allocated(full)
	for i := range 60 {
		require.NoError(t, moved(d, 7, i))
		_, err := calc.Prompt(t.Context(), d.Job(), memo)
		require.NoError(t, err)
	}
	require.Less(t, allocated(full), cold/3)
}
