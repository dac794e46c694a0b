package survey

import (
	"cmp"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/calc/span"
)

// What board carries over is the bays that exist, between members that stand where they stand: a wall is the same wall
// however its framing is written.

// Bay is the room between two neighbouring members, from centre to centre.
type Bay struct {
	From, To length.Length
	Width    length.Length // as the span table counts it
}

// plate is what a board's edge bears on where members end: a strip no wider than it spans nothing.
const plate = 3 * length.Inch / 2

// Bays are the bays that the zone's board carries over, over and under openings those between cripples. Corners and the sides
// of openings have two members side by side (common practice, no source), of which the survey stands one: a bay that ends there
// counts as narrower by that member's face. Beyond the outermost members there is none.
func (z *Zone) Bays() (bays []Bay) {
	c := z.chart()
	for i, m := range c.members {
		left := []shape.Span{m.extent()}
		for _, n := range c.members[i+1:] {
			var rest []shape.Span
			for _, s := range left {
				e := n.extent()
				both := shape.Span{From: max(s.From, e.From), To: min(s.To, e.To)}
				if both.From >= both.To {
					rest = append(rest, s)
					continue
				}
				if c.covered(m.At, n.At, both) {
					bays = append(bays, Bay{m.At, n.At, n.At - m.At - max(m.second(), n.second())})
				}
				for _, r := range []shape.Span{{From: s.From, To: both.From}, {From: both.To, To: s.To}} {
					if r.Width() > plate {
						rest = append(rest, r)
					}
				}
			}
			if left = rest; len(left) == 0 {
				break
			}
		}
	}
	return bays
}

// Widest is the widest of the zone's bays, the first of them; no bay at all has no width.
func (z *Zone) Widest() (widest Bay) {
	for _, b := range z.Bays() {
		if b.Width > widest.Width {
			widest = b
		}
	}
	return widest
}

// extent is where along itself a member stands; one whose ends are not known stands everywhere.
func (m Member) extent() shape.Span {
	if m.From == m.To {
		return everywhere
	}
	return shape.Span{From: m.From, To: m.To}
}

// second is the face of the second member that stands beside one at a corner or an opening.
func (m Member) second() length.Length {
	if m.Kind == Jamb || m.Kind == End {
		return m.Width
	}
	return 0
}

// chart is a zone in u, across its members, and v, along them.
type chart struct {
	outline shape.Polygon
	plain   bool // the outline is its bounds
	box     shape.Rect
	holes   []shape.Rect
	levels  []length.Length // every v at which outline or openings change, in order
	members []Member        // in order of their places
}

func (z *Zone) chart() *chart {
	s := z.Surface
	c := &chart{outline: z.Outline}
	turn := s.Members.Axis == string(job.AxisY)
	if turn {
		c.outline = c.outline.Transposed()
	}
	c.box = c.outline.Bounds()
	c.plain = len(c.outline) == 4 && c.outline.Area() == c.box.Area()
	for _, p := range c.outline {
		c.levels = append(c.levels, p.Y)
	}
	for _, h := range z.Holes {
		r := h.Outline.Bounds()
		if turn {
			r = shape.Rect{X: r.Y, Y: r.X, W: r.H, H: r.W}
		}
		c.holes = append(c.holes, r)
		c.levels = append(c.levels, r.Y, r.MaxY())
	}
	slices.Sort(c.levels)
	c.levels = slices.Compact(c.levels)
	c.members = slices.Concat(s.Studs, s.Short)
	slices.SortStableFunc(c.members, func(a, b Member) int { return cmp.Or(cmp.Compare(a.At, b.At), cmp.Compare(a.From, b.From)) })
	return c
}

