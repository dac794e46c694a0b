package survey

import (
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/shape"
)

// outline is the face of the wall's framing: along `bottom`, or the floor, and back along `top`, or the roof.
func (s *side) outline() (shape.Polygon, error) {
	foot, err := s.chain(s.wall.Bottom, "bottom")
	if err != nil {
		return nil, err
	}
	if foot == nil {
		foot = []shape.Point{{}, {X: s.width}}
	}
	head, err := s.chain(s.wall.Top, "top")
	if err != nil {
		return nil, err
	}
	if head == nil {
		head = s.room.roof.head(s.left, s.right, s.width, nil)
	}
	p := closed(foot, head)
	if !p.Simple() || !p.CounterClockwise() {
		key := "top"
		if len(s.wall.Top) == 0 {
			key = "bottom"
		}
		return nil, job.Refuse(s.id(), "raise `top` or lower `bottom`; they may meet at one end of the wall only", "the wall's head does not lie above its foot everywhere").At(key, 0)
	}
	return p.Normal(), nil
}

// chain checks a measured line along the wall and carries it level to both ends; nil for none.
func (s *side) chain(points []shape.Point, name string) ([]shape.Point, error) {
	if len(points) == 0 {
		return nil, nil
	}
	c := slices.Clone(points)
	for i, p := range c {
		if p.X < 0 || p.X > s.width+lengthSlack || i > 0 && p.X < c[i-1].X {
			return nil, job.Refuse(s.id(), "list its points by x, from 0 to the wall's length", "`%s` must run from the wall's left end to its right end, without going back", name).At(name, 0)
		}
		c[i].X = min(p.X, s.width)
	}
	if first := c[0]; first.X > 0 {
		c = slices.Insert(c, 0, shape.Point{Y: first.Y})
	}
	if last := c[len(c)-1]; last.X < s.width {
		if s.width-last.X <= lengthSlack {
			c[len(c)-1].X = s.width
		} else {
			c = append(c, shape.Point{X: s.width, Y: last.Y})
		}
	}
	return c, nil
}

// lengthSlack is how far a measured point may lie from the end of a slanted wall, whose length is no round number,
// and still mean that end.
const lengthSlack = length.Millimetre

// closed joins a foot and a head, both from left to right, to an outline.
func closed(foot, head []shape.Point) shape.Polygon {
	p := slices.Clone(foot)
	for i := len(head) - 1; i >= 0; i-- {
		p = append(p, head[i])
	}
	// points that the two lines share at an end stand once
	p = slices.CompactFunc(p, func(a, b shape.Point) bool { return a == b })
	if n := len(p); n > 1 && p[0] == p[n-1] {
		p = p[:n-1]
	}
	return p
}

// bounded is what lies between a foot and a head, both from left to right over the same stretch: one outline where the
// head keeps above, else the parts in which it does, each narrowing to a point, as under a stair whose ceiling is lined.
func bounded(foot, head []shape.Point) []shape.Polygon {
	if p := closed(foot, head); p.Simple() && p.CounterClockwise() {
		return []shape.Polygon{p}
	}
	var xs []length.Length
	for _, p := range append(slices.Clone(foot), head...) {
		xs = append(xs, p.X)
	}
	slices.Sort(xs)
	xs = slices.Compact(xs)
	var strips []shape.Polygon
	for i := 1; i < len(xs); i++ {
		lowA, lowB := stretchAt(foot, xs[i-1], xs[i])
		highA, highB := stretchAt(head, xs[i-1], xs[i])
		a, b := highA-lowA, highB-lowB
		west, east := []shape.Point{{X: xs[i-1], Y: lowA}, {X: xs[i-1], Y: highA}}, []shape.Point{{X: xs[i], Y: lowB}, {X: xs[i], Y: highB}}
		if (a < 0) != (b < 0) && a != 0 && b != 0 {
			x := xs[i-1] + ratio(xs[i]-xs[i-1], a, a-b)
			tip := []shape.Point{{X: x, Y: lowA + ratio(x-xs[i-1], lowB-lowA, xs[i]-xs[i-1])}}
			if a < 0 {
				west = tip
			} else {
				east = tip
			}
		} else if a <= 0 && b <= 0 {
			continue
		}
		strip := closed([]shape.Point{west[0], east[0]}, []shape.Point{west[len(west)-1], east[len(east)-1]})
		if len(strip) > 2 && strip.Simple() && strip.CounterClockwise() {
			strips = append(strips, strip)
		}
	}
	var parts []shape.Polygon
	for _, g := range shape.Union(strips...) {
		parts = append(parts, g.Outline)
	}
	return parts
}

// stretchAt is a line's height just right of one place and just left of the next, between which it has no point.
func stretchAt(c []shape.Point, from, to length.Length) (a, b length.Length) {
	for i := 1; i < len(c); i++ {
		if p, q := c[i-1], c[i]; p.X <= from && to <= q.X {
			return p.Y + ratio(from-p.X, q.Y-p.Y, q.X-p.X), p.Y + ratio(to-p.X, q.Y-p.Y, q.X-p.X)
		}
	}
	return c[len(c)-1].Y, c[len(c)-1].Y
}

