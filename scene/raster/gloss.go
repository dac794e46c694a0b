package raster

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
)

// lobe is one lamp's gloss along a run of samples: the half vector's x and y against its height, which change evenly,
// and the power. The face's own normal against its height is (-slope, 1), so their difference is, for the small
// slopes of a wall, the tangent of the angle between them.
type lobe struct {
	x, y, power    float32
	dx, dy, dpower float32
}

// half is the vector half way between lamp and eye over a place on the plane, scaled to a height of 1, and the lamp's
// power there. Eye is in the plane's axes.
func (l *Lamp) half(eye mgl64.Vec3, x, y float64) (hx, hy, power float64) {
	vx, vy, vz := eye[0]-x, eye[1]-y, eye[2]
	k := 1 / math.Sqrt(vx*vx+vy*vy+vz*vz)
	lx, ly, lz := float64(l.Place[0]), float64(l.Place[1]), float64(l.Place[2])
	power = float64(l.Shine)
	if !l.Far {
		lx, ly = lx-x, ly-y
		d2 := lx*lx + ly*ly + lz*lz
		d := 1 / math.Sqrt(d2)
		power /= d2
		if a := l.Axis; a[0] != 0 || a[1] != 0 || a[2] != 0 {
			power *= max(0, -(lx*float64(a[0])+ly*float64(a[1])+lz*float64(a[2]))*d)
		}
		lx, ly, lz = lx*d, ly*d, lz*d
	}
	k2 := 1 / max(vz*k+lz, 1e-6)
	return (vx*k + lx) * k2, (vy*k + ly) * k2, power
}

// eyeOn is the eye in a plane's axes.
func (c *core) eyeOn(p *Plane) mgl64.Vec3 {
	e := c.view.Eye.Sub(vec64(p.Origin))
	return mgl64.Vec3{e.Dot(vec64(p.X)), e.Dot(vec64(p.Y)), e.Dot(vec64(p.Normal))}
}

// bright is the most gloss seen along a run between two half vectors, where the relief may tilt the face by so much.
func (g *Gloss) bright(hx, hy, power, kx, ky, other, tilt float64) float64 {
	dx, dy := kx-hx, ky-hy
	t := 0.0
	if l := dx*dx + dy*dy; l > 0 {
		t = max(0, min(1, -(hx*dx+hy*dy)/l))
	}
	hx, hy = hx+dx*t, hy+dy*t
	off := max(0, math.Sqrt(hx*hx+hy*hy)-tilt)
	if off >= 1 {
		return 0
	}
	return float64(g[int(off*off*lobeSteps)]) * max(power, other)
}

// mostLobes is how many lamps a run mirrors at most; further ones are left out.
const mostLobes = 8

// mirror follows the lamps of a relief along a run.
type mirror struct {
	eye   mgl64.Vec3 // in the plane's axes
	tilt  float64
	ends  [mostLobes]struct{ x, y, power float64 } // of the lamps that shine, at the end of the last piece
	lobes [mostLobes]lobe                          // of the lamps that are seen in the piece
}

// begin sets the mirror up at a run's first sample.
func (m *mirror) begin(r *Relief, eye mgl64.Vec3, k *walk) {
	m.eye, m.tilt = eye, float64(r.steepest)
	n := 0
	for i := range r.of {
		if l := &r.of[i]; l.Shine > 0 && n < mostLobes {
			e := &m.ends[n]
			e.x, e.y, e.power = l.half(eye, k.x1, k.y1)
			n++
		}
	}
}

// next finds the lobes that are seen in the walk's piece, and gives how many.
func (m *mirror) next(r *Relief, k *walk) int {
	n, seen := 0, 0
	for i := range r.of {
		l := &r.of[i]
		if l.Shine <= 0 || n == mostLobes {
			continue
		}
		e := &m.ends[n]
		hx, hy, power := e.x, e.y, e.power
		kx, ky, other := l.half(m.eye, k.x1, k.y1)
		e.x, e.y, e.power = kx, ky, other
		n++
		if r.Gloss.bright(hx, hy, power, kx, ky, other, m.tilt) <= dim {
			continue
		}
		m.lobes[seen] = lobe{float32(hx), float32(hy), float32(power),
			float32((kx - hx) * k.per), float32((ky - hy) * k.per), float32((other - power) * k.per)}
		seen++
	}
	return seen
}

// polish shades a piece of samples with the lobes that are seen in it (J. Blinn 1977).
func (r *Relief) polish(out []Colour, palette *Palette, lobes []lobe, k *walk, column int, thresholds []uint32) {
	gx, gy, dgx, dgy := r.walk(0, k)
	lit := r.levels[0]
	for i := range out {
		at := int(gy>>16)*r.W + int(gx>>16)
		fx, fy := gx>>8&0xff, gy>>8&0xff
		// The weights of the four points round the place add up to 1<<16.
		w11 := fx * fy
		w10, w01 := fx<<8-w11, fy<<8-w11
		w00 := one - w10 - w01 - w11
		s, t := r.Slopes[2*at:2*at+4:2*at+4], r.Slopes[2*(at+r.W):2*(at+r.W)+4:2*(at+r.W)+4]
		const unit = SlopeUnit / one
		sx := float32(int32(s[0])*w00+int32(s[2])*w10+int32(t[0])*w01+int32(t[2])*w11) * unit
		sy := float32(int32(s[1])*w00+int32(s[3])*w10+int32(t[1])*w01+int32(t[3])*w11) * unit
		a, b := lit[at:at+2:at+2], lit[at+r.W:at+r.W+2:at+r.W+2]
		value := int((uint32(a[0])*uint32(w00) + uint32(a[1])*uint32(w10) + uint32(b[0])*uint32(w01) + uint32(b[1])*uint32(w11)) >> 16)
		for j := range lobes {
			l := &lobes[j]
			ox, oy := l.x+sx, l.y+sy
			if off := (ox*ox + oy*oy) * lobeSteps; off < lobeSteps {
				value += int(r.Gloss[int(off)] * l.power * litUnit)
			}
			l.x, l.y, l.power = l.x+l.dx, l.y+l.dy, l.power+l.dpower
		}
		if value > math.MaxUint16 {
			value = math.MaxUint16
		}
		tone := uint32(tones[value>>4&4095]) + thresholds[(column+i)&3]
		out[i] = palette[tone>>8&0xff]
		gx += dgx
		gy += dgy
	}
}
