package planner

import (
	"fmt"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/shape"
)

// defaults is what a wall or ceiling takes where it says nothing itself. Framing and lining serve walls and
// ceilings, insulation both, trim and backing walls only.
type defaults struct {
	framing    job.Framing
	lining     []job.Zone
	insulation job.Insulation
	trim       length.Length
	backing    *job.Backing
	finish     int
}

// uppermost is the default lining of a ceiling: the zone that reaches up to it.
func (d *defaults) uppermost() []job.Zone { return d.lining[max(0, len(d.lining)-1):] }

// upTo is the default lining of a wall: the zones that lie between its curb and its head.
func (d *defaults) upTo(base, head length.Length) []job.Zone {
	var zones []job.Zone
	for _, z := range cloneZones(d.lining) {
		if z.To > 0 && z.To <= base {
			continue
		}
		if z.To >= head && head > 0 {
			z.To = 0
		}
		if zones = append(zones, z); z.To == 0 {
			break
		}
	}
	return zones
}

// usualFinish is the level of finish where none is given: ready for flat paint.
const usualFinish = 4

// usualFraming is wood at the spacing and size of its system.
func usualFraming(units job.Units) job.Framing {
	if units == job.Metric {
		return job.Framing{Material: job.Wood, Spacing: 400 * length.Millimetre, Member: 45 * length.Millimetre, Depth: 95 * length.Millimetre}
	}
	return job.Framing{Material: job.Wood, Spacing: 16 * length.Inch, Member: 3 * length.Inch / 2, Depth: 7 * length.Inch / 2}
}

var defaultKeys = []string{"framing", "lining", "insulation", "trim", "backing", "finish", "paint"}

func (p *project) readDefaults(n *node) {
	p.job.Paint = job.Paint{Primer: 1, Coats: 2}
	p.defaults = defaults{framing: usualFraming(p.job.Units), insulation: job.NoInsulation, finish: usualFinish,
		lining: []job.Zone{{Layers: []string{job.Open}, Runs: []job.Run{job.RunAuto}, Pattern: job.Staggered, Finish: usualFinish}}}
	if n == nil || n.null {
		return
	}
	d := &p.defaults
	if f := n.get("finish"); f != nil {
		d.finish = p.whole(f, "finish", 0, 5)
	}
	d.lining[0].Finish = d.finish
	p.keys(n, "defaults", []key{
		{"framing", false, func(n *node) { d.framing = p.framing(n, d.framing, false) }},
		{"lining", false, func(n *node) { d.lining = p.lining(n, d.finish) }},
		{"insulation", false, func(n *node) { d.insulation = p.insulation(n) }},
		{"trim", false, func(n *node) { d.trim = p.length(n, "trim", 0, 48*length.Inch) }},
		{"backing", false, func(n *node) { d.backing = p.backing(n) }},
		{"finish", false, func(*node) {}},
		{"paint", false, p.paint},
	})
}

var paintKeys = []string{"primer", "coats", "sheen"}

func (p *project) paint(n *node) {
	a := &p.job.Paint
	p.keys(n, "paint", []key{
		{"primer", false, func(n *node) { a.Primer = p.whole(n, "primer", 0, 5) }},
		{"coats", false, func(n *node) { a.Coats = p.whole(n, "coats", 0, 10) }},
		{"sheen", false, func(n *node) {
			a.Sheen = choice(p.reader, n, "sheen", "flat", "matte", "eggshell", "satin", "semi-gloss", "gloss")
		}},
	})
}

var roomKeys = []string{"id", "height", "corners", "ceiling", "walls", "solids"}

// roomRead is a sound room, and the walls of it that name their other face.
type roomRead struct {
	room  job.Room
	backs []reference
}

