package scene

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"seamwright/scene/raster"
)

// Camera is where the eye is and where it looks. It is a value: every movement returns a new one.
// The building stands z up; lengths are metres and angles radians.
type Camera struct {
	Eye   mgl64.Vec3
	Yaw   float64 // compass heading of the view: 0 looks north (+y), a quarter turn looks east (+x)
	Pitch float64 // above the horizon; negative looks down
	FOV   float64 // vertical field of view
	Reach float64 // distance to the point that is looked at: what panning, turning and blending go by
}

// Limits of the camera.
const (
	defaultFOV = 38 * math.Pi / 180 // about a 50 mm lens on small-format film: rooms keep their proportions
	walkFOV    = 62 * math.Pi / 180 // a wide lens, since a room seen from inside does not fit a narrow one
	maxPitch   = 89.9 * math.Pi / 180
	nearReach  = 0.15 // metres: zooming in stops this far from what is looked at
	farReach   = 5000.0
	eyeHeight  = 1.60 // metres above the floor, a standing adult's eyes; common practice, no source
)

// Forward is the unit vector of the view.
func (c Camera) Forward() mgl64.Vec3 {
	sy, cy := math.Sincos(c.Yaw)
	sp, cp := math.Sincos(c.Pitch)
	return mgl64.Vec3{sy * cp, cy * cp, sp}
}

// Right is the unit vector to the right of the picture; it is always level.
func (c Camera) Right() mgl64.Vec3 {
	s, co := math.Sincos(c.Yaw)
	return mgl64.Vec3{co, -s, 0}
}

// Up is the unit vector to the top of the picture.
func (c Camera) Up() mgl64.Vec3 { return c.Right().Cross(c.Forward()) }

// Target is the point that the camera looks at.
func (c Camera) Target() mgl64.Vec3 { return c.Eye.Add(c.Forward().Mul(c.Reach)) }

// View is the camera's projection onto a picture of w by h pixels.
func (c Camera) View(w, h int) raster.View {
	return raster.NewView(c.Eye, c.Right(), c.Up(), c.Forward(), c.FOV, w, h)
}

// Ray is the unit direction through the pixel position (x, y) of a w by h picture; pixel centres lie at +0.5.
func (c Camera) Ray(w, h int, x, y float64) mgl64.Vec3 {
	f := float64(h) / 2 / math.Tan(c.FOV/2)
	d := c.Forward().
		Add(c.Right().Mul((x - float64(w)/2) / f)).
		Add(c.Up().Mul((float64(h)/2 - y) / f))
	return d.Normalize()
}

// Project gives the pixel position of a point, and false where it lies behind the eye.
func (c Camera) Project(w, h int, p mgl64.Vec3) (x, y float64, ok bool) {
	d := p.Sub(c.Eye)
	z := d.Dot(c.Forward())
	if z <= 0 {
		return 0, 0, false
	}
	f := float64(h) / 2 / math.Tan(c.FOV/2)
	return float64(w)/2 + f*d.Dot(c.Right())/z, float64(h)/2 - f*d.Dot(c.Up())/z, true
}

// Orbit turns the camera about a point that keeps its place in the picture's space: yaw to the right, pitch up.
func (c Camera) Orbit(about mgl64.Vec3, dYaw, dPitch float64) Camera {
	pitch := clamp(c.Pitch+dPitch, -maxPitch, maxPitch)
	offset := about.Sub(c.Eye)
	// The offset in the camera's own axes stays what it is; only the axes turn.
	x, y, z := offset.Dot(c.Right()), offset.Dot(c.Up()), offset.Dot(c.Forward())
	n := c
	n.Yaw, n.Pitch = c.Yaw+dYaw, pitch
	n.Eye = about.Sub(n.Right().Mul(x)).Sub(n.Up().Mul(y)).Sub(n.Forward().Mul(z))
	return n
}

// Pan moves the camera so that what lies at the reach follows a pointer moved by dx, dy pixels in a picture h high.
func (c Camera) Pan(dx, dy float64, h int) Camera {
	perPixel := 2 * c.Reach * math.Tan(c.FOV/2) / float64(h)
	c.Eye = c.Eye.Sub(c.Right().Mul(dx * perPixel)).Add(c.Up().Mul(dy * perPixel))
	return c
}

// ZoomTo moves the eye towards a point by a factor (2 halves the distance), so that the point stays under the
// pointer.
func (c Camera) ZoomTo(point mgl64.Vec3, factor float64) Camera {
	if !(factor > 0) {
		return c
	}
	d := point.Sub(c.Eye)
	dist := d.Len()
	if dist == 0 {
		return c
	}
	to := clamp(dist/factor, nearReach, farReach)
	c.Eye = point.Sub(d.Mul(to / dist))
	c.Reach = clamp(c.Reach*to/dist, nearReach, farReach)
	return c
}

// Walk moves along the floor: forward and to the right, in metres, at the same height.
func (c Camera) Walk(forward, right float64) Camera {
	s, co := math.Sincos(c.Yaw)
	c.Eye = c.Eye.Add(mgl64.Vec3{s, co, 0}.Mul(forward)).Add(c.Right().Mul(right))
	return c
}

