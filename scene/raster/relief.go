package raster

import (
	"math"

	"github.com/go-gl/mathgl/mgl32"
)

// Relief is the slope of an uneven surface on a grid over its plane, rise over run along x and y, and the lamps
// that light it. Lambert's light does not depend on the eye: it is found once for every point of the grid when the
// lamps change, and a frame only reads it, at the halving of the grid that is as coarse as its pixels. The gloss
// does depend on the eye and is added sample by sample, where a lamp's lobe comes near it.
type Relief struct {
	X0, Y0   float32 // place of the first point
	PerMetre float32 // grid steps per metre
	W, H     int     // at least 2 each
	Slopes   []int16 // two a point, each SlopeUnit
	Lamps    []Lamp
	Even     float32 // brightness from all sides
	Gloss    *Gloss  // nil: none

	levels   [reliefLevels][]uint16 // brightness in litUnit; level 0 is the grid
	of       []Lamp                 // the lamps that levels were made for
	ofEven   float32
	steepest float32
}

// Lamp is a small light. Brightness of a face at d metres, turned by an angle a from the lamp that lies b off its
// axis, is Power·cos a·cos b/d².
type Lamp struct {
	Place mgl32.Vec3 // in the plane's axes, z off the plane; of a far lamp the unit vector towards it
	Axis  mgl32.Vec3 // unit vector that a flat lamp faces along; zero: it shines all round
	Power float32
	Shine float32 // the part of Power, or the power of the lamps around, that the gloss mirrors here
	Far   bool    // parallel light, Power·cos a
}

// Gloss is a table of a coat's lobe over the squared tangent of the angle between face and half vector, from 0 to 1,
// beyond which every lobe is dark.
type Gloss [lobeSteps]float32

const (
	// SlopeUnit is the slope that one count of a relief stands for: 1/4 at full scale.
	SlopeUnit = 0.25 / math.MaxInt16

	lobeSteps    = 4096
	reliefLevels = 5         // the coarsest is 16 grid steps
	litUnit      = 1 << 13   // 1 of brightness; the brightest held is 8
	shoulder     = 0.60      // brightness up to here is true; beyond, equal ratios make equal steps, up to 8
	bend         = 4.42      // makes the curve pass the shoulder without a kink
	chunkRows    = 64        // rows of the grid that are lit in one go, whole on every level
	lampStep     = 8         // grid steps between places where a lamp's light is found anew
	dim          = 1.0 / 512 // less gloss than this cannot be seen
)

// SetLobe makes the table of strength·(N·H)^exponent.
func (g *Gloss) SetLobe(strength, exponent float64) {
	for i := range g {
		g[i] = float32(strength * math.Pow(1+float64(i)/lobeSteps, -exponent/2))
	}
}

// curve is how bright, 0 to 1, a picture shows a brightness: the sRGB curve (IEC 61966-2-1), so that the picture's
// contrast is the wall's, with a shoulder for what is brighter than it can show.
func curve(v float64) float64 {
	if v > shoulder {
		const k = bend / (1 - shoulder)
		v = shoulder + (1-shoulder)*math.Log1p(k*(v-shoulder))/math.Log1p(k*(8-shoulder))
	}
	if v <= 0.0031308 {
		return v * 12.92
	}
	return 1.055*math.Pow(v, 1/2.4) - 0.055
}

// toneUnit is 1 in the table of tones.
const toneUnit = 254.9 * 256

// tones is the palette's tone for a brightness up to 8, 8 bits after the point.
var tones = func() (t [4096]uint16) {
	for i := range t {
		t[i] = uint16(curve((float64(i)+0.5)/float64(len(t))*8) * toneUnit)
	}
	return
}()

// Tone is how bright, 0 to 1, a relief's picture shows a brightness.
func Tone(v float64) float64 {
	return float64(tones[int(max(0, min(float64(len(tones)-1), v*float64(len(tones))/8)))]) / toneUnit
}

// dither is an ordered threshold (B. Bayer 1973) that keeps slow gradients from showing steps.
var dither = func() (d [16]uint32) {
	for i, v := range [16]uint32{0, 8, 2, 10, 12, 4, 14, 6, 3, 11, 1, 9, 15, 7, 13, 5} {
		d[i] = v*16 + 8
	}
	return
}()

// chunk is a part of a relief that is to be lit.
type chunk struct {
	plane *Plane
	row   int
}

