// Package sample makes small buildings and plans by hand for tests: flat rectangles, members at even centres, whole
// and cut sheets laid in courses. It shares nothing with the survey or the layout, so tests of what comes after them
// stand on their own. Prices are invented.
package sample

import (
	"fmt"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/money"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/calc/survey"
)

const (
	inch = length.Inch
	foot = length.Foot
)

// Job is a job with three products, a supply of every kind and no room.
func Job() *job.Job {
	sizes := func(price money.Money) []job.Size {
		return []job.Size{{Length: 8 * foot, Width: 4 * foot, Price: price}, {Length: 12 * foot, Width: 4 * foot, Price: price * 3 / 2}}
	}
	one := func(kind, unit string, holds float64, price money.Money) job.Supply {
		return job.Supply{ID: kind, Name: kind, Kind: kind, Packs: []job.Pack{{Name: fmt.Sprintf("%g %s", holds, unit), Holds: holds, Unit: unit, Price: price}}}
	}
	screw := func(id, kind string, eighths length.Length) job.Supply {
		s := one("screw", "count", 1000, 1290)
		s.ID, s.Type, s.Length = id, kind, eighths*inch/8
		return s
	}
	typed := func(s job.Supply, kind string) job.Supply {
		s.Type = kind
		return s
	}
	reach := func(s job.Supply, l length.Length) job.Supply {
		s.Length = l
		return s
	}
	cans := one("paint", "gal", 1, 3800)
	cans.Packs = append(cans.Packs, job.Pack{Name: "5 gal", Holds: 5, Unit: "gal", Price: 15500})
	return &job.Job{
		Currency: "USD", Units: job.Imperial,
		Rules: job.Rules{Screws: 12 * inch, FloorGap: inch / 2, Fit: inch / 8},
		Paint: job.Paint{Primer: 1, Coats: 2},
		Site:  job.Site{Celsius: 20, Humidity: 0.5, TaxRate: 0.0825, Hours: 6, People: 2},
		Products: []job.Product{
			{ID: "gyp-12", Kind: job.Gypsum, Thickness: inch / 2, Tapered: true, Weight: 7.8, Sizes: sizes(1550)},
			{ID: "gyp-16x", Kind: job.Gypsum, Thickness: 5 * inch / 8, Tapered: true, Weight: 10.7, FireType: true, Sizes: sizes(1890)},
			{ID: "ply-18", Kind: job.WoodPanel, Thickness: 23 * inch / 32, Weight: 10.7, Gap: inch / 32, Sizes: sizes(5200)},
		},
		Supplies: []job.Supply{
			reach(one("box-extender", "count", 1, 210), inch), one("compound", "gal", 4.5, 1900), one("control-joint", "ft", 10, 600),
			typed(one("corner-bead", "ft", 8, 450), "outside"), one("floor-paper", "ft2", 420, 2400), one("lumber", "ft", 8, 420), one("masking-paper", "ft2", 180, 600),
			one("masking-tape", "ft", 180, 450), one("nail-plate", "count", 1, 60), cans, one("primer", "gal", 1, 2100),
			one("sandpaper", "count", 5, 600),
			screw("screw-s-8", "S", 8), screw("screw-s-13", "S", 13), screw("screw-w-10", "W", 10), screw("screw-w-13", "W", 13), screw("screw-w-16", "W", 16),
			one("tape", "ft", 250, 500), typed(one("trim", "ft", 16, 1800), "base"),
		},
	}
}

// Face asks for one flat rectangle covered with sheets of one product.
type Face struct {
	ID         string
	Kind       plan.SurfaceKind
	Room       string
	W, H       length.Length
	Spacing    length.Length
	Upright    bool // members lie along x
	Product    string
	Long, Wide length.Length // sheet; courses Wide high, pieces Long long, the rest cut
	Finish     int
	Edges      [4]survey.Edge // bottom, right, top, left
	Trim       length.Length
}

// Build makes the building and the plan of some faces, one layer each. Members stand at 0, Spacing, 2·Spacing and at
// the far end. Every panel has a sheet of its own.
func Build(j *job.Job, asked ...Face) (*survey.Building, *plan.Plan) {
	b, p := &survey.Building{}, &plan.Plan{}
	for _, f := range asked {
		s := surfaceOf(j, f)
		b.Surfaces = append(b.Surfaces, s)
		ps := s.Surface
		ps.Zones = []plan.Zone{layer(j, f, p)}
		p.Surfaces = append(p.Surfaces, ps)
	}
	return b, p
}

