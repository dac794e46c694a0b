// Package draft makes the flat drawings of a project: the plan, the walls unrolled in one strip (a developed
// elevation), cut sheets, and the sequence as bars. Every drawing speaks to one small Canvas, so that the window
// (Raster), files (SVG) and later documents show the same lines. Coordinates on a canvas are logical pixels, y down;
// lengths stay exact until they are placed. The same input draws the same bytes: no clock, no map order, no state
// besides caches of glyphs and hatch tiles.
package draft

import (
	"image/color"
	"math"
)

// Pt is a place on a canvas: logical pixels, x to the right, y down.
type Pt struct{ X, Y float64 }

// Add and Sub move a point.
func (p Pt) Add(q Pt) Pt { return Pt{p.X + q.X, p.Y + q.Y} }

// Sub is the way from q to p.
func (p Pt) Sub(q Pt) Pt { return Pt{p.X - q.X, p.Y - q.Y} }

// Mul scales a way.
func (p Pt) Mul(k float64) Pt { return Pt{p.X * k, p.Y * k} }

// Len is the length of a way.
func (p Pt) Len() float64 { return math.Hypot(p.X, p.Y) }

// Unit is the way's direction, zero for a way without length.
func (p Pt) Unit() Pt {
	if l := p.Len(); l > 0 {
		return p.Mul(1 / l)
	}
	return Pt{}
}

// Left is the way turned a quarter turn to its left as seen on the screen.
func (p Pt) Left() Pt { return Pt{p.Y, -p.X} }

// Rect is an upright rectangle on a canvas, from its upper left corner.
type Rect struct{ X, Y, W, H float64 }

// Path is the rectangle's outline.
func (r Rect) Path() Path {
	return Path{{{r.X, r.Y}, {r.X + r.W, r.Y}, {r.X + r.W, r.Y + r.H}, {r.X, r.Y + r.H}}}
}

// Has says whether the point lies in the rectangle or on its edge.
func (r Rect) Has(p Pt) bool { return p.X >= r.X && p.X <= r.X+r.W && p.Y >= r.Y && p.Y <= r.Y+r.H }

// Inset is the rectangle made smaller by d on all sides.
func (r Rect) Inset(d float64) Rect { return Rect{r.X + d, r.Y + d, r.W - 2*d, r.H - 2*d} }

// Meets says whether two rectangles share any area.
func (r Rect) Meets(o Rect) bool {
	return r.X < o.X+o.W && o.X < r.X+r.W && r.Y < o.Y+o.H && o.Y < r.Y+r.H
}

// Mid is the rectangle's centre.
func (r Rect) Mid() Pt { return Pt{r.X + r.W/2, r.Y + r.H/2} }

// Path is an outline followed by its holes; inside is counted even-odd, so their direction does not matter.
type Path [][]Pt

// Pen draws lines. Widths are logical pixels and stay what they are at every zoom; Dash alternates drawn and left
// lengths, empty for a solid line. Ends are butt, corners round.
type Pen struct {
	Width float64
	Color color.NRGBA
	Dash  []float64
}

// Weight of the type family.
type Weight uint8

// The two weights.
const (
	Regular Weight = iota
	Semibold
)

// The four sizes of type, in logical pixels.
const (
	Small   = 11.0
	Body    = 13.0
	Heading = 16.0
	Figure  = 26.0
)

// Anchor says which point of a line of text stands at the given place.
type Anchor uint8

// Anchors along the line; the place is always on the baseline.
const (
	Start Anchor = iota
	Middle
	End
)

// Type is how a line of text is set. Turn is in radians, counter-clockwise as seen, about the anchor.
type Type struct {
	Size   float64
	Weight Weight
	Anchor Anchor
	Color  color.NRGBA
	Turn   float64
}

// Canvas is what every drawing is drawn on.
type Canvas interface {
	// Size is the drawing's width and height in logical pixels.
	Size() (w, h float64)
	// Fill paints the inside of the path.
	Fill(p Path, c color.NRGBA)
	// Hatch fills the path with a material's pattern over what is there.
	Hatch(p Path, h Hatch)
	// Stroke draws a line through the points, back to the first where closed.
	Stroke(line []Pt, closed bool, pen Pen)
	// Disc paints a full circle.
	Disc(at Pt, r float64, c color.NRGBA)
	// Text sets one line.
	Text(at Pt, s string, t Type)
	// Clip bounds all that follows to the rectangle, within the clips already set, until Unclip.
	Clip(r Rect)
	Unclip()
	// Begin opens a group named for what it shows; files keep the name. End closes it.
	Begin(id string)
	End()
}

// turned is the unit way a number of quarter turns from the right, clockwise as seen.
func turned(quarters float64) Pt {
	sin, cos := math.Sincos(quarters * math.Pi / 2)
	return Pt{cos, sin}
}
