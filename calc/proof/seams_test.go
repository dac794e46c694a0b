package proof

import (
	"math"
	"strings"
)

// seam is a line where two panels of one layer face each other, found from their outlines alone.
type seam struct {
	upright bool
	at      float64 // its place, in the middle of the gap
	lo, hi  float64
	gap     float64
	a, b    int // panels: left or lower one, right or upper one
}

// facing lists the seams of a layer: upright ones of the outlines given, level ones of the outlines swapped.
func facing(ps []poly, upright bool, most float64) []seam {
	type edge struct {
		at, lo, hi float64
		panel      int
		right      bool // faces to the right
	}
	var edges []edge
	for n, p := range ps {
		for i, a := range p {
			b := p[(i+1)%len(p)]
			if math.Abs(a.x-b.x) < epsLength && math.Abs(a.y-b.y) > epsLength {
				edges = append(edges, edge{a.x, math.Min(a.y, b.y), math.Max(a.y, b.y), n, b.y > a.y})
			}
		}
	}
	var seams []seam
	for _, e := range edges {
		for _, f := range edges {
			lo, hi := math.Max(e.lo, f.lo), math.Min(e.hi, f.hi)
			if e.right && !f.right && e.panel != f.panel && f.at >= e.at-epsLength && f.at-e.at <= most && hi-lo > epsLength {
				seams = append(seams, seam{upright: upright, at: (e.at + f.at) / 2, lo: lo, hi: hi, gap: f.at - e.at, a: e.panel, b: f.panel})
			}
		}
	}
	return seams
}

func (z *zone) seams(most float64) (upright, level []seam) {
	var ps, swapped []poly
	for _, n := range z.Panels {
		o := n.Outline.poly()
		ps, swapped = append(ps, o), append(swapped, o.swapped())
	}
	return facing(ps, true, most), facing(swapped, false, most)
}

// sameLine: places nearer than this count as one line where rules ask for a distance; panels are shortened by fits.
const sameLine = 25.4 / 8

// seams: the rules of the book, read off the panels; a breach must stand in the plan's checks.
func (p *proof) seams(s *surface, z *zone) {
	upright, level := z.seams(2*float64(p.asked.Rules.Fit) + largestGap)
	levelCourses := (z.Run == "across") == (s.Members.Axis == "x")
	ends, longs := upright, level
	if !levelCourses {
		ends, longs = level, upright
	}
	for _, a := range append(append([]seam(nil), ends...), longs...) {
		if a.gap > largestGap+epsLength {
			p.fail("gap", "%s: %s and %s stand %.2f mm apart", s.ID, z.Panels[a.a].ID, z.Panels[a.b].ID, a.gap)
		}
	}
	w, wall := p.wallOf(s.ID)
	along := longs // the seams that run with the members
	if z.Run == "across" {
		along = ends
	}
	for _, a := range along {
		if !p.bears(s, w, a) && !p.mayBlock(s) && !p.reported(s.ID, "bearing") && !p.reported(s.ID, "pin") {
			p.fail("bearing", "%s: the joint at %.1f, %.1f to %.1f bears on nothing", s.ID, a.at, a.lo, a.hi)
		}
	}
	p.stagger(s, z, p.free(s, ends, levelCourses), w)
	p.openings(s, z, ends, longs, levelCourses)
	if wall && w.wall.Backing != nil && z.Layer == 1 && !p.reported(s.ID, "backing-seam") {
		for _, q := range w.wall.Backing.Seams {
			for _, a := range append(append([]seam(nil), upright...), level...) {
				x0, y0, x1, y1 := float64(q[0]), float64(q[1]), float64(q[2]), float64(q[3])
				if !a.upright {
					x0, y0, x1, y1 = y0, x0, y1, x1
				}
				if x0 == x1 && math.Min(a.hi, math.Max(y0, y1))-math.Max(a.lo, math.Min(y0, y1)) > epsLength &&
					math.Abs(a.at-x0) < float64(p.asked.Rules.Backing)-sameLine {
					p.fail("backing", "%s: the seam at %.1f lies over the backing's seam at %.1f", s.ID, a.at, x0)
				}
			}
		}
	}
	p.layers(s, z, upright, level)
	p.leastPiece(s, z, levelCourses)
	p.floor(s, z)
	p.jointKinds(s, z, ends, longs)
	p.once(s, z)
}

