package ui

import (
	"image"
	"math"
	"slices"
	"testing"
	"time"

	"seamwright/planner"
	"seamwright/scene"
	"seamwright/scene/draft"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"
)

// laid is a window whose pictures have been laid out and drawn, as on a screen.
func laid(t *testing.T) *bench {
	b := newBench(t, oneRoom)
	b.win.Content().Refresh()
	require.NotNil(t, b.studio.room.scene)
	return b
}

// The point that a drag takes hold of stays at its depth and height; the one under the wheel stays under the pointer.
func TestTheRoomTurnsAboutThePointerAndZoomsToIt(t *testing.T) {
	b := laid(t)
	v := b.studio.room
	w, h := v.pixels()
	at := draft.Pt{X: math.Round(float64(w) * 0.4), Y: math.Round(float64(h) * 0.55)}
	hit, ok := v.under(at)
	require.True(t, ok)
	away := hit.Point.Sub(v.cam.Eye).Len()
	b.drag(v.pic, at, at.Add(draft.Pt{X: 40, Y: 8}))
	require.InDelta(t, away, hit.Point.Sub(v.cam.Eye).Len(), 1e-9, "a turn keeps the distance")
	require.Empty(t, v.side, "turned by hand, the view has no name")

	hit, ok = v.under(at)
	require.True(t, ok)
	away = hit.Point.Sub(v.cam.Eye).Len()
	v.pic.Scrolled(&fyne.ScrollEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(float32(at.X), float32(at.Y))}, Scrolled: fyne.Delta{DY: 10}})
	require.Less(t, hit.Point.Sub(v.cam.Eye).Len(), away)
	x, y, ok := v.cam.Project(w, h, hit.Point)
	require.True(t, ok)
	require.InDelta(t, at.X, x, 1e-6)
	require.InDelta(t, at.Y, y, 1e-6)
}

func TestEveryViewHasAKey(t *testing.T) {
	b := laid(t)
	v := b.studio.room
	b.win.Canvas().Focus(v.pic)
	press := func(keys ...fyne.KeyName) {
		for _, k := range keys {
			v.pic.TypedKey(&fyne.KeyEvent{Name: k})
		}
	}
	was := v.cam
	press(fyne.KeyLeft)
	require.InDelta(t, turnPerKey, v.cam.Yaw-was.Yaw, 1e-9)
	was = v.cam
	press(fyne.KeyUp)
	require.InDelta(t, -turnPerKey, v.cam.Pitch-was.Pitch, 1e-9, "up goes over the room")
	was = v.cam
	press(fyne.KeyPlus)
	require.InDelta(t, was.Reach/zoomPerKey, v.cam.Reach, 1e-9)
	press(fyne.KeyMinus)
	require.InDelta(t, was.Reach, v.cam.Reach, 1e-9)

	press(fyne.KeyU)
	require.Equal(t, "above", v.side)
	v.look("SE")
	var sides []string
	for range 8 {
		press(fyne.KeyE)
		sides = append(sides, v.side)
	}
	require.Equal(t, []string{"S", "SW", "W", "NW", "N", "NE", "E", "SE"}, sides)
	press(fyne.KeyQ)
	require.Equal(t, "E", v.side)

	// Every surface of the room comes once, and is looked at along its normal.
	seen := map[string]bool{}
	for range v.of.Surfaces {
		press(fyne.KeyV)
		seen[v.facing] = true
	}
	require.Len(t, seen, len(v.of.Surfaces))
	v.face("shed/north")
	require.InDelta(t, 0, math.Remainder(v.cam.Yaw, 2*math.Pi), 1e-9, "the north wall is looked at towards the north")

	press(fyne.KeyI)
	require.Equal(t, "inside", v.side)
	was = v.cam
	press(fyne.KeyUp)
	step := v.cam.Eye.Sub(was.Eye)
	require.InDelta(t, walkPerKey, step.Len(), 1e-9)
	require.InDelta(t, 0, step[2], 1e-9, "walking keeps the eye's height")
	press(fyne.KeyRight)
	require.InDelta(t, turnPerKey, v.cam.Yaw-was.Yaw, 1e-9)
	require.Equal(t, "inside", v.side)
	press(fyne.KeyHome)
	require.Equal(t, "SE", v.side, "from inside, all is shown from outside")
}

