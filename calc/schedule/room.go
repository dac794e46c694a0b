package schedule

import (
	"fmt"
	"slices"

	"seamwright/calc/finish"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
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

// room adds the tasks of one room, from the look behind the lining to the peeled masking tape.
func (s *sequence) room(r *job.Room) {
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
	look := s.work("look-"+r.ID, r.ID+": check and photograph what will be hidden", s.area(covered, lookBehind))
	mark := s.work("mark-"+r.ID, r.ID+": mark the members", s.area(covered, markMembers), look)
	level := s.work("level-"+r.ID, r.ID+": strike the level line", s.count(1, levelLine), look)

	early := slices.DeleteFunc(slices.Clone(layers), func(l layer) bool { return l.last })
	late := slices.DeleteFunc(slices.Clone(layers), func(l layer) bool { return !l.last })
	hung := s.hang(early, mark, level)
	done := s.finishing(r, early, hung)
	hungLate := s.hang(late, done)
	s.trim(r, faces, hungLate, done)
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
	for i, l := range layers {
		for k, course := range l.courses() {
			id := "hang-" + l.planned.ID
			name := "Hang " + l.planned.ID
			if l.asked.Layers > 1 {
				id, name = fmt.Sprintf("%s-layer-%d", id, l.asked.Layer), fmt.Sprintf("%s, layer %d", name, l.asked.Layer)
			}
			if s.zones(l) > 1 {
				id, name = fmt.Sprintf("%s-zone-%d", id, l.asked.Index), fmt.Sprintf("%s, zone %d", name, l.asked.Index)
			}
			id, name = fmt.Sprintf("%s-course-%d", id, course[0].Course), fmt.Sprintf("%s, course %d: %s", name, course[0].Course, pieces(len(course)))
			e := s.hanging(l, course)
			if k == 0 && l.asked.Layer == l.asked.Layers && (i == 0 || layers[i-1].surveyed != l.surveyed) {
				e = e.plus(s.count(len(l.planned.Boxes), perBox)).plus(s.count(len(l.planned.Holes), perOpening))
			}
			last = s.work(id, name, e, last)
		}
	}
	return last
}

func pieces(n int) string {
	if n == 1 {
		return "1 piece"
	}
	return fmt.Sprintf("%d pieces", n)
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
	level := (l.zone.Run == string(job.RunAcross)) == (l.planned.Members.Axis == "x")
	if l.asked.Start == job.StartHead && level {
		slices.Reverse(order)
	}
	for _, c := range order {
		courses = append(courses, byCourse[c])
	}
	return courses
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
	return s.area(a, f).high(s.crew, l.above(panels))
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

// trim adds what comes last: base trim, box extenders and covers, the floor paper taken up.
func (s *sequence) trim(r *job.Room, faces []face, after ...links) {
	var run length.Length
	boxes := 0
	for _, f := range faces {
		boxes += len(f.planned.Boxes)
		if f.surveyed.Wall == nil || f.surveyed.Wall.Trim == 0 || len(f.surveyed.Zones) == 0 {
			continue
		}
		box := f.planned.Outline.Bounds()
		run += box.W
		for _, o := range f.surveyed.Wall.Openings {
			if o.Kind == job.Door {
				run -= o.Width
			}
		}
	}
	trimmed := s.work("trim-"+r.ID, r.ID+": cut and fix base trim", s.run(max(run, 0), trimBase), after...)
	s.work("covers-"+r.ID, r.ID+": box extenders and covers", s.count(boxes, cover), trimmed)
}

// coats is how many coats of compound the flat joints get at a finish level (GA-214: level 1 and 2 a taped coat,
// one more at 3, two more at 4; level 5 is level 4 with a skim).
func coats(level int) int { return []int{0, 1, 1, 2, 3, 3}[min(max(level, 0), 5)] }

// painted is the finish level from which a face is made ready for paint.
const painted = 3

// finishing adds what turns hung board into a painted face: screw check, inspection, beads, tape and coats with
// their drying, sanding, primer, the look in raking light, paint, and the masking tape off.
func (s *sequence) finishing(r *job.Room, layers []layer, after links) links {
	var board, toPaint, skim length.Area
	var joints [4]length.Length // by coat
	var beads, edges length.Length
	inspected := false
	for _, l := range layers {
		if l.asked.Product.Kind != job.Gypsum {
			continue
		}
		board += area(l.zone.Panels)
		inspected = inspected || slices.ContainsFunc(duties(l.surveyed), func(d job.Duty) bool { return d == job.Rated || d == job.Separation })
		visible := l.asked.Layer == l.asked.Layers
		level := l.asked.Finish
		if !visible {
			level = min(level, 1)
		}
		for _, joint := range l.zone.Joints {
			long := joint.Long()
			switch joint.Kind {
			case plan.OutsideCorner, plan.Trim, plan.Control:
				beads += long
			case plan.Perimeter:
				edges += long
				continue
			}
			for coat := range coats(level) {
				joints[coat] += long
			}
		}
		if visible && level >= painted {
			toPaint += area(l.zone.Panels)
		}
		if visible && level == 5 {
			skim += area(l.zone.Panels)
		}
	}
	if board == 0 {
		return after
	}
	last := s.work("screws-"+r.ID, r.ID+": check the screws", s.area(board, screwCheck), after)
	if inspected {
		last = s.inspect("inspect-"+r.ID, r.ID+": inspection before the joints are taped", "separation or rated wall in this room; the authority sets the day", last)
	}
	last = s.work("fill-"+r.ID, r.ID+": fill gaps", s.area(board, fillGaps), last)
	last = s.work("beads-"+r.ID, r.ID+": corner bead", s.run(beads, setBead), last)
	for coat, long := range joints {
		if long == 0 {
			break
		}
		name, f := fmt.Sprintf("%s: coat %d", r.ID, coat+1), nextCoat
		if coat == 0 {
			name, f = r.ID+": tape and first coat", tapeCoat
		}
		last = s.work(fmt.Sprintf("coat-%d-%s", coat+1, r.ID), name, s.run(long, f), last)
		last = s.dry(fmt.Sprintf("dry-%d-%s", coat+1, r.ID), fmt.Sprintf("%s: coat %d dries", r.ID, coat+1), last)
	}
	if skim > 0 {
		last = s.work("skim-"+r.ID, r.ID+": skim the whole face", s.area(skim, skimCoat), last)
		last = s.dry("dry-skim-"+r.ID, r.ID+": skim dries", last)
	}
	if toPaint == 0 {
		return last
	}
	last = s.work("sand-"+r.ID, r.ID+": sand", s.area(toPaint, sand), last)
	last = s.work("dust-"+r.ID, r.ID+": dust off", s.area(toPaint, dustOff), last)
	return s.painting(r, toPaint, edges, last)
}

func (s *sequence) painting(r *job.Room, a length.Area, edges length.Length, last links) links {
	coatsOfPaint := s.j.Paint.Primer + s.j.Paint.Coats
	if coatsOfPaint > 0 {
		last = s.work("mask-"+r.ID, r.ID+": mask edges, cover the floor", s.run(edges, mask), last)
	}
	for i := range s.j.Paint.Primer {
		last = s.work(fmt.Sprintf("prime-%d-%s", i+1, r.ID), fmt.Sprintf("%s: primer, coat %d", r.ID, i+1), s.area(a, prime), last)
		last = s.paintDries(fmt.Sprintf("dry-primer-%d-%s", i+1, r.ID), fmt.Sprintf("%s: primer dries", r.ID), finish.PrimerHours(s.j), last)
	}
	last = s.work("raking-"+r.ID, r.ID+": look along it in raking light, touch up", s.area(a, rakingLook), last)
	for i := range s.j.Paint.Coats {
		last = s.work(fmt.Sprintf("paint-%d-%s", i+1, r.ID), fmt.Sprintf("%s: paint, coat %d", r.ID, i+1), s.area(a, paint), last)
		last = s.paintDries(fmt.Sprintf("dry-paint-%d-%s", i+1, r.ID), fmt.Sprintf("%s: paint dries", r.ID), finish.PaintHours(s.j), last)
	}
	if coatsOfPaint > 0 {
		last = s.work("unmask-"+r.ID, r.ID+": peel the masking tape", s.run(edges, unmask), last)
	}
	return last
}

// dry adds the wait after a coat of compound: by the air for drying-type, by the bag for setting-type.
func (s *sequence) dry(id, name string, after links) links {
	if m := setting.Of(s.j); m > 0 {
		return s.wait(id, name, finish.SettingHours(m), true, fmt.Sprintf("setting-type compound, %.0f minutes by the bag, its longest published time", m), cite(setting), after)
	}
	hours, promised := finish.Drying(s.j.Site.Celsius, s.j.Site.Humidity, finish.TableCoat)
	basis := fmt.Sprintf("1/16 in coat at %s and %.0f %% humidity", s.temperature(), s.j.Site.Humidity*100)
	if !promised {
		basis += "; outside what the drying table promises, so no date stands"
	}
	return s.wait(id, name, hours, promised, basis, "fit to a handbook's drying table, from memory; 17 to 19 h at 70 °F and 50 % was read", after)
}

func (s *sequence) paintDries(id, name string, hours float64, after links) links {
	return s.wait(id, name, hours, s.j.Site.Celsius >= finish.Coldest, fmt.Sprintf("data-sheet time scaled by the air's vapour-pressure deficit at %s and %.0f %%", s.temperature(), s.j.Site.Humidity*100),
		"data sheet; the scaling is a model of this program's own", after)
}

func (s *sequence) temperature() string {
	if s.imperial {
		return fmt.Sprintf("%.0f °F", s.j.Site.Celsius*9/5+32)
	}
	return fmt.Sprintf("%.0f °C", s.j.Site.Celsius)
}

func duties(f *survey.Surface) []job.Duty {
	if f.Wall != nil {
		return f.Wall.Duty
	}
	return f.Ceiling.Duty
}