func (p *project) readRooms(n *node) {
	ids := map[string]*node{}
	walls := 0
	p.list(n, "rooms", mostRooms, func(_ int, item *node) {
		if k, ok := p.known[item]; ok && ids[k.room.ID] == nil && walls+len(k.room.Corners) <= mostWalls {
			ids[k.room.ID] = item
			walls += len(k.room.Corners)
			p.keep(item, k)
			return
		}
		r := job.Room{}
		faults, backs := p.faults, len(p.backs)
		var corners, wallList, ceiling, solids *node
		p.keys(item, "a room", []key{
			{"id", true, func(n *node) {
				r.ID = p.id(n, "a room")
				if first := ids[r.ID]; first != nil && r.ID != "" {
					p.fault(n, fmt.Sprintf("two rooms are called %q", r.ID), fmt.Sprintf("give each its own id; the other is on line %d", first.line))
				}
				ids[r.ID] = n
			}},
			{"height", true, func(n *node) { r.Height = p.length(n, "height", length.Foot, highest) }},
			{"corners", true, func(n *node) { corners = n }},
			{"ceiling", false, func(n *node) { ceiling = n }},
			{"walls", false, func(n *node) { wallList = n }},
			{"solids", false, func(n *node) { solids = n }},
		})
		if corners == nil || !p.corners(corners, &r) {
			p.murky[r.ID] = true
			return
		}
		if walls += len(r.Corners); walls > mostWalls {
			if walls-len(r.Corners) <= mostWalls {
				p.fault(item, fmt.Sprintf("the project has more than %d walls", mostWalls), "divide it into several files")
			}
			return
		}
		if ceiling != nil {
			p.ceiling(ceiling, &r)
		}
		p.murky[r.ID] = p.faults > faults
		p.walls(item, wallList, &r)
		if solids != nil {
			p.solids(solids, &r)
		}
		p.job.Rooms = append(p.job.Rooms, r)
		p.rooms[item] = roomRead{r, slices.Clone(p.backs[backs:])}
	})
}

// keep takes a room as it was read before.
func (p *project) keep(item *node, k roomRead) {
	p.rooms[item] = k
	p.job.Rooms = append(p.job.Rooms, k.room)
	p.backs = append(p.backs, k.backs...)
	for i := range k.room.Walls {
		p.surfaces[k.room.ID+"/"+k.room.Walls[i].ID] = item
	}
	if k.room.Ceiling != nil {
		p.surfaces[k.room.ID+"/ceiling"] = item
	}
}

// corners reads the outline and refuses one that is not a room: too few corners, a side of no length, sides that
// cross or touch, no area. It says whether the room can be read on.
func (p *project) corners(n *node, r *job.Room) bool {
	faults := p.faults
	if n.kind == list && p.splitComma(n, false) {
		return false
	}
	p.list(n, "corners", mostCorners, func(_ int, item *node) {
		r.Corners = append(r.Corners, p.point(item, "a corner", -farthest, farthest))
	})
	if p.faults > faults {
		return false
	}
	if n.kind != list || len(r.Corners) < 3 {
		p.fault(n, fmt.Sprintf("a room has at least 3 corners, not %d", len(r.Corners)), "list its corners in order, going round")
		return false
	}
	k := len(r.Corners)
	for i, c := range r.Corners {
		if c == r.Corners[(i+1)%k] {
			p.fault(n.items[(i+1)%k], fmt.Sprintf("corner %d is the same point as corner %d", (i+1)%k+1, i+1), "delete one; the outline closes by itself")
		}
	}
	if p.faults > faults {
		return false
	}
	if i, j, crosses := shape.Polygon(r.Corners).Crossing(); crosses {
		p.fault(n.items[i], fmt.Sprintf("side %d, which begins here, crosses or touches side %d", i+1, j+1), "list the corners in order, going round once")
		return false
	}
	return true
}

var ceilingKeys = []string{"shape", "framing", "insulation", "duty", "lining", "openings", "boxes", "pins"}

