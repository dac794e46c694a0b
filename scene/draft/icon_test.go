package draft_test

import (
	"bytes"
	"image"
	"image/png"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/scene/draft"
)

const icons = "../../assets/icons/"

// iconTolerance is how far a channel may differ: machines that fuse multiplication and addition round otherwise.
const iconTolerance = 3

// The shipped icons are what the code draws.
func TestShippedIcons(t *testing.T) {
	file := svg(t, 64, 64, "Seamwright", func(c draft.Canvas) { draft.DrawIcon(c, draft.Pt{}, 64) })
	if *update {
		require.NoError(t, os.WriteFile(icons+"seamwright.svg", file, 0o644))
	}
	want, err := os.ReadFile(icons + "seamwright.svg")
	require.NoError(t, err)
	require.True(t, bytes.Equal(want, file), "the drawing of the icon has changed: look at it, then run with -update")
	for _, size := range []int{16, 32, 48, 64, 128, 256, 512} {
		img := drawn(size, size, 1, func(c draft.Canvas) { draft.DrawIcon(c, draft.Pt{}, float64(size)) })
		path := icons + "seamwright-" + strconv.Itoa(size) + ".png"
		if *update {
			var b bytes.Buffer
			require.NoError(t, png.Encode(&b, img))
			require.NoError(t, os.WriteFile(path, b.Bytes(), 0o644))
		}
		data, err := os.ReadFile(path)
		require.NoError(t, err)
		shipped, err := png.Decode(bytes.NewReader(data))
		require.NoError(t, err)
		require.Equal(t, img.Rect, shipped.Bounds())
		sameColours(t, img, shipped, iconTolerance)
	}
}

// sameColours compares two pictures channel by channel, both as premultiplied eight-bit values.
func sameColours(t *testing.T, a, b image.Image, tolerance int) {
	t.Helper()
	for y := a.Bounds().Min.Y; y < a.Bounds().Max.Y; y++ {
		for x := a.Bounds().Min.X; x < a.Bounds().Max.X; x++ {
			r0, g0, b0, a0 := a.At(x, y).RGBA()
			r1, g1, b1, a1 := b.At(x, y).RGBA()
			for i, d := range [4]int{int(r0>>8) - int(r1>>8), int(g0>>8) - int(g1>>8), int(b0>>8) - int(b1>>8), int(a0>>8) - int(a1>>8)} {
				require.True(t, -tolerance <= d && d <= tolerance, "pixel %d,%d channel %d differs by %d", x, y, i, d)
			}
		}
	}
}
