package raster

import "math"

// The number of samples between two places on a face that are found by division. Between them the place runs straight,
// which in the middle of n samples whose depth changes by a part s each is off by n²s/4 of a sample: by at most a fourth.
const (
	shortStride = 8
	longStride  = 32
	straight    = 0.02 // of the depth at most to either side of the middle: the place is off by less than 1/2 % of the run
	finePiece   = 4    // samples over which fine light runs straight at least; else half a step of its grid
	brief       = 3    // samples of a run that take the light in its middle
)

// one is 1 in the fixed point that the inner loop counts in: 16 bits after the point.
const (
	oneBits = 16
	one     = 1 << oneBits
)

// shade colours every pixel of the tile, row by row in runs of one face.
func (c *core) shade(t *tile) {
	if c.samples > 1 {
		c.shadeSharp(t)
		return
	}
	for y := range t.h {
		row := t.face[y*tileW : y*tileW+t.w]
		out := t.out[y*t.pitch : y*t.pitch+t.w]
		yc := float64(t.y0+y) + 0.5
		ground := c.ground(t.y0 + y)
		for a := 0; a < len(row); {
			number := row[a]
			b := a + 1
			for b < len(row) && row[b] == number {
				b++
			}
			c.colour(out[a:b], number, ground, float64(t.x0+a)+0.5, yc)
			a = b
		}
	}
}

// groundSteps is how many pixels of a row it takes until the ground's dither repeats.
const groundSteps = 4

// prepareGround grades the ground, dithered so that no bands show.
func (c *core) prepareGround() {
	f := c.frame
	c.grounds = grown(c.grounds, groundSteps*f.View.H)
	if f.Clear {
		clear(c.grounds)
		return
	}
	r0, g0, b0 := f.Top.Channels()
	r1, g1, b1 := f.Bottom.Channels()
	for y := range f.View.H {
		t := float64(y) / float64(f.View.H)
		for x := range groundSteps {
			threshold := float64(dither[(y&3)<<2+x]) / 256
			grade := func(a, b uint8) uint8 { return uint8(float64(a) + (float64(b)-float64(a))*t + threshold) }
			c.grounds[groundSteps*y+x] = RGB(grade(r0, r1), grade(g0, g1), grade(b0, b1))
		}
	}
}

// ground is the colours of what no face covers in a row of pixels.
func (c *core) ground(y int) []Colour { return c.grounds[groundSteps*y : groundSteps*(y+1)] }

// colour colours pixels that show one face, or the ground; the first has its centre at (x, y).
func (c *core) colour(out []Colour, number int32, ground []Colour, x, y float64) {
	if number != 0 {
		p := &c.polys[number-1]
		c.run(out, p, &c.coarse[p.shot], x, y)
		return
	}
	first := int(x)
	for i := range out {
		out[i] = ground[(first+i)&(groundSteps-1)]
	}
}

// shadeSharp is shade for four samples a pixel. Where all four show one face the pixel is coloured once; else once for
// each face in it, weighed by its samples.
func (c *core) shadeSharp(t *tile) {
	x0, y0 := t.x0/2, t.y0/2
	for y := range t.h / 2 {
		upper, lower := t.face[2*y*tileW:2*y*tileW+t.w], t.face[(2*y+1)*tileW:(2*y+1)*tileW+t.w]
		out := t.out[y*t.pitch : y*t.pitch+t.w/2]
		yc := float64(y0+y) + 0.5
		ground := c.ground(y0 + y)
		whole := func(i int, number int32) bool {
			return upper[2*i] == number && upper[2*i+1] == number && lower[2*i] == number && lower[2*i+1] == number
		}
		for a := 0; a < len(out); {
			number := upper[2*a]
			if !whole(a, number) {
				four := [4]int32{number, upper[2*a+1], lower[2*a], lower[2*a+1]}
				out[a] = c.mixed(&four, ground, float64(x0+a), float64(y0+y))
				a++
				continue
			}
			b := a + 1
			for b < len(out) && whole(b, number) {
				b++
			}
			c.colour(out[a:b], number, ground, float64(x0+a)+0.5, yc)
			a = b
		}
	}
}

// mixed is the colour of the pixel at (x, y) whose samples, left to right and then down, show several faces.
func (c *core) mixed(four *[4]int32, ground []Colour, x, y float64) Colour {
	even, odd := uint32(0x20002), uint32(0x20002)
	for i, number := range four {
		n := uint32(0)
		for k, other := range four {
			if other == number {
				if k < i {
					n = 0 // counted with the earlier sample
					break
				}
				n++
			}
		}
		if n == 0 {
			continue
		}
		// At the sample's own place: at the pixel's middle the face's plane may be out of sight.
		var one [1]Colour
		c.colour(one[:], number, ground, x+0.25+0.5*float64(i&1), y+0.25+0.5*float64(i>>1))
		even += n * (uint32(one[0]) & 0xff00ff)
		odd += n * (uint32(one[0]) >> 8 & 0xff00ff)
	}
	return Colour(even>>2&0xff00ff | odd>>2&0xff00ff<<8)
}

