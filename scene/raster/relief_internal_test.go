package raster

import (
	"image"
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl32"
	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/require"
)

// grey is a material whose tones are its greys.
func grey() Material {
	p := new(Palette)
	for i := range p {
		p[i] = RGB(uint8(i), uint8(i), uint8(i))
	}
	m := plain(0)
	for i := range m.Palettes {
		m.Palettes[i] = p
	}
	return m
}

// wall is a square wall of 4 m that fills the picture, uneven by a function of the place and lit by lamps.
func wall(size int, r *Relief, slope func(x, y float64) (sx, sy float64)) *Frame {
	const n = 401
	r.X0, r.Y0, r.PerMetre, r.W, r.H = -2, -2, 100, n, n
	for y := range n {
		for x := range n {
			sx, sy := slope(float64(x)/100-2, float64(y)/100-2)
			r.Slopes = append(r.Slopes, int16(sx/SlopeUnit), int16(sy/SlopeUnit))
		}
	}
	p := facing(2)
	p.Relief = r
	m := &Mesh{Planes: []Plane{p}, Faces: []Face{face(0, mgl32.Vec3{-2, 2, -2}, mgl32.Vec3{2, 2, -2}, mgl32.Vec3{2, 2, 2}, mgl32.Vec3{-2, 2, 2})}}
	return &Frame{View: north(mgl64.Vec3{}, size, size), Items: []Item{{Mesh: m}}, Materials: []Material{grey()}}
}

// light undoes the picture's curve (IEC 61966-2-1).
func lightOf(img *image.RGBA, x, y int) float64 {
	v := float64(img.RGBAAt(x, y).G) / 255
	if v <= 0.04045 {
		return v / 12.92
	}
	return math.Pow((v+0.055)/1.055, 2.4)
}

func even2(x, y float64) (float64, float64) { return 0, 0 }

// A lamp at a height over a flat wall lights it as (h²/(h² + r²))^(3/2): inverse square and Lambert together.
func TestNearLampFallsOff(t *testing.T) {
	const h = 0.7
	f := wall(400, &Relief{Lamps: []Lamp{{Place: mgl32.Vec3{0, 0, h}, Power: 0.55 * h * h}}}, even2)
	img := paintOver(t, 2, f)
	for _, px := range []int{200, 230, 270, 330, 390} {
		r := math.Hypot((float64(px)+0.5)/100-2, 0.005)
		want := 0.55 * math.Pow(h*h/(h*h+r*r), 1.5)
		require.InDelta(t, want, lightOf(img, px, 200), 0.009, "at %.2f m", r)
	}
}

// Parallel light on an even slope falls as Lambert's law says, to nothing where the slope turns away: sin(a + s).
func TestSlopeUnderFarLamp(t *testing.T) {
	const a = 0.3
	lamp := Lamp{Place: mgl32.Vec3{float32(-math.Cos(a)), 0, float32(math.Sin(a))}, Power: 0.6, Far: true}
	for _, tilt := range []float64{-0.2, -0.05, 0, 0.1, 0.2} {
		// A face that climbs to the right looks to the left, towards the lamp.
		f := wall(100, &Relief{Lamps: []Lamp{lamp}}, func(x, y float64) (float64, float64) { return math.Tan(tilt), 0 })
		// The length of the normal is left out: 1/cos of the tilt.
		require.InDelta(t, 0.6*math.Sin(a+tilt)/math.Cos(tilt), lightOf(paintOver(t, 1, f), 50, 50), 0.006, "%v", tilt)
	}
}

// The gloss of a lamp as far off the wall as the eye is brightest half way between their feet, and falls as Blinn says.
func TestGlossStandsHalfWay(t *testing.T) {
	gloss := new(Gloss)
	gloss.SetLobe(1, 300)
	lamp := Lamp{Place: mgl32.Vec3{1.2, 0, 2}, Power: 0, Shine: 2}
	f := wall(400, &Relief{Lamps: []Lamp{lamp}, Gloss: gloss}, even2)
	img := paintOver(t, 2, f)
	best, at := 0.0, 0
	for x := range 400 {
		if v := lightOf(img, x, 200); v > best {
			best, at = v, x
		}
	}
	require.InDelta(t, 260, at, 6, "0.6 m to the right of the eye's foot")
	// N·H at a metre's place: from the unit vectors to eye and lamp.
	place := 0.8
	eye, to := mgl64.Vec3{-place, 0, 2}.Normalize(), mgl64.Vec3{1.2 - place, 0, 2}
	half := eye.Add(to.Normalize()).Normalize()
	want := 2 / to.LenSqr() * math.Pow(half[2], 300)
	require.InDelta(t, want, lightOf(img, 280, 200), 0.012)
}

// A relief seen from afar keeps its mean light: every level is the mean of the one below.
func TestCoarseReliefKeepsItsLight(t *testing.T) {
	lamp := Lamp{Place: mgl32.Vec3{-0.9, 0, 0.43}, Power: 0.5 / 0.43, Far: true}
	waves := func(x, y float64) (float64, float64) { return 0.05 * math.Sin(2*math.Pi*10*x), 0 }
	mean := func(size int) float64 {
		img := paintOver(t, 2, wall(size, &Relief{Lamps: []Lamp{lamp}}, waves))
		sum := 0.0
		for y := range size {
			for x := range size {
				sum += lightOf(img, x, y)
			}
		}
		return sum / float64(size*size)
	}
	require.InDelta(t, 0.5, mean(800), 0.005)
	require.InDelta(t, 0.5, mean(40), 0.005)
}
