package finish

import (
	"math"
	"slices"

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
	Bead    length.Length // bead, edge trim and control joints
	Casing  length.Length // round doors and windows
	Edges   length.Length // strips on edges of wood panels
	Blocks  int           // blocks between members and back-blocks
	Shims   int           // sheets that stand on shims
	Plates  int           // nail plates
	Sealed  int           // boxes with sealant round them
	Floor   float64       // m² of floor under paper
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
	add := func(room string, to func(*Work)) {
		if w, ok := rooms[room]; ok {
			to(&w)
			rooms[room] = w
		}
	}
	for _, s := range b.Surfaces {
		add(s.Room, func(w *Work) { w.Strips, w.Plates = w.Strips+strips[s.ID], w.Plates+crossed(s) })
	}
	long := func(pieces []piece, of func(*Work) *length.Length) {
		for _, q := range pieces {
			add(q.room, func(w *Work) { *of(w) += q.long })
		}
	}
	long(basePieces(j, b), func(w *Work) *length.Length { return &w.Base })
	long(casingPieces(j, b), func(w *Work) *length.Length { return &w.Casing })
	for _, all := range byRoom {
		long(beadPieces(all, corners(all), p.Returns), func(w *Work) *length.Length { return &w.Bead })
		if panelStrip.Of(j) > 0 {
			long(panelEdges(all), func(w *Work) *length.Length { return &w.Edges })
		}
	}
	for _, q := range blockingPieces(p) {
		add(q.room, func(w *Work) { w.Blocks++ })
	}
	for i := range p.Surfaces {
		add(p.Surfaces[i].Room, func(w *Work) { w.Blocks += backBlocked(&p.Surfaces[i]) })
	}
	for _, d := range Boxes(j, b) {
		add(roomOf(d.Surface), func(w *Work) {
			w.Plates += int(math.Ceil(platesPerBox.Of(j)))
			if d.Sealed {
				w.Sealed++
			}
		})
	}
	for _, l := range Level(b, p, lap(j)) {
		add(roomOf(l.Surface), func(w *Work) { w.Shims += shimmed(&l) })
	}
	for room, m2 := range coveredFloors(j, byRoom) {
		add(room, func(w *Work) { w.Floor = m2 })
	}
	return rooms
}

// beadPieces are all that is set on edges of a room's board: corner bead, edge trim and control joints.
func beadPieces(all []face, corners []corner, returns []plan.Return) []piece {
	var own []plan.Return
	for _, r := range returns {
		if len(all) > 0 && roomOf(r.Surface) == all[0].room {
			own = append(own, r)
		}
	}
	return slices.Concat(cornerPieces(corners, own), freeEdges(all, true), jointPieces(all, plan.Control, true))
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

// Wide is the length of joint, of what gets a coat, that is feathered wide: butt joints, and mixed ones, which are finished
// like them.
func (w Work) Wide(coat int) (sum length.Length) {
	for _, s := range w.Seams {
		if coat < CoatsOf(s.Level).Joint {
			sum += s.ByKind[plan.Butt] + s.ByKind[plan.Mixed]
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