// run shades pixels of one face, the first with its centre at (x, y); s is the face's plane by pixels.
func (c *core) run(out []Colour, p *poly, s *shot, x, y float64) {
	plane := s.plane
	if plane.Relief != nil {
		c.rake(out, p, s, x, y)
		return
	}
	m := &c.frame.Materials[p.material]
	f := fill{palette: m.Palettes[p.tint], pattern: m.Pattern, shiftX: float64(p.shift[0]), shiftY: float64(p.shift[1]), turn: p.turn, smooth: c.samples > 1}
	z, u, v := s.z.at(x, y), s.u.at(x, y), s.v.at(x, y)
	if k := float64(len(out)-1) / 2; k*math.Abs(s.z.sx) < straight*z {
		// So little depth over the whole run that the place runs straight: it is found in the middle.
		z, u, v = z+k*s.z.sx, u+k*s.u.sx, v+k*s.v.sx
		w := 1 / z
		px, py := u*w, v*w
		dx, dy := (s.u.sx-px*s.z.sx)*w, (s.v.sx-py*s.z.sx)*w
		f.take(float32(larger(larger(dx, dy), larger((s.u.sy-px*s.z.sy)*w, (s.v.sy-py*s.z.sy)*w))))
		if len(out) <= brief {
			f.draw(out, px-k*dx, py-k*dy, dx, dy, plane.brightness(px, py), 0)
			return
		}
		px, py = px-k*dx, py-k*dy
		light := plane.brightness(px, py)
		piece := plane.piece(longStride, larger(dx, dy))
		for len(out) > 0 {
			n := min(piece, len(out))
			steps := float64(n)
			next := plane.brightness(px+steps*dx, py+steps*dy)
			f.draw(out[:n], px, py, dx, dy, light, (next-light)/float32(n))
			out = out[n:]
			px, py, light = px+steps*dx, py+steps*dy, next
		}
		return
	}
	var k walk
	k.begin(s, x, y)
	k.part = plane.piece(k.part, k.across)
	f.take(float32(larger(k.across, k.down)))
	light := plane.brightness(k.x1, k.y1)
	for len(out) > 0 {
		n := k.next(len(out))
		next := plane.brightness(k.x1, k.y1)
		if f.smooth {
			f.take(float32(larger(larger(k.dx, k.dy), k.down)))
		}
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
	across  float64 // how far the place moves from the first sample to the second, the larger of x and y
	down    float64 // and to the row below
}

// begin sets out at the sample with its centre at (x, y).
func (k *walk) begin(s *shot, x, y float64) {
	k.s, k.z, k.u, k.v, k.part = s, s.z.at(x, y), s.u.at(x, y), s.v.at(x, y), longStride
	w := 1 / k.z
	k.x1, k.y1 = k.u*w, k.v*w
	k.across = larger((s.u.sx-k.x1*s.z.sx)*w, (s.v.sx-k.y1*s.z.sx)*w)
	k.down = larger((s.u.sy-k.x1*s.z.sy)*w, (s.v.sy-k.y1*s.z.sy)*w)
	if d := math.Abs(s.z.sx); d*longStride*longStride > k.z {
		k.part = max(shortStride, int(math.Sqrt(k.z/d)))
	}
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

// fill is how a run is coloured.
type fill struct {
	palette        *Palette
	pattern        *Pattern
	shiftX, shiftY float64
	turn, smooth   bool

	level int
	part  uint32  // of the next coarser level, in 256ths
	scale float64 // tones of the level a metre, in the inner loop's fixed point
}

// take chooses the level of the pattern for samples that cover so many metres. Only a sharp frame, in which levels are
// blended, asks again along a run.
func (f *fill) take(metres float32) {
	f.level, f.part = f.pattern.level(metres), 0
	if f.smooth && f.level < PatternBits {
		f.level, f.part = f.pattern.between(metres)
	}
	f.scale = float64(f.pattern.PerMetre) * perLevel[f.level]
}

// draw colours samples from the place (x, y) on, moving evenly.
func (f *fill) draw(out []Colour, x, y, dx, dy float64, light, dl float32) {
	pat, level := f.pattern, f.level
	l, step := int32(light*one), int32(dl*one)
	if level == PatternBits {
		flat(out, f.palette[pat.Levels[PatternBits][0]], l, step)
		return
	}
	x, y = x+f.shiftX, y+f.shiftY
	if f.turn {
		x, y, dx, dy = y, x, dy, dx
	}
	tones, bits := pat.Levels[level], PatternBits-level
	scale := f.scale
	tx, ty, tdx, tdy := uint32(int64(x*scale)), uint32(int64(y*scale)), uint32(int64(dx*scale)), uint32(int64(dy*scale))
	switch {
	case !f.smooth:
		patterned(out, f.palette, tones, bits, tx, ty, tdx, tdy, l, step)
	case f.part == 0 || level+1 > PatternBits:
		smoothed(out, f.palette, tones, bits, tx, ty, tdx, tdy, l, step)
	default:
		blended(out, f.palette, tones, pat.Levels[level+1], bits, f.part, tx, ty, tdx, tdy, l, step)
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

// piece is how many samples the light may run straight that lie so many metres apart, at most so many.
func (p *Plane) piece(most int, metres float64) int {
	if p.Light != nil && p.Light.Fine {
		return max(finePiece, min(most, int(0.5/(float64(p.Light.PerStep)*metres+0.01))))
	}
	return most
}

// level is the halving of the pattern whose tones are about as large as a sample that covers so many metres.
func (p *Pattern) level(metres float32) int {
	tones := metres * p.PerMetre
	bits := math.Float32bits(tones * 1.41) // the exponent counts halvings, turning in their geometric middle
	level := int(bits>>23) - 127
	return max(0, min(level, PatternBits))
}

// between is the level whose tones are just smaller than a sample that covers so many metres, and the part in 256ths
// that the next coarser level has in it, so that no border shows where the level changes.
func (p *Pattern) between(metres float32) (level int, part uint32) {
	tones := math.Log2(float64(metres * p.PerMetre))
	if !(tones > 0) {
		return 0, 0
	}
	if tones >= PatternBits-1 {
		return PatternBits - 1, 256
	}
	level = int(tones)
	// Blending costs twice: only the middle half of the way from level to level is blended.
	k := int((tones-float64(level))*512) - 128
	if k >= 256 {
		return level + 1, 0
	}
	return level, uint32(max(0, k))
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

// patterned colours samples from one level of a pattern. It is the innermost loop of all: both coordinates are counted
// in one word, the second above the first, so that all it needs stays in registers.
func patterned(out []Colour, palette *Palette, tones []uint8, bits int, x, y, dx, dy uint32, light, step int32) {
	at, per := uint64(y)<<32|uint64(x), uint64(dy)<<32|uint64(dx)
	columns := uint64(1)<<bits - 1
	rows := columns << bits
	up := uint(32+oneBits-bits) & 63
	for i := range out {
		c := uint32(palette[tones[at>>up&rows|at>>oneBits&columns]])
		a := uint32(light) >> 8
		out[i] = Colour(((c&0xff00ff)*a>>8)&0xff00ff | ((c&0xff00)*a>>8)&0xff00 | 0xff000000)
		at += per
		light += step
	}
}

// tone is a level's tone at a place, blended between the four round it, 16 bits after the point.
func tone(tones []uint8, bits int, x, y uint32) uint32 {
	mask := uint32(1)<<bits - 1
	shift := uint(bits & 15)
	x -= one / 2 // tones stand for their middles
	y -= one / 2
	x0, y0 := x>>16&mask, (y>>16&mask)<<shift
	x1, y1 := (x0+1)&mask, ((y>>16+1)&mask)<<shift
	fx, fy := x>>8&0xff, y>>8&0xff
	upper := uint32(tones[y0|x0])*(256-fx) + uint32(tones[y0|x1])*fx
	lower := uint32(tones[y1|x0])*(256-fx) + uint32(tones[y1|x1])*fx
	return upper*(256-fy) + lower*fy
}

// blended colours samples from two levels of a pattern, so much of the coarser one in 256ths.
func blended(out []Colour, palette *Palette, fine, coarse []uint8, bits int, part uint32, x, y, dx, dy uint32, light, step int32) {
	// The place counts in the fine level's tones and wraps with it; one bit less is the coarse level's place.
	wrap := uint32(1)<<(bits+16) - 1
	for i := range out {
		t := tone(fine, bits, x, y)>>8*(256-part) + tone(coarse, bits-1, (x&wrap)>>1, (y&wrap)>>1)>>8*part
		c := uint32(palette[uint8(t>>16)])
		a := uint32(light) >> 8
		out[i] = Colour(((c&0xff00ff)*a>>8)&0xff00ff | ((c&0xff00)*a>>8)&0xff00 | 0xff000000)
		x += dx
		y += dy
		light += step
	}
}

// smoothed is patterned with tones blended between neighbours, for patterns seen larger than they were made.
func smoothed(out []Colour, palette *Palette, tones []uint8, bits int, x, y, dx, dy uint32, light, step int32) {
	for i := range out {
		c := uint32(palette[uint8(tone(tones, bits, x, y)>>16)])
		a := uint32(light) >> 8
		out[i] = Colour(((c&0xff00ff)*a>>8)&0xff00ff | ((c&0xff00)*a>>8)&0xff00 | 0xff000000)
		x += dx
		y += dy
		light += step
	}
}
