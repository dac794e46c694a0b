package scene

import (
	"bytes"
	"image"
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/require"
)

// The joint that is asked about is drawn where the camera puts it, in blue, and nowhere else; taken back, nothing of it
// is left.
func TestTheJointThatIsAskedAbout(t *testing.T) {
	s := Build(handPlan(), handJob(), Options{})
	const w, h = 640, 420
	cam, ok := s.Facing("studio/north", w, h)
	require.True(t, ok)
	st := DefaultStyle()
	st.Raking = Raking{On: true, Angle: 0.2, From: math.Pi / 2}
	seen := s.Seen("studio/north", st.Raking)
	require.NotEmpty(t, seen)
	r := NewRenderer(1)
	defer r.Close()
	draw := func() *image.RGBA {
		img := image.NewRGBA(image.Rect(0, 0, w, h))
		r.Render(img, s, cam, st)
		return img
	}
	plain := draw()
	st.Raking.Joint = seen[0].Joint
	asked := draw()
	q, j := s.partOf("studio/north"), st.Raking.Joint
	ax, ay, _ := cam.Project(w, h, q.frame.at(j.From.X.Metres(), j.From.Y.Metres(), q.front))
	bx, by, _ := cam.Project(w, h, q.frame.at(j.To.X.Metres(), j.To.Y.Metres(), q.front))
	away := func(x, y float64) float64 { // from the joint's segment in the picture
		a, b, p := mgl64.Vec2{ax, ay}, mgl64.Vec2{bx, by}, mgl64.Vec2{x, y}
		e := b.Sub(a)
		return p.Sub(a.Add(e.Mul(clamp(p.Sub(a).Dot(e)/e.LenSqr(), 0, 1)))).Len()
	}
	changed := 0
	for y := range h {
		for x := range w {
			a, b := plain.RGBAAt(x, y), asked.RGBAAt(x, y)
			if a == b {
				continue
			}
			changed++
			require.Greater(t, int(b.B)-int(b.R), int(a.B)-int(a.R), "%d, %d turned bluer", x, y)
			require.Less(t, away(float64(x)+0.5, float64(y)+0.5), 3.0, "%d, %d lies on the joint", x, y)
		}
	}
	require.Greater(t, changed, 50)
	st.Raking.Joint = nil
	require.True(t, bytes.Equal(plain.Pix, draw().Pix))
}