func surfaceOf(j *job.Job, f Face) *survey.Surface {
	outline := shape.Rect{W: f.W, H: f.H}.Polygon()
	across, along, axis := f.W, f.H, job.AxisX
	if f.Upright {
		across, along, axis = f.H, f.W, job.AxisY
	}
	s := &survey.Surface{Surface: plan.Surface{ID: f.ID, Kind: f.Kind, Room: f.Room, Outline: outline}}
	framing := job.Framing{Material: job.Wood, Spacing: f.Spacing, Member: 3 * inch / 2, Depth: 7 * inch / 2}
	add := func(at length.Length, kind survey.MemberKind) {
		s.Studs = append(s.Studs, survey.Member{At: at, Width: framing.Member, Kind: kind, To: along})
		s.Members.At = append(s.Members.At, at)
	}
	add(0, survey.End)
	for at := f.Spacing; at < across; at += f.Spacing {
		add(at, survey.Common)
	}
	add(across, survey.End)
	s.Members.Axis, s.Members.Width, s.Members.Depth, s.Members.Material = string(axis), framing.Member, framing.Depth, string(job.Wood)
	if f.Kind == plan.Wall {
		s.Wall = &job.Wall{ID: f.ID, Framing: framing, Trim: f.Trim}
	} else {
		s.Ceiling = &job.Ceiling{Framing: framing}
	}
	s.Zones = []*survey.Zone{{Surface: s, Index: 1, Layer: 1, Layers: 1, Product: j.Product(f.Product), Run: job.RunAcross,
		Finish: f.Finish, Outline: outline, Edges: f.Edges[:], Start: job.StartHead}}
	return s
}

func layer(j *job.Job, f Face, p *plan.Plan) plan.Zone {
	z := plan.Zone{Zone: 1, Layer: 1, Product: f.Product, Run: string(job.RunAcross), Finish: f.Finish, Outline: shape.Rect{W: f.W, H: f.H}.Polygon()}
	seam, end := plan.Tapered, plan.Butt
	if j.Product(f.Product).Kind == job.WoodPanel {
		seam, end = plan.PanelGap, plan.PanelGap
	}
	price := money.Money(0)
	for _, s := range j.Product(f.Product).Sizes {
		if s.Length == f.Long && s.Width == f.Wide {
			price = s.Price
		}
	}
	course := 0
	for y := length.Length(0); y < f.H; y += f.Wide {
		course++
		for x := length.Length(0); x < f.W; x += f.Long {
			r := shape.Rect{X: x, Y: y, W: min(f.Long, f.W-x), H: min(f.Wide, f.H-y)}
			id := fmt.Sprintf("%s-%02d", f.ID, len(z.Panels)+1)
			sheet := fmt.Sprintf("S%03d", len(p.Sheets)+1)
			z.Panels = append(z.Panels, plan.Panel{ID: id, Outline: r.Polygon(), Course: course, Sheet: sheet})
			p.Sheets = append(p.Sheets, plan.Sheet{ID: sheet, Product: f.Product, Size: [2]length.Length{f.Long, f.Wide}, Source: plan.Buy,
				Price: price, Parts: []plan.Part{{Panel: id, Rect: shape.Rect{W: r.W, H: r.H}}}})
			if x > 0 {
				prev := z.Panels[len(z.Panels)-2].ID
				z.Joints = append(z.Joints, plan.Joint{Kind: end, From: shape.Point{X: x, Y: y}, To: shape.Point{X: x, Y: r.MaxY()},
					Panels: []string{prev, id}, Support: plan.OnMember})
			}
			if y > 0 {
				z.Joints = append(z.Joints, plan.Joint{Kind: seam, From: shape.Point{X: x, Y: y}, To: shape.Point{X: r.MaxX(), Y: y},
					Panels: []string{below(z.Panels, r), id}, Support: plan.Unsupported})
			}
		}
	}
	return z
}

// below is the panel under a rectangle's left end.
func below(panels []plan.Panel, r shape.Rect) string {
	for _, p := range panels {
		if b := p.Outline.Bounds(); b.MaxY() == r.Y && b.X <= r.X && b.MaxX() > r.X {
			return p.ID
		}
	}
	return ""
}

// Room is four walls and a flat ceiling of one product, sheets laid across, corners named from both sides.
func Room(j *job.Job, id, product string, w, d, h, long length.Length, finish int) (*survey.Building, *plan.Plan) {
	name := func(s string) string { return id + "/" + s }
	j.Rooms = append(j.Rooms, job.Room{ID: id, Height: h, Corners: []shape.Point{{}, {X: w}, {X: w, Y: d}, {Y: d}}})
	wall := func(side, left, right string, w length.Length) Face {
		return Face{ID: name(side), Kind: plan.Wall, Room: id, W: w, H: h, Spacing: 16 * inch, Product: product, Long: long, Wide: 4 * foot, Finish: finish,
			Trim: 7 * inch / 2, Edges: [4]survey.Edge{{Meets: survey.AtFloor}, {Meets: survey.AtInsideCorner, With: name(right)},
				{Meets: survey.AtCeiling}, {Meets: survey.AtInsideCorner, With: name(left)}}}
	}
	in := func(side string) survey.Edge { return survey.Edge{Meets: survey.AtInsideCorner, With: name(side)} }
	return Build(j,
		wall("south", "west", "east", w), wall("east", "south", "north", d), wall("north", "east", "west", w), wall("west", "north", "south", d),
		Face{ID: name("ceiling"), Kind: plan.Ceiling, Room: id, W: w, H: d, Spacing: 16 * inch, Product: product, Long: long, Wide: 4 * foot, Finish: finish,
			Edges: [4]survey.Edge{in("south"), in("east"), in("north"), in("west")}})
}
