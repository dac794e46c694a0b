// Package layout knows how one layer of one zone may be boarded under the rule book for seams: which courses, and
// in every course which seams are lawful. It works in course coordinates, u along the courses and v across them,
// so that sheets laid across the members and along them are one problem. A scheme is one set of courses; a row is
// a stretch of a course that takes seams of its own; a choice is one lawful set of seams for a row, with the pieces
// that it asks for. Picking one choice for each row, and cutting the pieces, is the work of package board.
//
// Seams that the user has fixed by hand are obeyed in every choice, whatever they break. Where no lawful way is left the
// breaches that weigh least are chosen (see Weight), and the rules that stand in each other's way are named.
//
// Limits: a seam stands only at members, at the places of a grid (solid backing, or seams that cross the members) and
// at whole sheets from either end; raked heads are boarded by the bounding rectangle of each piece.
package layout

import (
	"cmp"
	"context"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/calc/survey"
)

// Field is one layer of one zone, turned so that its courses run along u.
type Field struct {
	Zone  *survey.Zone
	Rules *job.Rules
	Run   job.Run      // across or along, never auto
	Swap  bool         // u is the surface's y
	Holes []shape.Rect // openings and large boxes
	Box   shape.Rect   // bounds of the zone's outline
	// Ends are what the extremes meet: low u, high u, low v, high v.
	Ends [4]survey.Meets
	// Free: an end joint needs no member behind it, since it crosses the members, backing carries it, or blocks behind the
	// board do. Blocked: the rules allow such blocks here.
	Free, Backed, Blocked bool

	names   []plan.Fact     // of Holes
	widths  []length.Length // of the sheets for sale
	outline shape.Polygon
	floor   []bool // side i of outline stands on floor or curb
	members []survey.Member
	short   []survey.Member
	space   length.Length // one member space
	// stretches profiles what is covered for joints between upright courses, nil where no opening interrupts them; voids are
	// where openings part the zone from end to end.
	stretches profile
	voids     []interval
	seams     [][2]shape.Point // of the backing
	avoid     [2][]Line        // lines to keep end joints, and long joints, clear of
	// controls are the u of control joints, which part every course.
	controls []length.Length
	partial  bool // sets of courses were left out, since there are so many
	// rows are those of bands that several schemes share.
	rows map[bandKey][]Row
	ctx  context.Context // while schemes are made, where somebody may give up waiting for them
}

// Line is a joint elsewhere that parallel joints of a zone must keep clear of: one of the layer below, or one on the
// other face of the partition.
type Line struct {
	Upright bool // on the surface: a line of one x, else of one y
	At      length.Length
	Clear   length.Length
	Rule    string
	Control bool // a control joint of the layer below, which goes on through this one
}

// Indexes into Field.Ends.
const (
	LowU = iota
	HighU
	LowV
	HighV
)

// NewField turns a zone for one direction of the sheets.
func NewField(z *survey.Zone, rules *job.Rules, run job.Run, avoid []Line) *Field {
	f := &Field{Zone: z, Rules: rules, Run: run, space: z.Surface.Space(), widths: Widths(z.Product), rows: map[bandKey][]Row{}}
	membersAlongX := z.Surface.Members.Axis != "y"
	f.Swap = membersAlongX != (run == job.RunAcross)
	f.outline = f.turn(z.Outline)
	f.Box = f.outline.Bounds()
	for _, h := range z.Holes {
		f.Holes, f.names = append(f.Holes, f.turn(h.Outline).Bounds()), append(f.names, plan.Tell("thing.opening", "id", h.Opening.ID))
	}
	for _, r := range z.Large {
		f.Holes, f.names = append(f.Holes, f.turn(r.Polygon()).Bounds()), append(f.names, plan.Tell("thing.box"))
	}
	f.readEdges()
	f.sortMembers()
	f.readStretches()
	if b := z.Surface.Backing; b != nil && z.Layer == 1 {
		for _, s := range b.Seams {
			f.seams = append(f.seams, [2]shape.Point{f.point(s[0]), f.point(s[1])})
		}
	}
	for _, l := range avoid {
		k := 1
		if l.Upright != f.Swap {
			k = 0
		}
		f.avoid[k] = append(f.avoid[k], l)
	}
	strict := f.duty(job.Rated) || f.duty(job.Separation) || f.duty(job.Bracing)
	f.Backed = z.Surface.Backing != nil && !strict
	f.Blocked = rules.BackBlocking && !strict && z.Product.Kind == job.Gypsum
	f.Free = run == job.RunAlong || f.Backed || f.Blocked
	f.controls = f.controlJoints()
	return f
}

