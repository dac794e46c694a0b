package ui

import (
	"math"
	"time"

	"fyne.io/fyne/v2"

	"seamwright/scene"
)

// motion is the time while an eye moves. It runs on the toolkit's own clock, which ticks after mouse and keys were
// looked at and before the window is drawn: however many events came in, one frame is drawn, and it is presented at
// once. Frames that are late are followed by coarse ones. When nothing has moved for a moment the pictures are drawn
// sharp, the clock stops, and nothing is drawn any more.
type motion struct {
	clock *fyne.Animation
	stale bool      // the camera has moved since the last frame
	woken time.Time // when hand or key last moved it
	last  time.Time // when the frame before began
	shown func()    // notes that the last frame stands on the screen, nil: noted

	leg *leg // a move that goes by itself
}

// leg is a move from one view to another. A soft one starts at full speed, so that keys held down make one move.
type leg struct {
	from, to scene.Camera
	began    time.Time
	soft     bool
}

const (
	flight     = 200 * time.Millisecond // of a move by key or command
	restBefore = 90 * time.Millisecond  // of rest before the sharp pictures are drawn: they stand within 150
	promptly   = 15 * time.Millisecond  // what a frame may cost, drawn and presented
	worthwhile = 5 * time.Millisecond   // of drawing that a coarse frame must save
	late       = 28 * time.Millisecond  // from here on every bit counts: even so much less is worth it
	atLeast    = 2 * time.Millisecond
	coarseGain = 4.0 // a coarse frame has a fourth of the pixels
)

// moving says whether the camera is on its way.
func (e *eye) moving() bool { return e.clock != nil }

// ahead is where the camera will be when the move under way has ended.
func (e *eye) ahead() scene.Camera {
	if e.leg != nil {
		return e.leg.to
	}
	return e.cam
}

// stir draws the camera's move in the next frame.
func (e *eye) stir() {
	e.stale, e.woken = true, time.Now()
	if e.w.options.Still {
		e.redraw()
		return
	}
	if e.clock != nil {
		return
	}
	e.last = time.Time{}
	for _, p := range e.sees {
		p.moving = true
	}
	e.clock = &fyne.Animation{Duration: flight, RepeatCount: fyne.AnimationRepeatForever, Curve: fyne.AnimationLinear, Tick: func(float32) { e.tick() }}
	e.clock.Start()
}

// travel goes to another view in a fifth of a second.
func (e *eye) travel(to scene.Camera, soft bool) {
	if e.w.options.Still {
		e.cam = to
		e.redraw()
		e.w.studio.captions()
		return
	}
	e.leg = &leg{e.cam, to, time.Now(), soft}
	e.stir()
}

// land ends a move that goes by itself where it is.
func (e *eye) land() { e.leg = nil }

func (e *eye) tick() {
	e.noted()
	if e.clock == nil {
		return
	}
	now := time.Now()
	if l := e.leg; l != nil {
		t := float64(now.Sub(l.began)) / float64(flight)
		if l.soft {
			t = math.Pow(math.Min(1, t), 0.5)
		}
		e.cam, e.stale = l.from.Blend(l.to, t), true
		if t >= 1 {
			e.leg = nil
			e.rest()
			e.w.studio.captions()
			return
		}
	}
	switch {
	case e.stale:
		e.stale = false
		e.present(now)
	case e.leg == nil && now.Sub(e.woken) >= restBefore:
		e.rest()
	}
}

// present draws once. The frame stands on the screen when the toolkit next turns to what was posted, or ticks.
func (e *eye) present(began time.Time) {
	e.redraw()
	drawn, last := time.Since(began), e.last
	e.last = began
	e.shown = func() {
		e.shown = nil
		e.paid(time.Since(began), drawn)
		if e.w.options.Frame != nil && !last.IsZero() {
			e.w.options.Frame(time.Since(began), began.Sub(last))
		}
	}
	e.w.post(e.noted)
}

func (e *eye) noted() {
	if e.shown != nil {
		e.shown()
	}
}

// paid decides by a frame's cost, and the part of it that was drawing, whether the next ones are coarse.
func (e *eye) paid(cost, drawn time.Duration) {
	for _, p := range e.sees {
		fine, saved := cost, time.Duration(float64(drawn)*(1-1/coarseGain))
		if p.slow {
			saved = time.Duration(float64(drawn) * (coarseGain - 1))
			fine += saved
		}
		p.slow = fine > promptly && saved > worthwhile || fine > late && saved > atLeast
	}
}

// rest draws the sharp pictures and stops the clock.
func (e *eye) rest() {
	e.clock.Stop()
	e.clock, e.stale = nil, false
	for _, p := range e.sees {
		p.moving = false
	}
	e.redraw()
	e.w.tidyLater()
}

func (e *eye) redraw() {
	for _, p := range e.sees {
		p.redraw()
	}
}
