package scene

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
)

// Hit is what lies under the pointer.
type Hit struct {
	Surface  string
	Room     string
	Zone     int         // 1-based; 0 where no zone was hit
	Layer    int         // 1-based; 0 where no layer was hit
	Product  string      // product of the layer, "open" where the framing is bare
	Panel    string      // panel id, or ""
	Sheet    string      // sheet that the panel is cut from, or ""
	Opening  string      // opening id, or ""
	Joint    *plan.Joint // the joint within reach of the pointer, or nil
	At       shape.Point // place on the surface
	Point    mgl64.Vec3  // place in the building, metres
	Distance float64     // from the eye, metres
	Floor    bool        // the floor of Room was hit, no surface
}

// jointReach is how near in logical pixels the pointer must come to a joint.
const jointReach = 5.0

// Pick finds what lies at pixel position (x, y) of a w by h picture drawn by cam in that style; the style says
// which walls are cut away. The sheet is found in exact lengths, so at a seam the answer changes from one nanometre
// to the next.
func (s *Scene) Pick(cam Camera, st Style, w, h int, x, y float64) (Hit, bool) {
	ray := cam.Ray(w, h, x, y)
	best := Hit{Distance: math.Inf(1)}
	found := false
	for _, q := range s.parts {
		if hidden, _ := cutAway(q, cam, st); hidden {
			continue
		}
		if hit, ok := q.pick(s, cam.Eye, ray, best.Distance); ok {
			best, found = hit, true
		}
	}
	for i := range s.rooms {
		r := &s.rooms[i]
		if ray[2] >= 0 || cam.Eye[2] <= 0 {
			break
		}
		t := -cam.Eye[2] / ray[2]
		p := cam.Eye.Add(ray.Mul(t))
		if t < best.Distance && inside(p.Vec2(), r.corners) {
			best, found = Hit{Room: r.id, Floor: true, Point: p, Distance: t, At: point(p[0], p[1])}, true
		}
	}
	if !found {
		return Hit{}, false
	}
	if q := s.partOf(best.Surface); q != nil && best.Zone > 0 {
		best.Joint = q.jointAt(best, cam, st, w, h, x, y)
	}
	return best, true
}

func point(x, y float64) shape.Point {
	return shape.Point{X: length.FromMM(x * 1000), Y: length.FromMM(y * 1000)}
}

// pick finds what a ray meets first on one surface, nearer than a limit.
func (q *part) pick(s *Scene, eye, ray mgl64.Vec3, limit float64) (Hit, bool) {
	f := &q.frame
	down := -f.normal.Dot(ray)
	if down <= 0 {
		return Hit{}, false // it meets the surface's back or runs along it
	}
	height := f.normal.Dot(eye.Sub(f.origin))
	// at is where the ray meets the level at a depth.
	at := func(depth float64) (float64, mgl64.Vec3, shape.Point) {
		t := (height - depth) / down
		p := eye.Add(ray.Mul(t))
		rel := p.Sub(f.origin)
		return t, p, point(rel.Dot(f.x), rel.Dot(f.y))
	}
	tops := topLayers(q.surface, s.opt.Layers)
	best, found := Hit{Distance: limit}, false
	for i := range q.surface.Zones {
		z := &q.surface.Zones[i]
		depth, open := 0.0, bare(z)
		if top, lined := tops[z.Zone]; lined {
			if z.Layer != top {
				continue
			}
			depth = (z.Depth + productOf(s.job, z.Product).thickness).Metres()
		} else if z.Layer > 1 {
			continue
		}
		t, p, on := at(depth)
		if t <= 0 || t >= best.Distance || z.Outline.Contains(on) == shape.Outside || q.inHole(on) {
			continue
		}
		best = Hit{Surface: q.id, Room: q.room, Zone: z.Zone, Layer: z.Layer, Product: z.Product, At: on, Point: p, Distance: t}
		if open {
			best.Product = job.Open
		}
		if panel := panelAt(z, on); panel != nil {
			best.Panel, best.Sheet = panel.ID, panel.Sheet
		}
		found = true
	}
	if t, p, on := at(0); t > 0 && t < best.Distance && q.surface.Outline.Contains(on) != shape.Outside {
		hit := Hit{Surface: q.id, Room: q.room, At: on, Point: p, Distance: t}
		for i := range q.surface.Openings {
			o := &q.surface.Openings[i]
			if o.Kind != string(job.KeepOut) && o.Outline.Contains(on) != shape.Outside {
				hit.Opening = o.ID
				return hit, true
			}
		}
		if !found && !q.inHole(on) {
			hit.Product = job.Open
			return hit, true
		}
	}
	return best, found
}

// inHole reports whether a place lies inside a rough opening.
func (q *part) inHole(p shape.Point) bool {
	for _, h := range q.surface.Holes {
		if h.Contains(p) == shape.Inside {
			return true
		}
	}
	return false
}

// panelAt is the first panel of a zone that holds a place, its edges included; nil in a gap.
func panelAt(z *plan.Zone, p shape.Point) *plan.Panel {
	for i := range z.Panels {
		if (shape.Region{Outline: z.Panels[i].Outline, Holes: z.Panels[i].Holes}).Contains(p) != shape.Outside {
			return &z.Panels[i]
		}
	}
	return nil
}

// jointAt is the joint of the hit's layer that lies nearest to the pointer in the picture, within reach.
func (q *part) jointAt(hit Hit, cam Camera, st Style, w, h int, x, y float64) *plan.Joint {
	reach := jointReach * max(1, st.Scale)
	var best *plan.Joint
	for i := range q.surface.Zones {
		z := &q.surface.Zones[i]
		if z.Zone != hit.Zone || z.Layer != hit.Layer {
			continue
		}
		f := &q.frame
		depth := f.normal.Dot(hit.Point.Sub(f.origin))
		for k := range z.Joints {
			j := &z.Joints[k]
			if _, between := penOf(j.Kind); !between {
				continue
			}
			a := f.at(j.From.X.Metres(), j.From.Y.Metres(), depth)
			b := f.at(j.To.X.Metres(), j.To.Y.Metres(), depth)
			// The joint's nearest point in space to what was hit is in front of the eye even where its ends are not.
			e := b.Sub(a)
			if e.LenSqr() == 0 {
				continue
			}
			c := a.Add(e.Mul(clamp(hit.Point.Sub(a).Dot(e)/e.LenSqr(), 0, 1)))
			px, py, ok := cam.Project(w, h, c)
			if !ok {
				continue
			}
			// The distance across the joint: along it the nearest point in space need not be the nearest in the picture.
			d := math.Hypot(px-x, py-y)
			if qx, qy, ok := cam.Project(w, h, c.Add(e.Mul(0.01/e.Len()))); ok {
				ex, ey := qx-px, qy-py
				if l := math.Hypot(ex, ey); l > 0 && c != a && c != b {
					d = math.Abs((x-px)*ey-(y-py)*ex) / l
				}
			}
			if d <= reach {
				reach, best = d, j
			}
		}
	}
	return best
}
