package light

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// A small lamp follows the inverse square: twice as far, a quarter; a flat one the cosine at its own face as well.
func TestFalls(t *testing.T) {
	lamp := Source{Place: mgl64.Vec3{0, 0, 2}, Candela: 100}
	to, lux := lamp.Falls(mgl64.Vec3{})
	require.Equal(t, mgl64.Vec3{0, 0, 1}, to)
	require.InDelta(t, 25, lux, 1e-12)
	_, lux = lamp.Falls(mgl64.Vec3{0, 0, -2})
	require.InDelta(t, 100.0/16, lux, 1e-12)
	flat := Source{Place: mgl64.Vec3{0, 0, 1}, Axis: mgl64.Vec3{0, 0, -1}, Candela: 100}
	_, lux = flat.Falls(mgl64.Vec3{1, 0, 0}) // 45° off the axis, √2 away
	require.InDelta(t, 100*math.Sqrt(0.5)/2, lux, 1e-12)
	_, lux = flat.Falls(mgl64.Vec3{0, 0, 2})
	require.Zero(t, lux, "behind it there is none")
}

// A round even light of radius r and luminance L over a place gives πL·r²/(r²+h²) (closed form for a disc facing the
// place, e.g. Siegel and Howell, Thermal Radiation Heat Transfer): a large light cut into small ones comes to it.
func TestManySmallSourcesMakeADisc(t *testing.T) {
	const luminance, radius, height, rings = 300.0, 0.5, 1.2, 40
	var sources []Source
	for i := range rings {
		r := radius * (float64(i) + 0.5) / rings
		n := 8 * (i + 1)
		for k := range n {
			s, c := math.Sincos(2 * math.Pi * float64(k) / float64(n))
			area := math.Pi * radius * radius * float64(2*i+1) / (rings * rings) / float64(n)
			sources = append(sources, Source{Place: mgl64.Vec3{r * c, r * s, height}, Axis: mgl64.Vec3{0, 0, -1}, Candela: luminance * area})
		}
	}
	l := Across(sources, mgl64.Vec3{}, mgl64.Vec2{1, 0}, 0)
	require.InEpsilon(t, math.Pi*luminance*radius*radius/(radius*radius+height*height), l.Flat(), 1e-3)
}

// A beam along the joint shows nothing of it; turned by φ it shows cos φ of what it shows across.
func TestBeamAlongTheJoint(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(0.2, 1.4).Draw(t, "a")
		phi := rapid.Float64Range(0, math.Pi/2).Draw(t, "phi")
		s := rapid.Float64Range(1e-4, 0.02).Draw(t, "s")
		sin, cos := math.Sincos(a)
		far := Source{Place: mgl64.Vec3{cos * math.Cos(phi), cos * math.Sin(phi), sin}, Candela: 300, Far: true}
		c := Contrast(s, Across([]Source{far}, mgl64.Vec3{}, mgl64.Vec2{1, 0}, 0), matt)
		require.InDelta(t, s/math.Tan(a)*math.Cos(phi), c, 1e-12)
	})
}

// Two equal lamps from both sides cancel; a second lamp straight on only washes out.
func TestLampsTogether(t *testing.T) {
	const s = 0.01
	low := Beam{math.Cos(0.2), math.Sin(0.2), 100}
	mirror := Beam{-low.Across, low.Off, 100}
	require.Less(t, Contrast(s, Light{Beams: []Beam{low, mirror}}, matt), 1e-12)
	one := Contrast(s, Light{Beams: []Beam{low}}, matt)
	on := Beam{0, 1, 50}
	both := Contrast(s, Light{Beams: []Beam{low, on}}, matt)
	flat := low.Off*100 + 50
	require.InEpsilon(t, one*low.Off*100/flat, both, 1e-9)
	require.InDelta(t, flat, Light{Beams: []Beam{low, on}}.Flat(), 1e-12)
	// In full shadow on the far side, where the slope exceeds the lamp's angle, the contrast is whole.
	require.Equal(t, 1.0, Contrast(math.Tan(0.25), Light{Beams: []Beam{low}}, matt))
}

// A light put in its stead is offered when it helps, and only then.
func TestOtherLightMends(t *testing.T) {
	s := Scene{Light: Grazing(8*degree, 0.25), Level: 4, Distance: 2, Instead: []Other{
		{"higher", Grazing(30*degree, 0.25)}, {"lower", Grazing(4*degree, 0.25)},
	}}
	var words []string
	for _, m := range Judge(Butt, s).Mends {
		words = append(words, m.What)
	}
	require.Contains(t, words, "higher")
	require.NotContains(t, words, "lower")
}
