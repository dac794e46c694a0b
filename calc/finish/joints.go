package finish

import (
	"math"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/reveal"
	"seamwright/calc/survey"
)

// Seams are lengths of joint by kind at one finish level.
type Seams struct {
	Level  int
	ByKind map[plan.JointKind]length.Length
	Heads  int     // screws of the face layer
	Face   float64 // area of the face, m²
}

// face is the outermost layer of a zone of a surface.
type face struct {
	surface *survey.Surface
	zone    *survey.Zone
	planned *plan.Zone
	room    string
	returns []plan.Return // of the surface
}

// faces lists the layers that are seen, in the order of the building.
func faces(b *survey.Building, p *plan.Plan) []face {
	planned := map[string]*plan.Surface{}
	for i := range p.Surfaces {
		planned[p.Surfaces[i].ID] = &p.Surfaces[i]
	}
	returns := map[string][]plan.Return{}
	for _, r := range p.Returns {
		returns[r.Surface] = append(returns[r.Surface], r)
	}
	var all []face
	for _, s := range b.Surfaces {
		ps := planned[s.ID]
		if ps == nil {
			continue
		}
		for k, z := range s.Zones {
			if z.Product == nil || z.Layer != z.Layers || k >= len(ps.Zones) {
				continue
			}
			all = append(all, face{s, z, &ps.Zones[k], s.Room, returns[s.ID]})
		}
	}
	return all
}

func (f face) gypsum() bool { return f.zone.Product.Kind == job.Gypsum }

// area is the face's area in m², openings taken out.
func (f face) area() float64 {
	a := f.zone.Outline.Area()
	for _, h := range f.zone.Holes {
		a -= h.Outline.Area()
	}
	return math.Max(a.SquareMetres(), 0)
}

// Joints are the lengths of joint of the faces by kind and finish level, level by level; wood panels count at level
// -1, since they are not taped. A corner is seen from both its surfaces and counts once, at the higher level of the two.
// Joints under another layer are not finished.
func Joints(b *survey.Building, p *plan.Plan) []Seams {
	all := faces(b, p)
	return seamsOf(all, corners(all))
}

func seamsOf(all []face, corners []corner) []Seams {
	byLevel := make([]Seams, 7)
	for i := range byLevel {
		byLevel[i] = Seams{Level: i - 1, ByKind: map[plan.JointKind]length.Length{}}
	}
	for _, f := range all {
		s := &byLevel[level(f)+1]
		s.Face += f.area()
		s.Heads += len(f.planned.Fasteners.Points)
		for _, j := range f.planned.Joints {
			if j.Kind != plan.InsideCorner && j.Kind != plan.OutsideCorner && j.Kind != plan.Trim {
				s.ByKind[j.Kind] += distance(j)
			}
		}
		for i, e := range f.zone.Edges { // a joint under base trim is not finished; a free edge of board gets edge trim
			if e.Meets == survey.AtFree && f.gypsum() {
				s.ByKind[plan.Trim] += side(f.zone, i)
			}
		}
	}
	for _, c := range corners {
		byLevel[c.level+1].ByKind[c.kind] += c.long
	}
	wrap(byLevel, all)
	return byLevel
}

// Total is the length of one kind of joint over all levels, wood panels included.
func Total(seams []Seams, kind plan.JointKind) (sum length.Length) {
	for _, s := range seams {
		sum += s.ByKind[kind]
	}
	return sum
}

// level is the finish level of a face, -1 for wood panels.
func level(f face) int {
	if !f.gypsum() {
		return -1
	}
	return min(max(f.zone.Finish, 0), 5)
}

func distance(j plan.Joint) length.Length { return between(j.From.X-j.To.X, j.From.Y-j.To.Y) }

func between(dx, dy length.Length) length.Length {
	switch {
	case dx == 0:
		return dy.Abs()
	case dy == 0:
		return dx.Abs()
	}
	return length.Length(math.Round(math.Hypot(float64(dx), float64(dy))))
}

