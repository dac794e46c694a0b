package scene

import (
	"math"
	"slices"

	"github.com/go-gl/mathgl/mgl64"

	"seamwright/calc/job"
	"seamwright/calc/plan"
)

// cornerFit is how far in metres the ends of two walls may lie apart and still be one corner: slants are rounded.
const cornerFit = 0.01

// buildRooms builds the floors from the feet of the walls and gives, for every wall, how far the rear of its framing
// runs past its left and right end per metre of depth, so that walls meet in a mitre.
func (s *Scene) buildRooms() map[string][2]float64 {
	type foot struct {
		id          string
		left, right mgl64.Vec2
		dir         mgl64.Vec2
	}
	var order []string
	feet := map[string][]foot{}
	for i := range s.plan.Surfaces {
		w := &s.plan.Surfaces[i]
		if w.Kind != plan.Wall {
			continue
		}
		f := frameOf(w.Frame)
		_, hi := bounds(metres(w.Outline))
		end := f.at(hi[0], 0, 0)
		if _, known := feet[w.Room]; !known {
			order = append(order, w.Room)
		}
		feet[w.Room] = append(feet[w.Room], foot{w.ID, f.origin.Vec2(), end.Vec2(), f.x.Vec2()})
	}
	mitres := map[string][2]float64{}
	old := s.rooms
	s.rooms = nil
	for _, id := range order {
		walls := feet[id]
		r := room{id: id}
		for _, w := range walls {
			r.corners = append(r.corners, w.left)
			m := mitres[w.id]
			for _, n := range walls {
				if n.left.Sub(w.right).Len() > cornerFit {
					continue
				}
				// Seen from above, walls run clockwise; a clockwise turn is an inside corner and the rears part.
				turn := math.Atan2(w.dir[1]*n.dir[0]-w.dir[0]*n.dir[1], w.dir.Dot(n.dir))
				k := clamp(math.Tan(turn/2), -3, 3)
				m[1] = k
				o := mitres[n.id]
				o[0] = k
				mitres[n.id] = o
			}
			mitres[w.id] = [2]float64{mitres[w.id][0], m[1]}
		}
		if len(r.corners) < 3 {
			continue
		}
		if area(r.corners) < 0 {
			for i, j := 0, len(r.corners)-1; i < j; i, j = i+1, j-1 {
				r.corners[i], r.corners[j] = r.corners[j], r.corners[i]
			}
		}
		grid := gridMetric
		if s.job == nil || s.job.Units != job.Metric {
			grid = gridFeet
		}
		m := mixer(7)
		m.vector(mgl64.Vec3{grid})
		for _, c := range r.corners {
			m.vector(c.Vec3(0))
		}
		r.sign = uint64(m)
		for i := range old {
			if old[i].id == id && old[i].sign == r.sign {
				r = old[i]
			}
		}
		if len(r.mesh.Faces) == 0 {
			r.build(grid)
		}
		s.rooms = append(s.rooms, r)
	}
	return mitres
}

func area(p []mgl64.Vec2) float64 {
	a := 0.0
	for i, v := range p {
		w := p[(i+1)%len(p)]
		a += v[0]*w[1] - w[0]*v[1]
	}
	return a / 2
}

// The floor is ruled every metre or every four feet, so that the picture has a scale.
const (
	gridMetric = 1.0
	gridFeet   = 1.2192
)

// underWall is how far the floor runs on under the walls, in metres, so that no crack opens where they meet.
const underWall = 0.001

// grown is a counter-clockwise outline with every edge moved outward by so much.
func grown(p []mgl64.Vec2, by float64) []mgl64.Vec2 {
	out := make([]mgl64.Vec2, len(p))
	for i, v := range p {
		a, c := v.Sub(p[(i+len(p)-1)%len(p)]), p[(i+1)%len(p)].Sub(v)
		if a.Len() == 0 || c.Len() == 0 {
			out[i] = v
			continue
		}
		// Outward is to the right of the way round; the corner stays on both moved edges.
		m, n := mgl64.Vec2{a[1], -a[0]}.Normalize(), mgl64.Vec2{c[1], -c[0]}.Normalize()
		out[i] = v.Add(m.Add(n).Mul(by / max(0.2, 1+m.Dot(n))))
	}
	return out
}

// build makes the floor.
func (r *room) build(grid float64) {
	b := &builder{m: &r.mesh, frame: frame3{x: mgl64.Vec3{1, 0, 0}, y: mgl64.Vec3{0, 1, 0}, normal: mgl64.Vec3{0, 0, 1}}}
	p := paint{material: matFloor, tag: -1, shade: 0.97, light: contact(r.corners, 1.2)}
	plane := b.level(0, p)
	b.face(plane, 0, p, grown(r.corners, underWall))
	b.ring(plane, penEdge, 0.2, r.corners, 0)
	lo, hi := bounds(r.corners)
	for _, ax := range []axes{{false}, {true}} {
		outline, along := ax.swap(r.corners), 0
		if ax.swapped {
			along = 1
		}
		for u := lo[along] + grid; u < hi[along]-grid/8; u += grid {
			for _, v := range spans(outline, u) {
				a, c := ax.back(u, v.lo), ax.back(u, v.hi)
				b.line(plane, penFloor, grid/2, a[0], a[1], c[0], c[1], 0)
			}
		}
	}
	r.mesh.Bound()
	r.centre = mgl64.Vec3{(lo[0] + hi[0]) / 2, (lo[1] + hi[1]) / 2, 0}
}

// stand is a place inside the room from which most of it is seen, and the heading of the view: near one end of its
// longer side, looking along it.
func (r *room) stand() (mgl64.Vec3, float64) {
	lo, hi := bounds(r.corners)
	best, at := -1.0, r.centre
	const steps = 12
	for iy := 1; iy < steps; iy++ {
		for ix := 1; ix < steps; ix++ {
			p := mgl64.Vec2{lo[0] + (hi[0]-lo[0])*float64(ix)/steps, lo[1] + (hi[1]-lo[1])*float64(iy)/steps}
			if !inside(p, r.corners) {
				continue
			}
			clearance := p.Sub(nearest(p, r.corners)).Len()
			// Far from the middle, but at least half a metre off the walls.
			if far := p.Sub(r.centre.Vec2()).Len(); clearance >= min(0.5, (hi[0]-lo[0])/4) && far > best {
				best, at = far, p.Vec3(0)
			}
		}
	}
	d := r.centre.Sub(at)
	if d.Len() < 1e-6 {
		return at, 0
	}
	return at, math.Atan2(d[0], d[1])
}

// spans is where the line at u runs inside an outline in u, v.
func spans(outline []mgl64.Vec2, u float64) (out []interval) {
	var at []float64
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		if (a[0] > u) != (b[0] > u) {
			at = append(at, a[1]+(b[1]-a[1])*(u-a[0])/(b[0]-a[0]))
		}
	}
	slices.Sort(at)
	for i := 0; i+1 < len(at); i += 2 {
		out = append(out, interval{at[i], at[i+1]})
	}
	return out
}
