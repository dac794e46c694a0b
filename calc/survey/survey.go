package survey

import (
	"cmp"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
)

// room is a room being surveyed.
type room struct {
	job   *job.Job
	room  *job.Room
	roof  roof
	sides []*side // in the order of the file
}

// side is one wall of a room.
type side struct {
	line
	room       *room
	wall       *job.Wall
	next, prev *side // the walls at the right and at the left end
	rank       int   // place in the room's hang order
	surface    *Surface
	zones      []layering
}

// layering is one zone of a wall by height, with the thickness of its layers; none where it is left open.
type layering struct {
	from, to length.Length // above the floor; to is far above the head for the last zone
	zone     *job.Zone
	index    int // 1-based
	stack    stack
}

func openRoom(j *job.Job, jr *job.Room) (*room, error) {
	corners := shape.Polygon(jr.Corners)
	if !corners.Simple() {
		return nil, job.Refuse(jr.ID, "list the corners in order, going round once", "the room's outline crosses or touches itself").At("corners", 0)
	}
	if len(jr.Walls) != len(corners) {
		return nil, job.Refuse(jr.ID, "give every side one wall", "the room has %d corners but %d walls", len(corners), len(jr.Walls)).At("walls", 0)
	}
	f, err := roofOf(j, jr)
	if err != nil {
		return nil, err
	}
	r := &room{job: j, room: jr, roof: f}
	ccw := corners.CounterClockwise()
	n := len(corners)
	for i := range n {
		left, right := corners[i], corners[(i+1)%n]
		if ccw {
			left, right = right, left
		}
		r.sides = append(r.sides, &side{line: lineOf(left, right), room: r, wall: &jr.Walls[i]})
	}
	for i, s := range r.sides {
		s.next, s.prev = r.sides[(i+1)%n], r.sides[(i+n-1)%n]
		if ccw {
			s.next, s.prev = s.prev, s.next
		}
	}
	for _, s := range r.sides {
		if err := s.survey(); err != nil {
			return nil, err
		}
	}
	return r, nil
}

// hangOrder ranks the walls and lists them in that order.
func (r *room) hangOrder() []*side {
	order := slices.Clone(r.sides)
	slices.SortStableFunc(order, func(a, b *side) int { return cmp.Compare(r.urgency(a.wall), r.urgency(b.wall)) })
	for i, s := range order {
		s.rank = i
	}
	return order
}

func (r *room) urgency(w *job.Wall) int {
	switch {
	case slices.Contains(w.Duty, job.Separation) || slices.Contains(w.Duty, job.Rated):
		return 0
	case slices.Contains(w.Duty, job.Bracing):
		return 1
	case r.showsWood(w):
		return 3
	}
	return 2
}

// showsWood says whether all that is seen of a wall's lining is plywood, which comes into the room when the board
// has been finished and has dried.
func (r *room) showsWood(w *job.Wall) bool {
	shows := false
	for _, z := range w.Lining {
		if len(z.Layers) == 0 || z.Layers[0] == job.Open {
			continue
		}
		p := r.job.Product(z.Layers[len(z.Layers)-1])
		if p == nil || p.Kind != job.WoodPanel {
			return false
		}
		shows = true
	}
	return shows
}

// normal is the wall's unit normal into the room; the interior lies to the right of left-to-right.
func (s *side) normal() [3]float64 {
	return unit([3]float64{float64(s.d.Y), -float64(s.d.X), 0})
}

func (s *side) id() string { return s.room.room.ID + "/" + s.wall.ID }

// survey makes the wall's surface: outline, openings, boxes, members, backing and the thickness of its zones.
func (s *side) survey() error {
	w := s.wall
	outline, err := s.outline()
	if err != nil {
		return err
	}
	s.surface = newSurface(s.id(), plan.Wall, s.room.room, outline, w.Framing, job.AxisX)
	s.surface.Wall = w
	s.surface.Frame = plan.Frame{
		Origin: [3]length.Length{s.left.X, s.left.Y, 0},
		X:      unit([3]float64{float64(s.d.X), float64(s.d.Y), 0}),
		Y:      [3]float64{0, 0, 1},
		Normal: s.normal(),
	}
	if err := s.surface.addOpenings(w.Openings); err != nil {
		return err
	}
	s.surface.addBoxes(w.Boxes)
	s.surface.addMembers(w.Framing)
	if err := s.surface.addBacking(s.room.job, w.Backing); err != nil {
		return err
	}
	return s.readZones()
}

// newSurface is a surface without openings and members yet; its lists are empty, not missing, in the plan's JSON.
func newSurface(id string, kind plan.SurfaceKind, r *job.Room, outline shape.Polygon, f job.Framing, counted job.Axis) *Surface {
	return &Surface{Surface: plan.Surface{
		ID: id, Kind: kind, Room: r.ID, Outline: outline, Holes: []shape.Polygon{}, Openings: []plan.Opening{},
		Boxes: []shape.Polygon{}, Cripples: []length.Length{}, Zones: []plan.Zone{}, BaseTrim: plan.BaseTrim{Runs: [][2]length.Length{}},
		Members: plan.Members{Axis: string(counted), At: []length.Length{}, Width: f.Member, Depth: f.Depth, Material: string(f.Material)},
	}}
}

// readZones notes heights and thicknesses of the wall's zones.
func (s *side) readZones() error {
	from := length.Length(0)
	for i := range s.wall.Lining {
		z := &s.wall.Lining[i]
		l := layering{from: from, to: z.To, zone: z, index: i + 1}
		if z.To == 0 {
			l.to = s.surface.Outline.Bounds().MaxY() + sky
			if i < len(s.wall.Lining)-1 {
				return job.Refuse(s.id(), "give it `to`", "zone %d reaches to the head but is not the last", i+1).At("lining", i+1)
			}
		}
		if l.to <= from || l.to <= s.wall.Base {
			return job.Refuse(s.id(), "its `to` must lie above the zone below it and above the curb", "zone %d has no height", i+1).At("lining", i+1)
		}
		for _, id := range z.Layers {
			if id == job.Open {
				continue
			}
			p := s.room.job.Product(id)
			if p == nil {
				return job.Refuse(s.id(), "write the id of a product of the catalog", "there is no product %q in the catalog", id).At("lining", i+1)
			}
			l.stack = append(l.stack, p.Thickness)
		}
		s.zones = append(s.zones, l)
		from = l.to
	}
	return nil
}

// sky is a height above every head.
const sky = 1000 * length.Metre

// stackAt is the lining at a height beside one end of the wall; none above the head or below a stair wall's foot.
// A curb counts as lined, so that a neighbour's edge is not stepped for the sake of the curb's height.
func (s *side) stackAt(y length.Length, rightEnd bool) stack {
	x := length.Length(0)
	if rightEnd {
		x = s.width
	}
	foot, head := s.reach(x)
	if y > head || y < foot {
		return nil
	}
	for _, l := range s.zones {
		if y < l.to {
			return l.stack
		}
	}
	return nil
}

// reach is the lowest and the highest point of the framing's face at x, one of its ends; they are the same where its foot
// meets its head in a point, as under a stair.
func (s *side) reach(x length.Length) (foot, head length.Length) {
	spans := crossings(s.surface.Outline, x)
	if len(spans) == 0 {
		for _, p := range s.surface.Outline {
			if p.X == x {
				return p.Y, p.Y
			}
		}
	}
	return spans[0].From, spans[len(spans)-1].To
}
