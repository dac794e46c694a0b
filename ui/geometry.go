package ui

import (
	"math"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/shape"
	"seamwright/scene/draft"
)

// counterclockwise says whether the corners run so, seen from above.
func counterclockwise(corners []shape.Point) bool {
	twice := 0.0
	for i, a := range corners {
		b := corners[(i+1)%len(corners)]
		twice += a.X.Metres()*b.Y.Metres() - b.X.Metres()*a.Y.Metres()
	}
	return twice > 0
}

// sideEnds is the left and right end of a side (1-based) as seen from inside the room.
func sideEnds(r *job.Room, side int) (left, right shape.Point) {
	n := len(r.Corners)
	a, b := r.Corners[(side-1)%n], r.Corners[side%n]
	if counterclockwise(r.Corners) {
		return b, a
	}
	return a, b
}

// alongWall is how far from its left end a point of the floor lies along a wall.
func alongWall(r *job.Room, w *job.Wall, p shape.Point) length.Length {
	left, right := sideEnds(r, w.Side)
	dx, dy := (right.X - left.X).Metres(), (right.Y - left.Y).Metres()
	long := math.Hypot(dx, dy)
	if long == 0 {
		return 0
	}
	return length.FromMM(((p.X-left.X).Metres()*dx + (p.Y-left.Y).Metres()*dy) / long * 1000)
}

// sideLength is the length of a side (1-based), rounded to the nanometre.
func sideLength(r *job.Room, side int) length.Length {
	left, right := sideEnds(r, side)
	return distance(left, right)
}

func distance(a, b shape.Point) length.Length {
	if a.X == b.X {
		return (b.Y - a.Y).Abs()
	}
	if a.Y == b.Y {
		return (b.X - a.X).Abs()
	}
	return length.FromMM(math.Hypot((b.X - a.X).MM(), (b.Y - a.Y).MM()))
}

// steps are the grids that the hand snaps to, finest first.
var (
	imperialSteps = []length.Length{length.Inch / 4, length.Inch, 3 * length.Inch, 6 * length.Inch, length.Foot, 4 * length.Foot}
	metricSteps   = []length.Length{5 * length.Millimetre, 10 * length.Millimetre, 50 * length.Millimetre, 100 * length.Millimetre, 500 * length.Millimetre, length.Metre}
)

// snapStep is the finest grid whose lines lie at least so many pixels apart.
func snapStep(imperial bool, v draft.View, pixels float64) length.Length {
	steps := metricSteps
	if imperial {
		steps = imperialSteps
	}
	for _, s := range steps {
		if v.Px(s) >= pixels {
			return s
		}
	}
	return steps[len(steps)-1]
}

// nearest rounds a length to the step.
func nearest(l, step length.Length) length.Length {
	half := step / 2
	if l < 0 {
		half = -half
	}
	return (l + half) / step * step
}

// segmentsCross says whether two segments share a point other than a common end.
func segmentsCross(a, b, c, d shape.Point) bool {
	side := func(p, q, r shape.Point) float64 {
		v := (q.X-p.X).Metres()*(r.Y-p.Y).Metres() - (q.Y-p.Y).Metres()*(r.X-p.X).Metres()
		if math.Abs(v) < 1e-12 { // square metres: a part of a millimetre over any wall
			return 0
		}
		return v
	}
	if a == c || a == d || b == c || b == d {
		return false
	}
	s1, s2, s3, s4 := side(a, b, c), side(a, b, d), side(c, d, a), side(c, d, b)
	if s1 == 0 && s2 == 0 { // on one line: they cross where their boxes overlap
		return min(a.X, b.X) <= max(c.X, d.X) && min(c.X, d.X) <= max(a.X, b.X) &&
			min(a.Y, b.Y) <= max(c.Y, d.Y) && min(c.Y, d.Y) <= max(a.Y, b.Y)
	}
	return s1*s2 <= 0 && s3*s4 <= 0
}
