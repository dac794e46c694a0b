package raster

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
)

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
