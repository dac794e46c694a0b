package shape_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamwright/calc/length"
	"seamwright/calc/shape"
)

const mm = length.Millimetre

// poly reads corners in millimetres.
func poly(xy ...length.Length) shape.Polygon {
	var p shape.Polygon
	for i := 0; i < len(xy); i += 2 {
		p = append(p, shape.Point{X: xy[i] * mm, Y: xy[i+1] * mm})
	}
	return p
}

func rect(x, y, w, h length.Length) shape.Rect {
	return shape.Rect{X: x * mm, Y: y * mm, W: w * mm, H: h * mm}
}

func total(pieces []shape.Polygon) (sum length.Area) {
	for _, p := range pieces {
		sum += p.Area()
	}
	return sum
}

func totalRegions(pieces []shape.Region) (sum length.Area) {
	for _, p := range pieces {
		sum += p.Area()
	}
	return sum
}

func TestAreaByHand(t *testing.T) {
	sqmm := length.Area(1_000_000)
	require.Equal(t, 12*sqmm, poly(0, 0, 4, 0, 4, 3, 0, 3).Area())
	require.Equal(t, 6*sqmm, poly(0, 0, 0, 3, 4, 0).Area(), "clockwise too")
	// Pick (1899): a lattice polygon with I inner and B boundary points has area I + B/2 - 1, here 6 + 5/2 - 1.
	require.Equal(t, 15*sqmm/2, poly(0, 0, 4, 1, 3, 3, 1, 3).Area())
	// no overflow at the largest sizes: a square of 3 km
	require.Equal(t, 9_000_000*length.SquareMetre, poly(0, 0, 3e6, 0, 3e6, 3e6, 0, 3e6).Area())
}

func TestNormal(t *testing.T) {
	want := poly(0, 0, 4, 0, 4, 3, 0, 3)
	require.Equal(t, want, poly(4, 3, 4, 0, 0, 0, 0, 3).Normal(), "turned and started at the lowest left corner")
	require.Equal(t, want, poly(2, 0, 4, 0, 4, 0, 4, 1, 4, 3, 0, 3, 0, 0).Normal(), "without points on straight sides")
	require.Equal(t, want, poly(0, 0, 4, 0, 4, 3, 4, 9, 4, 3, 0, 3).Normal(), "without a spike")
	require.Nil(t, poly(0, 0, 4, 0, 2, 0).Normal())
}

func TestContains(t *testing.T) {
	u := poly(0, 0, 9, 0, 9, 6, 6, 6, 6, 3, 3, 3, 3, 6, 0, 6)
	for _, c := range []struct {
		x, y length.Length
		want shape.Place
	}{{1, 1, shape.Inside}, {4, 4, shape.Outside}, {4, 3, shape.OnEdge}, {0, 0, shape.OnEdge}, {1, 5, shape.Inside},
		{8, 3, shape.Inside}, {-1, 3, shape.Outside}, {10, 6, shape.Outside}, {4, 6, shape.Outside}} {
		require.Equal(t, c.want, u.Contains(shape.Point{X: c.x * mm, Y: c.y * mm}), "%v", c)
	}
}

func TestSimple(t *testing.T) {
	require.True(t, poly(0, 0, 4, 0, 4, 3, 0, 3).Simple())
	require.True(t, poly(0, 0, 4, 0, 4, 3, 4, 5, 0, 3).Simple(), "a point on a straight side is no crossing")
	i, j, crosses := poly(0, 0, 4, 3, 4, 0, 0, 3).Crossing()
	require.True(t, crosses)
	require.Equal(t, [2]int{0, 2}, [2]int{i, j})
	require.False(t, poly(0, 0, 4, 0, 2, 0, 2, 3).Simple(), "folds back")
	require.False(t, poly(0, 0, 4, 0, 4, 4, 2, 0, 0, 4).Simple(), "touches a side with a corner")
	require.False(t, poly(0, 0, 4, 0, 4, 0, 0, 3).Simple(), "a side without length")
	require.False(t, poly(0, 0, 4, 0).Simple())
}

