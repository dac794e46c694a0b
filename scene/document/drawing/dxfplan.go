package drawing

import (
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/scene/draft"
)

// side is one wall from above, in the file's unit: its ends as seen from inside the room, on the face of the framing, and
// the corners of framing and lining beyond and before them.
type side struct {
	wall                  *job.Wall
	surface               *plan.Surface
	left, right           xy
	outerLeft, outerRight xy
	innerLeft, innerRight xy
	along, in             xy // unit ways: to the right, and into the room
	long                  length.Length
	depth, thick          float64 // of framing and lining
}

// cutHeight is where the plan cuts the walls: the lining there is the one drawn.
const cutHeight = 1200 * length.Millimetre

// plan draws all rooms from above.
func (o *office) plan() {
	o.at = shape.Point{}
	rooms := make([][]side, len(o.r.Job.Rooms))
	for i := range o.r.Job.Rooms {
		rooms[i] = o.sides(&o.r.Job.Rooms[i])
	}
	for i := range o.r.Job.Rooms {
		r := &o.r.Job.Rooms[i]
		o.d.outline(layerRooms, o.ring(r.Corners)...)
		for k := range rooms[i] {
			o.wall(&rooms[i][k], slices.Concat(rooms[i+1:]...))
		}
		o.overhead(r)
		b := shape.Polygon(r.Corners).Bounds()
		mid := o.place(shape.Point{X: b.X + b.W/2, Y: b.Y + b.H/2})
		o.d.text(layerWords, mid.add(xy{0, o.letter()}), 1.5*o.letter(), 0, draft.WallName(r.ID))
		o.d.text(layerWords, mid.sub(xy{0, o.letter()}), o.letter(), 0, o.r.Voice.Value(shape.Polygon(r.Corners).Area()))
	}
}

// sides places a room's walls. Corners of framing and lining stand where the moved faces of neighbours meet, exact.
func (o *office) sides(r *job.Room) []side {
	n := len(r.Corners)
	ring := slices.Clone(shape.Polygon(r.Corners))
	turned := !ring.CounterClockwise()
	if turned {
		slices.Reverse(ring)
	}
	list := make([]side, n)
	back, front := make([]length.Length, n), make([]length.Length, n)
	for k := range ring {
		i := k // the side in the order of the file
		if turned {
			i = (2*n - 2 - k) % n
		}
		if i < len(r.Walls) {
			w := &r.Walls[i]
			list[k].wall, list[k].surface = w, surface(o.r.Plan, r.ID+"/"+w.ID)
			back[k], front[k] = -w.Framing.Depth, o.thickness(w)
		}
	}
	outer, inner := ring.Inset(back), ring.Inset(front)
	for k := range list {
		s, next := &list[k], (k+1)%n
		s.left, s.right = o.place(ring[next]), o.place(ring[k])
		s.outerLeft, s.outerRight = o.place(outer[next]), o.place(outer[k])
		s.innerLeft, s.innerRight = o.place(inner[next]), o.place(inner[k])
		way := s.right.sub(s.left)
		s.along = way.mul(1 / way.long())
		s.in = xy{s.along.y, -s.along.x}
		s.long = plan.Joint{From: ring[k], To: ring[next]}.Long()
		s.depth, s.thick = -o.value(back[k]), o.value(front[k])
	}
	return list
}

// thickness is that of the lining where the plan cuts the wall.
func (o *office) thickness(w *job.Wall) (t length.Length) {
	for i := range w.Lining {
		if z := &w.Lining[i]; z.To == 0 || z.To > cutHeight {
			for _, id := range z.Layers {
				if p := o.r.Job.Product(id); p != nil {
					t += p.Thickness
				}
			}
			break
		}
	}
	return t
}

// at is a place along the wall and into the room.
func (s *side) at(along, in float64) xy { return s.left.add(s.along.mul(along)).add(s.in.mul(in)) }

