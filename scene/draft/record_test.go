package draft_test

import (
	"image/color"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/scene/draft"
)

// record keeps what is set in words, so that a test can judge it as a reader would.
type record struct {
	w, h   float64
	texts  []set
	groups int
	clips  int
}

type set struct {
	s  string
	at draft.Pt
	t  draft.Type
}

func (r *record) Size() (w, h float64)                { return r.w, r.h }
func (r *record) Fill(draft.Path, color.NRGBA)        {}
func (r *record) Hatch(draft.Path, draft.Hatch)       {}
func (r *record) Stroke([]draft.Pt, bool, draft.Pen)  {}
func (r *record) Disc(draft.Pt, float64, color.NRGBA) {}
func (r *record) Text(at draft.Pt, s string, t draft.Type) {
	if s != "" {
		r.texts = append(r.texts, set{s, at, t})
	}
}
func (r *record) Clip(draft.Rect) { r.clips++ }
func (r *record) Unclip()         { r.clips-- }
func (r *record) Begin(string)    { r.groups++ }
func (r *record) End()            { r.groups-- }
func (r *record) has(t require.TestingT, want string) {
	for _, x := range r.texts {
		if x.s == want {
			return
		}
	}
	require.Failf(t, "not on the drawing", "%q in %v", want, r.words())
}

func (r *record) words() []string {
	var list []string
	for _, x := range r.texts {
		list = append(list, x.s)
	}
	return list
}

// box is the upright rectangle round the letters of a line, from the type's own measures.
func (x set) box() draft.Rect {
	w, high := draft.Measure(x.s, x.t.Size, x.t.Weight), x.t.Size*0.7
	from := map[draft.Anchor]float64{draft.Start: 0, draft.Middle: -w / 2, draft.End: -w}[x.t.Anchor]
	sin, cos := math.Sincos(x.t.Turn)
	lo, hi := draft.Pt{X: 1e9, Y: 1e9}, draft.Pt{X: -1e9, Y: -1e9}
	for _, q := range [4]draft.Pt{{X: from}, {X: from + w}, {X: from, Y: high}, {X: from + w, Y: high}} {
		p := draft.Pt{X: x.at.X + q.X*cos - q.Y*sin, Y: x.at.Y - q.X*sin - q.Y*cos}
		lo, hi = draft.Pt{X: math.Min(lo.X, p.X), Y: math.Min(lo.Y, p.Y)}, draft.Pt{X: math.Max(hi.X, p.X), Y: math.Max(hi.Y, p.Y)}
	}
	return draft.Rect{X: lo.X, Y: lo.Y, W: hi.X - lo.X, H: hi.Y - lo.Y}
}

// judge reads a drawing: no text over another, none upside down, none off the sheet, only the four sizes, groups
// and clips closed.
func (r *record) judge(t require.TestingT) {
	require.Zero(t, r.groups)
	require.Zero(t, r.clips)
	r.apart(t)
	for _, x := range r.texts {
		require.Contains(t, []float64{draft.Small, draft.Body, draft.Heading, draft.Figure}, x.t.Size)
		require.Greater(t, x.t.Turn, -math.Pi/2-1e-6, x.s)
		require.LessOrEqual(t, x.t.Turn, math.Pi/2+1e-6, x.s)
		b := x.box()
		require.True(t, b.X >= 0 && b.Y >= 0 && b.X+b.W <= r.w && b.Y+b.H <= r.h, "%q leaves the sheet: %v of %v × %v", x.s, b, r.w, r.h)
	}
}

// apart finds no text over another.
func (r *record) apart(t require.TestingT) {
	for i, x := range r.texts {
		for _, y := range r.texts[:i] {
			require.False(t, x.box().Meets(y.box()), "%q stands over %q", x.s, y.s)
		}
	}
}

