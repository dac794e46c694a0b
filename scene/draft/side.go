package draft

import (
	"math"
	"strings"

	"seamwright/assets/words"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/shape"
)

// side is one wall on the canvas: its ends as seen from inside the room, and the ways along it and into the room.
type side struct {
	room        *job.Room
	wall        *job.Wall
	surface     string
	left, right Pt
	along, in   Pt      // unit ways: left to right, and into the room
	px          float64 // length
	depth       float64 // framing as drawn, outward
	finish      float64 // lining as drawn, inward
	outer       [2]Pt   // the framing's outer corners at left and right, mitred
	inner       [2]Pt   // the lining's room side
}

// Walls are drawn to scale but never thinner than this, in pixels at working zoom and in metres at small ones.
const (
	leastFraming, leastFinish   = 6.0, 5.0
	leastFramingM, leastFinishM = 0.14, 0.11
)

// sides places a room's walls, in the order of its corners.
func sides(r *job.Room, j *job.Job, v View) []side {
	n := len(r.Corners)
	if n < 3 {
		return nil
	}
	cw := !shape.Polygon(r.Corners).CounterClockwise()
	list := make([]side, n)
	for i := range list {
		s := &list[i]
		s.room = r
		a, b := r.Corners[i], r.Corners[(i+1)%n]
		if !cw {
			a, b = b, a
		}
		s.left, s.right = v.Place(a), v.Place(b)
		s.along = s.right.Sub(s.left).Unit()
		s.in = s.along.Left().Mul(-1)
		s.px = s.right.Sub(s.left).Len()
		s.depth = math.Min(leastFraming, leastFramingM*v.Scale)
		s.finish = math.Min(leastFinish, leastFinishM*v.Scale)
		if i < len(r.Walls) {
			s.wall = &r.Walls[i]
			s.surface = r.ID + "/" + s.wall.ID
			s.depth = math.Max(s.depth, v.Px(s.wall.Framing.Depth))
			s.finish = math.Max(s.finish, v.Px(thickness(atCut(s.wall.Lining), j)))
		}
	}
	for i := range list {
		// The neighbour at the left end is the one before in clockwise order.
		before, after := &list[(i+n-1)%n], &list[(i+1)%n]
		if !cw {
			before, after = after, before
		}
		s := &list[i]
		s.outer = [2]Pt{mitre(s.left, before, s, -1), mitre(s.right, s, after, -1)}
		s.inner = [2]Pt{mitre(s.left, before, s, 1), mitre(s.right, s, after, 1)}
	}
	return list
}

// mitreLimit is how far a mitred corner may stand from the wall's corner, in wall thicknesses; sharper ones are cut.
const mitreLimit = 4.0

// mitre is where the faces of two walls that meet at a corner cross: the outer faces for way -1, the lining's for 1.
func mitre(corner Pt, a, b *side, way float64) Pt {
	ta, tb := -a.depth, -b.depth
	if way > 0 {
		ta, tb = a.finish, b.finish
	}
	pa, pb := corner.Add(a.in.Mul(ta)), corner.Add(b.in.Mul(tb))
	cross := a.along.X*b.along.Y - a.along.Y*b.along.X
	if math.Abs(cross) < 1e-6 {
		return pb
	}
	d := pb.Sub(pa)
	t := (d.X*b.along.Y - d.Y*b.along.X) / cross
	at := pa.Add(a.along.Mul(t))
	if at.Sub(corner).Len() > mitreLimit*math.Max(math.Abs(ta), math.Abs(tb)) {
		return pb
	}
	return at
}

// cutHeight is the height at which the plan cuts the walls: the zone there is the one shown.
const cutHeight = 1200 * length.Millimetre

// atCut is the zone that the plan shows.
func atCut(lining []job.Zone) *job.Zone {
	for i := range lining {
		if lining[i].To == 0 || lining[i].To > cutHeight {
			return &lining[i]
		}
	}
	return nil
}

// thickness is that of all layers of a zone.
func thickness(z *job.Zone, j *job.Job) length.Length {
	var t length.Length
	if z != nil {
		for _, id := range z.Layers {
			if p := j.Product(id); p != nil {
				t += p.Thickness
			}
		}
	}
	return t
}

// band is the part of a wall's thickness between two places along it (pixels from its left end) and two depths
// (pixels into the room, negative through the framing).
func (s *side) band(from, to, back, front float64) Path {
	p := func(t, d float64) Pt { return s.left.Add(s.along.Mul(t)).Add(s.in.Mul(d)) }
	return Path{{p(from, front), p(to, front), p(to, back), p(from, back)}}
}

// at is the place t pixels along the wall and d pixels into the room.
func (s *side) at(t, d float64) Pt { return s.left.Add(s.along.Mul(t)).Add(s.in.Mul(d)) }

// duties are the phrases of what a wall must do.
var duties = map[job.Duty]string{job.Separation: "draft.separation", job.Rated: "draft.rated", job.Wet: "draft.wet", job.Bracing: "draft.bracing", job.Exterior: "draft.exterior"}

// DutyWords names what a wall must do besides closing the room, in the order of the file.
func DutyWords(d []job.Duty, say *words.Voice) string {
	list := make([]string, len(d))
	for i, x := range d {
		list[i] = say.Text(duties[x])
	}
	return strings.Join(list, ", ")
}

// title is an id as a name: studio-2 is "Studio 2".
func title(id string) string {
	s := []rune(strings.NewReplacer("-", " ", "_", " ").Replace(id))
	if len(s) > 0 {
		s[0] = []rune(strings.ToUpper(string(s[0])))[0]
	}
	return string(s)
}
