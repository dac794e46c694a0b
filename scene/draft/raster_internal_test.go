package draft

import (
	"image"
	"image/color"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// covered sums the coverage of a path in whole pixels.
func covered(r *Raster, p Path) float64 {
	sum := 0.0
	r.path(p, func(_, _ int, cover []uint8) {
		for _, a := range cover {
			sum += float64(a) / 255
		}
	})
	return sum
}

// Coverage is exact, so it sums to the area of the outline (the shoelace formula); each pixel is rounded to 1/255.
func TestCoverageSumsToTheArea(t *testing.T) {
	r := NewRaster(image.NewRGBA(image.Rect(0, 0, 64, 64)), 1)
	rapid.Check(t, func(t *rapid.T) {
		p := Path{make([]Pt, 3)}
		for i := range p[0] {
			p[0][i] = Pt{rapid.Float64Range(0, 64).Draw(t, "x"), rapid.Float64Range(0, 64).Draw(t, "y")}
		}
		const pixels, rounding = 64 * 64, 0.5 / 255
		require.InDelta(t, math.Abs(turns(p[0]))/2, covered(r, p), pixels*rounding*0.1+0.05)
	})
}

// Two shapes that share an edge cover every pixel along it once, whatever the slant.
func TestSharedEdgeIsCoveredOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := Pt{rapid.Float64Range(-20, 60).Draw(t, "top"), -1}
		b := Pt{rapid.Float64Range(-20, 60).Draw(t, "foot"), 41}
		r := NewRaster(image.NewRGBA(image.Rect(0, 0, 40, 40)), 1)
		var sum [40][40]int
		add := func(x, y int, cover []uint8) {
			for i, c := range cover {
				sum[y][x+i] += int(c)
			}
		}
		r.path(Path{{a, b, {-90, 41}, {-90, -1}}}, add)
		r.path(Path{{a, b, {120, 41}, {120, -1}}}, add)
		for y := range sum {
			for x := range sum[y] {
				require.InDelta(t, 255, sum[y][x], 1, "pixel %d,%d", x, y)
			}
		}
	})
}

// A hole takes out its own area, whichever way round it is given; what lies outside the canvas does not count.
func TestHolesAndClipping(t *testing.T) {
	r := NewRaster(image.NewRGBA(image.Rect(0, 0, 50, 50)), 1)
	outer := Rect{10.5, 10, 20, 20}.Path()[0]
	hole := []Pt{{15, 15}, {20, 15}, {18, 20}}
	back := []Pt{{18, 20}, {20, 15}, {15, 15}}
	require.InDelta(t, 400-12.5, covered(r, Path{outer, hole}), 0.2)
	require.InDelta(t, 400-12.5, covered(r, Path{outer, back}), 0.2)
	require.InDelta(t, 50*50.0, covered(r, Path{{{-1e7, -1e7}, {1e7, -1e7}, {1e7, 1e7}, {-1e7, 1e7}}}), 0.1)
	r.Clip(Rect{0, 0, 20, 50})
	require.InDelta(t, 9.5*20, covered(r, Path{outer}), 0.2)
	r.Unclip()
	require.InDelta(t, 400, covered(r, Path{outer}), 0.2)
}

// Upright lines fall on whole pixels at every place and scale, as wide as asked, at least one.
func TestUprightLinesAreCrisp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		scale := rapid.SampledFrom([]float64{1, 1.5, 2, 3}).Draw(t, "scale")
		width := rapid.SampledFrom([]float64{0.5, 1, 2, 2.5}).Draw(t, "width")
		x := rapid.Float64Range(5, 15).Draw(t, "x")
		img := image.NewRGBA(image.Rect(0, 0, 70, 10))
		NewRaster(img, scale).Stroke([]Pt{{x, 0}, {x, 10}}, false, Pen{Width: width, Color: color.NRGBA{A: 255}})
		n := 0
		for i := 0; i < 70; i++ {
			a := img.RGBAAt(i, 1).A
			require.Contains(t, []uint8{0, 255}, a)
			n += int(a) / 255
		}
		require.Equal(t, int(math.Max(1, width*scale)+0.5), n)
	})
}

