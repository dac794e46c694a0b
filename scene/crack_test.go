package scene

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// No background shows inside the building's silhouette: where the rays through a pixel and through all round it meet
// something, the pixel is covered. Seen through the slit under a lining beside bare studs, and round a door, it was not.
func TestNoBackgroundInsideTheSilhouette(t *testing.T) {
	s := Build(handPlan(), handJob(), Options{})
	const w, h, turns = 480, 320, 24
	for _, cutaway := range []bool{true, false} {
		st := DefaultStyle()
		st.Clear, st.Cutaway, st.Seams = true, cutaway, 0
		for k := range turns {
			base, _ := s.Camera("SE", w, h)
			cam := base.Orbit(s.rooms[0].centre, float64(k)*2*math.Pi/turns, float64(k%5)*0.06-0.12)
			img := picture(0, s, cam, st, w, h)
			for y := 1; y < h-1; y++ {
				for x := 1; x < w-1; x++ {
					if img.RGBAAt(x, y).A == 255 {
						continue
					}
					covered, met := 0, 0
					round := func(visit func(x, y int)) {
						for i := range 9 {
							visit(x+i%3-1, y+i/3-1)
						}
					}
					round(func(x, y int) { covered += int(img.RGBAAt(x, y).A) / 255 })
					if covered < 4 {
						continue // far from any edge: the open ground
					}
					round(func(x, y int) {
						if _, ok := s.Pick(cam, st, w, h, float64(x)+0.5, float64(y)+0.5); ok {
							met++
						}
					})
					require.Less(t, met, 9, "turn %d, cutaway %v: the ground shows at %d, %d", k, cutaway, x, y)
				}
			}
		}
	}
}
