package scene

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"seamwright/calc/plan"
	"seamwright/scene/light"
	"seamwright/scene/raster"
)

const (
	reliefStep   = 0.008 // metres between points of the relief, at least
	reliefPoints = 4e6   // of all reliefs of a scene together, about: a large building gets a coarser grid
	endFeather   = 0.6   // of the half-width: how far a joint's ends take to rise
	jointPlaces  = 5     // along a joint, where its light is looked at
	viewDistance = 2.0   // metres, from where joints are judged unless said otherwise
	usualLevel   = 4     // finish level where neither style nor plan names one
)

// finished is a part as it looks painted, with its relief.
type finished struct {
	mesh   raster.Mesh
	seats  []seat // of its planes
	lines  int    // of it before the marks
	raking Raking
	built  int
}

// levelOf is the finish level that counts for a zone.
func levelOf(z *plan.Zone, r Raking) light.Level {
	switch {
	case r.Level > 0:
		return light.Level(r.Level)
	case z.Finish > 0:
		return light.Level(z.Finish)
	}
	return usualLevel
}

// finishOf is how a joint is finished; false where it is not.
func finishOf(k plan.JointKind) (light.Kind, bool) {
	switch k {
	case plan.Tapered:
		return light.Tapered, true
	case plan.Butt, plan.Mixed:
		return light.Butt, true
	}
	return 0, false
}

// keepUp lets go of what was worked out for another scene, or for other lamps.
func (r *Renderer) keepUp(s *Scene, k Raking) {
	if r.finished == nil {
		r.finished, r.floors, r.rooms = map[*part]*finished{}, map[string]*finished{}, map[string]lit{}
	}
	if r.finishedOf != s || r.finishedBuilt != s.built {
		for p := range r.finished {
			if s.partOf(p.id) != p {
				delete(r.finished, p)
			}
		}
		clear(r.floors)
		clear(r.rooms)
		r.finishedOf, r.finishedBuilt = s, s.built
	}
	if r.lit != k || !r.lobed {
		clear(r.rooms)
		if r.lit.Sheen != k.Sheen || !r.lobed {
			p := k.Sheen.Paint()
			r.gloss.SetLobe(p.Lobe, p.Exponent)
			r.lobed = true
		}
		r.lit = k
	}
}

// room is a room's light.
func (r *Renderer) room(s *Scene, id string, k Raking) lit {
	l, known := r.rooms[id]
	if !known {
		l = s.litRoom(id, k)
		r.rooms[id] = l
	}
	return l
}

// finish is a part's painted mesh, made when first asked for and kept while part and light stand.
func (r *Renderer) finish(s *Scene, q *part, k Raking) *raster.Mesh {
	r.keepUp(s, k)
	f := r.finished[q]
	if f == nil || f.raking.Level != k.Level {
		f = &finished{mesh: q.painted(k, s.ReliefStep())}
		f.lines, f.seats = len(f.mesh.Lines), seatsOf(&f.mesh)
		r.finished[q] = f
	}
	if f.raking != k || f.built != s.built {
		f.raking, f.built = k, s.built
		l := r.room(s, q.room, k)
		q.relight(f.mesh.Planes, l, k, &r.gloss)
		l.shine(f.mesh.Planes, q.solid.Planes, f.seats, whole(q.shining(l, k)), 0, k.lampsOn()&Daylight != 0)
		f.mesh.Lines = f.mesh.Lines[:f.lines]
		q.mark(&f.mesh, l, k)
	}
	return &f.mesh
}

// mark draws the joints that would be seen, and the one that is asked about.
func (q *part) mark(m *raster.Mesh, l lit, k Raking) {
	b := &builder{m: m, frame: q.frame}
	var seen map[*plan.Joint]bool
	if k.Marks {
		seen = map[*plan.Joint]bool{}
		for _, s := range q.seen(l, k) {
			seen[s.Joint] = s.Times() > 1
		}
	}
	for _, f := range q.fronts {
		z := &q.surface.Zones[f.zone]
		for i := range z.Joints {
			j := &z.Joints[i]
			pen := uint8(penSeen)
			switch {
			case j == k.Joint:
				pen = penSelected
			case !seen[j]:
				continue
			}
			b.line(f.plane, pen, 0, j.From.X.Metres(), j.From.Y.Metres(), j.To.X.Metres(), j.To.Y.Metres(), q.front)
		}
	}
}

// painted copies the part's mesh with the finished faces painted and their joints' lines left out.
func (q *part) painted(k Raking, step float64) raster.Mesh {
	m := raster.Mesh{Planes: append([]raster.Plane(nil), q.solid.Planes...)}
	painted := map[int32]bool{}
	for _, f := range q.fronts {
		c := q.coat(f, k)
		m.Planes[f.plane].Relief = c.relief(step)
		painted[f.plane] = true
	}
	for _, f := range q.solid.Faces {
		if painted[f.Plane] {
			f.Material = matPaint
		}
		m.Faces = append(m.Faces, f)
	}
	for _, l := range q.solid.Lines {
		if painted[l.Plane] && l.Pen != penEdge {
			continue
		}
		m.Lines = append(m.Lines, l)
	}
	m.Bound()
	return m
}

