// Package mesh cuts flat outlines with holes into convex pieces of three or four corners.
//
// Holes are first joined to the outline by bridges, from the rightmost hole to the left, each to the nearest corner
// that it sees; the simple polygon is then cut by ear clipping (G. Meisters 1975; hole bridging as in D. Eberly,
// Triangulation by Ear Clipping, 2002). Neighbouring triangles are joined to quadrilaterals where those are convex.
// No corner is added, so pieces meet along whole edges and no crack can open between them. O(n²) for n corners.
package mesh

import (
	"math"
	"sort"

	"github.com/go-gl/mathgl/mgl64"
)

// Point is a place on the plane.
type Point = mgl64.Vec2

// Piece is a convex polygon of 3 or 4 corners, counter-clockwise, as indices into the points of Cut.
type Piece struct {
	Corner [4]int
	N      int
}

// flatness is the least doubled area of a triangle, m², that counts as an ear with an inside: thinner ones are only
// clipped when nothing else is left.
const flatness = 1e-12

// Cut triangulates an outline with holes and joins triangles to convex quadrilaterals. Either may run in either
// direction. The pieces index the returned points.
func Cut(outline []Point, holes ...[]Point) ([]Point, []Piece) {
	points, ring := bridge(outline, holes)
	return points, join(points, clip(points, ring))
}

// Area is the signed area of a polygon, positive counter-clockwise.
func Area(p []Point) float64 {
	a := 0.0
	for i, v := range p {
		w := p[(i+1)%len(p)]
		a += v[0]*w[1] - w[0]*v[1]
	}
	return a / 2
}

// turn is twice the signed area of the triangle a, b, c: positive where the path turns left.
func turn(a, b, c Point) float64 {
	return (b[0]-a[0])*(c[1]-a[1]) - (b[1]-a[1])*(c[0]-a[0])
}

// bridge joins all holes to the outline and gives the points and the simple ring through them.
func bridge(outline []Point, holes [][]Point) ([]Point, []int) {
	points := append([]Point(nil), outline...)
	ring := make([]int, len(outline))
	for i := range ring {
		ring[i] = i
	}
	if Area(outline) < 0 {
		reverse(ring)
	}
	var inner [][]int
	for _, h := range holes {
		if len(h) < 3 {
			continue
		}
		r := make([]int, len(h))
		for i := range h {
			r[i] = len(points) + i
		}
		points = append(points, h...)
		if Area(h) > 0 {
			reverse(r)
		}
		// Start at the rightmost corner.
		k := 0
		for i := range r {
			if points[r[i]][0] > points[r[k]][0] {
				k = i
			}
		}
		inner = append(inner, append(append([]int(nil), r[k:]...), r[:k]...))
	}
	sort.SliceStable(inner, func(i, j int) bool { return points[inner[i][0]][0] > points[inner[j][0]][0] })
	for i, h := range inner {
		ring = splice(points, ring, h, inner[i+1:])
	}
	return points, ring
}

// splice joins one hole into the ring by the shortest bridge from its rightmost corner that crosses no edge.
func splice(points []Point, ring, hole []int, others [][]int) []int {
	from := points[hole[0]]
	order := make([]int, len(ring))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(a, b int) bool {
		return points[ring[order[a]]].Sub(from).LenSqr() < points[ring[order[b]]].Sub(from).LenSqr()
	})
	best := order[0]
	for _, i := range order {
		to := points[ring[i]]
		if !inCone(points, ring, i, from) || crosses(points, ring, from, to) || crosses(points, hole, from, to) {
			continue
		}
		free := true
		for _, o := range others {
			free = free && !crosses(points, o, from, to)
		}
		if free {
			best = i
			break
		}
	}
	joined := append([]int(nil), ring[:best+1]...)
	joined = append(joined, hole...)
	joined = append(joined, hole[0], ring[best])
	return append(joined, ring[best+1:]...)
}

// inCone reports whether the direction from corner i of the ring to q goes into the polygon there.
func inCone(points []Point, ring []int, i int, q Point) bool {
	n := len(ring)
	a, p, b := points[ring[(i+n-1)%n]], points[ring[i]], points[ring[(i+1)%n]]
	if turn(a, p, b) >= 0 {
		return turn(a, p, q) >= 0 && turn(p, b, q) >= 0
	}
	return turn(a, p, q) >= 0 || turn(p, b, q) >= 0
}

