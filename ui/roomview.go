package ui

import (
	"fmt"
	"image"
	"math"

	"seamwright/calc/plan"
	"seamwright/scene"
	"seamwright/scene/draft"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"github.com/go-gl/mathgl/mgl64"
)

// roomView is the room in three dimensions.
type roomView struct {
	w      *Window
	pic    *picture
	scene  *scene.Scene // never changed once it is shown: a new answer gets a new one
	of     *plan.Plan   // what the scene was built from
	render *scene.Renderer
	style  scene.Style
	framed bool
	sight  [2]float64 // the size that it was framed for
	hovers draft.Target
	bare   bool // there is no wall to show
	eye

	seams, studs, raking, walls *button
	emphasis                    *slider
	lights                      *lights
}

// How near to the wall the flood lamp may shine, in degrees above it, and how a drag with Alt moves it.
const (
	lowestLamp  = 4.0
	highestLamp = 60.0
	lampTurn    = 0.2  // for each pixel of a drag
	lampStep    = 0.01 // metres along the wall for each pixel of a drag
	lampShift   = 4.0  // metres to either side of the wall's middle
)

func newRoomView(w *Window) *roomView {
	v := &roomView{w: w, style: scene.DefaultStyle(), render: scene.NewRenderer(0)}
	v.eye = eye{w: w, side: "SE", pick: v.under, seen: func() (*scene.Scene, int, int) {
		width, height := v.pixels()
		return v.scene, width, height
	}}
	v.style.Theme = map[bool]scene.Theme{false: scene.Paper, true: scene.Ink}[w.pal.Dark]
	if w.pal.Name == draft.HighContrast().Name {
		v.style.Theme = scene.HighContrast
	}
	v.pic = newPicture(w, v, v.draw)
	v.sees = []*picture{v.pic}
	v.seams = v.chip("Seams", v.toggleSeams)
	v.studs = v.chip("Studs", v.toggleStuds)
	v.raking = v.chip("Raking light", v.toggleRaking)
	v.emphasis = newSlider(w, 0, 1, func() float64 { return v.style.Seams }, func(x float64) { v.style.Seams = x; v.label(); v.pic.redraw() })
	v.lights = newLights(v)
	v.walls = v.chip("Near walls", v.toggleWalls)
	v.label()
	return v
}

func (v *roomView) chip(words string, do func()) *button {
	b := newButton(v.w.pal, pill, words, func() { do(); v.label(); v.pic.redraw() })
	b.small, b.keys = true, v.w.typedKey
	return b
}

// chips stand at the foot of the view, the switches of the light above the others while it is on.
func (v *roomView) chips() []fyne.CanvasObject {
	return append([]fyne.CanvasObject{v.seams, v.emphasis, v.studs, v.walls, v.raking}, v.lights.chips()...)
}

func (v *roomView) toggleSeams() {
	if v.style.Seams > 0.1 {
		v.style.Seams = 0
	} else {
		v.style.Seams = scene.DefaultStyle().Seams
	}
}
func (v *roomView) toggleStuds()  { v.style.Members = !v.style.Members }
func (v *roomView) toggleWalls()  { v.style.Cutaway = !v.style.Cutaway }
func (v *roomView) toggleRaking() { v.style.Raking.On = !v.style.Raking.On }

// label shows the switches as they stand.
func (v *roomView) label() {
	v.seams.set("Seams", v.style.Seams > 0.1)
	v.studs.set("Studs", v.style.Members)
	v.walls.set("Near walls", !v.style.Cutaway)
	words := "Raking light"
	if v.style.Raking.On {
		words = fmt.Sprintf("Raking light %.0f°", v.style.Raking.Angle*180/math.Pi)
	}
	v.raking.set(words, v.style.Raking.On)
	v.emphasis.Refresh()
	for _, b := range []fyne.CanvasObject{v.seams, v.emphasis, v.studs, v.walls} { // they are of the wall before it is finished
		shownIf(b, !v.style.Raking.On && !v.w.presenting && !v.bare)
	}
	shownIf(v.raking, !v.w.presenting && !v.bare)
	v.lights.label()
	if s := v.w.studio; s != nil && s.client != nil {
		s.client.refresh()
	}
	if p := v.w.studio; p != nil && p.panes["room"] != nil {
		p.panes["room"].place(v.pic.Size())
	}
}

