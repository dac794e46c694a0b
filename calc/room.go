package calc

import (
	"seamwright/calc/check"
	"seamwright/calc/fasten"
	"seamwright/calc/job"
	"seamwright/calc/memo"
	"seamwright/calc/plan"
	"seamwright/calc/schedule"
	"seamwright/calc/shape"
	"seamwright/calc/survey"
)

// share is what one room adds to a plan by itself, once its layout is known: screws, tasks and findings. It depends on
// the room, on its panels, joints and returns, and on what all rooms of the job share; not on sheets and not on other
// rooms. It is never changed.
type share struct {
	screws []plan.Fasteners // zone by zone
	faults []plan.Check     // of the screws
	tasks  schedule.Room
	book   check.Room
}

// shares works out what every room adds, or takes it from the memo, and puts the screws into the plan.
func shares(j *job.Job, b *survey.Building, p *plan.Plan, m *memo.Memo) []share {
	all := make([]share, len(b.Rooms))
	returns := p.Returns
	var content memo.Writer
	for i, r := range b.Rooms {
		own := &survey.Building{Surfaces: r.Surfaces, Rooms: []survey.Room{r}}
		part := &plan.Plan{Surfaces: p.Surfaces[r.First : r.First+len(r.Surfaces)]}
		part.Returns, returns = returnsOf(part, returns)
		all[i] = memo.Do(m, shareKey(&content, r, part), func() share { return shareOf(j, &j.Rooms[i], own, part) })
		k := 0
		for _, s := range part.Surfaces {
			for z := range s.Zones {
				s.Zones[z].Fasteners = all[i].screws[k]
				p.Summary.Screws += all[i].screws[k].Count
				k++
			}
		}
	}
	return all
}

// shareOf runs the stages that look at one room at a time on a building of that room alone.
func shareOf(j *job.Job, r *job.Room, b *survey.Building, p *plan.Plan) share {
	fasten.Fasten(j, b, p)
	s := share{faults: fasten.Checks(j, b, p), tasks: schedule.OfRoom(j, r, b, p), book: check.OfRoom(j, b, p)}
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

// shareKey is the key of a room's share: the survey of the room and its layout, without the sheets it is cut from, since
// these change with every other room.
func shareKey(w *memo.Writer, r survey.Room, p *plan.Plan) memo.Key {
	w.Text("share")
	w.Any(r.Key)
	for i := range p.Surfaces {
		for k := range p.Surfaces[i].Zones {
			z := &p.Surfaces[i].Zones[k]
			w.Text(z.Run)
			w.Int(int64(len(z.Panels)))
			for n := range z.Panels {
				writePanel(w, &z.Panels[n])
			}
			w.Int(int64(len(z.Joints)))
			for n := range z.Joints {
				writeJoint(w, &z.Joints[n])
			}
		}
	}
	for _, strip := range p.Returns {
		strip.Sheet = ""
		w.Any(&strip)
	}
	return w.Key()
}

// writePanel and writeJoint write field by field what would take a third of an edit's time by reflection; a test knows
// the fields that there are.
func writePanel(w *memo.Writer, p *plan.Panel) {
	w.Text(p.ID)
	writeOutline(w, p.Outline)
	w.Int(int64(len(p.Holes)))
	for _, h := range p.Holes {
		writeOutline(w, h)
	}
	w.Int(int64(p.Course))
	for _, e := range p.Edges {
		w.Text(string(e))
	}
}

func writeJoint(w *memo.Writer, j *plan.Joint) {
	w.Text(string(j.Kind))
	writePoint(w, j.From)
	writePoint(w, j.To)
	w.Int(int64(len(j.Panels)))
	for _, id := range j.Panels {
		w.Text(id)
	}
	w.Text(string(j.Support))
}

func writeOutline(w *memo.Writer, p shape.Polygon) {
	w.Int(int64(len(p)))
	for _, q := range p {
		writePoint(w, q)
	}
}

func writePoint(w *memo.Writer, p shape.Point) {
	w.Int(int64(p.X))
	w.Int(int64(p.Y))
}
