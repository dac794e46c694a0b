package scene

import (
	"cmp"
	"math"
	"slices"

	"github.com/go-gl/mathgl/mgl64"

	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/scene/light"
)

// Seen is one finished joint and how plainly it shows.
type Seen struct {
	Surface string
	Zone    int // index into the surface's zones
	Joint   *plan.Joint
	light.Verdict
}

// steepLamp is the angle above the wall, in radians, that a low flood lamp is raised to as a mend.
const steepLamp = math.Pi / 6

// Seen judges every finished joint of a surface in a style's light, the plainest first; joints whose Times is above
// 1 are seen. It is empty where the surface is unknown or has no finished joint.
func (s *Scene) Seen(surface string, r Raking) []Seen {
	q := s.partOf(surface)
	if q == nil {
		return nil
	}
	return q.seen(s.litRoom(q.room, r), r)
}

// seen judges a part's joints.
func (q *part) seen(l lit, r Raking) []Seen {
	var out []Seen
	distance := r.View
	if distance <= 0 {
		distance = viewDistance
	}
	now := q.sources(l, r)
	raised, own := r, l
	raised.Angle = steepLamp
	own.held = nil // raised, the lamp of this surface stands elsewhere
	for _, f := range q.fronts {
		z := &q.surface.Zones[f.zone]
		for i := range z.Joints {
			j := &z.Joints[i]
			k, ok := finishOf(j.Kind)
			if !ok {
				continue
			}
			a, b := metres(shape.Polygon{j.From, j.To})[0], metres(shape.Polygon{j.From, j.To})[1]
			e := b.Sub(a)
			if e.Len() == 0 {
				continue
			}
			across := mgl64.Vec2{-e[1], e[0]}.Mul(1 / e.Len())
			scene := light.Scene{Sheen: r.Sheen, Level: levelOf(z, r), Distance: distance}
			var best Seen
			// A near lamp lights a joint differently along its length: the plainest place counts.
			for step := range jointPlaces {
				at := a.Add(e.Mul((float64(step) + 0.5) / jointPlaces)).Vec3(0)
				scene.Light = light.Across(now, at, across, l.even())
				scene.Instead = scene.Instead[:0]
				if r.lampsOn()&Flood != 0 {
					if r.floodAngle() < steepLamp && (l.held == nil || r.Surface == q.id) {
						scene.Instead = append(scene.Instead, light.Other{What: "move the lamp off the wall, to 30°", Light: light.Across(q.sources(own, raised), at, across, l.even())})
					}
					along := mgl64.Vec2{across[1], -across[0]}
					scene.Instead = append(scene.Instead, light.Other{What: "turn the sheets, so that the joint runs as the light does", Light: light.Across(now, at, along, l.even())})
				}
				if o, ok := q.elsewhere(j, now, light.Usual(k, scene.Level).Slope(), scene, l); ok {
					scene.Instead = append(scene.Instead, o)
				}
				v := light.Judge(k, scene)
				if step == 0 || v.Times() > best.Times() {
					best = Seen{q.id, f.zone, j, v}
				}
			}
			out = append(out, best)
		}
	}
	slices.SortStableFunc(out, func(a, b Seen) int { return cmp.Compare(b.Times(), a.Times()) })
	return out
}

// leastSheet is how near to a wall's end in metres no joint is sent: a narrower strip is not worth hanging.
const leastSheet = 0.3

// elsewhere is the member that an upright joint would show least on, and its light there; false where none is better.
func (q *part) elsewhere(j *plan.Joint, now []light.Source, slope float64, scene light.Scene, l lit) (best light.Other, ok bool) {
	if j.From.X != j.To.X || q.surface.Members.Axis != "x" {
		return best, false
	}
	least := light.Contrast(slope, scene.Light, scene.Sheen.Paint())
	height := (j.From.Y + j.To.Y).Metres() / 2
	lo, hi := bounds(q.outline)
	for _, at := range q.surface.Members.At {
		if at.Metres() < lo[0]+leastSheet || at.Metres() > hi[0]-leastSheet {
			continue
		}
		there := light.Across(now, mgl64.Vec3{at.Metres(), height, 0}, mgl64.Vec2{1, 0}, l.even())
		if c := light.Contrast(slope, there, scene.Sheen.Paint()); c < least {
			least, ok = c, true
			best = light.Other{What: "move the joint to the member at " + at.Show(l.imperial), Light: there}
		}
	}
	return best, ok
}

// Judge is the verdict on the worst joint of a surface; false where it has no finished joint.
func (s *Scene) Judge(surface string, r Raking) (light.Verdict, bool) {
	if seen := s.Seen(surface, r); len(seen) > 0 {
		return seen[0].Verdict, true
	}
	return light.Verdict{}, false
}