// lower brings the lamp nearer to the wall, or away from it, in degrees.
func (v *roomView) lower(by float64) {
	angle := v.style.Raking.Angle*180/math.Pi - by
	v.style.Raking.On = true
	v.style.Raking.Angle = math.Max(lowestLamp, math.Min(highestLamp, angle)) * math.Pi / 180
	v.label()
	v.pic.redraw()
}

func (v *roomView) draw(width, height float64) func(*image.RGBA, float64) {
	if v.empty() {
		return v.site(width, height)
	}
	v.build()
	if now := [2]float64{width, height}; !v.framed || v.side != "" && v.side != "inside" && v.leg == nil && v.sight != now {
		v.framed, v.sight = true, now
		if c, ok := v.scene.Camera(v.side, int(width), int(height)); ok {
			v.cam = c
		}
	}
	style := v.style
	if !v.w.presenting {
		style.Selected = v.selected()
		style.Hovered = refOf(v.hovers)
	}
	style.Sharp = v.w.options.Still || !v.moving()
	style.Raking.Surface = ""
	sc, cam, r := v.scene, v.cam, v.render
	return func(img *image.RGBA, scale float64) {
		style.Scale = scale
		r.Render(img, sc, cam, style)
	}
}

// spare lets go of the walls' unevenness while it is not looked at: seen says whether the room is on the screen.
func (v *roomView) spare(seen bool) {
	if !(v.style.Raking.On && seen) && !v.pic.busy {
		v.render.Spare()
	}
}

// empty says whether there is no wall to show.
func (v *roomView) empty() bool { return v.w.model.Plan == nil || len(v.w.model.Plan.Surfaces) == 0 }

// The ground on which nothing stands yet: squares of half a metre, and the eye that looks at them.
const (
	siteHalf = 4.0 // metres from its middle to its edges
	siteStep = 0.5
)

var siteEye = scene.Camera{Eye: mgl64.Vec3{5.2, -6.4, 4.4}, Yaw: -39 * math.Pi / 180, Pitch: -28 * math.Pi / 180, FOV: 46 * math.Pi / 180}

// site draws the bare ground and says how a room comes to stand on it.
func (v *roomView) site(width, height float64) func(*image.RGBA, float64) {
	p := v.w.pal
	return func(img *image.RGBA, scale float64) {
		flood(img, p.Pane)
		c := draft.NewRaster(img, scale)
		line := func(a, b mgl64.Vec3) {
			ax, ay, _ := siteEye.Project(int(width), int(height), a)
			bx, by, _ := siteEye.Project(int(width), int(height), b)
			c.Stroke([]draft.Pt{{X: ax, Y: ay}, {X: bx, Y: by}}, false, draft.Pen{Width: 1, Color: p.Grid})
		}
		for at := -siteHalf; at <= siteHalf; at += siteStep {
			line(mgl64.Vec3{at, -siteHalf, 0}, mgl64.Vec3{at, siteHalf, 0})
			line(mgl64.Vec3{-siteHalf, at, 0}, mgl64.Vec3{siteHalf, at, 0})
		}
		lines := []string{"The room stands here as soon as it is drawn:", "press R and click its corners in the plan."}
		if m := v.w.model; m.Plan == nil && len(m.Doc.Job().Rooms) > 0 {
			lines = []string{"The room is being worked out."}
		}
		for i, words := range lines {
			wide := draft.Measure(words, float64(sizeText), draft.Regular)
			c.Text(draft.Pt{X: (width - wide) / 2, Y: height/2 + 20*float64(i)}, words, draft.Type{Size: float64(sizeText), Color: p.Quiet})
		}
	}
}

// build makes the scene of the answer that stands.
func (v *roomView) build() {
	if m := v.w.model; v.scene == nil || v.of != m.Plan {
		v.scene, v.of = scene.Build(m.Plan, m.Doc.Job(), scene.Options{}), m.Plan
		v.framed = v.framed && (v.side == "" || v.side == "inside" || m.gesture)
	}
}

func refOf(t draft.Target) scene.Ref { return scene.Ref{Surface: t.Surface, Panel: t.Panel} }

func (v *roomView) selected() []scene.Ref {
	t := v.w.model.Selected
	if t.Surface == "" {
		return nil
	}
	return []scene.Ref{refOf(t)}
}

func (v *roomView) caption() string {
	if v.bare {
		return "Room"
	}
	return v.name()
}

