package ui

import (
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/shape"
	"seamwright/planner"
	"seamwright/scene/draft"
)

// newOpening is an opening with the sizes that are framed most: rough openings for a 36 in door leaf (38 by 82 1/2 in),
// a pair of them, a 4 by 3 ft window whose head lines up with the doors, an attic hatch. Common practice, no source;
// the fields under the drawing change them.
func newOpening(kind job.OpeningKind, double, imperial bool) job.Opening {
	mm := func(n int64) length.Length { return length.Length(n) * length.Millimetre }
	in := length.Sixtyfourths
	o := job.Opening{Kind: kind, Return: job.ReturnNone}
	switch {
	case kind == job.Door && double && imperial:
		o.Width, o.Height = in(74*64), in(82*64+32)
	case kind == job.Door && double:
		o.Width, o.Height = mm(1900), mm(2090)
	case kind == job.Door && imperial:
		o.Width, o.Height = in(38*64), in(82*64+32)
	case kind == job.Door:
		o.Width, o.Height = mm(960), mm(2090)
	case kind == job.Window && imperial:
		o.Width, o.Height, o.Sill, o.Return = in(48*64), in(36*64), in(46*64+32), job.ReturnJamb
	case kind == job.Window:
		o.Width, o.Height, o.Sill, o.Return = mm(1200), mm(900), mm(1190), job.ReturnJamb
	case kind == job.Hatch && imperial:
		o.Width, o.Height = in(30*64), in(22*64+32)
	case kind == job.Hatch:
		o.Width, o.Height = mm(760), mm(570)
	case imperial: // a pocket door
		o.Width, o.Height = in(32*64), in(84*64)
	default:
		o.Width, o.Height = mm(820), mm(2130)
	}
	return o
}

// kindWord is what an opening is called.
func kindWord(k job.OpeningKind) string {
	if k == job.KeepOut {
		return "keep-out"
	}
	return string(k)
}

// startOpening puts an opening into the wall that is picked, at the first place where it fits; with no wall picked it
// waits for a click on one.
func (w *Window) startOpening(kind job.OpeningKind, double bool) {
	w.model.Hold(nil)
	w.studio.plan.stop()
	if w.tab != 0 {
		w.showTab(0)
	}
	t := w.model.Selected
	wall, ceiling := findSurface(w.model.Doc.Job(), t.Surface)
	if wall != nil && kind != job.Hatch || ceiling != nil && kind == job.Hatch {
		w.addOpening(t.Surface, newOpening(kind, double, w.imperial()), nil)
		return
	}
	w.studio.plan.opening, w.studio.plan.paired = kind, double
	w.win.Canvas().Focus(w.studio.plan.pic)
	w.say("")
	w.noteLine.refresh()
}

// placeOpening answers the click that startOpening waits for.
func (v *planView) placeOpening(t draft.Target, at shape.Point) {
	j := v.w.model.Doc.Job()
	o := newOpening(v.opening, v.paired, v.w.imperial())
	wall, _ := findSurface(j, t.Surface)
	r := findRoom(j, t.Room)
	switch {
	case v.opening == job.Hatch && r != nil && r.Ceiling != nil:
		v.w.addOpening(r.ID+"/"+ceilingName, o, &at)
	case v.opening == job.Hatch && r != nil:
		v.w.say("This room has no ceiling: choose one under the drawing first.")
		return
	case wall != nil:
		x := alongWall(r, wall, at)
		v.w.addOpening(t.Surface, o, &shape.Point{X: x})
	default:
		v.w.say("Click on a wall. Esc stops.")
		return
	}
	v.stop()
}

// addOpening puts an opening into a surface about a point, or at the first free place from the middle outwards, and
// picks it so that its fields stand ready.
func (w *Window) addOpening(surface string, o job.Opening, about *shape.Point) {
	j := w.model.Doc.Job()
	r := findRoom(j, roomOf(surface))
	wall, ceiling := findSurface(j, surface)
	step := length.Length(length.Inch)
	if !w.imperial() {
		step = 10 * length.Millimetre
	}
	switch {
	case wall != nil:
		o.At = freePlace(wall.Openings, sideLength(r, wall.Side), o.Width, step, about)
	case ceiling != nil:
		low, high := bounds(r.Corners)
		at := shape.Point{X: (low.X + high.X) / 2, Y: (low.Y + high.Y) / 2}
		if about != nil {
			at = *about
		}
		o.At, o.Sill = nearest(at.X-o.Width/2, step), nearest(at.Y-o.Height/2, step)
	}
	if !w.try(planner.AddOpening{Surface: surfaceName(surface), Opening: o}) {
		return
	}
	list := openingsOf(findSurface(w.model.Doc.Job(), surface))
	if n := len(list); n > 0 {
		w.model.Pick(draft.Target{Kind: draft.OnOpening, Room: roomOf(surface), Surface: surfaceName(surface), Opening: list[n-1].ID, Index: n - 1})
	}
	w.say(capital(kindWord(o.Kind)) + " added. Drag it, or set its sizes below.")
}

