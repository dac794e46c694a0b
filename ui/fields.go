package ui

import (
	"fmt"
	"strconv"
	"strings"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/money"
	"seamwright/calc/shape"
	"seamwright/planner"
	"seamwright/scene/draft"
)

// These are the fields of each kind of thing that can be picked. A field reads the project each time it is shown and
// writes it by one edit.

func (w *Window) rename(s string) error {
	return w.model.Do(planner.SetName{Name: strings.TrimSpace(s)})
}

func (w *Window) setAim(s string) {
	for i, a := range []job.Aim{job.AimCost, job.AimSheets, job.AimJoints} {
		if s == aims[i] {
			w.try(planner.SetAim{Aim: a})
		}
	}
}

func (w *Window) renameAlternative(s string) error {
	from := w.model.Doc.Active()
	if err := w.model.Do(planner.RenameAlternative{Name: from, To: strings.TrimSpace(s)}); err != nil {
		return err
	}
	return w.model.Activate(strings.TrimSpace(s))
}

func (w *Window) removeAlternative() {
	name := w.model.Doc.Active()
	w.activate("")
	if w.try(planner.RemoveAlternative{Name: name}) {
		w.say("Alternative “" + name + "” removed. Undo brings it back.")
	}
}

// lengthField shows a length and writes it.
func (l *line) lengthField(caption string, width float32, get func() length.Length, set func(length.Length) error) {
	imperial := l.i.w.imperial()
	l.field(caption, width, func() string { return get().Exact(imperial) }, func(s string) error {
		v, err := l.i.w.parseLength(s)
		if err != nil {
			return err
		}
		return set(v)
	})
}

// parseLength reads a length in a field, where a bare number means inches or millimetres.
func (w *Window) parseLength(s string) (length.Length, error) {
	s = strings.TrimSpace(s)
	if _, err := strconv.ParseFloat(s, 64); err == nil && s != "0" {
		if w.imperial() {
			return length.Parse(s + `"`)
		}
		return length.Parse(s + " mm")
	}
	return length.Parse(s)
}

func (i *inspector) currentOpening(t draft.Target) job.Opening {
	list := openingsOf(findSurface(i.w.model.Doc.Job(), t.Surface))
	if t.Index < len(list) {
		return list[t.Index]
	}
	return job.Opening{}
}

func (i *inspector) opening(l [2]*line, t draft.Target) {
	w := i.w
	get := func() job.Opening { return i.currentOpening(t) }
	set := func(change func(*job.Opening)) error {
		o := get()
		change(&o)
		return w.model.Do(planner.ChangeOpening{Surface: surfaceName(t.Surface), ID: get().ID, Opening: o})
	}
	kind := get().Kind
	l[0].words(capital(kindWord(kind))+" in "+draft.SurfaceName(t.Surface), true)
	l[0].lengthField("from left", 92, func() length.Length { return get().At }, func(v length.Length) error { return set(func(o *job.Opening) { o.At = v }) })
	l[0].lengthField("width", 92, func() length.Length { return get().Width }, func(v length.Length) error { return set(func(o *job.Opening) { o.Width = v }) })
	l[0].lengthField("height", 92, func() length.Length { return get().Height }, func(v length.Length) error { return set(func(o *job.Opening) { o.Height = v }) })
	if kind == job.Window || kind == job.Hatch {
		name := "sill"
		if kind == job.Hatch {
			name = "from below"
		}
		l[0].lengthField(name, 92, func() length.Length { return get().Sill }, func(v length.Length) error { return set(func(o *job.Opening) { o.Sill = v }) })
	}
	l[1].choice("kind", 116, []string{"door", "window", "hatch", "keep-out"}, func() string { return kindWord(get().Kind) }, func(s string) {
		w.report(set(func(o *job.Opening) { o.Kind = job.OpeningKind(s) }))
	})
	if kind == job.Window {
		l[1].choice("sides closed with", 100, []string{"jamb", "board", "none"}, func() string { return string(get().Return) }, func(s string) {
			w.report(set(func(o *job.Opening) { o.Return = job.Return(s) }))
		})
		l[1].lengthField("reveal", 80, func() length.Length { return get().Reveal }, func(v length.Length) error { return set(func(o *job.Opening) { o.Reveal = v }) })
	}
	l[1].quiet("rough opening, from framing to framing")
	l[1].button("Remove  Del", w.remove)
}

