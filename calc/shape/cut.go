package shape

import (
	"cmp"
	"slices"

	"seamwright/calc/length"
)

// Axis names the coordinate that a cutting line fixes.
type Axis int

// AtX cuts along an upright line x = at; AtY along a level line y = at.
const (
	AtX Axis = iota
	AtY
)

// Cut parts an outline along a line: the pieces on its low side (left or below) and on its high side. Pieces are
// normal outlines, ordered from the bottom up; their points on the line are the same on either side.
func (p Polygon) Cut(axis Axis, at length.Length) (lo, hi []Polygon) {
	a, b := cutLoops([]Polygon{p.Normal()}, axis, at)
	return sorted(a), sorted(b)
}

// Band is the part of the outline between two parallel lines.
func (p Polygon) Band(axis Axis, from, to length.Length) []Polygon {
	return sorted(band([]Polygon{p.Normal()}, axis, from, to))
}

// Intersect is the part of the outline within a rectangle.
func (p Polygon) Intersect(r Rect) []Polygon {
	return sorted(band(band([]Polygon{p.Normal()}, AtX, r.X, r.MaxX()), AtY, r.Y, r.MaxY()))
}

func band(loops []Polygon, axis Axis, from, to length.Length) []Polygon {
	if to <= from {
		return nil
	}
	if axis == AtY {
		return mapLoops(band(mapLoops(loops, Polygon.Transposed), AtX, from, to), Polygon.Transposed)
	}
	return leftOf(rightOf(loops, from), to)
}

// sorted makes every piece a normal outline and orders the pieces.
func sorted(loops []Polygon) []Polygon {
	var s []Polygon
	for _, l := range loops {
		if n := l.Normal(); n != nil {
			s = append(s, n)
		}
	}
	slices.SortFunc(s, compare)
	return s
}

// compare orders normal outlines from the bottom up, then from the left, then by their further corners.
func compare(a, b Polygon) int {
	for i := 0; i < len(a) && i < len(b); i++ {
		if c := cmp.Or(cmp.Compare(a[i].Y, b[i].Y), cmp.Compare(a[i].X, b[i].X)); c != 0 {
			return c
		}
	}
	return cmp.Compare(len(a), len(b))
}

// cutLoops parts a set of loops whose interior lies to the left of every edge (outlines counter-clockwise, holes
// clockwise) along a line. All four half-planes are one case, turned and mirrored.
func cutLoops(loops []Polygon, axis Axis, at length.Length) (lo, hi []Polygon) {
	if axis == AtY {
		a, b := cutLoops(mapLoops(loops, Polygon.Transposed), AtX, at)
		return mapLoops(a, Polygon.Transposed), mapLoops(b, Polygon.Transposed)
	}
	return leftOf(loops, at), rightOf(loops, at)
}

// rightOf keeps what lies on the side x ≥ at.
func rightOf(loops []Polygon, at length.Length) []Polygon {
	crossed := func(l Polygon) bool {
		x := l.Bounds().X
		return x < at || x == at && l.twiceArea().sign() < 0
	}
	if !slices.ContainsFunc(loops, crossed) {
		return loops
	}
	return mapLoops(leftOf(mapLoops(loops, Polygon.mirrored), -at), Polygon.mirrored)
}

// mirrored turns x round and keeps the winding.
func (p Polygon) mirrored() Polygon {
	r := make(Polygon, len(p))
	for i, q := range p {
		r[len(p)-1-i] = Point{-q.X, q.Y}
	}
	return r
}

func mapLoops(loops []Polygon, f func(Polygon) Polygon) []Polygon {
	r := make([]Polygon, len(loops))
	for i, l := range loops {
		r[i] = f(l)
	}
	return r
}

// end is where a chain of edges on the left of the cutting line begins (enters) or stops on that line; next is
// the chain's neighbouring corner, which orders ends at one place.
type end struct {
	chain   int
	enters  bool
	on, off Point
}

// leftOf keeps what lies on the side x ≤ at. Every loop falls into chains of edges on that side, which begin and
// stop on the line. The interior lies left of every edge, so on the line it lies between a chain that stops and
// the next one up that begins: these two are joined, and closed chains are the loops of the answer.
func leftOf(loops []Polygon, at length.Length) []Polygon {
	var whole, chains []Polygon
	for _, l := range loops {
		kept, parts := leftChains(l, at)
		if kept {
			whole = append(whole, l)
		}
		chains = append(chains, parts...)
	}
	if len(chains) == 0 {
		return whole
	}
	ends := make([]end, 0, 2*len(chains))
	for i, c := range chains {
		ends = append(ends, end{i, true, c[0], c[1]}, end{i, false, c[len(c)-1], c[len(c)-2]})
	}
	slices.SortFunc(ends, func(a, b end) int {
		if c := cmp.Compare(a.on.Y, b.on.Y); c != 0 {
			return c
		}
		// seen from the line towards the left, the lower chain comes first
		if c := Turn(a.on, a.off, b.off); c != 0 || a.enters == b.enters {
			return cmp.Or(c, cmp.Compare(a.chain, b.chain))
		}
		if b.enters {
			return -1
		}
		return 1
	})
	follows := make([]int, len(chains)) // chain that is joined to the end of each chain
	open := -1
	for _, e := range ends {
		switch {
		case !e.enters:
			open = e.chain
		case open >= 0:
			follows[open], open = e.chain+1, -1
		}
	}
	seen := make([]bool, len(chains))
	for i := range chains {
		var loop Polygon
		for c := i; !seen[c]; c = follows[c] - 1 {
			seen[c] = true
			if loop == nil {
				loop = chains[c]
			} else {
				loop = append(loop, chains[c]...)
			}
			if follows[c] == 0 { // an end without a partner: a sliver thinner than the rounding
				loop = nil
				break
			}
		}
		for _, l := range loop.parted() {
			if l = l.cleaned(); len(l) >= 3 {
				whole = append(whole, l)
			}
		}
	}
	return whole
}

// leftChains lists the runs of edges of one loop on the left of the line; kept: the loop lies there as a whole.
func leftChains(l Polygon, at length.Length) (kept bool, chains []Polygon) {
	bounds := l.Bounds()
	if len(l) == 0 || bounds.X >= at {
		return false, nil
	}
	if bounds.MaxX() < at || bounds.MaxX() == at && !(l.along(at) && l.twiceArea().sign() < 0) {
		return true, nil // a hole with a side on the line is no hole any more but a bay in the outline
	}
	start := 0 // a corner on the line or beyond: a chain is never open there
	for l[start].X < at {
		start++
	}
	var chain Polygon
	for k := range l {
		a, b := l.at(start+k), l.at(start+k+1)
		switch {
		case a.X < at && b.X < at:
			chain = append(chain, b)
		case a.X < at: // arrives at the line or crosses it
			chain = append(chain, Point{at, crossing(a, b, at)})
			chains = append(chains, chain)
			chain = nil
		case b.X < at: // leaves the line to the left
			chain = append(make(Polygon, 0, len(l)+2), Point{at, crossing(a, b, at)}, b)
		}
	}
	return false, chains
}

// along reports whether a loop has a side on the line.
func (p Polygon) along(at length.Length) bool {
	for i, a := range p {
		if a.X == at && p.at(i+1).X == at {
			return true
		}
	}
	return false
}

// crossing is yAt for a segment that ends on the line or crosses it.
func crossing(a, b Point, at length.Length) length.Length {
	switch {
	case a.X == at:
		return a.Y
	case b.X == at:
		return b.Y
	}
	return yAt(a, b, at)
}
