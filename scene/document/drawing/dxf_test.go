package drawing_test

import (
	"bytes"
	"context"
	"encoding/json"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"seamwright/assets"
	"seamwright/assets/words"
	"seamwright/calc"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/planner"
	"seamwright/scene/document/ask"
	"seamwright/scene/document/drawing"
	"seamwright/scene/document/internal/reader"
)

// request plans a shipped sample.
func request(t *testing.T, sample []byte) *ask.Request {
	d, err := planner.Parse("sample", sample)
	require.NoError(t, err)
	j := d.Job()
	p, err := calc.Prompt(context.Background(), j, nil)
	require.NoError(t, err)
	return &ask.Request{Job: j, Plan: p, Voice: words.In(words.English, words.Units{Imperial: j.Units != job.Metric}),
		Made: time.Date(2027, 2, 20, 9, 30, 0, 0, time.UTC), Paper: ask.PaperOf(j.Units)}
}

// office is what the independent reader finds in a file.
type office struct {
	Errors, Fixes []string
	Version       string
	Units         int
	Low, High     [2]float64
	Named         []string
	Layers        map[string]struct {
		Rings  [][][2]float64
		Lines  [][2][2]float64
		Arcs   [][5]float64
		Points int
		Texts  []string
	}
}

func read(t *testing.T, r *ask.Request) (o office, file []byte) {
	var b bytes.Buffer
	require.NoError(t, drawing.DXF(context.Background(), &b, r))
	require.NoError(t, json.Unmarshal([]byte(reader.Run(t, b.Bytes(), "/usr/bin/python3", "testdata/read.py")), &o))
	require.Empty(t, o.Errors)
	require.Empty(t, o.Fixes)
	return o, b.Bytes()
}

// near is how far a figure may lie from the plan's own, in the file's unit.
const near = 1e-6

// Read by ezdxf, a wall has what the plan has of it on every layer, where it has it.
func TestElevationReadByAnother(t *testing.T) {
	for _, k := range []struct {
		sample  []byte
		surface string
		unit    length.Length
		units   int
	}{{assets.KilnYardStudio, "studio/south", length.Inch, 1}, {assets.KilnYardStudio, "studio/west", length.Inch, 1}, {assets.LaneWorkshop, "shop/west", length.Millimetre, 4}} {
		r := request(t, k.sample)
		r.Parts = []string{k.surface}
		o, _ := read(t, r)
		require.Equal(t, "AC1015", o.Version)
		require.Equal(t, k.units, o.Units, "1 is inches, 4 millimetres (DXF Reference, $INSUNITS)")
		var s *plan.Surface
		for i := range r.Plan.Surfaces {
			if r.Plan.Surfaces[i].ID == k.surface {
				s = &r.Plan.Surfaces[i]
			}
		}
		value := func(l length.Length) float64 { return float64(l) / float64(k.unit) }
		same := func(want shape.Polygon, got [][2]float64) {
			require.Len(t, got, len(want))
			for i, p := range want {
				require.InDelta(t, value(p.X), got[i][0], near)
				require.InDelta(t, value(p.Y), got[i][1], near)
			}
		}
		same(s.Outline, o.Layers["OUTLINE"].Rings[0])
		require.Len(t, o.Layers["MEMBERS"].Rings, len(s.Members.At))
		require.Len(t, o.Layers["OPENINGS"].Rings, len(s.Openings))
		require.Len(t, o.Layers["BOXES"].Rings, len(s.Boxes))
		joints, screws, at := map[string]float64{}, 0, 0
		names := map[plan.JointKind]string{plan.Tapered: "JOINTS-TAPERED", plan.Butt: "JOINTS-BUTT", plan.Mixed: "JOINTS-MIXED", plan.PanelGap: "JOINTS-PANEL", plan.Control: "JOINTS-CONTROL"}
		for _, z := range s.Zones {
			for _, p := range z.Panels {
				for _, ring := range append([]shape.Polygon{p.Outline}, p.Holes...) {
					same(ring, o.Layers["SHEETS"].Rings[at])
					at++
				}
				require.Contains(t, o.Layers["WORDS"].Texts, p.ID)
			}
			for _, q := range z.Joints {
				joints[names[q.Kind]] += math.Hypot(value(q.To.X-q.From.X), value(q.To.Y-q.From.Y))
			}
			screws += len(z.Fasteners.Points)
		}
		require.Len(t, o.Layers["SHEETS"].Rings, at)
		require.Equal(t, screws, o.Layers["SCREWS"].Points)
		for name, long := range joints {
			sum := 0.0
			for _, l := range o.Layers[name].Lines {
				sum += math.Hypot(l[1][0]-l[0][0], l[1][1]-l[0][1])
			}
			if name != "" {
				require.InDelta(t, long, sum, near*float64(len(o.Layers[name].Lines)+1), name)
			}
		}
		b := s.Outline.Bounds()
		require.Contains(t, o.Layers["DIMENSIONS"].Texts, trimmed(b.W.Show(k.unit == length.Inch)))
	}
}

func trimmed(s string) string { return string(bytes.TrimSuffix([]byte(s), []byte(" mm"))) }

