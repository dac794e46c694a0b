package schedule

import (
	"fmt"
	"slices"

	"seamwright/calc/finish"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/calc/survey"
)

// tenFeet is the height up to which hanging is ordinary work.
const tenFeet = 10 * length.Foot

// face is one surface of a room as the sequence sees it.
type face struct {
	surveyed *survey.Surface
	planned  *plan.Surface
}

// layer is one layer of one zone: its panels by course.
type layer struct {
	face
	asked *survey.Zone
	zone  *plan.Zone
	last  bool // wood that stays visible: hung when the room has dried
}

// room adds the tasks of one room, from the look behind the lining to the last cover. Plywood that stays visible is
// finished on trestles while the room is still being boarded, comes in when the room has dried, lies there, and is hung
// last.
func (s *sequence) room(r *job.Room, w finish.Work) {
	s.in = r.ID
	faces := s.faces(r.ID)
	var layers []layer
	var covered length.Area
	for _, f := range faces {
		for i, z := range f.surveyed.Zones {
			visible := z.Layer == z.Layers
			layers = append(layers, layer{f, z, &f.planned.Zones[i], visible && z.Product.Kind == job.WoodPanel})
			if visible {
				covered += area(f.planned.Zones[i].Panels)
			}
		}
	}
	if len(layers) == 0 {
		return
	}
	look := s.work(plan.LookStep, "look-"+r.ID, plan.Tell("task.look", "room", r.ID), s.area(covered, lookBehind))
	plates := s.work(plan.PlateStep, "plates-"+r.ID, plan.Tell("task.nail-plates", "room", r.ID), s.count(w.Plates, fixPlate), look)
	blocks := s.work(plan.BlockStep, "blocks-"+r.ID, plan.Tell("task.blocks", "room", r.ID), s.count(w.Blocks, fixBlock), look)
	mark := s.work(plan.MarkStep, "mark-"+r.ID, plan.Tell("task.mark", "room", r.ID), s.area(covered, markMembers), plates, blocks)
	level := s.work(plan.LevelStep, "level-"+r.ID, plan.Tell("task.level-line", "room", r.ID), s.count(1, levelLine), look)
	level = s.work(plan.ShimStep, "shims-"+r.ID, plan.Tell("task.shims", "room", r.ID), s.count(w.Shims, setShim), level)

	early := slices.DeleteFunc(slices.Clone(layers), func(l layer) bool { return l.last })
	late := slices.DeleteFunc(slices.Clone(layers), func(l layer) bool { return !l.last })
	var board length.Area
	for _, l := range early {
		board += area(l.zone.Panels)
	}
	carried := merge([]links{mark, level})
	if board > 0 {
		carried = s.work(plan.CarryStep, "stock-"+r.ID, plan.Tell("task.carry-board", "room", r.ID), s.area(board, carryBoard), mark, level)
	}
	hung := s.hang(early, carried)
	done := s.finishing(r, early, w, hung)
	if len(late) > 0 {
		done = s.panels(r, late, done, look)
	}
	s.trim(r, faces, w, done)
}

// panels adds what becomes of wood that stays visible, from the trestles to the wall.
func (s *sequence) panels(r *job.Room, late []layer, dried, look links) links {
	var a length.Area
	for _, l := range late {
		a += area(l.zone.Panels)
	}
	ready := links{}
	s.trade = plan.Panels
	for coat := range finish.PanelCoats(s.j) {
		ready = s.work(plan.PanelCoatStep, fmt.Sprintf("panel-coat-%d-%s", coat+1, r.ID), plan.Tell("task.panel-coat", "room", r.ID, "coat", coat+1), s.area(a, panelCoat), look, ready)
		ready = s.paintDries(fmt.Sprintf("dry-panel-%d-%s", coat+1, r.ID), plan.Tell("task.clear-coat-dries", "room", r.ID), clearCoat, ready)
	}
	in := s.work(plan.CarryStep, "carry-"+r.ID, plan.Tell("task.carry-panels", "room", r.ID), s.area(a, carryIn), dried, ready)
	if h := panelRest.Of(s.j); h > 0 {
		in = s.wait(plan.RestStep, "rest-"+r.ID, plan.Tell("task.rest", "room", r.ID), h, true, plan.Tell("schedule.rest", "hours", h), cite(panelRest), in)
	}
	hung := s.hang(late, in)
	s.trade = ""
	return hung
}

// faces lists the surfaces of a room in hang order.
func (s *sequence) faces(room string) (faces []face) {
	for i := range s.p.Surfaces {
		if s.p.Surfaces[i].Room == room {
			faces = append(faces, face{s.b.Surfaces[i], &s.p.Surfaces[i]})
		}
	}
	slices.SortStableFunc(faces, func(a, b face) int { return a.planned.HangOrder - b.planned.HangOrder })
	return faces
}

// hang adds the hanging of layers, surface after surface in hang order, course after course from the course that
// is hung first. It gives the last task of every surface.
func (s *sequence) hang(layers []layer, after ...links) links {
	last := merge(after)
	for _, l := range layers {
		boxes, openings := l.planned.Boxes, l.planned.Holes
		for _, course := range l.courses() {
			id, name := s.hangs(l, course)
			var cut [2]int
			cut[0], boxes = crossed(course, boxes)
			cut[1], openings = crossed(course, openings)
			s.on, s.of = l.planned.ID, l.asked.Product.ID
			for k := range course {
				s.up = append(s.up, course[k].ID)
			}
			last = s.work(plan.HangStep, id, name, s.hanging(l, course).plus(s.count(cut[0], perBox)).plus(s.count(cut[1], perOpening)), last)
			s.on, s.of, s.up = "", "", nil
		}
	}
	return last
}

