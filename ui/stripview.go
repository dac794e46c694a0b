package ui

import (
	"image"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/planner"
	"seamwright/scene/draft"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// stripView is the walls unrolled, left to right as you turn in the room, the ceiling last.
type stripView struct {
	w      *Window
	pic    *picture
	view   draft.View
	fitted bool
	sight  [2]float64 // the size that the view was fitted to
	moved  bool       // by hand since
	room   string     // room shown
	alone  string     // surface that fills the view, "" for all
	hovers draft.Target

	studs  *button
	screws *button
	all    *button

	answers *answers

	held    draft.Target
	heldAt  shape.Point
	was     length.Length
	seam    *draft.SeamDrag
	hold    *seamHold
	pulling bool
	panning bool
}

func newStripView(w *Window) *stripView {
	v := &stripView{w: w, view: draft.View{Scale: 48}}
	v.pic = newPicture(w, v, v.draw)
	v.pic.spaced = true
	v.answers = newAnswers(w)
	v.studs = v.chip("Studs", func() { v.studs.set("Studs", !v.studs.on) })
	v.screws = v.chip("Screws", func() { v.screws.set("Screws", !v.screws.on) })
	v.all = v.chip("All walls", func() { v.alone, v.fitted = "", false })
	return v
}

func (v *stripView) chip(words string, do func()) *button {
	b := newButton(v.w.pal, pill, words, func() { do(); v.pic.redraw() })
	b.small, b.keys = true, v.w.typedKey
	return b
}

func (v *stripView) chips() []fyne.CanvasObject { return []fyne.CanvasObject{v.studs, v.screws, v.all} }

// shown is the room of what is picked, else the one shown before, else the first.
func (v *stripView) shown(j *job.Job) string {
	if r := v.w.model.Selected.Room; r != "" && findRoom(j, r) != nil {
		return r
	}
	if findRoom(j, v.room) != nil {
		return v.room
	}
	if len(j.Rooms) > 0 {
		return j.Rooms[0].ID
	}
	return ""
}

func (v *stripView) state() draft.StripState {
	return draft.StripState{Room: v.room, Members: v.studs.on, Screws: v.screws.on, Selected: v.w.picked(), Hover: v.hovers,
		Hand: v.w.model.Finish, Drag: v.seam}
}

func (v *stripView) draw(width, height float64) func(*image.RGBA, float64) {
	m := v.w.model
	j, p, th := m.Doc.Job(), m.Plan, v.w.pal.Theme
	if room := v.shown(j); room != v.room {
		v.room, v.alone, v.fitted = room, "", false
	}
	if yes := v.banded(height); yes != v.answers.box.Visible() {
		shownIf(v.answers.box, yes)
		v.answers.refresh()
	}
	if now := [2]float64{width, height}; p != nil && (!v.fitted || !v.moved && v.sight != now) {
		v.fitted, v.moved, v.sight = true, false, now
		head := 26.0
		if v.banded(height) {
			head = float64(bandTop + answersHeight)
		}
		into := draft.Rect{X: 8, Y: head, W: width - 16, H: height - head - stripFoot}
		if v.alone != "" {
			v.view = draft.FitSurface(p, j, v.room, v.alone, into)
		} else {
			v.view = draft.FitStrip(p, j, v.room, into)
		}
	}
	view, state := v.view, v.state()
	return func(img *image.RGBA, scale float64) {
		draft.DrawStrip(draft.NewRaster(img, scale), th, p, j, view, state)
	}
}

// stripFoot is what stays free below the captions: the legend, and the inspector where its fields take four rows.
const stripFoot = 52

// banded says whether the answers stand over the walls.
func (v *stripView) banded(height float64) bool {
	return v.answers.shown() && height >= float64(answersFrom)
}

func (v *stripView) caption() string {
	if v.alone != "" {
		return draft.WallName(v.alone) + ", double click comes back"
	}
	words := "Walls unrolled, left to right as you turn in the room"
	if j := v.w.model.Doc.Job(); len(j.Rooms) > 1 {
		words = draft.SurfaceName(v.shown(j)) + ": walls unrolled, left to right as you turn in the room"
	}
	return words
}

func (v *stripView) refresh(c Change) {
	if c == EverythingElse || c&PlanChanged != 0 && v.alone == "" && !v.pulling {
		v.refitIfGrown()
	}
	if c&(PlanChanged|DocumentChanged|ViewChanged) != 0 {
		v.answers.refresh()
	}
	v.pic.redraw()
}

// refitIfGrown keeps the whole strip in sight after walls have changed, unless the user has zoomed in.
func (v *stripView) refitIfGrown() { v.fitted = v.fitted && (v.pulling || v.moved) }

func (v *stripView) foreign(t draft.Target) {
	if t.Kind != draft.OnOpening && t.Kind != draft.OnPanel && t.Surface != "" {
		t = draft.Target{Kind: draft.OnSurface, Room: t.Room, Surface: t.Surface}
	}
	if !t.Same(v.hovers) {
		v.hovers = t
		v.pic.redraw()
	}
}

func (v *stripView) hit(at draft.Pt) draft.Target {
	m := v.w.model
	if m.Plan == nil {
		return draft.Target{}
	}
	return draft.StripHit(m.Plan, m.Doc.Job(), v.view, v.state(), at)
}

func (v *stripView) hover(at draft.Pt) { v.w.studio.hover(v.pic, &v.hovers, v.hit(at)) }

func (v *stripView) leave() { v.w.studio.hover(v.pic, &v.hovers, draft.Target{}) }

func (v *stripView) down(at draft.Pt, b desktop.MouseButton, _ fyne.KeyModifier) {
	v.panning = b == desktop.MouseButtonTertiary
	v.held = draft.Target{}
	if v.panning || b != desktop.MouseButtonPrimary || v.w.model.Finish != nil {
		return
	}
	v.held = v.hit(at)
	v.heldAt = v.held.At
	switch v.held.Kind {
	case draft.OnOpening:
		if o := openingsOf(findSurface(v.w.model.Doc.Job(), v.held.Surface)); v.held.Index < len(o) {
			v.was = o[v.held.Index].At
		}
	}
}

func (v *stripView) drag(at draft.Pt, by draft.Pt) {
	seam := v.held.Kind == draft.OnSeam && v.held.Drag != ""
	if v.panning || !seam && v.held.Kind != draft.OnOpening {
		v.view, v.moved = v.view.Pan(by.X, by.Y), true
		v.pic.redraw()
		return
	}
	m := v.w.model
	on, ok := draft.SurfaceView(m.Plan, m.Doc.Job(), v.room, v.held.Surface, v.view)
	if !ok {
		return
	}
	p := on.At(at)
	if !v.pulling {
		v.pulling = true
		if seam {
			v.takeSeam()
		} else {
			m.Pick(v.held)
			m.Begin("move opening")
		}
	}
	if seam {
		v.pullSeam(p)
		return
	}
	openings := openingsOf(findSurface(m.Doc.Job(), v.held.Surface))
	if v.held.Index >= len(openings) {
		return
	}
	o := openings[v.held.Index]
	step := snapStep(v.w.imperial(), v.view, snapGrid)
	o.At = max(0, nearest(v.was+p.X-v.heldAt.X, step))
	if o.Kind != job.Door && o.Kind != job.KeepOut {
		was := o.Sill
		o.Sill = max(0, was+nearest(p.Y-v.heldAt.Y, step))
		v.heldAt.Y += o.Sill - was
	}
	if err := m.Do(planner.ChangeOpening{Surface: surfaceName(v.held.Surface), ID: v.held.Opening, Opening: o}); err != nil {
		v.w.say(sentence(err))
	}
}

func (v *stripView) release(bool) {
	v.panning = false
	if !v.pulling {
		return
	}
	v.pulling = false
	if v.hold != nil {
		v.dropSeam()
	} else {
		v.w.model.End()
	}
	v.held = draft.Target{}
}

// stop lets go of what the hand holds and takes back what it did.
func (v *stripView) stop() {
	v.pulling, v.held = false, draft.Target{}
	v.pic.pressed = false
	v.seam, v.hold = nil, nil
	v.w.model.Cancel()
	v.pic.redraw()
}

func (v *stripView) click(at draft.Pt, b desktop.MouseButton, mod fyne.KeyModifier) {
	if b == desktop.MouseButtonSecondary {
		v.w.stepBack()
		return
	}
	if b != desktop.MouseButtonPrimary {
		return
	}
	t := v.hit(at)
	if v.w.model.Finish != nil && t.Surface != "" {
		v.w.touch(t.Surface, t.Zone)
		return
	}
	switch {
	case t.Kind == draft.OnPin:
		v.w.try(planner.RemovePin{Surface: surfaceName(t.Surface), Index: t.Index})
	case t.Kind == draft.OnSeam && mod&alt != 0:
		v.w.model.Pick(t)
		v.w.pinSeam()
	case t.Kind == draft.OnCheck && v.w.model.Plan != nil && t.Index < len(v.w.model.Plan.Checks):
		v.w.say(v.w.tell(v.w.model.Plan.Checks[t.Index].Says))
		v.w.model.Pick(t)
	default:
		v.w.model.Pick(t)
	}
}

// double fills the view with the wall under the pointer, or brings all of them back.
func (v *stripView) double(at draft.Pt) {
	t := v.hit(at)
	if v.alone != "" || t.Surface == "" {
		v.alone = ""
	} else {
		v.alone = t.Surface
	}
	v.fitted = false
	v.w.refresh(ViewChanged)
}

func (v *stripView) scroll(at draft.Pt, dy float64) {
	v.view, v.moved = v.view.Zoom(at, zoomFactor(dy)), true
	v.pic.redraw()
}

func (v *stripView) typed(rune) bool { return false }

func (v *stripView) key(e *fyne.KeyEvent) bool {
	t := v.w.model.Selected
	if t.Kind == draft.OnSeam && v.stepSeam(e.Name) {
		return true
	}
	return v.w.studio.plan.nudge(e.Name)
}

func (v *stripView) cursor() desktop.Cursor {
	switch {
	case v.w.model.Finish != nil:
		return desktop.CrosshairCursor
	case v.hovers.Kind == draft.OnSeam && v.hovers.Drag == job.AxisX:
		return desktop.HResizeCursor
	case v.hovers.Kind == draft.OnSeam && v.hovers.Drag == job.AxisY:
		return desktop.VResizeCursor
	case v.hovers.Kind == draft.OnOpening, v.hovers.Kind == draft.OnPin, v.hovers.Kind == draft.OnCheck:
		return desktop.PointerCursor
	}
	return desktop.DefaultCursor
}

// panelWords says of a panel what a person with the sheet in their hands asks: which it is, how big, from which sheet.
func (w *Window) panelWords(t draft.Target) string {
	s := w.model.Surface(t.Surface)
	if s == nil {
		return ""
	}
	for i := range s.Zones {
		z := &s.Zones[i]
		for _, p := range z.Panels {
			if p.ID != t.Panel {
				continue
			}
			low, high := bounds(p.Outline)
			words := p.ID + ": " + w.length(high.X-low.X) + " × " + w.length(high.Y-low.Y) + ", " + productName(w.model.Doc.Job(), z.Product)
			if sheet := sheetOf(w.model.Plan, p.Sheet); sheet != nil {
				words += ", from sheet " + sheet.ID + " (" + w.size(sheet.Size[0], sheet.Size[1])
				if sheet.Source == plan.Stock {
					words += ", on hand"
				}
				words += ")"
			}
			return words + ", " + w.heldBy(z, &p)
		}
	}
	return ""
}

func sheetOf(p *plan.Plan, id string) *plan.Sheet {
	if p == nil {
		return nil
	}
	for i := range p.Sheets {
		if p.Sheets[i].ID == id {
			return &p.Sheets[i]
		}
	}
	return nil
}