// covered tells whether board hangs in a bay anywhere along a stretch of it: at some level it takes up the bay's middle half.
func (c *chart) covered(from, to length.Length, along shape.Span) bool {
	quarter := (to - from) / 4
	from, to = from+quarter, to-quarter
	for i := 1; i < len(c.levels); i++ {
		low, high := max(along.From, c.levels[i-1]), min(along.To, c.levels[i])
		if high-low <= plate {
			continue
		}
		v := low + (high-low)/2
		open := slices.ContainsFunc(c.holes, func(r shape.Rect) bool { return r.Y < v && v < r.MaxY() && r.X < to && from < r.MaxX() })
		if !open && c.holds(from, to, v) {
			return true
		}
	}
	return false
}

// holds tells whether the outline takes up the level line at v between two places.
func (c *chart) holds(from, to, v length.Length) bool {
	if c.plain {
		return c.box.X <= from && to <= c.box.MaxX()
	}
	return slices.ContainsFunc(shape.Chords(shape.Region{Outline: c.outline.Transposed()}, v),
		func(s shape.Span) bool { return s.From <= from && to <= s.To })
}

// Space is one member space of a surface: the commonest distance between neighbouring members that stand from end to end, the
// wider of two as common. It is measured from the faces of a wall's ends, as framing is laid out; bays beside openings
// count only where there are no others. 16 in where fewer than two members stand.
func (s *Surface) Space() length.Length {
	if space := s.commonest(func(m, n Member) bool { return m.Kind != Jamb && n.Kind != Jamb }); space > 0 {
		return space
	}
	if space := s.commonest(func(m, n Member) bool { return m.Kind != Jamb || n.Kind != Jamb || !s.opensAt((m.At+n.At)/2) }); space > 0 {
		return space
	}
	return 16 * length.Inch
}

func (s *Surface) commonest(counts func(m, n Member) bool) (space length.Length) {
	count := map[length.Length]int{}
	for i := 1; i < len(s.Studs); i++ {
		m, n := s.Studs[i-1], s.Studs[i]
		d := n.At - m.At
		if !counts(m, n) || d <= 0 {
			continue
		}
		if i == 1 && m.Kind == End {
			d += m.Width / 2
		}
		if i == len(s.Studs)-1 && n.Kind == End {
			d += n.Width / 2
		}
		count[d]++
		if more := cmp.Or(cmp.Compare(count[d], count[space]), cmp.Compare(d, space)); more > 0 {
			space = d
		}
	}
	return space
}

// opensAt tells whether an opening lies at a place across the members.
func (s *Surface) opensAt(u length.Length) bool {
	return slices.ContainsFunc(s.Holes, func(h shape.Polygon) bool {
		r := h.Bounds()
		if s.Members.Axis == string(job.AxisY) {
			r.X, r.W = r.Y, r.H
		}
		return r.X < u && u < r.MaxX()
	})
}

// Use is how the zone's board is used when it lies in a direction.
func (z *Zone) Use(run job.Run) span.Use {
	s := z.Surface
	u := span.Use{Ceiling: s.Kind == plan.Ceiling, Run: run, Bay: z.Widest().Width, Plies: z.Plies}
	insulation := job.NoInsulation
	switch {
	case s.Wall != nil:
		insulation, u.Duties = s.Wall.Insulation, s.Wall.Duty
	case s.Ceiling != nil:
		insulation, u.Duties = s.Ceiling.Insulation, s.Ceiling.Duty
	}
	u.Loaded = u.Ceiling && insulation != job.NoInsulation && insulation != ""
	return u
}

// Spans tells whether the zone's board may carry over its bays when it lies in a direction, and the widest bay that it may
// carry over. Wood panels, further layers and layers on solid backing are not limited here.
func (z *Zone) Spans(run job.Run) (limit length.Length, ok bool) {
	if !z.Spanning() {
		return 0, true
	}
	u := z.Use(run)
	widest, _ := span.Widest(z.Product, u)
	return widest.Bay, u.Bay == 0 || widest.Reaches(u.Bay)
}

// Spanning tells whether the span table speaks of this layer: board straight on members.
func (z *Zone) Spanning() bool {
	return z.Product.Kind == job.Gypsum && z.Layer == 1 && z.Surface.Backing == nil
}