func TestCutSplitsAU(t *testing.T) {
	u := poly(0, 0, 9, 0, 9, 6, 6, 6, 6, 3, 3, 3, 3, 6, 0, 6)
	lo, hi := u.Cut(shape.AtY, 4*mm)
	require.Equal(t, []shape.Polygon{poly(0, 4, 3, 4, 3, 6, 0, 6), poly(6, 4, 9, 4, 9, 6, 6, 6)}, hi)
	require.Len(t, lo, 1)
	lo, hi = u.Cut(shape.AtY, 3*mm) // along an edge
	require.Equal(t, []shape.Polygon{poly(0, 0, 9, 0, 9, 3, 0, 3)}, lo)
	require.Len(t, hi, 2)
	lo, hi = u.Cut(shape.AtY, 6*mm) // touching only
	require.Equal(t, []shape.Polygon{u.Normal()}, lo)
	require.Empty(t, hi)
}

func TestCutRoundsOnce(t *testing.T) {
	tri := shape.Polygon{{X: 0, Y: 0}, {X: 3, Y: 0}, {X: 3, Y: 2}} // in nanometres: the slant is at 2/3 where x = 1
	lo, hi := tri.Cut(shape.AtX, 1)
	require.Contains(t, lo[0], shape.Point{X: 1, Y: 1})
	require.Contains(t, hi[0], shape.Point{X: 1, Y: 1})
}

func TestSubtract(t *testing.T) {
	wall := poly(0, 0, 20, 0, 20, 10, 10, 17, 0, 10)
	door := wall.Subtract(rect(3, 0, 3, 8))
	require.Equal(t, []shape.Region{{Outline: poly(0, 0, 3, 0, 3, 8, 6, 8, 6, 0, 20, 0, 20, 10, 10, 17, 0, 10)}}, door)
	window := wall.Subtract(rect(3, 3, 3, 3))
	require.Equal(t, []shape.Region{{Outline: wall, Holes: []shape.Polygon{poly(3, 3, 6, 3, 6, 6, 3, 6)}}}, window)
	both := wall.Subtract(rect(3, 3, 3, 3), rect(6, 4, 2, 1), rect(12, 0, 2, 30), rect(40, 40, 1, 1))
	require.Len(t, both, 2, "a slot parts the wall")
	require.Equal(t, []shape.Polygon{poly(3, 3, 6, 3, 6, 4, 8, 4, 8, 5, 6, 5, 6, 6, 3, 6)}, both[0].Holes, "neighbours join")
	require.Equal(t, 4, len(both[1].Outline))
	require.Equal(t, shape.Outside, both[0].Contains(shape.Point{X: 4 * mm, Y: 4 * mm}))
	require.Equal(t, shape.OnEdge, both[0].Contains(shape.Point{X: 3 * mm, Y: 4 * mm}))
	require.Empty(t, wall.Subtract(rect(-1, -1, 40, 40)))
	corner := poly(0, 0, 4, 0, 4, 4, 0, 4).Subtract(rect(0, 0, 2, 2), rect(2, 2, 2, 2))
	require.Len(t, corner, 2, "pieces that touch in a point are two")
}

// A strip as wide as a window leaves what is above and below it, two pieces; one that begins at its jamb has a bay.
func TestCutAlongTheSideOfAHole(t *testing.T) {
	wall := shape.Region{Outline: poly(0, 0, 20, 0, 20, 10, 0, 10), Holes: []shape.Polygon{poly(6, 3, 9, 3, 9, 6, 6, 6)}}
	require.Equal(t, []shape.Region{{Outline: poly(6, 0, 9, 0, 9, 3, 6, 3)}, {Outline: poly(6, 6, 9, 6, 9, 10, 6, 10)}}, wall.Intersect(rect(6, 0, 3, 10)))
	require.Equal(t, []shape.Region{{Outline: poly(6, 0, 20, 0, 20, 10, 6, 10, 6, 6, 9, 6, 9, 3, 6, 3)}}, wall.Intersect(rect(6, 0, 14, 10)))
	left, _ := wall.Cut(shape.AtX, 6*mm)
	require.Equal(t, []shape.Region{{Outline: poly(0, 0, 6, 0, 6, 10, 0, 10)}}, left)
	diamond := shape.Region{Outline: wall.Outline, Holes: []shape.Polygon{poly(6, 4, 8, 2, 10, 4, 8, 6)}}
	lo, hi := diamond.Cut(shape.AtX, 10*mm)
	require.Len(t, lo, 1)
	require.Len(t, lo[0].Holes, 1, "a hole that touches the line with a corner stays a hole")
	require.Equal(t, diamond.Area(), totalRegions(lo)+totalRegions(hi))
}

