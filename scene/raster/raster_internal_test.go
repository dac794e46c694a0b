package raster

import (
	"image"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/go-gl/mathgl/mgl32"
	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/require"

	"seamwright/calc/guard"
)

// north is a view from a point towards +y, 90° high, so that the focal length is half the picture's height.
func north(eye mgl64.Vec3, w, h int) View {
	return NewView(eye, mgl64.Vec3{1, 0, 0}, mgl64.Vec3{0, 0, 1}, mgl64.Vec3{0, 1, 0}, math.Pi/2, w, h)
}

// facing is a plane at y metres that looks at the eye, with x to the right and y up.
func facing(y float32) Plane {
	return Plane{Origin: mgl32.Vec3{0, y, 0}, X: mgl32.Vec3{1, 0, 0}, Y: mgl32.Vec3{0, 0, 1}, Normal: mgl32.Vec3{0, -1, 0}, Shade: 1}
}

func face(plane int32, v ...mgl32.Vec3) Face {
	f := Face{Plane: plane, N: uint8(len(v)), Tag: -1}
	copy(f.V[:], v)
	return f
}

// plain is a material of one colour.
func plain(c Colour) Material {
	p := new(Palette)
	for i := range p {
		p[i] = c
	}
	m := Material{Pattern: NewPattern(1, func(x, y float64) float64 { return 1 })}
	for i := range m.Palettes {
		m.Palettes[i] = p
	}
	return m
}

func paintOver(t testing.TB, workers int, f *Frame) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, f.View.W, f.View.H))
	r := New(workers)
	defer r.Close()
	for i := range f.Items {
		f.Items[i].Mesh.Bound()
	}
	r.Draw(img, f)
	return img
}

// Each sample of a jittered mesh belongs to exactly one of its faces: none is left out along a shared edge and
// none is drawn twice.
func TestSharedEdges(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 1))
	const n = 9
	for trial := range 60 {
		var grid [n + 1][n + 1]mgl32.Vec3
		for i := range grid {
			for k := range grid[i] {
				x, z := float32(i)/n*1.6-0.8, float32(k)/n*1.6-0.8
				if i > 0 && i < n && k > 0 && k < n {
					x += (rng.Float32() - 0.5) * 0.08
					z += (rng.Float32() - 0.5) * 0.08
				}
				grid[i][k] = mgl32.Vec3{x, 1, z}
			}
		}
		c := &core{samples: 1, cols: 1, rows: 1, view: north(mgl64.Vec3{rng.Float64() * 0.01, 0, rng.Float64() * 0.01}, tileW, tileH)}
		c.view.Focal = 28 // the mesh is wider than the tile's height, so it is cut by its border too
		p := facing(1)
		var s shot
		require.True(t, c.view.shoot(&p, &s))
		var count [tileW * tileH]int
		add := func(f Face) {
			var q poly
			if !c.cast(&f, &q) {
				return
			}
			one := tile{w: tileW, h: tileH}
			one.scan(&q, &s, 1)
			for i, k := range one.face {
				count[i] += int(k)
			}
		}
		for i := range n {
			for k := range n {
				a, b, d, e := grid[i][k], grid[i+1][k], grid[i+1][k+1], grid[i][k+1]
				if rng.IntN(2) == 0 {
					add(face(0, a, b, d))
					add(face(0, a, d, e))
				} else {
					add(face(0, a, b, e))
					add(face(0, b, d, e))
				}
			}
		}
		// What the whole square covers, by comparing each sample centre with its border.
		for y := range tileH {
			for x := range tileW {
				px := (float64(x)+0.5-tileW/2)/c.view.Focal + c.view.Eye[0]
				pz := (tileH/2-float64(y)-0.5)/c.view.Focal + c.view.Eye[2]
				want := 0
				if math.Abs(px) < 0.8 && math.Abs(pz) < 0.8 {
					want = 1
				}
				require.Equal(t, want, count[y*tileW+x], "trial %d, sample %d,%d", trial, x, y)
			}
		}
	}
}

