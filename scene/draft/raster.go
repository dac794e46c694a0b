package draft

import (
	"image"
	"image/color"
	"math"

	"golang.org/x/image/draw"
)

// Raster draws on device pixels: upright edges and lines fall on whole pixels, all else is anti-aliased. Picture is
// the image drawn on; Scale is device pixels to a logical one.
type Raster struct {
	Picture *image.RGBA
	Scale   float64
	clips   []image.Rectangle
	scan    scanner
}

var _ Canvas = (*Raster)(nil)

// NewRaster gives a canvas on a picture, at the given number of device pixels to a logical one.
func NewRaster(picture *image.RGBA, scale float64) *Raster {
	return &Raster{Picture: picture, Scale: scale, clips: []image.Rectangle{picture.Rect}}
}

// Size is in logical pixels.
func (r *Raster) Size() (w, h float64) {
	b := r.Picture.Rect
	return float64(b.Dx()) / r.Scale, float64(b.Dy()) / r.Scale
}

// Clip and Unclip bound what follows, to whole device pixels.
func (r *Raster) Clip(b Rect) {
	d := image.Rect(r.snap(b.X), r.snap(b.Y), r.snap(b.X+b.W), r.snap(b.Y+b.H))
	r.clips = append(r.clips, d.Intersect(r.clip()))
}

// Unclip takes back the last Clip.
func (r *Raster) Unclip() { r.clips = r.clips[:len(r.clips)-1] }

// Begin and End name groups for files; pixels have none.
func (r *Raster) Begin(string) {}

// End closes a group.
func (r *Raster) End() {}

// Image puts a picture into a rectangle, as large as that is.
func (r *Raster) Image(at Rect, img *image.RGBA) {
	into := image.Rect(r.snap(at.X), r.snap(at.Y), r.snap(at.X+at.W), r.snap(at.Y+at.H))
	draw.ApproxBiLinear.Scale(r.Picture, into, img, img.Rect, draw.Over, nil)
}

func (r *Raster) clip() image.Rectangle { return r.clips[len(r.clips)-1] }

func (r *Raster) snap(v float64) int { return int(math.Floor(v*r.Scale + 0.5)) }

// leastSolid is the width in device pixels from which an upright rectangle is put on whole pixels; thinner ones
// would come and go as they move.
const leastSolid = 1.5

// Fill paints the inside of a path.
func (r *Raster) Fill(p Path, c color.NRGBA) {
	if b, ok := upright(p); ok && b.W*r.Scale >= leastSolid && b.H*r.Scale >= leastSolid {
		r.box(image.Rect(r.snap(b.X), r.snap(b.Y), r.snap(b.X+b.W), r.snap(b.Y+b.H)), c)
		return
	}
	r.path(p, func(x, y int, cover []uint8) { r.blend(x, y, cover, c) })
}

// Hatch lays a material's tiles over the inside of a path.
func (r *Raster) Hatch(p Path, h Hatch) {
	t := tileOf(h.Kind, h.Upright, r.Scale)
	ox, oy := r.snap(h.From.X), r.snap(h.From.Y)
	if b, ok := upright(p); ok {
		d := image.Rect(r.snap(b.X), r.snap(b.Y), r.snap(b.X+b.W), r.snap(b.Y+b.H)).Intersect(r.clip())
		for y := d.Min.Y; y < d.Max.Y; y++ {
			r.tile(d.Min.X, y, d.Dx(), nil, t, ox, oy, h.Color)
		}
		return
	}
	r.path(p, func(x, y int, cover []uint8) { r.tile(x, y, len(cover), cover, t, ox, oy, h.Color) })
}

// tile lays one row of a pattern; no cover stands for full cover.
func (r *Raster) tile(x, y, n int, cover []uint8, t *tile, ox, oy int, c color.NRGBA) {
	row := t.mask[modulo(y-oy, t.h)*t.w : (modulo(y-oy, t.h)+1)*t.w]
	pix := r.Picture.Pix[r.Picture.PixOffset(x, y):]
	at := modulo(x-ox, t.w)
	for i := 0; i < n; i++ {
		if a := uint32(row[at]); a != 0 {
			if cover != nil {
				a = a * uint32(cover[i]) / 255
			}
			mix(pix[4*i:4*i+4:4*i+4], c, a)
		}
		if at++; at == t.w {
			at = 0
		}
	}
}

func modulo(a, n int) int {
	if a %= n; a < 0 {
		a += n
	}
	return a
}

