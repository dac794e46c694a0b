package shape

import "cmp"

// Notch cuts a piece off an outline where it lies inside and along its edge: the outline then goes round the piece instead
// of along it. It serves pieces of any shape, such as the half of a round box at a joint. Both run counter-clockwise, and
// the piece touches the outline in one stretch of straight edges; false where it does not.
func (p Polygon) Notch(piece Polygon) (Polygon, bool) {
	n := len(piece)
	edge := func(i int) (at int, ok bool) { return p.edgeAlong(piece.at(i), piece.at(i+1)) }
	first := -1 // edge of the piece with which the stretch begins
	for i := range piece {
		_, along := edge(i)
		if _, before := edge(i - 1); along && !before {
			if first >= 0 {
				return nil, false
			}
			first = i
		}
	}
	if first < 0 {
		return nil, false
	}
	last := first
	for _, along := edge(last + 1); along; _, along = edge(last + 1) {
		last++
	}
	from, _ := edge(first)
	to, _ := edge(last)
	var out Polygon
	for i := to; i != from || len(out) == 0; { // from the end of the stretch round to its beginning
		i = (i + 1) % len(p)
		out = append(out, p[i])
	}
	for i := first + n; i > last; i-- { // and back inside, round the piece
		out = append(out, piece.at(i))
	}
	return out.Normal(), true
}

// edgeAlong is the edge of the outline that a stretch lies on, run the same way.
func (p Polygon) edgeAlong(a, b Point) (int, bool) {
	for i := range p {
		c, d := p[i], p.at(i+1)
		if Turn(c, d, a) == 0 && Turn(c, d, b) == 0 && onSegment(c, d, a) && onSegment(c, d, b) && sameWay(c, d, a, b) {
			return i, true
		}
	}
	return 0, false
}

// sameWay tells whether two stretches of one line run the same way.
func sameWay(a, b, c, d Point) bool {
	return cmp.Compare(a.X, b.X) == cmp.Compare(c.X, d.X) && cmp.Compare(a.Y, b.Y) == cmp.Compare(c.Y, d.Y)
}
