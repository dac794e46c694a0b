package survey

import (
	"cmp"
	"math"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
)

// addOpenings notes the rough openings, which must lie in the surface.
func (s *Surface) addOpenings(openings []job.Opening) error {
	refuse := func(o *job.Opening, remedy, format string, args ...any) error {
		return job.Refuse(s.ID, remedy, format, args...).At("openings", s.numberOf(o.ID))
	}
	for i := range openings {
		o := openings[i]
		r := o.Rect()
		if r.W <= 0 || r.H <= 0 {
			return refuse(&o, "write a width and a height above 0", "the opening %q has no size", o.ID)
		}
		if in := s.Outline.Intersect(r); len(in) != 1 || in[0].Area() != r.Area() {
			if s.Ceiling != nil && s.Ceiling.Shape == job.Ridge {
				return refuse(&o, "over the ridge write two openings, one on each side; sizes count along the slope", "the opening %q does not lie wholly on one side of the ridge", o.ID)
			}
			return refuse(&o, "move it, or make it smaller", "the opening %q does not lie wholly in its surface", o.ID)
		}
		for _, q := range s.rough {
			other := q.Rect()
			if r.X < other.MaxX() && other.X < r.MaxX() && r.Y < other.MaxY() && other.Y < r.MaxY() {
				return refuse(&o, "move one of them", "the openings %q and %q overlap", q.ID, o.ID)
			}
		}
		s.rough = append(s.rough, o)
		s.Openings = append(s.Openings, plan.Opening{ID: o.ID, Kind: string(o.Kind), Outline: r.Polygon(), Reveal: o.Reveal, Return: string(o.Return)})
		if o.Kind != job.KeepOut {
			s.Holes = append(s.Holes, r.Polygon())
		}
	}
	return nil
}

// numberOf is which opening of its wall or ceiling, as the file lists them from 1, bears an id; 0 where none does.
func (s *Surface) numberOf(id string) int {
	var listed []job.Opening
	switch {
	case s.Wall != nil:
		listed = s.Wall.Openings
	case s.Ceiling != nil:
		listed = s.Ceiling.Openings
	}
	return 1 + slices.IndexFunc(listed, func(o job.Opening) bool { return o.ID == id })
}

// roundBox is the number of sides of the polygon around a round box; it keeps within 1 % of the radius.
const roundBox = 24

// addBoxes notes the cutouts of boxes: a rectangle, or a polygon around a round one.
func (s *Surface) addBoxes(boxes []job.Box) {
	s.Placed = boxes
	for _, b := range boxes {
		if b.Diameter == 0 {
			s.Boxes = append(s.Boxes, b.Rect().Polygon())
			continue
		}
		r := float64(b.Diameter) / 2 / math.Cos(math.Pi/roundBox)
		p := make(shape.Polygon, roundBox)
		for i := range p {
			a := 2 * math.Pi * (float64(i) + 0.5) / roundBox
			p[i] = shape.Point{X: b.At + round(r*math.Cos(a)), Y: b.Up + round(r*math.Sin(a))}
		}
		s.Boxes = append(s.Boxes, p.Normal())
	}
}

func (s *Surface) addBacking(j *job.Job, b *job.Backing) error {
	if b == nil {
		return nil
	}
	p := j.Product(b.Product)
	if p == nil {
		return job.Refuse(s.ID, "write the id of a product of the catalog", "there is no product %q in the catalog for the backing", b.Product).At("backing", 0)
	}
	s.Backing = &Backing{Product: p, Seams: b.Seams}
	return nil
}

// place is a member before openings cut it: it may stand along part of the surface only.
type place struct {
	at   length.Length
	kind MemberKind
	span shape.Span // where kind is End: the stretch of the edge it stands at; else everything
}

var everywhere = shape.Span{From: math.MinInt64, To: math.MaxInt64}

