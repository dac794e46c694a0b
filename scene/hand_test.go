package scene

import (
	"fmt"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
)

// A plan made by hand: a studio of 24 by 16 ft under a ridge, laid out plainly in courses. It obeys no rule book;
// it is there to be drawn.

const (
	in = length.Inch
	ft = length.Foot
)

func rect(x, y, w, h length.Length) shape.Polygon {
	return shape.Rect{X: x, Y: y, W: w, H: h}.Polygon()
}

// handJob holds the looks of the products.
func handJob() *job.Job {
	p := func(id string, k job.Kind, t length.Length, fire, wet bool) job.Product {
		return job.Product{ID: id, Kind: k, Thickness: t, FireType: fire, Moisture: wet}
	}
	j := &job.Job{Units: job.Imperial, Products: []job.Product{
		p("gyp-12", job.Gypsum, in/2, false, false), p("gyp-12m", job.Gypsum, in/2, false, true),
		p("gyp-16x", job.Gypsum, 5*in/8, true, false), {ID: "osb-11", Kind: job.WoodPanel, Thickness: 7 * in / 16, Strand: true},
		p("ply-18", job.WoodPanel, 23*in/32, false, false),
	}}
	j.Rooms = []job.Room{{ID: "studio", Walls: []job.Wall{
		{ID: "south", Insulation: job.UnfacedBatt}, {ID: "east", Insulation: job.MineralWool},
		{ID: "north", Insulation: job.UnfacedBatt}, {ID: "west", Insulation: job.KraftBatt},
	}}}
	return j
}

// wall makes one wall from its left end, the direction of its x and its outline.
func wall(id string, ox, oy length.Length, dx, dy float64, outline shape.Polygon) plan.Surface {
	s := plan.Surface{ID: "studio/" + id, Room: "studio", Kind: plan.Wall, Outline: outline}
	s.Frame = plan.Frame{Origin: [3]length.Length{ox, oy, 0}, X: [3]float64{dx, dy, 0}, Y: [3]float64{0, 0, 1}, Normal: [3]float64{dy, -dx, 0}}
	r := outline.Bounds()
	s.Members = plan.Members{Axis: "x", Width: 3 * in / 2, Depth: 7 * in / 2, Material: "wood"}
	for at := 3 * in / 4; at < r.MaxX()-16*in; {
		s.Members.At = append(s.Members.At, at)
		if at == 3*in/4 {
			at = 16 * in
		} else {
			at += 16 * in
		}
	}
	s.Members.At = append(s.Members.At, r.MaxX()-16*in/2-8*in+15*in+in/4)
	return s
}

// cut makes an opening in a surface.
func opening(s *plan.Surface, id, kind string, r shape.Polygon) {
	s.Holes = append(s.Holes, r)
	s.Openings = append(s.Openings, plan.Opening{ID: id, Kind: kind, Outline: r, Return: "jamb", Casing: 60 * length.Millimetre})
}

// lay covers an area of a surface with courses of sheets w by h, every second one set back by half a sheet.
func lay(s *plan.Surface, zone, layer int, product string, depth, w, h length.Length, area shape.Polygon) {
	z := plan.Zone{Zone: zone, Layer: layer, Product: product, Run: "across", Depth: depth, Outline: area}
	if product == job.Open {
		s.Zones = append(s.Zones, z)
		return
	}
	r := area.Bounds()
	prefix := fmt.Sprintf("%c", s.ID[len("studio/")]-32)
	n := 0
	for k, y := 0, r.Y; y < r.MaxY(); k, y = k+1, y+h {
		shift := length.Length(0)
		if k%2 == 1 {
			shift = w / 2
		}
		for x := r.X - shift; x < r.MaxX(); x += w {
			x0, x1 := max(x, r.X), min(x+w, r.MaxX())
			y1 := min(y+h, r.MaxY())
			if x1 <= x0 {
				continue
			}
			for _, part := range area.Intersect(shape.Rect{X: x0, Y: y, W: x1 - x0, H: y1 - y}) {
				for _, piece := range solid(s, part) {
					n++
					z.Panels = append(z.Panels, plan.Panel{
						ID: fmt.Sprintf("%s%d", prefix, n), Outline: piece.Outline, Holes: piece.Holes, Course: k + 1, Sheet: fmt.Sprintf("S%03d", n),
					})
				}
			}
			if x > r.X {
				if lo, hi, ok := across(metres(area), x.Metres()); ok {
					from, to := max(y, length.FromMM(lo*1000)), min(y1, length.FromMM(hi*1000))
					if from < to {
						joint(&z, s.Holes, kindOf(product, plan.Butt), shape.Point{X: x, Y: from}, shape.Point{X: x, Y: to})
					}
				}
			}
		}
		if y > r.Y {
			joint(&z, s.Holes, kindOf(product, plan.Tapered), shape.Point{X: r.X, Y: y}, shape.Point{X: r.MaxX(), Y: y})
		}
	}
	s.Zones = append(s.Zones, z)
}