// What is drawn of a dashed line and what is left add up to it.
func TestDashesCoverTheirShare(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		periods := rapid.IntRange(1, 20).Draw(t, "periods")
		a, b := rapid.Float64Range(1, 9).Draw(t, "drawn"), rapid.Float64Range(1, 9).Draw(t, "left")
		long := float64(periods) * (a + b)
		turn := rapid.Float64Range(0, 1).Draw(t, "corner") * long
		sum := 0.0
		for _, part := range dashes([]Pt{{0, 0}, {turn, 0}, {turn, long - turn}}, false, []float64{a, b}) {
			for i := 1; i < len(part); i++ {
				sum += part[i].Sub(part[i-1]).Len()
			}
		}
		require.InDelta(t, float64(periods)*a, sum, 1e-6)
	})
}

// The digits have equal width in both weights, and the marks that the drawings and the window use are there.
func TestTypeface(t *testing.T) {
	for _, w := range []Weight{Regular, Semibold} {
		f := faceOf(w)
		for r := '0'; r <= '9'; r++ {
			require.Equal(t, f.width('0'), f.width(r), "digit %c", r)
		}
		for _, r := range "½¼¾′″²≤≥−×□·–…°äéñłß€$√≈→" {
			g, err := f.font.GlyphIndex(&f.buf, r)
			require.NoError(t, err)
			require.NotZero(t, g, "mark %c", r)
		}
	}
	// The hmtx table, read byte by byte with a script: 1160 of 2000 units for every digit.
	require.InDelta(t, 0.58, faceOf(Regular).width('7'), 1e-9)
}

func TestShorten(t *testing.T) {
	require.Equal(t, "East · separation", Shorten("East · separation", Small, Regular, 200))
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.StringMatching(`[a-z]{1,12}( [a-z·]{1,12}){0,4}`).Draw(t, "text")
		width := rapid.Float64Range(0, 200).Draw(t, "width")
		short := Shorten(s, Body, Semibold, width)
		require.LessOrEqual(t, Measure(short, Body, Semibold), width)
		if short != s && short != "" {
			require.Contains(t, short, "…")
		}
	})
}

// A hatch can be seen and leaves what stands on it readable; the turned tile is the lying one on its side.
func TestHatchesAreThereAndLight(t *testing.T) {
	for k := Stipple; k <= Wait; k++ {
		for _, scale := range []float64{1, 2} {
			tl := tileOf(k, false, scale)
			dark := 0
			for _, a := range tl.mask {
				dark += int(a)
			}
			share := float64(dark) / 255 / float64(len(tl.mask))
			require.Greater(t, share, 0.01, "hatch %d can be seen", k)
			require.Less(t, share, 0.5, "hatch %d does not drown what is on it", k)
			turned := tileOf(k, true, scale)
			require.Equal(t, [2]int{tl.w, tl.h}, [2]int{turned.h, turned.w})
		}
	}
}

// The accent must tell from every ground; text must be read at 4.5:1 and graphics seen at 3:1 (WCAG 2.2, 1.4.3
// and 1.4.11).
func TestContrast(t *testing.T) {
	require.InDelta(t, 21, Contrast(rgb(0), rgb(0xFFFFFF)), 1e-9)
	require.InDelta(t, 4.48, Contrast(rgb(0x777777), rgb(0xFFFFFF)), 0.01) // WCAG's own well-known near miss
	for _, th := range []*Theme{Paper(), Dark(), HighContrast()} {
		for _, ground := range []color.NRGBA{th.Ground, th.Pane} {
			for name, c := range map[string]color.NRGBA{"ink": th.Ink, "quiet": th.Quiet, "accent": th.Accent, "more": th.More, "less": th.Less, "error": th.Error} {
				require.GreaterOrEqual(t, Contrast(c, ground), 4.5, "%s: %s as text", th.Name, name)
			}
			require.GreaterOrEqual(t, Contrast(th.Caution, ground), 3.0, "%s: caution as a sign", th.Name)
			require.GreaterOrEqual(t, Contrast(th.Poche, ground), 3.0, "%s: walls", th.Name)
		}
		require.GreaterOrEqual(t, Contrast(th.OnChip, th.Chip), 4.5, th.Name)
		require.GreaterOrEqual(t, Contrast(th.Pane, th.Error), 4.5, "%s: number on a badge", th.Name)
		for i, m := range []Material{th.Board, th.Fire, th.Wet, th.Wood, th.Open, th.Framing} {
			require.GreaterOrEqual(t, Contrast(m.Mark, m.Fill), 3.0, "%s: hatch of material %d", th.Name, i)
			require.GreaterOrEqual(t, Contrast(th.Ink, m.Fill), 4.5, "%s: text on material %d", th.Name, i)
			require.GreaterOrEqual(t, Contrast(th.Accent, m.Fill), 3.0, "%s: seam in the hand on material %d", th.Name, i)
		}
	}
}
