package survey

import (
	"context"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/memo"
	"seamwright/calc/shape"
)

// Survey turns the rooms of a job into surfaces. An error is a *job.Refusal that names the surface.
//
// Hang order: rooms in project order; in a room the ceiling planes from south to north or west to east, with all
// their layers, then the walls. Separation and rated walls go first, so that their board runs unbroken to the
// framing behind the linings that meet them; then bracing walls, whose panels want full width; then the others by
// side, walls that show plywood last, when the board has dried (common practice, no source). The walls of a room are lined layer by layer.
func Survey(j *job.Job) (*Building, error) { return Remembered(context.Background(), j, nil) }

// Remembered is Survey with a memo of rooms, until its context is cancelled.
func Remembered(ctx context.Context, j *job.Job, m *memo.Memo) (*Building, error) {
	b := &Building{}
	frame := frameOf(j)
	var rooms []surveyed
	var content memo.Writer
	for i := range j.Rooms {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		r := &j.Rooms[i]
		content.Any("survey")
		content.Any(frame)
		content.Any(r)
		k := content.Key()
		s := memo.Do(m, k, func() surveyed { return surveyRoom(j, r) })
		if s.err != nil {
			return nil, s.err
		}
		now := s.stand(len(b.Surfaces))
		rooms = append(rooms, now)
		b.Rooms = append(b.Rooms, Room{ID: r.ID, Surfaces: now.surfaces, First: len(b.Surfaces), Key: k})
		b.Surfaces = append(b.Surfaces, now.surfaces...)
	}
	return b, pairBacks(rooms)
}

// frameOf is the key of what all rooms of a job share.
func frameOf(j *job.Job) memo.Key {
	shared := *j
	shared.Name, shared.Rooms, shared.Alternatives, shared.Progress = "", nil, nil, nil
	return memo.Of(&shared)
}

// surveyed is what is found out about a room by itself: its surfaces, walls first, with the hang order counted from the
// room's own first. It is never changed.
type surveyed struct {
	surfaces []*Surface
	lines    []line // of the walls
	bounds   shape.Rect
	err      error
}

func surveyRoom(j *job.Job, jr *job.Room) surveyed {
	r, err := openRoom(j, jr)
	if err != nil {
		return surveyed{err: err}
	}
	ceilings, err := r.ceilings()
	if err != nil {
		return surveyed{err: err}
	}
	found := surveyed{bounds: shape.Polygon(jr.Corners).Bounds()}
	order := 0
	for _, c := range ceilings {
		order++
		c.HangOrder = order
	}
	for _, s := range r.hangOrder() {
		order++
		s.surface.HangOrder = order
	}
	for _, s := range r.sides {
		if err := s.lining(); err != nil {
			return surveyed{err: err}
		}
		found.surfaces, found.lines = append(found.surfaces, s.surface), append(found.lines, s.line)
	}
	found.surfaces = append(found.surfaces, ceilings...)
	for _, s := range found.surfaces { // shared from now on: whoever adds to a list gets one of their own
		s.Studs, s.Short = slices.Clip(s.Studs), slices.Clip(s.Short)
	}
	return found
}

// stand puts the room in its place in a building, before surfaces after the first. It gets surfaces and zones of its own,
// so that the building can say what lies behind them; what they are made of stays shared.
func (r surveyed) stand(before int) surveyed {
	n := 0
	for _, s := range r.surfaces {
		n += len(s.Zones)
	}
	surfaces, zones := make([]Surface, len(r.surfaces)), make([]Zone, n)
	list, zoneList := make([]*Surface, len(r.surfaces)), make([]*Zone, n)
	n = 0
	for i, s := range r.surfaces {
		surfaces[i] = *s
		list[i] = &surfaces[i]
		list[i].HangOrder += before
		from := n
		for _, z := range s.Zones {
			zones[n] = *z
			zones[n].Surface = list[i]
			zoneList[n] = &zones[n]
			n++
		}
		list[i].Zones = zoneList[from:n:n]
	}
	r.surfaces = list
	return r
}
