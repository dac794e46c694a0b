package planner

import (
	"fmt"
	"slices"
	"strings"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/shape"
)

var wallKeys = []string{"side", "id", "framing", "backing", "insulation", "duty", "back", "base", "trim", "top", "bottom",
	"lining", "openings", "boxes", "floor", "pins"}

// walls reads the listed sides of a room and gives the others the defaults.
func (p *project) walls(roomNode, n *node, r *job.Room) {
	k := len(r.Corners)
	entries := make([]*node, k) // by side
	ids := make([]string, k)
	if n != nil {
		p.list(n, "walls", mostCorners, func(_ int, item *node) {
			side := item.get("side")
			switch {
			case item.kind != mapping:
				p.fault(item, "a wall is a set of keys", "write { side: 1, … }, or one `key: value` a line")
				return
			case side == nil || side.null:
				p.fault(item, `a wall lacks "side"`, fmt.Sprintf("write which side it is, 1 to %d; side i runs from corner i to corner i+1", k))
				return
			}
			i := p.whole(side, "side", 1, k) - 1
			if first := entries[i]; first != nil {
				p.fault(side, fmt.Sprintf("side %d stands twice", i+1), fmt.Sprintf("keep one entry; the other is on line %d", first.line))
				return
			}
			entries[i] = item
			if id := item.get("id"); id != nil && !id.null {
				ids[i] = p.id(id, "a wall")
				if j := slices.Index(ids, ids[i]); j != i && ids[i] != "" {
					p.fault(id, fmt.Sprintf("two walls of this room are called %q", ids[i]), "give each its own id")
				}
				if ids[i] == "ceiling" {
					p.fault(id, `a wall cannot be called "ceiling"`, "that is the name of the room's ceiling")
				}
			}
		})
	}
	nameSides(r.Corners, ids)
	for i := range ids {
		at := entries[i]
		if at == nil {
			at = roomNode
		}
		p.surfaces[r.ID+"/"+ids[i]] = at
		r.Walls = append(r.Walls, p.wall(entries[i], r, i, ids[i]))
	}
}

// nameSides gives every side without an id one: the first that faces a point of the compass squarely is called by
// it, any other one side-3 by its number.
func nameSides(corners []shape.Point, ids []string) {
	taken := map[string]bool{}
	for _, id := range ids {
		taken[id] = true
	}
	for i := range ids {
		if ids[i] != "" {
			continue
		}
		name := facing(corners, i)
		if name == "" || taken[name] {
			name = fmt.Sprintf("side-%d", i+1)
		}
		for taken[name] {
			name += "-b"
		}
		ids[i] = name
		taken[name] = true
	}
}

// facing is the point of the compass that the outside of a side faces squarely, "" for a slanted one.
func facing(corners []shape.Point, side int) string {
	a, b := corners[side], corners[(side+1)%len(corners)]
	if !shape.Polygon(corners).CounterClockwise() {
		a, b = b, a
	}
	switch {
	case a.Y == b.Y && a.X < b.X:
		return "south"
	case a.Y == b.Y:
		return "north"
	case a.X == b.X && a.Y < b.Y:
		return "east"
	case a.X == b.X:
		return "west"
	}
	return ""
}

