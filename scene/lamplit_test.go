package scene

import (
	"image"
	"math"
	"runtime"
	"testing"
	"weak"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/require"

	"seamwright/scene/light"
	"seamwright/scene/raster"
)

// A small lamp at height h gives a floor I·h/(h²+x²)^(3/2) at x from its foot (inverse square and Lambert's cosine).
func TestFloorUnderALamp(t *testing.T) {
	const candela, h = 400.0, 2.4
	l := lit{mean: 100}
	lamp := []light.Source{{Place: mgl64.Vec3{0, 0, h}, Candela: candela}}
	up := mgl64.Vec3{0, 0, 1}
	for _, x := range []float64{0, 0.5, 1.7, 4} {
		lux := l.even() + candela*h/math.Pow(h*h+x*x, 1.5)
		require.InDelta(t, lux*l.exposure(), l.falling(lamp, 0, mgl64.Vec3{x, 0, 0}, up), 1e-6)
	}
	// What turns away from it has the light from all sides alone.
	require.InDelta(t, l.even()*l.exposure(), l.falling(lamp, 0, mgl64.Vec3{}, up.Mul(-1)), 1e-6)
}

// Under the ceiling's lamp floor, wood and studs change from place to place as they do not in even light, and a window
// is dark while no daylight is lit.
func TestLampsLightEverything(t *testing.T) {
	s := Build(handPlan(), handJob(), Options{})
	r := NewRenderer(1)
	defer r.Close()
	k := Raking{On: true, Lamps: CeilingLamps}
	floor := r.floor(s, &s.rooms[0], k).Planes[0].Light
	drawn := s.rooms[0].mesh.Planes[0].Light
	mid, corner := floor.H/2*floor.W+floor.W/2, floor.W+1
	require.NotEqual(t, drawn.V[mid], floor.V[mid])
	require.Greater(t, floor.V[mid]/floor.V[corner], 1.02*drawn.V[mid]/drawn.V[corner], "brighter under the lamp than in the corner")
	for _, id := range []string{"studio/south", "studio/west"} { // panels of wood; studs
		q := s.partOf(id)
		m := r.finish(s, q, k)
		changed := 0
		for i, p := range m.Planes {
			if p.Relief == nil && (p.Light != q.solid.Planes[i].Light || p.Shade != q.solid.Planes[i].Shade) {
				changed++
			}
		}
		require.Greater(t, changed, len(m.Planes)/3, id)
	}
	glass := func(k Raking) float32 {
		q := s.partOf("studio/north")
		m := r.finish(s, q, k)
		for i, seat := range seatsOf(&q.solid) {
			if seat.material == matGlass {
				return m.Planes[i].Shade
			}
		}
		return 0
	}
	require.Less(t, glass(k), 0.5*glass(Raking{On: true, Lamps: Daylight}))
}

// While a lamp is held to a wall of one room the other rooms are finished too, in the dimness that is left to them.
func TestOtherRoomsWhileALampIsHeld(t *testing.T) {
	s := manyRooms(1500)
	require.Greater(t, len(s.rooms), 1)
	k := Raking{On: true, Angle: 0.2, From: math.Pi / 2, Surface: "0-studio/north"} // from above, so that the floor has of it
	r := NewRenderer(1)
	defer r.Close()
	st := DefaultStyle()
	st.Raking = k
	cam, _ := s.Camera("SE", 320, 200)
	r.Render(image.NewRGBA(image.Rect(0, 0, 320, 200)), s, cam, st)
	here, there := s.partOf("0-studio/north"), s.partOf("1-studio/north")
	require.NotEmpty(t, here.shining(r.room(s, here.room, k), k))
	require.Empty(t, there.shining(r.room(s, there.room, k), k))
	require.NotNil(t, r.finished[there], "it is drawn finished")
	near, far := r.floor(s, &s.rooms[0], k).Planes[0].Light, r.floor(s, &s.rooms[1], k).Planes[0].Light
	at := near.H/2*near.W + near.W/2
	require.Less(t, far.V[at], near.V[at])
	require.Greater(t, far.V[at], float32(0.2), "dim, not black")
	// Without one wall that it is held to, every wall has its own lamp.
	k.Surface = ""
	require.NotEmpty(t, there.shining(s.litRoom(there.room, k), k))
}

// What is let go of comes back the same.
func TestSpare(t *testing.T) {
	s := Build(handPlan(), handJob(), Options{})
	st := DefaultStyle()
	st.Raking = Raking{On: true, Angle: 0.15, Sheen: Satin}
	cam, _ := s.Camera("SE", 320, 200)
	r := NewRenderer(1)
	defer r.Close()
	one, two := image.NewRGBA(image.Rect(0, 0, 320, 200)), image.NewRGBA(image.Rect(0, 0, 320, 200))
	r.Render(one, s, cam, st)
	var reliefs []weak.Pointer[raster.Relief]
	for _, f := range r.finished {
		for i := range f.mesh.Planes {
			if rel := f.mesh.Planes[i].Relief; rel != nil {
				reliefs = append(reliefs, weak.Make(rel))
			}
		}
	}
	require.NotEmpty(t, reliefs)
	r.Spare()
	require.Empty(t, r.finished)
	runtime.GC()
	for _, rel := range reliefs {
		require.Nil(t, rel.Value(), "what was let go of is held nowhere")
	}
	r.Render(two, s, cam, st)
	require.Equal(t, one.Pix, two.Pix)
}
