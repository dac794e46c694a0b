// Package shape holds the flat geometry of a surface: points, straight-sided outlines, and cutting them along
// lines that run with the axes. Coordinates are exact lengths; a slanted edge cut by a line is rounded once,
// and every piece on either side of the line gets the same rounded point.
package shape

import (
	"seamwright/calc/length"
)

// Point is a place on a flat surface (x to the right, y up) or on the floor plan.
type Point struct{ X, Y length.Length }

// MarshalJSON writes [x, y] in millimetres.
func (p Point) MarshalJSON() ([]byte, error) {
	b := p.X.AppendMM([]byte{'['})
	b = append(b, ',')
	b = p.Y.AppendMM(b)
	return append(b, ']'), nil
}

// Polygon is a simple closed outline, without repeating the first corner. Outlines run counter-clockwise.
type Polygon []Point

// Rect is an upright rectangle from its lower left corner.
type Rect struct{ X, Y, W, H length.Length }

// MarshalJSON writes [x, y, w, h] in millimetres.
func (r Rect) MarshalJSON() ([]byte, error) {
	b := r.X.AppendMM([]byte{'['})
	for _, l := range []length.Length{r.Y, r.W, r.H} {
		b = append(b, ',')
		b = l.AppendMM(b)
	}
	return append(b, ']'), nil
}

// MaxX and MaxY are the far sides of the rectangle.
func (r Rect) MaxX() length.Length { return r.X + r.W }

// MaxY is the upper side of the rectangle.
func (r Rect) MaxY() length.Length { return r.Y + r.H }

// Polygon is the rectangle's outline, counter-clockwise from its lower left corner.
func (r Rect) Polygon() Polygon {
	return Polygon{{r.X, r.Y}, {r.MaxX(), r.Y}, {r.MaxX(), r.MaxY()}, {r.X, r.MaxY()}}
}

// Area is the rectangle's area.
func (r Rect) Area() length.Area { return r.W.Times(r.H) }