// crossed counts the cutouts that the panels of a course cross, and gives the others: what two courses share is cut out
// with the one that is hung first.
func crossed(course []plan.Panel, cutouts []shape.Polygon) (n int, others []shape.Polygon) {
	for _, c := range cutouts {
		r := c.Bounds()
		if slices.ContainsFunc(course, func(p plan.Panel) bool {
			box := p.Outline.Bounds()
			return r.X < box.MaxX() && r.MaxX() > box.X && r.Y < box.MaxY() && r.MaxY() > box.Y
		}) {
			n++
		} else {
			others = append(others, c)
		}
	}
	return n, others
}

// hangs is the id and the name of the task that hangs a course of a layer.
func (s *sequence) hangs(l layer, course []plan.Panel) (id string, name plan.Fact) {
	id, what := hanging+l.planned.ID+"/", plan.Tell("task.surface", "surface", l.planned.ID)
	if l.asked.Layers > 1 {
		id, what = fmt.Sprintf("%slayer-%d-", id, l.asked.Layer), plan.Tell("task.of-layer", "what", what, "layer", l.asked.Layer)
	}
	if s.zones(l) > 1 {
		id, what = fmt.Sprintf("%szone-%d-", id, l.asked.Index), plan.Tell("task.of-zone", "what", what, "zone", l.asked.Index)
	}
	kind := "task.hang"
	if l.planned.Kind == plan.Wall && !l.level() {
		kind = "task.hang-upright"
	}
	id = fmt.Sprintf("%scourse-%d", id, course[0].Course)
	return id, plan.Tell(kind, "what", what, "course", course[0].Course, "pieces", plan.Tell("count.pieces", "count", len(course)))
}

// zones counts the zones by height of a layer's surface that are lined.
func (s *sequence) zones(l layer) int {
	n := 0
	for _, z := range l.surveyed.Zones {
		n = max(n, z.Index)
	}
	return n
}

// courses groups a layer's panels by course in the order in which they are hung.
func (l layer) courses() (courses [][]plan.Panel) {
	byCourse := map[int][]plan.Panel{}
	var order []int
	for _, p := range l.zone.Panels {
		if byCourse[p.Course] == nil {
			order = append(order, p.Course)
		}
		byCourse[p.Course] = append(byCourse[p.Course], p)
	}
	slices.Sort(order)
	if l.asked.Start == job.StartHead && l.level() {
		slices.Reverse(order)
	}
	for _, c := range order {
		courses = append(courses, byCourse[c])
	}
	return courses
}

// level says whether a layer's courses lie level, not upright.
func (l layer) level() bool {
	return (l.zone.Run == string(job.RunAcross)) == (l.planned.Members.Axis == string(job.AxisX))
}

// hanging is the effort for some panels of a layer.
func (s *sequence) hanging(l layer, panels []plan.Panel) effort {
	f := hangWall
	switch {
	case l.asked.Product.Kind == job.WoodPanel:
		f = hangWood
	case l.planned.Kind == plan.Ceiling:
		f = hangCeiling
	}
	a := area(panels)
	return s.area(a, f).plus(s.pieces(len(panels), a)).high(s.crew, l.above(panels))
}

// above is the share of the panels' area that lies more than ten feet above the floor.
func (l layer) above(panels []plan.Panel) float64 {
	if l.planned.Kind == plan.Ceiling {
		if l.planned.Frame.Origin[2] > tenFeet {
			return 1
		}
		return 0
	}
	var all, high length.Area
	for _, p := range panels {
		all += p.Outline.Area()
		box := p.Outline.Bounds()
		if box.MaxY() <= tenFeet {
			continue
		}
		box.H, box.Y = box.MaxY()-max(box.Y, tenFeet), max(box.Y, tenFeet)
		for _, part := range p.Outline.Intersect(box) {
			high += part.Area()
		}
	}
	if all == 0 {
		return 0
	}
	return float64(high) / float64(all)
}

// area is the net area of panels.
func area(panels []plan.Panel) (sum length.Area) {
	for _, p := range panels {
		sum += p.Outline.Area()
		for _, h := range p.Holes {
			sum -= h.Area()
		}
	}
	return sum
}

// trim adds what comes last: strips and battens on wood panels, casing, base trim, box extenders and covers.
func (s *sequence) trim(r *job.Room, faces []face, w finish.Work, after ...links) {
	boxes := 0
	for _, f := range faces {
		if len(f.surveyed.Zones) > 0 {
			boxes += len(f.planned.Boxes)
		}
	}
	last := merge(after)
	if _, sealed := s.index["seal-"+r.ID]; !sealed { // no board that was taped
		last = s.seal(r, w, last)
	}
	last = s.work(plan.StripStep, "strips-"+r.ID, plan.Tell("task.strips", "room", r.ID), s.run(w.Edges, fixStrip), last)
	last = s.work(plan.BattenStep, "battens-"+r.ID, plan.Tell("task.battens", "room", r.ID), s.run(finish.Battens(s.j, w.Seams), fixBatten), last)
	last = s.work(plan.CasingStep, "casing-"+r.ID, plan.Tell("task.casing", "room", r.ID), s.run(w.Casing, fixCasing), last)
	last = s.work(plan.BaseStep, "trim-"+r.ID, plan.Tell("task.base-trim", "room", r.ID), s.run(w.Base, trimBase), last)
	s.work(plan.BoxStep, "covers-"+r.ID, plan.Tell("task.box-covers", "room", r.ID), s.count(boxes, cover), last)
}
