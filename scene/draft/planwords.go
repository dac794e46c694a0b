package draft

import (
	"math"
	"sort"

	"seamwright/assets/words"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/shape"
)

// roomName sets a room's name with its area and height in its middle, or as near to it as doors and badges allow;
// smaller rooms get the name alone, then a small one. Where nothing fits inside, nothing is set.
func (d *planSheet) roomName(r *job.Room) {
	ring := d.ring(r.Corners)
	box := around(ring...)
	if math.Min(box.W, box.H) < smallRoom {
		return
	}
	color := d.th.Ink
	if selected(d.s.Selected, Target{Kind: OnRoom, Room: r.ID}) {
		color = d.th.Accent
	}
	mid, _ := inmost(ring)
	area := d.say.Value(shape.Polygon(r.Corners).Area())
	quiet := Type{Size: Body, Anchor: Middle, Color: d.th.Quiet}
	for _, size := range [...]float64{Heading, Body, Small} {
		name := Type{Size: size, Weight: Semibold, Anchor: Middle, Color: color}
		for _, more := range [...]string{area + " · " + heightText(r, d.say), area, ""} {
			for _, by := range [...]Pt{{0, 0}, {0, -24}, {0, 24}, {-40, 0}, {40, 0}, {0, -48}, {0, 48}} {
				foot := mid.Add(by).Add(Pt{0, -2})
				below := foot.Add(Pt{0, 18})
				boxes := []Rect{textBox(foot, title(r.ID), name)}
				if more != "" {
					boxes = append(boxes, textBox(below, more, quiet))
				}
				if !d.roomFor(r, boxes) {
					continue
				}
				d.c.Text(foot, title(r.ID), name)
				d.c.Text(below, more, quiet)
				return
			}
		}
	}
}

// roomFor takes the places of words that belong together, where all of them lie free in the room.
func (d *planSheet) roomFor(r *job.Room, boxes []Rect) bool {
	for _, b := range boxes {
		if !d.taken.free(b) || !d.inRoom(r, b) {
			return false
		}
	}
	for _, b := range boxes {
		d.taken.take(b)
	}
	return true
}

// words sets what a room's drawing says besides its name.
func (d *planSheet) words(r *job.Room, walls []side) {
	box := around(d.ring(r.Corners)...)
	if math.Min(box.W, box.H) < smallRoom {
		return
	}
	if r.Ceiling != nil {
		d.joists(r, box)
	}
	for k := range walls {
		d.wallName(&walls[k])
	}
}

func heightText(r *job.Room, say *words.Voice) string {
	if r.Ceiling == nil {
		return say.Text("draft.no-ceiling", "height", r.Height)
	}
	if r.Ceiling.Shape == job.Ridge || r.Ceiling.Shape == job.Slope {
		return say.Text("draft.low-to-high", "low", r.Height, "high", r.Ceiling.High)
	}
	return say.Text("draft.to-ceiling", "height", r.Height)
}

// wallName sets a wall's name on the room's side, level to read, where there is room for it.
func (d *planSheet) wallName(s *side) {
	if s.wall == nil || s.px < smallRoom {
		return
	}
	t := Type{Size: Small, Anchor: Middle, Color: d.th.Quiet}
	if picked(d.s.Selected, s.surface) {
		t.Weight, t.Color = Semibold, d.th.Accent
	}
	name := Named(s.wall.ID, d.say)
	full := name
	if w := DutyWords(s.wall.Duty, d.say); w != "" {
		full += " · " + w
	}
	for _, text := range [2]string{full, name} {
		w := Measure(text, t.Size, t.Weight)
		// The label's centre stands off the wall by what its box reaches towards it.
		off := s.finish + 7 + math.Abs(s.in.X)*w/2 + math.Abs(s.in.Y)*t.Size/2
		for _, along := range [...]float64{0.5, 0.3, 0.7, 0.18, 0.82} {
			at := s.at(s.px*along, off)
			foot := Pt{at.X, at.Y + t.Size*capHeight/2}
			box := textBox(foot, text, t)
			if d.inRoom(s.room, box) && d.taken.add(box) {
				d.c.Text(foot, text, t)
				return
			}
		}
	}
}

// inRoom says whether a label lies wholly in the room.
func (d *planSheet) inRoom(r *job.Room, b Rect) bool {
	poly := shape.Polygon(r.Corners)
	for _, p := range b.Path()[0] {
		if poly.Contains(d.v.At(p)) != shape.Inside {
			return false
		}
	}
	return true
}

