// Package raster draws flat convex faces and lines in perspective, on the processor alone.
//
// The picture is cut into tiles that fit the cache; each tile keeps its own depth and face number, so tiles are
// drawn on all cores without touching each other, and the result does not depend on how many cores there are. A tile
// is drawn in three passes. First the faces that reach it are scanned into depth (1/w) and face number, nearest
// meshes first. Then every row is shaded in runs of one face, so that a pixel is shaded once however many faces lie
// behind it: along a run the place on the face is found by one division every eight to thirty-two pixels, the more
// often the faster depth changes, and interpolated between (M. Abrash, Graphics Programming Black Book, 1997, ch. 70,
// divides every sixteen). Last the lines are laid over, anti-aliased by their distance from the pixel centre. A sharp
// frame scans four samples to a pixel, and shades a pixel more than once only where they show several faces.
//
// Faces lie in planes that many of them share. Depth and the place on the plane are affine in the picture and are
// derived from the plane, not from corners, so neighbouring faces of one plane agree to the last bit. A pixel
// belongs to a face when its centre lies inside; on a shared edge both faces find the same crossing, because both
// walk the edge downwards from the same corner, and the half-open rule gives the pixel to one of them.
//
// Limits: faces are convex with three or four corners; no transparency between faces; planes nearer than Near are
// clipped; the processor stores a word's low byte first.
package raster

import "github.com/go-gl/mathgl/mgl32"

// Plane is a flat place that faces share: a point at (x, y) on it stands at Origin + x·X + y·Y, metres. It is seen
// only from the side that Normal points to.
type Plane struct {
	Origin, X, Y, Normal mgl32.Vec3
	Shade                float32   // brightness, 0 to 1
	Light                *LightMap // brightness over x, y; nil: even
	Relief               *Relief   // unevenness and its own lamps; nil: flat
}

// Face is a convex polygon of N (3 or 4) corners, counter-clockwise seen from the front of its plane.
type Face struct {
	V        [4]mgl32.Vec3
	Shift    [2]float32 // moves the material's pattern, metres
	Plane    int32
	Tag      int32 // index of the item's tints; -1: never tinted
	Material uint16
	N        uint8
	Turn     bool // the pattern's x runs along the plane's y
}

// Line is a stroke from A to B, drawn with a pen of the frame.
type Line struct {
	A, B  mgl32.Vec3
	Plane int32   // drawn only where this plane is seen from its front; -1: always
	Size  float32 // metres to the next such line: where that is a few pixels the line fades out; 0: never
	Pen   uint8
}

// Mesh is what is built once and drawn many times.
type Mesh struct {
	Planes   []Plane
	Faces    []Face
	Lines    []Line
	Min, Max mgl32.Vec3 // bounding box, set by Bound
}

// Bound computes the mesh's bounding box; call it after building.
func (m *Mesh) Bound() {
	first := true
	grow := func(p mgl32.Vec3) {
		if first {
			m.Min, m.Max, first = p, p, false
			return
		}
		for i := range p {
			m.Min[i] = min(m.Min[i], p[i])
			m.Max[i] = max(m.Max[i], p[i])
		}
	}
	for i := range m.Faces {
		for _, v := range m.Faces[i].V[:m.Faces[i].N] {
			grow(v)
		}
	}
	for i := range m.Lines {
		grow(m.Lines[i].A)
		grow(m.Lines[i].B)
	}
}

// Triangles counts the mesh's triangles, a four-cornered face as two.
func (m *Mesh) Triangles() int {
	n := 0
	for i := range m.Faces {
		n += int(m.Faces[i].N) - 2
	}
	return n
}

// LightMap holds brightness on a grid over a plane; between grid points it is interpolated, outside it keeps the
// value of the border.
type LightMap struct {
	X0, Y0  float32 // place of the first value
	PerStep float32 // grid steps per metre
	W, H    int     // at least 2 each
	V       []float32
	Fine    bool // it changes from step to step, so it is looked up every few pixels
}

// At is the brightness at (x, y).
func (l *LightMap) At(x, y float32) float32 {
	fx := (x - l.X0) * l.PerStep
	fy := (y - l.Y0) * l.PerStep
	// Plain comparisons: the built-in ones mind NaN and cost three times as much here.
	if limit := float32(l.W) - 1.001; fx > limit {
		fx = limit
	}
	if limit := float32(l.H) - 1.001; fy > limit {
		fy = limit
	}
	if fx < 0 {
		fx = 0
	}
	if fy < 0 {
		fy = 0
	}
	ix, iy := int(fx), int(fy)
	fx -= float32(ix)
	fy -= float32(iy)
	at := iy*l.W + ix
	r0 := l.V[at : at+2 : at+2]
	r1 := l.V[at+l.W : at+l.W+2 : at+l.W+2]
	a := r0[0] + (r0[1]-r0[0])*fx
	b := r1[0] + (r1[1]-r1[0])*fx
	return a + (b-a)*fy
}

// Colour is 0xAABBGGRR: the bytes of image.RGBA read as a little-endian word.
type Colour uint32

// RGB builds an opaque colour.
func RGB(r, g, b uint8) Colour {
	return Colour(r) | Colour(g)<<8 | Colour(b)<<16 | 0xff<<24
}

// Channels are the colour's red, green and blue.
func (c Colour) Channels() (r, g, b uint8) { return uint8(c), uint8(c >> 8), uint8(c >> 16) }

// Mix is the colour a part t (0 to 1) of the way to another.
func (c Colour) Mix(to Colour, t float64) Colour {
	r0, g0, b0 := c.Channels()
	r1, g1, b1 := to.Channels()
	mix := func(a, b uint8) uint8 { return uint8(float64(a) + (float64(b)-float64(a))*t + 0.5) }
	return RGB(mix(r0, r1), mix(g0, g1), mix(b0, b1))
}

// Palette turns a pattern's 256 tones into colours.
type Palette [256]Colour

// Material is a pattern of tones and, for each tint, the palette that colours it. Tint 0 is plain.
type Material struct {
	Pattern  *Pattern
	Palettes [Tints]*Palette
}

// Tints is how many tints there are.
const Tints = 3

// Pen is how a line is drawn.
type Pen struct {
	Width  float32 // pixels; 0: not drawn
	Colour Colour
	Alpha  float32    // 0 to 1
	Dash   [4]float32 // pixels on, off, on, off; all 0: solid
	Double bool       // two parallel strokes, each a third of the width
	Over   bool       // drawn over whatever stands in front
}

// Item is one mesh in a frame, with the tint of each tag; nil: all plain.
type Item struct {
	Mesh  *Mesh
	Tints []uint8
}

// Frame is one picture to draw.
type Frame struct {
	View        View
	Items       []Item // nearest first: faces behind drawn ones cost less
	Materials   []Material
	Pens        []Pen
	Top, Bottom Colour // the ground, graded from the top of the picture to its bottom
	Clear       bool   // leave the ground transparent
	Sharp       bool   // four samples a pixel
}
