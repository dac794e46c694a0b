package draft

import (
	"fmt"
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