// once: no stretch of a line is listed as a joint twice.
func (p *proof) once(s *surface, z *zone) {
	for i, a := range z.Joints {
		for _, b := range z.Joints[:i] {
			for _, k := range []int{0, 1} { // upright lines, then level ones
				ax, bx := float64(a.From[k]), float64(b.From[k])
				if !near(ax, float64(a.To[k]), epsLength) || !near(bx, float64(b.To[k]), epsLength) || !near(ax, bx, epsLength) {
					continue
				}
				a0, a1, b0, b1 := float64(a.From[1-k]), float64(a.To[1-k]), float64(b.From[1-k]), float64(b.To[1-k])
				if both := math.Min(math.Max(a0, a1), math.Max(b0, b1)) - math.Max(math.Min(a0, a1), math.Min(b0, b1)); both > epsLength {
					p.fail("joint twice", "%s: %s and %s joints share %.1f mm at %.1f", s.ID, a.Kind, b.Kind, both, ax)
				}
			}
		}
	}
}

// wallOf finds a wall in the file; a ceiling gives the framing only.
func (p *proof) wallOf(id string) (side, bool) {
	for i, r := range p.asked.Rooms {
		if r.Ceiling != nil && strings.HasPrefix(id, r.ID+"/ceiling") {
			c := side{framing: r.Ceiling.Framing}
			if c.framing.Spacing == 0 {
				c.framing.Spacing = p.asked.Defaults.Framing.Spacing
			}
			return c, false
		}
		for _, w := range p.asked.sides(i) {
			if r.ID+"/"+w.wall.ID == id {
				return w, true
			}
		}
	}
	return side{framing: p.asked.Defaults.Framing}, false
}

// bears: a seam along the members lies on one of the surface's members, or something else carries it. A short member stands
// where an opening has cut it: over and under that opening, so the seam lies on it only where the opening is not.
func (p *proof) bears(s *surface, w side, a seam) bool {
	half := float64(s.Members.Width) / 2
	on := func(at mm) bool { return math.Abs(float64(at)-a.at) <= half-a.gap/2+epsLength } // both sheets want wood under their edges
	for _, at := range s.Members.At {
		if on(at) {
			return true
		}
	}
	for _, at := range s.Cripples {
		if !on(at) {
			continue
		}
		for _, o := range s.Openings {
			x0, y0, x1, y1 := o.Outline.poly().bounds()
			if s.Members.Axis == "y" {
				x0, y0, x1, y1 = y0, x0, y1, x1
			}
			if o.Kind != "keep-out" && x0-half < float64(at) && float64(at) < x1+half && (a.hi <= y0+epsLength || a.lo >= y1-epsLength) {
				return true
			}
		}
	}
	if w.wall.Backing != nil {
		return true
	}
	for k := range s.Zones { // the layer before carries face layers
		if s.Zones[k].Layer > 1 {
			return true
		}
	}
	return false
}

// stagger: end joints of adjoining courses lie apart by the rule, at most one member space.
func (p *proof) stagger(s *surface, z *zone, ends []seam, w side) {
	if z.Pattern != "staggered" || p.reported(s.ID, "stagger", "four-corners") {
		return
	}
	want := float64(p.asked.Rules.Stagger)
	if sp := float64(w.framing.Spacing); sp > 0 {
		want = math.Min(want, sp)
	}
	for i, a := range ends {
		for _, b := range ends[i+1:] {
			if z.control(a) && z.control(b) {
				continue // it parts every course at one place
			}
			touch := math.Abs(a.hi-b.lo) <= 2*sameLine || math.Abs(b.hi-a.lo) <= 2*sameLine
			if touch && math.Abs(a.at-b.at) < want-sameLine {
				p.fail("stagger", "%s: end joints at %.1f and %.1f in adjoining courses", s.ID, a.at, b.at)
			}
		}
	}
}