// Depth and the place on a slanted plane against the intersection of ray and plane.
func TestDepthAgainstRay(t *testing.T) {
	v := north(mgl64.Vec3{0.3, -1, 0.7}, 640, 480)
	n := mgl64.Vec3{0.2, -1, 0.4}.Normalize()
	x := mgl64.Vec3{1, 0.2, 0}.Normalize()
	y := n.Cross(x)
	p := Plane{Origin: mgl32.Vec3{0, 4, 0}, Normal: narrow(n), X: narrow(x), Y: narrow(y)}
	var s shot
	require.True(t, v.shoot(&p, &s))
	for _, at := range [][2]float64{{0.5, 0.5}, {320, 240}, {639.5, 100.5}, {17.5, 470.5}} {
		ray := v.Forward.Add(v.Right.Mul((at[0] - 320) / v.Focal)).Add(v.Up.Mul((240 - at[1]) / v.Focal))
		n, x, y := vec64(p.Normal), vec64(p.X), vec64(p.Y)
		depth := n.Dot(vec64(p.Origin).Sub(v.Eye)) / n.Dot(ray)
		hit := v.Eye.Add(ray.Mul(depth)).Sub(vec64(p.Origin))
		z := s.z.at(at[0], at[1])
		require.InEpsilon(t, 1/depth, z, 1e-9)
		require.InDelta(t, hit.Dot(x), s.u.at(at[0], at[1])/z, 1e-9)
		require.InDelta(t, hit.Dot(y), s.v.at(at[0], at[1])/z, 1e-9)
	}
}

func narrow(v mgl64.Vec3) mgl32.Vec3 {
	return mgl32.Vec3{float32(v[0]), float32(v[1]), float32(v[2])}
}

// A square of side a at distance d covers (f·a/d)² pixels; here its sides fall between sample centres, so exactly.
func TestCoverage(t *testing.T) {
	m := &Mesh{Planes: []Plane{facing(2)}}
	m.Faces = []Face{face(0, mgl32.Vec3{-1, 2, -1}, mgl32.Vec3{1, 2, -1}, mgl32.Vec3{1, 2, 1}, mgl32.Vec3{-1, 2, 1})}
	red := RGB(200, 0, 0)
	for _, sharp := range []bool{false, true} {
		f := &Frame{View: north(mgl64.Vec3{}, 500, 400), Items: []Item{{Mesh: m}}, Materials: []Material{plain(red)}, Sharp: sharp}
		img := paintOver(t, 2, f)
		count := 0
		for i := 0; i < len(img.Pix); i += 4 {
			if img.Pix[i] > 100 {
				count++
			}
		}
		require.Equal(t, 200*200, count) // f = 200, a/d = 1
	}
}

// A nearer face hides a farther one whatever their order; a face's back is not seen.
func TestHiding(t *testing.T) {
	square := func(plane int32, y float32, material uint16) Face {
		f := face(plane, mgl32.Vec3{-9, y, -9}, mgl32.Vec3{9, y, -9}, mgl32.Vec3{9, y, 9}, mgl32.Vec3{-9, y, 9})
		f.Material = material
		return f
	}
	away := facing(1)
	away.Normal = away.Normal.Mul(-1)
	m := &Mesh{
		Planes: []Plane{facing(5), facing(3), away},
		Faces:  []Face{square(0, 5, 0), square(1, 3, 1), square(2, 1, 0)},
	}
	f := &Frame{View: north(mgl64.Vec3{}, 64, 64), Items: []Item{{Mesh: m}}, Materials: []Material{plain(RGB(255, 0, 0)), plain(RGB(0, 255, 0))}}
	for range 2 {
		img := paintOver(t, 1, f)
		require.Equal(t, uint8(255), img.RGBAAt(32, 32).G)
		require.Zero(t, img.RGBAAt(32, 32).R)
		m.Faces[0], m.Faces[1] = m.Faces[1], m.Faces[0]
	}
}

// A floor that passes under and behind the eye is cut at Near, and fills the picture up to the horizon exactly.
func TestNearClipping(t *testing.T) {
	m := &Mesh{
		Planes: []Plane{{Origin: mgl32.Vec3{0, 0, -1}, X: mgl32.Vec3{1, 0, 0}, Y: mgl32.Vec3{0, 1, 0}, Normal: mgl32.Vec3{0, 0, 1}, Shade: 1}},
		Faces:  []Face{face(0, mgl32.Vec3{-4e3, -4e3, -1}, mgl32.Vec3{4e3, -4e3, -1}, mgl32.Vec3{4e3, 4e3, -1}, mgl32.Vec3{-4e3, 4e3, -1})},
	}
	f := &Frame{View: north(mgl64.Vec3{}, 300, 200), Items: []Item{{Mesh: m}}, Materials: []Material{plain(RGB(255, 255, 255))}}
	img := paintOver(t, 2, f)
	for y := range 200 {
		for x := range 300 {
			require.Equal(t, y >= 100, img.RGBAAt(x, y).R > 0, "%d,%d", x, y)
		}
	}
}

