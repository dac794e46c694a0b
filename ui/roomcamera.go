package ui

import (
	"math"
	"time"

	"fyne.io/fyne/v2"

	"seamwright/scene"
)

// moved shows the view from where the hand has taken it, and sharpens the picture when the hand rests. However many
// events come in between two frames, one frame is drawn.
func (v *roomView) moved() {
	v.side = ""
	if v.w.options.Still {
		v.pic.redraw()
		return
	}
	v.pic.moving = true
	if v.sharpen != nil {
		v.sharpen.Stop()
	}
	v.sharpen = time.AfterFunc(restBefore, func() { v.w.post(v.rest) })
	if v.asked {
		return
	}
	v.asked = true
	v.w.post(func() {
		v.asked = false
		v.clock()
		v.pic.redraw()
	})
}

// rest ends a motion with the sharp picture.
func (v *roomView) rest() {
	v.sharpen = nil
	v.pic.moving, v.pic.slow = false, false
	if !v.turning && !v.panning { // a hand that only stops for a moment is still in its drag
		v.last = time.Time{}
	}
	v.pic.redraw()
}

// lateFrame is the time between two frames from which a motion goes on in coarse ones.
const lateFrame = 20 * time.Millisecond

// clock notes the time from one frame of a drag to the next, which holds drawing, presenting and waiting.
func (v *roomView) clock() {
	if !v.turning && !v.panning {
		return
	}
	now := time.Now()
	if !v.last.IsZero() {
		took := now.Sub(v.last)
		v.pic.slow = v.pic.slow || took > lateFrame
		if v.w.options.Frame != nil {
			v.w.options.Frame(took)
		}
	}
	v.last = now
}

func (v *roomView) key(e *fyne.KeyEvent) bool {
	const turn = 5 * math.Pi / 180
	inside := v.side == "inside" || v.cam.FOV > 0.9
	shifted := v.w.modifiers()&shift != 0
	switch {
	case e.Name == fyne.KeyLeft && inside:
		v.cam = v.cam.Turn(-turn, 0)
	case e.Name == fyne.KeyRight && inside:
		v.cam = v.cam.Turn(turn, 0)
	case e.Name == fyne.KeyUp && inside:
		v.cam = v.cam.Walk(walkStep, 0)
	case e.Name == fyne.KeyDown && inside:
		v.cam = v.cam.Walk(-walkStep, 0)
	case e.Name == fyne.KeyLeft && shifted:
		v.cam = v.cam.Pan(24, 0, 480)
	case e.Name == fyne.KeyRight && shifted:
		v.cam = v.cam.Pan(-24, 0, 480)
	case e.Name == fyne.KeyLeft:
		v.cam = v.cam.Orbit(v.cam.Target(), turn, 0)
	case e.Name == fyne.KeyRight:
		v.cam = v.cam.Orbit(v.cam.Target(), -turn, 0)
	case e.Name == fyne.KeyUp:
		v.cam = v.cam.Orbit(v.cam.Target(), 0, -turn)
	case e.Name == fyne.KeyDown:
		v.cam = v.cam.Orbit(v.cam.Target(), 0, turn)
	default:
		return false
	}
	v.moved()
	return true
}

// look flies to a named view.
func (v *roomView) look(side string) {
	if v.scene == nil {
		v.side, v.framed = side, false
		return
	}
	width, height := v.pixels()
	if c, ok := v.scene.Camera(side, width, height); ok {
		v.fly(c, side)
	}
}

// face flies to where one wall is looked at straight.
func (v *roomView) face(surface string) {
	if v.scene == nil {
		return
	}
	width, height := v.pixels()
	if c, ok := v.scene.Facing(surface, width, height); ok {
		v.fly(c, "")
	}
}

// stepInside stands in the room that is picked, at eye height.
func (v *roomView) stepInside() {
	if v.scene == nil {
		return
	}
	if c, ok := v.scene.Stand(v.w.studio.strip.shown(v.w.model.Doc.Job())); ok {
		v.fly(c, "inside")
		v.w.win.Canvas().Focus(v.pic)
	}
}

// fly moves the camera there in a fifth of a second.
func (v *roomView) fly(to scene.Camera, side string) {
	v.stopFlight()
	v.side = side
	if v.w.options.Still {
		v.cam = to
		v.w.studio.refresh(ViewChanged)
		return
	}
	from := v.cam
	a := fyne.NewAnimation(flight, func(t float32) {
		v.cam = from.Blend(to, float64(t))
		if t >= 1 {
			v.animation = nil
			v.w.studio.refresh(ViewChanged)
		}
		v.pic.redraw()
	})
	a.Curve = fyne.AnimationLinear
	v.animation = a
	a.Start()
}

func (v *roomView) stopFlight() {
	if v.animation != nil {
		v.animation.Stop()
		v.animation = nil
	}
}
