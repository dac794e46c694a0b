package raster

import "math"

// tile is one worker's scratch: a tile's samples, row by row.
type tile struct {
	depth  [tileW * tileH]float32 // 1/w of the nearest face, 0 where there is none
	face   [tileW * tileH]int32   // its number plus one, 0 where there is none
	out    []Colour               // the picture's pixels, from the tile's first
	pitch  int                    // from row to row of out
	x0, y0 int                    // of the tile in the view
	w, h   int                    // samples of it that lie in the view
	cover  *shot                  // faces on this plane covered the whole tile: no sample lies behind the plane
	plane  *shot                  // of the faces scanned last
	laid   int                    // samples that those have covered; faces of one plane do not overlap
	far    float32                // no sample lies farther than this 1/w; 0 while one is empty
	stale  int                    // samples covered since far was measured
}

// draw draws one tile.
func (c *core) draw(t *tile, number int) {
	t.x0, t.y0 = number%c.cols*tileW, number/c.cols*tileH
	t.w, t.h = min(tileW, c.view.W-t.x0), min(tileH, c.view.H-t.y0)
	clear(t.depth[:t.h*tileW])
	clear(t.face[:t.h*tileW])
	t.cover, t.plane, t.far, t.stale = nil, nil, 0, 0
	t.pitch = c.img.Stride / 4
	t.out = c.pixels[t.y0/c.samples*t.pitch+t.x0/c.samples:]
	for _, k := range c.polyBins.of(number) {
		p := &c.polys[k]
		s := &c.shots[p.shot]
		if p.near <= t.far || t.far > 0 && t.nearest(s) <= float64(t.far) || t.cover != nil && t.behind(s) {
			continue
		}
		n := t.scan(p, s, k+1)
		if s != t.plane {
			t.plane, t.laid = s, 0
		}
		if t.laid += n; t.laid == t.w*t.h {
			t.cover = s
		}
		if t.stale += n; t.stale >= measureAfter*t.w*t.h {
			t.measure()
		}
	}
	c.shade(t)
	for _, k := range c.strokeBins.of(number) {
		c.ink(t, &c.strokes[k])
	}
}

// behind reports whether a plane lies behind the covering one all over the tile. Both are affine in the picture, so
// their difference is greatest in a corner.
func (t *tile) behind(s *shot) bool {
	d := affine{s.z.c - t.cover.z.c, s.z.sx - t.cover.z.sx, s.z.sy - t.cover.z.sy}
	x0, y0, x1, y1 := float64(t.x0), float64(t.y0), float64(t.x0+t.w), float64(t.y0+t.h)
	return d.at(x0, y0) < 0 && d.at(x1, y0) < 0 && d.at(x0, y1) < 0 && d.at(x1, y1) < 0
}

// nearest is the greatest 1/w of a plane in the tile: in the corner towards which it comes nearer.
func (t *tile) nearest(s *shot) float64 {
	x, y := float64(t.x0), float64(t.y0)
	if s.z.sx > 0 {
		x += float64(t.w)
	}
	if s.z.sy > 0 {
		y += float64(t.h)
	}
	return s.z.at(x, y)
}

// measureAfter is how often the tile must have been covered before its farthest depth is measured anew: where little
// lies behind other things that costs more than it saves.
const measureAfter = 3

// measure finds the farthest depth in the tile; 0 while a sample is still empty.
func (t *tile) measure() {
	t.stale = 0
	far := float32(math.Inf(1))
	for y := range t.h {
		for _, z := range t.depth[y*tileW : y*tileW+t.w] {
			if z < far {
				if z == 0 {
					return
				}
				far = z
			}
		}
	}
	t.far = far
}

// chain walks one side of a convex polygon downwards.
type chain struct {
	p         *poly
	at, step  int
	x0, y0, k float64
	bottom    float64
	edgesLeft int
}

func (s *chain) next() {
	p := s.p
	i := s.at
	j := i + s.step
	if j == int(p.n) {
		j = 0
	} else if j < 0 {
		j = int(p.n) - 1
	}
	s.at = j
	s.edgesLeft--
	s.x0, s.y0, s.bottom = float64(p.x[i]), float64(p.y[i]), float64(p.y[j])
	if d := s.bottom - s.y0; d > 0 {
		s.k = (float64(p.x[j]) - s.x0) / d
	} else {
		s.k = 0
	}
}

// scan enters a polygon into depth and face numbers where it is nearest; it gives how many samples it covers.
func (t *tile) scan(p *poly, s *shot, number int32) (covered int) {
	n := int(p.n)
	top, low, high := 0, p.y[0], p.y[0]
	for i := 1; i < n; i++ {
		if p.y[i] < low {
			low, top = p.y[i], i
		}
		high = max(high, p.y[i])
	}
	first := firstCentre(float64(low), t.y0, t.h)
	last := firstCentre(float64(high), t.y0, t.h) // one past
	if first >= last {
		return 0
	}
	left := chain{p: p, at: top, step: 1, edgesLeft: n}
	right := chain{p: p, at: top, step: -1, edgesLeft: n}
	left.next()
	right.next()
	zstep := float32(s.z.sx)
	for y := first; y < last; y++ {
		yc := float64(t.y0+y) + 0.5
		for left.bottom <= yc && left.edgesLeft > 0 {
			left.next()
		}
		for right.bottom <= yc && right.edgesLeft > 0 {
			right.next()
		}
		xl := left.x0 + (yc-left.y0)*left.k
		xr := right.x0 + (yc-right.y0)*right.k
		if xl > xr {
			xl, xr = xr, xl
		}
		a, b := firstCentre(xl, t.x0, t.w), firstCentre(xr, t.x0, t.w)
		if a >= b {
			continue
		}
		covered += b - a
		z := float32(s.z.at(float64(t.x0+a)+0.5, yc))
		depth := t.depth[y*tileW+a : y*tileW+b]
		face := t.face[y*tileW+a : y*tileW+b]
		face = face[:len(depth)]
		for i, d := range depth {
			if z > d {
				depth[i] = z
				face[i] = number
			}
			z += zstep
		}
	}
	return covered
}

// firstCentre is the first of n sample places from origin whose centre lies at or past v, between 0 and n.
func firstCentre(v float64, origin, n int) int {
	v -= 0.5 + float64(origin)
	if v <= 0 {
		return 0
	}
	if v >= float64(n) {
		return n
	}
	i := int(v)
	if float64(i) < v {
		i++
	}
	return i
}
