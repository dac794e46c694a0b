package scene

import (
	"hash/fnv"
	"slices"

	"github.com/go-gl/mathgl/mgl64"

	"seamwright/calc/job"
	"seamwright/calc/plan"
)

// Depths of what lies on or just behind a face, in metres.
const (
	seamBack    = 0.0015 // the filling that closes a joint's slit lies this far behind the face
	seamWide    = 0.006  // half the width of that filling
	slitBack    = 0.0005 // what slits let through lies this far behind the face of the framing
	leastCurb   = 0.02   // a lining raised by less stands clear of the floor, it stands on no curb
	neighbour   = 0.006  // another sheet this near to a sheet's side hides the side
	defaultDeep = 0.089  // depth of framing that the plan leaves out: a 3-1/2 in stud
)

// buildPart builds the picture of one surface. From the part that stood for it before, if any, it takes over the
// light, which depends on the outline alone and is most of the work.
func buildPart(s *plan.Surface, l *look, sign uint64, before *part) *part {
	q := &part{id: s.ID, room: s.Room, surface: s, sign: sign, frame: frameOf(s.Frame)}
	outline := metres(s.Outline)
	for _, v := range outline {
		q.corners = append(q.corners, q.frame.at(v[0], v[1], 0))
		q.top = max(q.top, q.corners[len(q.corners)-1][2])
	}
	lo, hi := bounds(outline)
	q.centre = q.frame.at((lo[0]+hi[0])/2, (lo[1]+hi[1])/2, 0)
	b := &builder{m: &q.solid, frame: q.frame}
	if before != nil && slices.Equal(before.outline, outline) {
		q.light = before.light
	} else {
		q.light = contact(outline, 1)
	}
	b.light, q.outline = q.light, outline
	deep := s.Members.Depth.Metres()
	if deep <= 0 {
		deep = defaultDeep
	}
	tops := topLayers(s, l.layers)
	for i := range s.Zones {
		z := &s.Zones[i]
		if bare(z) {
			continue
		}
		if top, ok := tops[z.Zone]; !ok || z.Layer > top {
			continue
		}
		q.lining(b, i, l, tops[z.Zone] == z.Layer)
	}
	behindLining(b, s, tops)
	// The cut comes before the framing: where a plate's back lies in it, the cut shows.
	if s.Kind == plan.Wall {
		shell(b, s, l, outline, deep)
	}
	if areas := openAreas(s, tops); len(areas) > 0 {
		openFraming(b, s, l, areas, deep)
	}
	q.openings(b, deep)
	q.trim(b)
	q.boxes(b, l)
	q.solid.Bound()
	g := &builder{m: &q.ghost, frame: q.frame}
	g.ring(-1, penGhost, 0, outline, 0)
	for _, h := range s.Holes {
		g.ring(-1, penGhostHole, 0.5, metres(h), 0)
	}
	q.ghost.Bound()
	return q
}

// bare reports whether a zone's layer has nothing on it.
func bare(z *plan.Zone) bool { return z.Product == job.Open || len(z.Panels) == 0 }

// topLayers is the outermost layer to show of each zone.
func topLayers(s *plan.Surface, limit int) map[int]int {
	tops := map[int]int{}
	for i := range s.Zones {
		z := &s.Zones[i]
		if !bare(z) && (limit == 0 || z.Layer <= limit) {
			tops[z.Zone] = max(tops[z.Zone], z.Layer)
		}
	}
	return tops
}

// openAreas are the outlines of zones where the framing is seen.
func openAreas(s *plan.Surface, tops map[int]int) [][]mgl64.Vec2 {
	if len(s.Zones) == 0 {
		return [][]mgl64.Vec2{metres(s.Outline)}
	}
	var out [][]mgl64.Vec2
	for i := range s.Zones {
		z := &s.Zones[i]
		if _, lined := tops[z.Zone]; !lined && z.Layer <= 1 {
			o := z.Outline
			if len(o) == 0 {
				o = s.Outline
			}
			out = append(out, metres(o))
		}
	}
	return out
}

