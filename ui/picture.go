package ui

import (
	"bytes"
	"image"
	"image/color"
	"math"
	"time"

	"seamwright/calc/guard"
	"seamwright/scene/draft"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// A frame that took less than this is drawn at once; a dearer one in a worker, so that the window never waits.
const quickFrame = 8 * time.Millisecond

// fineScreen is the scale from which a coarse frame's pixels are no larger than those of a usual screen.
const fineScreen = 2

// Two presses within this time and reach are a double click.
const (
	doubleClick = 400 * time.Millisecond
	clickReach  = 4.0
)

// hands is what a drawing does with mouse and keys. Places are logical pixels from its upper left corner.
type hands interface {
	hover(at draft.Pt)
	leave()
	down(at draft.Pt, button desktop.MouseButton, mod fyne.KeyModifier)
	drag(at draft.Pt, by draft.Pt)
	release(dragged bool) // the button is up; every down has one
	click(at draft.Pt, button desktop.MouseButton, mod fyne.KeyModifier)
	double(at draft.Pt)
	scroll(at draft.Pt, dy float64)
	key(e *fyne.KeyEvent) (own bool)
	typed(r rune) (own bool)
	cursor() desktop.Cursor
}

// picture is a view made of one image in exact device pixels. Its draw function takes what it needs from the model
// while it is called, and returns a function that draws it, which may run on another goroutine.
type picture struct {
	widget.BaseWidget
	w     *Window
	hands hands
	draw  func(width, height float64) func(img *image.RGBA, scale float64)

	shown   *canvas.Image
	spaced  bool            // much of it is empty: what is empty above and below is not painted
	rows    [2]float32      // the part of its height that is painted, where it is spaced
	ring    *fyne.Container // round the picture that has the keys
	buffers [2]*image.RGBA
	coarse  [2]*image.RGBA // at half the resolution, for frames in motion that cost too much
	next    int
	moving  bool   // the picture is in motion: rather a coarse frame than a late one
	slow    bool   // a fine frame in motion would be late
	busy    bool   // a worker is drawing
	again   bool   // something is new since it began
	gone    func() // wants to know when the worker is free for good
	took    time.Duration

	view      view // that it is a part of
	always    bool // drawn whatever view is in front
	pressed   bool
	dragged   bool
	button    desktop.MouseButton
	pressedAt draft.Pt
	lastClick time.Time
	lastAt    draft.Pt
}

var (
	_ desktop.Mouseable  = (*picture)(nil)
	_ desktop.Hoverable  = (*picture)(nil)
	_ desktop.Cursorable = (*picture)(nil)
	_ fyne.Draggable     = (*picture)(nil)
	_ fyne.Scrollable    = (*picture)(nil)
	_ fyne.Focusable     = (*picture)(nil)
)

func newPicture(w *Window, h hands, draw func(width, height float64) func(*image.RGBA, float64)) *picture {
	p := &picture{w: w, hands: sure{h, w}, draw: draw, shown: &canvas.Image{ScaleMode: canvas.ImageScaleFastest, FillMode: canvas.ImageFillStretch}}
	p.ring = newFrame(faded(w.pal.Accent, 0.6), 2)
	p.ring.Hide()
	p.ExtendBaseWidget(p)
	w.pictures = append(w.pictures, p)
	return p
}

func (p *picture) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(laidOut(arrange{place: func(size fyne.Size) {
		put(p.ring, 0, 0, size.Width, size.Height)
		p.lay(size)
	}}, p.shown, p.ring))
}

// lay puts what is painted of the picture in its place.
func (p *picture) lay(size fyne.Size) {
	if !p.spaced {
		put(p.shown, 0, 0, size.Width, size.Height)
		return
	}
	put(p.shown, 0, p.rows[0]*size.Height, size.Width, (p.rows[1]-p.rows[0])*size.Height)
}

func (p *picture) MinSize() fyne.Size { return fyne.NewSize(80, 60) }

func (p *picture) Resize(size fyne.Size) {
	if size == p.Size() {
		return
	}
	p.BaseWidget.Resize(size)
	p.redraw()
}