// Of a move the half is behind it in half its time, and keys that come fast add up.
func TestMovesTakeAFifthOfASecond(t *testing.T) {
	b := laid(t)
	e := &b.studio.room.eye
	e.w.options.Still = false
	defer func() { e.w.options.Still = true }()
	was := e.cam
	e.key(&fyne.KeyEvent{Name: fyne.KeyLeft})
	e.key(&fyne.KeyEvent{Name: fyne.KeyLeft})
	require.InDelta(t, 2*turnPerKey, e.ahead().Yaw-was.Yaw, 1e-9)
	require.True(t, e.moving())
	e.leg.began = e.leg.began.Add(-flight / 4)
	e.tick()
	turned := e.cam.Yaw - was.Yaw
	require.Greater(t, turned, 0.0)
	require.Less(t, turned, 2*turnPerKey)
	e.leg.began = e.leg.began.Add(-flight)
	e.tick()
	require.InDelta(t, 2*turnPerKey, e.cam.Yaw-was.Yaw, 1e-9)
	require.False(t, e.moving(), "the clock stands when nothing moves")
}

func TestComparedRoomsAreLockedTogether(t *testing.T) {
	b := laid(t)
	b.do("alternative")
	b.settle()
	b.do("compare")
	for range 1000 { // the other alternative is worked out elsewhere
		b.settle()
		if b.compared.rooms[0].plan != nil && b.compared.rooms[1].plan != nil {
			break
		}
		time.Sleep(10 * time.Millisecond)
	}
	b.draw()
	b.over.object.Refresh()
	c := b.compared
	require.NotNil(t, c)
	require.Len(t, c.rooms, 2)
	for _, r := range c.rooms {
		require.NotNil(t, r.plan, "%q is worked out", r.name)
		require.NotEmpty(t, r.words.Objects, "name, price and sheets stand under %q", r.name)
	}
	before := c.rooms[1].pic.shown.Image
	at := draft.Pt{X: 200, Y: 200}
	b.drag(c.rooms[0].pic, at, at.Add(draft.Pt{X: 60}))
	require.NotEqual(t, before, c.rooms[1].pic.shown.Image, "the other room was drawn anew")
	was := c.eye.cam
	c.rooms[1].pic.TypedKey(&fyne.KeyEvent{Name: fyne.KeyLeft})
	require.NotEqual(t, was, c.eye.cam)
	b.press(fyne.KeyU)
	require.Equal(t, "above", c.eye.side, "views have their keys here too")
	b.press(fyne.KeyD)
	require.Empty(t, b.studio.plan.opening, "other keys rest")
	b.press(fyne.KeyEscape)
	require.Nil(t, b.compared)
	require.True(t, b.win.Content().Visible())
	require.Equal(t, "above", b.studio.room.side, "the window's room keeps the view")
}

// Where more alternatives are there than rooms fit side by side, a name brings its room in the place of the one that was
// chosen longest ago; chosen again it goes, save the last.
func TestComparedRoomsAreChosen(t *testing.T) {
	b := laid(t)
	for range comparedRooms + 1 {
		b.do("alternative")
		b.settle()
	}
	b.do("compare")
	c := b.compared
	names := func() (list []string) {
		for _, r := range c.rooms {
			list = append(list, r.name)
		}
		return
	}
	all := c.names
	require.Len(t, all, comparedRooms+2)
	require.Len(t, c.chips, len(all))
	require.Equal(t, all[:3], names())
	c.chips[4].tapped()
	require.Equal(t, []string{all[1], all[2], all[4]}, names(), "the first made room")
	require.Len(t, c.eye.sees, 3)
	c.chips[0].tapped()
	require.Equal(t, []string{all[0], all[2], all[4]}, names(), "in the order of the names")
	c.chips[0].tapped()
	c.chips[2].tapped()
	c.chips[4].tapped()
	require.Equal(t, []string{all[4]}, names(), "one room stays")
	require.Len(t, b.pictures, len(b.studio.panes)+3, "of rooms that are gone no picture is kept")
	b.press(fyne.KeyEscape)
	require.Nil(t, b.compared)
	require.Len(t, b.pictures, len(b.studio.panes)+2)
}

