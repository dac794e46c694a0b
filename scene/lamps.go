package scene

import (
	"math"

	"github.com/go-gl/mathgl/mgl32"
	"github.com/go-gl/mathgl/mgl64"

	"seamwright/calc/job"
	"seamwright/calc/plan"
	"seamwright/scene/light"
	"seamwright/scene/raster"
)

// How strong the lamps are; usual values, from memory.
const (
	floodCandela   = 2000.0         // a work lamp of 5,000 lm in a wide reflector
	floodFar       = 2.0            // metres: a far flood lamp is as strong as one so near
	ceilingCandela = 1500 / math.Pi // 1,500 lm off the ceiling, less to the sides by the cosine
	skyLuminance   = 3000.0         // candela per square metre of an overcast sky
	cellsAcross    = 3              // a window is taken for so many small lights side by side
	cellsUp        = 2
	ceilingGap     = 0.05 // metres that a lamp stands off the ceiling

	lampLevel = 0.50 // brightness of the mean wall in the picture, as light
	evenLight = 0.25 // part of the light that comes from all sides
)

// lampsOn are the lights that a style has lit.
func (r Raking) lampsOn() Lamps {
	if r.Lamps == 0 {
		return Flood
	}
	return r.Lamps
}

// floodAngle keeps the flood lamp off the wall's plane.
func (r Raking) floodAngle() float64 { return clamp(r.Angle, 0.5*math.Pi/180, math.Pi/2) }

// on gives a place or, for far things, a direction in the building in the axes of the part's face.
func (q *part) on(p mgl64.Vec3) mgl64.Vec3 {
	return mgl64.Vec3{p.Dot(q.frame.x), p.Dot(q.frame.y), p.Dot(q.frame.normal)}
}

// off gives a direction in the axes of the part's face in the building's.
func (q *part) off(d mgl64.Vec3) mgl64.Vec3 {
	return q.frame.x.Mul(d[0]).Add(q.frame.y.Mul(d[1])).Add(q.frame.normal.Mul(d[2]))
}

// inRoom turns a source in the axes of the part's face into the building's.
func (q *part) inRoom(f light.Source) light.Source {
	if f.Far {
		f.Place = q.off(f.Place)
	} else {
		f.Place = q.frame.at(f.Place[0], f.Place[1], q.front+f.Place[2])
	}
	f.Axis = q.off(f.Axis)
	return f
}

// place is a point of the building in the axes of the part's face.
func (q *part) place(p mgl64.Vec3) mgl64.Vec3 {
	return q.on(p.Sub(q.frame.origin)).Sub(mgl64.Vec3{0, 0, q.front})
}

// aim is where the flood lamp is aimed, in the axes of the part's face.
func (q *part) aim(r Raking) mgl64.Vec3 {
	lo, hi := bounds(q.outline)
	return mgl64.Vec3{(lo[0]+hi[0])/2 + r.Shift[0], (lo[1]+hi[1])/2 + r.Shift[1], 0}
}

// flood is the flood lamp of a part.
func (q *part) flood(r Raking) light.Source {
	sa, ca := math.Sincos(r.floodAngle())
	sf, cf := math.Sincos(r.From)
	// From 0 the light comes from the left end: the lamp stands towards -x.
	to := mgl64.Vec3{-ca * cf, ca * sf, sa}
	if r.Reach <= 0 {
		const lux = floodCandela / (floodFar * floodFar)
		return light.Source{Place: to, Candela: lux, Mirrored: lux, Far: true}
	}
	// Its reflector throws the light to where it is aimed.
	return light.Source{Place: q.aim(r).Add(to.Mul(r.Reach)), Axis: to.Mul(-1), Candela: floodCandela, Mirrored: floodCandela}
}

// fixed are the lights that stand in a room whatever wall is looked at, in the building's axes.
func (s *Scene) fixed(room string, lamps Lamps) (out []light.Source) {
	down := mgl64.Vec3{0, 0, -1}
	roof, hung := math.Inf(1), false
	for _, q := range s.parts {
		if q.room != room {
			continue
		}
		if q.surface.Kind == plan.Ceiling && lamps&CeilingLamps != 0 {
			for _, b := range q.surface.Boxes {
				lo, hi := bounds(metres(b))
				at := q.frame.at((lo[0]+hi[0])/2, (lo[1]+hi[1])/2, q.front).Add(q.frame.normal.Mul(ceilingGap))
				out = append(out, light.Source{Place: at, Axis: q.frame.normal, Candela: ceilingCandela, Mirrored: ceilingCandela})
				hung = true
			}
		}
		roof = min(roof, q.top)
		if lamps&Daylight == 0 {
			continue
		}
		for i := range q.surface.Openings {
			o := &q.surface.Openings[i]
			if o.Kind != string(job.Window) {
				continue
			}
			lo, hi := bounds(metres(o.Outline))
			size := hi.Sub(lo)
			whole := skyLuminance * size[0] * size[1]
			for k := range cellsAcross * cellsUp {
				x, y := (float64(k%cellsAcross)+0.5)/cellsAcross, (float64(k/cellsAcross)+0.5)/cellsUp
				c := light.Source{Place: q.frame.at(lo[0]+x*size[0], lo[1]+y*size[1], 0), Axis: q.frame.normal, Candela: whole / (cellsAcross * cellsUp)}
				if k == cellsAcross/2 {
					c.Mirrored = whole
				}
				out = append(out, c)
			}
		}
	}
	if lamps&CeilingLamps == 0 || hung {
		return out
	}
	for i := range s.rooms {
		if r := &s.rooms[i]; r.id == room && !math.IsInf(roof, 1) {
			at := mgl64.Vec3{r.centre[0], r.centre[1], roof - ceilingGap}
			out = append(out, light.Source{Place: at, Axis: down, Candela: ceilingCandela, Mirrored: ceilingCandela})
		}
	}
	return out
}