func TestUnionAtTJunctions(t *testing.T) {
	got := shape.Union(poly(0, 0, 4, 0, 4, 6, 0, 6), poly(4, 1, 8, 1, 8, 3, 4, 3), poly(4, 3, 8, 3, 8, 9, 4, 9))
	require.Equal(t, []shape.Region{{Outline: poly(0, 0, 4, 0, 4, 1, 8, 1, 8, 9, 4, 9, 4, 6, 0, 6)}}, got)
	ring := shape.Union(poly(0, 0, 9, 0, 9, 3, 0, 3), poly(0, 3, 3, 3, 3, 9, 0, 9), poly(6, 3, 9, 3, 9, 9, 6, 9), poly(3, 6, 6, 6, 6, 9, 3, 9))
	require.Equal(t, []shape.Region{{Outline: poly(0, 0, 9, 0, 9, 9, 0, 9), Holes: []shape.Polygon{poly(3, 3, 6, 3, 6, 6, 3, 6)}}}, ring)
	require.Len(t, shape.Union(poly(0, 0, 1, 0, 1, 1, 0, 1), poly(2, 0, 3, 0, 3, 1, 2, 1)), 2)
}

func TestSpans(t *testing.T) {
	gable := shape.Region{Outline: poly(0, 0, 20, 0, 20, 10, 10, 20, 0, 10)}
	require.Equal(t, []shape.Span{{From: 0, To: 20 * mm}}, shape.Spans(gable, 2*mm, 6*mm))
	require.Equal(t, []shape.Span{{From: 5 * mm, To: 15 * mm}}, shape.Spans(gable, 15*mm, 18*mm))
	u := poly(0, 0, 9, 0, 9, 6, 6, 6, 6, 3, 3, 3, 3, 6, 0, 6)
	require.Equal(t, []shape.Span{{To: 3 * mm}, {From: 6 * mm, To: 9 * mm}}, shape.Spans(shape.Region{Outline: u}, 4*mm, 5*mm))
	require.Empty(t, shape.Spans(gable, 20*mm, 30*mm))
}

// blocky draws a polyomino outline: columns of random heights over and under a base line.
func blocky(t *rapid.T) shape.Polygon {
	n := rapid.IntRange(1, 7).Draw(t, "columns")
	var up, down shape.Polygon
	x := length.Length(0)
	for range n {
		w := length.Length(rapid.IntRange(1, 50).Draw(t, "w"))
		top := length.Length(rapid.IntRange(1, 30).Draw(t, "top"))
		bottom := -length.Length(rapid.IntRange(1, 30).Draw(t, "bottom"))
		down = append(down, shape.Point{X: x, Y: bottom}, shape.Point{X: x + w, Y: bottom})
		up = append(up, shape.Point{X: x, Y: top}, shape.Point{X: x + w, Y: top})
		x += w
	}
	p := append(down, up.Reversed()...)
	for i := range p {
		p[i].X, p[i].Y = p[i].X*length.Sixtyfourths(7), p[i].Y*length.Sixtyfourths(3)
	}
	return p.Normal()
}

// star draws a slanted outline around the origin, in general not convex.
func star(t *rapid.T) shape.Polygon {
	n := rapid.IntRange(3, 12).Draw(t, "corners")
	var p shape.Polygon
	for i := range n {
		r := float64(rapid.IntRange(200, 9000).Draw(t, "r"))
		a := 2 * math.Pi * (float64(i) + rapid.Float64Range(0, 0.8).Draw(t, "a")) / float64(n)
		p = append(p, shape.Point{X: length.FromMM(r * math.Cos(a)), Y: length.FromMM(r * math.Sin(a))})
	}
	return p.Normal()
}

