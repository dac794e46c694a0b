package scene

import (
	"math"

	"github.com/go-gl/mathgl/mgl32"
	"github.com/go-gl/mathgl/mgl64"

	"seamwright/scene/mesh"
	"seamwright/scene/raster"
)

// builder adds faces and lines of one surface to a mesh, in the surface's own x, y and depth.
type builder struct {
	m     *raster.Mesh
	frame frame3
	light *raster.LightMap
}

// paint is how a face looks.
type paint struct {
	material uint16
	tag      int32
	turn     bool
	shift    [2]float32
	shade    float32
	light    *raster.LightMap
}

func vec32(v mgl64.Vec3) mgl32.Vec3 { return mgl32.Vec3{float32(v[0]), float32(v[1]), float32(v[2])} }

// plane adds a plane and gives its number.
func (b *builder) plane(origin, x, y, normal mgl64.Vec3, p paint) int32 {
	b.m.Planes = append(b.m.Planes, raster.Plane{
		Origin: vec32(origin), X: vec32(x), Y: vec32(y), Normal: vec32(normal), Shade: p.shade, Light: p.light,
	})
	return int32(len(b.m.Planes) - 1)
}

// level adds the plane that lies parallel to the surface at a depth.
func (b *builder) level(depth float64, p paint) int32 {
	return b.plane(b.frame.at(0, 0, depth), b.frame.x, b.frame.y, b.frame.normal, p)
}

// face adds a polygon with holes on a plane parallel to the surface.
func (b *builder) face(plane int32, depth float64, p paint, outline []mgl64.Vec2, holes ...[]mgl64.Vec2) {
	if len(outline) == 4 && len(holes) == 0 && convex4(outline) {
		f := raster.Face{Plane: plane, Tag: p.tag, Material: p.material, N: 4, Turn: p.turn, Shift: p.shift}
		for k, v := range outline {
			f.V[k] = vec32(b.frame.at(v[0], v[1], depth))
		}
		b.m.Faces = append(b.m.Faces, f)
		return
	}
	points, pieces := mesh.Cut(outline, holes...)
	for _, piece := range pieces {
		f := raster.Face{Plane: plane, Tag: p.tag, Material: p.material, N: uint8(piece.N), Turn: p.turn, Shift: p.shift}
		for k := range piece.N {
			v := points[piece.Corner[k]]
			f.V[k] = vec32(b.frame.at(v[0], v[1], depth))
		}
		b.m.Faces = append(b.m.Faces, f)
	}
}

// convex4 reports whether four corners run counter-clockwise round a convex shape.
func convex4(p []mgl64.Vec2) bool {
	for i := range 4 {
		a, b, c := p[i], p[(i+1)%4], p[(i+2)%4]
		if (b[0]-a[0])*(c[1]-a[1])-(b[1]-a[1])*(c[0]-a[0]) <= 0 {
			return false
		}
	}
	return true
}

// quad adds a four-cornered face anywhere: origin and two sides that meet at a right angle or nearly so.
func (b *builder) quad(v [4]mgl64.Vec3, p paint) {
	x := v[1].Sub(v[0])
	if x.Len() < 1e-9 {
		x = v[2].Sub(v[3])
	}
	n := v[2].Sub(v[0]).Cross(v[3].Sub(v[1]))
	if x.Len() < 1e-9 || n.Len() < 1e-12 {
		return // no area
	}
	x, n = x.Normalize(), n.Normalize()
	plane := b.plane(v[0], x, n.Cross(x), n, p)
	f := raster.Face{Plane: plane, Tag: p.tag, Material: p.material, N: 4, Turn: p.turn, Shift: p.shift}
	for i := range v {
		f.V[i] = vec32(v[i])
	}
	b.m.Faces = append(b.m.Faces, f)
}

// side adds the face between two depths along the edge from a to c of a counter-clockwise outline; it looks
// outward.
func (b *builder) side(a, c mgl64.Vec2, back, front float64, p paint) {
	if b.frame.mirrored() {
		a, c = c, a
	}
	f := &b.frame
	b.quad([4]mgl64.Vec3{f.at(a[0], a[1], back), f.at(c[0], c[1], back), f.at(c[0], c[1], front), f.at(a[0], a[1], front)}, p)
}

// facing is the brightness of a side that looks outward from the edge a-c: up is light, down is dark.
func (b *builder) facing(a, c mgl64.Vec2) float32 {
	e := c.Sub(a)
	out := b.frame.x.Mul(e[1]).Sub(b.frame.y.Mul(e[0]))
	if out.Len() < 1e-9 {
		return 1
	}
	return float32(brightness(out.Normalize()))
}

// brightness is the even light on a face by its direction: most from above, a little from the west, so that faces
// at a corner differ. It is a drawing convention, not a light calculation.
func brightness(n mgl64.Vec3) float64 {
	return 0.945 + 0.04*n[2] - 0.03*n[0] + 0.025*n[1]
}