func (v *roomView) refresh(c Change) {
	if bare := v.empty(); bare != v.bare {
		v.bare = bare
		v.label() // without walls there is nothing to switch
	}
	if c&(PlanChanged|SelectionChanged|ViewChanged) != 0 {
		v.lights.judge()
	}
	if c&(PlanChanged|SelectionChanged|ViewChanged|HandChanged) != 0 {
		v.pic.redraw()
	}
}

// pixels is the picture's size in the logical pixels that pointer and camera are measured in.
func (v *roomView) pixels() (int, int) {
	width, height := v.pic.size()
	return int(width), int(height)
}

// under is what lies under the pointer.
func (v *roomView) under(at draft.Pt) (scene.Hit, bool) {
	if v.scene == nil {
		return scene.Hit{}, false
	}
	width, height := v.pixels()
	return v.scene.Pick(v.cam, v.style, width, height, at.X, at.Y)
}

func (v *roomView) target(h scene.Hit, ok bool) draft.Target {
	switch {
	case !ok:
		return draft.Target{}
	case h.Surface == "":
		return draft.Target{Kind: draft.OnRoom, Room: h.Room}
	}
	t := draft.Target{Kind: draft.OnSurface, Room: h.Room, Surface: h.Surface, At: h.At}
	switch {
	case h.Panel != "":
		t.Kind, t.Panel, t.Zone, t.Layer = draft.OnPanel, h.Panel, h.Zone, h.Layer
	case h.Opening != "":
		t.Kind, t.Opening = draft.OnOpening, h.Opening
		for i, o := range openingsOf(findSurface(v.w.model.Doc.Job(), h.Surface)) {
			if o.ID == h.Opening {
				t.Index = i
			}
		}
	case h.Zone > 0:
		t.Zone = h.Zone
	}
	return t
}

func (v *roomView) foreign(t draft.Target) {
	if !t.Same(v.hovers) {
		was := refOf(v.hovers)
		v.hovers = t
		if refOf(t) != was {
			v.pic.redraw()
		}
	}
}

func (v *roomView) hover(at draft.Pt) {
	if !v.turning && !v.panning {
		v.w.studio.hover(v.pic, &v.hovers, v.target(v.pick(at)))
	}
}

func (v *roomView) leave() { v.w.studio.hover(v.pic, &v.hovers, draft.Target{}) }

func (v *roomView) down(at draft.Pt, b desktop.MouseButton, mod fyne.KeyModifier) {
	v.press(at, b, mod)
}

func (v *roomView) drag(_ draft.Pt, by draft.Pt) {
	if v.turning && !v.panning && v.modifiedLamp() {
		v.lower(by.Y * lampTurn)
		if r := &v.style.Raking; r.Reach > 0 {
			r.Shift[0] = math.Max(-lampShift, math.Min(lampShift, r.Shift[0]+by.X*lampStep))
		}
		v.stir()
		return
	}
	_, height := v.pic.size()
	v.pull(by, height)
}

// modifiedLamp says whether the drag is meant for the lamp: Alt is held and the raking light is on.
func (v *roomView) modifiedLamp() bool { return v.style.Raking.On && v.w.modifiers()&alt != 0 }

func (v *roomView) release(dragged bool) {
	v.letGo()
	if dragged {
		v.w.studio.captions()
	}
}

func (v *roomView) click(at draft.Pt, b desktop.MouseButton, _ fyne.KeyModifier) {
	if b == desktop.MouseButtonSecondary {
		v.w.stepBack()
		return
	}
	if b != desktop.MouseButtonPrimary {
		return
	}
	h, ok := v.pick(at)
	t := v.target(h, ok)
	if v.w.model.Finish != nil && t.Surface != "" {
		v.w.touch(t.Surface, t.Zone)
		return
	}
	v.w.model.Pick(t)
	if v.style.Raking.On {
		v.lights.ask(h)
	}
}

// double looks straight at the wall under the pointer, or at the whole room from beside it.
func (v *roomView) double(at draft.Pt) {
	if t := v.target(v.pick(at)); t.Surface != "" {
		v.face(t.Surface)
		return
	}
	v.look("SE")
}

func (v *roomView) typed(rune) bool { return false }

func (v *roomView) cursor() desktop.Cursor {
	if v.w.model.Finish != nil {
		return desktop.CrosshairCursor
	}
	return desktop.DefaultCursor
}