func outline(t *rapid.T) (p shape.Polygon, exact bool) {
	if rapid.Bool().Draw(t, "blocky") {
		return blocky(t), true
	}
	return star(t), false
}

// rounding bounds the area by which rounding n points once can change pieces no longer than the shape's size: each
// point moves by at most half a nanometre.
func rounding(p shape.Polygon, n int) float64 {
	b := p.Bounds()
	return float64(n+1) * float64(b.W+b.H) / 1e6
}

func requireArea(t require.TestingT, exact bool, slack float64, want, got length.Area) {
	if exact {
		require.InDelta(t, float64(want), float64(got), 8, "only the rounding of each area to a square micrometre")
		return
	}
	require.InDelta(t, float64(want), float64(got), 8+slack)
}

func requireSound(t require.TestingT, pieces []shape.Polygon) {
	for _, p := range pieces {
		require.True(t, p.CounterClockwise())
		require.Equal(t, p.Normal(), p)
	}
}

func TestCutKeepsTheArea(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, exact := outline(t)
		if p == nil {
			t.Skip("flat")
		}
		b := p.Bounds()
		axis := shape.Axis(rapid.IntRange(0, 1).Draw(t, "axis"))
		at := b.X + length.Length(rapid.Int64Range(0, int64(b.W)).Draw(t, "x"))
		if axis == shape.AtY {
			at = b.Y + length.Length(rapid.Int64Range(0, int64(b.H)).Draw(t, "y"))
		}
		if i := rapid.IntRange(0, 2*len(p)).Draw(t, "corner"); i < len(p) { // through a corner
			at = p[i].X
			if axis == shape.AtY {
				at = p[i].Y
			}
		}
		lo, hi := p.Cut(axis, at)
		requireSound(t, lo)
		requireSound(t, hi)
		requireArea(t, exact, rounding(p, 2*len(p)), p.Area(), total(lo)+total(hi))
		for _, l := range lo {
			lb := l.Bounds()
			require.True(t, axis == shape.AtX && lb.MaxX() <= at || axis == shape.AtY && lb.MaxY() <= at)
		}
		for _, h := range hi {
			hb := h.Bounds()
			require.True(t, axis == shape.AtX && hb.X >= at || axis == shape.AtY && hb.Y >= at)
		}
		back := shape.Union(append(lo, hi...)...)
		requireArea(t, exact, rounding(p, 2*len(p)), p.Area(), totalRegions(back))
		if exact {
			require.Equal(t, []shape.Region{{Outline: p}}, back, "the pieces join to what was cut")
		}
	})
}

func TestSubtractAndIntersectMakeTheWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, exact := outline(t)
		if p == nil {
			t.Skip("flat")
		}
		b := p.Bounds()
		draw := func(from, size length.Length, what string) length.Length {
			return from + length.Length(rapid.Int64Range(0, int64(size)).Draw(t, what))
		}
		r := shape.Rect{X: draw(b.X, b.W, "x"), Y: draw(b.Y, b.H, "y"), W: draw(1, b.W, "w"), H: draw(1, b.H, "h")}
		in, out := p.Intersect(r), p.Subtract(r)
		requireSound(t, in)
		for _, g := range out {
			requireSound(t, append([]shape.Polygon{g.Outline}, g.Holes...))
		}
		requireArea(t, exact, rounding(p, 4*len(p)), p.Area(), total(in)+totalRegions(out))
		// a point is in exactly one of them
		q := shape.Point{X: draw(b.X, b.W, "px"), Y: draw(b.Y, b.H, "py")}
		if p.Contains(q) == shape.Inside && exact {
			inside := 0
			edge := false
			for _, i := range in {
				switch i.Contains(q) {
				case shape.Inside:
					inside++
				case shape.OnEdge:
					edge = true
				}
			}
			for _, o := range out {
				switch o.Contains(q) {
				case shape.Inside:
					inside++
				case shape.OnEdge:
					edge = true
				}
			}
			require.True(t, edge || inside == 1)
		}
	})
}