// freePlace is the left edge nearest to the wanted middle at which an opening overlaps no other; where none is free it
// is the wanted one, and the project says what stands against it.
func freePlace(others []job.Opening, wall, width, step length.Length, about *shape.Point) length.Length {
	want := wall / 2
	if about != nil {
		want = about.X
	}
	most := max(0, wall-width)
	first := max(0, min(nearest(want-width/2, step), most))
	free := func(at length.Length) bool {
		if at < 0 || at > most {
			return false
		}
		for _, o := range others {
			if at < o.At+o.Width && o.At < at+width {
				return false
			}
		}
		return true
	}
	for off := length.Length(0); off <= wall; off += step {
		for _, at := range []length.Length{first + off, first - off} {
			if free(at) {
				return at
			}
		}
	}
	return first
}

// addBox puts an outlet box into the wall that is picked: 16 in up to its centre is where switches' outlets stand in
// most rooms (common practice, no source).
func (w *Window) addBox() {
	t := w.model.Selected
	j := w.model.Doc.Job()
	wall, _ := findSurface(j, t.Surface)
	r := findRoom(j, t.Room)
	if wall == nil || r == nil {
		w.say("Click the wall that the box goes into, then press B again.")
		return
	}
	b := job.Box{Up: 16 * length.Inch, Width: 2*length.Inch + length.Inch/4, Height: 3*length.Inch + 3*length.Inch/4, SetOut: length.Inch / 2, Kind: "outlet"}
	step := length.Length(length.Inch)
	if !w.imperial() {
		b = job.Box{Up: 300 * length.Millimetre, Diameter: 68 * length.Millimetre, SetOut: 12*length.Millimetre + length.Millimetre/2, Kind: "outlet"}
		step = 10 * length.Millimetre
	}
	var taken []job.Opening
	taken = append(taken, wall.Openings...)
	for _, o := range wall.Boxes {
		rect := o.Rect()
		taken = append(taken, job.Opening{At: rect.X, Width: rect.W})
	}
	b.At = freePlace(taken, sideLength(r, wall.Side), b.Rect().W, step, nil) + b.Rect().W/2
	if !w.try(planner.AddBox{Surface: t.Surface, Box: b}) {
		return
	}
	wall, _ = findSurface(w.model.Doc.Job(), t.Surface)
	if wall != nil && len(wall.Boxes) > 0 {
		w.model.Pick(draft.Target{Kind: draft.OnBox, Room: t.Room, Surface: t.Surface, Index: len(wall.Boxes) - 1})
	}
}

// remove takes away what is picked.
func (w *Window) remove() {
	t := w.model.Selected
	j := w.model.Doc.Job()
	switch t.Kind {
	case draft.OnOpening:
		w.try(planner.RemoveOpening{Surface: surfaceName(t.Surface), ID: t.Opening})
	case draft.OnBox:
		w.try(planner.RemoveBox{Surface: surfaceName(t.Surface), Index: t.Index})
	case draft.OnPin:
		w.try(planner.RemovePin{Surface: surfaceName(t.Surface), Index: t.Index})
	case draft.OnCorner:
		if r := findRoom(j, t.Room); r != nil && len(r.Corners) <= 3 {
			w.say("A room has three corners at least: remove the whole room instead.")
			return
		}
		w.try(planner.RemoveCorner{Room: t.Room, Corner: t.Corner + 1})
	case draft.OnRoom:
		w.try(planner.RemoveRoom{Room: t.Room})
	default:
		w.say("Nothing to remove is picked: click an opening, a box, a corner or a room first.")
	}
}

// touch gives a surface the finish in hand.
func (w *Window) touch(surface string, zone int) {
	if err := w.model.Touch(surface, zone); err != nil {
		w.say(sentence(err))
		return
	}
	w.pickSurface(surface)
	w.say(draft.WallName(surface) + ": " + layersName(w.model.Doc.Job(), w.model.Finish) + ". Touch the next wall, or Esc to put the finish back.")
}
