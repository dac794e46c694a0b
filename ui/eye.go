package ui

import (
	"math"

	"seamwright/scene"
	"seamwright/scene/draft"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"github.com/go-gl/mathgl/mgl64"
)

// eye is the camera that a room is seen by, or several rooms that are locked together, and how hand and keys move it.
type eye struct {
	w      *Window
	cam    scene.Camera
	side   string                                   // the named view, "" once the hand has turned it
	facing string                                   // the surface that is looked at straight, "": none
	sees   []*picture                               // what is drawn anew when it moves
	seen   func() (s *scene.Scene, w, h int)        // what it frames, nil: nothing yet
	pick   func(at draft.Pt) (h scene.Hit, ok bool) // of the picture under the hand

	about   mgl64.Vec3 // the point that a drag turns about
	turning bool
	panning bool
	motion
}

// How hand and keys move the room.
const (
	turnPerPixel = 0.006 // radians
	turnPerKey   = 6 * math.Pi / 180
	zoomPerKey   = 1.15
	panPerKey    = 24.0 // of a picture 480 pixels high
	walkPerKey   = 0.25 // metres
	wideView     = 0.9  // radians: only a view from inside is so wide
)

func (e *eye) inside() bool { return e.side == "inside" || e.cam.FOV > wideView }

// press takes hold of the room at a place.
func (e *eye) press(at draft.Pt, b desktop.MouseButton, mod fyne.KeyModifier) {
	e.land()
	e.turning = b == desktop.MouseButtonPrimary
	e.panning = b == desktop.MouseButtonTertiary || e.turning && mod&shift != 0
	e.about = e.pointAt(at)
}

// pointAt is what lies under the pointer, or the middle of the view where nothing does.
func (e *eye) pointAt(at draft.Pt) mgl64.Vec3 {
	if h, ok := e.pick(at); ok {
		return h.Point
	}
	return e.cam.Target()
}

// pull turns the room about the point that was taken hold of, or moves it along; height is the picture's.
func (e *eye) pull(by draft.Pt, height float64) {
	switch {
	case e.panning:
		e.cam = e.cam.Pan(by.X, by.Y, int(height))
	case e.turning:
		e.cam = e.cam.Orbit(e.about, -by.X*turnPerPixel, by.Y*turnPerPixel)
	default:
		return
	}
	e.byHand()
}

func (e *eye) letGo() { e.turning, e.panning = false, false }

// scroll goes nearer to what lies under the pointer, or away from it.
func (e *eye) scroll(at draft.Pt, dy float64) {
	e.land()
	e.cam = e.cam.ZoomTo(e.pointAt(at), zoomFactor(dy))
	e.byHand()
}

// byHand shows a view that has no name any more.
func (e *eye) byHand() {
	e.side, e.facing = "", ""
	e.stir()
}

// key moves by one step: about the room from outside, about in it from inside.
func (e *eye) key(k *fyne.KeyEvent) bool {
	to := e.ahead()
	inside, shifted := e.inside(), e.w.modifiers()&shift != 0
	across, along := 0.0, 0.0
	switch k.Name {
	case fyne.KeyLeft:
		across = -1
	case fyne.KeyRight:
		across = 1
	case fyne.KeyUp:
		along = 1
	case fyne.KeyDown:
		along = -1
	case fyne.KeyPlus, fyne.KeyEqual:
		e.drift(to.ZoomTo(to.Target(), zoomPerKey))
		return true
	case fyne.KeyMinus:
		e.drift(to.ZoomTo(to.Target(), 1/zoomPerKey))
		return true
	default:
		return false
	}
	switch {
	case inside && shifted:
		to = to.Walk(0, across*walkPerKey).Turn(0, along*turnPerKey)
	case inside:
		to = to.Walk(along*walkPerKey, 0).Turn(across*turnPerKey, 0)
	case shifted:
		to = to.Pan(-across*panPerKey, along*panPerKey, 480)
	default:
		to = to.Orbit(to.Target(), -across*turnPerKey, -along*turnPerKey)
	}
	e.drift(to)
	return true
}

// drift moves on by a key; keys that come fast make one move.
func (e *eye) drift(to scene.Camera) {
	if e.facing != "" || e.side != "inside" {
		e.side, e.facing = "", ""
	}
	e.travel(to, true)
}

// fly moves to another view.
func (e *eye) fly(to scene.Camera, side, facing string) {
	e.side, e.facing = side, facing
	e.travel(to, false)
}

// look flies to a named view.
func (e *eye) look(side string) {
	s, w, h := e.seen()
	if s == nil {
		e.side = side
		return
	}
	if c, ok := s.Camera(side, w, h); ok {
		e.fly(c, side, "")
	}
}

// turnSide flies to the next of the eight sides, to the right or to the left.
func (e *eye) turnSide(by int) {
	sides := scene.Views[:len(scene.Views)-1] // the last is from above
	heading := math.Remainder(e.ahead().Yaw*180/math.Pi+180, 360)
	at := int(math.Round(heading/45)) + len(sides)
	e.look(sides[(at+by+len(sides))%len(sides)])
}

// face flies to where one surface is looked at straight.
func (e *eye) face(surface string) {
	if s, w, h := e.seen(); s != nil {
		if c, ok := s.Facing(surface, w, h); ok {
			e.fly(c, "", surface)
		}
	}
}

// faceNext looks straight at the next surface of the room, walls in the order of a turn in it, or at the one before.
func (e *eye) faceNext(by int) {
	s, _, _ := e.seen()
	if s == nil {
		return
	}
	room := e.w.studio.strip.shown(e.w.model.Doc.Job())
	var all []string
	at := -1
	for _, f := range s.Plan().Surfaces {
		if f.Room != room {
			continue
		}
		if f.ID == e.facing {
			at = len(all)
		}
		all = append(all, f.ID)
	}
	switch {
	case len(all) == 0:
		return
	case at < 0 && by < 0:
		at = 0
	}
	e.face(all[(at+by+len(all))%len(all)])
}

// frameAll shows everything from where the eye looks; from inside it steps out.
func (e *eye) frameAll() {
	s, w, h := e.seen()
	switch {
	case s == nil:
	case e.inside():
		e.look("SE")
	case e.side != "":
		e.look(e.side)
	default:
		e.fly(s.FrameAll(e.ahead(), w, h), "", "")
	}
}

// stepInside stands in the room that is picked, at eye height.
func (e *eye) stepInside() {
	if s, _, _ := e.seen(); s != nil {
		if c, ok := s.Stand(e.w.studio.strip.shown(e.w.model.Doc.Job())); ok {
			e.fly(c, "inside", "")
			e.w.win.Canvas().Focus(e.sees[0])
		}
	}
}

// name says in words where the eye is.
func (e *eye) name() string {
	names := map[string]string{"N": "from the north", "NE": "from the north-east", "E": "from the east", "SE": "from the south-east",
		"S": "from the south", "SW": "from the south-west", "W": "from the west", "NW": "from the north-west", "above": "from above",
		"inside": "from inside, at eye height"}
	switch {
	case e.facing != "":
		return draft.WallName(e.facing) + ", looked at straight"
	case e.side != "":
		return "Room " + names[e.side]
	}
	return "Room"
}
