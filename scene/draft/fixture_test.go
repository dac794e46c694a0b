package draft_test

import (
	"fmt"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/scene/draft"
)

const (
	in = length.Inch
	ft = length.Foot
)

func products() []job.Product {
	sizes := []job.Size{{Length: 8 * ft, Width: 4 * ft}}
	return []job.Product{ // sorted by id; invented, for drawing only
		{ID: "gyp-12", Name: "Gypsum board 1/2 in", Kind: job.Gypsum, Thickness: in / 2, Tapered: true, Sizes: sizes},
		{ID: "gyp-12m", Name: "Gypsum board 1/2 in, moisture resistant", Kind: job.Gypsum, Moisture: true, Thickness: in / 2, Tapered: true, Sizes: sizes},
		{ID: "gyp-16x", Name: "Gypsum board 5/8 in, fire type", Kind: job.Gypsum, FireType: true, Thickness: 5 * in / 8, Tapered: true, Sizes: sizes},
		{ID: "ply-18", Name: "Plywood 23/32 in", Kind: job.WoodPanel, Thickness: 23 * in / 32, Gap: in / 32, Sizes: sizes},
	}
}

func zones(ids ...string) []job.Zone { return []job.Zone{{Layers: ids}} }

// studio is a made-up workshop: a gabled studio with every lining, and a store behind its north wall.
func studio() *job.Job {
	frame := job.Framing{Material: job.Wood, Spacing: 16 * in, Member: 3 * in / 2, Depth: 7 * in / 2}
	wall := func(side int, id string, lining []job.Zone, more func(*job.Wall)) job.Wall {
		w := job.Wall{ID: id, Side: side, Framing: frame, Lining: lining, Trim: 7 * in / 2}
		if more != nil {
			more(&w)
		}
		return w
	}
	joists := frame
	joists.Along = job.AxisY
	return &job.Job{
		Name: "Bench room", Units: job.Imperial, Products: products(),
		Rooms: []job.Room{
			{ID: "studio", Height: 10 * ft, Corners: []shape.Point{{}, {X: 24 * ft}, {X: 24 * ft, Y: 16 * ft}, {Y: 16 * ft}},
				Ceiling: &job.Ceiling{Shape: job.Ridge, Along: job.AxisX, At: 8 * ft, High: 13 * ft, Framing: joists, Lining: zones("gyp-16x")},
				Walls: []job.Wall{
					wall(1, "south", zones("ply-18"), func(w *job.Wall) {
						w.Openings = []job.Opening{{ID: "yard", Kind: job.Door, At: 15 * ft, Width: 6 * ft, Height: 82 * in}}
						w.Base = 3 * in / 2
					}),
					wall(2, "east", zones("gyp-16x", "gyp-16x"), func(w *job.Wall) { w.Duty = []job.Duty{job.Separation} }),
					wall(3, "north", zones("gyp-12"), func(w *job.Wall) {
						w.Openings = []job.Opening{{ID: "w1", Kind: job.Window, At: 12*ft + 4*in, Width: 5 * ft, Height: 4 * ft, Sill: 42 * in}}
						w.Boxes = []job.Box{{At: 4 * ft, Up: 16 * in, Width: 9 * in / 4, Height: 15 * in / 4}}
						w.Floor = []shape.Point{{}, {X: 12 * ft, Y: 3 * in / 8}, {X: 24 * ft, Y: in / 4}}
					}),
					wall(4, "west", zones(job.Open), func(w *job.Wall) {
						w.Insulation = job.MineralWool
						w.Openings = []job.Opening{{ID: "d2", Kind: job.Door, At: 11 * ft, Width: 38 * in, Height: 82 * in}}
					}),
				}},
			{ID: "store", Height: 8 * ft, Corners: []shape.Point{{X: 0, Y: 16*ft + 9*in/2}, {X: 11 * ft, Y: 16*ft + 9*in/2}, {X: 11 * ft, Y: 26 * ft}, {X: 0, Y: 26 * ft}},
				Ceiling: &job.Ceiling{Framing: joists, Lining: zones("gyp-12")},
				Walls: []job.Wall{
					wall(1, "front", zones("gyp-12m"), nil),
					wall(2, "side", zones("gyp-12m"), func(w *job.Wall) { w.Duty = []job.Duty{job.Wet, job.Exterior} }),
					wall(3, "rear", zones("gyp-12"), nil), wall(4, "lane", zones("gyp-12"), nil)}},
		},
	}
}