// wall reads one side; n is nil for a side that is not listed.
func (p *project) wall(n *node, r *job.Room, side int, id string) job.Wall {
	d := p.defaults
	w := job.Wall{ID: id, Side: side + 1, Framing: cloneFraming(d.framing), Insulation: d.insulation, Trim: d.trim}
	if d.backing != nil {
		w.Backing = &job.Backing{Product: d.backing.Product, Seams: slices.Clone(d.backing.Seams)}
	}
	h := headOf(r, side)
	h.murky = p.murky[r.ID]
	if n == nil {
		w.Lining = d.upTo(w.Base, h.highest())
		return w
	}
	var openings, boxes, pins *node
	p.keys(n, "a wall", []key{
		{"side", true, func(*node) {}},
		{"id", false, func(*node) {}},
		{"framing", false, func(n *node) { w.Framing = p.framing(n, w.Framing, false) }},
		{"backing", false, func(n *node) { w.Backing = p.backing(n) }},
		{"insulation", false, func(n *node) { w.Insulation = p.insulation(n) }},
		{"duty", false, func(n *node) { w.Duty = p.duty(n) }},
		{"back", false, func(n *node) {
			if p.scalar(n, "back") {
				w.Back = n.text
				p.backs = append(p.backs, reference{n, r.ID + "/" + id, n.text})
			}
		}},
		{"base", false, func(n *node) { w.Base = p.length(n, "base", 0, 10*length.Foot) }},
		{"trim", false, func(n *node) { w.Trim = p.length(n, "trim", 0, 48*length.Inch) }},
		{"top", false, func(n *node) {
			if w.Top = p.profile(n, "top", h.width); w.Top != nil {
				h.top = w.Top
			}
		}},
		{"bottom", false, func(n *node) {
			if w.Bottom = p.profile(n, "bottom", h.width); w.Bottom != nil {
				h.bottom = w.Bottom
			}
		}},
		{"lining", false, func(n *node) { w.Lining = p.lining(n, d.finish) }},
		{"openings", false, func(n *node) { openings = n }},
		{"boxes", false, func(n *node) { boxes = n }},
		{"floor", false, func(n *node) { w.Floor = p.levels(n, h.width) }},
		{"pins", false, func(n *node) { pins = n }},
	})
	if at := n.get("top"); at != nil && w.Top != nil || n.get("bottom") != nil && w.Bottom != nil {
		if at == nil || w.Top == nil {
			at = n.get("bottom")
		}
		if x, ok := h.pinched(); ok && !h.murky {
			p.fault(at, fmt.Sprintf("at %s from the left end the top is not above the bottom", x.Show(p.imperial())), "check both lines")
		}
	}
	if w.Base > 0 && w.Base >= h.highest() && !h.murky {
		p.fault(n.get("base"), "the curb is as high as the wall", "base is how far above the floor the lining starts")
	}
	p.studsFit(n.get("framing"), w.Framing, h.width)
	if w.Lining == nil {
		w.Lining = d.upTo(w.Base, h.highest())
	}
	p.zonesUnder(n.get("lining"), w.Lining, w.Base, h)
	if openings != nil {
		w.Openings = p.openings(openings, h)
	}
	if boxes != nil {
		w.Boxes = p.boxes(boxes)
		p.boxesFit(boxes, w, h)
	}
	if pins != nil {
		w.Pins = p.pins(pins, w.Lining, max(h.width, h.highest()))
	}
	return w
}

var framingKeys = []string{"material", "spacing", "along", "first", "member", "depth", "also", "without"}

// framing reads members over those that stand already.
func (p *project) framing(n *node, f job.Framing, ceiling bool) job.Framing {
	keys := []key{
		{"material", false, func(n *node) { f.Material = choice(p.reader, n, "material", job.Wood, job.Steel) }},
		{"spacing", false, func(n *node) { f.Spacing = p.length(n, "spacing", 4*length.Inch, 8*length.Foot) }},
		{"first", false, func(n *node) { f.First = p.length(n, "first", 0, 8*length.Foot) }},
		{"member", false, func(n *node) { f.Member = p.length(n, "member", length.Inch/2, thickestMember) }},
		{"depth", false, func(n *node) { f.Depth = p.length(n, "depth", length.Inch/2, thickestMember) }},
		{"also", false, func(n *node) { f.Also = p.centres(n, "also") }},
		{"without", false, func(n *node) { f.Without = p.centres(n, "without") }},
	}
	if ceiling {
		keys = append(keys, key{"along", false, func(n *node) { f.Along = choice(p.reader, n, "along", job.AxisX, job.AxisY) }})
	}
	p.keys(n, "framing", keys)
	return f
}

// centres reads places of single members; on a ceiling they lie on the floor plan and may be negative.
func (p *project) centres(n *node, what string) []length.Length {
	var out []length.Length
	if n.kind == list && p.splitComma(n, false) {
		return nil
	}
	p.list(n, what, mostOnWall, func(_ int, item *node) {
		out = append(out, p.length(item, what, -farthest, farthest))
	})
	return out
}

// studsFit refuses members that are named outside the wall.
func (p *project) studsFit(n *node, f job.Framing, width length.Length) {
	for _, name := range []string{"also", "without"} {
		at := n.get(name)
		if at == nil || at.kind != list {
			continue
		}
		for i, x := range map[string][]length.Length{"also": f.Also, "without": f.Without}[name] {
			if x < 0 || x > width {
				p.fault(at.items[i], fmt.Sprintf("the member at %s is not on the wall, which is %s long", at.items[i].text,
					width.Show(p.imperial())), "count from the left end as seen from inside the room")
			}
		}
	}
}

var backingKeys = []string{"product", "seams"}

// noBacking takes the project's default backing off a wall.
const noBacking = "none"

