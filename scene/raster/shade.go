package raster

import "math"

// The number of samples between two places on a face that are found by division; between them the place runs
// straight. Where depth changes by less than even over the longer one, that serves.
const (
	stride     = 16
	longStride = 32
	even       = 0.03
	straight   = 0.02 // of the depth at most to either side of the middle: the place is off by less than 1/2 % of the run
	brief      = 8    // samples of a run that take the light in its middle
)

// one is 1 in the fixed point that the inner loop counts in: 16 bits after the point.
const one = 1 << 16

// shade colours every sample of the tile, row by row in runs of one face.
func (c *core) shade(t *tile) {
	f := c.frame
	for y := range t.h {
		row := t.face[y*tileW : y*tileW+t.w]
		out := t.out[y*t.pitch : y*t.pitch+t.w]
		yc := float64(t.y0+y) + 0.5
		ground := Colour(0)
		if !f.Clear {
			ground = f.Top.Mix(f.Bottom, yc/float64(c.view.H))
		}
		for a := 0; a < len(row); {
			number := row[a]
			b := a + 1
			for b < len(row) && row[b] == number {
				b++
			}
			if number == 0 {
				for i := a; i < b; i++ {
					out[i] = ground
				}
			} else {
				c.run(out[a:b], &c.polys[number-1], float64(t.x0+a)+0.5, yc)
			}
			a = b
		}
	}
}

// run shades samples of one face, the first with its centre at (x, y).
func (c *core) run(out []Colour, p *poly, x, y float64) {
	s := &c.shots[p.shot]
	plane := s.plane
	if plane.Relief != nil {
		c.rake(out, p, s, x, y)
		return
	}
	m := &c.frame.Materials[p.material]
	f := fill{palette: m.Palettes[p.tint], pattern: m.Pattern, shiftX: float64(p.shift[0]), shiftY: float64(p.shift[1]), turn: p.turn, smooth: c.samples > 1}
	z, u, v := s.z.at(x, y), s.u.at(x, y), s.v.at(x, y)
	w := 1 / z
	if k := float64(len(out)-1) / 2; k*math.Abs(s.z.sx) < straight*z {
		// So little depth over the whole run that the place runs straight: it is found in the middle.
		z, u, v = z+k*s.z.sx, u+k*s.u.sx, v+k*s.v.sx
		w = 1 / z
		px, py := u*w, v*w
		dx, dy := (s.u.sx-px*s.z.sx)*w, (s.v.sx-py*s.z.sx)*w
		f.down = larger((s.u.sy-px*s.z.sy)*w, (s.v.sy-py*s.z.sy)*w)
		if len(out) <= brief {
			f.draw(out, px-k*dx, py-k*dy, dx, dy, plane.brightness(px, py), 0)
			return
		}
		px, py = px-k*dx, py-k*dy
		light := plane.brightness(px, py)
		for len(out) > 0 {
			n := min(longStride, len(out))
			steps := float64(n)
			next := plane.brightness(px+steps*dx, py+steps*dy)
			f.draw(out[:n], px, py, dx, dy, light, (next-light)/float32(n))
			out = out[n:]
			px, py, light = px+steps*dx, py+steps*dy, next
		}
		return
	}
	k := s.walk(x, y)
	f.down = k.down
	light := plane.brightness(k.x1, k.y1)
	for len(out) > 0 {
		n := k.next(len(out))
		next := plane.brightness(k.x1, k.y1)
		f.draw(out[:n], k.x0, k.y0, k.dx, k.dy, light, (next-light)*float32(k.per))
		out, light = out[n:], next
	}
}

// walk goes along a row of samples of one plane in pieces: their ends are found by division, between them the place
// runs straight.
type walk struct {
	s       *shot
	z, u, v float64
	x0, y0  float64 // place of the piece's first sample
	x1, y1  float64 // place of the next piece's first sample, or of the last sample of all
	dx, dy  float64 // from sample to sample
	per     float64 // one by the steps from first to next
	steps   int
	part    int     // samples of a piece
	down    float64 // how far the place moves to the row below, the larger of x and y
}

// walk begins at the sample with its centre at (x, y).
func (s *shot) walk(x, y float64) walk {
	k := walk{s: s, z: s.z.at(x, y), u: s.u.at(x, y), v: s.v.at(x, y), part: stride}
	w := 1 / k.z
	k.x1, k.y1 = k.u*w, k.v*w
	k.down = larger((s.u.sy-k.x1*s.z.sy)*w, (s.v.sy-k.y1*s.z.sy)*w)
	if math.Abs(s.z.sx)*longStride < even*k.z {
		k.part = longStride
	}
	return k
}