// addMembers stands the members: at the ends of the surface with their faces inside it, at both sides of every
// opening, on the grid, and where the user has put some. A grid member that would overlap one of the others gives
// way to it. Openings cut members; what is left above and below is a cripple.
func (s *Surface) addMembers(f job.Framing) {
	outline := s.Outline
	turned := s.Members.Axis == string(job.AxisY)
	if turned {
		outline = outline.Transposed()
	}
	var cuts []shape.Rect
	var jambs []shape.Rect
	for _, o := range s.rough {
		r := o.Rect()
		if turned {
			r = shape.Rect{X: r.Y, Y: r.X, W: r.H, H: r.W}
		}
		jambs = append(jambs, r)
		if o.Kind != job.KeepOut {
			cuts = append(cuts, r)
		}
	}
	for _, p := range places(outline, jambs, f) {
		if slices.ContainsFunc(f.Without, func(x length.Length) bool { return (x - p.at).Abs() <= f.Member/2 }) {
			continue
		}
		s.stand(outline, cuts, f.Member, p)
	}
	order := func(a, b Member) int { return cmp.Or(cmp.Compare(a.At, b.At), cmp.Compare(a.From, b.From)) }
	slices.SortFunc(s.Studs, order)
	slices.SortFunc(s.Short, order)
	for _, m := range s.Studs {
		if n := len(s.Members.At); n == 0 || s.Members.At[n-1] != m.At {
			s.Members.At = append(s.Members.At, m.At)
		}
	}
	for _, m := range s.Short {
		if n := len(s.Cripples); n == 0 || s.Cripples[n-1] != m.At {
			s.Cripples = append(s.Cripples, m.At)
		}
	}
}

// places lists where members go, those that others give way to first.
func places(outline shape.Polygon, openings []shape.Rect, f job.Framing) []place {
	bounds := outline.Bounds()
	half := f.Member / 2
	var found []place
	add := func(p place) {
		for _, q := range found {
			if q.at == p.at && q.span == everywhere {
				return
			}
		}
		found = append(found, p)
	}
	for i, a := range outline { // edges that run with the members: the interior lies to their left
		b := outline[(i+1)%len(outline)]
		if a.X != b.X {
			continue
		}
		at, span := a.X-half, shape.Span{From: a.Y, To: b.Y}
		if b.Y < a.Y {
			at, span = a.X+half, shape.Span{From: b.Y, To: a.Y}
		}
		if a.X == bounds.X || a.X == bounds.MaxX() {
			span = everywhere
		}
		add(place{at, End, span})
	}
	if !slices.ContainsFunc(found, func(p place) bool { return p.at == bounds.X+half }) {
		add(place{bounds.X + half, End, everywhere})
	}
	if !slices.ContainsFunc(found, func(p place) bool { return p.at == bounds.MaxX()-half }) {
		add(place{bounds.MaxX() - half, End, everywhere})
	}
	for _, r := range openings {
		add(place{r.X - half, Jamb, everywhere})
		add(place{r.MaxX() + half, Jamb, everywhere})
	}
	for _, x := range f.Also {
		add(place{x, Common, everywhere})
	}
	first := f.First
	if first == 0 {
		first = f.Spacing
	}
	fixed := len(found)
	for x := bounds.X + first; f.Spacing > 0 && x < bounds.MaxX(); x += f.Spacing {
		if !slices.ContainsFunc(found[:fixed], func(p place) bool {
			return p.span == everywhere && (p.at-x).Abs() < max(f.Member, 1)
		}) {
			add(place{x, Common, everywhere})
		}
	}
	return found
}

// stand adds the member at a place, less what the openings take of it.
func (s *Surface) stand(outline shape.Polygon, openings []shape.Rect, width length.Length, p place) {
	half := width / 2
	bounds := outline.Bounds()
	if p.at < bounds.X || p.at > bounds.MaxX() {
		return
	}
	for _, chord := range crossings(outline, p.at) {
		from, to := max(chord.From, p.span.From), min(chord.To, p.span.To)
		if from >= to {
			continue
		}
		left := []shape.Span{{From: from, To: to}}
		for _, r := range openings {
			if r.X >= p.at+half || r.MaxX() <= p.at-half {
				continue
			}
			var rest []shape.Span
			for _, l := range left {
				if l.From < min(r.Y, l.To) {
					rest = append(rest, shape.Span{From: l.From, To: min(r.Y, l.To)})
				}
				if max(r.MaxY(), l.From) < l.To {
					rest = append(rest, shape.Span{From: max(r.MaxY(), l.From), To: l.To})
				}
			}
			left = rest
		}
		if len(left) == 1 && left[0].From == from && left[0].To == to {
			s.Studs = append(s.Studs, Member{p.at, width, p.kind, from, to})
			continue
		}
		for _, l := range left {
			s.Short = append(s.Short, Member{p.at, width, Cripple, l.From, l.To})
		}
	}
}
