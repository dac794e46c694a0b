package planner

import (
	"math"
	"math/big"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/shape"
)

// head is how long a wall is and where it begins and ends upwards, as far as the file must be checked against it.
// The survey measures the same wall again, for the calculation.
type head struct {
	width       length.Length
	top, bottom []shape.Point // from the left end to the right one
	murky       bool          // the room is at fault: heights are not judged
}

// headOf measures side i (from 0) of a room under its ceiling's shape.
func headOf(r *job.Room, i int) head {
	left, right := r.Corners[i], r.Corners[(i+1)%len(r.Corners)]
	if shape.Polygon(r.Corners).CounterClockwise() { // seen from inside, the next corner is to the left
		left, right = right, left
	}
	h := head{width: distance(left, right)}
	h.bottom = []shape.Point{{}, {X: h.width}}
	h.top = []shape.Point{{Y: heightOver(r, left)}, {X: h.width, Y: heightOver(r, right)}}
	if c := r.Ceiling; c != nil && c.Shape == job.Ridge {
		a, b := left.Y, right.Y
		if c.Along == job.AxisY {
			a, b = left.X, right.X
		}
		if a < c.At && c.At < b || b < c.At && c.At < a {
			x := scaled(h.width, c.At-a, b-a)
			h.top = []shape.Point{h.top[0], {X: x, Y: c.High}, h.top[1]}
		}
	}
	return h
}

// heightOver is the height of the ceiling's framing over a point of the floor plan.
func heightOver(r *job.Room, q shape.Point) length.Length {
	c := r.Ceiling
	if c == nil || c.High <= r.Height {
		return r.Height
	}
	bounds := shape.Polygon(r.Corners).Bounds()
	rise := c.High - r.Height
	switch c.Shape {
	case job.Ridge:
		at, low, high := q.Y, bounds.Y, bounds.MaxY()
		if c.Along == job.AxisY {
			at, low, high = q.X, bounds.X, bounds.MaxX()
		}
		switch {
		case c.At <= low || c.At >= high:
			return r.Height
		case at <= c.At:
			return r.Height + scaled(rise, at-low, c.At-low)
		default:
			return r.Height + scaled(rise, high-at, high-c.At)
		}
	case job.Slope:
		switch c.From {
		case "south":
			return r.Height + scaled(rise, q.Y-bounds.Y, bounds.H)
		case "north":
			return r.Height + scaled(rise, bounds.MaxY()-q.Y, bounds.H)
		case "west":
			return r.Height + scaled(rise, q.X-bounds.X, bounds.W)
		case "east":
			return r.Height + scaled(rise, bounds.MaxX()-q.X, bounds.W)
		}
	}
	return r.Height
}

// scaled is l·a/b, rounded to the nearest nanometre, halves up; b is not 0.
func scaled(l, a, b length.Length) length.Length {
	num := new(big.Int).Mul(big.NewInt(int64(l)), big.NewInt(int64(a)))
	den := big.NewInt(int64(b))
	if b < 0 {
		num.Neg(num)
		den.Neg(den)
	}
	num.Lsh(num, 1).Add(num, den)
	return length.Length(num.Div(num, den.Lsh(den, 1)).Int64())
}

// distance between two points, rounded to the nearest nanometre.
func distance(a, b shape.Point) length.Length {
	if a.X == b.X || a.Y == b.Y {
		return (a.X - b.X).Abs() + (a.Y - b.Y).Abs()
	}
	return length.Length(math.Round(math.Hypot(float64(a.X-b.X), float64(a.Y-b.Y))))
}

// yAt is the height of a line of points at x; at a step, the lower or the higher of its two ends.
func yAt(line []shape.Point, x length.Length, higher bool) length.Length {
	best, found := length.Length(0), false
	take := func(y length.Length) {
		if !found || higher && y > best || !higher && y < best {
			best, found = y, true
		}
	}
	for i := 0; i+1 < len(line); i++ {
		a, b := line[i], line[i+1]
		switch {
		case x < a.X || x > b.X:
		case a.X == b.X:
			take(a.Y)
			take(b.Y)
		default:
			take(a.Y + scaled(b.Y-a.Y, x-a.X, b.X-a.X))
		}
	}
	return best
}

// bends are the x of a line's points strictly between two places, and the places themselves.
func bends(line []shape.Point, from, to length.Length) []length.Length {
	xs := []length.Length{from, to}
	for _, q := range line {
		if q.X > from && q.X < to {
			xs = append(xs, q.X)
		}
	}
	return xs
}

// leastTop is the lowest the top comes between two places.
func (h head) leastTop(from, to length.Length) length.Length {
	least := h.highest()
	for _, x := range bends(h.top, from, to) {
		least = min(least, yAt(h.top, min(x, h.width), false))
	}
	return least
}

// mostBottom is the highest the bottom comes between two places.
func (h head) mostBottom(from, to length.Length) length.Length {
	var most length.Length
	for _, x := range bends(h.bottom, from, to) {
		most = max(most, yAt(h.bottom, min(x, h.width), true))
	}
	return most
}

// highest point of the wall.
func (h head) highest() length.Length {
	var most length.Length
	for _, q := range h.top {
		most = max(most, q.Y)
	}
	return most
}

// pinched finds a place strictly between the ends, or at both, where the top is not above the bottom. A top that
// meets the bottom at one end alone is a triangle, and sound.
func (h head) pinched() (length.Length, bool) {
	ends := 0
	for _, x := range append(bends(h.top, 0, h.width), bends(h.bottom, 0, h.width)...) {
		gap := yAt(h.top, x, false) - yAt(h.bottom, x, true)
		switch {
		case gap > 0:
		case gap < 0 || x > 0 && x < h.width:
			return x, true
		default:
			ends++
		}
	}
	return 0, ends >= 4 // both lines name each end once
}
