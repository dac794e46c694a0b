package drawing

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
)

// xy is a point of a DXF file, in its unit, y up.
type xy struct{ x, y float64 }

func (p xy) add(q xy) xy      { return xy{p.x + q.x, p.y + q.y} }
func (p xy) sub(q xy) xy      { return xy{p.x - q.x, p.y - q.y} }
func (p xy) mul(k float64) xy { return xy{p.x * k, p.y * k} }
func (p xy) long() float64    { return math.Hypot(p.x, p.y) }
func (p xy) mid(q xy) xy      { return p.add(q).mul(0.5) }

// degrees is a way's direction, counter-clockwise from the right.
func (p xy) degrees() float64 { return math.Atan2(p.y, p.x) * 180 / math.Pi }

// layer is what things of one kind are drawn on. Colours are indexes of the format's fixed palette; 7 is black on white.
type layer struct {
	name  string
	color int
	line  string
}

// dxf is a drawing under way, as ASCII DXF of the release that writers may rely on most widely: AC1015, with handles, owners
// and subclass markers, as the published reference of the format asks (DXF Reference, sections HEADER to OBJECTS). The unit is
// stated, so that who reads it need not guess.
type dxf struct {
	inches   bool
	layers   []layer
	known    map[string]bool
	entities bytes.Buffer
	handle   int
	lo, hi   xy
}

// The handles of what every file has.
const (
	modelSpace  = 0x1F
	paperSpace  = 0x1E
	firstHandle = 0x100
)

func newDXF(inches bool) *dxf {
	return &dxf{inches: inches, known: map[string]bool{}, handle: firstHandle, lo: xy{math.Inf(1), math.Inf(1)}, hi: xy{math.Inf(-1), math.Inf(-1)}}
}

// group writes one group: a code and its value, a line each.
func group(b *bytes.Buffer, code int, value any) {
	switch v := value.(type) {
	case float64:
		fmt.Fprintf(b, "%3d\n%s\n", code, real(v))
	default:
		fmt.Fprintf(b, "%3d\n%v\n", code, v)
	}
}

// real is a number that reads back as it was, always with a point.
func real(v float64) string {
	if v == 0 {
		return "0.0" // never -0
	}
	s := strconv.FormatFloat(v, 'f', -1, 64)
	if !strings.Contains(s, ".") {
		s += ".0"
	}
	return s
}

// hex is a handle.
func hex(h int) string { return strings.ToUpper(strconv.FormatInt(int64(h), 16)) }

// begin opens an entity on a layer.
func (d *dxf) begin(kind, class string, on layer) *bytes.Buffer {
	if !d.known[on.name] {
		d.known[on.name] = true
		d.layers = append(d.layers, on)
	}
	b := &d.entities
	group(b, 0, kind)
	group(b, 5, hex(d.handle))
	d.handle++
	group(b, 330, hex(modelSpace))
	group(b, 100, "AcDbEntity")
	group(b, 8, on.name)
	group(b, 100, class)
	return b
}

// point writes a point and notes how far the drawing reaches.
func (d *dxf) point(b *bytes.Buffer, code int, p xy, flat bool) {
	group(b, code, p.x)
	group(b, code+10, p.y)
	if !flat {
		group(b, code+20, 0.0)
	}
	d.reach(p)
}

func (d *dxf) reach(p xy) {
	d.lo = xy{math.Min(d.lo.x, p.x), math.Min(d.lo.y, p.y)}
	d.hi = xy{math.Max(d.hi.x, p.x), math.Max(d.hi.y, p.y)}
}

// line draws a straight line.
func (d *dxf) line(on layer, from, to xy) {
	b := d.begin("LINE", "AcDbLine", on)
	d.point(b, 10, from, false)
	d.point(b, 11, to, false)
}

// outline draws a closed polyline.
func (d *dxf) outline(on layer, ring ...xy) {
	b := d.begin("LWPOLYLINE", "AcDbPolyline", on)
	group(b, 90, len(ring))
	group(b, 70, 1)
	group(b, 43, 0.0)
	for _, p := range ring {
		d.point(b, 10, p, true)
	}
}

