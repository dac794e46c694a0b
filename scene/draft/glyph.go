package draft

import (
	"image/color"
	"math"
	"sync"
)

// glyphKey is a drawn letter: size in 1/64 device pixel, place of the pen in quarters of one.
type glyphKey struct {
	r       rune
	size    int32
	weight  Weight
	quarter uint8
}

// glyph is a letter's coverage in device pixels and where it stands from the pen.
type glyph struct {
	x, y, w, h int
	mask       []uint8
}

var glyphs sync.Map // glyphKey to *glyph: drawn once

const quarters = 4

func glyphOf(k glyphKey) *glyph {
	if g, ok := glyphs.Load(k); ok {
		return g.(*glyph)
	}
	path := faceOf(k.weight).outline(k.r, float64(k.size)/64)
	for _, ring := range path {
		for i := range ring {
			ring[i].X += float64(k.quarter) / quarters
		}
	}
	g := newGlyph(path)
	glyphs.Store(k, g)
	return g
}

// newGlyph draws a shape given in device pixels from the pen.
func newGlyph(path Path) *glyph {
	g := &glyph{}
	var all []Pt
	for _, ring := range path {
		all = append(all, ring...)
	}
	if len(all) == 0 {
		return g
	}
	b := around(all...)
	g.x, g.y = int(math.Floor(b.X)), int(math.Floor(b.Y))
	g.w, g.h = int(math.Ceil(b.X+b.W))-g.x, int(math.Ceil(b.Y+b.H))-g.y
	g.mask = make([]uint8, g.w*g.h)
	var s scanner
	s.open(g.w, g.h)
	off := Pt{float64(g.x), float64(g.y)}
	for _, ring := range path {
		for i := range ring {
			s.edge(ring[i].Sub(off), ring[(i+1)%len(ring)].Sub(off))
		}
	}
	s.rows(func(y, from int, cover []uint8) { copy(g.mask[y*g.w+from:], cover) })
	return g
}

// dotKey is a drawn dot: radius in 1/64 device pixel, its centre's place within a pixel in quarters.
type dotKey struct {
	radius int32
	qx, qy uint8
}

var dots sync.Map // dotKey to *glyph: drawn once

// mostStamp is the largest radius in device pixels that is kept as a stamp.
const mostStamp = 24.0

func dotOf(k dotKey) *glyph {
	if g, ok := dots.Load(k); ok {
		return g.(*glyph)
	}
	r := float64(k.radius) / 64
	g := newGlyph(Path{circle(Pt{float64(k.qx) / quarters, float64(k.qy) / quarters}, r, 8+4*int(math.Sqrt(r)))})
	dots.Store(k, g)
	return g
}

// Text sets a line. Upright lines stand on a whole device pixel and come from the cache; turned ones are drawn.
func (r *Raster) Text(at Pt, s string, t Type) {
	f := faceOf(t.Weight)
	em := t.Size * r.Scale
	back := 0.0
	switch t.Anchor {
	case Middle:
		back = Measure(s, t.Size, t.Weight) / 2
	case End:
		back = Measure(s, t.Size, t.Weight)
	}
	sin, cos := math.Sincos(-t.Turn)
	pen := -back * r.Scale
	base := int(math.Floor(at.Y*r.Scale + 0.5))
	before := rune(-1)
	for _, c := range s {
		if before >= 0 {
			pen += f.kern(before, c) * em
		}
		before = c
		if t.Turn == 0 {
			x := math.Floor((at.X*r.Scale+pen)*quarters+0.5) / quarters
			whole := math.Floor(x)
			g := glyphOf(glyphKey{c, int32(em*64 + 0.5), t.Weight, uint8((x - whole) * quarters)})
			r.stamp(int(whole)+g.x, base+g.y, g, t.Color)
		} else {
			path := f.outline(c, em/r.Scale)
			for _, ring := range path {
				for i, q := range ring {
					q.X += pen / r.Scale
					ring[i] = Pt{at.X + q.X*cos - q.Y*sin, at.Y + q.X*sin + q.Y*cos}
				}
			}
			r.scanAll(path, func(int, []Pt) bool { return false }, func(x, y int, cover []uint8) { r.blend(x, y, cover, t.Color) })
		}
		pen += f.width(c) * em
	}
}

// stamp lays a cached letter or dot down.
func (r *Raster) stamp(x, y int, g *glyph, ink color.NRGBA) {
	c := r.clip()
	for row := 0; row < g.h; row++ {
		if y+row < c.Min.Y || y+row >= c.Max.Y {
			continue
		}
		from, to := 0, g.w
		if x < c.Min.X {
			from = c.Min.X - x
		}
		if x+to > c.Max.X {
			to = c.Max.X - x
		}
		if from < to {
			r.blend(x+from, y+row, g.mask[row*g.w+from:row*g.w+to], ink)
		}
	}
}
