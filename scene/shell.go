package scene

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"seamwright/calc/plan"
	"seamwright/calc/shape"
)

// shell adds what closes a wall's framing at its head and ends, where it is cut, and its outer face.
func shell(b *builder, s *plan.Surface, l *look, outline []mgl64.Vec2, deep float64) {
	lo, hi := bounds(outline)
	cut := paint{material: matCut, tag: -1, shade: 1}
	f := &b.frame
	rear := make([]mgl64.Vec2, len(outline))
	for i, v := range outline {
		rear[i] = v
		// Where the wall ends at a corner the rear runs on to the mitre, up along the head's slope.
		prev, next := outline[(i+len(outline)-1)%len(outline)], outline[(i+1)%len(outline)]
		var dx float64
		switch {
		case v[0] == lo[0]:
			dx = -l.mitre[0] * deep
		case v[0] == hi[0]:
			dx = l.mitre[1] * deep
		default:
			continue
		}
		along := next
		if next[0] == v[0] {
			along = prev
		}
		slope := 0.0
		if along[0] != v[0] {
			slope = (along[1] - v[1]) / (along[0] - v[0])
		}
		rear[i] = mgl64.Vec2{v[0] + dx, v[1] + dx*slope}
	}
	for i, a := range outline {
		k := (i + 1) % len(outline)
		c := outline[k]
		if a[1] <= lo[1] && c[1] <= lo[1] {
			continue // it stands on the floor
		}
		b.quad([4]mgl64.Vec3{f.at(rear[i][0], rear[i][1], -deep), f.at(rear[k][0], rear[k][1], -deep), f.at(c[0], c[1], 0), f.at(a[0], a[1], 0)}, cut)
		n := int32(len(b.m.Planes) - 1)
		b.line(n, penCut, 0, a[0], a[1], c[0], c[1], 0)
		b.line(n, penCut, 0, rear[i][0], rear[i][1], rear[k][0], rear[k][1], -deep)
	}
	// The outer face, its own x to the left so that it looks outward; past the ends it runs on to the mitre.
	p := paint{material: matSheath, tag: -1, shade: float32(brightness(f.normal.Mul(-1)))}
	plane := b.plane(f.at(0, 0, -deep), f.x.Mul(-1), f.y, f.normal.Mul(-1), p)
	b.regions(plane, -deep, p, solid(s, s.Outline))
	for i, a := range outline {
		k := (i + 1) % len(outline)
		c := outline[k]
		if a[0] == c[0] && a != rear[i] && rear[i][0] != a[0] {
			b.face(plane, -deep, p, []mgl64.Vec2{a, rear[i], rear[k], c})
		}
	}
}

// solid is what the surface's rough openings leave of an outline on it.
func solid(s *plan.Surface, outline shape.Polygon) []shape.Region {
	rects := make([]shape.Rect, len(s.Holes))
	for i, h := range s.Holes {
		rects[i] = h.Bounds()
	}
	return outline.Subtract(rects...)
}

// regions adds faces for regions on a plane parallel to the surface.
func (b *builder) regions(plane int32, depth float64, p paint, regions []shape.Region) {
	for _, r := range regions {
		var holes [][]mgl64.Vec2
		for _, h := range r.Holes {
			holes = append(holes, metres(h))
		}
		b.face(plane, depth, p, metres(r.Outline), holes...)
	}
}

// underFoot is the strips between the floor and the foot of a zone that begins just above it.
func underFoot(s *plan.Surface, zone shape.Polygon) (strips []shape.Polygon) {
	floor, foot := s.Outline.Bounds().Y, zone.Bounds().Y
	if s.Kind != plan.Wall || foot <= floor || (foot-floor).Metres() >= leastCurb {
		return nil
	}
	for i, a := range zone {
		if c := zone[(i+1)%len(zone)]; a.Y == foot && c.Y == foot && a.X < c.X {
			strips = append(strips, shape.Rect{X: a.X, Y: floor, W: c.X - a.X, H: foot - floor}.Polygon())
		}
	}
	return strips
}

// behindLining closes what slits and gaps of the lining would let through, and shows the curb under a raised lining.
func behindLining(b *builder, s *plan.Surface, tops map[int]int) {
	dark := paint{material: matCut, tag: -1, shade: 0.9}
	open := len(openAreas(s, tops)) > 0
	plane := b.level(-slitBack, dark)
	if !open {
		b.regions(plane, -slitBack, dark, solid(s, s.Outline))
	}
	foot := math.Inf(1)
	for i := range s.Zones {
		z := &s.Zones[i]
		if len(z.Outline) == 0 {
			continue
		}
		lo, _ := bounds(metres(z.Outline))
		foot = min(foot, lo[1])
		if open && z.Layer == 1 && tops[z.Zone] > 0 {
			b.regions(plane, -slitBack, dark, solid(s, z.Outline))
			for _, strip := range underFoot(s, z.Outline) {
				b.regions(plane, -slitBack, dark, solid(s, strip))
			}
		}
	}
	lo, _ := bounds(metres(s.Outline))
	if s.Kind != plan.Wall || foot-lo[1] < leastCurb || math.IsInf(foot, 1) {
		return
	}
	curb := paint{material: matCurb, tag: -1, shade: float32(brightness(b.frame.normal)), light: b.light}
	on := b.level(0, curb)
	outline := metres(s.Outline)
	for i, a := range outline {
		c := outline[(i+1)%len(outline)]
		if a[0] >= c[0] || a[1] > lo[1]+1e-6 || c[1] > lo[1]+1e-6 {
			continue
		}
		for _, r := range (axes{true}).free(s.Holes, lo[1], lo[1]+1e-3, interval{a[0], c[0]}, 0, 0) {
			b.face(on, 0, curb, []mgl64.Vec2{{r.lo, lo[1]}, {r.hi, lo[1]}, {r.hi, foot}, {r.lo, foot}})
			b.line(on, penEdge, 0.2, r.lo, foot, r.hi, foot, 0)
		}
	}
}
