package scene

import (
	"github.com/go-gl/mathgl/mgl32"
	"github.com/go-gl/mathgl/mgl64"

	"seamwright/scene/light"
	"seamwright/scene/raster"
)

// Under lamps everything in the room is lit by them, not the finished walls alone: floor, woodwork, studs and joinery
// take Lambert's light at their own place and slant, without a relief and without gloss. No thing throws a shadow on
// another. The room is seen as a camera would expose it, so all of it is dimmer than in the even light.

// duskSky is how bright a window is while daylight is not among the lights.
const duskSky = 0.42

// litness is how bright the picture shows a place with a normal under lights, both in the building's axes.
func (l lit) litness(lamps []light.Source, more float64, at, normal mgl64.Vec3, contact float64) float32 {
	lux := l.even() + more
	for _, s := range lamps {
		towards, strength := s.Falls(at)
		lux += strength * max(0, towards.Dot(normal))
	}
	return float32(raster.Tone(lux * l.exposure() * contact * contact))
}

// shine lights the planes of a mesh that have no relief; base are the planes as they are drawn in even light, seats a
// place on each of them. More is lux that comes straight on besides.
func (l lit) shine(planes, base []raster.Plane, seats []seat, lamps []light.Source, more float64, day bool) {
	for i := range planes {
		p, seat := &planes[i], seats[i]
		if p.Relief != nil {
			continue
		}
		*p = base[i]
		switch seat.material {
		case matLamp, matCut:
			continue // it shines by itself, or is a section
		case matGlass:
			if !day {
				p.Shade *= duskSky
			}
			continue
		}
		normal := wide(p.Normal)
		if p.Light == nil {
			p.Shade *= l.litness(lamps, more, wide(seat.at), normal, 1)
			continue
		}
		m := *p.Light
		m.V = make([]float32, len(p.Light.V))
		origin, x, y := wide(p.Origin), wide(p.X), wide(p.Y)
		for k := range m.V {
			u, v := float64(m.X0)+float64(k%m.W)/float64(m.PerStep), float64(m.Y0)+float64(k/m.W)/float64(m.PerStep)
			m.V[k] = l.litness(lamps, more, origin.Add(x.Mul(u)).Add(y.Mul(v)), normal, float64(p.Light.V[k]))
		}
		p.Light = &m
	}
}

// whole are lights of which each stands in one piece: what is cut into small ones for the joints' sake is one here.
func whole(lamps []light.Source) []light.Source {
	var out []light.Source
	for _, s := range lamps {
		if s.Candela = s.Mirrored; s.Candela > 0 {
			out = append(out, s)
		}
	}
	return out
}

// seat is the middle of a face on a plane, and its material.
type seat struct {
	at       mgl32.Vec3
	material uint16
}

// seatsOf finds a face on every plane of a mesh.
func seatsOf(m *raster.Mesh) []seat {
	seats := make([]seat, len(m.Planes))
	known := make([]bool, len(m.Planes))
	for i := range m.Faces {
		f := &m.Faces[i]
		if known[f.Plane] {
			continue
		}
		known[f.Plane] = true
		sum := mgl32.Vec3{}
		for _, v := range f.V[:f.N] {
			sum = sum.Add(v)
		}
		seats[f.Plane] = seat{sum.Mul(1 / float32(f.N)), f.Material}
	}
	return seats
}

func wide(v mgl32.Vec3) mgl64.Vec3 { return mgl64.Vec3{float64(v[0]), float64(v[1]), float64(v[2])} }

// floor is a room's floor under its lamps, made when first asked for and kept while floor and light stand.
func (r *Renderer) floor(s *Scene, m *room, k Raking) *raster.Mesh {
	r.keepUp(s, k)
	f := r.floors[m.id]
	if f == nil || f.built != s.built {
		f = &finished{mesh: m.mesh, seats: seatsOf(&m.mesh)}
		f.mesh.Planes = append([]raster.Plane(nil), m.mesh.Planes...)
		r.floors[m.id] = f
	}
	if f.raking != k || f.built != s.built {
		f.raking, f.built = k, s.built
		l := r.room(s, m.id, k)
		more := 0.0
		lamps := l.fixed
		switch {
		case l.away:
		case l.held != nil:
			lamps = append(append([]light.Source(nil), lamps...), *l.held)
		default:
			more = l.own // every wall has its own lamp: the floor has what they have
		}
		l.shine(f.mesh.Planes, m.mesh.Planes, f.seats, whole(lamps), more, k.lampsOn()&Daylight != 0)
	}
	return &f.mesh
}