// ReliefStep is how far apart in metres the points of the scene's reliefs stand: a large building gets a coarser grid.
func (s *Scene) ReliefStep() float64 {
	sum := 0.0
	for _, q := range s.parts {
		for _, f := range q.fronts {
			lo, hi := bounds(metres(q.surface.Zones[f.zone].Outline))
			sum += (hi[0] - lo[0]) * (hi[1] - lo[1])
		}
	}
	return max(reliefStep, math.Sqrt(sum/reliefPoints))
}

// relief lays the slopes of a coat's joints, fasteners and bowed boards over each other, on a grid of so many metres a
// step. A slope that turns away from a lamp lies in its own shadow. It throws none on what lies beyond: for that a lamp
// must shine lower than the steepest slope, 1.2° at level 3 and less at the others, where no work lamp is held.
func (c *Coat) relief(step float64) *raster.Relief {
	w, h := int((c.Hi[0]-c.Lo[0])/step)+2, int((c.Hi[1]-c.Lo[1])/step)+2
	g := slopes{lo: c.Lo, step: step, w: w, h: h, s: make([]float32, 2*w*h)}
	for _, j := range c.Joints {
		g.joint(j.A, j.B, j.Joint)
	}
	for _, at := range c.Spots {
		g.spot(at, c.Spot)
	}
	g.bow(c.Bow)
	r := &raster.Relief{X0: float32(c.Lo[0]), Y0: float32(c.Lo[1]), PerMetre: float32(1 / step), W: w, H: h, Slopes: make([]int16, 2*w*h)}
	for i, v := range g.s {
		r.Slopes[i] = int16(max(-math.MaxInt16, min(math.MaxInt16, v/raster.SlopeUnit)))
	}
	return r
}

// slopes is a relief while it is being added up.
type slopes struct {
	lo   mgl64.Vec2
	step float64
	w, h int
	s    []float32
}

// box calls visit for the grid points of an upright box, clipped to the grid.
func (g *slopes) box(lo, hi mgl64.Vec2, visit func(i int, p mgl64.Vec2)) {
	x0, x1 := max(0, int((lo[0]-g.lo[0])/g.step)), min(g.w-1, int((hi[0]-g.lo[0])/g.step)+1)
	y0, y1 := max(0, int((lo[1]-g.lo[1])/g.step)), min(g.h-1, int((hi[1]-g.lo[1])/g.step)+1)
	for y := y0; y <= y1; y++ {
		for x := x0; x <= x1; x++ {
			visit(2*(y*g.w+x), mgl64.Vec2{g.lo[0] + float64(x)*g.step, g.lo[1] + float64(y)*g.step})
		}
	}
}

// joint adds a joint's section on both sides of the segment a-b.
func (g *slopes) joint(a, b mgl64.Vec2, j light.Joint) {
	e := b.Sub(a)
	l := e.Len()
	if l == 0 {
		return
	}
	e = e.Mul(1 / l)
	n := mgl64.Vec2{-e[1], e[0]}
	reach := mgl64.Vec2{j.Half, j.Half}
	lo := mgl64.Vec2{min(a[0], b[0]), min(a[1], b[1])}.Sub(reach)
	hi := mgl64.Vec2{max(a[0], b[0]), max(a[1], b[1])}.Add(reach)
	g.box(lo, hi, func(i int, p mgl64.Vec2) {
		d := p.Sub(a)
		if t := d.Dot(e); t < 0 || t > l {
			return
		}
		// The compound is feathered at the joint's ends as well.
		end := clamp(min(d.Dot(e), l-d.Dot(e))/(j.Half*endFeather), 0, 1)
		s := j.SlopeAt(d.Dot(n)) * end * end * (3 - 2*end)
		g.s[i] += float32(s * n[0])
		g.s[i+1] += float32(s * n[1])
	})
}

// spot adds a round section about a place.
func (g *slopes) spot(at mgl64.Vec2, j light.Joint) {
	reach := mgl64.Vec2{j.Half, j.Half}
	g.box(at.Sub(reach), at.Add(reach), func(i int, p mgl64.Vec2) {
		d := p.Sub(at)
		r := d.Len()
		if r == 0 {
			return
		}
		s := j.SlopeAt(r) / r
		g.s[i] += float32(s * d[0])
		g.s[i+1] += float32(s * d[1])
	})
}

// bow adds boards that stand back between members: height falls by so much halfway, as (1 - cos)/2.
func (g *slopes) bow(b Bow) {
	if b.Spacing <= 0 {
		return
	}
	axis, count := 0, g.w
	if b.Upward {
		axis, count = 1, g.h
	}
	for k := range count {
		v := g.lo[axis] + float64(k)*g.step
		s := float32(-b.Height * math.Pi / b.Spacing * math.Sin(2*math.Pi*(v-b.First)/b.Spacing))
		if b.Upward {
			for x := range g.w {
				g.s[2*(k*g.w+x)+1] += s
			}
			continue
		}
		for y := range g.h {
			g.s[2*(y*g.w+k)] += s
		}
	}
}
