package draft

import (
	"math"

	"seamwright/calc/job"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
)

// StripHit finds what lies under a pixel of the strip: pin, then the badge of a check, seam, opening, box, panel,
// zone, surface.
func StripHit(p *plan.Plan, j *job.Job, v View, s StripState, at Pt) Target {
	list := layStrip(p, j, s.Room, v.Rows)
	d := &stripSheet{p: p, j: j, v: v, s: s, list: list}
	for i := range list {
		t := &list[i]
		if t.box(v).Inset(-PinReach).Has(at) {
			if found := d.hit(t, at); found.Kind != Nothing {
				return found
			}
		}
	}
	return Target{}
}

func (d *stripSheet) hit(t *slot, at Pt) Target {
	v := t.view(d.v)
	base := Target{Room: t.s.Room, Surface: t.s.ID, At: v.At(at)}
	for _, p := range d.pinsOf(t, v) {
		if at.Sub(p.at).Len() <= PinReach {
			g := base
			g.Kind, g.Index, g.Zone, g.Layer = OnPin, p.index, p.pin.Zone, p.pin.Layer
			return g
		}
	}
	for _, r := range d.reasonsOf(t, v) {
		if at.Sub(r.at).Len() <= badgeRadius+2 {
			g := base
			g.Kind, g.Index = OnCheck, r.index
			return g
		}
	}
	zones := shownZones(t.s, d.s.Layer)
	if g, ok := d.hitSeam(t, v, zones, at, base); ok {
		return g
	}
	place := t.s.Outline.Contains(base.At)
	if place == shape.Outside {
		return Target{}
	}
	for i := range t.s.Openings {
		o := &t.s.Openings[i]
		if o.Outline.Contains(base.At) != shape.Outside {
			g := base
			g.Kind, g.Opening, g.Index, g.Drag = OnOpening, o.ID, i, job.AxisX
			return g
		}
	}
	for i, b := range t.s.Boxes {
		r := b.Bounds()
		a, z := v.Place(shape.Point{X: r.X, Y: r.MaxY()}), v.Place(shape.Point{X: r.MaxX(), Y: r.Y})
		if (Rect{a.X, a.Y, z.X - a.X, z.Y - a.Y}).Inset(-BoxReach).Has(at) {
			g := base
			g.Kind, g.Index = OnBox, i
			return g
		}
	}
	for _, i := range zones {
		z := &t.s.Zones[i]
		g := base
		g.Zone, g.Layer = z.Zone, z.Layer
		for k := range z.Panels {
			if inPanel(&z.Panels[k], base.At) {
				g.Kind, g.Panel = OnPanel, z.Panels[k].ID
				return g
			}
		}
		if z.Outline.Contains(base.At) != shape.Outside {
			g.Kind = OnZone
			return g
		}
	}
	base.Kind = OnSurface
	return base
}

func inPanel(p *plan.Panel, q shape.Point) bool {
	if p.Outline.Contains(q) == shape.Outside {
		return false
	}
	for _, h := range p.Holes {
		if h.Contains(q) == shape.Inside {
			return false
		}
	}
	return true
}

// hitSeam finds the nearest seam between two panels within reach. Only upright and level ones can be dragged.
func (d *stripSheet) hitSeam(t *slot, v View, zones []int, at Pt, base Target) (Target, bool) {
	near, found := SeamReach, false
	best := base
	for _, i := range zones {
		z := &t.s.Zones[i]
		for n := range z.Joints {
			k := &z.Joints[n]
			if _, _, drawn := seamPen(&Theme{}, k.Kind); !drawn {
				continue
			}
			dist := distance(at, v.Place(k.From), v.Place(k.To))
			if dist > near || math.IsNaN(dist) {
				continue
			}
			near, found = dist, true
			best = base
			best.Kind, best.Zone, best.Layer, best.Index = OnSeam, z.Zone, z.Layer, n
			best.Drag = seamWay(k)
		}
	}
	return best, found
}

// seamWay is the axis along which a seam may be moved: across itself. A slanted one and one that does not part two
// panels stay where they are.
func seamWay(k *plan.Joint) job.Axis {
	switch {
	case len(k.Panels) < 2:
		return ""
	case k.From.X == k.To.X:
		return job.AxisX
	case k.From.Y == k.To.Y:
		return job.AxisY
	}
	return ""
}
