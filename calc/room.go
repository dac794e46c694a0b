package calc

import (
	"context"

	"seamwright/calc/check"
	"seamwright/calc/fasten"
	"seamwright/calc/finish"
	"seamwright/calc/job"
	"seamwright/calc/memo"
	"seamwright/calc/plan"
	"seamwright/calc/schedule"
	"seamwright/calc/survey"
)

// share is what one room adds to a plan by itself, once its layout is known: screws, corners, tasks and findings. It depends on
// the room, on its panels, joints and returns, and on what all rooms of the job share; not on sheets and not on other
// rooms. It is never changed.
type share struct {
	screws []plan.Fasteners // zone by zone
	faults []plan.Check     // of the screws
	finish finish.Room
	tasks  schedule.Room
	book   check.Room
}

// shares works out what every room adds, or takes it from the memo, and puts the screws into the plan.
func shares(ctx context.Context, j *job.Job, b *survey.Building, p *plan.Plan, hung []memo.Key, m *memo.Memo) ([]share, error) {
	all := make([]share, len(b.Rooms))
	returns := p.Returns
	var content memo.Writer
	for i, r := range b.Rooms {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		own := &survey.Building{Surfaces: r.Surfaces, Rooms: []survey.Room{r}}
		part := &plan.Plan{Surfaces: p.Surfaces[r.First : r.First+len(r.Surfaces)]}
		part.Returns, returns = returnsOf(part, returns)
		all[i] = memo.Do(m, shareKey(&content, hung[i], part), func() share { return shareOf(j, &j.Rooms[i], own, part) })
		k := 0
		for _, s := range part.Surfaces {
			for z := range s.Zones {
				s.Zones[z].Fasteners = all[i].screws[k]
				p.Summary.Screws += all[i].screws[k].Count
				k++
			}
		}
	}
	return all, nil
}

// shareOf runs the stages that look at one room at a time on a building of that room alone.
func shareOf(j *job.Job, r *job.Room, b *survey.Building, p *plan.Plan) share {
	fasten.Fasten(j, b, p)
	s := share{faults: fasten.Checks(j, b, p), finish: finish.OfRoom(j, b, p), tasks: schedule.OfRoom(j, r, b, p), book: check.OfRoom(j, b, p)}
	for i := range p.Surfaces {
		for k := range p.Surfaces[i].Zones {
			s.screws = append(s.screws, p.Surfaces[i].Zones[k].Fasteners)
		}
	}
	return s
}

// returnsOf parts the returns of a room from those of the rooms behind it; both stand in the order of the building.
func returnsOf(room *plan.Plan, returns []plan.Return) (own, rest []plan.Return) {
	ids := map[string]bool{}
	for i := range room.Surfaces {
		ids[room.Surfaces[i].ID] = true
	}
	n := 0
	for n < len(returns) && ids[returns[n].Surface] {
		n++
	}
	return returns[:n:n], returns[n:]
}

// shareKey is the key of a room's share: how the room hangs, without the sheets that it is cut from, since these change
// with every other room, and what is cut for its returns.
func shareKey(w *memo.Writer, hung memo.Key, p *plan.Plan) memo.Key {
	w.Text("share")
	w.Add(hung)
	for _, strip := range p.Returns {
		strip.Sheet = ""
		w.Any(&strip)
	}
	return w.Key()
}
