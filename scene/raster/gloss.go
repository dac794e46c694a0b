package raster

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
)

// lobe is one lamp's gloss along a run of samples: the half vector and the power, changing evenly.
type lobe struct {
	x, y, z, power     float32
	dx, dy, dz, dpower float32
}

// half is the unit vector half way between lamp and eye over a place on the plane, and the lamp's power there. Eye is
// in the plane's axes.
func (l *Lamp) half(eye mgl64.Vec3, x, y float64) (hx, hy, hz, power float64) {
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
	hx, hy, hz = vx*k+lx, vy*k+ly, vz*k+lz
	k = 1 / math.Sqrt(hx*hx+hy*hy+hz*hz)
	return hx * k, hy * k, hz * k, power
}

// eyeOn is the eye in a plane's axes.
func (c *core) eyeOn(p *Plane) mgl64.Vec3 {
	e := c.view.Eye.Sub(vec64(p.Origin))
	return mgl64.Vec3{e.Dot(vec64(p.X)), e.Dot(vec64(p.Y)), e.Dot(vec64(p.Normal))}
}

// bright is the gloss seen at a place where the relief may tilt the face by so much towards the half vector.
func (g *Gloss) bright(hx, hy, hz, power, tilt float64) float64 {
	off := 1 - hz - tilt*math.Sqrt(hx*hx+hy*hy)
	i := int(max(0, off) * (2 * lobeSteps))
	if i >= lobeSteps {
		return 0
	}
	return float64(g[i]) * power
}

// shines reports whether any lamp's gloss can be seen along a run from one place to another.
func (c *core) shines(r *Relief, p *Plane, x0, y0, x1, y1 float64) bool {
	eye, tilt := c.eyeOn(p), float64(r.steepest)
	for i := range r.of {
		l := &r.of[i]
		if l.Shine <= 0 {
			continue
		}
		hx, hy, hz, power := l.half(eye, x0, y0)
		kx, ky, kz, other := l.half(eye, x1, y1)
		if r.Gloss.bright(hx, hy, hz, power, tilt) > dim || r.Gloss.bright(kx, ky, kz, other, tilt) > dim {
			return true
		}
	}
	return false
}

// mostLobes is how many lamps a run mirrors at most; further ones are left out.
const mostLobes = 8

// polish shades samples from one place to another with the gloss of the lamps that are seen in it (J. Blinn 1977).
func (c *core) polish(out []Colour, palette *Palette, r *Relief, p *Plane, x0, y0, x1, y1 float64, steps, column int, thresholds []uint32) {
	eye, tilt := c.eyeOn(p), float64(r.steepest)
	per := 0.0
	if steps > 0 {
		per = 1 / float64(steps)
	}
	var lobes [mostLobes]lobe
	n := 0
	for i := range r.of {
		l := &r.of[i]
		if l.Shine <= 0 || n == mostLobes {
			continue
		}
		hx, hy, hz, power := l.half(eye, x0, y0)
		kx, ky, kz, other := l.half(eye, x1, y1)
		if r.Gloss.bright(hx, hy, hz, power, tilt) <= dim && r.Gloss.bright(kx, ky, kz, other, tilt) <= dim {
			continue
		}
		lobes[n] = lobe{float32(hx), float32(hy), float32(hz), float32(power),
			float32((kx - hx) * per), float32((ky - hy) * per), float32((kz - hz) * per), float32((other - power) * per)}
		n++
	}
	gx, gy, dgx, dgy := r.walk(0, x0, y0, x1, y1, steps)
	for i := range out {
		at := int(gy>>16)*r.W + int(gx>>16)
		fx, fy := gx>>8&0xff, gy>>8&0xff
		s, t := r.Slopes[2*at:2*at+4:2*at+4], r.Slopes[2*(at+r.W):2*(at+r.W)+4:2*(at+r.W)+4]
		const unit = SlopeUnit / 65536
		sx := float32((int32(s[0])*(256-fx)+int32(s[2])*fx)*(256-fy)+(int32(t[0])*(256-fx)+int32(t[2])*fx)*fy) * unit
		sy := float32((int32(s[1])*(256-fx)+int32(s[3])*fx)*(256-fy)+(int32(t[1])*(256-fx)+int32(t[3])*fx)*fy) * unit
		a, b := r.levels[0][at:at+2:at+2], r.levels[0][at+r.W:at+r.W+2:at+r.W+2]
		ux, uy := uint32(fx), uint32(fy)
		upper, lower := uint32(a[0])*(256-ux)+uint32(a[1])*ux, uint32(b[0])*(256-ux)+uint32(b[1])*ux
		value := int((upper>>8*(256-uy) + lower>>8*uy) >> 8)
		for k := range lobes[:n] {
			l := &lobes[k]
			off := (1 - (l.z - sx*l.x - sy*l.y)) * (2 * lobeSteps)
			if off < lobeSteps {
				if off < 0 {
					off = 0
				}
				value += int(r.Gloss[int(off)] * l.power * litUnit)
			}
			l.x, l.y, l.z, l.power = l.x+l.dx, l.y+l.dy, l.z+l.dz, l.power+l.dpower
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
