package board_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/money"
	"seamwright/calc/plan"
)

const ft = length.Foot

// controls are the places of a zone's control joints that stand upright, or lie level.
func controls(z *plan.Zone, upright bool) (at []length.Length) {
	for _, jt := range z.Joints {
		if jt.Kind != plan.Control || (jt.From.X == jt.To.X) != upright {
			continue
		}
		p := jt.From.Y
		if upright {
			p = jt.From.X
		}
		if !slices.Contains(at, p) {
			at = append(at, p)
		}
	}
	slices.Sort(at)
	return at
}

// stretches are what control joints leave undivided.
func stretches(at []length.Length, run length.Length) (most length.Length) {
	last := length.Length(0)
	for _, p := range append(slices.Clone(at), run) {
		most, last = max(most, p-last), p
	}
	return most
}

// A room of 70 x 56 ft, whose middles have a stud or joist: ASTM C840 s. 20 as quoted asks for a control joint at 30 ft of wall and 50 ft of ceiling. So
// two joints on the long walls, one on the short ones, and one each way on the ceiling, whatever the run.
func TestALargeRoomIsDivided(t *testing.T) {
	for _, run := range []job.Run{job.RunAcross, job.RunAlong, job.RunAuto} {
		j := newJob(job.AimSheets, board48("gyp", true, 48, map[int64]money.Money{96: 1550, 144: 2380}))
		house(j, 840, 672, 96, 16*in, job.Zone{Layers: []string{"gyp"}, Runs: []job.Run{run}, Pattern: job.Staggered, Finish: 4}, true)
		b, a, p := planned(t, j)
		mustCover(t, j, b, a)
		mustBeLawful(t, j, b, a, p)
		for i, s := range p.Surfaces {
			z := &s.Zones[0]
			box := z.Outline.Bounds()
			upright, level := controls(z, true), controls(z, false)
			t.Log(run, s.ID, z.Run, upright, level)
			if b.Surfaces[i].Wall == nil {
				require.LessOrEqual(t, stretches(upright, box.MaxX()), 50*ft, "%s %s", run, s.ID)
				require.LessOrEqual(t, stretches(level, box.MaxY()), 50*ft, "%s %s", run, s.ID)
				require.Len(t, upright, 1)
				require.Len(t, level, 1)
				continue
			}
			require.LessOrEqual(t, stretches(upright, box.MaxX()), 30*ft, "%s %s", run, s.ID)
			require.Len(t, upright, int((box.W-1)/(30*ft)), "%s %s", run, s.ID)
			require.Empty(t, level)
			for _, x := range upright {
				require.Contains(t, s.Members.At, x)
			}
		}
	}
}

// Where the framing has two studs side by side, the control joint stands between them.
func TestControlJointsTakeDoubledMembers(t *testing.T) {
	for _, run := range []job.Run{job.RunAcross, job.RunAlong} {
		j := newJob(job.AimSheets, board48("gyp", true, 48, map[int64]money.Money{96: 1550, 144: 2380}))
		house(j, 480, 120, 96, 16*in, job.Zone{Layers: []string{"gyp"}, Runs: []job.Run{run}, Pattern: job.Staggered, Finish: 4}, false)
		j.Rooms[0].Walls[0].Framing.Also = []length.Length{193*in + in/2} // beside the stud at 192 in
		b, a, p := planned(t, j)
		mustCover(t, j, b, a)
		mustBeLawful(t, j, b, a, p)
		x := controls(&p.Surfaces[0].Zones[0], true)
		if run == job.RunAcross {
			require.Equal(t, []length.Length{192*in + 3*in/4}, x)
		} else {
			require.Len(t, x, 1)
		}
	}
}

// A control joint goes through both layers of board, whichever way each layer's sheets run: at the same place, on a member,
// and no other joint of the face lies on one of the layer below.
func TestControlJointsGoThroughAllLayers(t *testing.T) {
	for _, runs := range [][]job.Run{{job.RunAcross, job.RunAcross}, {job.RunAlong, job.RunAcross}, {job.RunAcross, job.RunAlong}, {job.RunAlong, job.RunAlong}} {
		j := newJob(job.AimSheets, board48("gyp", true, 48, map[int64]money.Money{96: 1550, 144: 2380}))
		house(j, 480, 120, 97, 16*in, job.Zone{Layers: []string{"gyp", "gyp"}, Runs: runs, Pattern: job.Staggered, Finish: 4}, false)
		b, a, p := planned(t, j)
		mustCover(t, j, b, a)
		mustBeLawful(t, j, b, a, p)
		s := &p.Surfaces[0]
		below, face := controls(&s.Zones[0], true), controls(&s.Zones[1], true)
		require.Len(t, face, 1, "%v", runs)
		require.Equal(t, face, below, "%v", runs)
		require.Contains(t, s.Members.At, face[0])
		require.LessOrEqual(t, stretches(face, 480*in), 30*ft)
	}
}

// Board under wood that stays visible is not divided, nor wood under board.
func TestOnlyBoardUnderBoardIsDivided(t *testing.T) {
	wood := job.Product{ID: "ply", Kind: job.WoodPanel, Thickness: 18 * length.Millimetre, Gap: in / 32, Sizes: []job.Size{{Length: 96 * in, Width: 48 * in, Price: 4500}}}
	for _, c := range []struct {
		layers []string
		want   [2]int
	}{{[]string{"gyp", "ply"}, [2]int{0, 0}}, {[]string{"ply", "gyp"}, [2]int{0, 1}}} {
		j := newJob(job.AimSheets, board48("gyp", true, 48, map[int64]money.Money{96: 1550, 144: 2380}), wood)
		house(j, 480, 120, 97, 16*in, job.Zone{Layers: c.layers, Runs: []job.Run{job.RunAcross, job.RunAcross}, Pattern: job.Staggered, Finish: 4}, false)
		_, _, p := planned(t, j)
		for i := range c.want {
			require.Len(t, controls(&p.Surfaces[0].Zones[i], true), c.want[i], "%v layer %d", c.layers, i+1)
		}
	}
}
