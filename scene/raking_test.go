package scene

import (
	"math"
	"strings"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/require"

	"seamwright/calc/length"
	"seamwright/scene/light"
)

func TestJudgeSurface(t *testing.T) {
	s := Build(handPlan(), handJob(), Options{})
	low, ok := s.Judge("studio/north", Raking{Angle: 8 * math.Pi / 180})
	require.True(t, ok)
	require.Equal(t, light.Butt, low.Kind)
	high, _ := s.Judge("studio/north", Raking{Angle: math.Pi / 2})
	require.Less(t, high.Times(), low.Times())
	_, ok = s.Judge("studio/south", Raking{Angle: 0.1})
	require.False(t, ok, "plywood has no finished joints")
}

// Lit straight on, a finished wall shows nothing of its joints; under a raking lamp a butt joint changes it by the
// contrast that package light gives, less what contact shading and one step of 8 bits leave uncertain.
func TestRakingPictureShowsTheContrast(t *testing.T) {
	s := Build(handPlan(), handJob(), Options{})
	cam, _ := s.Facing("studio/north", 900, 400)
	swing := func(k Raking) float64 {
		st := DefaultStyle()
		st.Raking = k
		img := picture(2, s, cam, st, 900, 400)
		q := s.partOf("studio/north")
		lo, hi := 255.0, 0.0
		for x := 8*ft - 10*in; x <= 8*ft+10*in; x += in / 2 {
			px, py, _ := cam.Project(900, 400, q.frame.at(x.Metres(), (2*ft).Metres(), q.front))
			v := linear(img.RGBAAt(int(px), int(py)).G)
			lo, hi = min(lo, v), max(hi, v)
		}
		return (hi - lo) / (hi + lo)
	}
	j := light.Usual(light.Butt, 4)
	for _, deg := range []float64{8, 20, 90} {
		a := deg * math.Pi / 180
		want := light.Contrast(j.Slope(), light.Grazing(a, evenLight), Flat.Paint())
		require.InDelta(t, want, swing(Raking{On: true, Angle: a}), 0.012+0.25*want, "%v°", deg)
	}
}

// Lamps and windows stand where the plan has them, and none of them shows a joint more when its wall is skimmed.
func TestLampsOfARoom(t *testing.T) {
	s := Build(handPlan(), handJob(), Options{})
	require.Len(t, s.fixed("studio", CeilingLamps), 1, "no box in the ceiling: one lamp under its middle")
	require.Len(t, s.fixed("studio", Daylight), 2*cellsAcross*cellsUp, "two windows")
	require.Empty(t, s.fixed("studio", Flood))
	for _, lamps := range []Lamps{Flood, CeilingLamps, Daylight, Flood | CeilingLamps | Daylight} {
		k := Raking{On: true, Lamps: lamps, Angle: 0.15, Reach: 2.5, Level: 4}
		seen := s.Seen("studio/north", k)
		require.NotEmpty(t, seen)
		for i := 1; i < len(seen); i++ {
			require.LessOrEqual(t, seen[i].Times(), seen[i-1].Times())
		}
		k.Level = 5
		better, ok := s.Judge("studio/north", k)
		require.True(t, ok)
		require.LessOrEqual(t, better.Times(), seen[0].Times())
		k.View = 6
		far, _ := s.Judge("studio/north", k)
		require.Equal(t, far.Contrast, better.Contrast)
	}
}

// Held to the left, the flood lamp crosses upright joints and runs along level ones; held above, the other way round.
func TestFloodLampHasADirection(t *testing.T) {
	s := Build(handPlan(), handJob(), Options{})
	times := func(from float64) (upright, level float64) {
		for _, j := range s.Seen("studio/north", Raking{On: true, Angle: 0.12, From: from}) {
			if j.Joint.From.X == j.Joint.To.X {
				upright = max(upright, j.Times())
			} else {
				level = max(level, j.Times())
			}
		}
		return
	}
	upright, level := times(0)
	require.Greater(t, upright, 1.0)
	require.Less(t, level, 1e-9)
	upright, level = times(math.Pi / 2)
	require.Less(t, upright, 1e-9)
	require.Greater(t, level, 0.1)
}