// size is the drawing's size in logical pixels.
func (p *picture) size() (width, height float64) {
	return float64(p.Size().Width), float64(p.Size().Height)
}

// redraw shows the model as it is now, at once or as soon as the worker is free: the latest state wins.
func (p *picture) redraw() {
	if p.Size().Width < 2 || p.Size().Height < 2 || !p.always && !p.w.visible(p) {
		return
	}
	if p.busy {
		p.again = true
		return
	}
	defer guard.Catch(p.w.faulted)
	width, height := p.size()
	paint := p.draw(width, height)
	buffer, scale := p.buffer()
	if p.moving || p.took < quickFrame || p.w.options.Still {
		began := time.Now()
		paint(buffer, scale)
		if !p.moving {
			p.took = time.Since(began)
		}
		p.present(buffer)
		return
	}
	p.busy = true
	p.w.elsewhere(func() func() {
		began := time.Now()
		paint(buffer, scale)
		took := time.Since(began)
		return func() {
			p.took = took
			p.rest(func() { p.present(buffer) })
		}
	}, func() { p.rest(func() {}) })
}

// rest follows the end of the worker's drawing: shown is what becomes of it.
func (p *picture) rest(shown func()) {
	p.busy = false
	if p.gone != nil {
		p.gone()
		return
	}
	shown()
	if p.again {
		p.again = false
		p.redraw()
	}
}

// spare lets go of what a picture at rest does not need: the buffers that it does not show, or all where it is hidden.
func (p *picture) spare(visible bool) {
	switch {
	case p.busy || p.moving:
	case !visible:
		p.drop()
	default:
		p.buffers[1-p.next], p.coarse = nil, [2]*image.RGBA{}
	}
}

// drop lets go of all buffers, and of the copy that the toolkit has on the graphics card.
func (p *picture) drop() {
	p.buffers, p.coarse = [2]*image.RGBA{}, [2]*image.RGBA{}
	if p.shown.Image != nil {
		p.shown.Image = nil
		p.shown.Refresh()
	}
}

// leave takes the picture off the screen: done is called when nothing is drawn into it any more.
func (p *picture) leave(done func()) {
	if p.busy {
		p.gone = done
		return
	}
	done()
}

// buffer is the picture that is not on the screen, in device pixels; in slow motion in pixels twice as large.
func (p *picture) buffer() (*image.RGBA, float64) {
	c := p.w.win.Canvas()
	wide, high := c.PixelCoordinateForPosition(fyne.NewPos(p.Size().Width, p.Size().Height))
	buffers := &p.buffers
	if p.moving && p.slow {
		buffers, wide, high = &p.coarse, (wide+1)/2, (high+1)/2
	}
	bounds := image.Rect(0, 0, max(1, wide), max(1, high))
	p.next = 1 - p.next
	if b := buffers[p.next]; b == nil || b.Rect != bounds {
		buffers[p.next] = image.NewRGBA(bounds)
	}
	return buffers[p.next], float64(wide) / math.Max(1, float64(p.Size().Width))
}

// present shows a picture. One in exact device pixels is taken as it is, which costs less than blending between them.
func (p *picture) present(img *image.RGBA) {
	if p.spaced {
		img = p.trimmed(img)
	}
	p.shown.Image, p.shown.ScaleMode = img, canvas.ImageScalePixels
	if p.moving && p.slow && p.w.win.Canvas().Scale() < fineScreen {
		p.shown.ScaleMode = canvas.ImageScaleFastest // blended, since it is larger than it was drawn
	}
	p.shown.Refresh()
}

// trimmed is the picture without the empty rows above and below, which are those of the paper that it lies on: where no
// graphics card draws, every pixel of every frame counts.
func (p *picture) trimmed(img *image.RGBA) *image.RGBA {
	high := img.Rect.Dy()
	top, foot := drawnRows(img, p.w.pal.Pane)
	p.rows = [2]float32{float32(top) / float32(high), float32(foot) / float32(high)}
	p.lay(p.Size())
	return &image.RGBA{Pix: img.Pix[top*img.Stride : foot*img.Stride], Stride: img.Stride, Rect: image.Rect(0, 0, img.Rect.Dx(), foot-top)}
}

