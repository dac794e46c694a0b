package book

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"slices"
	"strconv"
	"strings"

	"codeberg.org/go-pdf/fpdf"

	"seamwright/assets"
	"seamwright/scene/draft"
)

// typeface is the name that the PDF library knows the embedded type family by.
const typeface = "lato"

// newPDF starts a document in points. The library edits the fonts that it is given, so it gets copies; without sorted
// catalogs its bytes would differ from run to run.
func newPDF() *fpdf.Fpdf {
	pdf := fpdf.New("P", "pt", "Letter", "")
	pdf.SetCatalogSort(true)
	pdf.SetAutoPageBreak(false, 0)
	pdf.AddUTF8FontFromBytes(typeface, "", slices.Clone(assets.FontRegular))
	pdf.AddUTF8FontFromBytes(typeface, "B", slices.Clone(assets.FontSemibold))
	return pdf
}

// canvas draws on a part of a page: one logical pixel of the drawings is one point, y runs down. Shapes are written as
// operators of the page (ISO 32000-1, 8.5), each in a graphics state of its own, so that the library's idea of the state
// stays true; text goes through the library, which embeds the letters that are used.
type canvas struct {
	pdf   *fpdf.Fpdf
	high  float64 // of the page
	at    draft.Pt
	w, h  float64
	tiles map[tileKey]*tile
}

var _ leaf = (*canvas)(nil)

// tileKey is a hatch that has been drawn once.
type tileKey struct {
	kind    draft.HatchKind
	upright bool
	color   color.NRGBA
}

// tile is a hatch drawn as a form of its own (ISO 32000-1, 8.10), which pages show as often as they need it.
type tile struct {
	form fpdf.Template
	size fpdf.SizeType
	name string // that pages call it by, once the library knows that it is used
}

// within is the canvas of a part of this one.
func (c *canvas) within(r draft.Rect) leaf {
	part := *c
	part.at, part.w, part.h = c.at.Add(draft.Pt{X: r.X, Y: r.Y}), r.W, r.H
	return &part
}

// Size is in points.
func (c *canvas) Size() (w, h float64) { return c.w, c.h }

// fixed is the blank that keeps a line together while text is wrapped; on the page it is a blank like any other.
const fixed = "\u00a0"

// operators is a run of page operators under way.
type operators struct{ b strings.Builder }

// num writes a number to a hundredth of a point, which is 0.0035 mm.
func (o *operators) num(list ...float64) {
	for _, v := range list {
		v = math.Round(v*100) / 100
		if v == 0 {
			v = 0 // never -0
		}
		o.b.WriteString(strconv.FormatFloat(v, 'f', -1, 64))
		o.b.WriteByte(' ')
	}
}

func (o *operators) op(name string) { o.b.WriteString(name + "\n") }

// paint sets a colour; what is see-through is mixed with the paper.
func (o *operators) paint(name string, k color.NRGBA) {
	part := func(v uint8) float64 {
		on := float64(v) / 255
		return 1 - (1-on)*float64(k.A)/255
	}
	o.b.WriteString(strconv.FormatFloat(part(k.R), 'f', 3, 64) + " " + strconv.FormatFloat(part(k.G), 'f', 3, 64) + " " + strconv.FormatFloat(part(k.B), 'f', 3, 64) + " ")
	o.op(name)
}

// place is a point on the page, whose y runs up.
func (c *canvas) place(p draft.Pt) (x, y float64) { return c.at.X + p.X, c.high - c.at.Y - p.Y }

// trace writes lines through points.
func (c *canvas) trace(o *operators, line []draft.Pt, closed bool) {
	for i, p := range line {
		o.num(c.place(p))
		o.op(map[bool]string{true: "m", false: "l"}[i == 0])
	}
	if closed {
		o.op("h")
	}
}

// write puts operators on the page between a saved and a restored state.
func (c *canvas) write(o *operators) { c.pdf.RawWriteStr("q\n" + o.b.String() + "Q\n") }

// Fill paints the inside of a path.
func (c *canvas) Fill(p draft.Path, k color.NRGBA) {
	if k.A == 0 {
		return
	}
	o := &operators{}
	o.paint("rg", k)
	for _, ring := range p {
		c.trace(o, ring, true)
	}
	o.op("f*")
	c.write(o)
}

// Stroke draws a line with butt ends and round corners.
func (c *canvas) Stroke(line []draft.Pt, closed bool, pen draft.Pen) {
	if len(line) < 2 {
		return
	}
	o := &operators{}
	o.paint("RG", pen.Color)
	o.num(pen.Width)
	o.b.WriteString("w 1 j ")
	if len(pen.Dash) > 0 {
		o.b.WriteByte('[')
		o.num(pen.Dash...)
		o.b.WriteString("] 0 d ")
	}
	c.trace(o, line, closed)
	o.op("S")
	c.write(o)
}

// Disc paints a circle: a line without length, as wide as the circle, with round ends.
func (c *canvas) Disc(at draft.Pt, r float64, k color.NRGBA) {
	o := &operators{}
	o.paint("RG", k)
	o.num(2 * r)
	o.b.WriteString("w 1 J ")
	c.trace(o, []draft.Pt{at, at}, false)
	o.op("S")
	c.write(o)
}

