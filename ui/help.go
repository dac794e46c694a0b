package ui

import (
	"strings"

	"seamwright/calc/plan"
	"seamwright/scene/draft"

	"fyne.io/fyne/v2"
)

// hint is what the note line says while there is nothing else to say: what the hand can do now.
func (w *Window) hint() string {
	m := w.model
	if w.views == nil || w.tab != 0 {
		return ""
	}
	v := w.studio.plan
	switch {
	case v.outline != nil && len(v.outline.set) == 0:
		return "Click where the room's first corner stands. Esc stops."
	case v.outline != nil && v.outline.typed != "":
		l, err := v.outline.length()
		if err != nil {
			return sentence(err)
		}
		return "Enter sets the wall to " + w.length(l) + " in the pointer's direction."
	case v.outline != nil && len(v.outline.set) < 3:
		return "Click the next corner, or type a length and press Enter. Backspace takes a corner back."
	case v.outline != nil:
		return "Click the first corner or press Enter to close the room. Backspace takes a corner back."
	case v.opening != "":
		return "Click the wall where the " + kindWord(v.opening) + " goes. Esc stops."
	case m.Finish != nil && m.Preview != nil:
		return w.previewWords()
	case m.Finish != nil:
		return "In hand: " + layersName(m.Doc.Job(), m.Finish) + ". Touch walls; G gives it to every wall; Esc puts it back."
	}
	for _, t := range []draft.Target{w.studio.strip.hovers, w.studio.room.hovers} {
		switch t.Kind {
		case draft.OnPanel:
			if s := w.panelWords(t); s != "" {
				return s
			}
		case draft.OnSeam:
			if s := w.seamWords(t); s != "" {
				return s
			}
		case draft.OnPin:
			return "A seam that you fixed. Click the pin to free it."
		case draft.OnCheck:
			if m.Plan != nil && t.Index < len(m.Plan.Checks) {
				return w.tell(m.Plan.Checks[t.Index].Says)
			}
		}
	}
	if len(m.Doc.Job().Rooms) == 0 {
		return "R draws a room. Ctrl+K finds every action."
	}
	return "Click to pick, drag to move. R draws a room, D a door, W a window; Ctrl+K finds every action."
}

// previewWords say what the finish in hand would do to the wall under the pointer.
func (w *Window) previewWords() string {
	v := w.model.Preview
	on := draft.WallName(v.Surface) + " in " + layersName(w.model.Doc.Job(), w.model.Finish) + ": "
	if !v.Ready {
		return on + "working it out"
	}
	var parts []string
	add := func(s, unit string) {
		if s != "" {
			parts = append(parts, s+unit)
		}
	}
	add(change(v.Sheets), plural(v.Sheets, " sheet"))
	add(moneyChange(v.Cost, w.model.Doc.Job().Currency), "")
	add(change(v.Days), plural(v.Days, " day"))
	if len(parts) == 0 {
		return on + "no difference"
	}
	return on + strings.Join(parts, ", ")
}

func plural(n int, noun string) string {
	if n == 1 || n == -1 {
		return noun
	}
	return noun + "s"
}

func (w *Window) seamWords(t draft.Target) string {
	_, joint := w.model.joint(t)
	if joint == nil {
		return ""
	}
	s := capital(strings.ReplaceAll(string(joint.Kind), "-", " ")) + " joint, " + w.length(distance(joint.From, joint.To)) + ", on " + supportWord(string(joint.Support))
	if t.Drag != "" {
		s += ". Drag it; Alt+click fixes it."
	}
	return s
}

