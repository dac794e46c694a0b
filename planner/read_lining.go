package planner

import (
	"fmt"
	"slices"
	"strings"

	"seamwright/calc/job"
	"seamwright/calc/length"
)

var zoneKeys = []string{"product", "to", "run", "pattern", "finish", "courses", "start"}

// lining reads the zones of a surface from the floor up.
func (p *project) lining(n *node, finish int) []job.Zone {
	var zones []job.Zone
	if n.kind == list && len(n.items) == 0 {
		p.fault(n, "the lining has no zone", "write [{product: open}] to leave the surface bare")
	}
	p.list(n, "lining", mostZones, func(i int, item *node) { zones = append(zones, p.zone(item, finish)) })
	if n.kind != list {
		return zones
	}
	last := len(n.items) - 1
	for i, item := range n.items {
		to := item.get("to")
		switch {
		case i < last && (to == nil || to.null):
			p.fault(item, fmt.Sprintf("zone %d has no `to`, but another zone follows", i+1), "write how high it reaches; only the last zone has no `to`")
		case i == last && to != nil && !to.null:
			p.fault(to, "the last zone has a `to`", "delete it, or add a zone above: {product: open} leaves it bare")
		case i > 0 && i < last && zones[i].To <= zones[i-1].To && zones[i].To > 0 && zones[i-1].To > 0:
			p.fault(to, fmt.Sprintf("zone %d ends at %s, not above the zone below it", i+1, to.text), "list the zones from the floor up")
		}
	}
	return zones
}

func (p *project) zone(n *node, finish int) job.Zone {
	z := job.Zone{Pattern: job.Staggered, Finish: finish}
	var runs *node
	p.keys(n, "a zone", []key{
		{"product", true, func(n *node) { z.Layers = p.layers(n) }},
		{"to", false, func(n *node) { z.To = p.length(n, "to", 1, highest) }},
		{"run", false, func(n *node) { runs = n }},
		{"pattern", false, func(n *node) {
			z.Pattern = choice(p.reader, n, "pattern", job.Staggered, job.Stacked, job.Centred)
		}},
		{"finish", false, func(n *node) { z.Finish = p.whole(n, "finish", 0, 5) }},
		{"courses", false, func(n *node) {
			if n.kind == list && p.splitComma(n, false) {
				return
			}
			p.list(n, "courses", mostCourses, func(_ int, item *node) {
				z.Courses = append(z.Courses, p.length(item, "a course", length.Inch, highest))
			})
		}},
		{"start", false, func(n *node) { z.Start = choice(p.reader, n, "start", job.StartHead, job.StartFloor) }},
	})
	z.Runs = slices.Repeat([]job.Run{job.RunAuto}, len(z.Layers))
	if runs != nil {
		p.runs(runs, z.Runs)
	}
	p.coursesFitSheets(n.get("courses"), z)
	return z
}

// layers reads one product or a list of them, the first one on the members.
func (p *project) layers(n *node) []string {
	if n.kind == scalar {
		if n.text == job.Open {
			return []string{job.Open}
		}
		return []string{p.product(n, p.job.Products)}
	}
	var out []string
	p.list(n, "product", mostLayers, func(_ int, item *node) {
		if item.kind == scalar && item.text == job.Open {
			if len(n.items) > 1 {
				p.fault(item, `"open" cannot be a layer among others`, "leave it out")
			}
			out = append(out, job.Open)
			return
		}
		out = append(out, p.product(item, p.job.Products))
	})
	if n.kind == list && len(n.items) == 0 {
		p.fault(n, "the zone has no layer", "write product: open to leave it bare")
	}
	return out
}

func (p *project) runs(n *node, runs []job.Run) {
	read := func(n *node) job.Run {
		return choice(p.reader, n, "run", job.RunAuto, job.RunAcross, job.RunAlong)
	}
	switch {
	case n.kind == scalar:
		r := read(n)
		for i := range runs {
			runs[i] = r
		}
	case n.kind == list && len(n.items) == len(runs):
		for i, item := range n.items {
			runs[i] = read(item)
		}
	case n.kind == list:
		p.fault(n, fmt.Sprintf("run has %d entries for %d layers", len(n.items), len(runs)), "give one for all layers, or one each")
	default:
		p.fault(n, "run is auto, across or along", "give one for all layers, or one each")
	}
}

// coursesFitSheets refuses a course that is higher than any sheet of a layer can cover.
func (p *project) coursesFitSheets(n *node, z job.Zone) {
	if n == nil || n.kind != list || len(n.items) != len(z.Courses) {
		return
	}
	for k, id := range z.Layers {
		product := findProduct(p.job.Products, id)
		if product == nil {
			continue
		}
		var reach length.Length
		for _, s := range product.Sizes {
			if z.Runs[k] != job.RunAlong {
				reach = max(reach, s.Width)
			}
			if z.Runs[k] != job.RunAcross {
				reach = max(reach, s.Length)
			}
		}
		for i, c := range z.Courses {
			if c > reach && reach > 0 {
				p.fault(n.items[i], fmt.Sprintf("a course of %s is higher than any sheet of %s laid that way covers, %s",
					n.items[i].text, id, reach.Show(p.imperial())), "divide it")
				return
			}
		}
	}
}

// courseSlack is how far fixed courses may miss the framing's height: the ceiling's lining, the gap at the floor
// and the trim over it take up that much.
const courseSlack = 3 * length.Inch