// crossings are the stretches of an outline on the upright line at x, from the bottom up. Where the outline has an
// upright side at x the stretch reaches over it.
func crossings(p shape.Polygon, x length.Length) []shape.Span {
	return shape.Chords(shape.Region{Outline: p}, x)
}

// lowered is the line that a layer's head keeps under: the wall's own head, or the underside of the ceiling's
// lining where that is lower. The slab of the ceiling's lining is t/cos thick on the upright; where the ceiling
// falls from the wall into the room, the front edge of a square end meets it first, lower by its distance from the
// framing times the slope.
func (s *side) lowered(front length.Length) (head, under []shape.Point) {
	f := s.room.roof
	if f.lining == 0 {
		head, _ = s.chain(s.wall.Top, "top")
		if head == nil {
			head = f.head(s.left, s.right, s.width, nil)
		}
		return head, nil
	}
	under = f.head(s.left, s.right, s.width, func(p pitch) length.Length {
		down := p.thick(f.lining)
		if fall := p.fall(s.normal()); fall > 0 {
			down += round(float64(front) * fall)
		}
		return down
	})
	head, _ = s.chain(s.wall.Top, "top")
	if head == nil {
		return under, under
	}
	return lowest(head, under), under
}

// lowest is the lower of two lines along a wall. The first may have upright steps; both span the same stretch.
func lowest(a, b []shape.Point) []shape.Point {
	at := func(c []shape.Point, x length.Length) length.Length {
		for i := 1; i < len(c); i++ {
			if p, q := c[i-1], c[i]; x <= q.X && p.X < q.X {
				return p.Y + ratio(x-p.X, q.Y-p.Y, q.X-p.X)
			}
		}
		return c[len(c)-1].Y
	}
	var low []shape.Point
	for i, q := range a {
		if i > 0 && a[i-1].X < q.X {
			p := a[i-1]
			for k := 1; k < len(b); k++ { // places within the stretch pq where b bends or crosses it
				u, v := b[k-1], b[k]
				if u.X > p.X && u.X < q.X && at(a, u.X) > u.Y {
					low = append(low, u)
				}
				d0, d1 := at(a, u.X)-u.Y, at(a, v.X)-v.Y
				if u.X < p.X {
					d0 = p.Y - at(b, p.X)
					u.X = p.X
				}
				if v.X > q.X {
					d1 = q.Y - at(b, q.X)
					v.X = q.X
				}
				if u.X < v.X && (d0 < 0) != (d1 < 0) && d0 != d1 {
					x := u.X + ratio(v.X-u.X, d0, d0-d1)
					low = append(low, shape.Point{X: x, Y: at(b, x)})
				}
			}
		}
		low = append(low, shape.Point{X: q.X, Y: min(q.Y, at(b, q.X))})
	}
	return low
}

// stretch carries a line along the wall on beyond both ends, straight.
func stretch(c []shape.Point, from, to length.Length) []shape.Point {
	c = slices.Clone(c)
	n := len(c)
	first, last := c[0], c[n-1]
	if from < first.X {
		y := first.Y
		if q := c[1]; q.X > first.X {
			y += ratio(from-first.X, q.Y-first.Y, q.X-first.X)
		}
		c[0] = shape.Point{X: from, Y: y}
		if c[1].X == first.X {
			c = slices.Insert(c, 1, first)
		}
	}
	if n = len(c); to > last.X {
		y := last.Y
		if q := c[n-2]; q.X < last.X {
			y += ratio(to-last.X, last.Y-q.Y, last.X-q.X)
			c[n-1] = shape.Point{X: to, Y: y}
		} else {
			c = append(c, shape.Point{X: to, Y: y})
		}
	}
	return c
}

// corner is the meeting of this wall's lining (surface 0) with its neighbour's at one end, at a height.
func (s *side) corner(rightEnd bool, own stack, y length.Length) meeting {
	n := s.prev
	if rightEnd {
		n = s.next
	}
	// u and v lead away from the corner along this wall and along its neighbour
	u, v := s.d, n.d
	sign := 1.0
	if rightEnd {
		u = shape.Point{X: -u.X, Y: -u.Y}
	} else {
		v = shape.Point{X: -v.X, Y: -v.Y}
		sign = -1
	}
	size := float64(s.width) * float64(n.width)
	m := meeting{bend: bendOf(dot(u, v)/size, sign*cross(u, v)/size), stacks: [2]stack{own, n.stackAt(y, !rightEnd)}}
	if n.rank < s.rank {
		m.first = 1
	}
	return m
}

// breaks are the heights at which the neighbour's lining changes beside one end.
func (s *side) breaks(rightEnd bool) []length.Length {
	n, x := s.prev, s.prev.width
	if rightEnd {
		n, x = s.next, 0
	}
	foot, head := n.reach(x)
	at := []length.Length{foot, head}
	for _, l := range n.zones {
		if l.zone.To != 0 {
			at = append(at, l.to)
		}
	}
	return at
}

// startOf applies the hang-order rule to a layer.
func startOf(j *job.Job, asked job.Start, p *job.Product, ceilingLined bool) job.Start {
	switch {
	case asked != job.StartAuto:
		return asked
	case p.Kind == job.WoodPanel, !ceilingLined, j.Site.People == 1:
		return job.StartFloor
	}
	return job.StartHead
}