func (i *inspector) outlet(l [2]*line, t draft.Target) {
	w := i.w
	get := func() job.Box {
		if list := boxesOf(findSurface(w.model.Doc.Job(), t.Surface)); t.Index < len(list) {
			return list[t.Index]
		}
		return job.Box{}
	}
	set := func(change func(*job.Box)) error {
		b := get()
		change(&b)
		return w.model.Do(planner.ChangeBox{Surface: surfaceName(t.Surface), Index: t.Index, Box: b})
	}
	l[0].words("Box in "+draft.SurfaceName(t.Surface), true)
	l[0].lengthField("centre from left", 92, func() length.Length { return get().At }, func(v length.Length) error { return set(func(b *job.Box) { b.At = v }) })
	l[0].lengthField("up", 80, func() length.Length { return get().Up }, func(v length.Length) error { return set(func(b *job.Box) { b.Up = v }) })
	if get().Diameter > 0 {
		l[0].lengthField("across", 80, func() length.Length { return get().Diameter }, func(v length.Length) error { return set(func(b *job.Box) { b.Diameter = v }) })
	} else {
		l[0].lengthField("width", 80, func() length.Length { return get().Width }, func(v length.Length) error { return set(func(b *job.Box) { b.Width = v }) })
		l[0].lengthField("height", 80, func() length.Length { return get().Height }, func(v length.Length) error { return set(func(b *job.Box) { b.Height = v }) })
	}
	l[1].lengthField("stands out from the framing by", 80, func() length.Length { return get().SetOut }, func(v length.Length) error { return set(func(b *job.Box) { b.SetOut = v }) })
	l[1].button("Remove  Del", w.remove)
}

func (i *inspector) corner(l [2]*line, t draft.Target) {
	w := i.w
	get := func() shape.Point {
		if r := findRoom(w.model.Doc.Job(), t.Room); r != nil && t.Corner < len(r.Corners) {
			return r.Corners[t.Corner]
		}
		return shape.Point{}
	}
	set := func(p shape.Point) error {
		return w.model.Do(planner.MoveCorner{Room: t.Room, Corner: t.Corner + 1, To: p})
	}
	l[0].words(fmt.Sprintf("Corner %d of %s", t.Corner+1, draft.SurfaceName(t.Room)), true)
	l[0].lengthField("across", 100, func() length.Length { return get().X }, func(v length.Length) error { return set(shape.Point{X: v, Y: get().Y}) })
	l[0].lengthField("up", 100, func() length.Length { return get().Y }, func(v length.Length) error { return set(shape.Point{X: get().X, Y: v}) })
	l[1].quiet("Drag it, or move it with the arrow keys; Shift takes longer steps.")
	l[1].button("Remove  Del", w.remove)
}

func (i *inspector) seam(l [2]*line, t draft.Target) {
	w := i.w
	_, joint := w.model.joint(t)
	if joint == nil {
		i.wall(l, t)
		return
	}
	words := map[string]string{"tapered": "Tapered joint", "mixed": "Mixed joint", "butt": "Butt joint", "panel": "Gap between panels", "control": "Control joint"}[string(joint.Kind)]
	if words == "" {
		words = capital(strings.ReplaceAll(string(joint.Kind), "-", " "))
	}
	l[0].words(words, true)
	l[0].quiet(w.length(distance(joint.From, joint.To)) + " long, on " + supportWord(string(joint.Support)))
	l[1].quiet("Drag it in the strip, or move it stud by stud with the arrow keys.")
	l[1].button("Fix it here  P", w.pinSeam)
}

func supportWord(s string) string {
	switch s {
	case "none", "":
		return "no member"
	case "member":
		return "a stud"
	case "back-block":
		return "a back block"
	}
	return s
}