// corner is where two surfaces meet in gypsum board.
type corner struct {
	kind  plan.JointKind
	a, b  string
	level int
	long  length.Length
}

type cornerKey struct {
	kind plan.JointKind
	a, b string
}

// corners lists the corners between gypsum faces, room by room, each once. Both sides must be board: the shorter of the two lengths
// counts. Walls name no surface at the ceiling; there the ceiling names the wall.
func corners(all []face) (found []corner) {
	for len(all) > 0 {
		n := 1
		for n < len(all) && all[n].room == all[0].room {
			n++
		}
		found = append(found, cornersOfRoom(all[:n])...)
		all = all[n:]
	}
	return found
}

func cornersOfRoom(all []face) []corner {
	long, levels := map[cornerKey]length.Length{}, map[cornerKey]int{}
	var order []cornerKey
	see := func(k cornerKey, f face, l length.Length) {
		if _, known := long[k]; !known {
			order = append(order, k)
		}
		long[k] += l
		levels[k] = max(levels[k], level(f))
	}
	const overhead = "ceiling"
	for _, f := range all {
		if !f.gypsum() {
			continue
		}
		for i, e := range f.zone.Edges {
			a, b := f.zone.Outline[i], f.zone.Outline[(i+1)%len(f.zone.Outline)]
			l := between(a.X-b.X, a.Y-b.Y)
			switch e.Meets {
			case survey.AtInsideCorner:
				see(cornerKey{plan.InsideCorner, f.surface.ID, e.With}, f, l)
			case survey.AtOutsideCorner:
				see(cornerKey{plan.OutsideCorner, f.surface.ID, e.With}, f, l)
			case survey.AtRidge:
				see(cornerKey{plan.InsideCorner, f.surface.ID, e.With}, f, l)
			case survey.AtCeiling:
				see(cornerKey{plan.InsideCorner, f.surface.ID, overhead}, f, l)
			}
		}
	}
	kinds := map[string]plan.SurfaceKind{}
	for _, f := range all {
		kinds[f.surface.ID] = f.surface.Kind
	}
	var found []corner
	for _, k := range order {
		back := cornerKey{k.kind, k.b, k.a}
		wallUnderCeiling := kinds[k.a] == plan.Ceiling && kinds[k.b] == plan.Wall
		switch {
		case k.b == overhead:
			continue
		case wallUnderCeiling:
			back = cornerKey{k.kind, k.b, overhead}
		case k.a > k.b && long[back] > 0: // counted from the other side
			continue
		}
		other, ok := long[back]
		if !ok {
			continue
		}
		n := min(long[k], other)
		if wallUnderCeiling {
			long[back] -= n // several planes of a ceiling share one wall's head
		}
		found = append(found, corner{k.kind, k.a, k.b, max(levels[k], levels[back]), n})
	}
	return found
}

// Measure is what one surface has of the things that cost is shared by: m² and metres.
type Measure struct {
	Surface        string
	Lined, Painted float64
	Joints, Trim   float64
}

// Measures lists the planned surfaces of the building in order.
func Measures(j *job.Job, b *survey.Building, p *plan.Plan) []Measure {
	all := faces(b, p)
	planned := map[string]bool{}
	for i := range p.Surfaces {
		planned[p.Surfaces[i].ID] = true
	}
	var measures []Measure
	for _, s := range b.Surfaces {
		if !planned[s.ID] {
			continue
		}
		m := Measure{Surface: s.ID}
		var returns []plan.Return // of the whole surface: each of its faces knows all of them
		for len(all) > 0 && all[0].surface == s {
			f := all[0]
			all = all[1:]
			m.Lined += f.area()
			m.Painted += paintedArea(f)
			for _, x := range f.planned.Joints {
				m.Joints += distance(x).Metres()
			}
			returns = f.returns
		}
		outside, inside := reveal.Corners(returns, s.ID)
		m.Joints += (outside + inside).Metres()
		for _, r := range baseRuns(j, s) {
			m.Trim += (r[1] - r[0]).Metres()
		}
		measures = append(measures, m)
	}
	return measures
}