// stale lists the parts of visible reliefs whose lamps have changed and says how many there are.
func (c *core) stale() int {
	c.chunks = c.chunks[:0]
	for i := range c.batches {
		m := c.batches[i].item.Mesh
		for k := range m.Planes {
			p := &m.Planes[k]
			r := p.Relief
			if r == nil || r.fresh() || vec64(p.Normal).Dot(c.view.Eye.Sub(vec64(p.Origin))) < edgeOn {
				continue
			}
			r.prepare()
			for row := 0; row < r.H; row += chunkRows {
				c.chunks = append(c.chunks, chunk{p, row})
			}
		}
	}
	return len(c.chunks)
}

// fresh reports whether the relief is lit by the lamps that it has now.
func (r *Relief) fresh() bool {
	if r.levels[0] == nil || r.Even != r.ofEven || len(r.of) != len(r.Lamps) {
		return false
	}
	for i := range r.of {
		if r.of[i] != r.Lamps[i] {
			return false
		}
	}
	return true
}

// size is a level's points along x and y.
func (r *Relief) size(level int) (w, h int) {
	return max(2, (r.W-1)>>level+1), max(2, (r.H-1)>>level+1)
}

func (r *Relief) prepare() {
	if r.levels[0] == nil {
		for l := range r.levels {
			w, h := r.size(l)
			r.levels[l] = make([]uint16, w*h)
		}
		for i := 0; i < len(r.Slopes); i += 2 {
			x, y := float64(r.Slopes[i])*SlopeUnit, float64(r.Slopes[i+1])*SlopeUnit
			r.steepest = max(r.steepest, float32(math.Hypot(x, y)))
		}
	}
	r.of, r.ofEven = append(r.of[:0], r.Lamps...), r.Even
}

// pull is a lamp's light at one place: brightness of the flat face, and what a slope of 1 takes from it.
type pull struct{ z, x, y float32 }

// pullAt is the lamp's light at a place on the plane.
func (l *Lamp) pullAt(x, y float32) pull {
	if l.Far {
		return pull{l.Power * l.Place[2], l.Power * l.Place[0], l.Power * l.Place[1]}
	}
	dx, dy, dz := l.Place[0]-x, l.Place[1]-y, l.Place[2]
	d2 := dx*dx + dy*dy + dz*dz
	k := l.Power / (d2 * float32(math.Sqrt(float64(d2))))
	if l.Axis != (mgl32.Vec3{}) {
		facing := -(dx*l.Axis[0] + dy*l.Axis[1] + dz*l.Axis[2])
		if facing <= 0 {
			return pull{}
		}
		k *= facing / float32(math.Sqrt(float64(d2)))
	}
	return pull{k * dz, k * dx, k * dy}
}

// light lights one chunk of a relief on every level.
func (c *core) light(number int) {
	p, row := c.chunks[number].plane, c.chunks[number].row
	r := p.Relief
	last := min(row+chunkRows, r.H)
	step := 1 / r.PerMetre
	var sums [lampStep]float32
	for gy := row; gy < last; gy++ {
		y := r.Y0 + float32(gy)*step
		slopes, out := r.Slopes[2*gy*r.W:2*(gy+1)*r.W], r.levels[0][gy*r.W:(gy+1)*r.W]
		for gx := 0; gx < r.W; gx += lampStep {
			n := min(lampStep, r.W-gx)
			x := r.X0 + float32(gx)*step
			for i := range sums {
				sums[i] = r.Even
			}
			for i := range r.of {
				l := &r.of[i]
				a, b := l.pullAt(x, y), l.pullAt(x+lampStep*step, y)
				d := pull{(b.z - a.z) / lampStep, (b.x - a.x) / lampStep, (b.y - a.y) / lampStep}
				for k := range n {
					sx, sy := float32(slopes[2*(gx+k)])*SlopeUnit, float32(slopes[2*(gx+k)+1])*SlopeUnit
					// Where the slope turns away from the lamp it lies in its own shadow.
					if v := a.z - sx*a.x - sy*a.y; v > 0 {
						sums[k] += v
					}
					a.z, a.x, a.y = a.z+d.z, a.x+d.x, a.y+d.y
				}
			}
			near, far := p.contact(x, y), p.contact(x+lampStep*step, y)
			far = (far - near) / lampStep
			for k := range n {
				v := sums[k] * near * litUnit
				if v > math.MaxUint16 {
					v = math.MaxUint16
				}
				out[gx+k] = uint16(v)
				near += far
			}
		}
	}
	for l := 1; l < reliefLevels; l++ {
		to := (last-1)>>l + 1
		if last == r.H { // a level of one row has a second all the same
			_, to = r.size(l)
		}
		r.halve(l, row>>l, to)
	}
}

