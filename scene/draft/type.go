package draft

import (
	"fmt"
	"strings"
	"sync"
	"sync/atomic"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"seamwright/assets"
)

// face is one weight of the type family. Outlines and widths are read at one em = `unit` and scaled from there, so a
// line of text is as wide on every canvas. Widths and kerns of plain letters are kept in tables that need no lock.
type face struct {
	font   *sfnt.Font
	unit   fixed.Int26_6
	mu     sync.Mutex
	buf    sfnt.Buffer
	widths [plain]atomic.Int32
	kerns  [plain * plain]atomic.Int32
}

// plain letters are those below this rune; known marks a table's entry as read.
const (
	plain = 128
	known = 1 << 24
)

var faces = sync.OnceValue(func() [2]*face {
	return [2]*face{newFace(assets.FontRegular), newFace(assets.FontSemibold)}
})

func newFace(data []byte) *face {
	f, err := sfnt.Parse(data)
	if err != nil {
		panic(fmt.Sprintf("the shipped font cannot be read: %v", err)) // embedded: cannot happen in a built program
	}
	return &face{font: f, unit: fixed.I(int(f.UnitsPerEm()))}
}

func faceOf(w Weight) *face { return faces()[w] }

// width is a rune's advance in parts of an em.
func (f *face) width(r rune) float64 {
	if r < plain {
		return f.table(&f.widths[r], func() (fixed.Int26_6, error) { return f.readWidth(r) })
	}
	f.mu.Lock()
	defer f.mu.Unlock()
	w, err := f.readWidth(r)
	if err != nil {
		return 0
	}
	return float64(w) / float64(f.unit)
}

// kern is how much nearer two runes stand, in parts of an em. Only plain letters are kerned.
func (f *face) kern(a, b rune) float64 {
	if a >= plain || b >= plain {
		return 0
	}
	return f.table(&f.kerns[a*plain+b], func() (fixed.Int26_6, error) { return f.readKern(a, b) })
}

// table gives an entry, read from the font the first time. What the font lacks counts nothing.
func (f *face) table(entry *atomic.Int32, read func() (fixed.Int26_6, error)) float64 {
	v := entry.Load()
	if v == 0 {
		f.mu.Lock()
		defer f.mu.Unlock()
		k, err := read()
		if err != nil {
			k = 0
		}
		v = int32(k) + known
		entry.Store(v)
	}
	return float64(v-known) / float64(f.unit)
}

func (f *face) readWidth(r rune) (fixed.Int26_6, error) {
	g, err := f.font.GlyphIndex(&f.buf, r)
	if err != nil {
		return 0, err
	}
	return f.font.GlyphAdvance(&f.buf, g, f.unit, font.HintingNone)
}

func (f *face) readKern(a, b rune) (fixed.Int26_6, error) {
	ga, err := f.font.GlyphIndex(&f.buf, a)
	if err != nil {
		return 0, err
	}
	gb, err := f.font.GlyphIndex(&f.buf, b)
	if err != nil {
		return 0, err
	}
	return f.font.Kern(&f.buf, ga, gb, f.unit, font.HintingNone)
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
