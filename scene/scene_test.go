package scene

import (
	"bytes"
	"flag"
	"image"
	"image/color"
	"image/png"
	"io"
	"math"
	"os"
	"path/filepath"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamwright/calc/plan"
	"seamwright/calc/shape"
)

var update = flag.Bool("update", false, "write the golden pictures anew")

func picture(workers int, s *Scene, cam Camera, st Style, w, h int) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	r := NewRenderer(workers)
	defer r.Close()
	r.Render(img, s, cam, st)
	return img
}

// everything is a style that uses every part of the renderer.
func everything() Style {
	st := DefaultStyle()
	st.Members, st.SheetIDs, st.Seams = true, true, 1
	st.Selected, st.Hovered = []Ref{{"studio/north", "N2"}, {"studio/west", ""}}, Ref{"studio/north", "N3"}
	return st
}

// The same bytes on one core and on several, in every kind of picture, and again from a renderer that has drawn
// something else before.
func TestSamePixelsOnAnyCores(t *testing.T) {
	s := Build(handPlan(), handJob(), Options{})
	rake := DefaultStyle()
	rake.Raking = Raking{On: true, Angle: 0.15, Sheen: Satin}
	lamps := DefaultStyle()
	lamps.Raking = Raking{On: true, Lamps: Flood | CeilingLamps | Daylight, Angle: 0.2, Reach: 2, Sheen: Gloss, Marks: true}
	sharp := everything()
	sharp.Sharp = true
	used := NewRenderer(3)
	defer used.Close()
	for _, st := range []Style{everything(), rake, lamps, sharp} {
		cam, _ := s.Camera("SE", 611, 403) // no multiple of a tile
		one := picture(1, s, cam, st, 611, 403)
		for _, workers := range []int{2, 5} {
			require.True(t, bytes.Equal(one.Pix, picture(workers, s, cam, st, 611, 403).Pix))
		}
		img := image.NewRGBA(image.Rect(0, 0, 611, 403))
		used.Render(img, s, cam, st)
		require.True(t, bytes.Equal(one.Pix, img.Pix))
	}
}

// A frame allocates nothing once the renderer has seen the scene.
func TestFrameAllocatesNothing(t *testing.T) {
	s := Build(handPlan(), handJob(), Options{})
	cam, _ := s.Camera("NE", 400, 300)
	rake := DefaultStyle()
	rake.Raking = Raking{On: true, Angle: 0.15, Lamps: Flood | Daylight, Sheen: Gloss, Marks: true}
	img := image.NewRGBA(image.Rect(0, 0, 400, 300))
	for _, st := range []Style{everything(), rake} {
		r := NewRenderer(2)
		r.Render(img, s, cam, st)
		require.Zero(t, testing.AllocsPerRun(20, func() {
			cam = cam.Orbit(s.rooms[0].centre, 1e-4, 0)
			r.Render(img, s, cam, st)
		}))
		r.Close()
	}
}

// FrameAll shows every corner of the building from every named view, and touches the frame on two opposite sides.
func TestNamedViewsFrameAll(t *testing.T) {
	s := Build(handPlan(), handJob(), Options{})
	for _, size := range [][2]int{{800, 600}, {300, 900}} {
		w, h := size[0], size[1]
		for _, name := range Views {
			cam, ok := s.Camera(name, w, h)
			require.True(t, ok, name)
			lo, hi := mgl64.Vec2{1e9, 1e9}, mgl64.Vec2{-1e9, -1e9}
			for _, p := range s.hull {
				x, y, ok := cam.Project(w, h, p)
				require.True(t, ok)
				lo, hi = mgl64.Vec2{min(lo[0], x), min(lo[1], y)}, mgl64.Vec2{max(hi[0], x), max(hi[1], y)}
			}
			require.GreaterOrEqual(t, lo[0], -0.01, name)
			require.LessOrEqual(t, hi[0], float64(w)+0.01, name)
			require.GreaterOrEqual(t, lo[1], -0.01, name)
			require.LessOrEqual(t, hi[1], float64(h)+0.01, name)
			fill := max((hi[0]-lo[0])/float64(w), (hi[1]-lo[1])/float64(h))
			require.InDelta(t, framing, fill, 1e-6, name)
		}
	}
	_, ok := s.Camera("UP", 10, 10)
	require.False(t, ok)
}

func drawCamera(t *rapid.T) Camera {
	f := func(lo, hi float64, name string) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
	return Camera{Eye: mgl64.Vec3{f(-9, 9, "x"), f(-9, 9, "y"), f(1, 9, "z")}, Yaw: f(-4, 4, "yaw"), Pitch: f(-1.2, 1.2, "pitch"), FOV: f(0.5, 1.2, "fov"), Reach: f(1, 20, "reach")}
}