func TestStudioReadsWell(t *testing.T) {
	j := studio()
	p := answer(j)
	for _, size := range [][2]float64{{560, 520}, {420, 380}, {900, 700}, {1400, 1000}} {
		r := &record{w: size[0], h: size[1]}
		draft.DrawPlan(r, draft.Paper(), p, j, draft.FitPlan(j, draft.Rect{W: r.w, H: r.h}), draft.PlanState{})
		r.judge(t)
		r.has(t, "Studio")
		r.has(t, `24' 0"`)
		r.has(t, `16' 0"`)
		s := &record{w: size[0] * 1.6, h: 340}
		draft.DrawStrip(s, draft.Paper(), p, j, draft.FitStrip(p, j, "studio", draft.Rect{W: s.w, H: s.h}), draft.StripState{Room: "studio"})
		s.judge(t)
		s.has(t, "8 sheets, by itself no fewer")
		if size[0] < 500 {
			s.has(t, "9 sheets") // the rest has no room
		} else {
			s.has(t, "9 sheets, by itself at least 8")
		}
		s.has(t, "left open")
	}
	r := &record{w: 560, h: 520}
	draft.DrawPlan(r, draft.Paper(), p, j, draft.FitPlan(j, draft.Rect{W: r.w, H: r.h}), draft.PlanState{})
	for _, want := range []string{`384 ft² · 10' 0" to 13' 0"`, `3' 0"`, `6' 0"`, `15' 0"`, "East · separation", "South", `ridge 13' 0"`, `16" on center`} {
		r.has(t, want) // 24 ft by 16 ft is 384 ft²; the door leaves 24 - 15 - 6 = 3 ft at its right
	}
}

func TestMetricPlanSaysSo(t *testing.T) {
	j := studio()
	j.Units = job.Metric
	r := &record{w: 700, h: 600}
	draft.DrawPlan(r, draft.Paper(), nil, j, draft.FitPlan(j, draft.Rect{W: r.w, H: r.h}), draft.PlanState{})
	r.judge(t)
	r.has(t, "7315") // 24 ft = 7315.2 mm
	r.has(t, "grid 250 mm · lengths in mm")
}

// roomOf draws a room of any straight-sided outline: a ring of corners at growing angles round a point.
func roomOf(t *rapid.T) *job.Job {
	n := rapid.IntRange(3, 9).Draw(t, "corners")
	r := job.Room{ID: rapid.StringMatching(`[a-z]{1,14}(-[a-z0-9]{1,8})?`).Draw(t, "name"), Height: 8 * ft}
	for i := 0; i < n; i++ {
		far := rapid.Float64Range(1.5, 9).Draw(t, "far")
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		r.Corners = append(r.Corners, shape.Point{X: length.FromMM(far * cos * 1000), Y: length.FromMM(far * sin * 1000)})
	}
	if rapid.Bool().Draw(t, "clockwise") {
		for i, k := 0, n-1; i < k; i, k = i+1, k-1 {
			r.Corners[i], r.Corners[k] = r.Corners[k], r.Corners[i]
		}
	}
	for i := 0; i < n; i++ {
		w := job.Wall{ID: "wall-" + string(rune('a'+i)), Side: i + 1, Lining: zones("gyp-12"), Framing: job.Framing{Depth: 7 * in / 2}}
		a, b := r.Corners[i], r.Corners[(i+1)%n]
		long := math.Hypot((b.X - a.X).MM(), (b.Y - a.Y).MM())
		if long > 1500 && rapid.Bool().Draw(t, "door") {
			w.Openings = []job.Opening{{ID: "d", Kind: job.Door, At: length.FromMM(rapid.Float64Range(100, long-1000).Draw(t, "at")), Width: 800 * length.Millimetre, Height: 2 * length.Metre}}
		}
		r.Walls = append(r.Walls, w)
	}
	if rapid.Bool().Draw(t, "ceiling") {
		r.Ceiling = &job.Ceiling{Framing: job.Framing{Spacing: 16 * in, Along: job.AxisY}, Lining: zones("gyp-12")}
	}
	return &job.Job{Units: job.Imperial, Products: products(), Rooms: []job.Room{r}}
}

func TestAnyRoomReadsWell(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := roomOf(t)
		r := &record{w: rapid.Float64Range(300, 1200).Draw(t, "w"), h: rapid.Float64Range(300, 900).Draw(t, "h")}
		draft.DrawPlan(r, draft.Paper(), nil, j, draft.FitPlan(j, draft.Rect{W: r.w, H: r.h}), draft.PlanState{})
		r.judge(t)
	})
}