// arc draws a part of a circle, counter-clockwise from one direction to another, in degrees.
func (d *dxf) arc(on layer, centre xy, radius, from, to float64) {
	b := d.begin("ARC", "AcDbCircle", on)
	d.point(b, 10, centre, false)
	group(b, 40, radius)
	group(b, 100, "AcDbArc")
	group(b, 50, from)
	group(b, 51, to)
}

// dot draws a point.
func (d *dxf) dot(on layer, at xy) {
	b := d.begin("POINT", "AcDbPoint", on)
	d.point(b, 10, at, false)
}

// text sets a line of text about its middle, so high and turned so far in degrees.
func (d *dxf) text(on layer, at xy, high, turned float64, words string) {
	if words == "" {
		return
	}
	b := d.begin("TEXT", "AcDbText", on)
	d.point(b, 10, at, false)
	group(b, 40, high)
	group(b, 1, coded(words))
	group(b, 50, turned)
	group(b, 7, "Standard")
	group(b, 72, 1) // centred at the second point
	d.point(b, 11, at, false)
	group(b, 100, "AcDbText")
	group(b, 73, 2) // middle
}

// coded is text as the format holds it: what is not ASCII as \U+ and four digits, a caret and two percent signs, which begin a control
// code, written out, line breaks as blanks.
func coded(s string) string {
	var b strings.Builder
	for _, r := range strings.ReplaceAll(s, "%%", "% %") {
		switch {
		case r == '^':
			b.WriteString("^ ")
		case r < ' ' || r == 0x7f:
			b.WriteByte(' ')
		case r < 0x7f:
			b.WriteRune(r)
		case r > 0xffff: // the format has no code for it
			b.WriteByte('?')
		default:
			fmt.Fprintf(&b, `\U+%04X`, r)
		}
	}
	return b.String()
}

// writeTo writes the whole file.
func (d *dxf) writeTo(w io.Writer) error {
	var b bytes.Buffer
	section := func(name string, body func()) {
		group(&b, 0, "SECTION")
		group(&b, 2, name)
		body()
		group(&b, 0, "ENDSEC")
	}
	section("HEADER", func() { d.header(&b) })
	section("CLASSES", func() {})
	section("TABLES", func() { d.tables(&b) })
	section("BLOCKS", func() {
		block(&b, "*Model_Space", modelSpace, 0x20)
		block(&b, "*Paper_Space", paperSpace, 0x22)
	})
	section("ENTITIES", func() { b.Write(d.entities.Bytes()) })
	section("OBJECTS", func() {
		dictionary(&b, 0xC, 0)
		group(&b, 3, "ACAD_GROUP")
		group(&b, 350, hex(0xD))
		dictionary(&b, 0xD, 0xC)
	})
	group(&b, 0, "EOF")
	_, err := b.WriteTo(w)
	return err
}

func (d *dxf) header(b *bytes.Buffer) {
	units, measurement, shown := 4, 1, 2 // millimetres, metric hatches, decimals
	if d.inches {
		units, measurement, shown = 1, 0, 4 // inches, imperial hatches, feet and inches
	}
	lo, hi := d.lo, d.hi
	if lo.x > hi.x {
		lo, hi = xy{}, xy{}
	}
	variable := func(name string, code int, value any) {
		group(b, 9, name)
		group(b, code, value)
	}
	variable("$ACADVER", 1, "AC1015")
	variable("$DWGCODEPAGE", 3, "ANSI_1252")
	variable("$INSUNITS", 70, units)
	variable("$MEASUREMENT", 70, measurement)
	variable("$LUNITS", 70, shown)
	for _, corner := range [2]struct {
		name string
		at   xy
	}{{"$EXTMIN", lo}, {"$EXTMAX", hi}} {
		variable(corner.name, 10, corner.at.x)
		group(b, 20, corner.at.y)
		group(b, 30, 0.0)
	}
	variable("$HANDSEED", 5, hex(d.handle+1))
}
