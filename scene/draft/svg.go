package draft

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"image/color"
	"io"
	"math"
	"strconv"
)

// SVG writes a drawing as SVG 1.1: one element a line, groups with their ids, hatches as patterns. The same drawing
// gives the same bytes. The typeface is named, not embedded; textLength keeps lines as wide as they were measured.
type SVG struct {
	Title  string // what the drawing shows
	Paper  bool   // the size is stated in millimetres on paper, 96 pixels being one inch (CSS Values 3, 6.2)
	w, h   float64
	body   bytes.Buffer
	defs   bytes.Buffer
	known  map[string]string // a definition's text to its id
	ids    map[string]bool   // group ids used, to keep them unique
	indent int
}

var _ Canvas = (*SVG)(nil)

// PixelsPerInch is how many logical pixels one inch on paper has.
const PixelsPerInch = 96.0

// NewSVG gives a canvas of w by h logical pixels.
func NewSVG(w, h float64) *SVG {
	return &SVG{w: w, h: h, known: map[string]string{}, ids: map[string]bool{}, indent: 1}
}

// Size is in logical pixels.
func (s *SVG) Size() (w, h float64) { return s.w, s.h }

// WriteTo writes the whole file. The title stands first, where assistive readers look for it.
func (s *SVG) WriteTo(w io.Writer) (int64, error) {
	var b bytes.Buffer
	b.WriteString(xml.Header)
	size := num
	if s.Paper {
		size = func(px float64) string { return strconv.FormatFloat(px/PixelsPerInch*25.4, 'f', 6, 64) + "mm" }
	}
	fmt.Fprintf(&b, "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"%s\" height=\"%s\" viewBox=\"0 0 %s %s\" font-family=\"Lato, Carlito, Calibri, Arial, sans-serif\">\n",
		size(s.w), size(s.h), num(s.w), num(s.h))
	if s.Title != "" {
		b.WriteString("  <title>" + escape(s.Title) + "</title>\n")
	}
	if s.defs.Len() > 0 {
		b.WriteString("  <defs>\n")
		b.Write(s.defs.Bytes())
		b.WriteString("  </defs>\n")
	}
	b.Write(s.body.Bytes())
	b.WriteString("</svg>\n")
	return b.WriteTo(w)
}