func kindOf(product string, k plan.JointKind) plan.JointKind {
	if product[0] != 'g' {
		return plan.PanelGap
	}
	return k
}

// joint adds a joint where it does not cross an opening.
func joint(z *plan.Zone, holes []shape.Polygon, k plan.JointKind, a, b shape.Point) {
	for _, h := range holes {
		r := h.Bounds()
		switch {
		case a.Y == b.Y && r.Y < a.Y && a.Y < r.MaxY() && r.X < b.X && a.X < r.MaxX():
			joint(z, holes, k, a, shape.Point{X: r.X, Y: a.Y})
			joint(z, holes, k, shape.Point{X: r.MaxX(), Y: a.Y}, b)
			return
		case a.X == b.X && r.X < a.X && a.X < r.MaxX() && r.Y < b.Y && a.Y < r.MaxY():
			if a.Y < r.Y {
				joint(z, holes, k, a, shape.Point{X: a.X, Y: r.Y})
			}
			if b.Y > r.MaxY() {
				joint(z, holes, k, shape.Point{X: a.X, Y: r.MaxY()}, b)
			}
			return
		}
	}
	if a != b {
		z.Joints = append(z.Joints, plan.Joint{Kind: k, From: a, To: b, Support: plan.OnMember})
	}
}

// handPlan is the studio.
func handPlan() *plan.Plan {
	gable := func(w length.Length) shape.Polygon {
		return shape.Polygon{{X: 0, Y: 0}, {X: w, Y: 0}, {X: w, Y: 8 * ft}, {X: w / 2, Y: 12 * ft}, {X: 0, Y: 8 * ft}}
	}
	south := wall("south", 24*ft, 0, -1, 0, rect(0, 0, 24*ft, 8*ft))
	opening(&south, "d1", "door", rect(14*ft, 0, 6*ft, 82*in))
	lay(&south, 1, 1, "ply-18", 0, 8*ft, 4*ft, rect(0, in/2, 24*ft, 8*ft-in/2))
	north := wall("north", 0, 16*ft, 1, 0, rect(0, 0, 24*ft, 8*ft))
	opening(&north, "w1", "window", rect(10*ft, 42*in, 4*ft, 3*ft))
	opening(&north, "w2", "window", rect(18*ft, 42*in, 3*ft, 3*ft))
	lay(&north, 1, 1, "gyp-12", 0, 8*ft, 4*ft, rect(0, in/2, 24*ft, 8*ft-in/2))
	north.Boxes = []shape.Polygon{rect(5*ft, 14*in, 9*in/4, 15*in/4), rect(16*ft, 14*in, 9*in/4, 15*in/4)}
	east := wall("east", 24*ft, 16*ft, 0, -1, gable(16*ft))
	lay(&east, 1, 1, "osb-11", 0, 8*ft, 4*ft, rect(0, in/2, 16*ft, 4*ft-in/2))
	upper := shape.Polygon{{X: 0, Y: 4 * ft}, {X: 16 * ft, Y: 4 * ft}, {X: 16 * ft, Y: 8 * ft}, {X: 8 * ft, Y: 12 * ft}, {X: 0, Y: 8 * ft}}
	lay(&east, 2, 1, "gyp-16x", 0, 8*ft, 4*ft, upper)
	lay(&east, 2, 2, "gyp-16x", 5*in/8, 10*ft, 4*ft, upper)
	west := wall("west", 0, 0, 0, 1, gable(16*ft))
	lay(&west, 1, 1, "gyp-12m", 0, 8*ft, 4*ft, rect(0, in/2, 16*ft, 4*ft-in/2))
	lay(&west, 2, 1, job.Open, 0, 0, 0, upper)
	p := &plan.Plan{Format: "seamwright-plan", Version: 1, Name: "Studio"}
	p.Surfaces = []plan.Surface{south, east, north, west}
	// Two planes of ceiling: rise 4 ft over 8 ft.
	const run, rise = 0.894427190999916, 0.447213595499958
	slope := length.FromMM((8 * ft).MM() / run)
	for i, c := range []plan.Frame{
		{Origin: [3]length.Length{0, 0, 8 * ft}, X: [3]float64{1, 0, 0}, Y: [3]float64{0, run, rise}, Normal: [3]float64{0, rise, -run}},
		{Origin: [3]length.Length{24 * ft, 16 * ft, 8 * ft}, X: [3]float64{-1, 0, 0}, Y: [3]float64{0, -run, rise}, Normal: [3]float64{0, -rise, -run}},
	} {
		s := plan.Surface{ID: fmt.Sprintf("studio/ceiling-%d", i+1), Room: "studio", Kind: plan.Ceiling, Outline: rect(0, 0, 24*ft, slope), Frame: c}
		s.Members = plan.Members{Axis: "x", Width: 3 * in / 2, Depth: 11 * in / 2, Material: "wood"}
		lay(&s, 1, 1, "gyp-16x", 0, 12*ft, 4*ft, rect(0, 0, 24*ft, slope))
		p.Surfaces = append(p.Surfaces, s)
	}
	return p
}