// Turning about a point keeps it where it is in the picture; zooming to it keeps it under the pointer; a ray goes
// through the pixel that its points project to; panning moves what is looked at by as many pixels.
func TestCameraMoves(t *testing.T) {
	const w, h = 640, 480
	rapid.Check(t, func(t *rapid.T) {
		c := drawCamera(t)
		x, y := rapid.Float64Range(0, w).Draw(t, "px"), rapid.Float64Range(0, h).Draw(t, "py")
		p := c.Eye.Add(c.Ray(w, h, x, y).Mul(rapid.Float64Range(1, 30).Draw(t, "depth")))
		same := func(c Camera, x, y float64) {
			px, py, ok := c.Project(w, h, p)
			require.True(t, ok)
			require.InDelta(t, x, px, 1e-6)
			require.InDelta(t, y, py, 1e-6)
		}
		same(c, x, y)
		same(c.Orbit(p, rapid.Float64Range(-3, 3).Draw(t, "dyaw"), rapid.Float64Range(-3, 3).Draw(t, "dpitch")), x, y)
		same(c.ZoomTo(p, rapid.Float64Range(0.5, 2).Draw(t, "zoom")), x, y)
		p = c.Target()
		same(c.Pan(31, -17, h), w/2+31, h/2-17)
		axes := []mgl64.Vec3{c.Right(), c.Up(), c.Forward()}
		for i, a := range axes {
			require.InDelta(t, 1, a.Len(), 1e-12)
			require.InDelta(t, 0, a.Dot(axes[(i+1)%3]), 1e-12)
		}
		d := drawCamera(t)
		require.Equal(t, c, c.Blend(d, 0))
		require.Equal(t, d, c.Blend(d, 1))
		require.LessOrEqual(t, math.Abs(c.Blend(d, 0.5).Yaw-c.Yaw), math.Pi/2+1e-9, "the shorter way round")
	})
}

// Only what changed is built again; the scene then equals one built afresh.
func TestUpdateRebuildsOneSurface(t *testing.T) {
	p := handPlan()
	s := Build(p, handJob(), Options{})
	require.Zero(t, s.Update(handPlan(), handJob()))
	changed := handPlan()
	w := &changed.Surfaces[2]
	w.Zones = nil
	lay(w, 1, 1, "ply-18", 0, 8*ft, 4*ft, rect(0, in/2, 24*ft, 8*ft-in/2))
	require.Equal(t, 1, s.Update(changed, handJob()))
	cam, _ := s.Camera("SE", 300, 200)
	fresh := Build(changed, handJob(), Options{})
	require.Equal(t, picture(1, fresh, cam, everything(), 300, 200).Pix, picture(1, s, cam, everything(), 300, 200).Pix)
}

// A wall between the eye and the room is an outline only; with cutting away off it hides the room.
func TestCutAway(t *testing.T) {
	s := Build(handPlan(), handJob(), Options{})
	cam, _ := s.Camera("S", 200, 120)
	st := DefaultStyle()
	hit, ok := s.Pick(cam, st, 200, 120, 60.5, 60.5)
	require.True(t, ok)
	require.NotEqual(t, "studio/south", hit.Surface)
	hidden, outline := cutAway(s.partOf("studio/south"), cam, st)
	require.True(t, hidden && outline)
	st.Cutaway = false
	hidden, _ = cutAway(s.partOf("studio/south"), cam, st)
	require.False(t, hidden)
}

// The panels' faces add up to their outlines' areas: nothing of a sheet is lost or doubled in the mesh.
func TestFacesCoverPanels(t *testing.T) {
	s := Build(handPlan(), handJob(), Options{})
	for _, q := range s.parts {
		got := make([]float64, len(q.panels))
		for _, f := range q.solid.Faces {
			n := q.solid.Planes[f.Plane].Normal
			if f.Tag < 0 || math.Abs(float64(n.Dot(vec32(q.frame.normal)))-1) > 1e-6 {
				continue
			}
			for k := 2; k < int(f.N); k++ {
				got[f.Tag] += float64(f.V[k-1].Sub(f.V[0]).Cross(f.V[k].Sub(f.V[0])).Len()) / 2
			}
		}
		for tag, ref := range q.panels {
			p := q.surface.Zones[ref.zone].Panels[ref.panel]
			want := (shape.Region{Outline: p.Outline, Holes: p.Holes}).Area().SquareMetres()
			require.InDelta(t, want, got[tag], 1e-4, "%s %s", q.id, p.ID)
		}
	}
}

// Every letter that an id is made of can be written, on the grid it is drawn on.
func TestLetters(t *testing.T) {
	for _, r := range "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-./" {
		require.NotEmpty(t, strokes[r], string(r))
		for _, c := range strokes[r] {
			require.Contains(t, " |0123456", string(c))
		}
	}
}