// lit is the light of a room: its fixed sources, and the mean lux on the flat walls by which the picture is exposed.
type lit struct {
	fixed    []light.Source
	mean     float64
	own      float64       // of that, what the flood lamp gives where it is aimed
	held     *light.Source // the flood lamp where it is held to one surface of the room, in the building's axes
	away     bool          // it is held to a surface of another room
	imperial bool          // the project's lengths are written in feet and inches
}

// litRoom finds a room's light in a style.
func (s *Scene) litRoom(room string, r Raking) lit {
	l := lit{fixed: s.fixed(room, r.lampsOn()), imperial: s.job == nil || s.job.Units != job.Metric}
	sum, n := 0.0, 0.0
	for _, q := range s.parts {
		if q.room == room && q.surface.Kind == plan.Wall && len(q.outline) > 2 {
			sum += light.Across(q.sources(l, Raking{Lamps: CeilingLamps}), q.aim(Raking{}), mgl64.Vec2{}, 0).Flat()
			n++
		}
	}
	if n > 0 {
		l.mean = sum / n
	}
	if own := s.partOf(r.Surface); own != nil && r.lampsOn()&Flood != 0 {
		if own.room == room {
			f := own.inRoom(own.flood(r))
			l.held = &f
		} else {
			l.away = true
		}
	}
	if r.lampsOn()&Flood != 0 {
		// Where it is aimed the flood lamp is as strong on every wall.
		lux := floodCandela / (floodFar * floodFar)
		if r.Reach > 0 {
			lux = floodCandela / (r.Reach * r.Reach)
		}
		l.own = lux * math.Sin(r.floodAngle())
		l.mean += l.own
	}
	return l
}

// even is the lux that comes from all sides.
func (l lit) even() float64 { return l.mean * evenLight / (1 - evenLight) }

// exposure is what a lux makes of brightness in the picture.
func (l lit) exposure() float64 {
	if l.mean <= 0 {
		return 0
	}
	return lampLevel / (l.mean + l.even())
}

// shining are the lights that reach a part, in the building's axes: the fixed ones of its room, and the flood lamp.
func (q *part) shining(l lit, r Raking) []light.Source {
	out := make([]light.Source, 0, len(l.fixed)+1)
	out = append(out, l.fixed...)
	switch {
	case r.lampsOn()&Flood == 0 || l.away:
	case l.held != nil:
		out = append(out, *l.held)
	default:
		out = append(out, q.inRoom(q.flood(r)))
	}
	return out
}

// sources are a part's lights in the axes of its face, less those that stand in the wall or behind it.
func (q *part) sources(l lit, r Raking) []light.Source {
	out := q.shining(l, r)
	n := 0
	for i, f := range out {
		least := ceilingGap / 2
		if i >= len(l.fixed) {
			least = 0
		}
		if f.Axis = q.on(f.Axis); f.Far {
			f.Place = q.on(f.Place)
		} else {
			f.Place = q.place(f.Place)
		}
		if f.Place[2] > least {
			out[n] = f
			n++
		}
	}
	return out[:n]
}

// lamps are a part's lights as its coats take them, in the axes of its face, and the brightness from all sides.
func (q *part) lamps(l lit, r Raking) (even float64, lamps []raster.Lamp) {
	exposure, diffuse := l.exposure(), r.Sheen.Paint().Diffuse
	narrow := func(v mgl64.Vec3) mgl32.Vec3 { return mgl32.Vec3{float32(v[0]), float32(v[1]), float32(v[2])} }
	for _, s := range q.sources(l, r) {
		lamps = append(lamps, raster.Lamp{
			Place: narrow(s.Place), Axis: narrow(s.Axis), Far: s.Far,
			Power: float32(exposure * s.Candela), Shine: float32(exposure * s.Mirrored / diffuse),
		})
	}
	return exposure * l.even(), lamps
}

// relight gives reliefs the lamps of a style.
func (q *part) relight(planes []raster.Plane, l lit, r Raking, gloss *raster.Gloss) {
	even, lamps := q.lamps(l, r)
	for _, f := range q.fronts {
		rel := planes[f.plane].Relief
		rel.Even, rel.Lamps, rel.Gloss = float32(even), append(rel.Lamps[:0], lamps...), nil
		if r.Sheen.Paint().Lobe > 0 {
			rel.Gloss = gloss
		}
	}
}
