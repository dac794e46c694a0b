package raster

import "math"

// Relief is the slope of an uneven surface on a grid over its plane: rise over run along x and y, two values a
// point, each SlopeUnit.
type Relief struct {
	X0, Y0   float32 // place of the first point
	PerMetre float32 // grid steps per metre
	W, H     int     // at least 2 each
	Slopes   []int16
}

// SlopeUnit is the slope that one count of a relief stands for: 1/4 at full scale.
const SlopeUnit = 0.25 / math.MaxInt16

// Lamp is parallel light on every plane with a relief, from a direction given in the plane's own axes.
type Lamp struct {
	X, Y, Z float32 // unit vector towards the lamp
	Even    float32 // part of the light that comes from all sides instead
	Level   float32 // brightness of the flat wall, 0 to 1
	lobe    [lobeSteps]float32
}

// The lobe is tabled over 1 - N·H from 0 to 1/2, beyond which every lobe is dark.
const lobeSteps = 4096

// SetLobe makes the table of strength·(N·H)^exponent.
func (l *Lamp) SetLobe(strength, exponent float64) {
	for i := range l.lobe {
		l.lobe[i] = float32(strength * math.Pow(1-float64(i)/(2*lobeSteps), exponent))
	}
}

// dither is an ordered threshold (B. Bayer 1973) that keeps slow gradients from showing steps.
var dither = func() (d [16]float32) {
	for i, v := range [16]int{0, 8, 2, 10, 12, 4, 14, 6, 3, 11, 1, 9, 15, 7, 13, 5} {
		d[i] = (float32(v) + 0.5) / 16
	}
	return
}()

// rake shades samples of a face on an uneven plane: Lambert's law and Blinn's lobe at the slope of every sample,
// with the half vector found anew every stride. The palette's tones are the brightness.
func (c *core) rake(out []Colour, p *poly, s *shot, x, y float64) {
	lamp, rel, plane := c.frame.Lamp, s.plane.Relief, s.plane
	palette := c.frame.Materials[p.material].Palettes[p.tint]
	eye := c.view.Eye.Sub(vec64(plane.Origin))
	ex, ey, ez := eye.Dot(vec64(plane.X)), eye.Dot(vec64(plane.Y)), eye.Dot(vec64(plane.Normal))
	half := func(px, py float64) (hx, hy, hz float64) {
		vx, vy := ex-px, ey-py
		k := 1 / math.Sqrt(vx*vx+vy*vy+ez*ez)
		hx, hy, hz = vx*k+float64(lamp.X), vy*k+float64(lamp.Y), ez*k+float64(lamp.Z)
		k = 1 / math.Sqrt(hx*hx+hy*hy+hz*hz)
		return hx * k, hy * k, hz * k
	}
	direct := lamp.Level * (1 - lamp.Even) / lamp.Z
	base := lamp.Level * lamp.Even
	row := (int(y) & 3) << 2
	column := int(x)
	z, u, v := s.z.at(x, y), s.u.at(x, y), s.v.at(x, y)
	w := 1 / z
	px, py := u*w, v*w
	contact := plane.brightness(px, py)
	hx, hy, hz := half(px, py)
	for len(out) > 0 {
		n := min(stride, len(out))
		steps := n
		if n == len(out) {
			steps = n - 1
		}
		k := float64(steps)
		z, u, v = z+k*s.z.sx, u+k*s.u.sx, v+k*s.v.sx
		w = 1 / z
		nx, ny := u*w, v*w
		next := plane.brightness(nx, ny)
		kx, ky, kz := half(nx, ny)
		per := 0.0
		if steps > 0 {
			per = 1 / k
		}
		gx, gy := rel.grid(px, py)
		gnx, gny := rel.grid(nx, ny)
		dgx, dgy := int32(float64(gnx-gx)*per), int32(float64(gny-gy)*per)
		fx, fy, fz := float32(hx), float32(hy), float32(hz)
		dx, dy, dz := float32((kx-hx)*per), float32((ky-hy)*per), float32((kz-hz)*per)
		light, dl := contact, (next-contact)*float32(per)
		for i := range out[:n] {
			sx, sy := rel.at(gx, gy)
			facing := lamp.Z - sx*lamp.X - sy*lamp.Y
			value := base
			if facing > 0 {
				value += direct * facing
				if off := (1 - (fz - sx*fx - sy*fy)) * (2 * lobeSteps); off < 0 {
					value += lamp.lobe[0]
				} else if off < lobeSteps {
					value += lamp.lobe[int(off)]
				}
			}
			tone := value*light*255 + dither[row|(column+i)&3]
			if tone > 255 {
				tone = 255
			}
			out[i] = palette[uint8(int32(tone))]
			gx += dgx
			gy += dgy
			fx += dx
			fy += dy
			fz += dz
			light += dl
		}
		out = out[n:]
		column += n
		px, py, contact, hx, hy, hz = nx, ny, next, kx, ky, kz
	}
}

// grid is a place on the plane in grid steps, 16 bits after the point, kept inside the grid.
func (r *Relief) grid(x, y float64) (gx, gy int32) {
	fx := (x - float64(r.X0)) * float64(r.PerMetre)
	fy := (y - float64(r.Y0)) * float64(r.PerMetre)
	fx, fy = max(0, min(fx, float64(r.W)-1.01)), max(0, min(fy, float64(r.H)-1.01))
	return int32(fx * one), int32(fy * one)
}

// at is the slope at a grid place, blended between the four points round it.
func (r *Relief) at(gx, gy int32) (sx, sy float32) {
	i := (int(gy>>16)*r.W + int(gx>>16)) * 2
	fx, fy := gx>>8&0xff, gy>>8&0xff
	a := r.Slopes[i : i+4 : i+4]
	i += 2 * r.W
	b := r.Slopes[i : i+4 : i+4]
	ux := int32(a[0])*(256-fx) + int32(a[2])*fx
	lx := int32(b[0])*(256-fx) + int32(b[2])*fx
	uy := int32(a[1])*(256-fx) + int32(a[3])*fx
	ly := int32(b[1])*(256-fx) + int32(b[3])*fx
	const unit = SlopeUnit / 256
	t := float32(fy) / 256
	return (float32(ux) + float32(lx-ux)*t) * unit, (float32(uy) + float32(ly-uy)*t) * unit
}
