package scene

import (
	"image"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/scene/raster"
)

// Bodies are what the renderer draws: every floor and surface once, and under a far lamp every plane as bright as the
// renderer makes it, every coat as uneven.
func TestBodiesAreWhatIsDrawn(t *testing.T) {
	s := Build(handPlan(), handJob(), Options{})
	k := Raking{On: true, Angle: 12 * math.Pi / 180, Sheen: Satin}
	r := NewRenderer(1)
	defer r.Close()
	st := DefaultStyle()
	st.Raking = k
	cam, _ := s.Camera("SE", 64, 48)
	r.Render(image.NewRGBA(image.Rect(0, 0, 64, 48)), s, cam, st)
	bodies := s.Bodies(k)
	require.Len(t, bodies, len(s.rooms)+len(s.parts))
	planes, coats := 0, 0
	for i, b := range bodies[len(s.rooms):] {
		q := s.parts[i]
		require.Equal(t, q.id, b.ID)
		drawn := r.finish(s, q, k)
		coated := map[int32]bool{}
		for _, c := range b.Coats {
			coated[c.Plane] = true
			relief := drawn.Planes[c.Plane].Relief
			require.Equal(t, relief.Slopes, c.relief(s.ReliefStep()).Slopes)
			require.Equal(t, relief.Lamps, b.Lamps)
			require.InDelta(t, relief.Even, b.Even, 1e-6)
			coats++
		}
		for n := range b.Mesh.Planes {
			p := &b.Mesh.Planes[n]
			if coated[int32(n)] || p.Light != nil && b.Lit[n].Keeps > 0 {
				continue
			}
			at := func(p *raster.Plane) float64 { // its brightness in the first point of its light
				if p.Light == nil {
					return float64(p.Shade)
				}
				return float64(p.Shade * p.Light.V[0])
			}
			want := b.Lit[n].Keeps * float64(p.Shade)
			if b.Lit[n].Keeps == 0 {
				contact := 1.0
				if p.Light != nil {
					contact = float64(p.Light.V[0])
				}
				want = float64(p.Shade) * raster.Tone(b.Lit[n].Falling*contact*contact)
			}
			require.InDelta(t, want, at(&drawn.Planes[n]), 2e-3, "%s plane %d", q.id, n)
			planes++
		}
	}
	require.Greater(t, planes, 50)
	require.Greater(t, coats, 2)
}

// A look names a pattern and colours for every material that a mesh asks for, and a pen for every line.
func TestLookHasWhatMeshesAskFor(t *testing.T) {
	s := Build(handPlan(), handJob(), Options{})
	l := LookOf(DefaultStyle())
	for _, b := range s.Bodies(Raking{}) {
		for i := range b.Mesh.Faces {
			require.NotNil(t, l.Materials[b.Mesh.Faces[i].Material].Pattern)
		}
		for i := range b.Mesh.Lines {
			require.Less(t, int(b.Mesh.Lines[i].Pen), len(l.Pens))
		}
	}
	for _, pen := range JointPens {
		require.NotZero(t, l.Pens[pen].Width)
	}
}
