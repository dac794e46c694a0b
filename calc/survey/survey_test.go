package survey_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/calc/survey"
)

const (
	in = length.Inch
	ft = length.Foot
	mm = length.Millimetre
)

// board is a lining of the products named, to the height given (0: to the head).
func board(to length.Length, layers ...string) job.Zone {
	runs := make([]job.Run, len(layers))
	for i := range runs {
		runs[i] = job.RunAuto
	}
	return job.Zone{To: to, Layers: layers, Runs: runs}
}

var studs = job.Framing{Material: job.Wood, Spacing: 16 * in, Member: in * 3 / 2, Depth: in * 7 / 2, Along: job.AxisY}

// points reads plan corners or wall places in inches.
func points(xy ...length.Length) (p []shape.Point) {
	for i := 0; i < len(xy); i += 2 {
		p = append(p, shape.Point{X: xy[i] * in, Y: xy[i+1] * in})
	}
	return p
}

// room has walls named a, b, c … by side, each lined as given.
func room(id string, height length.Length, lining []job.Zone, corners ...length.Length) job.Room {
	r := job.Room{ID: id, Height: height, Corners: points(corners...)}
	for i := range r.Corners {
		r.Walls = append(r.Walls, job.Wall{ID: string(rune('a' + i)), Side: i + 1, Framing: studs, Lining: lining})
	}
	return r
}

func ceiling(layers ...string) *job.Ceiling {
	c := &job.Ceiling{Shape: job.Flat, Framing: studs}
	if len(layers) > 0 {
		c.Lining = []job.Zone{board(0, layers...)}
	}
	return c
}

func house(rooms ...job.Room) *job.Job {
	sizes := []job.Size{{Length: 8 * ft, Width: 4 * ft, Price: 1500}}
	return &job.Job{Rooms: rooms, Site: job.Site{People: 2}, Rules: job.Rules{FloorGap: in / 2, Fit: in / 8}, Products: []job.Product{
		{ID: "gyp-12", Kind: job.Gypsum, Thickness: in / 2, Tapered: true, Sizes: sizes},
		{ID: "gyp-16x", Kind: job.Gypsum, Thickness: in * 5 / 8, Tapered: true, Sizes: sizes},
		{ID: "osb-11", Kind: job.WoodPanel, Thickness: in * 7 / 16, Sizes: sizes},
		{ID: "ply-18", Kind: job.WoodPanel, Thickness: in * 23 / 32, Sizes: sizes},
	}}
}

func surveyed(t require.TestingT, j *job.Job) map[string]*survey.Surface {
	b, err := survey.Survey(j)
	require.NoError(t, err)
	m := map[string]*survey.Surface{}
	for _, s := range b.Surfaces {
		m[s.ID] = s
	}
	return m
}

func box(x0, y0, x1, y1 length.Length) shape.Polygon {
	return shape.Rect{X: x0, Y: y0, W: x1 - x0, H: y1 - y0}.Polygon()
}

func meets(z *survey.Zone) (m []survey.Meets) {
	for _, e := range z.Edges {
		m = append(m, e.Meets)
	}
	return m
}

func TestRectangularRoom(t *testing.T) {
	for name, corners := range map[string][]length.Length{
		"counter-clockwise": {0, 0, 288, 0, 288, 192, 0, 192},
		"clockwise":         {288, 0, 0, 0, 0, 192, 288, 192},
	} {
		r := room("studio", 10*ft, []job.Zone{board(0, "gyp-12")}, corners...)
		r.Ceiling = ceiling("gyp-16x")
		s := surveyed(t, house(r))
		a := s["studio/a"] // the south side in both
		require.Equal(t, box(0, 0, 24*ft, 10*ft), a.Outline, name)
		require.Equal(t, [3]length.Length{24 * ft, 0, 0}, a.Frame.Origin, "its left end from inside is the east one")
		require.Equal(t, [3]float64{-1, 0, 0}, a.Frame.X)
		require.Equal(t, [3]float64{0, 1, 0}, a.Frame.Normal)
		// ceilings hang first: 5/8 in off the height; a hangs before b, so b and d lose 1/2 in at a's ends
		top := 10*ft - in*5/8
		require.Equal(t, box(0, 0, 24*ft, top), a.Zones[0].Outline)
		require.Equal(t, []survey.Meets{survey.AtFloor, survey.AtInsideCorner, survey.AtCeiling, survey.AtInsideCorner}, meets(a.Zones[0]))
		if name == "counter-clockwise" {
			require.Equal(t, box(0, 0, 16*ft-in/2, top), s["studio/b"].Zones[0].Outline, "b's right end is at a")
			require.Equal(t, box(0, 0, 24*ft-in/2, top), s["studio/c"].Zones[0].Outline, "c's right end is at b")
			require.Equal(t, box(in/2, 0, 16*ft-in/2, top), s["studio/d"].Zones[0].Outline, "d is the last")
		}
		c := s["studio/ceiling"]
		require.Equal(t, box(0, 0, 24*ft, 16*ft), c.Zones[0].Outline)
		require.Equal(t, 1, c.HangOrder)
		require.Equal(t, 2, a.HangOrder)
		require.Equal(t, plan.Ceiling, c.Kind)
		require.Equal(t, job.StartHead, a.Zones[0].Start)
		require.Equal(t, in/2, a.Zones[0].FloorGap)
	}
}
