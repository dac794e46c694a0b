// Package scene turns a plan into a picture of the room: flat faces and lines for every surface, a camera, and a
// software renderer that needs neither display nor graphics card.
package scene

import (
	"github.com/go-gl/mathgl/mgl64"

	"seamwright/calc/job"
	"seamwright/calc/plan"
)

// Options choose what of the plan is built.
type Options struct {
	Layers int // only the first so many layers of each lining; 0: all
}

// Scene is the building in three dimensions. It is not changed by drawing; Update changes it.
type Scene struct {
	plan  *plan.Plan
	job   *job.Job
	opt   Options
	parts []*part
	rooms []room
	hull  []mgl64.Vec3 // points that framing the whole scene must show
}

type part struct {
	frame   frameAxes
	corners []mgl64.Vec3
}

type frameAxes struct{ normal mgl64.Vec3 }

type room struct{ id string }

func (r *room) stand() (mgl64.Vec3, float64) { return mgl64.Vec3{}, 0 }

func (s *Scene) partOf(surface string) *part { return nil }

// Build makes the scene of a plan. The job lends product looks, insulation and room outlines; it may be nil.
func Build(p *plan.Plan, j *job.Job, opt Options) *Scene {
	s := &Scene{opt: opt}
	s.Update(p, j)
	return s
}

// Update brings the scene to a new plan, rebuilding only surfaces that differ, and says how many those were.
func (s *Scene) Update(p *plan.Plan, j *job.Job) int {
	s.plan, s.job = p, j
	return 0
}