// overhead draws what hangs above: ridge line and hatches, dashed as drawings show what lies over the cut.
func (d *planSheet) overhead(r *job.Room) {
	if r.Ceiling == nil {
		return
	}
	dash := Pen{Width: 1, Color: d.th.Quiet, Dash: []float64{6, 3}}
	b := shape.Polygon(r.Corners).Bounds()
	if c := r.Ceiling; c.Shape == job.Ridge {
		from, to := shape.Point{X: b.X, Y: c.At}, shape.Point{X: b.MaxX(), Y: c.At}
		if c.Along == job.AxisY {
			from, to = shape.Point{X: c.At, Y: b.Y}, shape.Point{X: c.At, Y: b.MaxY()}
		}
		long := Pen{Width: 1, Color: d.th.Quiet, Dash: []float64{14, 3, 3, 3}}
		p, q := d.v.Place(from), d.v.Place(to)
		d.c.Stroke([]Pt{p, q}, false, long)
		d.taken.take(around(p, q).Inset(-1))
		text := d.say.Text("draft.ridge", "height", c.High)
		way, turn := reading(q.Sub(p).Unit())
		for _, k := range [...]float64{0.22, 0.78, 0.5} {
			foot := p.Add(q.Sub(p).Mul(k)).Add(way.Left().Mul(4))
			if w := Measure(text, Small, Regular); q.Sub(p).Len() > 3*w && d.taken.add(turnedBox(foot, w, Small, way)) {
				d.c.Text(foot, text, Type{Size: Small, Anchor: Middle, Color: d.th.Quiet, Turn: turn})
				break
			}
		}
	}
	if r.Ceiling.Shape == job.Ridge || r.Ceiling.Shape == job.Slope {
		return // openings of slanted planes lie in the plane's own x, y
	}
	for _, o := range r.Ceiling.Openings {
		q := o.Rect()
		ring := make([]Pt, 4)
		for i, p := range q.Polygon() {
			ring[i] = d.v.Place(p)
		}
		d.c.Stroke(ring, true, dash)
		d.c.Stroke([]Pt{ring[0], ring[2]}, false, dash)
		d.c.Stroke([]Pt{ring[1], ring[3]}, false, dash)
		d.taken.take(around(ring...))
	}
}

// joists marks the way the ceiling's members run: a line with an arrow at each end, and their spacing.
func (d *planSheet) joists(r *job.Room, box Rect) {
	const reach = 26.0
	along := Pt{1, 0}
	if r.Ceiling.Framing.Along == job.AxisY {
		along = Pt{0, -1}
	}
	text := d.say.Text("draft.on-center", "spacing", spacingText(r.Ceiling.Framing.Spacing, d.say))
	w := Measure(text, Small, Regular)
	if box.W < w+2*reach+40 || box.H < 3*reach+40 {
		return
	}
	// Places spread over the room, the nearest to its lower left quarter first.
	var tries []Pt
	for _, ky := range [...]float64{0.75, 0.25, 0.5, 0.85, 0.15} {
		for _, kx := range [...]float64{0.25, 0.7, 0.5, 0.15, 0.8} {
			tries = append(tries, Pt{box.X + box.W*kx, box.Y + box.H*ky})
		}
	}
	for _, at := range tries {
		a, b := at.Sub(along.Mul(reach)), at.Add(along.Mul(reach))
		foot := Pt{at.X + 8, at.Y + Small*capHeight/2}
		t := Type{Size: Small, Color: d.th.Quiet}
		if along.Y == 0 {
			foot, t.Anchor = Pt{at.X, at.Y - 5}, Middle
		}
		sign, words := around(a, b).Inset(-5), textBox(foot, text, t)
		if !d.inRoom(r, sign) || !d.inRoom(r, words) || !d.taken.free(sign) || !d.taken.free(words) {
			continue
		}
		d.taken.take(sign)
		d.taken.take(words)
		pen := Pen{Width: 1, Color: d.th.Quiet}
		d.c.Stroke([]Pt{a, b}, false, pen)
		for _, end := range [2]struct{ at, way Pt }{{a, along}, {b, along.Mul(-1)}} {
			for _, turn := range [2]float64{1, -1} {
				barb := end.at.Add(end.way.Mul(7)).Add(end.way.Left().Mul(3 * turn))
				d.c.Stroke([]Pt{end.at, barb}, false, pen)
			}
		}
		d.c.Text(foot, text, t)
		return
	}
}

// inmost is the place in an outline farthest from its sides, to a sixteenth of its size, and that distance. The
// centre of area is kept where it is nearly as good, since names belong in the middle.
func inmost(ring []Pt) (Pt, float64) {
	box := around(ring...)
	var best Pt
	far := -1.0
	const steps = 16
	for i := 1; i < steps; i++ {
		for k := 1; k < steps; k++ {
			q := Pt{box.X + box.W*float64(i)/steps, box.Y + box.H*float64(k)/steps}
			if dist := clearance(ring, q); dist > far {
				best, far = q, dist
			}
		}
	}
	if dist := clearance(ring, box.Mid()); dist >= 0.9*far {
		return box.Mid(), dist
	}
	return best, far
}

// clearance is how far a point lies from an outline's sides, negative outside.
func clearance(ring []Pt, q Pt) float64 {
	near, inside := math.Inf(1), false
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		if (a.Y > q.Y) != (b.Y > q.Y) && q.X < a.X+(q.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			inside = !inside
		}
		near = math.Min(near, distance(q, a, b))
	}
	if !inside {
		return -near
	}
	return near
}