// Disc paints a circle. Small ones, of which a drawing has thousands, are stamped from a cache at a quarter of a
// pixel.
func (r *Raster) Disc(at Pt, radius float64, c color.NRGBA) {
	if d := radius * r.Scale; d <= mostStamp {
		x, y := math.Floor(at.X*r.Scale*quarters+0.5)/quarters, math.Floor(at.Y*r.Scale*quarters+0.5)/quarters
		fx, fy := math.Floor(x), math.Floor(y)
		g := dotOf(dotKey{int32(d*64 + 0.5), uint8((x - fx) * quarters), uint8((y - fy) * quarters)})
		r.stamp(int(fx)+g.x, int(fy)+g.y, g, c)
		return
	}
	ring := circle(at, radius, 8+4*int(math.Sqrt(radius*r.Scale)))
	r.path(Path{ring}, func(x, y int, cover []uint8) { r.blend(x, y, cover, c) })
}

// circle is a ring of n points.
func circle(at Pt, radius float64, n int) []Pt {
	ring := make([]Pt, n)
	for i := range ring {
		ring[i] = at.Add(turned(4 * float64(i) / float64(n)).Mul(radius))
	}
	return ring
}

// Stroke draws a line. Upright parts fall on whole device pixels, at least one wide.
func (r *Raster) Stroke(line []Pt, closed bool, pen Pen) {
	if len(pen.Dash) > 0 {
		for _, part := range dashes(line, closed, pen.Dash) {
			r.solid(part, false, pen)
		}
		return
	}
	r.solid(line, closed, pen)
}

func (r *Raster) solid(line []Pt, closed bool, pen Pen) {
	n := len(line)
	segments := n - 1
	if closed {
		segments = n
	}
	wide := math.Max(1, pen.Width*r.Scale)
	px := int(wide + 0.5)
	var slant Path
	for i := 0; i < segments; i++ {
		a, b := line[i], line[(i+1)%n]
		first, last := i == 0 && !closed, i == segments-1 && !closed
		if straight(a, b) {
			r.box(r.bar(a, b, px, first, last), pen.Color)
			continue
		}
		d := b.Sub(a).Unit().Left().Mul(wide / r.Scale / 2)
		slant = append(slant, []Pt{a.Add(d), b.Add(d), b.Sub(d), a.Sub(d)})
		if !last && wide > 1 {
			slant = append(slant, circle(b, wide/r.Scale/2, 8))
		}
		if i == 0 && closed && wide > 1 {
			slant = append(slant, circle(a, wide/r.Scale/2, 8))
		}
	}
	if slant != nil {
		r.union(slant, func(x, y int, cover []uint8) { r.blend(x, y, cover, pen.Color) })
	}
}

// bar is the whole pixels of an upright line; inner ends are lengthened to fill the corner.
func (r *Raster) bar(a, b Pt, px int, first, last bool) image.Rectangle {
	if b.X < a.X || b.Y < a.Y {
		a, b, first, last = b, a, last, first
	}
	if a.Y == b.Y {
		y := int(math.Floor(a.Y*r.Scale - float64(px)/2 + 0.5))
		x0, x1 := r.snap(a.X), r.snap(b.X)
		if !first {
			x0 = int(math.Floor(a.X*r.Scale - float64(px)/2 + 0.5))
		}
		if !last {
			x1 = int(math.Floor(b.X*r.Scale-float64(px)/2+0.5)) + px
		}
		return image.Rect(x0, y, x1, y+px)
	}
	x := int(math.Floor(a.X*r.Scale - float64(px)/2 + 0.5))
	y0, y1 := r.snap(a.Y), r.snap(b.Y)
	if !first {
		y0 = int(math.Floor(a.Y*r.Scale - float64(px)/2 + 0.5))
	}
	if !last {
		y1 = int(math.Floor(b.Y*r.Scale-float64(px)/2+0.5)) + px
	}
	return image.Rect(x, y0, x+px, y1)
}

func straight(a, b Pt) bool { return a.X == b.X || a.Y == b.Y }

// dashes cuts a line into its drawn parts.
func dashes(line []Pt, closed bool, dash []float64) [][]Pt {
	if closed {
		line = append(append([]Pt(nil), line...), line[0])
	}
	var parts [][]Pt
	i, left, on := 0, dash[0], true
	var part []Pt
	for k := 0; k+1 < len(line); k++ {
		a, b := line[k], line[k+1]
		way := b.Sub(a)
		long, done := way.Len(), 0.0
		if on && part == nil {
			part = []Pt{a}
		}
		for long-done > left {
			done += left
			at := a.Add(way.Mul(done / long))
			if on {
				parts = append(parts, append(part, at))
				part = nil
			} else {
				part = []Pt{at}
			}
			on = !on
			i = (i + 1) % len(dash)
			left = dash[i]
		}
		left -= long - done
		if on {
			part = append(part, b)
		}
	}
	if on && len(part) > 1 {
		parts = append(parts, part)
	}
	return parts
}