// The left end of a wall is where the left hand points as one faces it from inside. Whatever the outline and its
// direction, a place a little inside the wall, near its left end, must have the wall's end to its left.
func TestOpeningsCountFromTheLeft(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := roomOf(t)
		v := draft.FitPlan(j, draft.Rect{W: 800, H: 800})
		r := &j.Rooms[0]
		for i := range r.Walls {
			for n, o := range r.Walls[i].Openings {
				a, b := v.Place(r.Corners[i]), v.Place(r.Corners[(i+1)%len(r.Corners)])
				if !shape.Polygon(r.Corners).CounterClockwise() {
					// Clockwise seen from above: the left end of side i is corner i (the file format's words).
					a, b = b, a
				}
				left, along := b, a.Sub(b).Unit()
				mid := left.Add(along.Mul(v.Px(o.At + o.Width/2)))
				got := draft.PlanHit(j, v, mid)
				if got.Kind == draft.OnCorner {
					continue // a corner within reach comes first
				}
				require.Equal(t, draft.OnOpening, got.Kind)
				require.Equal(t, n, got.Index)
				require.Equal(t, r.ID+"/"+r.Walls[i].ID, got.Surface)
			}
		}
	})
}

func TestPlanHit(t *testing.T) {
	j := studio()
	v := draft.FitPlan(j, draft.Rect{W: 560, H: 520})
	at := func(x, y length.Length) draft.Target {
		g := draft.PlanHit(j, v, v.Place(shape.Point{X: x, Y: y}))
		g.At = shape.Point{}
		return g
	}
	require.Equal(t, draft.Target{Kind: draft.OnCorner, Room: "studio", Corner: 2}, at(24*ft-3*in, 16*ft-2*in))
	require.Equal(t, draft.Target{Kind: draft.OnSurface, Room: "studio", Surface: "studio/south"}, at(16*ft, 0))
	require.Equal(t, draft.Target{Kind: draft.OnSurface, Room: "studio", Surface: "studio/east"}, at(24*ft, 5*ft))
	require.Equal(t, draft.Target{Kind: draft.OnRoom, Room: "store"}, at(5*ft, 21*ft))
	require.Equal(t, draft.Target{Kind: draft.OnRoom, Room: "studio"}, at(12*ft, 8*ft))
	require.Equal(t, draft.Target{}, at(40*ft, 40*ft))
	// The south wall seen from inside begins at its east end: 15 ft from there the yard door spans x = 3 to 9 ft.
	require.Equal(t, draft.Target{Kind: draft.OnOpening, Room: "studio", Surface: "studio/south", Opening: "yard", Drag: job.AxisX}, at(6*ft, 0))
	require.Equal(t, draft.OnSurface, at(10*ft, 0).Kind)
}

func TestView(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := draft.View{Scale: rapid.Float64Range(1, 2000).Draw(t, "scale"), X: rapid.Float64Range(-900, 900).Draw(t, "x"), Y: rapid.Float64Range(-900, 900).Draw(t, "y")}
		p := draft.Pt{X: rapid.Float64Range(0, 1600).Draw(t, "px"), Y: rapid.Float64Range(0, 900).Draw(t, "py")}
		under := v.At(p)
		back := v.Place(under)
		require.InDelta(t, p.X, back.X, 1e-4)
		require.InDelta(t, p.Y, back.Y, 1e-4)
		z := v.Zoom(p, rapid.Float64Range(0.2, 5).Draw(t, "factor"))
		require.InDelta(t, p.X, z.Place(under).X, 1e-3, "what is under the pointer stays there")
		require.InDelta(t, p.Y, z.Place(under).Y, 1e-3)
		require.LessOrEqual(t, v.Zoom(p, 1e12).Scale, draft.MostScale)
		require.GreaterOrEqual(t, v.Zoom(p, 1e-12).Scale, draft.LeastScale)
	})
	lo, hi := shape.Point{X: -2 * ft, Y: 3 * ft}, shape.Point{X: 9 * ft, Y: 8 * ft}
	r := draft.Rect{X: 10, Y: 20, W: 300, H: 200}
	v := draft.Fit(lo, hi, r)
	require.InDelta(t, 10, v.Place(lo).X, 1e-9)
	require.InDelta(t, 310, v.Place(hi).X, 1e-9)
	require.InDelta(t, 120, (v.Place(lo).Y+v.Place(hi).Y)/2, 1e-9)
}