// crosses reports whether the segment a-b passes through an edge of the ring, or through a corner that is not its
// own end.
func crosses(points []Point, ring []int, a, b Point) bool {
	for i := range ring {
		p, q := points[ring[i]], points[ring[(i+1)%len(ring)]]
		if p == a || p == b || q == a || q == b {
			continue
		}
		d1, d2 := turn(a, b, p), turn(a, b, q)
		d3, d4 := turn(p, q, a), turn(p, q, b)
		if d1*d2 <= 0 && d3*d4 <= 0 && !(d1 == 0 && d2 == 0 && d3 == 0 && d4 == 0) {
			return true
		}
	}
	return false
}

// clip cuts ears off the ring until a triangle is left.
func clip(points []Point, ring []int) [][3]int {
	ring = append([]int(nil), ring...)
	var out [][3]int
	for len(ring) > 3 {
		n := len(ring)
		best, bestFlat := -1, -1
		quality := -1.0
		for i := range ring {
			a, b, c := ring[(i+n-1)%n], ring[i], ring[(i+1)%n]
			area := turn(points[a], points[b], points[c])
			if area <= flatness {
				if math.Abs(area) <= flatness {
					bestFlat = i
				}
				continue
			}
			if !ear(points, ring, a, b, c) {
				continue
			}
			// The ear with the roundest triangle keeps slivers away.
			la, lb, lc := points[a].Sub(points[b]).LenSqr(), points[b].Sub(points[c]).LenSqr(), points[c].Sub(points[a]).LenSqr()
			if q := area / (la + lb + lc); q > quality {
				best, quality = i, q
			}
		}
		if best < 0 {
			if bestFlat < 0 {
				break // not a simple polygon: what has been cut stands
			}
			ring = append(ring[:bestFlat], ring[bestFlat+1:]...)
			continue
		}
		out = append(out, [3]int{ring[(best+n-1)%n], ring[best], ring[(best+1)%n]})
		ring = append(ring[:best], ring[best+1:]...)
	}
	if len(ring) == 3 && turn(points[ring[0]], points[ring[1]], points[ring[2]]) > flatness {
		out = append(out, [3]int{ring[0], ring[1], ring[2]})
	}
	return out
}

// ear reports whether no other corner of the ring lies in the triangle a, b, c.
func ear(points []Point, ring []int, a, b, c int) bool {
	pa, pb, pc := points[a], points[b], points[c]
	for _, i := range ring {
		p := points[i]
		if p == pa || p == pb || p == pc {
			continue
		}
		if turn(pa, pb, p) >= 0 && turn(pb, pc, p) >= 0 && turn(pc, pa, p) >= 0 {
			return false
		}
	}
	return true
}

// join merges pairs of triangles that share an edge into convex quadrilaterals, first come first served.
func join(points []Point, triangles [][3]int) []Piece {
	type edge struct{ a, b int }
	owner := make(map[edge]int, 3*len(triangles))
	for i, t := range triangles {
		for k := range 3 {
			owner[edge{t[k], t[(k+1)%3]}] = i
		}
	}
	used := make([]bool, len(triangles))
	var out []Piece
	for i, t := range triangles {
		if used[i] {
			continue
		}
		used[i] = true
		piece := Piece{Corner: [4]int{t[0], t[1], t[2]}, N: 3}
		longest := -1.0
		partner := -1
		for k := range 3 {
			a, b, c := t[k], t[(k+1)%3], t[(k+2)%3]
			j, ok := owner[edge{b, a}]
			if !ok || used[j] {
				continue
			}
			d := apex(triangles[j], a, b)
			quad := [4]int{a, d, b, c}
			if l := points[a].Sub(points[b]).LenSqr(); l > longest && convex(points, quad) {
				longest, partner = l, j
				piece = Piece{Corner: quad, N: 4}
			}
		}
		if partner >= 0 {
			used[partner] = true
		}
		out = append(out, piece)
	}
	return out
}

// apex is the corner of a triangle that is neither a nor b.
func apex(t [3]int, a, b int) int {
	for _, v := range t {
		if v != a && v != b {
			return v
		}
	}
	return t[0]
}

func convex(points []Point, q [4]int) bool {
	for i := range 4 {
		if turn(points[q[i]], points[q[(i+1)%4]], points[q[(i+2)%4]]) <= flatness {
			return false
		}
	}
	return true
}

func reverse(r []int) {
	for i, j := 0, len(r)-1; i < j; i, j = i+1, j-1 {
		r[i], r[j] = r[j], r[i]
	}
}