func uprights(width length.Length) []length.Length {
	list := []length.Length{3 * in / 4}
	for x := 16 * in; x < width-in; x += 16 * in {
		list = append(list, x)
	}
	return append(list, width-3*in/4)
}

// holed says whether a place lies in an opening.
func holed(holes []shape.Rect, x, y length.Length) bool {
	for _, r := range holes {
		if r.X < x && x < r.MaxX() && r.Y < y && y < r.MaxY() {
			return true
		}
	}
	return false
}

// lined hangs 8 ft by 4 ft sheets in courses on a plain rectangle, every second course begun with half a sheet. It
// is a stand-in for a calculated plan: no rule is promised, but sheets, joints and screws stand where they are drawn.
func lined(id string, kind plan.SurfaceKind, w, h length.Length, p *job.Product, layers int, holes ...shape.Rect) plan.Surface {
	s := plan.Surface{ID: id, Kind: kind, Room: filepath.Dir(id), HangOrder: 1,
		Outline: shape.Rect{W: w, H: h}.Polygon(),
		Members: plan.Members{Axis: "x", At: uprights(w), Width: 3 * in / 2, Depth: 7 * in / 2, Material: "wood"}}
	for i, r := range holes {
		s.Holes = append(s.Holes, r.Polygon())
		s.Openings = append(s.Openings, plan.Opening{ID: fmt.Sprintf("o%d", i+1), Kind: "window", Outline: r.Polygon()})
	}
	if p == nil {
		return s
	}
	long, butt := plan.Tapered, plan.Butt
	if p.Kind == job.WoodPanel {
		long, butt = plan.PanelGap, plan.PanelGap
	}
	initials := map[bool]string{true: "C", false: string([]rune(filepath.Base(id))[0] - 32)}[kind == plan.Ceiling]
	for layer := 1; layer <= layers; layer++ {
		z := plan.Zone{Zone: 1, Layer: layer, Product: p.ID, Run: "across", Pattern: "staggered", Finish: 4, Outline: s.Outline, Opened: 9, Bound: 8}
		course := 0
		for y := length.Length(0); y < h; y += 4 * ft {
			course++
			top := min(y+4*ft, h)
			first := 8 * ft
			if (course+layer)%2 == 0 {
				first = 4 * ft
			}
			for x := length.Length(0); x < w; {
				right := min(x+8*ft, w)
				if x == 0 {
					right = min(first, w)
				}
				n := len(z.Panels) + 1
				q := plan.Panel{ID: fmt.Sprintf("%s-%02d", initials, n), Course: course, Sheet: fmt.Sprintf("S%03d", n),
					Outline: shape.Rect{X: x, Y: y, W: right - x, H: top - y}.Polygon(), Edges: [4]plan.Edge{"tapered", "end", "tapered", "end"}}
				for _, r := range holes {
					if r.X > x && r.MaxX() < right && r.Y > y && r.MaxY() < top {
						q.Holes = append(q.Holes, r.Polygon())
					}
				}
				z.Panels = append(z.Panels, q)
				if right < w && !holed(holes, right, (y+top)/2) {
					z.Joints = append(z.Joints, plan.Joint{Kind: butt, From: shape.Point{X: right, Y: y}, To: shape.Point{X: right, Y: top},
						Panels: []string{q.ID, fmt.Sprintf("%s-%02d", initials, n+1)}, Support: plan.OnMember})
				}
				for _, m := range s.Members.At {
					for up := y + in/2; up < top; up += 12 * in {
						if m >= x && m <= right && !holed(holes, m, up) {
							z.Fasteners.Points = append(z.Fasteners.Points, shape.Point{X: m, Y: up})
						}
					}
				}
				x = right
			}
			if top < h {
				z.Joints = append(z.Joints, plan.Joint{Kind: long, From: shape.Point{Y: top}, To: shape.Point{X: w, Y: top},
					Panels: []string{"a", "b"}, Support: plan.OnMember})
			}
		}
		z.Fasteners.Count = len(z.Fasteners.Points)
		s.Zones = append(s.Zones, z)
	}
	return s
}

