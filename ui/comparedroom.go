package ui

import (
	"context"
	"errors"
	"image"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/plan"
	"seamwright/scene"
	"seamwright/scene/draft"
	"seamwright/scene/light"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// comparedRoom is one alternative's room, and under it what the alternative costs and what it needs.
type comparedRoom struct {
	c      *comparison
	name   string // "" as drawn
	box    *fyne.Container
	words  *fyne.Container
	pic    *picture
	job    *job.Job
	plan   *plan.Plan // nil: not worked out yet, or not at all
	fault  error      // why there is no answer
	scene  *scene.Scene
	render *scene.Renderer
}

// The words under a room.
const (
	wordsHigh float32 = 84
	wordsEdge float32 = 12 // to the next room's
)

func newComparedRoom(c *comparison, name string) *comparedRoom {
	r := &comparedRoom{c: c, name: name, job: c.w.model.Doc.JobFor(name), render: scene.NewRenderer(0), words: container0()}
	r.pic = newPicture(c.w, r, r.draw)
	r.pic.always = true
	frame := c.w.pal.border(r.pic)
	r.box = laidOut(arrange{fyne.NewSize(80, 160), func(size fyne.Size) {
		put(frame, 0, 0, size.Width, size.Height-wordsHigh)
		put(r.words, 0, size.Height-wordsHigh, size.Width, wordsHigh)
		r.write()
	}}, frame, r.words)
	return r
}

// close lets go of everything large: the toolkit remembers a room for a while after it is gone.
func (r *comparedRoom) close() {
	w := r.c.w
	w.pictures = slices.DeleteFunc(w.pictures, func(p *picture) bool { return p == r.pic })
	r.pic.drop()
	r.render.Close()
	r.scene, r.plan, r.render = nil, nil, nil
}

// calculate works the alternative out elsewhere; the one that is shown is there already.
func (r *comparedRoom) calculate(ctx context.Context) {
	w := r.c.w
	if m := w.model; r.name == m.Doc.Active() && !m.Stale && m.Plan != nil {
		r.plan = m.Plan
		return
	}
	j := alone(r.job)
	w.elsewhere(func() func() {
		p, err := w.options.Calculate(ctx, j)
		return func() { r.take(p, err) }
	}, func() { r.take(nil, errNoAnswer) })
}

// errNoAnswer stands for a fault that has been reported already.
var errNoAnswer = errors.New("something in the program failed")

// take takes the answer in, or why there is none.
func (r *comparedRoom) take(p *plan.Plan, err error) {
	if r.c.w.compared != r.c || r.render == nil { // another stands in its place
		return
	}
	r.plan, r.fault = p, err
	r.c.fill()
	r.pic.redraw()
}

func (r *comparedRoom) draw(width, height float64) func(*image.RGBA, float64) {
	if r.plan == nil {
		g := r.c.w.pal.Ground
		return func(img *image.RGBA, _ float64) { flood(img, g) }
	}
	if r.scene == nil {
		first := r.c.scene() == nil
		r.scene = scene.Build(r.plan, r.job, scene.Options{})
		if e := &r.c.eye; first && !e.inside() {
			e.cam = r.scene.FrameAll(e.cam, int(width), int(height))
		}
	}
	style := r.c.w.studio.room.style
	style.Sharp = r.c.w.options.Still || !r.c.eye.moving()
	style.Raking.Joint = nil
	sc, cam, render := r.scene, r.c.eye.cam, r.render
	return func(img *image.RGBA, scale float64) {
		style.Scale = scale
		render.Render(img, sc, cam, style)
	}
}

// write sets name and money, what is bought and joined, and what is different from the project as drawn.
func (r *comparedRoom) write() {
	w, width := r.c.w, r.words.Size().Width
	r.words.RemoveAll()
	if width < 40 {
		return
	}
	y := float32(4)
	line := func(words string, bold bool, size float32) {
		t := w.pal.text(fit(words, size, bold, width-wordsEdge), size, bold, w.pal.Ink)
		put(t, 0, y, width, t.MinSize().Height)
		r.words.Add(t)
	}
	line(alternativeName(r.name), true, sizeHeading)
	if r.plan == nil {
		y += 24
		if r.fault != nil {
			line("No answer. "+sentence(r.fault), false, sizeText)
		} else {
			line("Working it out.", false, sizeText)
		}
		r.words.Refresh()
		return
	}
	s := &r.plan.Summary
	price := w.pal.text(amount(r.plan.Cost.Total, r.plan.Cost.Currency), sizeHeading, true, w.pal.Ink)
	put(price, width-wordsEdge-price.MinSize().Width, y, price.MinSize().Width, price.MinSize().Height)
	r.words.Add(price)
	y += 24
	line(counted(s.SheetsBought, "sheet")+", "+w.run(s.ButtJoint+s.MixedJoint)+" of butt joints, "+counted(s.Days, "day"), false, sizeText)
	y += 20
	line(r.against(), false, sizeSmall)
	y += 16
	line(r.verdict(), false, sizeSmall)
	r.words.Refresh()
}

// against says how the alternative differs from the project as drawn.
func (r *comparedRoom) against() string {
	first := r.c.room("")
	if first == nil || r == first || first.plan == nil {
		return ""
	}
	drawn := first.plan
	more := r.plan.Summary.SheetsBought - drawn.Summary.SheetsBought
	sheets, cost := change(more), moneyChange(r.plan.Cost.Total-drawn.Cost.Total, r.plan.Cost.Currency)
	switch {
	case sheets == "" && cost == "":
		return "As dear as drawn, with as many sheets."
	case sheets == "":
		return "Against the one drawn: " + cost + "."
	case cost == "":
		return "Against the one drawn: " + sheets + plural(more, " sheet") + "."
	}
	return "Against the one drawn: " + cost + ", " + sheets + plural(more, " sheet") + "."
}

// verdict says how plainly the worst joint shows, while the walls are seen finished and lit.
func (r *comparedRoom) verdict() string {
	k := r.c.w.studio.room.style.Raking
	if !k.On || r.scene == nil {
		return ""
	}
	var worst light.Verdict
	where := ""
	for i := range r.plan.Surfaces {
		id := r.plan.Surfaces[i].ID
		if v, ok := r.scene.Judge(id, k); ok && (where == "" || v.Times() > worst.Times()) {
			worst, where = v, id
		}
	}
	if where == "" {
		return "No joint is finished smooth."
	}
	return "Plainest joint: " + draft.SurfaceName(where) + "; it " + timesSeen(worst) + "."
}

// scene is what the eye frames: all rooms are much of a size.
func (c *comparison) scene() *scene.Scene {
	for _, r := range c.rooms {
		if r.scene != nil {
			return r.scene
		}
	}
	return nil
}

func (c *comparison) seen() (*scene.Scene, int, int) {
	width, height := c.rooms[0].pic.size()
	return c.scene(), int(width), int(height)
}

func (c *comparison) pick(at draft.Pt) (scene.Hit, bool) {
	r := c.under
	if r == nil || r.scene == nil {
		return scene.Hit{}, false
	}
	width, height := r.pic.size()
	return r.scene.Pick(c.eye.cam, c.w.studio.room.style, int(width), int(height), at.X, at.Y)
}

// restyle shows seams, studs or lights anew in all rooms.
func (c *comparison) restyle() {
	c.eye.redraw()
	c.fill()
}

// close lets go of the rooms; the window's own room keeps the view that they were left at.
func (c *comparison) close() {
	w := c.w
	w.compared = nil
	if c.eye.clock != nil {
		c.eye.clock.Stop()
		c.eye.clock = nil
	}
	if v := w.studio.room; c.scene() != nil && v.scene != nil {
		v.cam, v.side, v.facing = c.eye.cam, c.eye.side, c.eye.facing
	}
	for _, r := range c.rooms {
		r.pic.leave(r.close)
	}
	w.views[w.tab].refresh(EverythingElse) // its pictures may have been let go of while they were covered
	w.tidyLater()
}

func (r *comparedRoom) down(at draft.Pt, b desktop.MouseButton, mod fyne.KeyModifier) {
	r.c.under = r
	r.c.eye.press(at, b, mod)
}

func (r *comparedRoom) drag(_ draft.Pt, by draft.Pt) {
	_, height := r.pic.size()
	r.c.eye.pull(by, height)
}

func (r *comparedRoom) release(bool) { r.c.eye.letGo() }

func (r *comparedRoom) scroll(at draft.Pt, dy float64) {
	r.c.under = r
	r.c.eye.scroll(at, dy)
}

// double looks straight at the wall under the pointer.
func (r *comparedRoom) double(at draft.Pt) {
	r.c.under = r
	if h, ok := r.c.pick(at); ok && h.Surface != "" {
		r.c.eye.face(h.Surface)
		return
	}
	r.c.eye.look("SE")
}

func (r *comparedRoom) key(e *fyne.KeyEvent) bool                             { return r.c.eye.key(e) }
func (r *comparedRoom) hover(draft.Pt)                                        {}
func (r *comparedRoom) leave()                                                {}
func (r *comparedRoom) click(draft.Pt, desktop.MouseButton, fyne.KeyModifier) {}
func (r *comparedRoom) typed(rune) bool                                       { return false }
func (r *comparedRoom) cursor() desktop.Cursor                                { return desktop.DefaultCursor }