// contact is the plane's contact shading as light, not as the tone that it is on a drawn face.
func (p *Plane) contact(x, y float32) float32 {
	if p.Light == nil {
		return 1
	}
	v := p.Light.At(x, y)
	return v * v
}

// halve makes rows of a level from the one below, each point the mean of four.
func (r *Relief) halve(level, from, to int) {
	w, _ := r.size(level)
	fw, fh := r.size(level - 1)
	in, out := r.levels[level-1], r.levels[level]
	for y := from; y < to; y++ {
		a, b := in[min(2*y, fh-1)*fw:][:fw], in[min(2*y+1, fh-1)*fw:][:fw]
		for x := range w {
			x0, x1 := min(2*x, fw-1), min(2*x+1, fw-1)
			out[y*w+x] = uint16((uint32(a[x0]) + uint32(a[x1]) + uint32(b[x0]) + uint32(b[x1]) + 2) / 4)
		}
	}
}

// rake shades samples of a face on an uneven plane. The palette's tones are the brightness.
func (c *core) rake(out []Colour, p *poly, s *shot, x, y float64) {
	r, plane := s.plane.Relief, s.plane
	palette := c.frame.Materials[p.material].Palettes[p.tint]
	thresholds := dither[(int(y)&3)<<2 : (int(y)&3)<<2+4]
	column := int(x)
	var k walk
	k.begin(s, x, y)
	var m mirror
	if r.Gloss != nil {
		m.begin(r, c.eyeOn(plane), &k)
	}
	for len(out) > 0 {
		n := k.next(len(out))
		lobes := 0
		if r.Gloss != nil {
			lobes = m.next(r, &k)
		}
		if lobes > 0 {
			r.polish(out[:n], palette, m.lobes[:lobes], &k, column, thresholds)
		} else {
			r.matt(out[:n], palette, &k, column, thresholds)
		}
		out = out[n:]
		column += n
	}
}

// matt shades a piece of samples by the light that the relief holds.
func (r *Relief) matt(out []Colour, palette *Palette, k *walk, column int, thresholds []uint32) {
	level := r.level(larger(larger(k.dx, k.dy), k.down))
	gx, gy, dgx, dgy := r.walk(level, k)
	w, _ := r.size(level)
	lit := r.levels[level]
	for i := range out {
		at := int(gy>>16)*w + int(gx>>16)
		fx, fy := uint32(gx>>8)&0xff, uint32(gy>>8)&0xff
		w11 := fx * fy
		w10, w01 := fx<<8-w11, fy<<8-w11
		a, b := lit[at:at+2:at+2], lit[at+w:at+w+2:at+w+2]
		value := (uint32(a[0])*(one-w10-w01-w11) + uint32(a[1])*w10 + uint32(b[0])*w01 + uint32(b[1])*w11) >> 16
		tone := uint32(tones[value>>4&4095]) + thresholds[(column+i)&3]
		out[i] = palette[tone>>8&0xff]
		gx += dgx
		gy += dgy
	}
}

// level is the halving of the grid whose steps are about as large as a sample that covers so many metres.
func (r *Relief) level(metres float64) int {
	bits := math.Float32bits(float32(metres) * r.PerMetre * 1.41)
	return max(0, min(int(bits>>23)-127, reliefLevels-1))
}

// walk is a place on a level in 16 bits after the point and the step to the next sample, both kept inside the grid.
func (r *Relief) walk(level int, k *walk) (gx, gy, dx, dy int32) {
	w, h := r.size(level)
	per := float64(r.PerMetre) / float64(int(1)<<level)
	// A point of a level stands for the middle of those that it was made from.
	mid := (1 - 1/float64(int(1)<<level)) / 2
	limitX, limitY := float64(w)-1.01, float64(h)-1.01
	in := func(x, y float64) (int32, int32) {
		gx, gy := (x-float64(r.X0))*per-mid, (y-float64(r.Y0))*per-mid
		return int32(max(0, min(gx, limitX)) * one), int32(max(0, min(gy, limitY)) * one)
	}
	gx, gy = in(k.x0, k.y0)
	if k.steps > 0 {
		ex, ey := in(k.x1, k.y1)
		dx, dy = (ex-gx)/int32(k.steps), (ey-gy)/int32(k.steps)
	}
	return
}
