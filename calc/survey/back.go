package survey

import (
	"math"

	"seamwright/calc/length"
	"seamwright/calc/shape"
)

// thickestPartition is how far apart two rooms' sides may stand and still be the faces of one partition.
const thickestPartition = 16 * length.Inch

// parallelSlack is the sine of the angle within which two walls count as parallel.
const parallelSlack = 1e-4

// pairBacks joins the two faces of every partition: as the user says, else where sides of two rooms face each
// other, parallel, at most 16 in apart and overlapping; of several the one with the longest overlap.
func pairBacks(sides []*side) error {
	byID := map[string]*side{}
	for _, s := range sides {
		byID[s.id()] = s
	}
	for _, s := range sides {
		if s.wall.Back == "" {
			continue
		}
		o := byID[s.wall.Back]
		if o == nil || o == s {
			return fault(s.id(), "its other face %q is not another wall of this project", s.wall.Back)
		}
		s.surface.Back = o.surface
		if o.wall.Back == "" {
			o.surface.Back = s.surface
		}
	}
	for i, s := range sides {
		if s.surface.Back != nil {
			continue
		}
		var best *side
		longest := length.Length(0)
		for k, o := range sides {
			if k == i || o.room == s.room || o.surface.Back != nil {
				continue
			}
			if l := s.facing(o); l > longest {
				best, longest = o, l
			}
		}
		if best != nil {
			s.surface.Back, best.surface.Back = best.surface, s.surface
		}
	}
	return nil
}

// facing is the length over which two sides are the faces of one partition, 0 if they are not.
func (s *side) facing(o *side) length.Length {
	size := float64(s.width) * float64(o.width)
	if dot(s.d, o.d) >= 0 || math.Abs(cross(s.d, o.d)) > parallelSlack*size {
		return 0
	}
	away := -cross(s.d, sub(o.left, s.left)) / float64(s.width) // along the normal into s's room
	if behind := round(-away); behind < 0 || behind > thickestPartition {
		return 0
	}
	return max(0, min(s.width, s.position(o.left))-max(0, s.position(o.right)))
}

// position is where a point of the floor plan stands along the wall.
func (s *side) position(p shape.Point) length.Length {
	return round(dot(s.d, sub(p, s.left)) / float64(s.width))
}

// FromBack is the x on this face of the place x on the other face of the partition.
func (s *Surface) FromBack(x length.Length) length.Length {
	o := s.Back.Frame
	px, py := float64(o.Origin[0]-s.Frame.Origin[0])+float64(x)*o.X[0], float64(o.Origin[1]-s.Frame.Origin[1])+float64(x)*o.X[1]
	return round(px*s.Frame.X[0] + py*s.Frame.X[1])
}