// num writes a coordinate to a thousandth, without trailing zeros.
func num(v float64) string {
	v = math.Round(v*1000) / 1000
	if v == 0 {
		return "0" // never -0
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

func escape(s string) string {
	var b bytes.Buffer
	// EscapeText replaces what XML cannot hold, and writing to a buffer does not fail.
	_ = xml.EscapeText(&b, []byte(s))
	return b.String()
}

func (s *SVG) line(format string, args ...any) {
	for i := 0; i < s.indent; i++ {
		s.body.WriteString("  ")
	}
	fmt.Fprintf(&s.body, format, args...)
	s.body.WriteByte('\n')
}

func paint(attribute string, c color.NRGBA) string {
	p := fmt.Sprintf(`%s="#%02x%02x%02x"`, attribute, c.R, c.G, c.B)
	if c.A != 255 {
		p += fmt.Sprintf(` %s-opacity="%s"`, attribute, num(float64(c.A)/255))
	}
	return p
}

func data(p Path, closed bool) string {
	var b bytes.Buffer
	for _, ring := range p {
		for i, q := range ring {
			b.WriteString(map[bool]string{true: "M", false: "L"}[i == 0])
			b.WriteString(num(q.X) + " " + num(q.Y))
		}
		if closed {
			b.WriteByte('Z')
		}
	}
	return b.String()
}

// shape writes a filled path with the given attributes, as a rectangle where it is one.
func (s *SVG) shape(p Path, attributes string) {
	if r, ok := upright(p); ok {
		s.line(`<rect x="%s" y="%s" width="%s" height="%s" %s/>`, num(r.X), num(r.Y), num(r.W), num(r.H), attributes)
		return
	}
	s.line(`<path d="%s" fill-rule="evenodd" %s/>`, data(p, true), attributes)
}

// Fill paints the inside of a path.
func (s *SVG) Fill(p Path, c color.NRGBA) { s.shape(p, paint("fill", c)) }

// Hatch refers to a pattern, written once for each kind, colour and starting place within its tile.
func (s *SVG) Hatch(p Path, h Hatch) {
	t := PatternOf(h.Kind, h.Upright)
	x, y := math.Mod(h.From.X, t.W), math.Mod(h.From.Y, t.H)
	var b bytes.Buffer
	for _, d := range t.Dots {
		fmt.Fprintf(&b, "      <circle cx=\"%s\" cy=\"%s\" r=\"%s\" %s/>\n", num(d.X), num(d.Y), num(t.Dot), paint("fill", h.Color))
	}
	for _, l := range t.Lines {
		fmt.Fprintf(&b, "      <path d=\"%s\" fill=\"none\" stroke-width=\"%s\" %s/>\n", data(Path{l}, false), num(t.Pen), paint("stroke", h.Color))
	}
	attributes := fmt.Sprintf(`x="%s" y="%s" width="%s" height="%s" patternUnits="userSpaceOnUse"`, num(x), num(y), num(t.W), num(t.H))
	id := s.define("hatch", "pattern", attributes, b.String())
	s.shape(p, fmt.Sprintf(`fill="url(#%s)"`, id))
}

// define writes a definition once and gives its id.
func (s *SVG) define(prefix, element, attributes, inner string) string {
	key := element + attributes + inner
	if id, ok := s.known[key]; ok {
		return id
	}
	id := "_" + prefix + strconv.Itoa(len(s.known)+1) // no group's id begins so
	s.known[key] = id
	fmt.Fprintf(&s.defs, "    <%s id=\"%s\" %s>\n%s    </%s>\n", element, id, attributes, inner, element)
	return id
}

// Stroke draws a line.
func (s *SVG) Stroke(line []Pt, closed bool, pen Pen) {
	dash := ""
	for i, d := range pen.Dash {
		if i > 0 {
			dash += " "
		}
		dash += num(d)
	}
	if dash != "" {
		dash = ` stroke-dasharray="` + dash + `"`
	}
	s.line(`<path d="%s" fill="none" %s stroke-width="%s" stroke-linejoin="round"%s/>`,
		data(Path{line}, closed), paint("stroke", pen.Color), num(pen.Width), dash)
}

// Disc paints a circle.
func (s *SVG) Disc(at Pt, r float64, c color.NRGBA) {
	s.line(`<circle cx="%s" cy="%s" r="%s" %s/>`, num(at.X), num(at.Y), num(r), paint("fill", c))
}

// Text sets one line.
func (s *SVG) Text(at Pt, text string, t Type) {
	if text == "" {
		return
	}
	more := ""
	if t.Weight == Semibold {
		more += ` font-weight="600"`
	}
	if t.Anchor != Start {
		more += ` text-anchor="` + map[Anchor]string{Middle: "middle", End: "end"}[t.Anchor] + `"`
	}
	if t.Turn != 0 {
		more += fmt.Sprintf(` transform="rotate(%s %s %s)"`, num(-t.Turn*180/math.Pi), num(at.X), num(at.Y))
	}
	s.line(`<text x="%s" y="%s" font-size="%s" textLength="%s"%s %s>%s</text>`, num(at.X), num(at.Y), num(t.Size),
		num(Measure(text, t.Size, t.Weight)), more, paint("fill", t.Color), escape(text))
}

// Clip opens a clipped group.
func (s *SVG) Clip(r Rect) {
	inner := fmt.Sprintf("      <rect x=\"%s\" y=\"%s\" width=\"%s\" height=\"%s\"/>\n", num(r.X), num(r.Y), num(r.W), num(r.H))
	s.line(`<g clip-path="url(#%s)">`, s.define("clip", "clipPath", `clipPathUnits="userSpaceOnUse"`, inner))
	s.indent++
}

// Unclip closes the clipped group.
func (s *SVG) Unclip() { s.End() }

// Begin opens a group. Ids are kept unique and made of what XML names allow.
func (s *SVG) Begin(id string) {
	var name []byte
	for _, r := range id {
		switch {
		case r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || r == '-' || r == '.':
			name = append(name, byte(r))
		default:
			name = append(name, '_')
		}
	}
	if len(name) == 0 || !(name[0] >= 'a' && name[0] <= 'z' || name[0] >= 'A' && name[0] <= 'Z') {
		name = append([]byte("g"), name...)
	}
	key := string(name)
	for n := 2; s.ids[key]; n++ {
		key = string(name) + "_" + strconv.Itoa(n)
	}
	s.ids[key] = true
	s.line(`<g id="%s">`, key)
	s.indent++
}

// End closes the group.
func (s *SVG) End() {
	s.indent--
	s.line(`</g>`)
}