// Turn looks to the right and up without moving the eye.
func (c Camera) Turn(dYaw, dPitch float64) Camera {
	c.Yaw += dYaw
	c.Pitch = clamp(c.Pitch+dPitch, -maxPitch, maxPitch)
	return c
}

// Blend is the camera a part t (0 to 1) of the way to another, the shorter way round, easing in and out. The point
// looked at travels in a straight line.
func (c Camera) Blend(to Camera, t float64) Camera {
	if t <= 0 {
		return c
	}
	if t >= 1 {
		return to
	}
	t = t * t * (3 - 2*t)
	target := c.Target().Mul(1 - t).Add(to.Target().Mul(t))
	turn := math.Remainder(to.Yaw-c.Yaw, 2*math.Pi)
	n := Camera{
		Yaw:   c.Yaw + turn*t,
		Pitch: c.Pitch + (to.Pitch-c.Pitch)*t,
		FOV:   c.FOV + (to.FOV-c.FOV)*t,
		Reach: c.Reach + (to.Reach-c.Reach)*t,
	}
	n.Eye = target.Sub(n.Forward().Mul(n.Reach))
	return n
}

// compass gives each named view the heading of the side from which it looks.
var compass = map[string]float64{
	"N": 0, "NE": 45, "E": 90, "SE": 135, "S": 180, "SW": 225, "W": 270, "NW": 315,
}

// Views lists the names that Scene.Camera knows, in the order of a compass, then from above.
var Views = []string{"N", "NE", "E", "SE", "S", "SW", "W", "NW", "above"}

// Camera is a named view that frames the whole scene in a w by h picture: from a compass side (N, NE, …) or from
// above. The second result is false where the name is unknown.
func (s *Scene) Camera(name string, w, h int) (Camera, bool) {
	if name == "above" {
		return s.FrameAll(Camera{Yaw: 0, Pitch: -maxPitch, FOV: defaultFOV}, w, h), true
	}
	side, ok := compass[name]
	if !ok {
		return Camera{}, false
	}
	c := Camera{Yaw: math.Remainder((side+180)*math.Pi/180, 2*math.Pi), Pitch: -27 * math.Pi / 180, FOV: defaultFOV}
	return s.FrameAll(c, w, h), true
}

// framing is the part of the picture's width and height that FrameAll fills.
const framing = 0.90

// FrameAll keeps the camera's direction and moves the eye so that the whole scene just fits the picture.
func (s *Scene) FrameAll(c Camera, w, h int) Camera { return frame(c, s.hull, w, h) }

// frame solves for the nearest eye from which all points lie inside the picture: with the points at x, y, z in
// the camera's axes and the eye at (ex, ey, -d), every point asks |x - ex| <= tx (z + d).
func frame(c Camera, points []mgl64.Vec3, w, h int) Camera {
	if c.FOV == 0 {
		c.FOV = defaultFOV
	}
	if len(points) == 0 || w <= 0 || h <= 0 {
		c.Reach = 5
		c.Eye = c.Forward().Mul(-5)
		return c
	}
	ty := math.Tan(c.FOV/2) * framing
	tx := ty * float64(w) / float64(h)
	right, up, fwd := c.Right(), c.Up(), c.Forward()
	inf := math.Inf(1)
	loX, hiX, loY, hiY, nearZ, farZ := inf, -inf, inf, -inf, inf, -inf
	for _, p := range points {
		x, y, z := p.Dot(right), p.Dot(up), p.Dot(fwd)
		loX, hiX = math.Min(loX, x+tx*z), math.Max(hiX, x-tx*z)
		loY, hiY = math.Min(loY, y+ty*z), math.Max(hiY, y-ty*z)
		nearZ, farZ = math.Min(nearZ, z), math.Max(farZ, z)
	}
	d := math.Max((hiX-loX)/(2*tx), (hiY-loY)/(2*ty))
	d = math.Max(d, 0.2-nearZ) // points in front of the eye even where the scene is flat to the view
	c.Eye = right.Mul((loX + hiX) / 2).Add(up.Mul((loY + hiY) / 2)).Sub(fwd.Mul(d))
	c.Reach = (nearZ+farZ)/2 + d
	return c
}

// Stand is a camera at eye height inside a room, looking along its longer side; false where the room is unknown.
func (s *Scene) Stand(room string) (Camera, bool) {
	for i := range s.rooms {
		if r := &s.rooms[i]; r.id == room {
			at, yaw := r.stand()
			return Camera{Eye: at.Add(mgl64.Vec3{0, 0, eyeHeight}), Yaw: yaw, FOV: walkFOV, Reach: 2.5}, true
		}
	}
	return Camera{}, false
}

// Facing is a camera that looks straight at a surface from inside and frames it; false where the id is unknown.
func (s *Scene) Facing(surface string, w, h int) (Camera, bool) {
	p := s.partOf(surface)
	if p == nil {
		return Camera{}, false
	}
	n := p.frame.normal
	c := Camera{FOV: defaultFOV}
	if math.Abs(n[2]) > 0.999 {
		c.Pitch = math.Copysign(maxPitch, -n[2])
	} else {
		c.Yaw = math.Atan2(-n[0], -n[1])
		c.Pitch = math.Asin(clamp(-n[2], -1, 1))
	}
	return frame(c, p.corners, w, h), true
}

func clamp(v, lo, hi float64) float64 { return math.Max(lo, math.Min(hi, v)) }