// next moves on to the next piece of so many samples that are left, and gives how many it has.
func (k *walk) next(left int) int {
	n := min(k.part, left)
	k.steps = n
	if n == left {
		k.steps = n - 1
	}
	d := float64(k.steps)
	k.z, k.u, k.v = k.z+d*k.s.z.sx, k.u+d*k.s.u.sx, k.v+d*k.s.v.sx
	w := 1 / k.z
	k.x0, k.y0 = k.x1, k.y1
	k.x1, k.y1 = k.u*w, k.v*w
	k.dx, k.dy, k.per = 0, 0, 0
	if k.steps > 0 {
		k.per = 1 / d
		k.dx, k.dy = (k.x1-k.x0)*k.per, (k.y1-k.y0)*k.per
	}
	return n
}

// fill is how a run is coloured. Down is how far the place moves from this row to the next, in metres: with the step
// along the row it sets how coarse a pattern is taken.
type fill struct {
	palette        *Palette
	pattern        *Pattern
	shiftX, shiftY float64
	down           float64
	turn, smooth   bool
}

// draw colours samples from the place (x, y) on, moving evenly.
func (f *fill) draw(out []Colour, x, y, dx, dy float64, light, dl float32) {
	pat := f.pattern
	level := pat.level(float32(larger(larger(dx, dy), f.down)))
	l, step := int32(light*one), int32(dl*one)
	if level == PatternBits {
		flat(out, f.palette[pat.Levels[PatternBits][0]], l, step)
		return
	}
	scale := float64(pat.PerMetre) * perLevel[level]
	x, y = x+f.shiftX, y+f.shiftY
	if f.turn {
		x, y, dx, dy = y, x, dy, dx
	}
	tones, bits := pat.Levels[level], PatternBits-level
	tx, ty, tdx, tdy := uint32(int64(x*scale)), uint32(int64(y*scale)), uint32(int64(dx*scale)), uint32(int64(dy*scale))
	if f.smooth && level == 0 {
		smoothed(out, f.palette, tones, bits, tx, ty, tdx, tdy, l, step)
	} else {
		patterned(out, f.palette, tones, bits, tx, ty, tdx, tdy, l, step)
	}
}

// perLevel is the tones of each level to one of the first, in the inner loop's fixed point.
var perLevel = func() (p [PatternBits + 1]float64) {
	for i := range p {
		p[i] = one / float64(int(1)<<i)
	}
	return
}()

// larger is the larger of two magnitudes.
func larger(a, b float64) float64 {
	a, b = math.Abs(a), math.Abs(b)
	if a > b {
		return a
	}
	return b
}

// brightness is the light on the plane at one place of it.
func (p *Plane) brightness(x, y float64) float32 {
	if p.Light == nil {
		return p.Shade
	}
	return p.Shade * p.Light.At(float32(x), float32(y))
}

// level is the halving of the pattern whose tones are about as large as a sample that covers so many metres.
func (p *Pattern) level(metres float32) int {
	tones := metres * p.PerMetre
	bits := math.Float32bits(tones * 1.41) // the exponent counts halvings, turning in their geometric middle
	level := int(bits>>23) - 127
	return max(0, min(level, PatternBits))
}

// flat colours samples evenly but for the light.
func flat(out []Colour, colour Colour, light, step int32) {
	rb, g := uint32(colour)&0xff00ff, uint32(colour)&0xff00
	for i := range out {
		a := uint32(light) >> 8
		out[i] = Colour((rb*a>>8)&0xff00ff | (g*a>>8)&0xff00 | 0xff000000)
		light += step
	}
}

// patterned colours samples from one level of a pattern.
func patterned(out []Colour, palette *Palette, tones []uint8, bits int, x, y, dx, dy uint32, light, step int32) {
	mask := uint32(1)<<bits - 1
	shift := uint(bits)
	for i := range out {
		c := uint32(palette[tones[(y>>16&mask)<<(shift&15)|x>>16&mask]])
		a := uint32(light) >> 8
		out[i] = Colour(((c&0xff00ff)*a>>8)&0xff00ff | ((c&0xff00)*a>>8)&0xff00 | 0xff000000)
		x += dx
		y += dy
		light += step
	}
}

// smoothed is patterned with tones blended between neighbours, for patterns seen larger than they were made.
func smoothed(out []Colour, palette *Palette, tones []uint8, bits int, x, y, dx, dy uint32, light, step int32) {
	mask := uint32(1)<<bits - 1
	shift := uint(bits & 15)
	x -= one / 2 // tones stand for their middles
	y -= one / 2
	for i := range out {
		x0, y0 := x>>16&mask, (y>>16&mask)<<shift
		x1, y1 := (x0+1)&mask, ((y>>16+1)&mask)<<shift
		fx, fy := x>>8&0xff, y>>8&0xff
		upper := uint32(tones[y0|x0])*(256-fx) + uint32(tones[y0|x1])*fx
		lower := uint32(tones[y1|x0])*(256-fx) + uint32(tones[y1|x1])*fx
		c := uint32(palette[uint8((upper*(256-fy)+lower*fy)>>16)])
		a := uint32(light) >> 8
		out[i] = Colour(((c&0xff00ff)*a>>8)&0xff00ff | ((c&0xff00)*a>>8)&0xff00 | 0xff000000)
		x += dx
		y += dy
		light += step
	}
}