// answer is a stand-in plan of the studio.
func answer(j *job.Job) *plan.Plan {
	p := &plan.Plan{Name: j.Name, Units: string(j.Units)}
	north := lined("studio/north", plan.Wall, 24*ft, 10*ft, j.Product("gyp-12"), 1, shape.Rect{X: 12*ft + 4*in, Y: 42 * in, W: 5 * ft, H: 4 * ft})
	north.Boxes = []shape.Polygon{shape.Rect{X: 4*ft - 9*in/8, Y: 14 * in, W: 9 * in / 4, H: 15 * in / 4}.Polygon()}
	south := lined("studio/south", plan.Wall, 24*ft, 10*ft, j.Product("ply-18"), 1, shape.Rect{X: 15 * ft, W: 6 * ft, H: 82 * in})
	south.Openings[0].Kind, south.Openings[0].ID = "door", "yard"
	south.Zones[0].Opened, south.Zones[0].Bound = 8, 8
	east := lined("studio/east", plan.Wall, 16*ft, 10*ft, j.Product("gyp-16x"), 2)
	east.Outline = shape.Polygon{{}, {X: 16 * ft}, {X: 16 * ft, Y: 10 * ft}, {X: 8 * ft, Y: 13 * ft}, {Y: 10 * ft}}
	west := lined("studio/west", plan.Wall, 16*ft, 10*ft, nil, 0, shape.Rect{X: 11 * ft, W: 38 * in, H: 82 * in})
	west.Openings[0].Kind, west.Openings[0].ID = "door", "d2"
	p.Surfaces = []plan.Surface{south, east, north, west,
		lined("studio/ceiling", plan.Ceiling, 24*ft, 8*ft, j.Product("gyp-16x"), 1),
		lined("store/front", plan.Wall, 11*ft, 8*ft, j.Product("gyp-12m"), 1), lined("store/side", plan.Wall, 115*in, 8*ft, j.Product("gyp-12m"), 1),
		lined("store/rear", plan.Wall, 11*ft, 8*ft, j.Product("gyp-12"), 1), lined("store/lane", plan.Wall, 115*in, 8*ft, j.Product("gyp-12"), 1),
		lined("store/ceiling", plan.Ceiling, 11*ft, 115*in, j.Product("gyp-12"), 1)}
	p.Checks = []plan.Check{
		{Rule: "insulation", Level: plan.Caution, Where: "studio/west", Says: plan.Verbatim("Mineral wool stays visible.")},
		{Rule: "stagger", Level: plan.Error, Where: "studio/north", At: shape.Point{X: 8 * ft, Y: 4 * ft}, Says: plan.Verbatim("Seams stand in one line.")}}
	return p
}

// look writes a picture for a person to judge, where a folder for it is named.
func look(t *testing.T, name string, img image.Image) {
	t.Helper()
	dir := os.Getenv("DRAFT_PICTURES")
	if dir == "" {
		return
	}
	f, err := os.Create(filepath.Join(dir, name+".png"))
	require.NoError(t, err)
	require.NoError(t, png.Encode(f, img))
	require.NoError(t, f.Close())
}

// drawn gives a picture of w by h logical pixels.
func drawn(w, h int, scale float64, draw func(c draft.Canvas)) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, int(float64(w)*scale), int(float64(h)*scale)))
	draw(draft.NewRaster(img, scale))
	return img
}
