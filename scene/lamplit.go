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

// falling is the brightness on a place with a normal under lights, both in the building's axes, and under lux that comes
// straight on besides.
func (l lit) falling(lamps []light.Source, more float64, at, normal mgl64.Vec3) float64 {
	lux := l.even() + more
	for _, s := range lamps {
		towards, strength := s.Falls(at)
		lux += strength * max(0, towards.Dot(normal))
	}
	return lux * l.exposure()
}

// litness is how bright the picture shows what takes so much light, where a neighbour takes some of it.
func litness(falling, contact float64) float32 {
	return float32(raster.Tone(falling * contact * contact))
}

// ownLight is the part of its brightness that a plane keeps whatever lamps there are: a lamp shines by itself, a section
// is none of the room, and a window is dim without daylight. False where lamps light it.
func ownLight(material uint16, day bool) (keeps float32, ok bool) {
	switch material {
	case matLamp, matCut:
		return 1, true
	case matGlass:
		if !day {
			return duskSky, true
		}
		return 1, true
	}
	return 0, false
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
		if keeps, ok := ownLight(seat.material, day); ok {
			p.Shade *= keeps
			continue
		}
		normal := wide(p.Normal)
		if p.Light == nil {
			p.Shade *= litness(l.falling(lamps, more, wide(seat.at), normal), 1)
			continue
		}
		m := *p.Light
		m.V = make([]float32, len(p.Light.V))
		origin, x, y := wide(p.Origin), wide(p.X), wide(p.Y)
		for k := range m.V {
			u, v := float64(m.X0)+float64(k%m.W)/float64(m.PerStep), float64(m.Y0)+float64(k/m.W)/float64(m.PerStep)
			m.V[k] = litness(l.falling(lamps, more, origin.Add(x.Mul(u)).Add(y.Mul(v)), normal), float64(p.Light.V[k]))
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
		lamps, more := l.onFloor()
		l.shine(f.mesh.Planes, m.mesh.Planes, f.seats, whole(lamps), more, k.lampsOn()&Daylight != 0)
	}
	return &f.mesh
}

// onFloor are the lights that reach a room's floor, and lux that comes straight on.
func (l lit) onFloor() (lamps []light.Source, more float64) {
	switch {
	case l.away:
		return l.fixed, 0
	case l.held != nil:
		return append(append([]light.Source(nil), l.fixed...), *l.held), 0
	}
	return l.fixed, l.own // every wall has its own lamp: the floor has what they have
}