// places are the rooms, walls, openings and sheets that the finder can go to.
func (w *Window) places() []found {
	var all []found
	j := w.model.Doc.Job()
	show := func(t draft.Target) func() {
		return func() { w.showTab(0); w.model.Pick(t) }
	}
	for _, r := range j.Rooms {
		all = append(all, found{words: draft.SurfaceName(r.ID), where: "room", more: r.ID, run: show(draft.Target{Kind: draft.OnRoom, Room: r.ID})})
		for i := range r.Walls {
			id := r.ID + "/" + r.Walls[i].ID
			all = append(all, found{words: draft.SurfaceName(id), where: "wall", more: id, run: show(draft.Target{Kind: draft.OnSurface, Room: r.ID, Surface: id})})
			for k, o := range r.Walls[i].Openings {
				all = append(all, found{words: o.ID + " in " + draft.SurfaceName(id), where: kindWord(o.Kind), more: id,
					run: show(draft.Target{Kind: draft.OnOpening, Room: r.ID, Surface: id, Opening: o.ID, Index: k})})
			}
		}
		if r.Ceiling != nil {
			id := r.ID + "/" + ceilingName
			all = append(all, found{words: draft.SurfaceName(id), where: "ceiling", more: id + w.planes(r.ID), run: show(draft.Target{Kind: draft.OnSurface, Room: r.ID, Surface: id})})
		}
	}
	for _, a := range j.Alternatives {
		all = append(all, found{words: a.Name, where: "alternative", run: func() { w.activate(a.Name) }})
	}
	return all
}

// planes are the names of the planes of a room's ceiling, each with a space before it.
func (w *Window) planes(room string) (names string) {
	if w.model.Plan == nil {
		return ""
	}
	for i := range w.model.Plan.Surfaces {
		if s := &w.model.Plan.Surfaces[i]; s.Room == room && s.Kind == plan.Ceiling {
			names += " " + draft.WallName(s.ID)
		}
	}
	return names
}

// showKeys lists every key.
func (w *Window) showKeys() {
	t := newTable(w, "", tableColumn{title: "action"}, tableColumn{"menu", 100, false}, tableColumn{"key", 120, true})
	var rows []tableRow
	for _, c := range w.commands {
		if c.key.key != "" && c.label() != "" {
			rows = append(rows, tableRow{cells: []cell{{text: c.label()}, {text: c.menu, ink: w.pal.Quiet}, {text: c.key.String()}}})
		}
	}
	for _, m := range [][2]string{{"Room: turn about the point under the pointer", "left drag"}, {"Room: move", "middle drag, Shift+drag"}, {"Room: look straight at a wall", "double click"},
		{"Room: turn; from inside, walk and turn", "arrow keys"}, {"Room: move; from inside, step aside, look up and down", "Shift+arrow keys"}, {"Room: nearer, further", "+ and −"},
		{"Room, raking light: lower the lamp, or move it along the wall", "Alt+drag"}, {"Room, raking light: ask about a joint", "click it"},
		{"Strip: fill the view with a wall", "double click"}, {"Strip: fix a seam", "Alt+click"}, {"Any drawing: nearer, further", "wheel"}, {"Any drawing: step back", "right click"}} {
		rows = append(rows, tableRow{cells: []cell{{text: m[0]}, {text: "hands", ink: w.pal.Quiet}, {text: m[1]}}})
	}
	w.sheet("Keys and hands", t, fyne.NewSize(620, 560))
	t.set(rows)
}

// sheet shows content over the window until it is closed.
func (w *Window) sheet(title string, content fyne.CanvasObject, size fyne.Size) {
	closer := newButton(w.pal, pill, "Close", w.lift)
	heading := w.pal.heading(title)
	c := w.win.Canvas().Size()
	size = fyne.NewSize(min(size.Width, c.Width-60), min(size.Height, c.Height-80))
	box := laidOut(arrange{size, func(size fyne.Size) {
		put(heading, 8, 6, size.Width, heading.MinSize().Height)
		m := closer.MinSize()
		put(closer, size.Width-m.Width-4, 4, m.Width, m.Height)
		put(content, 8, 40, size.Width-16, size.Height-44)
	}}, heading, closer, content)
	w.lay(box, nil)
}

func (w *Window) about() {
	w.ask("Seamwright", "Plans the lining of a room from the floor plan to the last coat: where every sheet goes, which sheet each piece is cut from, "+
		"what to buy, what it costs and in which order it is done. It points out what the rule book knows; your local code and the people licensed to judge it decide. "+
		"The typeface is under the SIL Open Font License.", answer{"Close", nil})
}
