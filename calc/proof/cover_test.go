package proof

// largestGap is how far panels may stand apart at a seam: gypsum touches or at most 1/8 in, wood panels 1/8 in at
// most (GA-216; APA M300).
const largestGap = 25.4 / 8

// cover: the panels cover the zone less openings and boxes, but for fit and gaps, and lie in it without overlap.
func (p *proof) cover(s *surface, z *zone) {
	where, before := s.ID, len(p.faults)
	target := []poly{z.Outline.poly()}
	var holes, boxes []poly
	for _, o := range s.Openings {
		if o.Kind != "keep-out" {
			holes = append(holes, o.Outline.poly())
		}
	}
	boxes = polys(s.Boxes)
	fit := float64(p.asked.Rules.Fit)
	down := 0.0
	if s.Kind == "wall" && z.Zone == 1 {
		down = float64(p.asked.Rules.FloorGap)
		if p.reported(where, "floor-gap") {
			down = max(down, p.trim(s.ID)) // a larger gap that the plan names and trim covers
		}
	}
	var hung, cut, grown []poly
	for _, n := range z.Panels {
		o := n.Outline.poly()
		if len(o) < 3 || o.area() <= 0 {
			p.fail("panel", "%s has no counter-clockwise outline", n.ID)
			continue
		}
		x0, y0, x1, y1 := o.bounds()
		for _, h := range polys(n.Holes) {
			if a0, b0, a1, b1 := h.bounds(); a0 <= x0+epsLength || b0 <= y0+epsLength || a1 >= x1-epsLength || b1 >= y1-epsLength {
				p.fail("panel", "%s of %s has a hole that reaches its edge", n.ID, where)
			}
		}
		hung = append(hung, o)
		grown = append(grown, o.grown(fit+largestGap/2+epsLength, down, target)...)
		cut = append(cut, polys(n.Holes)...)
	}
	if a := areaTwice(hung); a > epsArea {
		p.fail("overlap", "%s zone %d layer %d: panels overlap by %.1f mm²", where, z.Zone, z.Layer, a)
	}
	if a := areaOutside(hung, target); a > epsArea {
		p.fail("outside", "%s zone %d layer %d: %.1f mm² of panel lie outside the zone", where, z.Zone, z.Layer, a)
	}
	if a := areaCommon(hung, holes) - areaCommon(cut, holes); a > epsArea {
		p.fail("hole", "%s zone %d layer %d: panels close %.1f mm² of openings", where, z.Zone, z.Layer, a)
	}
	if a := areaCommon(hung, boxes) - areaCommon(cut, boxes); a > epsArea {
		p.fail("hole", "%s zone %d layer %d: %.1f mm² of boxes are not cut out", where, z.Zone, z.Layer, a)
	}
	net := append(append([]poly(nil), holes...), boxes...)
	if a := areaOutside(cut, net); a > epsArea {
		p.fail("cover", "%s zone %d layer %d: %.1f mm² are cut out where nothing stands", where, z.Zone, z.Layer, a)
	}
	var missed float64
	strips(func(x, w float64) {
		open := minus(union(cross(target, x)), union(append(cross(net, x), cross(grown, x)...)))
		missed += w * size(open)
	}, target, net, grown)
	if missed > epsArea {
		p.fail("cover", "%s zone %d layer %d: %.1f mm² stay uncovered", where, z.Zone, z.Layer, missed)
	}
	if n := len(p.faults); n == before && p.reported(where, "cover") {
		p.fail("cover check", "%s: the plan names a breach of covering where there is none", where)
	} else if n > before && !p.reported(where, "cover") {
		p.fail("cover check", "%s: the plan's own checks are silent", where)
	}
	p.area(s, z)
}

// area: the zone itself reaches as far as the surface, but for linings of neighbours, ceiling, curb and other zones.
func (p *proof) area(s *surface, z *zone) {
	most := 0.0
	for _, t := range thickness {
		most = max(most, 4*t)
	}
	grown := s.Outline.poly().grown(most, 0, nil)
	if a := areaOutside([]poly{z.Outline.poly()}, grown); a > epsArea {
		p.fail("zone", "%s zone %d reaches %.1f mm² beyond its surface", s.ID, z.Zone, a)
	}
}

// trim is the height of the base trim of a wall.
func (p *proof) trim(id string) float64 {
	for i, r := range p.asked.Rooms {
		for _, w := range p.asked.sides(i) {
			if r.ID+"/"+w.wall.ID == id {
				return float64(w.wall.Trim)
			}
		}
	}
	return 0
}
