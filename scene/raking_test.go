package scene

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

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