// The ink across a stroke adds up to its width at any slope, within what 1/256 steps and the cut at one sample allow.
func TestInkAddsUpToWidth(t *testing.T) {
	for _, width := range []float32{0.6, 1, 1.5, 3} {
		for _, slope := range []float32{0, 0.13, 0.5, 0.99} {
			m := &Mesh{Lines: []Line{{A: mgl32.Vec3{-1, 1, -slope}, B: mgl32.Vec3{1, 1, slope}, Plane: -1}}}
			f := &Frame{View: north(mgl64.Vec3{}, 200, 200), Items: []Item{{Mesh: m}}, Pens: []Pen{{Width: width, Colour: RGB(255, 255, 255), Alpha: 1}}}
			img := paintOver(t, 1, f)
			sum, columns := 0.0, 0.0
			for x := 40; x < 160; x++ {
				columns++
				for y := range 200 {
					sum += float64(img.RGBAAt(x, y).R) / 255
				}
			}
			across := sum / columns * math.Cos(math.Atan(float64(slope)))
			require.InDelta(t, width, across, 0.12*float64(width)+0.03, "width %v slope %v", width, slope)
		}
	}
}

// A line that lies in the corner of two walls rising towards the eye shows along its whole length; one that lies
// behind a wall does not show at all.
func TestLinesAgainstFaces(t *testing.T) {
	left := Plane{Origin: mgl32.Vec3{0, 5, 0}, X: mgl32.Vec3{-1, -1, 0}.Normalize(), Y: mgl32.Vec3{0, 0, 1}, Shade: 1}
	right := Plane{Origin: mgl32.Vec3{0, 5, 0}, X: mgl32.Vec3{1, -1, 0}.Normalize(), Y: mgl32.Vec3{0, 0, 1}, Shade: 1}
	left.Normal, right.Normal = mgl32.Vec3{1, -1, 0}.Normalize(), mgl32.Vec3{-1, -1, 0}.Normalize()
	m := &Mesh{Planes: []Plane{left, right}}
	m.Faces = []Face{
		face(0, mgl32.Vec3{-4, 1, -4}, mgl32.Vec3{0, 5, -4}, mgl32.Vec3{0, 5, 4}, mgl32.Vec3{-4, 1, 4}),
		face(1, mgl32.Vec3{0, 5, -4}, mgl32.Vec3{4, 1, -4}, mgl32.Vec3{4, 1, 4}, mgl32.Vec3{0, 5, 4}),
	}
	draw := func(y float32) int {
		m.Lines = []Line{{A: mgl32.Vec3{0, y, -3}, B: mgl32.Vec3{0, y, 3}, Plane: -1}}
		f := &Frame{View: north(mgl64.Vec3{}, 101, 101), Items: []Item{{Mesh: m}}, Materials: []Material{plain(RGB(0, 0, 0))}, Pens: []Pen{{Width: 3, Colour: RGB(255, 255, 255), Alpha: 1}}}
		img := paintOver(t, 1, f)
		rows := 0
		for y := range 101 {
			if img.RGBAAt(50, y).R > 250 {
				rows++
			}
		}
		return rows
	}
	require.InDelta(t, 101*3.0/5.0+3, draw(5), 2) // and half a width more at each end
	require.Zero(t, draw(5.05))
}

// Each halving of a pattern keeps its mean tone, within rounding of one tone at each of nine halvings.
func TestPatternKeepsItsTone(t *testing.T) {
	p := NewPattern(1, func(x, y float64) float64 { return 0.3 + 0.2*math.Sin(20*x)*math.Cos(14*y) })
	sum := 0.0
	for _, v := range p.Levels[0] {
		sum += float64(v)
	}
	require.InDelta(t, sum/float64(len(p.Levels[0])), float64(p.Levels[PatternBits][0]), 5)
	require.Equal(t, 0, p.level(1.0/512/4))
	require.Equal(t, 3, p.level(8.0/512))
	require.Equal(t, PatternBits, p.level(1e6))
}