// free leaves out the end joints at jambs where the file asks for rectangular pieces: every layout has them there,
// and the plan must say so.
func (p *proof) free(s *surface, ends []seam, levelCourses bool) []seam {
	if p.asked.Rules.Cutouts != "rect" || !p.reported(s.ID, "opening") {
		return ends
	}
	var rest []seam
	for _, a := range ends {
		if !p.atJamb(s, a.at, a.lo, a.hi, levelCourses) {
			rest = append(rest, a)
		}
	}
	return rest
}

func (p *proof) atJamb(s *surface, at, lo, hi float64, levelCourses bool) bool {
	for _, o := range s.Openings {
		x0, y0, x1, y1 := o.Outline.poly().bounds()
		if !levelCourses {
			x0, y0, x1, y1 = y0, x0, y1, x1
		}
		if o.Kind != "keep-out" && lo <= y1+sameLine && hi >= y0-sameLine && (near(at, x0, sameLine) || near(at, x1, sameLine)) {
			return true
		}
	}
	return false
}

// openings: no end joint in line with an opening's edge, nor nearer than the rule, where it meets the opening.
func (p *proof) openings(s *surface, z *zone, ends, longs []seam, levelCourses bool) {
	if p.reported(s.ID, "opening") || !isGypsum(z.Product) {
		return // the rule is about joints that are filled
	}
	for _, o := range s.Openings {
		if o.Kind == "keep-out" || areaCommon([]poly{z.Outline.poly()}, []poly{o.Outline.poly()}) < epsArea {
			continue
		}
		x0, y0, x1, y1 := o.Outline.poly().bounds()
		if !levelCourses {
			x0, y0, x1, y1 = y0, x0, y1, x1
		}
		for _, a := range ends {
			if a.hi < y0-sameLine || a.lo > y1+sameLine {
				continue
			}
			if d := math.Min(math.Abs(a.at-x0), math.Abs(a.at-x1)); d < float64(p.asked.Rules.Opening)-sameLine {
				p.fail("opening rule", "%s: the end joint at %.1f lies %.1f mm from an edge of %s", s.ID, a.at, d, o.ID)
			}
		}
	}
}

// layers: seams of a layer keep clear of parallel seams of the layer before, at least of the same line.
func (p *proof) layers(s *surface, z *zone, upright, level []seam) {
	if z.Layer == 1 || p.reported(s.ID, "layers") {
		return
	}
	for k := range s.Zones {
		b := &s.Zones[k]
		if b.Zone != z.Zone || b.Layer != z.Layer-1 {
			continue
		}
		bu, bl := b.seams(2*float64(p.asked.Rules.Fit) + largestGap)
		for _, pair := range [][2][]seam{{upright, bu}, {level, bl}} {
			for _, x := range pair[0] {
				for _, y := range pair[1] {
					if math.Min(x.hi, y.hi)-math.Max(x.lo, y.lo) > epsLength && math.Abs(x.at-y.at) <= sameLine && !(z.control(x) && b.control(y)) {
						p.fail("layers", "%s: seams of layers %d and %d share the line at %.1f", s.ID, b.Layer, z.Layer, x.at)
					}
				}
			}
		}
	}
}

// control: the plan lists a control joint on a seam's line; it goes through all layers.
func (z *zone) control(a seam) bool {
	for _, j := range z.Joints {
		k := 1
		if a.upright {
			k = 0
		}
		if j.Kind == "control" && near(float64(j.From[k]), a.at, sameLine) && near(float64(j.To[k]), a.at, sameLine) {
			return true
		}
	}
	return false
}

// leastPiece: no piece shorter along its course than the rule, unless the zone or openings leave no more there.
func (p *proof) leastPiece(s *surface, z *zone, levelCourses bool) {
	if p.reported(s.ID, "least-piece") {
		return
	}
	zone := z.Outline.poly()
	if !levelCourses {
		zone = zone.swapped()
	}
	slack := 2*float64(p.asked.Rules.Fit) + largestGap
	for _, n := range z.Panels {
		o := n.Outline.poly()
		if !levelCourses {
			o = o.swapped()
		}
		x0, y0, x1, y1 := o.bounds()
		if x1-x0 >= float64(p.asked.Rules.LeastPiece)-slack {
			continue
		}
		if p.asked.Rules.Cutouts == "rect" && (p.atJamb(s, x0, y0, y1, levelCourses) || p.atJamb(s, x1, y0, y1, levelCourses)) {
			continue // as long as the jambs leave it
		}
		if rectilinear(o) && p.room(s, zone, levelCourses, y0, y1, (x0+x1)/2) >= float64(p.asked.Rules.LeastPiece) {
			p.fail("least piece", "%s: %s is only %.1f mm long", s.ID, n.ID, x1-x0)
		}
	}
}