func (p *project) ceiling(n *node, r *job.Room) {
	id := r.ID + "/ceiling"
	p.surfaces[id] = n
	d := p.defaults
	c := job.Ceiling{Shape: job.Flat, Framing: cloneFraming(d.framing), Insulation: d.insulation, Lining: cloneZones(d.uppermost())}
	bounds := shape.Polygon(r.Corners).Bounds()
	var pins *node
	shapeNode := n
	if s := n.get("shape"); s != nil && !s.null {
		shapeNode = s
		p.ceilingShape(s, r, &c)
	}
	c.Framing.Along = usualAlong(c, bounds)
	if !p.keys(n, "a ceiling", []key{
		{"shape", false, func(*node) {}},
		{"framing", false, func(n *node) { c.Framing = p.framing(n, c.Framing, true) }},
		{"insulation", false, func(n *node) { c.Insulation = p.insulation(n) }},
		{"duty", false, func(n *node) { c.Duty = p.duty(n) }},
		{"lining", false, func(n *node) {
			c.Lining = p.lining(n, d.finish)
			if len(c.Lining) > 1 {
				p.fault(n, "a ceiling has one zone", "zones by height belong to walls")
			}
		}},
		{"openings", false, func(n *node) { c.Openings = p.hatches(n, r) }},
		{"boxes", false, func(n *node) { c.Boxes = p.boxes(n) }},
		{"pins", false, func(n *node) { pins = n }},
	}) {
		p.fault(shapeNode, "a ceiling is a set of keys", "write { lining: [{product: gyp-12}] }")
	}
	if pins != nil {
		c.Pins = p.pins(pins, c.Lining, farthest)
	}
	if boxes := n.get("boxes"); boxes != nil {
		for i, b := range c.Boxes {
			q := b.Rect()
			for _, corner := range q.Polygon() {
				if shape.Polygon(r.Corners).Contains(corner) == shape.Outside && c.Shape == job.Flat {
					p.fault(boxes.items[i], "the box stands outside the ceiling", "at, up are the x and y of its centre on the floor plan")
					break
				}
			}
			for _, o := range c.Openings {
				if overlap(q, o.Rect()) {
					p.fault(boxes.items[i], fmt.Sprintf("the box stands in the opening %s", o.ID), "move one of them")
				}
			}
		}
	}
	r.Ceiling = &c
}

// usualAlong is the axis that ceiling members run parallel to where the file does not say: up the slope, else the
// shorter way across the room.
func usualAlong(c job.Ceiling, bounds shape.Rect) job.Axis {
	switch c.Shape {
	case job.Ridge:
		if c.Along == job.AxisX {
			return job.AxisY
		}
		return job.AxisX
	case job.Slope:
		if c.From == "west" || c.From == "east" {
			return job.AxisX
		}
		return job.AxisY
	}
	if bounds.W < bounds.H {
		return job.AxisX
	}
	return job.AxisY
}

// ceilingShape reads flat, {ridge: …} or {slope: …}.
func (p *project) ceilingShape(n *node, r *job.Room, c *job.Ceiling) {
	if n.kind == scalar {
		choice(p.reader, n, "a ceiling's shape without further keys", job.Flat)
		return
	}
	p.keys(n, "shape", []key{
		{"ridge", false, func(n *node) {
			c.Shape = job.Ridge
			bounds := shape.Polygon(r.Corners).Bounds()
			p.keys(n, "ridge", []key{
				{"along", true, func(n *node) { c.Along = choice(p.reader, n, "along", job.AxisX, job.AxisY) }},
				{"at", true, func(at *node) {
					c.At = p.length(at, "at", -farthest, farthest)
					low, high, sides := bounds.Y, bounds.MaxY(), "south and north"
					if a := n.get("along"); a != nil && a.text == string(job.AxisY) {
						low, high, sides = bounds.X, bounds.MaxX(), "west and east"
					}
					if c.At <= low || c.At >= high {
						p.fault(at, fmt.Sprintf("the ridge at %s does not lie over the room, which reaches from %s to %s", at.text,
							low.Show(p.imperial()), high.Show(p.imperial())), "put it between the "+sides+" walls")
					}
				}},
				{"height", true, func(n *node) { p.highSide(n, r, c) }},
			})
		}},
		{"slope", false, func(n *node) {
			c.Shape = job.Slope
			p.keys(n, "slope", []key{
				{"from", true, func(n *node) { c.From = choice(p.reader, n, "from", compass...) }},
				{"to", true, func(n *node) { c.To = choice(p.reader, n, "to", compass...) }},
				{"height", true, func(n *node) { p.highSide(n, r, c) }},
			})
			if opposite := map[string]string{"south": "north", "north": "south", "west": "east", "east": "west"}[c.From]; opposite != "" && c.To != "" && c.To != opposite {
				p.fault(n.get("to"), fmt.Sprintf("a slope that rises from %s cannot rise to %s", c.From, c.To), fmt.Sprintf("write `to: %s`", opposite))
			}
		}},
	})
	if len(n.pairs) != 1 {
		p.fault(n, "a ceiling has one shape", "write flat, {ridge: {along, at, height}} or {slope: {from, to, height}}")
	}
}