// zonesUnder checks the zones of a wall against its height.
func (p *project) zonesUnder(n *node, zones []job.Zone, base length.Length, h head) {
	if n == nil || n.kind != list || len(n.items) != len(zones) || h.murky {
		return
	}
	top := h.highest()
	from := base
	for i, z := range zones {
		if to := n.items[i].get("to"); to != nil && z.To > 0 {
			switch {
			case z.To >= top:
				p.fault(to, fmt.Sprintf("zone %d ends at %s, but the wall is only %s high", i+1, to.text, top.Show(p.imperial())),
					"lower it, or delete the zones above and the `to`")
			case z.To <= base:
				p.fault(to, fmt.Sprintf("zone %d ends at %s, below the top of the curb", i+1, to.text), "raise it, or delete the zone")
			}
		}
		upper := z.To
		if upper == 0 {
			upper = top
		}
		p.coursesAddUp(n.items[i].get("courses"), z, upper-from, i == len(zones)-1)
		from = upper
	}
}

// coursesAddUp compares fixed courses with the height that they are to cover.
func (p *project) coursesAddUp(n *node, z job.Zone, height length.Length, last bool) {
	if n == nil || len(z.Courses) == 0 || height <= 0 {
		return
	}
	var sum length.Length
	for _, c := range z.Courses {
		if c <= 0 {
			return
		}
		sum += c
	}
	slack := length.Length(courseSlack)
	if !last {
		slack = 0
	}
	if sum > height || sum < height-slack {
		p.fault(n, fmt.Sprintf("the courses sum to %s, but the zone is %s high", sum.Show(p.imperial()), height.Show(p.imperial())),
			"make them add up, or delete `courses` and let the program choose")
	}
}

// zonesFit checks the zones that an alternative gives a surface.
func (p *project) zonesFit(n *node, surface string, zones []job.Zone) {
	room, wall, _ := strings.Cut(surface, "/")
	if wall == "ceiling" {
		if len(zones) > 1 {
			p.fault(n, fmt.Sprintf("%s is a ceiling, which has one zone", surface), "give it a change of its own")
		}
		return
	}
	for i := range p.job.Rooms {
		r := &p.job.Rooms[i]
		if r.ID != room {
			continue
		}
		for k, w := range r.Walls {
			if w.ID == wall {
				h := headOf(r, k)
				h.murky = p.murky[room]
				p.zonesUnder(n, zones, w.Base, h)
			}
		}
	}
}

var pinKeys = []string{"zone", "layer", "course", "seam", "edge"}

// pins reads seams fixed by hand: each must lie in a zone, layer and course that there is. A joint between two upright
// courses, written as `edge`, lies in none.
func (p *project) pins(n *node, zones []job.Zone, most length.Length) []job.Pin {
	var out []job.Pin
	p.list(n, "pins", mostOnWall, func(_ int, item *node) {
		pin := job.Pin{Zone: 1, Layer: 1}
		edge := item.kind == mapping && item.get("edge") != nil
		p.keys(item, "a pin", []key{
			{"zone", false, func(n *node) { pin.Zone = p.whole(n, "zone", 1, 1000) }},
			{"layer", false, func(n *node) { pin.Layer = p.whole(n, "layer", 1, 1000) }},
			{"course", !edge, func(n *node) { pin.Course = p.whole(n, "course", 1, mostCourses) }},
			{"seam", !edge, func(n *node) { pin.Seam = p.length(n, "seam", -farthest, farthest) }},
			{"edge", false, func(n *node) { pin.Seam, pin.Edge = p.length(n, "edge", -farthest, farthest), true }},
		})
		if edge && (item.get("course") != nil || item.get("seam") != nil) {
			p.fault(item, "the pin has an edge beside a course or a seam", "write `edge` alone: where two upright courses meet, or `course` and `seam`: an end joint")
			return
		}
		out = append(out, pin)
		if pin.Zone > len(zones) {
			p.fault(at(item, "zone"), fmt.Sprintf("the pin is in zone %d, but the surface has %d", pin.Zone, len(zones)), "zones are counted from the floor up")
			return
		}
		z := zones[pin.Zone-1]
		switch {
		case slices.Contains(z.Layers, job.Open):
			p.fault(at(item, "zone"), fmt.Sprintf("the pin is in zone %d, which is left open", pin.Zone), "delete the pin")
		case pin.Layer > len(z.Layers):
			p.fault(at(item, "layer"), fmt.Sprintf("the pin is in layer %d, but zone %d has %d", pin.Layer, pin.Zone, len(z.Layers)), "layers are counted from the members out")
		case len(z.Courses) > 0 && pin.Course > len(z.Courses):
			p.fault(at(item, "course"), fmt.Sprintf("the pin is in course %d, but zone %d has %d", pin.Course, pin.Zone, len(z.Courses)), "courses are counted from the bottom")
		case pin.Seam > most || pin.Seam <= 0 && most < farthest:
			where := at(item, "seam")
			if edge {
				where = at(item, "edge")
			}
			p.fault(where, "the pinned seam does not lie on the surface", "count from the left end, or from the floor")
		}
	})
	return out
}

// at is the value of a key, or the mapping itself where the key is missing.
func at(n *node, key string) *node {
	if v := n.get(key); v != nil {
		return v
	}
	return n
}
