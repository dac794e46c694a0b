package scene

import (
	"cmp"
	"math"
	"slices"

	"github.com/go-gl/mathgl/mgl64"

	"seamwright/calc/plan"
	"seamwright/scene/light"
	"seamwright/scene/raster"
)

// Figures of the finished wall's relief besides its joints; common practice, no source.
const (
	reliefStep   = 0.008   // metres between points of the relief
	spotHeight   = 0.00012 // compound left over a fastener
	spotRadius   = 0.035
	bowHeight    = 0.0003 // board between two members, well inside the flatness asked of framing
	endFeather   = 0.6    // of the half-width: how far a joint's ends take to rise
	lampLevel    = 0.84   // brightness of the flat wall in the picture
	evenLight    = 0.25   // part of the light that comes from all sides
	viewDistance = 2.0    // metres, from where joints are judged unless said otherwise
	usualLevel   = 4      // finish level where neither style nor plan names one
)

// finished is a part as it looks painted, with its relief.
type finished struct {
	mesh  raster.Mesh
	level int
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

// Seen is one finished joint and how plainly it shows.
type Seen struct {
	Surface string
	Zone    int // index into the surface's zones
	Joint   *plan.Joint
	light.Verdict
}

// Seen judges every finished joint of a surface in a style's light, the plainest first; joints whose Times is above
// 1 are seen. It is empty where the surface is unknown or has no finished joint.
func (s *Scene) Seen(surface string, r Raking) []Seen {
	q := s.partOf(surface)
	if q == nil {
		return nil
	}
	distance := r.View
	if distance <= 0 {
		distance = viewDistance
	}
	var out []Seen
	for _, f := range q.fronts {
		z := &q.surface.Zones[f.zone]
		for i := range z.Joints {
			k, ok := finishOf(z.Joints[i].Kind)
			if !ok {
				continue
			}
			v := light.Judge(k, light.Scene{
				Lamp: light.Lamp{Angle: r.Angle, Even: evenLight}, Sheen: r.Sheen, Level: levelOf(z, r), Distance: distance,
			})
			out = append(out, Seen{q.id, f.zone, &z.Joints[i], v})
		}
	}
	slices.SortStableFunc(out, func(a, b Seen) int { return cmp.Compare(b.Times(), a.Times()) })
	return out
}

// Judge is the verdict on the worst joint of a surface; false where it has no finished joint.
func (s *Scene) Judge(surface string, r Raking) (light.Verdict, bool) {
	if seen := s.Seen(surface, r); len(seen) > 0 {
		return seen[0].Verdict, true
	}
	return light.Verdict{}, false
}

// setLamp sets the frame's lamp for a style.
func (r *Renderer) setLamp(k Raking) {
	angle := clamp(k.Angle, 0.5*math.Pi/180, math.Pi/2)
	sa, ca := math.Sincos(angle)
	sf, cf := math.Sincos(k.From)
	// From 0 the light comes from the left end: the lamp stands towards -x.
	r.lamp.X, r.lamp.Y, r.lamp.Z = float32(-ca*cf), float32(ca*sf), float32(sa)
	r.lamp.Level, r.lamp.Even = lampLevel, evenLight
	if r.sheen != k.Sheen || !r.lobed {
		p := k.Sheen.Paint()
		r.lamp.SetLobe(p.Lobe, p.Exponent)
		r.sheen, r.lobed = k.Sheen, true
	}
	r.frame.Lamp = &r.lamp
}

// finish is a part's painted mesh, made when first asked for and kept while the part stands.
func (r *Renderer) finish(s *Scene, q *part, k Raking) *raster.Mesh {
	if r.finishedOf != s || r.finishedBuilt != s.built {
		for p := range r.finished {
			if s.partOf(p.id) != p {
				delete(r.finished, p)
			}
		}
		r.finishedOf, r.finishedBuilt = s, s.built
	}
	f := r.finished[q]
	if f == nil || f.level != k.Level {
		f = &finished{mesh: q.painted(k), level: k.Level}
		if r.finished == nil {
			r.finished = map[*part]*finished{}
		}
		r.finished[q] = f
	}
	return &f.mesh
}

// painted copies the part's mesh with the finished faces painted and their joints' lines left out.
func (q *part) painted(k Raking) raster.Mesh {
	m := raster.Mesh{Planes: append([]raster.Plane(nil), q.solid.Planes...)}
	painted := map[int32]bool{}
	for _, f := range q.fronts {
		m.Planes[f.plane].Relief = q.relief(f.zone, k)
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

// relief lays the slopes of a zone's joints, fasteners and bowed boards over each other.
func (q *part) relief(zone int, k Raking) *raster.Relief {
	z := &q.surface.Zones[zone]
	level := levelOf(z, k)
	lo, hi := bounds(metres(z.Outline))
	w, h := int((hi[0]-lo[0])/reliefStep)+2, int((hi[1]-lo[1])/reliefStep)+2
	g := slopes{lo: lo, w: w, h: h, s: make([]float32, 2*w*h)}
	for i := range z.Joints {
		j := &z.Joints[i]
		if kind, ok := finishOf(j.Kind); ok {
			a := mgl64.Vec2{j.From.X.Metres(), j.From.Y.Metres()}
			b := mgl64.Vec2{j.To.X.Metres(), j.To.Y.Metres()}
			g.joint(a, b, light.Usual(kind, level))
		}
	}
	soft := 1.0
	if level >= 5 {
		soft = 0.5 // a skim coat over all
	}
	for _, p := range z.Fasteners.Points {
		g.spot(mgl64.Vec2{p.X.Metres(), p.Y.Metres()}, light.Joint{Height: spotHeight * soft, Half: spotRadius})
	}
	if at := q.surface.Members.At; len(at) > 2 {
		// The commonest spacing is that of the second pair: the first may be shortened at the wall's end.
		g.bow(q.surface.Members.Axis == "y", at[1].Metres(), (at[2] - at[1]).Metres(), bowHeight*soft)
	}
	r := &raster.Relief{X0: float32(lo[0]), Y0: float32(lo[1]), PerMetre: 1 / reliefStep, W: w, H: h, Slopes: make([]int16, 2*w*h)}
	for i, v := range g.s {
		r.Slopes[i] = int16(max(-math.MaxInt16, min(math.MaxInt16, v/raster.SlopeUnit)))
	}
	return r
}

// slopes is a relief while it is being added up.
type slopes struct {
	lo   mgl64.Vec2
	w, h int
	s    []float32
}

// box calls visit for the grid points of an upright box, clipped to the grid.
func (g *slopes) box(lo, hi mgl64.Vec2, visit func(i int, p mgl64.Vec2)) {
	x0, x1 := max(0, int((lo[0]-g.lo[0])/reliefStep)), min(g.w-1, int((hi[0]-g.lo[0])/reliefStep)+1)
	y0, y1 := max(0, int((lo[1]-g.lo[1])/reliefStep)), min(g.h-1, int((hi[1]-g.lo[1])/reliefStep)+1)
	for y := y0; y <= y1; y++ {
		for x := x0; x <= x1; x++ {
			visit(2*(y*g.w+x), mgl64.Vec2{g.lo[0] + float64(x)*reliefStep, g.lo[1] + float64(y)*reliefStep})
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
func (g *slopes) bow(swapped bool, first, spacing, height float64) {
	if spacing <= 0 {
		return
	}
	axis, count := 0, g.w
	if swapped {
		axis, count = 1, g.h
	}
	for k := range count {
		v := g.lo[axis] + float64(k)*reliefStep
		s := float32(-height * math.Pi / spacing * math.Sin(2*math.Pi*(v-first)/spacing))
		if swapped {
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
