package mesh

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// areas adds up the pieces and demands that each is convex and counter-clockwise.
func areas(t require.TestingT, points []Point, pieces []Piece) float64 {
	sum := 0.0
	for _, p := range pieces {
		ring := make([]Point, p.N)
		for i := range ring {
			ring[i] = points[p.Corner[i]]
		}
		for i := range ring {
			require.Greater(t, turn(ring[i], ring[(i+1)%p.N], ring[(i+2)%p.N]), 0.0)
		}
		sum += Area(ring)
	}
	return sum
}

func TestCutKnownShapes(t *testing.T) {
	square := []Point{{0, 0}, {4, 0}, {4, 3}, {0, 3}}
	ell := []Point{{0, 0}, {4, 0}, {4, 1}, {1, 1}, {1, 3}, {0, 3}}
	hole := []Point{{1, 1}, {2, 1}, {2, 2}, {1, 2}}
	for _, c := range []struct {
		name    string
		outline []Point
		holes   [][]Point
		area    float64
	}{
		{"rectangle", square, nil, 12},
		{"clockwise", []Point{{0, 3}, {4, 3}, {4, 0}, {0, 0}}, nil, 12},
		{"ell", ell, nil, 6},
		{"window", square, [][]Point{hole}, 11},
		{"two windows level", square, [][]Point{hole, {{2.5, 1}, {3.5, 1}, {3.5, 2}, {2.5, 2}}}, 10},
		{"corners in line", []Point{{0, 0}, {2, 0}, {4, 0}, {4, 3}, {0, 3}}, nil, 12},
	} {
		points, pieces := Cut(c.outline, c.holes...)
		require.InDelta(t, c.area, areas(t, points, pieces), 1e-9, c.name)
	}
	_, pieces := Cut(square)
	require.Len(t, pieces, 1, "a rectangle stays whole")
}

// Any star-shaped outline with rectangular holes: the pieces' areas sum to the outline's less the holes'.
func TestCutAreasSum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 14).Draw(t, "corners")
		var outline []Point
		for i := range n {
			r := rapid.Float64Range(3, 9).Draw(t, "radius")
			s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			outline = append(outline, Point{r * c, r * s})
		}
		want := Area(outline)
		var holes [][]Point
		if n >= 5 {
			// Inside radius 3·cos(π/n) every star is whole; four places there for holes.
			for k := range rapid.IntRange(0, 4).Draw(t, "holes") {
				x, y := []float64{-1, 0.1, -1, 0.1}[k], []float64{-1, -1, 0.1, 0.1}[k]
				w, h := rapid.Float64Range(0.1, 0.8).Draw(t, "w"), rapid.Float64Range(0.1, 0.8).Draw(t, "h")
				holes = append(holes, []Point{{x, y}, {x + w, y}, {x + w, y + h}, {x, y + h}})
				want -= w * h
			}
		}
		points, pieces := Cut(outline, holes...)
		require.InDelta(t, want, areas(t, points, pieces), 1e-6)
	})
}