// Turning to the right in the room, the right end of each wall is the left end of the next.
func TestStripTurnsToTheRight(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := roomOf(t)
		r := &j.Rooms[0]
		p := &plan.Plan{}
		for _, w := range r.Walls {
			p.Surfaces = append(p.Surfaces, plan.Surface{ID: r.ID + "/" + w.ID, Kind: plan.Wall, Room: r.ID, Outline: shape.Rect{W: 3 * ft, H: 8 * ft}.Polygon()})
		}
		v := draft.View{Scale: 30}
		type placed struct {
			x    float64
			wall int
		}
		var row []placed
		for i, w := range r.Walls {
			sv, ok := draft.SurfaceView(p, j, r.ID, r.ID+"/"+w.ID, v)
			require.True(t, ok)
			row = append(row, placed{sv.Place(shape.Point{}).X, i})
		}
		n := len(r.Corners)
		ends := func(i int) (left, right int) {
			if shape.Polygon(r.Corners).CounterClockwise() {
				return (i + 1) % n, i
			}
			return i, (i + 1) % n
		}
		for a := range row {
			for b := range row {
				if next := row[b].x - row[a].x; next > 0 && next < 1.5*(3*ft.Metres()+0.9)*30 {
					_, right := ends(row[a].wall)
					left, _ := ends(row[b].wall)
					require.Equal(t, right, left)
				}
			}
		}
	})
}

func TestStripHit(t *testing.T) {
	j := studio()
	p := answer(j)
	j.Rooms[0].Walls[2].Pins = []job.Pin{{Zone: 1, Layer: 1, Course: 1, Seam: 20 * ft}}
	s := draft.StripState{Room: "studio"}
	v := draft.FitStrip(p, j, "studio", draft.Rect{W: 1400, H: 400})
	at := func(surface string, x, y length.Length) draft.Target {
		sv, ok := draft.SurfaceView(p, j, "studio", "studio/"+surface, v)
		require.True(t, ok)
		g := draft.StripHit(p, j, v, s, sv.Place(shape.Point{X: x, Y: y}))
		g.At = shape.Point{}
		return g
	}
	base := draft.Target{Room: "studio", Surface: "studio/north", Zone: 1, Layer: 1}
	panel := base
	panel.Kind, panel.Panel = draft.OnPanel, "N-02"
	require.Equal(t, panel, at("north", 8*ft, 2*ft))
	// Courses begin with half a sheet: the first seam of the lowest one stands at 4 ft and moves along x.
	seam := base
	seam.Kind, seam.Drag = draft.OnSeam, job.AxisX
	require.Equal(t, seam, at("north", 4*ft, ft))
	level := at("north", 6*ft, 4*ft)
	require.Equal(t, draft.OnSeam, level.Kind)
	require.Equal(t, job.AxisY, level.Drag)
	require.Equal(t, plan.Tapered, p.Surfaces[2].Zones[0].Joints[level.Index].Kind)
	require.Equal(t, draft.Target{Kind: draft.OnOpening, Room: "studio", Surface: "studio/south", Opening: "yard", Drag: job.AxisX}, at("south", 18*ft, 3*ft))
	require.Equal(t, draft.Target{Kind: draft.OnSurface, Room: "studio", Surface: "studio/west"}, at("west", 5*ft, 5*ft))
	require.Equal(t, draft.OnPin, at("north", 20*ft, 2*ft).Kind)
	fixed := j.Rooms[0].Walls[2].Pins
	zone := p.Surfaces[2].Zones[0].Outline.Bounds()
	j.Rooms[0].Walls[2].Pins = []job.Pin{{Zone: 1, Layer: 1, Edge: true, Seam: 6 * ft}}
	require.Equal(t, draft.OnPin, at("north", 6*ft, zone.Y+zone.H/2).Kind, "a joint between upright courses has its pin half way up")
	j.Rooms[0].Walls[2].Pins = fixed
	check := at("north", 8*ft, 4*ft)
	require.Equal(t, draft.OnCheck, check.Kind)
	require.Equal(t, "stagger", p.Checks[check.Index].Rule)
	require.Equal(t, draft.Target{}, draft.StripHit(p, j, v, s, draft.Pt{X: 3, Y: 3}))
	s.Layer = 1
	require.Equal(t, 1, at("east", 6*ft, 2*ft).Layer)
	s.Layer = 0
	require.Equal(t, 2, at("east", 6*ft, 2*ft).Layer)
}
