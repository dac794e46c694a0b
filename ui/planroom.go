package ui

import (
	"strings"
	"unicode"

	"fyne.io/fyne/v2"

	"seamwright/calc/length"
	"seamwright/calc/shape"
	"seamwright/planner"
	"seamwright/scene/draft"
)

// startRoom begins to draw a room.
func (v *planView) startRoom() {
	v.opening = ""
	v.w.model.Hold(nil)
	v.outline = &outline{imperial: v.w.imperial()}
	v.w.say("")
	v.w.win.Canvas().Focus(v.pic)
	v.pic.redraw()
}

// stop puts the drawing tool away.
func (v *planView) stop() {
	v.outline, v.opening = nil, ""
	v.pic.redraw()
	v.w.noteLine.refresh()
}

// setCorner puts the next corner, and the room into the project when the outline closes.
func (v *planView) setCorner() {
	done, err := v.outline.put()
	if err != nil {
		v.w.say(sentence(err))
		v.pic.redraw()
		return
	}
	v.w.say("")
	if done {
		v.addRoom()
		return
	}
	v.pic.redraw()
}

// finish closes the outline from wherever it stands.
func (v *planView) finish() {
	if done, err := v.outline.close(); !done {
		if err != nil {
			v.w.say(sentence(err))
		}
		return
	}
	v.addRoom()
}

// The height of a room that is drawn: what framing for 8 ft walls gives, or 2.4 m. Common practice, no source.
const (
	imperialHeight = 8 * length.Foot
	metricHeight   = 2400 * length.Millimetre
)

func (v *planView) addRoom() {
	height := imperialHeight
	if !v.w.imperial() {
		height = metricHeight
	}
	had := len(v.w.model.Doc.Job().Rooms)
	if !v.w.try(planner.AddRoom{Corners: v.outline.set, Height: height}) {
		return
	}
	v.outline = nil
	v.fitted = v.fitted && v.holds()
	if rooms := v.w.model.Doc.Job().Rooms; len(rooms) > had {
		v.w.model.Pick(draft.Target{Kind: draft.OnRoom, Room: rooms[len(rooms)-1].ID})
	}
	v.w.say("Room drawn. Set its height and ceiling below; take a finish from the rack and touch its walls.")
	v.pic.redraw()
}

// holds says whether every corner is in sight, with room for dimensions.
func (v *planView) holds() bool {
	width, height := v.pic.size()
	sight := draft.Rect{W: width, H: height}.Inset(snapCorner * 4)
	for _, c := range v.corners() {
		if !sight.Has(v.view.Place(c)) {
			return false
		}
	}
	return true
}

func (v *planView) key(e *fyne.KeyEvent) bool {
	if v.outline == nil {
		return v.nudge(e.Name)
	}
	switch e.Name {
	case fyne.KeyReturn, fyne.KeyEnter:
		switch {
		case v.outline.typed != "":
			v.setCorner()
		case len(v.outline.set) >= 3:
			v.finish()
		}
		return true
	case fyne.KeyBackspace:
		if r := []rune(v.outline.typed); len(r) > 0 {
			v.outline.typed = string(r[:len(r)-1])
		} else {
			v.outline.back()
		}
		v.pic.redraw()
		return true
	case fyne.KeyEscape, fyne.KeyDelete, fyne.KeyF1:
		return false
	}
	return true // letters and digits belong to the length being typed
}

// typed takes the signs of a length while a room is drawn.
func (v *planView) typed(r rune) bool {
	if v.outline == nil || len(v.outline.set) == 0 {
		return false
	}
	if unicode.IsDigit(r) || strings.ContainsRune(`'"’”′″./ ftinmc-½¼¾`, r) {
		v.outline.typed += string(r)
		if strings.TrimSpace(v.outline.typed) == "" {
			v.outline.typed = ""
		}
		v.pic.redraw()
		v.w.noteLine.refresh()
	}
	return true
}

// nudge moves what is picked by the arrow keys: a fine step, with Shift a coarse one.
func (v *planView) nudge(key fyne.KeyName) bool {
	way := map[fyne.KeyName][2]length.Length{fyne.KeyLeft: {-1, 0}, fyne.KeyRight: {1, 0}, fyne.KeyUp: {0, 1}, fyne.KeyDown: {0, -1}}[key]
	if way == [2]length.Length{} {
		return false
	}
	step := length.Length(length.Inch)
	if !v.w.imperial() {
		step = 10 * length.Millimetre
	}
	if v.w.modifiers()&shift != 0 {
		step = map[bool]length.Length{true: length.Foot, false: 100 * length.Millimetre}[v.w.imperial()]
	}
	t, j := v.w.model.Selected, v.w.model.Doc.Job()
	r := findRoom(j, t.Room)
	if r == nil {
		return false
	}
	by := shape.Point{X: way[0] * step, Y: way[1] * step}
	var e planner.Edit
	wall, ceiling := findSurface(j, t.Surface)
	switch {
	case t.Kind == draft.OnCorner:
		c := r.Corners[t.Corner]
		e = planner.MoveCorner{Room: t.Room, Corner: t.Corner + 1, To: shape.Point{X: c.X + by.X, Y: c.Y + by.Y}}
	case t.Kind == draft.OnOpening && t.Index < len(openingsOf(wall, ceiling)):
		o := openingsOf(wall, ceiling)[t.Index]
		o.At, o.Sill = o.At+by.X, max(0, o.Sill+by.Y)
		e = planner.ChangeOpening{Surface: t.Surface, ID: t.Opening, Opening: o}
	case t.Kind == draft.OnSurface && wall != nil:
		left, _ := sideEnds(r, wall.Side)
		e = planner.MoveSide{Room: t.Room, Side: wall.Side, Through: shape.Point{X: left.X + by.X, Y: left.Y + by.Y}}
	case t.Kind == draft.OnRoom:
		e = planner.MoveRoom{Room: t.Room, By: by}
	default:
		return false
	}
	if err := v.w.model.DoMerged("nudge "+t.Room+t.Surface+t.Opening, e); err != nil {
		v.w.say(sentence(err))
	}
	return true
}
