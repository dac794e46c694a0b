package raster

import (
	"math"

	"github.com/go-gl/mathgl/mgl32"
	"github.com/go-gl/mathgl/mgl64"
)

// Near is the distance in metres in front of the eye where faces are clipped.
const Near = 0.02

// edgeOn is the least distance in metres of the eye from a plane whose front is drawn: nearer, the plane is seen
// edge on and covers no pixel.
const edgeOn = 1e-4

// View is a perspective projection onto a picture of W by H pixels. Pixel (x, y) has its centre at
// (x+0.5, y+0.5), y down.
type View struct {
	Eye, Right, Up, Forward mgl64.Vec3
	Focal                   float64 // pixels from the eye to the picture plane
	W, H                    int
}

// NewView builds the projection from the eye, its orthonormal axes and the vertical field of view in radians.
func NewView(eye, right, up, forward mgl64.Vec3, fov float64, w, h int) View {
	return View{Eye: eye, Right: right, Up: up, Forward: forward, Focal: float64(h) / 2 / math.Tan(fov/2), W: w, H: h}
}

// times is the same view in a picture n times as large.
func (v View) times(n int) View {
	v.Focal *= float64(n)
	v.W *= n
	v.H *= n
	return v
}

// camera gives a point's place in the eye's axes: right, up, and depth.
func (v *View) camera(p *mgl32.Vec3) (x, y, z float64) {
	dx, dy, dz := float64(p[0])-v.Eye[0], float64(p[1])-v.Eye[1], float64(p[2])-v.Eye[2]
	return dx*v.Right[0] + dy*v.Right[1] + dz*v.Right[2],
		dx*v.Up[0] + dy*v.Up[1] + dz*v.Up[2],
		dx*v.Forward[0] + dy*v.Forward[1] + dz*v.Forward[2]
}

// sees reports whether any of the box can lie in the picture: false only if all its corners are outside one side.
func (v *View) sees(lo, hi mgl32.Vec3) bool {
	cx, cy := float64(v.W)/2/v.Focal, float64(v.H)/2/v.Focal
	left, right, low, high, near := true, true, true, true, true
	for i := range 8 {
		p := lo
		for k := range 3 {
			if i>>k&1 == 1 {
				p[k] = hi[k]
			}
		}
		x, y, z := v.camera(&p)
		left = left && x < -cx*z
		right = right && x > cx*z
		low = low && y < -cy*z
		high = high && y > cy*z
		near = near && z < Near
	}
	return !(left || right || low || high || near)
}

// affine is a value that changes evenly over the picture: c + x·sx + y·sy.
type affine struct{ c, sx, sy float64 }

func (a *affine) at(x, y float64) float64 { return a.c + x*a.sx + y*a.sy }

// shot is a plane as the view sees it: 1/w and the plane's own x/w, y/w over the picture.
type shot struct {
	z, u, v affine
	plane   *Plane
}

// times is the plane over a picture whose steps are n times as long.
func (s *shot) times(n float64) shot {
	k := func(a affine) affine { return affine{a.c, a.sx * n, a.sy * n} }
	return shot{k(s.z), k(s.u), k(s.v), s.plane}
}

// shoot projects a plane; false where it shows its back or its edge.
//
// The ray through a picture point s is e + t·d(s), with d affine in s and d·Forward = 1, so t is the depth. It
// meets the plane where n·(e + t·d - o) = 0: 1/t = n·d / n·(o - e), affine in s; and the place along an axis a of
// the plane, divided by t, is a·(e - o)/t + a·d, affine too.
func (v *View) shoot(p *Plane, s *shot) bool {
	n := vec64(p.Normal)
	rel := v.Eye.Sub(vec64(p.Origin))
	dist := n.Dot(rel)
	if dist < edgeOn {
		return false
	}
	f, cx, cy := v.Focal, float64(v.W)/2, float64(v.H)/2
	along := func(a mgl64.Vec3) affine {
		r, u := a.Dot(v.Right)/f, -a.Dot(v.Up)/f
		return affine{a.Dot(v.Forward) - r*cx - u*cy, r, u}
	}
	z := along(n)
	k := -1 / dist
	s.z = affine{z.c * k, z.sx * k, z.sy * k}
	place := func(a mgl64.Vec3) affine {
		d, e := along(a), a.Dot(rel)
		return affine{d.c + e*s.z.c, d.sx + e*s.z.sx, d.sy + e*s.z.sy}
	}
	s.u, s.v = place(vec64(p.X)), place(vec64(p.Y))
	s.plane = p
	return true
}

func vec64(v mgl32.Vec3) mgl64.Vec3 { return mgl64.Vec3{float64(v[0]), float64(v[1]), float64(v[2])} }
