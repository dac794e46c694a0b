package draft

import (
	"fmt"
	"math"
	"strings"
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"seamwright/assets"
)

// face is one weight of the type family. Outlines and widths are read at one em = `unit` and scaled from there, so a
// line of text is as wide on every canvas.
type face struct {
	font   *sfnt.Font
	unit   fixed.Int26_6
	mu     sync.Mutex
	buf    sfnt.Buffer
	widths map[rune]float64 // of an em
	kerns  map[[2]rune]float64
}

var faces = sync.OnceValue(func() [2]*face {
	return [2]*face{newFace(assets.FontRegular), newFace(assets.FontSemibold)}
})

func newFace(data []byte) *face {
	f, err := sfnt.Parse(data)
	if err != nil {
		panic(fmt.Sprintf("the shipped font cannot be read: %v", err)) // embedded: cannot happen in a built program
	}
	return &face{font: f, unit: fixed.I(int(f.UnitsPerEm())), widths: map[rune]float64{}, kerns: map[[2]rune]float64{}}
}

func faceOf(w Weight) *face { return faces()[w] }

// width is a rune's advance in parts of an em.
func (f *face) width(r rune) float64 {
	f.mu.Lock()
	defer f.mu.Unlock()
	if w, ok := f.widths[r]; ok {
		return w
	}
	var w float64
	if g, err := f.font.GlyphIndex(&f.buf, r); err == nil {
		if a, err := f.font.GlyphAdvance(&f.buf, g, f.unit, font.HintingNone); err == nil {
			w = float64(a) / float64(f.unit)
		}
	}
	f.widths[r] = w
	return w
}

// kern is how much nearer two runes stand, in parts of an em.
func (f *face) kern(a, b rune) float64 {
	f.mu.Lock()
	defer f.mu.Unlock()
	key := [2]rune{a, b}
	if k, ok := f.kerns[key]; ok {
		return k
	}
	var k float64
	ga, errA := f.font.GlyphIndex(&f.buf, a)
	gb, errB := f.font.GlyphIndex(&f.buf, b)
	if errA == nil && errB == nil {
		if v, err := f.font.Kern(&f.buf, ga, gb, f.unit, font.HintingNone); err == nil {
			k = float64(v) / float64(f.unit)
		}
	}
	f.kerns[key] = k
	return k
}

// curveSteps is how many lines stand for one curve of a glyph: enough for the largest size at four times scale.
const curveSteps = 6

// outline is a rune's contours with the pen at the origin, y down, one em being `em`.
func (f *face) outline(r rune, em float64) Path {
	f.mu.Lock()
	defer f.mu.Unlock()
	g, err := f.font.GlyphIndex(&f.buf, r)
	if err != nil {
		return nil
	}
	segments, err := f.font.LoadGlyph(&f.buf, g, f.unit, nil)
	if err != nil {
		return nil
	}
	k := em / float64(f.unit)
	at := func(p fixed.Point26_6) Pt { return Pt{float64(p.X) * k, float64(p.Y) * k} }
	var path Path
	var pen Pt
	for _, s := range segments {
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			path = append(path, []Pt{at(s.Args[0])})
			pen = at(s.Args[0])
		case sfnt.SegmentOpLineTo:
			pen = at(s.Args[0])
			path[len(path)-1] = append(path[len(path)-1], pen)
		case sfnt.SegmentOpQuadTo:
			b, c := at(s.Args[0]), at(s.Args[1])
			for i := 1; i <= curveSteps; i++ {
				t := float64(i) / curveSteps
				u := 1 - t
				path[len(path)-1] = append(path[len(path)-1], pen.Mul(u*u).Add(b.Mul(2*u*t)).Add(c.Mul(t*t)))
			}
			pen = c
		case sfnt.SegmentOpCubeTo:
			b, c, d := at(s.Args[0]), at(s.Args[1]), at(s.Args[2])
			for i := 1; i <= curveSteps; i++ {
				t := float64(i) / curveSteps
				u := 1 - t
				q := pen.Mul(u * u * u).Add(b.Mul(3 * u * u * t)).Add(c.Mul(3 * u * t * t)).Add(d.Mul(t * t * t))
				path[len(path)-1] = append(path[len(path)-1], q)
			}
			pen = d
		}
	}
	return path
}

// Measure is the width of a line of text in logical pixels, the same on every canvas.
func Measure(s string, size float64, w Weight) float64 {
	f := faceOf(w)
	var x float64
	before := rune(-1)
	for _, r := range s {
		if before >= 0 {
			x += f.kern(before, r)
		}
		x += f.width(r)
		before = r
	}
	return x * size
}

// capHeight is the height of capitals and digits over the size; half of it brings a line to the middle of a place.
const capHeight = 0.72

// Shorten cuts a line to the width with an ellipsis, by whole words where that keeps half of it; "" where not even
// one letter fits.
func Shorten(s string, size float64, w Weight, width float64) string {
	if Measure(s, size, w) <= width {
		return s
	}
	runes := []rune(s)
	for n := len(runes) - 1; n > 0; n-- {
		t := strings.TrimRight(string(runes[:n]), " ,·") + "…"
		if Measure(t, size, w) > width {
			continue
		}
		if i := strings.LastIndexByte(string(runes[:n]), ' '); i > len(string(runes[:n]))/2 && runes[n] != ' ' {
			return strings.TrimRight(string(runes[:n])[:i], " ,·") + "…"
		}
		return t
	}
	return ""
}

// textBox is the upright rectangle that a line of text covers when it is not turned.
func textBox(at Pt, s string, t Type) Rect {
	w := Measure(s, t.Size, t.Weight)
	switch t.Anchor {
	case Middle:
		at.X -= w / 2
	case End:
		at.X -= w
	}
	return Rect{at.X, at.Y - t.Size*0.8, w, t.Size}
}

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
	g := &glyph{}
	lo, hi := Pt{math.Inf(1), math.Inf(1)}, Pt{math.Inf(-1), math.Inf(-1)}
	for _, ring := range path {
		for i := range ring {
			ring[i].X += float64(k.quarter) / quarters
			lo = Pt{math.Min(lo.X, ring[i].X), math.Min(lo.Y, ring[i].Y)}
			hi = Pt{math.Max(hi.X, ring[i].X), math.Max(hi.Y, ring[i].Y)}
		}
	}
	if len(path) > 0 {
		g.x, g.y = int(math.Floor(lo.X)), int(math.Floor(lo.Y))
		g.w, g.h = int(math.Ceil(hi.X))-g.x, int(math.Ceil(hi.Y))-g.y
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
	}
	glyphs.Store(k, g)
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
			r.stamp(int(whole)+g.x, base+g.y, g, t)
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

// stamp lays a cached letter down.
func (r *Raster) stamp(x, y int, g *glyph, t Type) {
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
			r.blend(x+from, y+row, g.mask[row*g.w+from:row*g.w+to], t.Color)
		}
	}
}
