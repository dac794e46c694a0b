package shape

import (
	"cmp"
	"slices"

	"seamwright/calc/length"
)

// Region is an outline with holes, all of them normal outlines (counter-clockwise). Holes lie in the outline and
// touch it in single points at most.
type Region struct {
	Outline Polygon
	Holes   []Polygon
}

// Area is the outline's area less the holes', exact until one rounding at the end.
func (g Region) Area() length.Area {
	sum := wide{}
	for _, l := range g.loops() {
		sum = sum.plus(l.twiceArea())
	}
	return sum.halfArea()
}

// Bounds is the smallest upright rectangle around the region.
func (g Region) Bounds() Rect { return g.Outline.Bounds() }

// Contains tells where a point lies; the edge of a hole is an edge, its inside is outside.
func (g Region) Contains(p Point) Place {
	place := g.Outline.Contains(p)
	for _, h := range g.Holes {
		switch h.Contains(p) {
		case OnEdge:
			return OnEdge
		case Inside:
			return Outside
		}
	}
	return place
}

// Transposed swaps x and y.
func (g Region) Transposed() Region {
	t := Region{Outline: g.Outline.Transposed().Normal()}
	for _, h := range g.Holes {
		t.Holes = append(t.Holes, h.Transposed().Normal())
	}
	return t
}

// loops is the region's boundary with the interior on the left: outline counter-clockwise, holes clockwise.
func (g Region) loops() []Polygon {
	loops := []Polygon{g.Outline.Normal()}
	for _, h := range g.Holes {
		if n := h.Normal(); n != nil {
			loops = append(loops, n.Reversed())
		}
	}
	return loops
}

// Intersect is the part of the region within a rectangle.
func (g Region) Intersect(r Rect) []Region {
	return regions(band(band(g.loops(), AtX, r.X, r.MaxX()), AtY, r.Y, r.MaxY()))
}

// Band is the part of the region between two parallel lines.
func (g Region) Band(axis Axis, from, to length.Length) []Region {
	return regions(band(g.loops(), axis, from, to))
}

// Cut parts the region along a line.
func (g Region) Cut(axis Axis, at length.Length) (lo, hi []Region) {
	a, b := cutLoops(g.loops(), axis, at)
	return regions(a), regions(b)
}

// Subtract takes rectangles out of the region. Every rectangle's four lines cut the region, the middle is
// dropped and the rest joined again; points that the lines left on edges away from the rectangle are taken back,
// so that an edge the rectangle does not touch is what it was.
func (g Region) Subtract(rects ...Rect) []Region {
	loops := g.loops()
	for _, r := range rects {
		if r.W <= 0 || r.H <= 0 {
			continue
		}
		had := map[Point]bool{}
		for _, l := range loops {
			for _, p := range l {
				had[p] = true
			}
		}
		left, rest := cutLoops(loops, AtX, r.X)
		middle, right := cutLoops(rest, AtX, r.MaxX())
		below, rest := cutLoops(middle, AtY, r.Y)
		gone, above := cutLoops(rest, AtY, r.MaxY())
		if len(gone) == 0 {
			continue
		}
		outline := r.Polygon()
		loops = merged(slices.Concat(left, below, above, right))
		for i, l := range loops {
			loops[i] = l.Straightened(func(p Point) bool { return had[p] || outline.Contains(p) == OnEdge })
		}
	}
	return regions(loops)
}

// cutSlack bounds how far the rounding of cuts through one edge can push a point off that edge.
const cutSlack = 2 * length.Nanometre

// Straightened drops points that need not stay and lie on the line between their neighbours but for rounding.
func (p Polygon) Straightened(stays func(Point) bool) Polygon {
	r := make(Polygon, 0, len(p))
	for i, q := range p {
		prev := p.at(i - 1)
		if len(r) > 0 {
			prev = r[len(r)-1]
		}
		if next := p.at(i + 1); stays(q) || !nearLine(prev, next, q) {
			r = append(r, q)
		}
	}
	return r
}