// At rest a picture keeps the buffer that it shows, a hidden one none; shown again it is drawn anew.
func TestPicturesAtRest(t *testing.T) {
	b := laid(t)
	plan, room := b.studio.plan.pic, b.studio.room.pic
	room.redraw()
	room.redraw()
	require.True(t, room.buffers[1-room.next] != nil)
	b.do("client")
	b.tidyUp()
	require.True(t, plan.buffers == [2]*image.RGBA{} && plan.shown.Image == nil)
	require.True(t, room.shown.Image == room.buffers[room.next] && room.buffers[1-room.next] == nil)
	b.press(fyne.KeyEscape)
	require.True(t, plan.shown.Image != nil)
	b.turnTo(1)
	b.tidyUp()
	require.True(t, room.shown.Image == nil)
	b.turnTo(0)
	require.True(t, room.shown.Image != nil)
}

// A click on a joint asks about that one; beside joints the plainest is told again.
func TestAJointIsAskedAbout(t *testing.T) {
	b := laid(t)
	v := b.studio.room
	b.do("raking")
	v.style.Raking.From = math.Pi / 2
	v.lights.judge()
	worst := v.style.Raking.Joint
	require.NotNil(t, worst, "the plainest joint is marked")
	all := v.scene.Seen("shed/north", v.style.Raking)
	require.NotEmpty(t, all)
	least := all[len(all)-1].Joint
	v.lights.ask(scene.Hit{Joint: least})
	require.Same(t, least, v.style.Raking.Joint)
	require.Contains(t, v.lights.lines[0], "This joint: Shed, north, ") // every room may have a north wall
	v.lights.ask(scene.Hit{})
	require.Same(t, worst, v.style.Raking.Joint)
	far := v.lights.distance()
	v.lights.view.Tapped(nil)
	require.Greater(t, v.lights.distance(), far)
}

// A frame that is late is followed by coarse ones where they save enough; where it is far too late, a little is enough.
func TestLateFramesAreFollowedByCoarseOnes(t *testing.T) {
	b := laid(t)
	e, p := &b.studio.room.eye, b.studio.room.pic
	for _, c := range []struct {
		cost, drawn time.Duration
		slow, want  bool
	}{
		{12 * time.Millisecond, 10 * time.Millisecond, false, false},
		{20 * time.Millisecond, 4 * time.Millisecond, false, false}, // the rest is not ours
		{20 * time.Millisecond, 8 * time.Millisecond, false, true},
		{36 * time.Millisecond, 4 * time.Millisecond, false, true},
		{36 * time.Millisecond, 2 * time.Millisecond, false, false},
		{32 * time.Millisecond, time.Millisecond, true, true},
		{9 * time.Millisecond, time.Millisecond, true, false},
	} {
		p.slow = c.slow
		e.paid(c.cost, c.drawn)
		require.Equal(t, c.want, p.slow, "%v, %v of it drawing, coarse %v", c.cost, c.drawn, c.slow)
	}
}

// The keys never go back to a drawing that has left the window: a room that was compared, or one in colours of before.
func TestKeysGoBackToADrawingThatIsThere(t *testing.T) {
	b := newBench(t, oneRoom)
	require.NoError(t, b.model.Do(planner.AddAlternative{Name: "other"}))
	b.settle()
	b.do("compare")
	b.draw()
	b.win.Canvas().Focus(b.compared.rooms[0].pic)
	b.stepBack()
	b.focusDrawing()
	require.True(t, b.drawing == nil || slices.Contains(b.pictures, b.drawing))

	b.win.Canvas().Focus(b.studio.plan.pic)
	require.Same(t, b.studio.plan.pic, b.drawing)
	b.colours(Palettes()[1])
	b.focusDrawing()
	require.True(t, b.drawing == nil || slices.Contains(b.pictures, b.drawing))
}