// The plan has every room, wall and opening; a wall's framing is as deep and as long as the project says, and a door's leaf
// swings a quarter of a circle as wide as its way.
func TestPlanReadByAnother(t *testing.T) {
	for _, sample := range [][]byte{assets.KilnYardStudio, assets.LaneWorkshop} {
		r := request(t, sample)
		r.Parts = []string{drawing.Plan}
		o, _ := read(t, r)
		value := func(l length.Length) float64 {
			if r.Job.Units == job.Metric {
				return l.MM()
			}
			return l.In()
		}
		walls, openings, members := 0, 0, 0
		swings := map[string]int{"Kiln Yard Studio": 3, "Lane Workshop": 2}[r.Plan.Name] // two of a double door, one of a door that both rooms list
		var lo, hi shape.Point
		for i := range r.Job.Rooms {
			room := &r.Job.Rooms[i]
			ring := o.Layers["ROOMS"].Rings[i]
			for k, c := range room.Corners {
				require.InDelta(t, value(c.X), ring[k][0], near)
				require.InDelta(t, value(c.Y), ring[k][1], near)
				lo, hi = shape.Point{X: min(lo.X, c.X), Y: min(lo.Y, c.Y)}, shape.Point{X: max(hi.X, c.X), Y: max(hi.Y, c.Y)}
			}
			for k := range room.Walls {
				walls++
				openings += len(room.Walls[k].Openings)
			}
		}
		for i := range r.Plan.Surfaces {
			if s := &r.Plan.Surfaces[i]; s.Kind == plan.Wall {
				members += len(s.Members.At)
			}
		}
		require.Len(t, o.Layers["ROOMS"].Rings, len(r.Job.Rooms))
		require.Len(t, o.Layers["WALLS"].Rings, walls)
		require.Len(t, o.Layers["OPENINGS"].Rings, openings)
		require.Len(t, o.Layers["MEMBERS"].Rings, members)
		require.Len(t, o.Layers["DOOR-SWINGS"].Arcs, swings)
		require.Len(t, o.Layers["DOORS"].Lines, swings)
		for i, a := range o.Layers["DOOR-SWINGS"].Arcs {
			require.InDelta(t, 90, math.Mod(a[4]-a[3]+360, 360), near, "a quarter of a circle")
			leaf := o.Layers["DOORS"].Lines[i]
			require.InDelta(t, a[2], math.Hypot(leaf[1][0]-leaf[0][0], leaf[1][1]-leaf[0][1]), near)
			require.InDelta(t, a[0], leaf[0][0], near, "hung at the centre of its swing")
		}
		at := 0
		for i := range r.Job.Rooms {
			room := &r.Job.Rooms[i]
			var along, area float64
			for range room.Walls {
				ring := o.Layers["WALLS"].Rings[at]
				along += math.Hypot(ring[1][0]-ring[0][0], ring[1][1]-ring[0][1])
				for k, p := range ring {
					q := ring[(k+1)%len(ring)]
					area += (p[0]*q[1] - q[0]*p[1]) / 2
				}
				at++
			}
			want := 0.0
			for k, c := range room.Corners {
				d := room.Corners[(k+1)%len(room.Corners)]
				want += math.Hypot(value(d.X-c.X), value(d.Y-c.Y))
			}
			require.InDelta(t, want, along, near*10, "the faces of the framing go round the room")
			require.Greater(t, math.Abs(area), want*value(room.Walls[0].Framing.Depth)*0.9, "and its walls have their depth")
		}
		require.LessOrEqual(t, o.Low[0], value(lo.X))
		require.LessOrEqual(t, o.Low[1], value(lo.Y))
		require.GreaterOrEqual(t, o.High[0], value(hi.X))
		require.GreaterOrEqual(t, o.High[1], value(hi.Y))
	}
}

// All drawings in one file keep apart, and the same request gives the same bytes; words of any script come back as they
// were.
func TestWholeBuildingReadByAnother(t *testing.T) {
	r := request(t, assets.KilnYardStudio)
	r.Job.Rooms[0].ID = "ätélier 100% ^½"
	for i := range r.Plan.Surfaces {
		if s := &r.Plan.Surfaces[i]; s.Room == "studio" {
			s.Room = r.Job.Rooms[0].ID
		}
	}
	o, file := read(t, r)
	_, again := read(t, r)
	require.Equal(t, file, again)
	for _, c := range file {
		require.Less(t, c, byte(0x80), "ASCII")
	}
	require.Contains(t, o.Layers["WORDS"].Texts, "Ätélier 100% ^½")
	require.Len(t, o.Layers["OUTLINE"].Rings, len(r.Plan.Surfaces))
	type box struct{ lo, hi [2]float64 }
	var boxes []box
	for _, ring := range o.Layers["OUTLINE"].Rings {
		b := box{ring[0], ring[0]}
		for _, p := range ring {
			b.lo = [2]float64{math.Min(b.lo[0], p[0]), math.Min(b.lo[1], p[1])}
			b.hi = [2]float64{math.Max(b.hi[0], p[0]), math.Max(b.hi[1], p[1])}
		}
		for _, other := range boxes {
			require.True(t, b.lo[0] > other.hi[0] || other.lo[0] > b.hi[0] || b.lo[1] > other.hi[1] || other.lo[1] > b.hi[1])
		}
		boxes = append(boxes, b)
		require.Less(t, b.hi[1], 0.0, "below the plan")
	}
	err := drawing.DXF(context.Background(), &bytes.Buffer{}, &ask.Request{Job: r.Job, Plan: r.Plan, Voice: r.Voice, Parts: []string{"attic/north"}})
	require.ErrorContains(t, err, "attic/north")
}
