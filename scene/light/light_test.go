package light

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

const degree = math.Pi / 180

var matt = Paint{Diffuse: 1}

// The slope of a parabola, by its closed form and by differences of its height.
func TestParabola(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := Joint{rapid.Float64Range(-0.003, 0.003).Draw(t, "c"), rapid.Float64Range(0.05, 0.4).Draw(t, "w")}
		require.InDelta(t, 2*math.Abs(j.Height)/j.Half, j.Slope(), 1e-15)
		require.InDelta(t, j.Slope(), math.Abs(j.SlopeAt(j.Half*feather)), 1e-15)
		require.LessOrEqual(t, math.Abs(j.SlopeAt(rapid.Float64Range(-1, 1).Draw(t, "any")*j.Half)), j.Slope()+1e-15)
		x := rapid.Float64Range(-0.9, 0.9).Draw(t, "x") * j.Half
		const step = 1e-6
		require.InDelta(t, (j.At(x+step)-j.At(x-step))/(2*step), j.SlopeAt(x), 1e-5)
		require.Zero(t, j.At(j.Half))
		require.Equal(t, j.Height, j.At(0))
	})
}

// The worked figures: a 1/16 in crown over 9 in shows 8 % at 10° and 1.4 % at 45°.
func TestWorkedContrast(t *testing.T) {
	j := Joint{inch / 16, 9 * inch}
	require.InDelta(t, 0.01389, j.Slope(), 1e-5)
	require.InDelta(t, 0.08, Contrast(j.Slope(), Grazing(10*degree, 0), matt), 0.0015)
	require.InDelta(t, 0.014, Contrast(j.Slope(), Grazing(45*degree, 0), matt), 0.0002)
}

// Lambert against the closed form tan s / tan a, as long as nothing lies in shadow; beyond, the contrast is full.
func TestLambert(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.Float64Range(1e-4, 0.2).Draw(t, "s")
		a := rapid.Float64Range(0.03, 1.5).Draw(t, "a")
		want := math.Min(1, s/math.Tan(a))
		require.InDelta(t, want, Contrast(s, Grazing(a, 0), matt), 1e-12)
	})
}

// Blinn's lobe: full along the half vector, half where (cos)ⁿ is one half, and where it is steepest (tan² = 1/(n-1))
// its slope is near √(n/e).
func TestBlinn(t *testing.T) {
	p := Paint{Lobe: 0.4, Exponent: 60}
	require.Equal(t, 0.4, p.Blinn(0))
	require.InDelta(t, 0.2, p.Blinn(math.Acos(math.Pow(0.5, 1.0/60))), 1e-12)
	at := math.Atan(1 / math.Sqrt(59))
	slope := (p.Blinn(at-1e-6) - p.Blinn(at+1e-6)) / 2e-6
	require.InEpsilon(t, 0.4*math.Sqrt(60/math.E), slope, 0.02)
}

func TestLimits(t *testing.T) {
	require.Less(t, Contrast(0.02, Grazing(Facing, 0), matt), 1e-12, "light straight on: nothing shows")
	require.Zero(t, Contrast(0, Grazing(0.1, 0), matt))
	require.Zero(t, Contrast(0.02, Grazing(0.1, 1), matt), "light from all sides: nothing shows")
	rapid.Check(t, func(t *rapid.T) {
		c := rapid.Float64Range(1e-4, 3e-3).Draw(t, "c")
		w := rapid.Float64Range(0.08, 0.3).Draw(t, "w")
		k := rapid.Float64Range(1.05, 2).Draw(t, "k")
		a := rapid.Float64Range(0.05, 1.4).Draw(t, "a")
		d := rapid.Float64Range(0.6, 5).Draw(t, "d")
		lamp := Grazing(a, 0)
		near, wide := Joint{c, w}, Joint{c, w * k}
		for s := Flat; s <= Gloss; s++ {
			p := s.Paint()
			c0, c1 := Contrast(near.Slope(), lamp, p), Contrast(wide.Slope(), lamp, p)
			require.LessOrEqual(t, c1, c0, "wider feathering: less contrast")
			require.LessOrEqual(t, c1/wide.Threshold(d), c0/near.Threshold(d), "wider feathering: less shows")
			lower := Contrast(near.Slope(), Grazing(a*0.8, 0), matt)
			require.GreaterOrEqual(t, lower, Contrast(near.Slope(), lamp, matt), "lower light: more shows")
			require.LessOrEqual(t, Contrast(near.Slope(), Grazing(a, 0.5), p), c0, "even light: less shows")
		}
	})
}

// A(f) peaks near 8 cycles per degree at about 1 (Mannos and Sakrison 1974, from memory).
func TestSensitivityPeak(t *testing.T) {
	best, at := 0.0, 0.0
	for f := 0.1; f < 40; f += 0.01 {
		if s := Sensitivity(f); s > best {
			best, at = s, f
		}
	}
	require.InDelta(t, 8, at, 0.5)
	require.InDelta(t, 1, best, 0.05)
}

func TestJudge(t *testing.T) {
	s := Scene{Light: Grazing(8*degree, 0), Sheen: SemiGloss, Level: 4, Distance: 2}
	v := Judge(Butt, s)
	require.Greater(t, v.Times(), 1.0)
	require.Greater(t, v.Times(), Judge(Tapered, s).Times(), "a butt joint shows more than a tapered one")
	require.NotEmpty(t, v.Mends)
	for i, m := range v.Mends {
		require.Less(t, m.Times, v.Times(), m.What)
		if i > 0 {
			require.GreaterOrEqual(t, m.Times, v.Mends[i-1].Times)
		}
	}
	s.Light, s.Sheen = Grazing(Facing, 0), Flat
	require.Less(t, Judge(Butt, s).Times(), 1.0)
}

// More sheen shows more of the same joint wherever the lamp does not already rake.
func TestSheenOrder(t *testing.T) {
	last := 0.0
	for s := Flat; s <= Gloss; s++ {
		c := Contrast(0.01, Grazing(45*degree, 0), s.Paint())
		require.Greater(t, c, last, s.String())
		last = c
	}
}