// Light between four points of the map is their blend; outside, the border's.
func TestLightMap(t *testing.T) {
	l := &LightMap{X0: 1, Y0: 2, PerStep: 2, W: 2, H: 2, V: []float32{0, 1, 2, 3}}
	require.InDelta(t, 1.5, l.At(1.25, 2.25), 1e-2)
	require.InDelta(t, 0, l.At(-9, -9), 1e-2)
	require.InDelta(t, 3, l.At(9, 9), 1e-2)
}

// Between two levels of a pattern the coarser one takes over step by step, and on a level there is that one alone.
func TestLevelsBlend(t *testing.T) {
	p := NewPattern(1, func(x, y float64) float64 { return 1 })
	at := func(tones float64) [2]int {
		level, part := p.between(float32(tones / 512))
		return [2]int{level, int(part)}
	}
	require.Equal(t, [2]int{0, 0}, at(0.3))
	require.Equal(t, [2]int{2, 0}, at(4.01))
	require.Equal(t, [2]int{3, 0}, at(7.9))
	require.InDelta(t, 128, at(4 * math.Sqrt2)[1], 2)
	last := 0
	for tones := 1.0; tones < 300; tones *= 1.01 {
		l := at(tones)
		require.GreaterOrEqual(t, l[0]*256+l[1], last)
		last = l[0]*256 + l[1]
	}
	// A board of two tones, seen between levels, is between their means.
	fine, coarse := []uint8{0, 0, 0, 0}, []uint8{200}
	var out [1]Colour
	ramp := new(Palette)
	for i := range ramp {
		ramp[i] = RGB(uint8(i), 0, 0)
	}
	blended(out[:], ramp, fine, coarse, 1, 128, 0, 0, 0, 0, one, 0)
	r, _, _ := out[0].Channels()
	require.InDelta(t, 100, int(r), 1)
}

// The graded ground shows no bands: every row's mean is the grade to a part of a level, whatever 8 bits can hold.
func TestGroundHasNoBands(t *testing.T) {
	const w, h = 64, 400
	r := New(1)
	defer r.Close()
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	r.Draw(img, &Frame{View: NewView(mgl64.Vec3{}, mgl64.Vec3{1, 0, 0}, mgl64.Vec3{0, 0, 1}, mgl64.Vec3{0, 1, 0}, 1, w, h), Top: RGB(200, 200, 200), Bottom: RGB(190, 195, 200)})
	for y := 0; y+4 <= h; y += 4 {
		sum := 0.0
		for i := range 4 * w {
			sum += float64(img.Pix[4*(y*w+i)])
		}
		require.InDelta(t, 200-10*(float64(y)+1.5)/h, sum/(4*w), 0.1, "row %d", y)
	}
}

// A fault in a frame, whichever worker meets it, is raised where the frame was asked for, and the next frame is drawn whole.
func TestAFaultInAFrameIsRaisedAndForgotten(t *testing.T) {
	view := north(mgl64.Vec3{}, 3*tileW, 3*tileH)
	sound := func() *Frame {
		wall := face(0, mgl32.Vec3{-9, 5, -9}, mgl32.Vec3{9, 5, -9}, mgl32.Vec3{9, 5, 9}, mgl32.Vec3{-9, 5, 9})
		return &Frame{View: view, Items: []Item{{Mesh: &Mesh{Planes: []Plane{facing(5)}, Faces: []Face{wall}}}}, Materials: []Material{plain(Colour(0xFF2030A0))}}
	}
	want := paintOver(t, 1, sound())
	for _, workers := range []int{1, 3} {
		broken := sound()
		broken.Items[0].Mesh.Faces[0].Plane = 7
		broken.Items[0].Mesh.Bound()
		r := New(workers)
		defer r.Close()
		img := image.NewRGBA(want.Rect)
		var fault *guard.Fault
		require.ErrorAs(t, guard.Do(func() error { r.Draw(img, broken); return nil }), &fault)
		require.Contains(t, fault.Error(), "index out of range")
		whole := sound()
		whole.Items[0].Mesh.Bound()
		r.Draw(img, whole)
		require.Equal(t, want.Pix, img.Pix, "%d workers", workers)
	}
}
