// Package scene turns a plan into a picture of the room: flat faces and lines for every surface, a camera, picking,
// and a software renderer that needs neither display nor graphics card.
//
// Every surface of the plan becomes one part: its lining sheet by sheet with real thickness, what stands behind
// where it is left open, reveals of openings, and the cut edge of the wall. A part is rebuilt only when its surface
// changes. Where the eye is behind a wall, the part is left out and its outline drawn instead. Under raking light a
// part is seen finished: its joints are a relief, and all that stands in its room takes the light of the same lamps.
package scene

import (
	"github.com/go-gl/mathgl/mgl64"

	"seamwright/calc/job"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/scene/raster"
)

// Options choose what of the plan is built.
type Options struct {
	Layers int // only the first so many layers of each lining; 0: all
}

// Scene is the building in three dimensions. Drawing does not change it; Update does.
type Scene struct {
	plan  *plan.Plan
	job   *job.Job
	opt   Options
	parts []*part
	rooms []room
	hull  []mgl64.Vec3 // points that framing the whole scene must show
	built int          // counts builds, so that a renderer knows when what it keeps is stale
}

// part is one surface as it stands in the building.
type part struct {
	id, room string
	surface  *plan.Surface
	sign     uint64 // of what the part was built from
	frame    frame3
	corners  []mgl64.Vec3
	centre   mgl64.Vec3
	outline  []mgl64.Vec2
	light    *raster.LightMap
	top      float64 // height of the highest corner
	solid    raster.Mesh
	ghost    raster.Mesh // the outline, for when the part is cut away
	panels   []panelRef  // by tag
	fronts   []frontRef  // faces of gypsum, which are taped and painted
	front    float64     // depth of the foremost face
	reaches  []reach     // how far each lined zone stands out
}

// frontRef is the plane that one zone's outermost gypsum layer shows.
type frontRef struct {
	zone  int
	plane int32
}

// panelRef finds a tagged panel in its surface.
type panelRef struct{ zone, panel int }

// room is one room's floor.
type room struct {
	id      string
	corners []mgl64.Vec2 // counter-clockwise from above
	mesh    raster.Mesh
	sign    uint64
	centre  mgl64.Vec3
}

// frame3 is a surface's place in the building, in metres.
type frame3 struct{ origin, x, y, normal mgl64.Vec3 }

func frameOf(f plan.Frame) frame3 {
	return frame3{
		origin: mgl64.Vec3{f.Origin[0].Metres(), f.Origin[1].Metres(), f.Origin[2].Metres()},
		x:      f.X, y: f.Y, normal: f.Normal,
	}
}

// at is the place of (x, y) on the surface, standing out from the face of the framing by depth.
func (f *frame3) at(x, y, depth float64) mgl64.Vec3 {
	return f.origin.Add(f.x.Mul(x)).Add(f.y.Mul(y)).Add(f.normal.Mul(depth))
}

// mirrored reports whether x, y and normal are left-handed: a flat ceiling has the room's x, y and looks down.
func (f *frame3) mirrored() bool { return f.x.Cross(f.y).Dot(f.normal) < 0 }

// behind reports whether the eye sees the surface from its back.
func (f *frame3) behind(eye mgl64.Vec3, front float64) bool {
	return f.normal.Dot(eye.Sub(f.origin)) < front
}

// Build makes the scene of a plan. The job lends product looks and insulation; it may be nil.
func Build(p *plan.Plan, j *job.Job, opt Options) *Scene {
	s := &Scene{opt: opt}
	s.Update(p, j)
	return s
}

// Update brings the scene to a new plan, rebuilding only surfaces that differ, and says how many those were. The
// plan is kept and must not be changed afterwards.
func (s *Scene) Update(p *plan.Plan, j *job.Job) int {
	s.plan, s.job = p, j
	s.built++
	old := make(map[string]*part, len(s.parts))
	for _, q := range s.parts {
		old[q.id] = q
	}
	s.parts = s.parts[:0:0]
	s.hull = s.hull[:0:0]
	fresh := 0
	mitres := s.buildRooms()
	for i := range p.Surfaces {
		surf := &p.Surfaces[i]
		look := s.lookOf(surf, mitres)
		sign := look.sign(surf)
		q := old[surf.ID]
		if q == nil || q.sign != sign {
			q = buildPart(surf, look, sign, q)
			fresh++
		}
		q.surface = surf
		s.parts = append(s.parts, q)
		s.hull = append(s.hull, q.corners...)
	}
	return fresh
}

// Triangles counts what the scene is made of, a four-cornered face as two.
func (s *Scene) Triangles() int {
	n := 0
	for _, q := range s.parts {
		n += q.solid.Triangles()
	}
	for i := range s.rooms {
		n += s.rooms[i].mesh.Triangles()
	}
	return n
}

// Plan is the plan that the scene shows.
func (s *Scene) Plan() *plan.Plan { return s.plan }

func (s *Scene) partOf(surface string) *part {
	for _, q := range s.parts {
		if q.id == surface {
			return q
		}
	}
	return nil
}

// metres gives a polygon in metres.
func metres(p shape.Polygon) []mgl64.Vec2 {
	out := make([]mgl64.Vec2, len(p))
	for i, v := range p {
		out[i] = mgl64.Vec2{v.X.Metres(), v.Y.Metres()}
	}
	return out
}