// wall draws one wall with what stands in it; later are the walls of the rooms behind it in the file.
func (o *office) wall(s *side, later []side) {
	if s.wall == nil {
		return
	}
	o.d.outline(layerWalls, s.left, s.right, s.outerRight, s.outerLeft)
	if s.thick > 0 {
		o.d.outline(layerLining, s.left, s.right, s.innerRight, s.innerLeft)
	}
	if s.surface != nil {
		half := o.value(s.surface.Members.Width) / 2
		for _, m := range s.surface.Members.At {
			x := o.value(m)
			o.d.outline(layerMembers, s.at(x-half, 0), s.at(x+half, 0), s.at(x+half, -s.depth), s.at(x-half, -s.depth))
		}
	}
	for i := range s.wall.Openings {
		o.opening(s, &s.wall.Openings[i], later)
	}
	off := s.depth + 3*o.letter()
	o.size(s.at(0, -off), s.at(o.value(s.long), -off), o.figure(s.long))
}

// doubleDoor is the width from which a door is drawn with two leaves, as the window draws it. Common practice, no source.
const doubleDoor = 48 * length.Inch

// opening draws a rough opening, and a door's leaves open with their swing. On which side a door is hung is not known: it is
// drawn at the left, turning into the room; one that two rooms share turns into the later one.
func (o *office) opening(s *side, q *job.Opening, later []side) {
	a, b := o.value(q.At), o.value(q.At+q.Width)
	o.d.outline(layerOpenings, s.at(a, s.thick), s.at(b, s.thick), s.at(b, -s.depth), s.at(a, -s.depth))
	switch {
	case q.Kind != job.Door || slices.ContainsFunc(later, func(t side) bool { return o.shares(s, q, &t) }):
	case q.Width > doubleDoor:
		o.leaf(s, a, (a+b)/2)
		o.leaf(s, b, (a+b)/2)
	default:
		o.leaf(s, a, b)
	}
}

// throughWall is how far apart the two faces of one door can stand: the thickest partition and its linings.
const throughWall = 18 * length.Inch

// shares tells whether an opening goes on in another wall.
func (o *office) shares(s *side, q *job.Opening, other *side) bool {
	if other.wall == nil {
		return false
	}
	mid := s.at(o.value(q.At+q.Width/2), 0)
	return slices.ContainsFunc(other.wall.Openings, func(p job.Opening) bool {
		return other.at(o.value(p.At+p.Width/2), 0).sub(mid).long() <= o.value(throughWall)
	})
}

// leaf draws an open door hung at one place whose free edge closes at another.
func (o *office) leaf(s *side, hinge, edge float64) {
	at := s.at(hinge, s.thick)
	shut, open := s.along, s.in
	radius := edge - hinge
	if radius < 0 {
		shut, radius = shut.mul(-1), -radius
	}
	o.d.line(layerDoors, at, at.add(open.mul(radius)))
	from, to := shut.degrees(), open.degrees()
	if shut.x*open.y-shut.y*open.x < 0 { // arcs run counter-clockwise
		from, to = to, from
	}
	o.d.arc(layerSwings, at, radius, from, to)
	o.d.reach(at.add(open.mul(radius)))
}

// overhead draws a ridge, and hatches of a flat ceiling.
func (o *office) overhead(r *job.Room) {
	c := r.Ceiling
	if c == nil {
		return
	}
	b := shape.Polygon(r.Corners).Bounds()
	switch c.Shape {
	case job.Ridge:
		from, to := shape.Point{X: b.X, Y: c.At}, shape.Point{X: b.MaxX(), Y: c.At}
		if c.Along == job.AxisY {
			from, to = shape.Point{X: c.At, Y: b.Y}, shape.Point{X: c.At, Y: b.MaxY()}
		}
		o.d.line(layerOverhead, o.place(from), o.place(to))
	case job.Slope: // openings of a slope lie in its own x, y
	default:
		for i := range c.Openings {
			o.d.outline(layerOverhead, o.ring(c.Openings[i].Rect().Polygon())...)
		}
	}
}