// Ceiling tells whether the zone lies overhead.
func (f *Field) Ceiling() bool { return f.Zone.Surface.Wall == nil }

func (f *Field) duty(d job.Duty) bool {
	if w := f.Zone.Surface.Wall; w != nil {
		return slices.Contains(w.Duty, d)
	}
	if c := f.Zone.Surface.Ceiling; c != nil {
		return slices.Contains(c.Duty, d)
	}
	return false
}

// Stagger is the distance asked between end joints of adjoining courses: never more than one member space.
func (f *Field) Stagger() length.Length { return min(f.Rules.Stagger, f.space) }

// Point turns a point of the surface into course coordinates, and back: the turn is its own inverse.
func (f *Field) point(p shape.Point) shape.Point {
	if f.Swap {
		return shape.Point{X: p.Y, Y: p.X}
	}
	return p
}

func (f *Field) turn(p shape.Polygon) shape.Polygon {
	if f.Swap {
		return p.Transposed()
	}
	return p
}

// readEdges finds what the extremes of the outline meet, and which of its sides stand on the floor. Transposing keeps
// the winding, so sides are looked up by their ends.
func (f *Field) readEdges() {
	type side struct{ a, b shape.Point }
	meets := map[side]survey.Meets{}
	z := f.Zone
	for i, p := range z.Outline {
		a, b := f.point(p), f.point(z.Outline[(i+1)%len(z.Outline)])
		m := survey.AtFree
		if i < len(z.Edges) {
			m = z.Edges[i].Meets
		}
		meets[side{a, b}], meets[side{b, a}] = m, m
	}
	f.floor = make([]bool, len(f.outline))
	for i := range f.Ends {
		f.Ends[i] = survey.AtFree
	}
	for i, a := range f.outline {
		b := f.outline[(i+1)%len(f.outline)]
		m := meets[side{a, b}]
		f.floor[i] = z.FloorGap > 0 && (m == survey.AtFloor || m == survey.AtCurb)
		switch {
		case a.X == b.X && a.X == f.Box.X:
			f.Ends[LowU] = m
		case a.X == b.X && a.X == f.Box.MaxX():
			f.Ends[HighU] = m
		case a.Y == b.Y && a.Y == f.Box.Y:
			f.Ends[LowV] = m
		case a.Y == b.Y && a.Y == f.Box.MaxY():
			f.Ends[HighV] = m
		}
	}
}

// cover is what panels must cover when they stand clear of the floor by gap.
func (f *Field) cover(gap length.Length) []shape.Region {
	raised := slices.Clone(f.outline)
	up := shape.Point{Y: gap}
	if f.Swap {
		up = shape.Point{X: gap}
	}
	for i, on := range f.floor {
		if !on {
			continue
		}
		for _, k := range []int{i, (i + 1) % len(raised)} {
			raised[k] = shape.Point{X: f.outline[k].X + up.X, Y: f.outline[k].Y + up.Y}
		}
	}
	return shape.Polygon(raised).Normal().Subtract(f.Holes...)
}

// onFloor tells whether the zone reaches the floor.
func (f *Field) onFloor() bool { return slices.Contains(f.floor, true) }

// TrimLap is how far base trim laps over the board at least. Common practice, no source.
const TrimLap = length.Inch / 2

// LeastFloorGap is the least clearance of the lowest edge. GA-216 s. 4.6.11: 1/4 in.
const LeastFloorGap = length.Inch / 4

// gaps is the range of clearances that the floor allows: from, asked, to. A smaller one that the user asks for stands.
func (f *Field) gaps() (least, asked, most length.Length) {
	if !f.onFloor() {
		return 0, 0, 0
	}
	asked = f.Zone.FloorGap
	least, most = min(asked, LeastFloorGap), asked
	if w := f.Zone.Surface.Wall; w != nil {
		most = max(most, w.Trim-TrimLap)
	}
	return least, asked, most
}

// Lengths are the sheet lengths for sale in one width, shortest first, each once.
func Lengths(p *job.Product, width length.Length) []length.Length {
	var ls []length.Length
	for _, s := range p.Sizes {
		if s.Width == width {
			ls = append(ls, s.Length)
		}
	}
	slices.Sort(ls)
	return slices.Compact(ls)
}

// Widths are the sheet widths for sale, widest first, each once.
func Widths(p *job.Product) []length.Length {
	var ws []length.Length
	for _, s := range p.Sizes {
		ws = append(ws, s.Width)
	}
	slices.SortFunc(ws, func(a, b length.Length) int { return cmp.Compare(b, a) })
	return slices.Compact(ws)
}
