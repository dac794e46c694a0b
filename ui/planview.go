package ui

import (
	"image"

	"seamwright/calc/job"
	"seamwright/calc/shape"
	"seamwright/planner"
	"seamwright/scene/draft"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// planView is the rooms seen from above: drawn, picked and pulled here.
type planView struct {
	w      *Window
	pic    *picture
	view   draft.View
	fitted bool
	sight  [2]float64 // the size that the view was fitted to
	moved  bool       // by hand since: another size leaves it as it is
	hovers draft.Target

	outline *outline        // a room being drawn, nil: none
	opening job.OpeningKind // an opening to be placed, "": none
	paired  bool            // it is a double door

	held    draft.Target // what the hand has taken
	heldAt  shape.Point  // where on the floor it took it
	was     shape.Point  // the thing's own place then
	pulling bool
	panning bool
}

func newPlanView(w *Window) *planView {
	v := &planView{w: w, view: draft.View{Scale: 48}}
	v.pic = newPicture(w, v, v.draw)
	return v
}

// draw takes the state of this moment and returns the drawing of it.
func (v *planView) draw(width, height float64) func(*image.RGBA, float64) {
	m := v.w.model
	j, p, th := m.Doc.Job(), m.Plan, v.w.pal.Theme
	if m.Stale && m.Plan != nil && len(m.Plan.Surfaces) == 0 {
		p = nil
	}
	if now := [2]float64{width, height}; !v.fitted || !v.moved && v.sight != now {
		v.sight, v.moved = now, false
		v.fit(j, width, height)
	}
	s := draft.PlanState{Selected: v.w.picked(), Hover: v.hovers, Hand: m.Finish}
	if v.outline != nil {
		s.Rubber, s.Snap = v.outline.rubber(), v.outline.caught
		s.Hover, s.Hand = draft.Target{}, nil
	}
	view := v.view
	return func(img *image.RGBA, scale float64) {
		draft.DrawPlan(draft.NewRaster(img, scale), th, p, j, view, s)
	}
}

// An empty plan shows a room's worth of paper.
const emptyScale = 36 // logical pixels to a metre

func (v *planView) fit(j *job.Job, width, height float64) {
	v.fitted = true
	if len(j.Rooms) == 0 {
		v.view = draft.View{Scale: emptyScale, X: width * 0.2, Y: height * 0.8}
		return
	}
	v.view = draft.FitPlan(j, draft.Rect{X: 0, Y: 24, W: width, H: height - 24})
}

func (v *planView) caption() string { return "Plan" }

func (v *planView) refresh(c Change) {
	if c == PlanChanged|DocumentChanged|SelectionChanged|HandChanged|ViewChanged || c == EverythingElse {
		v.pic.redraw()
		return
	}
	v.pic.redraw()
}

// foreign shows what the pointer is on in another view.
func (v *planView) foreign(t draft.Target) {
	t = draft.Target{Kind: t.Kind, Room: t.Room, Surface: t.Surface, Opening: t.Opening, Index: t.Index}
	if t.Kind != draft.OnOpening && t.Surface != "" {
		t = draft.Target{Kind: draft.OnSurface, Room: t.Room, Surface: surfaceName(t.Surface)}
	}
	if !t.Same(v.hovers) {
		v.hovers = t
		v.pic.redraw()
	}
}

func (v *planView) hover(at draft.Pt) {
	if v.outline != nil {
		v.outline.move(v.view, at, v.corners())
		v.pic.redraw()
		v.w.noteLine.refresh()
		return
	}
	v.w.studio.hover(v.pic, &v.hovers, draft.PlanHit(v.w.model.Doc.Job(), v.view, at))
}

func (v *planView) leave() { v.w.studio.hover(v.pic, &v.hovers, draft.Target{}) }

// corners are those of the rooms that are there, for snapping.
func (v *planView) corners() []shape.Point {
	var all []shape.Point
	for _, r := range v.w.model.Doc.Job().Rooms {
		all = append(all, r.Corners...)
	}
	return all
}

func (v *planView) down(at draft.Pt, b desktop.MouseButton, _ fyne.KeyModifier) {
	v.panning = b == desktop.MouseButtonTertiary
	v.held = draft.Target{}
	if v.panning || b != desktop.MouseButtonPrimary || v.outline != nil || v.opening != "" || v.w.model.Finish != nil {
		return
	}
	v.held = draft.PlanHit(v.w.model.Doc.Job(), v.view, at)
	v.heldAt = v.view.At(at)
	v.was = v.place(v.held)
}

// place is where a thing stands: a corner, the left end of an opening along its wall, or a point of a wall.
func (v *planView) place(t draft.Target) shape.Point {
	j := v.w.model.Doc.Job()
	r := findRoom(j, t.Room)
	if r == nil {
		return shape.Point{}
	}
	switch t.Kind {
	case draft.OnCorner:
		return r.Corners[t.Corner]
	case draft.OnOpening:
		if o := openingsOf(findSurface(j, t.Surface)); t.Index < len(o) {
			return shape.Point{X: o[t.Index].At}
		}
	case draft.OnSurface:
		if wall, _ := findSurface(j, t.Surface); wall != nil {
			left, _ := sideEnds(r, wall.Side)
			return left
		}
	}
	return r.Corners[0]
}

func (v *planView) drag(at draft.Pt, by draft.Pt) {
	if v.panning {
		v.pan(by)
		return
	}
	if v.held.Kind == draft.Nothing || v.held.Kind == draft.OnRoom {
		if v.outline == nil {
			v.pan(by)
		}
		return
	}
	if !v.pulling {
		v.pulling = true
		v.w.model.Pick(v.held)
		v.w.model.Begin("move " + handleName(v.held))
	}
	v.pull(at)
}

// pan moves the paper.
func (v *planView) pan(by draft.Pt) {
	v.view, v.moved = v.view.Pan(by.X, by.Y), true
	v.pic.redraw()
}

func handleName(t draft.Target) string {
	switch t.Kind {
	case draft.OnCorner:
		return "corner"
	case draft.OnOpening:
		return "opening"
	case draft.OnSurface:
		return "wall"
	}
	return "room"
}

// pull moves what the hand holds to the pointer, on the grid. A place that the project cannot take is left out; the
// thing stays where it was last.
func (v *planView) pull(at draft.Pt) {
	j := v.w.model.Doc.Job()
	r := findRoom(j, v.held.Room)
	if r == nil {
		return
	}
	p := v.view.At(at)
	step := snapStep(v.w.imperial(), v.view, snapGrid)
	switch v.held.Kind {
	case draft.OnCorner:
		to := shape.Point{X: nearest(v.was.X+p.X-v.heldAt.X, step), Y: nearest(v.was.Y+p.Y-v.heldAt.Y, step)}
		n := len(r.Corners)
		for _, c := range []shape.Point{r.Corners[(v.held.Corner+1)%n], r.Corners[(v.held.Corner+n-1)%n]} {
			if abs(v.view.Px(to.X-c.X)) <= snapAlign {
				to.X = c.X
			}
			if abs(v.view.Px(to.Y-c.Y)) <= snapAlign {
				to.Y = c.Y
			}
		}
		v.pulled(planner.MoveCorner{Room: v.held.Room, Corner: v.held.Corner + 1, To: to})
	case draft.OnSurface:
		wall, _ := findSurface(j, v.held.Surface)
		if wall == nil {
			return
		}
		to := shape.Point{X: nearest(v.was.X+p.X-v.heldAt.X, step), Y: nearest(v.was.Y+p.Y-v.heldAt.Y, step)}
		v.pulled(planner.MoveSide{Room: v.held.Room, Side: wall.Side, Through: to})
	case draft.OnOpening:
		wall, _ := findSurface(j, v.held.Surface)
		if wall == nil || v.held.Index >= len(wall.Openings) {
			return
		}
		o := wall.Openings[v.held.Index]
		o.At = nearest(v.was.X+alongWall(r, wall, p)-alongWall(r, wall, v.heldAt), step)
		o.At = max(0, min(o.At, sideLength(r, wall.Side)-o.Width))
		v.pulled(planner.ChangeOpening{Surface: v.held.Surface, ID: v.held.Opening, Opening: o})
	}
}

func (v *planView) pulled(e planner.Edit) {
	if err := v.w.model.Do(e); err != nil {
		v.w.say(sentence(err))
		return
	}
	v.w.say("")
}

func (v *planView) release(bool) {
	v.panning = false
	v.held = draft.Target{}
	if v.pulling {
		v.pulling = false
		v.fitted = v.fitted && (v.moved || v.holds())
		v.w.model.End()
	}
}

func (v *planView) click(at draft.Pt, b desktop.MouseButton, _ fyne.KeyModifier) {
	if b == desktop.MouseButtonSecondary {
		v.w.stepBack()
		return
	}
	if b != desktop.MouseButtonPrimary {
		return
	}
	if v.outline != nil {
		v.outline.move(v.view, at, v.corners())
		v.setCorner()
		return
	}
	t := draft.PlanHit(v.w.model.Doc.Job(), v.view, at)
	switch {
	case v.opening != "":
		v.placeOpening(t, v.view.At(at))
	case v.w.model.Finish != nil && t.Surface != "":
		v.w.touch(t.Surface, 0)
	default:
		v.w.model.Pick(t)
	}
}

func (v *planView) double(at draft.Pt) {
	if v.outline != nil {
		v.finish()
		return
	}
	if t := draft.PlanHit(v.w.model.Doc.Job(), v.view, at); t.Surface != "" {
		v.w.model.Pick(t)
		v.w.studio.room.face(t.Surface)
	}
}

func (v *planView) scroll(at draft.Pt, dy float64) {
	v.view, v.moved = v.view.Zoom(at, zoomFactor(dy)), true
	v.pic.redraw()
}

func (v *planView) cursor() desktop.Cursor {
	switch {
	case v.outline != nil, v.opening != "", v.w.model.Finish != nil:
		return desktop.CrosshairCursor
	case v.hovers.Kind == draft.OnCorner, v.hovers.Kind == draft.OnOpening, v.hovers.Kind == draft.OnSurface:
		return desktop.PointerCursor
	}
	return desktop.DefaultCursor
}

func abs(v float64) float64 {
	if v < 0 {
		return -v
	}
	return v
}