// line adds a stroke on the surface at a depth. Plane -1 draws it from both sides.
func (b *builder) line(plane int32, pen uint8, size float64, x0, y0, x1, y1, depth float64) {
	b.m.Lines = append(b.m.Lines, raster.Line{
		A: vec32(b.frame.at(x0, y0, depth)), B: vec32(b.frame.at(x1, y1, depth)), Plane: plane, Pen: pen, Size: float32(size),
	})
}

// ring draws an outline's edges.
func (b *builder) ring(plane int32, pen uint8, size float64, outline []mgl64.Vec2, depth float64) {
	for i, a := range outline {
		c := outline[(i+1)%len(outline)]
		b.line(plane, pen, size, a[0], a[1], c[0], c[1], depth)
	}
}

// Contact shading: how much a corner between two surfaces darkens, and how far from it.
const (
	contactDepth = 0.27 // of the brightness, along an edge without end
	contactReach = 0.42 // metres, the height of the neighbour that counts
	contactStep  = 0.09 // metres between points of the light map
	lightLimit   = 160  // points a side at most: larger surfaces get a coarser map
)

// shadeOf is how much of a point's view the surface takes that stands up at a right angle along the edge a-c of a
// counter-clockwise outline, against an edge without end right beside it. A strip of height h at distance d takes
// the form factor (1 - d/√(d²+h²))/2 (closed form for a long strip, e.g. Siegel and Howell, Thermal Radiation Heat
// Transfer); of a strip that ends, the part between the sines of the angles to its ends, a good approximation.
func shadeOf(p, a, c mgl64.Vec2) float64 {
	e := c.Sub(a)
	l := e.Len()
	if l < 1e-9 {
		return 0
	}
	e = e.Mul(1 / l)
	r := p.Sub(a)
	d, t := e[0]*r[1]-e[1]*r[0], e.Dot(r)
	if d < -1e-6 || d > 8*contactReach {
		return 0 // behind the edge, or far from it
	}
	d = max(d, 1e-4)
	part := (t/math.Sqrt(t*t+d*d) + (l-t)/math.Sqrt((l-t)*(l-t)+d*d)) / 2
	return part * (1 - d/math.Sqrt(d*d+contactReach*contactReach))
}

// contact is the light map of an outline whose edges all meet another surface; the losses multiply.
func contact(outline []mgl64.Vec2, strength float64) *raster.LightMap {
	lo, hi := bounds(outline)
	step := max(contactStep, max(hi[0]-lo[0], hi[1]-lo[1])/lightLimit)
	w, h := int((hi[0]-lo[0])/step)+2, int((hi[1]-lo[1])/step)+2
	l := &raster.LightMap{X0: float32(lo[0]), Y0: float32(lo[1]), PerStep: float32(1 / step), W: w, H: h, V: make([]float32, w*h)}
	for iy := range h {
		for ix := range w {
			p := mgl64.Vec2{lo[0] + float64(ix)*step, lo[1] + float64(iy)*step}
			if !inside(p, outline) {
				p = nearest(p, outline) // what lies outside only carries the border's value on
			}
			light := 1.0
			for i, a := range outline {
				light *= 1 - contactDepth*strength*shadeOf(p, a, outline[(i+1)%len(outline)])
			}
			l.V[iy*w+ix] = float32(light)
		}
	}
	return l
}

func bounds(p []mgl64.Vec2) (lo, hi mgl64.Vec2) {
	if len(p) == 0 {
		return
	}
	lo, hi = p[0], p[0]
	for _, v := range p {
		lo = mgl64.Vec2{min(lo[0], v[0]), min(lo[1], v[1])}
		hi = mgl64.Vec2{max(hi[0], v[0]), max(hi[1], v[1])}
	}
	return lo, hi
}

// nearest is the point of an outline's border that lies nearest to p.
func nearest(p mgl64.Vec2, outline []mgl64.Vec2) (at mgl64.Vec2) {
	best := math.Inf(1)
	for i, a := range outline {
		e := outline[(i+1)%len(outline)].Sub(a)
		t := 0.0
		if l := e.LenSqr(); l > 0 {
			t = clamp(p.Sub(a).Dot(e)/l, 0, 1)
		}
		q := a.Add(e.Mul(t))
		if d := p.Sub(q).LenSqr(); d < best {
			best, at = d, q
		}
	}
	return at
}

// inside reports whether p lies in the polygon, by counting crossings.
func inside(p mgl64.Vec2, poly []mgl64.Vec2) bool {
	in := false
	for i, a := range poly {
		b := poly[(i+1)%len(poly)]
		if (a[1] > p[1]) != (b[1] > p[1]) && p[0] < a[0]+(b[0]-a[0])*(p[1]-a[1])/(b[1]-a[1]) {
			in = !in
		}
	}
	return in
}
