package scene

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/require"

	"seamwright/calc/length"
	"seamwright/calc/shape"
)

// At a seam the sheet under the pointer changes from one nanometre to the next, and the joint is named.
func TestPickIsExactAtTheSeam(t *testing.T) {
	s := Build(handPlan(), handJob(), Options{})
	q := s.partOf("studio/north")
	st := DefaultStyle()
	cam, ok := s.Facing("studio/north", 800, 500)
	require.True(t, ok)
	z := &q.surface.Zones[0]
	left := panelAt(z, shape.Point{X: 8*ft - 1, Y: 2 * ft})
	right := panelAt(z, shape.Point{X: 8*ft + 1, Y: 2 * ft})
	require.NotEqual(t, left.ID, right.ID)
	for _, off := range []length.Length{-3 * length.Millimetre, 3 * length.Millimetre} {
		at := q.frame.at((8*ft + off).Metres(), (2 * ft).Metres(), q.front)
		x, y, ok := cam.Project(800, 500, at)
		require.True(t, ok)
		hit, ok := s.Pick(cam, st, 800, 500, x, y)
		require.True(t, ok)
		want := left.ID
		if off > 0 {
			want = right.ID
		}
		require.Equal(t, want, hit.Panel)
		require.Equal(t, "studio/north", hit.Surface)
		require.InDelta(t, (8*ft + off).MM(), hit.At.X.MM(), 1e-3)
		require.InDelta(t, 0, hit.Point.Sub(at).Len(), 1e-9)
		require.NotNil(t, hit.Joint)
		require.Equal(t, 8*ft, hit.Joint.From.X)
		require.NotEmpty(t, hit.Sheet)
	}
}

// Whatever is picked is what was drawn there: the pixel's own surface, by colour, for a hundred rays.
func TestPickAgreesWithThePicture(t *testing.T) {
	s := Build(handPlan(), handJob(), Options{})
	cam, _ := s.Camera("SE", 320, 200)
	st := DefaultStyle()
	plain := picture(2, s, cam, st, 320, 200)
	for _, q := range s.parts {
		st.Hovered = Ref{Surface: q.id} // tints, and draws no outline
		tinted := picture(2, s, cam, st, 320, 200)
		for y := 5; y < 200; y += 13 {
			for x := 5; x < 320; x += 13 {
				hit, ok := s.Pick(cam, st, 320, 200, float64(x)+0.5, float64(y)+0.5)
				changed := plain.RGBAAt(x, y) != tinted.RGBAAt(x, y)
				if ok && hit.Surface == q.id && hit.Panel != "" && hit.Joint == nil {
					require.True(t, changed, "%s at %d,%d: picked but not drawn", q.id, x, y)
				}
				if changed && !nearEdge(s, cam, st, x, y) {
					require.Equal(t, q.id, hit.Surface, "at %d,%d: drawn but not picked", x, y)
				}
			}
		}
	}
}

// nearEdge reports whether picks differ round a pixel: there a line may be drawn over it.
func nearEdge(s *Scene, cam Camera, st Style, x, y int) bool {
	at := func(dx, dy float64) string {
		h, _ := s.Pick(cam, st, 320, 200, float64(x)+0.5+dx, float64(y)+0.5+dy)
		return h.Surface + h.Opening + h.Product + h.Panel
	}
	for _, d := range [][2]float64{{-3, 0}, {3, 0}, {0, -3}, {0, 3}} {
		if at(d[0], d[1]) != at(0, 0) {
			return true
		}
	}
	return false
}

func TestPickOpeningsAndFloor(t *testing.T) {
	s := Build(handPlan(), handJob(), Options{})
	cam, _ := s.Stand("studio")
	st := DefaultStyle()
	look := func(p mgl64.Vec3) (Hit, bool) {
		c := cam
		d := p.Sub(c.Eye)
		c.Yaw, c.Pitch = math.Atan2(d[0], d[1]), math.Atan2(d[2], d.Vec2().Len())
		return s.Pick(c, st, 100, 100, 50, 50)
	}
	n := s.partOf("studio/north")
	hit, ok := look(n.frame.at((12 * ft).Metres(), (5 * ft).Metres(), 0))
	require.True(t, ok)
	require.Equal(t, "w1", hit.Opening)
	hit, ok = look(mgl64.Vec3{3, 2.5, 0})
	require.True(t, ok)
	require.True(t, hit.Floor)
	require.Equal(t, "studio", hit.Room)
	require.InDelta(t, 3000, hit.At.X.MM(), 1e-3)
	so := s.partOf("studio/south")
	hit, ok = look(so.frame.at((17 * ft).Metres(), (5 * ft).Metres(), 0))
	require.True(t, ok)
	require.Equal(t, "d1", hit.Opening, "a closed door")
	we := s.partOf("studio/west")
	hit, ok = look(we.frame.at((9 * ft).Metres(), (7 * ft).Metres(), 0))
	require.True(t, ok)
	require.Equal(t, "open", hit.Product)
	e := s.partOf("studio/east")
	hit, ok = look(e.frame.at((9 * ft).Metres(), (7 * ft).Metres(), 0))
	require.True(t, ok)
	require.Equal(t, 2, hit.Layer)
	one := Build(handPlan(), handJob(), Options{Layers: 1})
	s = one
	hit, ok = look(e.frame.at((9 * ft).Metres(), (7 * ft).Metres(), 0))
	require.True(t, ok)
	require.Equal(t, 1, hit.Layer)
}
