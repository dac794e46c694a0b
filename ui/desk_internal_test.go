package ui

import (
	"image"
	"image/color"
	"image/draw"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// What is painted of the desk and the sheets on it are the whole of it: counted point by point, a point under no sheet is
// painted once, one under a sheet never.
func TestDeskIsPaintedWhereNoSheetLies(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const wide, high = 20, 14
		number := func(low, high int) float32 { return float32(rapid.IntRange(low, high).Draw(t, "at")) }
		var sheets []area
		for range rapid.IntRange(0, 5).Draw(t, "sheets") {
			x, y := number(-2, wide), number(-2, high)
			sheets = append(sheets, area{x, y, x + number(0, 12), y + number(0, 9)})
		}
		painted := uncovered(area{0, 0, wide, high}, sheets)
		for x := -3; x < wide+3; x++ {
			for y := -3; y < high+3; y++ {
				in := func(all []area) (n int) {
					for _, a := range all {
						if float32(x) >= a.x && float32(x) < a.right && float32(y) >= a.y && float32(y) < a.foot {
							n++
						}
					}
					return n
				}
				want := 0
				if x >= 0 && y >= 0 && x < wide && y < high && in(sheets) == 0 {
					want = 1
				}
				require.Equal(t, want, in(painted), "%d, %d", x, y)
			}
		}
	})
}

// The window's middle, as it stands at first, has the desk in few parts.
func TestDeskHasFewParts(t *testing.T) {
	b := laid(t)
	require.NotEmpty(t, b.desk.box.Objects)
	require.LessOrEqual(t, len(b.desk.box.Objects), 12)
}

// A spaced picture is painted from its first drawn row to its last; an empty one is a row.
func TestDrawnRows(t *testing.T) {
	paper := color.NRGBA{R: 251, G: 249, B: 243, A: 255}
	img := image.NewRGBA(image.Rect(0, 0, 7, 10))
	draw.Draw(img, img.Rect, image.NewUniform(paper), image.Point{}, draw.Src)
	top, foot := drawnRows(img, paper)
	require.Equal(t, 1, foot-top)
	img.Set(6, 3, color.Black)
	img.Set(0, 7, color.Black)
	top, foot = drawnRows(img, paper)
	require.Equal(t, [2]int{3, 8}, [2]int{top, foot})
	img.Set(0, 0, color.Black)
	img.Set(6, 9, color.Black)
	top, foot = drawnRows(img, paper)
	require.Equal(t, [2]int{0, 10}, [2]int{top, foot})
}

// What a spaced picture leaves out is paper: the window shows it whole, at its place.
func TestASpacedPictureIsPaintedInItsPlace(t *testing.T) {
	b := laid(t)
	p := b.studio.strip.pic
	whole, part := p.buffers[p.next], p.shown.Image.(*image.RGBA)
	require.Less(t, part.Rect.Dy(), whole.Rect.Dy(), "the room that the answers stand in is empty")
	top, foot := drawnRows(whole, b.pal.Pane)
	require.Equal(t, whole.Pix[top*whole.Stride:foot*whole.Stride], part.Pix)
	perRow := float64(p.Size().Height) / float64(whole.Rect.Dy())
	require.InDelta(t, float64(top)*perRow, float64(p.shown.Position().Y), 0.01)
	require.InDelta(t, float64(foot-top)*perRow, float64(p.shown.Size().Height), 0.01)
}