// distance is from a point to a line between two others.
func distance(q, a, b Pt) float64 {
	way := b.Sub(a)
	l2 := way.X*way.X + way.Y*way.Y
	if l2 == 0 {
		return q.Sub(a).Len()
	}
	t := ((q.X-a.X)*way.X + (q.Y-a.Y)*way.Y) / l2
	t = math.Max(0, math.Min(1, t))
	return q.Sub(a.Add(way.Mul(t))).Len()
}

// How far outside the framing the two rows of dimensions stand, in pixels.
const (
	nearChain = 26.0
	farChain  = 48.0
)

// chains sets the dimensions: where a side has openings, a near row of them; beyond it the whole length, once for
// parallel sides of one length, at the top and at the right where there is a choice.
func (d *planSheet) chains() {
	d.c.Begin("dimensions")
	defer d.c.End()
	for i := range d.rooms {
		list := make([]*side, len(d.rooms[i]))
		for k := range list {
			list[k] = &d.rooms[i][k]
		}
		rank := func(s *side) int { // outward way: up, right, left, down
			switch out := s.in.Mul(-1); {
			case out.Y < -0.7:
				return 0
			case out.X > 0.7:
				return 1
			case out.X < -0.7:
				return 2
			default:
				return 3
			}
		}
		sort.SliceStable(list, func(a, b int) bool { return rank(list[a]) < rank(list[b]) })
		var said []*side
		for _, s := range list {
			d.chainsOf(s, i, &said)
		}
	}
}

func (d *planSheet) chainsOf(s *side, room int, said *[]*side) {
	if s.wall == nil || s.px < 24 {
		return
	}
	whole := d.v.Length(s.px)
	n := len(s.room.Corners)
	a, b := s.room.Corners[s.wall.Side-1], s.room.Corners[s.wall.Side%n]
	if a.X == b.X {
		whole = (b.Y - a.Y).Abs()
	} else if a.Y == b.Y {
		whole = (b.X - a.X).Abs()
	}
	out, base := s.in.Mul(-1), s.depth
	if d.neighbour(s, room) {
		if len(s.wall.Openings) == 0 || d.across(s, &s.wall.Openings[0], 0, room) {
			return
		}
		out, base = s.in, s.finish
	}
	row := base + nearChain
	if len(s.wall.Openings) > 0 {
		marks, figures := d.openingMarks(s, whole)
		if out == s.in && !roomy(marks, figures) { // it would only stand in the way of the room's words
			return
		}
		chain(d.c, d.th, s.left.Add(out.Mul(row)), s.along, out, row-base, marks, figures, &d.taken)
		row = base + farChain
	}
	for _, o := range *said {
		if math.Abs(o.px-s.px) < 0.5 && math.Abs(o.along.X*s.along.Y-o.along.Y*s.along.X) < 1e-6 {
			return
		}
	}
	if out == s.in { // inside, only the openings
		return
	}
	*said = append(*said, s)
	chain(d.c, d.th, s.left.Add(out.Mul(row)), s.along, out, row-base, []float64{0, s.px}, []string{dimension(whole, d.say)}, &d.taken)
}

// roomy says whether every figure of a chain has room between its marks.
func roomy(marks []float64, figures []string) bool {
	for i, s := range figures {
		if marks[i+1]-marks[i] < Measure(s, Small, Regular)+2*chainSide {
			return false
		}
	}
	return true
}

// openingMarks is where openings begin and end along a wall, and the lengths between.
func (d *planSheet) openingMarks(s *side, whole length.Length) (marks []float64, figures []string) {
	ends := []length.Length{0, whole}
	for _, o := range s.wall.Openings {
		ends = append(ends, o.At, o.At+o.Width)
	}
	sort.Slice(ends, func(i, k int) bool { return ends[i] < ends[k] })
	for i, e := range ends {
		if i > 0 && e == ends[i-1] {
			continue
		}
		if len(marks) > 0 {
			figures = append(figures, dimension(e-ends[i-1], d.say))
		}
		marks = append(marks, d.v.Px(e))
	}
	return marks, figures
}

// throughWall is how far apart the two faces of one door can stand: the thickest partition and its linings.
const throughWall = 18 * length.Inch

// across says whether an opening is also on the other face of the same partition, in one of the rooms from one to
// before another.
func (d *planSheet) across(s *side, o *job.Opening, from, to int) bool {
	mid := s.at(d.v.Px(o.At+o.Width/2), 0)
	for _, room := range d.rooms[from:to] {
		for k := range room {
			other := &room[k]
			if other.wall == nil {
				continue
			}
			for _, q := range other.wall.Openings {
				if other.at(d.v.Px(q.At+q.Width/2), 0).Sub(mid).Len() <= d.v.Px(throughWall) {
					return true
				}
			}
		}
	}
	return false
}

// neighbour says whether another room lies where this side's dimensions would stand.
func (d *planSheet) neighbour(s *side, room int) bool {
	for _, k := range [...]float64{0.02, 0.25, 0.5, 0.75, 0.98} {
		at := s.at(s.px*k, -s.depth-nearChain)
		for i := range d.j.Rooms {
			if i != room && d.boxes[i].Has(at) && shape.Polygon(d.j.Rooms[i].Corners).Contains(d.v.At(at)) == shape.Inside {
				return true
			}
		}
	}
	return false
}