func (i *inspector) panel(l [2]*line, t draft.Target) {
	l[0].words(i.w.panelWords(t), false)
	l[1].button("Show its cut sheet", func() { i.w.showCutSheet(t.Panel) })
	l[1].button("Show the whole wall", func() { i.w.pickSurface(t.Surface) })
}

func (i *inspector) room(l [2]*line, t draft.Target) {
	w := i.w
	get := func() job.Room {
		if r := findRoom(w.model.Doc.Job(), t.Room); r != nil {
			return *r
		}
		return job.Room{}
	}
	l[0].field("Room", 100, func() string { return get().ID }, func(s string) error {
		s = strings.TrimSpace(s)
		if err := w.model.Do(planner.RenameRoom{Room: t.Room, To: s}); err != nil {
			return err
		}
		w.model.Pick(draft.Target{Kind: draft.OnRoom, Room: s})
		return nil
	})
	l[0].lengthField("height to the ceiling framing", 76, func() length.Length { return get().Height },
		func(v length.Length) error { return w.model.Do(planner.SetRoomHeight{Room: t.Room, Height: v}) })
	i.overhead(l[0], t.Room)
	i.ceilingShape(l[1], t.Room)
	l[1].button("Remove the room  Del", w.remove)
}

// The shapes a ceiling can have, in the user's words.
var ceilingShapes = []string{"no ceiling", "flat", "ridge", "slope"}

// ceilingShape chooses and sets the ceiling of a room.
func (i *inspector) ceilingShape(l *line, room string) {
	w := i.w
	get := func() *job.Ceiling {
		if r := findRoom(w.model.Doc.Job(), room); r != nil {
			return r.Ceiling
		}
		return nil
	}
	l.choice("Ceiling", 112, ceilingShapes, func() string {
		if c := get(); c != nil {
			return string(c.Shape)
		}
		return ceilingShapes[0]
	}, func(s string) { w.setCeiling(room, s) })
	c := get()
	if c == nil {
		return
	}
	set := func(change func(*job.Ceiling)) error {
		n := *get()
		change(&n)
		return w.model.Do(planner.SetCeiling{Room: room, Ceiling: &n})
	}
	sides := []string{"north", "east", "south", "west"}
	switch c.Shape {
	case job.Ridge:
		l.choice("ridge runs along", 64, []string{"x", "y"}, func() string { return string(get().Along) }, func(s string) {
			w.report(set(func(c *job.Ceiling) { c.Along = job.Axis(s) }))
		})
		l.lengthField("stands at", 84, func() length.Length { return get().At }, func(v length.Length) error { return set(func(c *job.Ceiling) { c.At = v }) })
		l.lengthField("height", 84, func() length.Length { return get().High }, func(v length.Length) error { return set(func(c *job.Ceiling) { c.High = v }) })
	case job.Slope:
		l.choice("rises from", 88, sides, func() string { return get().From }, func(s string) { w.report(set(func(c *job.Ceiling) { c.From = s })) })
		l.choice("to", 88, sides, func() string { return get().To }, func(s string) { w.report(set(func(c *job.Ceiling) { c.To = s })) })
		l.lengthField("height there", 84, func() length.Length { return get().High }, func(v length.Length) error { return set(func(c *job.Ceiling) { c.High = v }) })
	}
}

// overhead is the framing over a room and what lies in its bays.
func (i *inspector) overhead(l *line, room string) {
	w := i.w
	get := func() job.Ceiling {
		if r := findRoom(w.model.Doc.Job(), room); r != nil && r.Ceiling != nil {
			return *r.Ceiling
		}
		return job.Ceiling{}
	}
	if get().Shape == "" {
		return
	}
	set := func(change func(*job.Ceiling)) error {
		n := get()
		change(&n)
		return w.model.Do(planner.SetCeiling{Room: room, Ceiling: &n})
	}
	l.lengthField("joists every", 66, func() length.Length { return get().Framing.Spacing }, func(v length.Length) error { return set(func(c *job.Ceiling) { c.Framing.Spacing = v }) })
	l.choice("running along", 60, []string{"x", "y"}, func() string { return string(get().Framing.Along) }, func(s string) {
		w.report(set(func(c *job.Ceiling) { c.Framing.Along = job.Axis(s) }))
	})
	l.choice("in the bays", 118, insulations, func() string { return string(get().Insulation) }, func(s string) {
		w.report(set(func(c *job.Ceiling) { c.Insulation = job.Insulation(s) }))
	})
}