// drawnRows are the rows from top to before foot that are not all of one colour; the first where all are.
func drawnRows(img *image.RGBA, c color.NRGBA) (top, foot int) {
	empty := bytes.Repeat([]byte{c.R, c.G, c.B, 255}, img.Rect.Dx())
	row := func(y int) []byte { return img.Pix[y*img.Stride:][:len(empty)] }
	foot = img.Rect.Dy()
	for foot > 1 && bytes.Equal(row(foot-1), empty) {
		foot--
	}
	for top < foot-1 && bytes.Equal(row(top), empty) {
		top++
	}
	return top, foot
}

func pt(at fyne.Position) draft.Pt { return draft.Pt{X: float64(at.X), Y: float64(at.Y)} }

func (p *picture) MouseIn(e *desktop.MouseEvent)    { p.hands.hover(pt(e.Position)) }
func (p *picture) MouseMoved(e *desktop.MouseEvent) { p.hands.hover(pt(e.Position)) }
func (p *picture) MouseOut()                        { p.hands.leave() }
func (p *picture) Cursor() desktop.Cursor           { return p.hands.cursor() }

func (p *picture) MouseDown(e *desktop.MouseEvent) {
	p.w.win.Canvas().Focus(p)
	p.pressed, p.dragged = true, false
	p.button, p.pressedAt = e.Button, pt(e.Position)
	p.hands.down(p.pressedAt, e.Button, e.Modifier)
}

func (p *picture) MouseUp(e *desktop.MouseEvent) {
	if !p.pressed {
		return
	}
	at := pt(e.Position)
	still := !p.dragged && at.Sub(p.pressedAt).Len() <= clickReach
	p.end()
	if !still {
		return
	}
	now := time.Now()
	if e.Button == desktop.MouseButtonPrimary && now.Sub(p.lastClick) < doubleClick && at.Sub(p.lastAt).Len() <= clickReach {
		p.lastClick = time.Time{}
		p.hands.double(at)
		return
	}
	p.lastClick, p.lastAt = now, at
	p.hands.click(at, e.Button, e.Modifier)
}

func (p *picture) Dragged(e *fyne.DragEvent) {
	if !p.pressed {
		return
	}
	at := pt(e.Position)
	if !p.dragged && at.Sub(p.pressedAt).Len() < clickReach-1 {
		return
	}
	p.dragged = true
	p.hands.drag(at, draft.Pt{X: float64(e.Dragged.DX), Y: float64(e.Dragged.DY)})
}

func (p *picture) DragEnd() { p.end() }

// end finishes a press once, however many events say that it is over.
func (p *picture) end() {
	if !p.pressed {
		return
	}
	p.pressed = false
	p.hands.release(p.dragged)
}

// wheelStep bounds one event of the wheel: systems differ, and some jump.
const wheelStep = 40.0

func (p *picture) Scrolled(e *fyne.ScrollEvent) {
	dy := math.Max(-wheelStep, math.Min(wheelStep, float64(e.Scrolled.DY)))
	p.hands.scroll(pt(e.Position), dy)
}

// zoomFactor turns a wheel event into a factor about the pointer.
func zoomFactor(dy float64) float64 { return math.Exp(dy * 0.012) }

func (p *picture) FocusGained() {
	shownIf(p.ring, !p.w.presenting)
	if !p.always { // a compared room goes with the comparison, and cannot have the keys back
		p.w.drawing = p
	}
}

func (p *picture) FocusLost() { p.ring.Hide() }

func (p *picture) TypedRune(r rune) { p.hands.typed(r) }

func (p *picture) TypedKey(e *fyne.KeyEvent) {
	if !p.hands.key(e) {
		p.w.typedKey(e)
	}
}

// flood fills the whole picture with one colour.
func flood(img *image.RGBA, c color.NRGBA) {
	for i := 0; i < len(img.Pix); i += 4 {
		img.Pix[i], img.Pix[i+1], img.Pix[i+2], img.Pix[i+3] = c.R, c.G, c.B, 255
	}
}
