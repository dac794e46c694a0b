package proof

import (
	"math"
	"sort"
)

// Flat geometry in millimetres. Areas are found by cutting the plane into upright strips at every corner: within a
// strip every outline is a stack of trapezoids, whose area is width times height in the middle.

type pt struct{ x, y float64 }

type poly []pt

// Tolerances: lengths come as whole nanometres, slants are rounded to one.
const (
	epsLength = 2e-5 // mm
	epsArea   = 1.0  // mm²; a nanometre along ten metres of edge is 0.01 mm²
)

func (p poly) bounds() (x0, y0, x1, y1 float64) {
	x0, y0, x1, y1 = math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, q := range p {
		x0, y0, x1, y1 = math.Min(x0, q.x), math.Min(y0, q.y), math.Max(x1, q.x), math.Max(y1, q.y)
	}
	return
}

// area by the trapezoid sum; negative for clockwise.
func (p poly) area() (sum float64) {
	for i, a := range p {
		b := p[(i+1)%len(p)]
		sum += (a.x*b.y - a.y*b.x) / 2
	}
	return sum
}

func (p poly) swapped() poly {
	q := make(poly, len(p))
	for i, a := range p {
		q[len(p)-1-i] = pt{a.y, a.x}
	}
	return q
}

type span struct{ lo, hi float64 }

// at lists the stretches of the upright line at x inside the outline (even-odd).
func (p poly) at(x float64) []span {
	var ys []float64
	for i, a := range p {
		b := p[(i+1)%len(p)]
		if (a.x <= x) != (b.x <= x) {
			ys = append(ys, a.y+(x-a.x)*(b.y-a.y)/(b.x-a.x))
		}
	}
	sort.Float64s(ys)
	var s []span
	for i := 0; i+1 < len(ys); i += 2 {
		s = append(s, span{ys[i], ys[i+1]})
	}
	return s
}

func union(spans []span) []span {
	sort.Slice(spans, func(i, j int) bool { return spans[i].lo < spans[j].lo })
	var u []span
	for _, s := range spans {
		if n := len(u); n > 0 && s.lo <= u[n-1].hi {
			u[n-1].hi = math.Max(u[n-1].hi, s.hi)
		} else {
			u = append(u, s)
		}
	}
	return u
}

func minus(a, b []span) []span {
	var r []span
	for _, s := range a {
		for _, t := range b {
			if t.hi <= s.lo || t.lo >= s.hi {
				continue
			}
			if t.lo > s.lo {
				r = append(r, span{s.lo, t.lo})
			}
			s.lo = t.hi
			if s.lo >= s.hi {
				break
			}
		}
		if s.lo < s.hi {
			r = append(r, s)
		}
	}
	return r
}

func size(s []span) (sum float64) {
	for _, v := range s {
		sum += v.hi - v.lo
	}
	return sum
}

// strips calls f for every strip between neighbouring corners of the outlines.
func strips(f func(x, width float64), sets ...[]poly) {
	var xs []float64
	for _, set := range sets {
		for _, p := range set {
			for _, q := range p {
				xs = append(xs, q.x)
			}
		}
	}
	sort.Float64s(xs)
	for i := 1; i < len(xs); i++ {
		if w := xs[i] - xs[i-1]; w > 1e-7 {
			f((xs[i]+xs[i-1])/2, w)
		}
	}
}

func cross(set []poly, x float64) []span {
	var s []span
	for _, p := range set {
		if x0, _, x1, _ := p.bounds(); x0 < x && x < x1 {
			s = append(s, p.at(x)...)
		}
	}
	return s
}

// areaOutside is the area of the union of a that lies outside the union of b.
func areaOutside(a, b []poly) (sum float64) {
	strips(func(x, w float64) { sum += w * size(minus(union(cross(a, x)), union(cross(b, x)))) }, a, b)
	return sum
}

// areaCommon is the area that the unions of a and b share.
func areaCommon(a, b []poly) (sum float64) {
	strips(func(x, w float64) {
		u := union(cross(a, x))
		sum += w * (size(u) - size(minus(u, union(cross(b, x)))))
	}, a, b)
	return sum
}

// areaTwice is the area that lies in more than one of the outlines, counted for every outline after the first.
func areaTwice(a []poly) (sum float64) {
	strips(func(x, w float64) {
		s := cross(a, x)
		all := size(s)
		sum += w * (all - size(union(s)))
	}, a)
	return sum
}

// grown is the outline as trapezoids, each larger by g on every side, and by down more below where that reaches no
// further than the foot of the outlines in over.
func (p poly) grown(g, down float64, over []poly) []poly {
	var out []poly
	strips(func(x, w float64) {
		l, r := x-w/2, x+w/2
		left, mid, right := p.at(l+w*1e-6), p.at(x), p.at(r-w*1e-6)
		if len(left) != len(mid) || len(right) != len(mid) {
			return
		}
		for i := range mid {
			slopeLo, slopeHi := (right[i].lo-left[i].lo)/w, (right[i].hi-left[i].hi)/w
			foot := 0.0
			if under := union(cross(over, x)); down > 0 && len(under) > 0 && mid[i].lo <= under[0].lo+down+g {
				foot = down
			}
			lo := func(at float64) float64 { return mid[i].lo + (at-x)*slopeLo - g - foot }
			hi := func(at float64) float64 { return mid[i].hi + (at-x)*slopeHi + g }
			out = append(out, poly{{l - g, lo(l - g)}, {r + g, lo(r + g)}, {r + g, hi(r + g)}, {l - g, hi(l - g)}})
		}
	}, []poly{p})
	return out
}

// rect is an upright rectangle.
func rect(x, y, w, h float64) poly { return poly{{x, y}, {x + w, y}, {x + w, y + h}, {x, y + h}} }