// setCeiling gives a room another shape of ceiling, with a rise that can be built, or takes the ceiling away.
func (w *Window) setCeiling(room, shapeName string) {
	r := findRoom(w.model.Doc.Job(), room)
	if r == nil {
		return
	}
	if shapeName == ceilingShapes[0] {
		w.try(planner.SetCeiling{Room: room})
		return
	}
	low, high := bounds(r.Corners)
	wide, deep := high.X-low.X, high.Y-low.Y
	c := job.Ceiling{Framing: usualJoists(w.imperial()), Insulation: job.NoInsulation}
	if wide < deep {
		c.Framing.Along = job.AxisX
	}
	if r.Ceiling != nil {
		c = *r.Ceiling
	} else {
		c.Lining = []job.Zone{zoneOf(w.usualLayers(r))}
	}
	c.Shape = job.CeilingShape(shapeName)
	step := length.Length(length.Inch)
	if !w.imperial() {
		step = 10 * length.Millimetre
	}
	switch c.Shape {
	case job.Ridge: // along the longer way, in the middle, rising 4 in 12
		c.Along, c.At = job.AxisX, nearest(low.Y+deep/2, step)
		c.High = nearest(r.Height+deep/6, step)
		c.Framing.Along = job.AxisY
		if deep > wide {
			c.Along, c.At = job.AxisY, nearest(low.X+wide/2, step)
			c.High = nearest(r.Height+wide/6, step)
			c.Framing.Along = job.AxisX
		}
	case job.Slope: // across the shorter way, rising 2 in 12
		c.From, c.To, c.High, c.Framing.Along = "south", "north", nearest(r.Height+deep/6, step), job.AxisY
		if wide < deep {
			c.From, c.To, c.High, c.Framing.Along = "west", "east", nearest(r.Height+wide/6, step), job.AxisX
		}
	}
	if w.try(planner.SetCeiling{Room: room, Ceiling: &c}) {
		w.model.Pick(draft.Target{Kind: draft.OnRoom, Room: room})
	}
}

// usualJoists are joists as they are framed most: 2 by 6 at 16 in, or 45 by 145 mm at 400. Common practice, no source.
func usualJoists(imperial bool) job.Framing {
	if imperial {
		return job.Framing{Material: job.Wood, Spacing: 16 * length.Inch, Along: job.AxisY, Member: 3 * length.Inch / 2, Depth: 11 * length.Inch / 2}
	}
	return job.Framing{Material: job.Wood, Spacing: 400 * length.Millimetre, Along: job.AxisY, Member: 45 * length.Millimetre, Depth: 145 * length.Millimetre}
}

// usualLayers is the finish of the room's first wall, else the first on the rack.
func (w *Window) usualLayers(r *job.Room) []string {
	for i := range r.Walls {
		for _, z := range r.Walls[i].Lining {
			if len(z.Layers) > 0 && z.Layers[0] != job.Open {
				return z.Layers
			}
		}
	}
	return finishes(w.model.Doc.Job())[0]
}

func (w *Window) report(err error) {
	if err != nil {
		w.say(sentence(err))
	}
}

// parseMoney reads an amount, with or without the currency's sign.
func parseMoney(s, currency string) (money.Money, error) {
	s = strings.TrimSpace(strings.ReplaceAll(s, ",", ""))
	if sign := currencies[currency]; sign != "" {
		s = strings.TrimPrefix(s, sign)
	}
	return money.Parse(strings.TrimSpace(s))
}