// Text sets one line.
func (c *canvas) Text(at draft.Pt, s string, t draft.Type) {
	if s == "" {
		return
	}
	style := ""
	if t.Weight == draft.Semibold {
		style = "B"
	}
	s = strings.ReplaceAll(s, fixed, " ")
	c.pdf.SetFont(typeface, style, t.Size)
	k := t.Color
	c.pdf.SetTextColor(int(k.R), int(k.G), int(k.B))
	x, y := c.at.X+at.X, c.at.Y+at.Y
	from := x
	switch t.Anchor {
	case draft.Start:
	case draft.Middle:
		from -= c.pdf.GetStringWidth(s) / 2
	case draft.End:
		from -= c.pdf.GetStringWidth(s)
	}
	if t.Turn == 0 {
		c.pdf.Text(from, y, s)
		return
	}
	c.pdf.TransformBegin()
	c.pdf.TransformRotate(t.Turn*180/math.Pi, x, y)
	c.pdf.Text(from, y, s)
	c.pdf.TransformEnd()
}

// picture embeds a picture as a PNG, which loses nothing.
func (c *canvas) picture(r draft.Rect, img *image.RGBA) {
	var file bytes.Buffer
	if err := png.Encode(&file, img); err != nil {
		c.pdf.SetError(err)
		return
	}
	name, options := fmt.Sprintf("picture %d %v", c.pdf.PageNo(), r), fpdf.ImageOptions{ImageType: "PNG"}
	c.pdf.RegisterImageOptionsReader(name, options, &file)
	c.pdf.ImageOptions(name, c.at.X+r.X, c.at.Y+r.Y, r.W, r.H, false, options, 0, "")
}

// Clip bounds what follows to a rectangle.
func (c *canvas) Clip(r draft.Rect) {
	o := &operators{}
	c.trace(o, r.Path()[0], true)
	o.op("W n")
	c.pdf.RawWriteStr("q\n" + o.b.String())
}

// Unclip restores the state before the clip. The library does not know that its font goes with it, so it is told another.
func (c *canvas) Unclip() {
	c.pdf.RawWriteStr("Q\n")
	c.pdf.SetFont(typeface, "", 1)
}

// Begin and End group what they enclose; a page keeps no names of groups.
func (c *canvas) Begin(string) {}

// End closes the group.
func (c *canvas) End() {}

// Hatch fills a path with copies of one large tile, drawn once for a document.
func (c *canvas) Hatch(p draft.Path, h draft.Hatch) {
	tile := c.tile(h)
	size := tile.size
	lo, hi := draft.Pt{X: math.Inf(1), Y: math.Inf(1)}, draft.Pt{X: math.Inf(-1), Y: math.Inf(-1)}
	o := &operators{}
	for _, ring := range p {
		c.trace(o, ring, true)
		for _, q := range ring {
			lo, hi = draft.Pt{X: math.Min(lo.X, q.X), Y: math.Min(lo.Y, q.Y)}, draft.Pt{X: math.Max(hi.X, q.X), Y: math.Max(hi.Y, q.Y)}
		}
	}
	o.op("W* n")
	c.pdf.RawWriteStr("q\n" + o.b.String())
	start := func(lo, from, step float64) float64 { return from + math.Floor((lo-from)/step)*step }
	for y := start(lo.Y, h.From.Y, size.Ht); y < hi.Y; y += size.Ht {
		for x := start(lo.X, h.From.X, size.Wd); x < hi.X; x += size.Wd {
			c.show(tile, draft.Pt{X: x, Y: y})
		}
	}
	c.Unclip()
}

// show puts a tile with its corner at a place. The library finds out its name by a hash at every use, so only the first is
// left to it.
func (c *canvas) show(t *tile, at draft.Pt) {
	if t.name == "" {
		t.name = "TPL" + t.form.ID()
		c.pdf.UseTemplateScaled(t.form, fpdf.PointType{X: c.at.X + at.X, Y: c.at.Y + at.Y}, t.size)
		return
	}
	o := &operators{}
	x, y := c.place(at)
	o.num(1, 0, 0, 1, x, y-t.size.Ht)
	o.op("cm /" + t.name + " Do")
	c.write(o)
}

// tileSide is about how long the sides of a tile are: few copies fill a sheet.
const tileSide = 240.0

// tile draws a hatch's pattern side by side until it is about as large as tileSide.
func (c *canvas) tile(h draft.Hatch) *tile {
	key := tileKey{h.Kind, h.Upright, h.Color}
	if t, ok := c.tiles[key]; ok {
		return t
	}
	pattern := draft.PatternOf(h.Kind, h.Upright)
	across, down := math.Round(tileSide/pattern.W), math.Round(tileSide/pattern.H)
	size := fpdf.SizeType{Wd: across * pattern.W, Ht: down * pattern.H}
	form := c.pdf.CreateTemplateCustom(fpdf.PointType{}, size, func(t *fpdf.Tpl) {
		on := &canvas{pdf: &t.Fpdf, high: size.Ht, w: size.Wd, h: size.Ht}
		for y := 0.0; y < down; y++ {
			for x := 0.0; x < across; x++ {
				on.pattern(pattern, draft.Pt{X: x * pattern.W, Y: y * pattern.H}, h.Color)
			}
		}
	})
	t := &tile{form: form, size: size}
	c.tiles[key] = t
	return t
}

// pattern draws one pattern with its corner at a place, in one graphics state.
func (c *canvas) pattern(p draft.Pattern, at draft.Pt, k color.NRGBA) {
	o := &operators{}
	o.paint("RG", k)
	if len(p.Dots) > 0 {
		o.num(2 * p.Dot)
		o.op("w 1 J")
		for _, d := range p.Dots {
			c.trace(o, []draft.Pt{at.Add(d), at.Add(d)}, false)
			o.op("S")
		}
	}
	if len(p.Lines) > 0 {
		o.num(p.Pen)
		o.op("w 0 J 1 j")
		for _, l := range p.Lines {
			line := make([]draft.Pt, len(l))
			for i, q := range l {
				line[i] = at.Add(q)
			}
			c.trace(o, line, false)
			o.op("S")
		}
	}
	c.write(o)
}
