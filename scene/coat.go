package scene

import (
	"github.com/go-gl/mathgl/mgl64"

	"seamwright/calc/shape"
	"seamwright/scene/light"
)

// Figures of a finished wall besides its joints; common practice, no source.
const (
	spotHeight = 0.0001 // compound left over a fastener
	spotRadius = 0.04
	bowHeight  = 0.0003 // board between two members, well inside the flatness asked of framing
	skimmed    = 0.5    // what a skim coat over all leaves of both
)

// Coat is what makes one finished face of a surface uneven, in the surface's own x and y, metres. The slopes of all add
// up, and end at the zone's borders.
type Coat struct {
	Plane  int32      // of the surface's mesh
	Lo, Hi mgl64.Vec2 // the zone's borders
	Joints []FilledJoint
	Spots  []mgl64.Vec2 // over fasteners, each a round section
	Spot   light.Joint
	Bow    Bow
}

// FilledJoint is a joint from A to B and its section, which is feathered at its ends as well.
type FilledJoint struct {
	A, B mgl64.Vec2
	light.Joint
}

// Bow is board that stands back between members, Height halfway, as (1 - cos)/2.
type Bow struct {
	Upward         bool    // counted along y
	First, Spacing float64 // of the members; no spacing: none
	Height         float64
}

// coat gathers what makes a finished face uneven.
func (q *part) coat(f frontRef, k Raking) Coat {
	z := &q.surface.Zones[f.zone]
	level := levelOf(z, k)
	c := Coat{Plane: f.plane}
	c.Lo, c.Hi = bounds(metres(z.Outline))
	for i := range z.Joints {
		j := &z.Joints[i]
		if kind, ok := finishOf(j.Kind); ok {
			ends := metres(shape.Polygon{j.From, j.To})
			c.Joints = append(c.Joints, FilledJoint{ends[0], ends[1], light.Usual(kind, level)})
		}
	}
	soft := 1.0
	if level >= 5 {
		soft = skimmed
	}
	c.Spots, c.Spot = metres(z.Fasteners.Points), light.Joint{Height: spotHeight * soft, Half: spotRadius}
	if at := q.surface.Members.At; len(at) > 2 {
		// The commonest spacing is that of the second pair: the first may be shortened at the wall's end.
		c.Bow = Bow{q.surface.Members.Axis == "y", at[1].Metres(), (at[2] - at[1]).Metres(), bowHeight * soft}
	}
	return c
}