// lining adds one layer's sheets: their faces where the layer is the one seen, and always the sides that stand free.
func (q *part) lining(b *builder, index int, l *look, seen bool) {
	z := &q.surface.Zones[index]
	p := l.products[z.Product]
	back := z.Depth.Metres()
	front := back + p.thickness.Metres()
	q.front = max(q.front, front)
	face := paint{material: p.material, tag: -1, shade: float32(brightness(b.frame.normal)), light: b.light}
	// Members counted along x stand upright, so a sheet across them has its length along x.
	face.turn = (z.Run == string(job.RunAlong)) == (q.surface.Members.Axis != "y")
	plane := b.level(front, face)
	if seen {
		q.reaches = append(q.reaches, reach{metres(z.Outline), front})
	}
	if seen && !p.wood {
		q.fronts = append(q.fronts, frontRef{index, plane})
	}
	side := paint{material: p.material, tag: -1, turn: face.turn, shade: 0.93}
	if p.wood {
		side.material = matPlyEdge
	}
	rings := make([][]mgl64.Vec2, len(z.Panels))
	for i := range z.Panels {
		rings[i] = metres(z.Panels[i].Outline)
	}
	var avoid [][]mgl64.Vec2
	for _, h := range q.surface.Holes {
		avoid = append(avoid, metres(h))
	}
	for i := range z.Panels {
		panel := &z.Panels[i]
		f := face
		f.shift = patternShift(panel.ID)
		if seen {
			f.tag = int32(len(q.panels))
			q.panels = append(q.panels, panelRef{index, i})
			var holes [][]mgl64.Vec2
			for _, h := range panel.Holes {
				holes = append(holes, metres(h))
			}
			b.face(plane, front, f, rings[i], holes...)
			letter(b, plane, panel.ID, rings[i], avoid, front)
		}
		for k, a := range rings[i] {
			c := rings[i][(k+1)%len(rings[i])]
			for _, free := range uncovered(a, c, rings, i) {
				a, c := free[0], free[1]
				s := side
				s.tag = f.tag
				s.shade *= b.facing(a, c)
				b.side(a, c, back, front, s)
				if seen {
					b.line(plane, penEdge, 0.25, a[0], a[1], c[0], c[1], front)
				}
			}
		}
		for _, h := range panel.Holes {
			for k, a := range metres(h) {
				c := metres(h)[(k+1)%len(h)]
				s := side
				s.tag = f.tag
				s.shade *= b.facing(c, a)
				b.side(c, a, back, front, s)
				if seen {
					b.line(plane, penEdge, 0.05, a[0], a[1], c[0], c[1], front)
				}
			}
		}
	}
	if !seen {
		return
	}
	filling := paint{material: matFilling, tag: -1, shade: face.shade, light: b.light}
	if p.wood {
		filling.material = matGap
	}
	strip := b.level(front-seamBack, filling)
	for i := range z.Joints {
		j := &z.Joints[i]
		pen, between := penOf(j.Kind)
		if !between {
			continue
		}
		x0, y0, x1, y1 := j.From.X.Metres(), j.From.Y.Metres(), j.To.X.Metres(), j.To.Y.Metres()
		b.line(plane, pen, 0.22, x0, y0, x1, y1, front)
		e := mgl64.Vec2{x1 - x0, y1 - y0}
		if e.Len() < 1e-6 {
			continue
		}
		n := mgl64.Vec2{-e[1], e[0]}.Mul(seamWide / e.Len())
		a, c := mgl64.Vec2{x0, y0}, mgl64.Vec2{x1, y1}
		b.face(strip, front-seamBack, filling, []mgl64.Vec2{a.Sub(n), c.Sub(n), c.Add(n), a.Add(n)})
	}
	q.memberMarks(b, plane, z, front)
}

// memberMarks adds the dashed lines that show members through the lining.
func (q *part) memberMarks(b *builder, plane int32, z *plan.Zone, front float64) {
	ax := axesOf(q.surface)
	area := ax.swap(metres(z.Outline))
	for _, at := range q.surface.Members.At {
		x := at.Metres()
		lo, hi, ok := across(area, x)
		if !ok {
			continue
		}
		for _, r := range ax.free(q.surface.Holes, x, x, interval{lo, hi}, 0, 0) {
			a, c := ax.back(x, r.lo), ax.back(x, r.hi)
			b.line(plane, penMember, 0.12, a[0], a[1], c[0], c[1], front)
		}
	}
}

// uncovered is the parts of the edge a-c of one sheet along whose outer side no other sheet of the layer lies.
func uncovered(a, c mgl64.Vec2, rings [][]mgl64.Vec2, own int) (free [][2]mgl64.Vec2) {
	e := c.Sub(a)
	if e.Len() < 1e-9 {
		return nil
	}
	out := mgl64.Vec2{e[1], -e[0]}.Mul(neighbour / e.Len())
	// The edge is parted where corners of other sheets lie beside it.
	cuts := []float64{0, 1}
	for i, r := range rings {
		if i == own {
			continue
		}
		for _, v := range r {
			t := v.Sub(a).Dot(e) / e.LenSqr()
			if t > 0 && t < 1 && a.Add(e.Mul(t)).Sub(v).Len() < neighbour {
				cuts = append(cuts, t)
			}
		}
	}
	slices.Sort(cuts)
	for k := 1; k < len(cuts); k++ {
		if (cuts[k]-cuts[k-1])*e.Len() < neighbour {
			continue // the slit between two sheets that meet here
		}
		p := a.Add(e.Mul((cuts[k-1] + cuts[k]) / 2)).Add(out)
		hidden := false
		for i, r := range rings {
			hidden = hidden || i != own && inside(p, r)
		}
		if !hidden {
			free = append(free, [2]mgl64.Vec2{a.Add(e.Mul(cuts[k-1])), a.Add(e.Mul(cuts[k]))})
		}
	}
	return free
}

// patternShift gives each sheet its own place in the pattern, so that the grain does not run through a seam.
func patternShift(id string) [2]float32 {
	h := fnv.New32a()
	h.Write([]byte(id))
	v := h.Sum32()
	return [2]float32{float32(v&0xff) / 256 * patternSize, float32(v>>8&0xff) / 256 * patternSize}
}

// penOf is the pen of a joint, and whether sheets meet in it; other joints lie along edges that are drawn anyway.
func penOf(k plan.JointKind) (pen uint8, between bool) {
	switch k {
	case plan.Tapered:
		return penTapered, true
	case plan.Mixed:
		return penMixed, true
	case plan.Butt:
		return penButt, true
	case plan.PanelGap:
		return penPanel, true
	case plan.Control:
		return penControl, true
	}
	return penEdge, false
}
