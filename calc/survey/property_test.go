package survey_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/calc/survey"
)

// anyRoom draws an L, U, cut-off or trapezoidal room with a random ceiling, linings and duties.
func anyRoom(t *rapid.T) job.Room {
	draw := func(what string, from, to int) length.Length {
		return length.Length(rapid.IntRange(from, to).Draw(t, what))
	}
	w, d := draw("w", 120, 400), draw("d", 120, 400)
	a, b := draw("a", 40, 80), draw("b", 40, 80)
	corners := [][]length.Length{
		{0, 0, w, 0, w, d, 0, d},
		{0, 0, w, 0, w, d - b, w - a, d - b, w - a, d, 0, d},
		{0, 0, w, 0, w, d, w - 30, d, w - 30, b, 30, b, 30, d, 0, d},
		{0, 0, w, 0, w, d - b, w - a, d, 0, d},
		{0, 0, w, 0, w - a, d, a / 4, d},
	}[rapid.IntRange(0, 4).Draw(t, "form")]
	height := draw("height", 90, 130)
	r := room("r", height*in, nil, corners...)
	if rapid.Bool().Draw(t, "clockwise") {
		for i, j := 0, len(r.Corners)-1; i < j; i, j = i+1, j-1 {
			r.Corners[i], r.Corners[j] = r.Corners[j], r.Corners[i]
		}
	}
	linings := [][]job.Zone{{board(0, "gyp-12")}, {board(0, "gyp-16x", "gyp-16x")}, {board(48*in, "ply-18"), board(0, "gyp-12")},
		{board(48*in, "ply-18"), board(0, job.Open)}, nil}
	for i := range r.Walls {
		r.Walls[i].Lining = linings[rapid.IntRange(0, 4).Draw(t, "lining")]
		if rapid.IntRange(0, 3).Draw(t, "duty") == 0 {
			r.Walls[i].Duty = []job.Duty{job.Rated}
		}
	}
	c := ceiling("gyp-12")
	switch rapid.IntRange(0, 4).Draw(t, "ceiling") {
	case 0:
		c = nil
	case 1:
		c = ceiling()
	case 2:
		c.Shape, c.Along, c.At, c.High = job.Ridge, job.AxisX, d*in/2, (height+draw("rise", 1, 90))*in
	case 3:
		c.Shape, c.Along, c.At, c.High = job.Ridge, job.AxisY, w*in/3, (height+draw("rise", 1, 90))*in
	case 4:
		c.Shape, c.From, c.To, c.High = job.Slope, "east", "west", (height+draw("rise", 0, 90))*in
	}
	r.Ceiling = c
	return r
}

// lift places a point of a surface in the building, in millimetres.
func lift(f plan.Frame, p shape.Point) (q [3]float64) {
	for i := range q {
		q[i] = f.Origin[i].MM() + p.X.MM()*f.X[i] + p.Y.MM()*f.Y[i]
	}
	return q
}

func TestSurfacesCloseTheRoom(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := anyRoom(t)
		b, err := survey.Survey(house(r))
		require.NoError(t, err)
		// Every upright edge of a wall and every edge of the ceiling is met by another surface's edge: in a closed
		// shell the area vectors add up to nothing (divergence theorem). The floor adds its own.
		var sum [3]float64
		floor := shape.Polygon(r.Corners).Area().SquareMetres()
		sum[2] += floor
		for _, s := range b.Surfaces {
			for i := range sum {
				sum[i] += s.Frame.Normal[i] * s.Outline.Area().SquareMetres()
			}
		}
		if r.Ceiling == nil {
			sum[2] -= floor
		}
		for i := range sum {
			require.InDelta(t, 0, sum[i], 1e-6)
		}
		// corners: every corner of a wall's head and foot is a corner of some other surface, or of the open head
		for _, s := range b.Surfaces {
			if s.Kind != plan.Wall {
				continue
			}
			for _, p := range s.Outline {
				if p.X != 0 && p.X != s.Outline.Bounds().MaxX() {
					continue
				}
				q, met := lift(s.Frame, p), false
				for _, o := range b.Surfaces {
					for _, v := range o.Outline {
						if u := lift(o.Frame, v); o != s && math.Hypot(math.Hypot(u[0]-q[0], u[1]-q[1]), u[2]-q[2]) < 1e-5 {
							met = true
						}
					}
				}
				require.True(t, met, "%s %v", s.ID, p)
			}
		}
		for _, s := range b.Surfaces {
			requireMembersInside(t, s)
			requireZonesSound(t, s)
		}
	})
}

func requireMembersInside(t require.TestingT, s *survey.Surface) {
	for _, m := range append(s.Studs, s.Short...) {
		p, q := shape.Point{X: m.At, Y: m.From}, shape.Point{X: m.At, Y: m.To}
		if s.Members.Axis == "y" {
			p.X, p.Y, q.X, q.Y = p.Y, p.X, q.Y, q.X
		}
		mid := shape.Point{X: p.X + (q.X-p.X)/2, Y: p.Y + (q.Y-p.Y)/2}
		require.NotEqual(t, shape.Outside, s.Outline.Contains(mid), "%s %v", s.ID, m)
		require.Less(t, m.From, m.To)
	}
}

func requireZonesSound(t require.TestingT, s *survey.Surface) {
	for _, z := range s.Zones {
		require.True(t, z.Outline.Simple(), "%s", s.ID)
		require.True(t, z.Outline.CounterClockwise())
		require.Len(t, z.Edges, len(z.Outline))
		for _, e := range z.Edges {
			corner := e.Meets == survey.AtInsideCorner || e.Meets == survey.AtOutsideCorner || e.Meets == survey.AtRidge
			require.True(t, corner == (e.With != "") || e.Meets == survey.AtZone)
		}
	}
}

// A wall without steps: a layer's area is the mean of its two end heights times its width, or with a ridge the sum of
// the two parts, computed here from the setbacks and the ceiling's line alone (trapezoids).
func TestZoneAreaByTrapezoids(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := length.Length(rapid.IntRange(90, 130).Draw(t, "h"))
		rise := length.Length(rapid.IntRange(0, 96).Draw(t, "rise"))
		d := 2 * length.Length(rapid.IntRange(60, 150).Draw(t, "half"))
		r := room("r", h*in, []job.Zone{board(0, "gyp-12")}, 0, 0, 240, 0, 240, d, 0, d)
		r.Ceiling = ceiling("gyp-16x")
		r.Ceiling.Shape, r.Ceiling.Along, r.Ceiling.At, r.Ceiling.High = job.Ridge, job.AxisX, d*in/2, (h+rise)*in
		z := surveyed(t, house(r))["r/b"].Zones[0] // north end whole, south end 1/2 in less
		slope := float64(rise) / (float64(d) / 2)
		down := 0.625 * math.Sqrt(1+slope*slope)
		eave, ridge := float64(h)-down, float64(h+rise)-down
		half := float64(d) / 2
		want := (eave+ridge)/2*half + (ridge+eave+0.5*slope)/2*(half-0.5)
		require.InDelta(t, want/144, z.Outline.Area().SquareFeet(), 1e-6)
	})
}