// upright says whether a path is one rectangle with upright sides, and which.
func upright(p Path) (Rect, bool) {
	if len(p) != 1 || len(p[0]) != 4 {
		return Rect{}, false
	}
	a, b, c, d := p[0][0], p[0][1], p[0][2], p[0][3]
	if !(a.Y == b.Y && b.X == c.X && c.Y == d.Y && d.X == a.X) && !(a.X == b.X && b.Y == c.Y && c.X == d.X && d.Y == a.Y) {
		return Rect{}, false
	}
	x, y := math.Min(a.X, c.X), math.Min(a.Y, c.Y)
	return Rect{x, y, math.Max(a.X, c.X) - x, math.Max(a.Y, c.Y) - y}, true
}

// path scans an outline with holes: the outline is run one way, its holes the other.
func (r *Raster) path(p Path, emit func(x, y int, cover []uint8)) {
	r.scanAll(p, func(i int, ring []Pt) bool { return (turns(ring) < 0) != (i > 0) }, emit)
}

// union scans outlines that may overlap as one shape.
func (r *Raster) union(p Path, emit func(x, y int, cover []uint8)) {
	r.scanAll(p, func(_ int, ring []Pt) bool { return turns(ring) < 0 }, emit)
}

func (r *Raster) scanAll(p Path, back func(i int, ring []Pt) bool, emit func(x, y int, cover []uint8)) {
	lo, hi := Pt{math.Inf(1), math.Inf(1)}, Pt{math.Inf(-1), math.Inf(-1)}
	for _, ring := range p {
		for _, q := range ring {
			lo = Pt{math.Min(lo.X, q.X), math.Min(lo.Y, q.Y)}
			hi = Pt{math.Max(hi.X, q.X), math.Max(hi.Y, q.Y)}
		}
	}
	c := r.clip()
	s := r.Scale
	// Compared as floats first: a far zoom can lie beyond what an int holds.
	if !(lo.X*s < float64(c.Max.X) && hi.X*s > float64(c.Min.X) && lo.Y*s < float64(c.Max.Y) && hi.Y*s > float64(c.Min.Y)) {
		return
	}
	win := image.Rect(
		int(math.Max(math.Floor(lo.X*s), float64(c.Min.X))), int(math.Max(math.Floor(lo.Y*s), float64(c.Min.Y))),
		int(math.Min(math.Ceil(hi.X*s), float64(c.Max.X))), int(math.Min(math.Ceil(hi.Y*s), float64(c.Max.Y))))
	if win.Empty() {
		return
	}
	r.scan.open(win.Dx(), win.Dy())
	off := Pt{float64(win.Min.X), float64(win.Min.Y)}
	for i, ring := range p {
		reverse := back(i, ring)
		for k := range ring {
			a, b := ring[k].Mul(s).Sub(off), ring[(k+1)%len(ring)].Mul(s).Sub(off)
			if reverse {
				a, b = b, a
			}
			r.scan.edge(a, b)
		}
	}
	r.scan.rows(func(y, from int, cover []uint8) { emit(win.Min.X+from, win.Min.Y+y, cover) })
}

// box fills whole pixels.
func (r *Raster) box(b image.Rectangle, c color.NRGBA) {
	b = b.Intersect(r.clip())
	if b.Empty() {
		return
	}
	for y := b.Min.Y; y < b.Max.Y; y++ {
		pix := r.Picture.Pix[r.Picture.PixOffset(b.Min.X, y):][:4*b.Dx()]
		if c.A != 255 {
			for i := 0; i < len(pix); i += 4 {
				mix(pix[i:i+4:i+4], c, 255)
			}
			continue
		}
		pix[0], pix[1], pix[2], pix[3] = c.R, c.G, c.B, 255
		for done := 4; done < len(pix); done *= 2 {
			copy(pix[done:], pix[:done])
		}
	}
}

func (r *Raster) blend(x, y int, cover []uint8, c color.NRGBA) {
	pix := r.Picture.Pix[r.Picture.PixOffset(x, y):]
	for i, a := range cover {
		if a != 0 {
			mix(pix[4*i:4*i+4:4*i+4], c, uint32(a))
		}
	}
}

// mix lays a colour at a part (0 to 255) of its weight over a premultiplied pixel.
func mix(pix []uint8, c color.NRGBA, part uint32) {
	a := part * uint32(c.A)
	if a >= 255*255 {
		pix[0], pix[1], pix[2], pix[3] = c.R, c.G, c.B, 255
		return
	}
	const whole = 255 * 255
	b := whole - a
	pix[0] = uint8((uint32(c.R)*a + uint32(pix[0])*b + whole/2) / whole)
	pix[1] = uint8((uint32(c.G)*a + uint32(pix[1])*b + whole/2) / whole)
	pix[2] = uint8((uint32(c.B)*a + uint32(pix[2])*b + whole/2) / whole)
	pix[3] = uint8((255*a + uint32(pix[3])*b + whole/2) / whole)
}