func TestInset(t *testing.T) {
	room := poly(0, 0, 240, 0, 240, 120, 120, 120, 120, 240, 0, 240)
	require.Equal(t, poly(0, 0, 240, 0, 240, 110, 115, 110, 115, 240, 0, 240), room.Inset([]length.Length{0, 0, 10 * mm, 5 * mm, 0, 0})[0:6])
	require.Equal(t, poly(-3, -3, 243, -3, 243, 123, 123, 123, 123, 243, -3, 243), room.Inset([]length.Length{-3 * mm, -3 * mm, -3 * mm, -3 * mm, -3 * mm, -3 * mm}))
	// A 3-4-5 triangle has an inscribed circle of radius 1 (twice the area over the perimeter): moved in by 0.4 it is
	// the same triangle at 0.6 of its size around the circle's centre.
	tri := poly(0, 0, 400, 0, 0, 300).Inset([]length.Length{40 * mm, 40 * mm, 40 * mm})
	require.Equal(t, poly(40, 40, 280, 40, 40, 220), tri)
}

func TestChords(t *testing.T) {
	u := shape.Region{Outline: poly(0, 0, 9, 0, 9, 6, 6, 6, 6, 3, 3, 3, 3, 6, 0, 6).Transposed().Normal()} // opens to the right
	require.Equal(t, []shape.Span{{To: 3 * mm}, {From: 6 * mm, To: 9 * mm}}, shape.Chords(u, 4*mm))
	require.Equal(t, []shape.Span{{To: 9 * mm}}, shape.Chords(u, 3*mm), "a side along the line is within")
	require.Equal(t, []shape.Span{{To: 9 * mm}}, shape.Chords(u, 0))
	require.Empty(t, shape.Chords(u, 7*mm))
	holed := shape.Region{Outline: poly(0, 0, 9, 0, 9, 9, 0, 9), Holes: []shape.Polygon{poly(3, 3, 6, 3, 6, 6, 3, 6)}}
	require.Equal(t, []shape.Span{{To: 3 * mm}, {From: 6 * mm, To: 9 * mm}}, shape.Chords(holed, 4*mm))
}

// Rectangles and lines through corners that are already there: sides fall on sides. Areas add up exactly, outlines
// and holes stay simple, and no hole runs along its outline.
func TestCoincidentCuts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := blocky(t)
		b := p.Bounds()
		corner := func(what string) shape.Point {
			q := p[rapid.IntRange(0, len(p)-1).Draw(t, what)]
			return shape.Point{X: q.X + length.Length(rapid.IntRange(-1, 1).Draw(t, "dx"))*b.W/5, Y: q.Y + length.Length(rapid.IntRange(-1, 1).Draw(t, "dy"))*b.H/5}
		}
		var rects []shape.Rect
		for range rapid.IntRange(1, 3).Draw(t, "rects") {
			u, v := corner("u"), corner("v")
			rects = append(rects, shape.Rect{X: min(u.X, v.X), Y: min(u.Y, v.Y), W: (u.X - v.X).Abs(), H: (u.Y - v.Y).Abs()})
		}
		regions := p.Subtract(rects...)
		at := rects[0].X
		if rapid.Bool().Draw(t, "far") {
			at = rects[0].MaxX()
		}
		var cut []shape.Region
		for _, g := range regions {
			lo, hi := g.Cut(shape.AtX, at)
			cut = append(append(cut, lo...), hi...)
		}
		require.InDelta(t, float64(totalRegions(regions)), float64(totalRegions(cut)), 20)
		for _, g := range append(regions, cut...) {
			require.True(t, g.Outline.Simple(), "%v", g.Outline)
			for _, h := range g.Holes {
				require.True(t, h.Simple(), "%v", h)
				for i, a := range h {
					c := h[(i+1)%len(h)]
					mid := shape.Point{X: a.X + (c.X-a.X)/2, Y: a.Y + (c.Y-a.Y)/2}
					require.Equal(t, shape.Inside, g.Outline.Contains(mid))
				}
			}
		}
		require.Equal(t, totalRegions(regions), totalRegions(shape.UnionRegions(cut...)))
	})
}