// The near flood lamp falls off along the wall in the picture as the inverse square and Lambert's law say.
func TestFloodLampFallsOffInThePicture(t *testing.T) {
	s := Build(handPlan(), handJob(), Options{})
	q := s.partOf("studio/north")
	cam, _ := s.Facing("studio/north", 900, 400)
	st := DefaultStyle()
	st.Raking = Raking{On: true, Surface: "studio/north", Angle: 30 * math.Pi / 180, Reach: 2, Shift: [2]float64{0, -0.7}}
	img := picture(2, s, cam, st, 900, 400)
	l := s.litRoom("studio", st.Raking)
	at := func(x length.Length) (picture, want float64) {
		p := mgl64.Vec3{x.Metres(), (20 * in).Metres(), 0}
		px, py, _ := cam.Project(900, 400, q.frame.at(p[0], p[1], q.front))
		contact := float64(q.light.At(float32(p[0]), float32(p[1])))
		flat := light.Across(q.sources(l, st.Raking), p, mgl64.Vec2{}, l.even()).Flat()
		return linear(img.RGBAAt(int(px), int(py)).G), flat / (l.mean + l.even()) * lampLevel * contact * contact
	}
	for _, x := range []length.Length{11 * ft, 13 * ft, 19 * ft, 21 * ft} {
		got, want := at(x)
		require.InEpsilon(t, want, got, 0.06, "at %v", x)
	}
}

// Under a near lamp a joint shows less further from grazing light: a member is named where it would, and it does.
func TestMovingTheJointMends(t *testing.T) {
	s := Build(handPlan(), handJob(), Options{})
	k := Raking{On: true, Angle: 0.12, Reach: 3}
	found := false
	for _, j := range s.Seen("studio/north", k) {
		for _, m := range j.Mends {
			if strings.HasPrefix(m.What, "move the joint to the member at ") {
				found = true
				require.Less(t, m.Times, j.Times())
			}
		}
	}
	require.True(t, found)
	k.Reach = 0 // parallel light is the same everywhere
	for _, j := range s.Seen("studio/north", k) {
		for _, m := range j.Mends {
			require.NotContains(t, m.What, "member")
		}
	}
}

// A flood lamp held to one wall is one lamp for its room: what stands behind it or turned away has even light alone.
func TestHeldLampLightsItsRoom(t *testing.T) {
	s := Build(handPlan(), handJob(), Options{})
	k := Raking{On: true, Surface: "studio/north", Angle: 0.2, Reach: 3}
	l := s.litRoom("studio", k)
	north, west := s.partOf("studio/north"), s.partOf("studio/west")
	own := north.sources(l, k)
	require.Len(t, own, 1)
	require.InDelta(t, 0, own[0].Place.Sub(north.flood(k).Place).Len(), 1e-9)
	there := west.sources(l, k)
	require.Len(t, there, 1)
	// The same lamp, seen from the other wall: as far from its place in the building.
	at := north.frame.at(own[0].Place[0], own[0].Place[1], north.front+own[0].Place[2])
	require.InDelta(t, 0, west.place(at).Sub(there[0].Place).Len(), 1e-9)
	raised := false
	for _, m := range s.Seen("studio/north", k)[0].Mends {
		raised = raised || strings.HasPrefix(m.What, "move the lamp off the wall")
	}
	require.True(t, raised)
	k.Angle, k.Reach = math.Pi/2, 0 // straight at the north wall: along the west wall
	require.Empty(t, west.sources(s.litRoom("studio", k), k))
}

// A large building's reliefs are coarser, so that all of them together stay within their points.
func TestReliefsOfALargeBuilding(t *testing.T) {
	require.Equal(t, reliefStep, Build(handPlan(), handJob(), Options{}).ReliefStep())
	many := manyRooms(20000)
	step := many.ReliefStep()
	require.Greater(t, step, reliefStep)
	points := 0
	for _, q := range many.parts[:7] {
		for _, f := range q.fronts {
			c := q.coat(f, Raking{})
			r := c.relief(step)
			points += r.W * r.H
		}
	}
	require.Less(t, float64(points)*float64(len(many.parts))/7, 1.3*reliefPoints)
}
