package survey

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamwright/calc/length"
)

// end is the square end of a board in the section of a corner, as its four corners in the plane: the corner of the
// framing is the origin, the first wall runs along +x with the room above it, the second at the angle phi.
func section(phi float64, second bool, setback, back, front, long float64) [4][2]float64 {
	place := func(s, d float64) [2]float64 {
		if !second {
			return [2]float64{s, d}
		}
		// along (cos φ, sin φ), into the room (sin φ, -cos φ)
		return [2]float64{s*math.Cos(phi) + d*math.Sin(phi), s*math.Sin(phi) - d*math.Cos(phi)}
	}
	return [4][2]float64{place(setback, back), place(long, back), place(long, front), place(setback, front)}
}

// depthOfOverlap is how far two convex outlines overlap: the least over all edge normals of the overlap of their
// projections (separating axis theorem); not positive when they are apart.
func depthOfOverlap(a, b [4][2]float64) float64 {
	least := math.Inf(1)
	for _, q := range [][4][2]float64{a, b} {
		for i := range q {
			nx, ny := q[(i+1)%4][1]-q[i][1], q[i][0]-q[(i+1)%4][0]
			n := math.Hypot(nx, ny)
			span := func(p [4][2]float64) (lo, hi float64) {
				lo, hi = math.Inf(1), math.Inf(-1)
				for _, v := range p {
					d := (v[0]*nx + v[1]*ny) / n
					lo, hi = math.Min(lo, d), math.Max(hi, d)
				}
				return lo, hi
			}
			l0, h0 := span(a)
			l1, h1 := span(b)
			least = math.Min(least, math.Min(h0, h1)-math.Max(l0, l1))
		}
	}
	return least
}

// Boards of any thicknesses in up to two layers on either wall: at any angle no two of them overlap.
func TestBoardsMeetWithoutOverlap(t *testing.T) {
	const rounding = 3.0 // nanometres
	rapid.Check(t, func(t *rapid.T) {
		degrees := rapid.Float64Range(20, 340).Draw(t, "degrees")
		if math.Abs(degrees-180) < 1 {
			degrees = 90
		}
		phi := degrees * math.Pi / 180
		m := meeting{bend: bendOf(math.Cos(phi), math.Sin(phi)), first: rapid.IntRange(0, 1).Draw(t, "first")}
		for w := range m.stacks {
			for range rapid.IntRange(1, 2).Draw(t, "layers") {
				m.stacks[w] = append(m.stacks[w], length.Sixtyfourths(rapid.Int64Range(16, 48).Draw(t, "t")))
			}
		}
		long := 1e10
		board := func(w, k int) [4][2]float64 {
			s := m.stacks[w]
			return section(phi, w == 1, float64(m.setback(w, k)), float64(s.depth(k)), float64(s.depth(k+1)), long)
		}
		for k := range m.stacks[0] {
			for l := range m.stacks[1] {
				require.LessOrEqual(t, depthOfOverlap(board(0, k), board(1, l)), rounding, "layers %d and %d at %v°", k, l, degrees)
			}
		}
	})
}

func TestSquareCornersAreExact(t *testing.T) {
	a, b := length.Inch/2, length.Inch*5/8
	m := meeting{bend: bendOf(0, 1), stacks: [2]stack{{a, a}, {b, b}}}
	require.Equal(t, []length.Length{0, b, a, 2 * a}, []length.Length{m.setback(0, 0), m.setback(0, 1), m.setback(1, 0), m.setback(1, 1)})
	m.bend = bendOf(0, -1)
	require.Equal(t, []length.Length{0, -b, -a, -2 * a}, []length.Length{m.setback(0, 0), m.setback(0, 1), m.setback(1, 0), m.setback(1, 1)})
	m.stacks[1] = nil
	require.Zero(t, m.setback(0, 1), "nothing on the other wall")
}

// The setbacks change smoothly with the angle through 90°, 270° and towards a straight line.
func TestSetbacksAreContinuous(t *testing.T) {
	for _, degrees := range []float64{90, 270} {
		for w := range 2 {
			var s [2]length.Length
			for i, d := range []float64{degrees - 0.01, degrees + 0.01} {
				phi := d * math.Pi / 180
				s[i] = meeting{bend: bendOf(math.Cos(phi), math.Sin(phi)), stacks: [2]stack{{length.Inch / 2}, {length.Inch / 2}}}.setback(w, 0)
			}
			require.InDelta(t, float64(s[0]), float64(s[1]), 10_000, "%v°", degrees)
		}
	}
	phi := 179.5 * math.Pi / 180
	for _, sign := range []float64{1, -1} {
		m := meeting{bend: bendOf(math.Cos(phi), sign*math.Sin(phi)), stacks: [2]stack{{length.Inch / 2}, {length.Inch / 2}}}
		require.InDelta(t, 0, float64(m.setback(1, 0)), float64(length.Millimetre))
	}
}

// At a blunt arris of 225° the board hung later ends where both faces meet, (1 - cos 45°)/sin 45° of its thickness
// past the framing's corner.
func TestBluntArris(t *testing.T) {
	phi := 225 * math.Pi / 180
	m := meeting{bend: bendOf(math.Cos(phi), math.Sin(phi)), stacks: [2]stack{{length.Inch / 2}, {length.Inch / 2}}}
	require.InDelta(t, -12.7*(1-math.Sqrt2/2)*math.Sqrt2, m.setback(1, 0).MM(), 1e-5)
	require.InDelta(t, 12.7*(1-math.Sqrt2/2)*math.Sqrt2*math.Sqrt2/2, m.setback(0, 0).MM(), 1e-5)
}