func (p *project) backing(n *node) *job.Backing {
	if n.kind == scalar && n.text == noBacking {
		return nil
	}
	b := &job.Backing{}
	p.keys(n, "backing", []key{
		{"product", true, func(n *node) { b.Product = p.product(n, p.job.Products) }},
		{"seams", false, func(n *node) {
			p.list(n, "seams", 4*mostOnWall, func(_ int, item *node) {
				if c := p.lengths(item, "a seam (x1, y1, x2, y2)", 4, 0, farthest); c != nil {
					b.Seams = append(b.Seams, [2]shape.Point{{X: c[0], Y: c[1]}, {X: c[2], Y: c[3]}})
				}
			})
		}},
	})
	return b
}

func (p *project) insulation(n *node) job.Insulation {
	return choice(p.reader, n, "insulation", job.NoInsulation, job.UnfacedBatt, job.KraftBatt, job.MineralWool, job.FoamPlastic)
}

func (p *project) duty(n *node) []job.Duty {
	var out []job.Duty
	p.list(n, "duty", 5, func(_ int, item *node) {
		d := choice(p.reader, item, "duty", job.Separation, job.Rated, job.Wet, job.Bracing, job.Exterior)
		if slices.Contains(out, d) && d != "" {
			p.fault(item, fmt.Sprintf("%q stands twice in duty", d), "keep one")
		}
		out = append(out, d)
	})
	return out
}

// profile reads the line of a wall's top or bottom: points from the left end to the right one, x never falling.
func (p *project) profile(n *node, what string, width length.Length) []shape.Point {
	points := p.line(n, what, width, 0, highest)
	if points == nil {
		return nil
	}
	if first, last := points[0].X, points[len(points)-1].X; len(points) < 2 || first != 0 || last != width {
		p.fault(n, fmt.Sprintf("%s does not run from one end of the wall to the other", what),
			fmt.Sprintf("begin at x = 0 and end at x = %s", width.Exact(p.imperial())))
		return nil
	}
	return points
}

// line reads points along a wall, x never falling.
func (p *project) line(n *node, what string, width, least, most length.Length) []shape.Point {
	var points []shape.Point
	faults := p.faults
	p.list(n, what, mostCorners, func(i int, item *node) {
		xy := p.lengths(item, what+" (x, y)", 2, -farthest, farthest)
		if xy == nil {
			return
		}
		q := shape.Point{X: xy[0], Y: xy[1]}
		switch {
		case q.X < 0 || q.X > width:
			p.fault(item, fmt.Sprintf("%s leaves the wall, which is %s long", what, width.Show(p.imperial())), "count x from the left end as seen from inside the room")
		case q.Y < least || q.Y > most:
			p.fault(item, fmt.Sprintf("%s at %s is out of bounds", what, item.items[1].text), "check the sign and the unit")
		case len(points) > 0 && q.X < points[len(points)-1].X:
			p.fault(item, fmt.Sprintf("%s goes back to the left here", what), "list its points from left to right")
		case len(points) > 0 && q == points[len(points)-1]:
			p.fault(item, fmt.Sprintf("this point of %s stands twice", what), "delete one")
		}
		points = append(points, q)
	})
	if p.faults > faults {
		return nil
	}
	return points
}

// levels reads measured floor levels along a wall.
func (p *project) levels(n *node, width length.Length) []shape.Point {
	const unevenest = 12 * length.Inch
	return p.line(n, "floor", width, -unevenest, unevenest)
}

// checkBacks looks at the references of walls to each other once all are known.
func (p *project) checkBacks() {
	named := map[string]string{}
	for _, b := range p.backs {
		named[b.from] = b.to
	}
	for _, b := range p.backs {
		switch back, ok := named[b.to]; {
		case p.surfaces[b.to] == nil:
			p.knownSurface(b.at, b.to)
		case b.to == b.from:
			p.fault(b.at, "a wall cannot be its own back", "name the wall on the other face of the partition")
		case strings.HasSuffix(b.to, "/ceiling"):
			p.fault(b.at, "a ceiling cannot be the back of a wall", "name the wall on the other face of the partition")
		case roomOf(b.to) == roomOf(b.from):
			p.fault(b.at, "the two faces of a partition lie in different rooms", "name a wall of the neighbouring room")
		case ok && back != b.from:
			p.fault(b.at, fmt.Sprintf("%s is the back of %s there, not of %s", b.to, back, b.from), "make the two walls name each other")
		}
	}
}

func roomOf(surface string) string {
	room, _, _ := strings.Cut(surface, "/")
	return room
}
