package survey

import (
	"math"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/shape"
)

// thickestPartition is how far apart two rooms' sides may stand and still be the faces of one partition.
const thickestPartition = 16 * length.Inch

// parallelSlack is the sine of the angle within which two walls count as parallel.
const parallelSlack = 1e-4

// line is where a wall stands in plan. Seen from inside its room it runs from left to right, d is that way.
type line struct {
	left, right shape.Point
	d           shape.Point
	width       length.Length
}

func lineOf(left, right shape.Point) line {
	return line{left, right, sub(right, left), distance(left, right)}
}

// pairBacks joins the two faces of every partition: as the user says, else wherever sides of two rooms face each other,
// parallel, at most 16 in apart and overlapping. A long wall may be the other face of several rooms' walls. Only rooms
// that come near each other are compared, so the work grows with the walls.
func pairBacks(rooms []surveyed) error {
	byID := map[string]*Surface{}
	for _, r := range rooms {
		for i := range r.lines {
			byID[r.surfaces[i].ID] = r.surfaces[i]
		}
	}
	for _, r := range rooms {
		for i := range r.lines {
			s := r.surfaces[i]
			if s.Wall.Back == "" {
				continue
			}
			o := byID[s.Wall.Back]
			if o == nil || o == s {
				return job.Refuse(s.ID, "name a wall of another room, like store/north", "its other face %q is not another wall of this project", s.Wall.Back).At("back", 0)
			}
			join(s, o)
		}
	}
	for n := range rooms {
		r, near := &rooms[n], neighbours(rooms, n)
		for i, l := range r.lines {
			if s := r.surfaces[i]; s.Wall.Back == "" {
				for _, o := range opposite(l, near) {
					join(s, o)
				}
			}
		}
	}
	return nil
}

// neighbours are the other rooms that come within a partition's thickness of room n.
func neighbours(rooms []surveyed, n int) (near []surveyed) {
	a := rooms[n].bounds
	const t = thickestPartition + 2*length.Inch // two walls of 300 m lean less than that within parallelSlack
	for k := range rooms {
		b := rooms[k].bounds
		if k != n && a.X-t <= b.MaxX() && b.X-t <= a.MaxX() && a.Y-t <= b.MaxY() && b.Y-t <= a.MaxY() {
			near = append(near, rooms[k])
		}
	}
	return near
}

// join makes two surfaces the faces of one partition.
func join(s, o *Surface) {
	if !slices.Contains(s.Backs, o) {
		s.Backs, o.Backs = append(s.Backs, o), append(o.Backs, s)
	}
}

// opposite are the walls that face a line and whose other face the user does not name.
func opposite(l line, rooms []surveyed) (faces []*Surface) {
	for _, r := range rooms {
		for k, o := range r.lines {
			if s := r.surfaces[k]; s.Wall.Back == "" && l.facing(o) > 0 {
				faces = append(faces, s)
			}
		}
	}
	return faces
}

// facing is the length over which two walls are the faces of one partition, 0 if they are not.
func (l line) facing(o line) length.Length {
	size := float64(l.width) * float64(o.width)
	if dot(l.d, o.d) >= 0 || math.Abs(cross(l.d, o.d)) > parallelSlack*size {
		return 0
	}
	away := -cross(l.d, sub(o.left, l.left)) / float64(l.width) // along the normal into the wall's own room
	if behind := round(-away); behind < 0 || behind > thickestPartition {
		return 0
	}
	return max(0, min(l.width, l.position(o.left))-max(0, l.position(o.right)))
}

// position is where a point of the floor plan stands along the wall.
func (l line) position(p shape.Point) length.Length {
	return round(dot(l.d, sub(p, l.left)) / float64(l.width))
}

// FromFace is the x on this face of a partition of the place x on the other face, which is a surface of its own.
func (s *Surface) FromFace(other *Surface, x length.Length) length.Length {
	o := other.Frame
	px := float64(o.Origin[0]-s.Frame.Origin[0]) + float64(float64(x)*o.X[0])
	py := float64(o.Origin[1]-s.Frame.Origin[1]) + float64(float64(x)*o.X[1])
	return round(float64(px*s.Frame.X[0]) + float64(py*s.Frame.X[1]))
}