// nearLine reports whether q lies within cutSlack of the line ab.
func nearLine(a, b, q Point) bool {
	w := product(b.X-a.X, q.Y-a.Y).minus(product(b.Y-a.Y, q.X-a.X))
	if w.sign() < 0 {
		w = w.negated()
	}
	return w.minus(product(cutSlack, max((b.X-a.X).Abs(), (b.Y-a.Y).Abs()))).sign() <= 0
}

// Subtract takes rectangles out of an outline.
func (p Polygon) Subtract(rects ...Rect) []Region { return Region{Outline: p}.Subtract(rects...) }

// Union joins outlines that do not overlap along the edges they share; edges may meet in part.
func Union(pieces ...Polygon) []Region {
	var loops []Polygon
	for _, p := range pieces {
		if n := p.Normal(); n != nil {
			loops = append(loops, n)
		}
	}
	return regions(merged(loops))
}

// UnionRegions joins regions that do not overlap along the edges they share.
func UnionRegions(pieces ...Region) []Region {
	var loops []Polygon
	for _, g := range pieces {
		loops = append(loops, g.loops()...)
	}
	return regions(merged(loops))
}

// regions sorts loops into outlines and the holes that lie in them, ordered from the bottom up.
func regions(loops []Polygon) []Region {
	var outlines, holes []Polygon
	for _, l := range loops {
		l = l.cleaned()
		switch l.twiceArea().sign() {
		case 1:
			outlines = append(outlines, l.Normal())
		case -1:
			holes = append(holes, l.Normal())
		}
	}
	slices.SortFunc(outlines, compare)
	slices.SortFunc(holes, compare)
	found := make([]Region, len(outlines))
	for i, o := range outlines {
		found[i].Outline = o
	}
	for _, h := range holes {
		home := -1
		for i, o := range outlines {
			if h.within(o) && (home < 0 || o.Area() < outlines[home].Area()) {
				home = i
			}
		}
		if home >= 0 {
			found[home].Holes = append(found[home].Holes, h)
		}
	}
	return found
}

// within reports whether an outline that does not cross o lies in it.
func (p Polygon) within(o Polygon) bool {
	for i, a := range p {
		b := p.at(i + 1)
		for _, q := range []Point{a, {a.X + (b.X-a.X)/2, a.Y + (b.Y-a.Y)/2}} {
			if place := o.Contains(q); place != OnEdge {
				return place == Inside
			}
		}
	}
	return o.Area() >= p.Area()
}

// Span is a stretch along an axis.
type Span struct{ From, To length.Length }

// Width is the span's length.
func (s Span) Width() length.Length { return s.To - s.From }

// Spans lists the stretches of x that a region takes up anywhere between two heights, from the left; stretches
// that touch are one. It is what a course must reach from and to.
func Spans(g Region, y0, y1 length.Length) []Span {
	var spans []Span
	for _, l := range band(g.loops(), AtY, y0, y1) {
		if b := l.Bounds(); b.W > 0 {
			spans = append(spans, Span{b.X, b.MaxX()})
		}
	}
	return joined(spans)
}

// joined sorts stretches and makes those that touch one.
func joined(spans []Span) []Span {
	slices.SortFunc(spans, func(a, b Span) int { return cmp.Or(cmp.Compare(a.From, b.From), cmp.Compare(a.To, b.To)) })
	var union []Span
	for _, s := range spans {
		if n := len(union); n > 0 && s.From <= union[n-1].To {
			union[n-1].To = max(union[n-1].To, s.To)
		} else {
			union = append(union, s)
		}
	}
	return union
}

// Chords lists the stretches of the upright line at x that lie in a region or on its edge, from the bottom up. Ends
// on slanted edges are rounded once; a side along the line counts as within.
func Chords(g Region, x length.Length) []Span {
	var spans []Span
	lo, hi := cutLoops(g.loops(), AtX, x)
	for _, loops := range [][]Polygon{lo, hi} {
		for _, l := range loops {
			for i, a := range l {
				if b := l.at(i + 1); a.X == x && b.X == x && a.Y != b.Y {
					spans = append(spans, Span{min(a.Y, b.Y), max(a.Y, b.Y)})
				}
			}
		}
	}
	return joined(spans)
}
