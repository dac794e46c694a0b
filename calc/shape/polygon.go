package shape

import "seamwright/calc/length"

// Place says where a point lies in relation to an outline.
type Place int

// Places of a point.
const (
	Outside Place = iota
	OnEdge
	Inside
)

// twiceArea is twice the signed area, positive when the outline runs counter-clockwise. Exact.
func (p Polygon) twiceArea() wide {
	var sum wide
	for i, a := range p {
		b := p.at(i + 1)
		sum = sum.plus(product(a.X, b.Y)).minus(product(a.Y, b.X))
	}
	return sum
}

// at is the corner i, counted round and round.
func (p Polygon) at(i int) Point { return p[(i+len(p))%len(p)] }

// Area is the area that the outline encloses, in either direction; exact until one rounding at the end.
func (p Polygon) Area() length.Area {
	w := p.twiceArea()
	if w.sign() < 0 {
		w = w.negated()
	}
	return w.halfArea()
}

// CounterClockwise reports the outline's direction.
func (p Polygon) CounterClockwise() bool { return p.twiceArea().sign() > 0 }

// Bounds is the smallest upright rectangle around the outline; the zero Rect for no points.
func (p Polygon) Bounds() Rect {
	if len(p) == 0 {
		return Rect{}
	}
	lo, hi := p[0], p[0]
	for _, q := range p[1:] {
		lo.X, lo.Y = min(lo.X, q.X), min(lo.Y, q.Y)
		hi.X, hi.Y = max(hi.X, q.X), max(hi.Y, q.Y)
	}
	return Rect{lo.X, lo.Y, hi.X - lo.X, hi.Y - lo.Y}
}

// Reversed is the same outline in the other direction.
func (p Polygon) Reversed() Polygon {
	r := make(Polygon, len(p))
	for i, q := range p {
		r[len(p)-1-i] = q
	}
	return r
}

// Moved is the outline shifted.
func (p Polygon) Moved(dx, dy length.Length) Polygon {
	r := make(Polygon, len(p))
	for i, q := range p {
		r[i] = Point{q.X + dx, q.Y + dy}
	}
	return r
}

// Transposed swaps x and y and keeps the winding.
func (p Polygon) Transposed() Polygon {
	r := make(Polygon, len(p))
	for i, q := range p {
		r[len(p)-1-i] = Point{q.Y, q.X}
	}
	return r
}

// Normal is the outline counter-clockwise from its lowest corner (the leftmost of these), without repeated
// points and points on a straight side; nil when nothing is left.
func (p Polygon) Normal() Polygon {
	r := p.cleaned()
	if len(r) < 3 {
		return nil
	}
	if !r.CounterClockwise() {
		r = r.Reversed()
	}
	return r.fromLowest()
}

// cleaned drops repeated points, points on a straight side and spikes, keeping the direction.
func (p Polygon) cleaned() Polygon {
	r := make(Polygon, 0, len(p))
	for _, q := range p {
		r = append(r, q)
		for len(r) >= 2 && r[len(r)-1] == r[len(r)-2] || len(r) >= 3 && Turn(r[len(r)-3], r[len(r)-2], r[len(r)-1]) == 0 {
			r[len(r)-2] = r[len(r)-1]
			r = r[:len(r)-1]
		}
	}
	for len(r) >= 3 { // the seam between the last points and the first
		switch n := len(r); {
		case r[n-1] == r[0] || Turn(r[n-2], r[n-1], r[0]) == 0:
			r = r[:n-1]
		case Turn(r[n-1], r[0], r[1]) == 0:
			r = r[1:]
		default:
			return r
		}
	}
	return nil
}

func (p Polygon) fromLowest() Polygon {
	first := 0
	for i, q := range p {
		if before(q, p[first]) {
			first = i
		}
	}
	return append(append(make(Polygon, 0, len(p)), p[first:]...), p[:first]...)
}

// before orders points from the bottom up, then from the left.
func before(a, b Point) bool { return a.Y < b.Y || a.Y == b.Y && a.X < b.X }

// Contains tells on which side of the outline a point lies. Exact.
func (p Polygon) Contains(q Point) Place {
	inside := false
	for i, a := range p {
		b := p.at(i + 1)
		if onSegment(a, b, q) {
			return OnEdge
		}
		if (a.Y > q.Y) != (b.Y > q.Y) {
			if a.Y > b.Y {
				a, b = b, a
			}
			if Turn(a, b, q) > 0 { // q lies left of the upward edge: a ray to the right crosses it
				inside = !inside
			}
		}
	}
	if inside {
		return Inside
	}
	return Outside
}

// onSegment reports whether q lies on the closed segment ab.
func onSegment(a, b, q Point) bool {
	return Turn(a, b, q) == 0 &&
		min(a.X, b.X) <= q.X && q.X <= max(a.X, b.X) && min(a.Y, b.Y) <= q.Y && q.Y <= max(a.Y, b.Y)
}

// Simple reports whether the outline encloses an area without touching or crossing itself.
func (p Polygon) Simple() bool {
	_, _, crosses := p.Crossing()
	return len(p) >= 3 && !crosses
}

// Crossing finds two sides (side i runs from corner i to corner i+1) that meet elsewhere than at the corner they
// share; a side without length meets itself.
func (p Polygon) Crossing() (i, j int, crosses bool) {
	n := len(p)
	for i := range n {
		a, b := p[i], p.at(i+1)
		if a == b {
			return i, i, true
		}
		for j := i + 1; j < n; j++ {
			c, d := p[j], p.at(j+1)
			switch {
			case n > 2 && j == i+1: // share b = c
				if Turn(a, b, d) == 0 && (onSegment(a, b, d) || onSegment(c, d, a)) {
					return i, j, true
				}
			case n > 2 && i == 0 && j == n-1: // share a = d
				if Turn(c, a, b) == 0 && (onSegment(c, a, b) || onSegment(a, b, c)) {
					return i, j, true
				}
			case segmentsMeet(a, b, c, d):
				return i, j, true
			}
		}
	}
	return 0, 0, false
}

// segmentsMeet reports whether two closed segments have a point in common.
func segmentsMeet(a, b, c, d Point) bool {
	if onSegment(a, b, c) || onSegment(a, b, d) || onSegment(c, d, a) || onSegment(c, d, b) {
		return true
	}
	return Turn(a, b, c)*Turn(a, b, d) < 0 && Turn(c, d, a)*Turn(c, d, b) < 0
}