// room is the length along a course, around a place, that the zone and its openings leave.
func (p *proof) room(s *surface, zone poly, levelCourses bool, y0, y1, x float64) float64 {
	mid := (y0 + y1) / 2
	spans := union(cross([]poly{zone.swapped()}, mid))
	var holes []poly
	for _, o := range s.Openings {
		if o.Kind == "keep-out" {
			continue
		}
		h := o.Outline.poly()
		if !levelCourses {
			h = h.swapped()
		}
		if _, b0, _, b1 := h.bounds(); math.Min(b1, y1)-math.Max(b0, y0) > epsLength {
			x0, _, x1, _ := h.bounds()
			holes = append(holes, rect(mid-1, x0, 2, x1-x0))
		}
	}
	for _, v := range minus(spans, union(cross(holes, mid))) {
		if v.lo <= x && x <= v.hi {
			return v.hi - v.lo
		}
	}
	return 0
}

func rectilinear(o poly) bool {
	for i, a := range o {
		if b := o[(i+1)%len(o)]; a.x != b.x && a.y != b.y {
			return false
		}
	}
	return true
}

// floor: the lowest edges of a wall's first zone stand clear of floor or curb.
func (p *proof) floor(s *surface, z *zone) {
	w, wall := p.wallOf(s.ID)
	if !wall || z.Zone != 1 || len(w.wall.Bottom) > 0 || p.reported(s.ID, "floor-gap") {
		return
	}
	const leastGap = 25.4 / 4 // GA-216 s. 4.6.11
	for _, n := range z.Panels {
		_, y0, _, _ := n.Outline.poly().bounds()
		if gap := y0 - float64(w.wall.Base); gap < math.Min(leastGap, float64(p.asked.Rules.FloorGap))-epsLength {
			p.fail("floor gap", "%s: %s stands %.2f mm above floor or curb", s.ID, n.ID, gap)
		}
	}
}

// jointKinds: what two factory or cut edges make of a seam stands so in the plan's joints.
func (p *proof) jointKinds(s *surface, z *zone, ends, longs []seam) {
	for _, a := range append(append([]seam(nil), ends...), longs...) {
		first, second := 1, 3 // right of the left one, left of the right one
		if !a.upright {
			first, second = 2, 0
		}
		e, f := z.Panels[a.a].Edges[first], z.Panels[a.b].Edges[second]
		want := "butt"
		switch {
		case !isGypsum(z.Product):
			want = "panel"
		case e == "tapered" && f == "tapered":
			want = "tapered"
		case e == "tapered" || f == "tapered":
			want = "mixed"
		}
		found, other := false, ""
		for _, j := range z.Joints {
			x, y := float64(j.From[0]), float64(j.To[0])
			lo, hi := float64(j.From[1]), float64(j.To[1])
			if !a.upright {
				x, y, lo, hi = lo, hi, x, y
			}
			if near(x, a.at, sameLine) && near(y, a.at, sameLine) && math.Min(math.Max(lo, hi), a.hi)-math.Max(math.Min(lo, hi), a.lo) > (a.hi-a.lo)/2 {
				if j.Kind == want || j.Kind == "control" {
					found = true
				} else {
					other = j.Kind
				}
			}
		}
		// a short stretch of an edge that a notch has left may be classed with the cut; only whole edges are held to it
		if !found && a.hi-a.lo > 25.4 && edgeSpans(z.Panels[a.a], first) && edgeSpans(z.Panels[a.b], second) {
			p.fail("joint", "%s: the seam at %.1f from %.1f to %.1f is %s, the plan says %q", s.ID, a.at, a.lo, a.hi, want, other)
		}
	}
}

// edgeSpans: the panel's side (bottom, right, top, left) lies on its bounding box and is straight.
func edgeSpans(n panel, side int) bool {
	return rectilinear(n.Outline.poly()) && len(n.Outline) == 4
}
