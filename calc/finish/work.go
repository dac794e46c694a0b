package finish

import (
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/reveal"
	"seamwright/calc/survey"
)

// Work is what finishing one room takes, from which its hours follow: the same lengths and areas that the takeoff buys for.
type Work struct {
	Seams   []Seams
	Painted float64       // m², returns of board counted
	Panels  float64       // m² of wood faces
	Masked  length.Length // edges that get masking tape
	Base    length.Length // base trim
	Strips  int           // of returns
}

// Rooms measures the finishing of every room that is lined, by its id.
func Rooms(j *job.Job, b *survey.Building, p *plan.Plan) map[string]Work {
	byRoom := map[string][]face{}
	for _, f := range faces(b, p) {
		byRoom[f.room] = append(byRoom[f.room], f)
	}
	strips := map[string]int{} // by surface
	for _, r := range p.Returns {
		strips[r.Surface]++
	}
	rooms := map[string]Work{}
	for id, all := range byRoom {
		w := Work{Seams: seamsOf(all, corners(all))}
		for _, f := range all {
			w.Painted += paintedArea(f)
			if !f.gypsum() {
				w.Panels += f.area()
			}
			edge, round := masked(f)
			w.Masked += edge + round
		}
		rooms[id] = w
	}
	for _, s := range b.Surfaces {
		w, ok := rooms[s.Room]
		if !ok {
			continue
		}
		for _, l := range BaseRuns(s) {
			w.Base += l
		}
		w.Strips += strips[s.ID]
		rooms[s.Room] = w
	}
	return rooms
}

// Beads is the length of bead and trim that is set on a room's board.
func (w Work) Beads() (sum length.Length) {
	for _, s := range w.Seams {
		if s.Level >= 1 {
			sum += s.ByKind[plan.OutsideCorner] + s.ByKind[plan.Trim] + s.ByKind[plan.Control]
		}
	}
	return sum
}

// Coat is the length of joint, corner and bead that gets a coat, the first one being 0.
func (w Work) Coat(coat int) (sum length.Length) {
	for _, s := range w.Seams {
		for _, kind := range finished {
			if coat < CoatsOf(s.Level).at(kind) {
				sum += s.ByKind[kind]
			}
		}
	}
	return sum
}

// Skim is the area of board that is skimmed, in m².
func (w Work) Skim() (sum float64) {
	for _, s := range w.Seams {
		if CoatsOf(s.Level).Skim {
			sum += s.Face
		}
	}
	return sum
}

// at is how many coats a kind of joint gets.
func (c Coats) at(kind plan.JointKind) int {
	switch kind {
	case plan.InsideCorner:
		return c.Angle
	case plan.OutsideCorner, plan.Trim, plan.Control:
		return c.Bead
	}
	return c.Joint
}

// wrap adds the corners of returns to the joints of the faces that they stand on.
func wrap(byLevel []Seams, all []face) {
	wrapped := map[string]bool{}
	for _, f := range all {
		if !f.gypsum() || wrapped[f.surface.ID] {
			continue
		}
		wrapped[f.surface.ID] = true
		outside, inside := reveal.Corners(f.returns, f.surface.ID)
		byLevel[level(f)+1].ByKind[plan.OutsideCorner] += outside
		byLevel[level(f)+1].ByKind[plan.InsideCorner] += inside
	}
}

// PanelCoats is how many clear coats wood panels get.
func PanelCoats(j *job.Job) int { return max(int(panelCoats.Of(j)), 0) }

// Battens is the length of batten over joints of wood panels; none where the user wants none.
func Battens(j *job.Job, seams []Seams) (sum length.Length) {
	if battens.Of(j) <= 0 {
		return 0
	}
	return Total(seams, plan.PanelGap)
}
