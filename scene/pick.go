package scene

import (
	"github.com/go-gl/mathgl/mgl64"

	"seamwright/calc/plan"
	"seamwright/calc/shape"
)

// Hit is what lies under the pointer.
type Hit struct {
	Surface  string
	Room     string
	Zone     int         // 1-based; 0 where no zone was hit
	Layer    int         // 1-based; 0 where no layer was hit
	Product  string      // product of the layer, "open" where the framing is bare
	Panel    string      // panel id, or ""
	Sheet    string      // sheet that the panel is cut from, or ""
	Opening  string      // opening id, or ""
	Joint    *plan.Joint // the joint within reach of the pointer, or nil
	At       shape.Point // place on the surface
	Point    mgl64.Vec3  // place in the building, metres
	Distance float64     // from the eye, metres
	Floor    bool        // the floor of Room was hit, no surface
}

// Pick finds what lies at pixel position (x, y) of a w by h picture drawn by cam in that style; the style says
// which walls are cut away. A joint counts as hit within a few logical pixels.
func (s *Scene) Pick(cam Camera, st Style, w, h int, x, y float64) (Hit, bool) {
	return Hit{}, false
}