// highSide reads the height of a ridge or of the high side of a slope.
func (p *project) highSide(n *node, r *job.Room, c *job.Ceiling) {
	c.High = p.length(n, "height", length.Foot, highest)
	if c.High > 0 && c.High <= r.Height {
		p.fault(n, fmt.Sprintf("the high side at %s is not above the room's height, which is that of the low side, %s", n.text,
			r.Height.Show(p.imperial())), "raise it, or make the ceiling flat")
	}
}

// compass names the sides of a room by the way its outside faces.
var compass = []string{"south", "north", "west", "east"}

// hatches reads the openings of a ceiling: at [x, y] and size [w, d] on the floor plan.
func (p *project) hatches(n *node, r *job.Room) []job.Opening {
	var out []job.Opening
	p.list(n, "openings", mostOnWall, func(i int, item *node) {
		o := job.Opening{Kind: job.Hatch}
		p.keys(item, "a ceiling opening", []key{
			{"id", true, func(n *node) { o.ID = p.id(n, "an opening") }},
			{"kind", false, func(n *node) { o.Kind = choice(p.reader, n, "kind", job.Hatch, job.Window, job.KeepOut) }},
			{"at", true, func(n *node) {
				q := p.point(n, "at (x, y on the floor plan)", -farthest, farthest)
				o.At, o.Sill = q.X, q.Y
			}},
			{"size", true, func(n *node) {
				if wh := p.lengths(n, "size", 2, 1, farthest); wh != nil {
					o.Width, o.Height = wh[0], wh[1]
				}
			}},
			{"reveal", false, func(n *node) { o.Reveal = p.length(n, "reveal", 0, 48*length.Inch) }},
			{"return", false, func(n *node) {
				o.Return = choice(p.reader, n, "return", job.ReturnBoard, job.ReturnJamb, job.ReturnNone)
			}},
		})
		if o.Width > 0 && o.Height > 0 {
			for _, corner := range o.Rect().Polygon() {
				if shape.Polygon(r.Corners).Contains(corner) == shape.Outside {
					p.fault(item, fmt.Sprintf("the opening %s leaves the ceiling", o.ID), "at is its lower left corner as seen on the floor plan")
					break
				}
			}
		}
		p.clash(item, o, out)
		out = append(out, o)
	})
	return out
}

var solidKeys = []string{"id", "at", "size", "from", "to", "lining"}

// solids reads columns, beams, soffits and half walls; they are kept, and named as not planned.
func (p *project) solids(n *node, r *job.Room) {
	ids := map[string]bool{}
	p.list(n, "solids", mostOnWall, func(_ int, item *node) {
		s := job.Solid{To: r.Height}
		p.keys(item, "a solid", []key{
			{"id", true, func(n *node) {
				s.ID = p.id(n, "a solid")
				if ids[s.ID] {
					p.fault(n, fmt.Sprintf("two solids of this room are called %q", s.ID), "give each its own id")
				}
				ids[s.ID] = true
			}},
			{"at", true, func(n *node) { s.At = p.point(n, "at", -farthest, farthest) }},
			{"size", true, func(n *node) {
				if wd := p.lengths(n, "size", 2, 1, farthest); wd != nil {
					s.Size = shape.Point{X: wd[0], Y: wd[1]}
				}
			}},
			{"from", false, func(n *node) { s.From = p.length(n, "from", 0, highest) }},
			{"to", false, func(n *node) { s.To = p.length(n, "to", 1, highest) }},
			{"lining", false, func(n *node) { s.Lining = p.lining(n, p.defaults.finish) }},
		})
		if s.To <= s.From {
			p.fault(item, "the solid's top is not above its bottom", "make `to` more than `from`")
		}
		r.Solids = append(r.Solids, s)
	})
}

func cloneFraming(f job.Framing) job.Framing {
	f.Also, f.Without = slices.Clone(f.Also), slices.Clone(f.Without)
	return f
}

func cloneZones(zones []job.Zone) []job.Zone {
	out := slices.Clone(zones)
	for i := range out {
		out[i].Layers, out[i].Runs = slices.Clone(out[i].Layers), slices.Clone(out[i].Runs)
		out[i].Courses = slices.Clone(out[i].Courses)
	}
	return out
}