func TestLegendNamesEveryJoint(t *testing.T) {
	l := Legend(Style{Seams: 1})
	require.Len(t, l, 5)
	for i := range l {
		for k := range i {
			require.False(t, l[i].Width == l[k].Width && l[i].Dash == l[k].Dash && l[i].Twice == l[k].Twice, "%s and %s look alike", l[i].Words, l[k].Words)
		}
	}
}

// The scene's legend names the joints that it has and no others, and stands in the picture where it is asked for.
func TestSceneLegend(t *testing.T) {
	s := Build(handPlan(), handJob(), Options{})
	var words []string
	for _, e := range s.Legend(Style{Seams: 1}) {
		words = append(words, e.Words)
	}
	require.Equal(t, []string{"tapered joint", "butt joint", "gap between panels"}, words)
	cam, _ := s.Camera("SE", 400, 300)
	st := DefaultStyle()
	plain := picture(1, s, cam, st, 400, 300)
	st.Legend = true
	with := picture(1, s, cam, st, 400, 300)
	require.NotEqual(t, plain.RGBAAt(40, 280), with.RGBAAt(40, 280))
	require.Equal(t, plain.RGBAAt(300, 100), with.RGBAAt(300, 100))
	none := Build(&plan.Plan{}, nil, Options{})
	require.Empty(t, none.Legend(st))
}

// The transparent ground stays transparent, and what is drawn is opaque.
func TestClearGround(t *testing.T) {
	s := Build(handPlan(), handJob(), Options{})
	cam, _ := s.Camera("SE", 200, 120)
	st := DefaultStyle()
	st.Clear = true
	img := picture(1, s, cam, st, 200, 120)
	require.Zero(t, img.RGBAAt(2, 2).A)
	require.Equal(t, uint8(255), img.RGBAAt(100, 60).A)
}

// Golden pictures are small enough to look at. On another kind of processor sums may be rounded once less, which
// moves single samples at edges: a hundredth of the pixels may differ, and the picture's mean by a fifth of a step.
func TestGoldens(t *testing.T) {
	s := Build(handPlan(), handJob(), Options{})
	inside, _ := s.Stand("studio")
	se, _ := s.Camera("SE", 480, 300)
	above, _ := s.Camera("above", 480, 300)
	dark := everything()
	dark.Theme = Ink
	high := everything()
	high.Theme = HighContrast
	rake := DefaultStyle()
	rake.Raking = Raking{On: true, Angle: 8 * math.Pi / 180, Sheen: Eggshell}
	for _, c := range []struct {
		name string
		cam  Camera
		st   Style
	}{
		{"south-east", se, DefaultStyle()}, {"inside-diagram", inside, everything()}, {"above-dark", above, dark},
		{"high-contrast", se, high}, {"raking", inside, rake},
	} {
		c.st.Sharp = true
		img := picture(2, s, c.cam, c.st, 480, 300)
		name := filepath.Join("testdata", c.name+".png")
		var out bytes.Buffer
		require.NoError(t, png.Encode(&out, img))
		if *update {
			require.NoError(t, os.MkdirAll("testdata", 0o755))
			require.NoError(t, os.WriteFile(name, out.Bytes(), 0o644))
			continue
		}
		f, err := os.Open(name)
		require.NoError(t, err)
		want, err := png.Decode(f)
		f.Close()
		require.NoError(t, err)
		differ, sum := 0, 0.0
		for y := range 300 {
			for x := range 480 {
				a, b := img.RGBAAt(x, y), color.RGBAModel.Convert(want.At(x, y)).(color.RGBA)
				d := max(math.Abs(float64(a.R)-float64(b.R)), math.Abs(float64(a.G)-float64(b.G)), math.Abs(float64(a.B)-float64(b.B)))
				sum += d
				if d > 6 {
					differ++
				}
			}
		}
		if differ > 480*300/100 || sum/(480*300) > 0.2 {
			failed := filepath.Join(t.TempDir(), c.name+".png")
			_ = os.WriteFile(failed, out.Bytes(), 0o644)
			t.Errorf("%s: %d pixels differ, mean %.2f; compare with %s", name, differ, sum/(480*300), failed)
		}
	}
}

// An empty plan, and a surface that has no outline yet, draw the ground and pick nothing.
func TestNothingToShow(t *testing.T) {
	for _, p := range []*plan.Plan{{}, {Surfaces: []plan.Surface{{ID: "a/b", Room: "a", Kind: plan.Wall}}}} {
		s := Build(p, nil, Options{})
		for _, name := range Views {
			cam, _ := s.Camera(name, 60, 40)
			require.NotZero(t, picture(1, s, cam, everything(), 60, 40).RGBAAt(30, 20).A)
			_, ok := s.Pick(cam, everything(), 60, 40, 30, 20)
			require.False(t, ok)
		}
		_, ok := s.Stand("a")
		require.False(t, ok)
		_, ok = s.Judge("a/b", Raking{On: true})
		require.False(t, ok)
		require.NoError(t, GLB(io.Discard, s))
	}
}
