package light

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
)

// Source is one small light in a wall's own axes: x along it, y up it, z off it, metres.
type Source struct {
	Place mgl64.Vec3 // of a far source the unit vector towards it
	Axis  mgl64.Vec3 // unit vector that a flat source faces along, giving less to its sides; zero: it shines all round
	// Candela is the intensity along the axis; of a far source the lux that it gives a face turned to it.
	Candela float64
	Far     bool // so far off that its light is parallel
	// Mirrored is the intensity that a glossy wall mirrors here: Candela, but of a large light that is cut into
	// small ones all of it in one of them.
	Mirrored float64
}

// Falls is the unit vector from a place to the source, and the lux on a face turned to it there: the inverse square
// and the cosine at the source (J. Lambert 1760).
func (s Source) Falls(at mgl64.Vec3) (towards mgl64.Vec3, lux float64) {
	if s.Far {
		return s.Place, s.Candela
	}
	d := s.Place.Sub(at)
	l := d.Len()
	if l == 0 {
		return mgl64.Vec3{0, 0, 1}, 0
	}
	towards = d.Mul(1 / l)
	lux = s.Candela / (l * l)
	if s.Axis != (mgl64.Vec3{}) {
		lux *= math.Max(0, -towards.Dot(s.Axis))
	}
	return towards, lux
}

// Beam is light as it meets a joint: its unit vector's part across the joint and off the wall, and the lux on a face
// turned to it. What runs along the joint shows nothing of it.
type Beam struct{ Across, Off, Lux float64 }

// Light is everything that falls on a joint; Even is the lux that comes from all sides.
type Light struct {
	Beams []Beam
	Even  float64
}

// Grazing is one far lamp at so many radians above the wall, across the joint. Even is the part of the flat wall's
// light that comes from all sides instead, 0 to 1.
func Grazing(angle, even float64) Light {
	sin, cos := math.Sincos(angle)
	return Light{[]Beam{{cos, sin, 1 - even}}, sin * even}
}

// Across is the light of sources on a joint at a place whose direction across is a unit vector in the wall's plane.
func Across(sources []Source, at mgl64.Vec3, across mgl64.Vec2, even float64) Light {
	l := Light{Even: even}
	for _, s := range sources {
		to, lux := s.Falls(at)
		if to[2] > 0 && lux > 0 {
			l.Beams = append(l.Beams, Beam{to.Vec2().Dot(across), to[2], lux})
		}
	}
	return l
}

// Flat is the lux on the flat wall.
func (l Light) Flat() float64 {
	sum := l.Even
	for _, b := range l.Beams {
		sum += b.Lux * b.Off
	}
	return sum
}

// Contrast is (brightest - darkest) / (brightest + darkest) across a slope s, from 0 (nothing shows) to 1. Slopes on
// both sides of the joint count, each in its own shadow where it turns away from a beam.
func Contrast(s float64, l Light, p Paint) float64 {
	if s <= 0 {
		return 0
	}
	tilt := math.Atan(s)
	sin, cos := math.Sincos(tilt)
	one, other := p.Diffuse*l.Even, p.Diffuse*l.Even
	level, swing := 0.0, 0.0
	steep := math.Sqrt(p.Exponent / math.E)
	for _, b := range l.Beams {
		one += p.Diffuse * b.Lux * math.Max(0, b.Off*cos+b.Across*sin)
		other += p.Diffuse * b.Lux * math.Max(0, b.Off*cos-b.Across*sin)
		lobe := p.Lobe * math.Exp(-0.5) * b.Lux
		level += lobe
		swing += math.Min(p.Lobe*steep*tilt*b.Lux, lobe)
	}
	sum := one + other + 2*level
	if sum == 0 {
		return 0
	}
	return (math.Abs(one-other) + 2*swing) / sum
}
