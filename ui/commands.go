package ui

import (
	"fmt"
	"strconv"

	"seamwright/calc/job"
	"seamwright/planner"
	"seamwright/scene"
	"seamwright/scene/draft"

	"fyne.io/fyne/v2"
)

// addCommands fills the table of commands. Menus, keys and finder are made from it, so nothing can be in one and not
// in the others.
func (w *Window) addCommands() {
	w.fileCommands()
	w.editCommands()
	w.roomCommands()
	w.viewCommands()
}

func (w *Window) fileCommands() {
	w.register(
		&command{id: "new", menu: "File", title: "New project", more: "empty begin", key: keys{fyne.KeyN, ctrl}, run: w.newProject},
		&command{id: "open", menu: "File", title: "Open…", more: "load file", key: keys{fyne.KeyO, ctrl}, run: w.open},
		&command{id: "recent", menu: "File", title: "Recent", children: w.recent},
		&command{id: "sample", menu: "File", title: "Open the sample project", run: w.openSample, can: func() bool { return w.options.Sample != nil }},
		&command{id: "save", menu: "File", title: "Save", key: keys{fyne.KeyS, ctrl}, section: true, run: func() { w.save(nil) }},
		&command{id: "saveas", menu: "File", title: "Save as…", more: "copy name", key: keys{fyne.KeyS, ctrl | shift}, run: func() { w.saveAs(nil) }},
		&command{id: "unsaved", menu: "File", title: "Unsaved work…", more: "recover crash copy", run: w.unsavedWork},
		&command{id: "quit", menu: "File", title: "Close", more: "quit exit", key: keys{fyne.KeyQ, ctrl}, section: true, run: w.askToClose},
	)
}

func (w *Window) editCommands() {
	w.register(
		&command{id: "undo", menu: "Edit", title: "Undo", key: keys{fyne.KeyZ, ctrl}, run: func() { w.model.Undo(); w.say("") },
			words: func() string { return named("Undo", w.model.Doc.CanUndo) }, can: func() bool { _, ok := w.model.Doc.CanUndo(); return ok }},
		&command{id: "redo", menu: "Edit", title: "Redo", key: keys{fyne.KeyZ, ctrl | shift}, also: keys{fyne.KeyY, ctrl}, run: func() { w.model.Redo(); w.say("") },
			words: func() string { return named("Redo", w.model.Doc.CanRedo) }, can: func() bool { _, ok := w.model.Doc.CanRedo(); return ok }},
		&command{id: "remove", menu: "Edit", title: "Remove what is picked", more: "delete", key: keys{fyne.KeyDelete, 0}, section: true, run: w.remove},
		&command{id: "back", menu: "Edit", title: "Step back", more: "escape cancel put away", key: keys{fyne.KeyEscape, 0}, run: w.stepBack},
		&command{id: "alternative", menu: "Edit", title: "Add an alternative", more: "variant compare", key: keys{fyne.KeyA, ctrl | shift}, section: true, run: w.addAlternative},
		&command{id: "nextalternative", menu: "Edit", title: "Show the next alternative", key: keys{fyne.KeyE, ctrl}, run: w.nextAlternative,
			can: func() bool { return len(w.model.Doc.Job().Alternatives) > 0 }},
		&command{id: "compare", menu: "Edit", title: "Compare alternatives", key: keys{fyne.KeyD, ctrl}, run: w.compare,
			can: func() bool { return len(w.model.Doc.Job().Alternatives) > 0 }},
		&command{id: "aim-cost", menu: "Edit", title: "Choose the least cost", more: "answer aim", key: keys{fyne.Key1, ctrl | shift}, section: true, run: func() { w.setAim(aims[0]) }, on: w.aimed(job.AimCost)},
		&command{id: "aim-sheets", menu: "Edit", title: "Choose the fewest sheets", more: "answer aim", key: keys{fyne.Key2, ctrl | shift}, run: func() { w.setAim(aims[1]) }, on: w.aimed(job.AimSheets)},
		&command{id: "aim-joints", menu: "Edit", title: "Choose the fewest butt joints", more: "answer aim", key: keys{fyne.Key3, ctrl | shift}, run: func() { w.setAim(aims[2]) }, on: w.aimed(job.AimJoints)},
		&command{id: "stop", menu: "Edit", title: "Stop searching", more: "cancel first answer", run: w.stopSearch, can: w.model.searching},
		&command{id: "searchon", menu: "Edit", title: "Search on for a better answer", more: "full", run: func() { w.model.SearchOn(); w.say("") },
			can: func() bool { return w.model.stopped }},
		&command{id: "units", menu: "Edit", title: "Units", more: "metric imperial feet metre", key: keys{fyne.KeyU, ctrl}, section: true, run: w.switchUnits, words: func() string {
			if w.imperial() {
				return "Show lengths in metres"
			}
			return "Show lengths in feet and inches"
		}},
		&command{id: "find", menu: "Edit", title: "Find an action or a place…", key: keys{fyne.KeyK, ctrl}, run: w.find},
	)
}

// stopSearch keeps the first answer and says what that means.
func (w *Window) stopSearch() {
	w.model.StopSearch()
	w.say("The search was stopped. The first answer stands: it can be built, but more sheets or joints than needed may be in it. Edit > Search on looks further.")
}

// aimed says whether the project aims at this.
func (w *Window) aimed(a job.Aim) func() bool {
	return func() bool { return w.model.Doc.Job().Aim == a }
}

// named is Undo or Redo with what it does.
func named(verb string, can func() (string, bool)) string {
	if label, ok := can(); ok {
		return verb + " " + label
	}
	return verb
}

func (w *Window) roomCommands() {
	w.register(&command{id: "draw", menu: "Room", title: "Draw a room", more: "new outline corners", key: keys{fyne.KeyR, 0}, run: func() { w.showTab(0); w.studio.plan.startRoom() }})
	for i, s := range ceilingShapes {
		title := map[string]string{"no ceiling": "No ceiling", "flat": "Flat ceiling", "ridge": "Ridged ceiling", "slope": "Sloped ceiling"}[s]
		w.register(&command{id: "ceiling-" + s, menu: "Room", title: title, section: i == 0,
			run: func() {
				w.setCeiling(w.model.Selected.Room, s)
			},
			can: func() bool { return findRoom(w.model.Doc.Job(), w.model.Selected.Room) != nil },
			on: func() bool {
				r := findRoom(w.model.Doc.Job(), w.model.Selected.Room)
				return r != nil && (r.Ceiling == nil && s == ceilingShapes[0] || r.Ceiling != nil && string(r.Ceiling.Shape) == s)
			}})
	}
	w.register(&command{id: "pickroom", menu: "Room", title: "Pick the whole room", section: true, key: keys{fyne.KeyA, ctrl | alt}, run: func() {
		if room := w.studio.strip.shown(w.model.Doc.Job()); room != "" {
			w.model.Pick(draft.Target{Kind: draft.OnRoom, Room: room})
		}
	}})
	wall := func() bool { w, _ := findSurface(w.model.Doc.Job(), w.model.Selected.Surface); return w != nil }
	w.register(
		&command{id: "door", menu: "Walls", title: "Door", more: "add opening", key: keys{fyne.KeyD, 0}, run: func() { w.startOpening(job.Door, false) }},
		&command{id: "doubledoor", menu: "Walls", title: "Double door", more: "add opening pair", key: keys{fyne.KeyD, shift}, run: func() { w.startOpening(job.Door, true) }},
		&command{id: "window", menu: "Walls", title: "Window", more: "add opening", key: keys{fyne.KeyW, 0}, run: func() { w.startOpening(job.Window, false) }},
		&command{id: "keepout", menu: "Walls", title: "Keep-out for a pocket door", more: "add pipes short screws", key: keys{fyne.KeyK, 0}, run: func() { w.startOpening(job.KeepOut, false) }},
		&command{id: "hatch", menu: "Walls", title: "Hatch in the ceiling", more: "add opening attic", key: keys{fyne.KeyH, 0}, run: func() { w.startOpening(job.Hatch, false) }},
		&command{id: "box", menu: "Walls", title: "Outlet box", more: "add electrical", key: keys{fyne.KeyB, 0}, run: w.addBox, can: wall},
		&command{id: "divide", menu: "Walls", title: "Divide by height", more: "zone wainscot", key: keys{fyne.KeyZ, 0}, section: true, run: w.divide, can: wall},
		&command{id: "corner", menu: "Walls", title: "Add a corner", more: "split wall jog", key: keys{fyne.KeyC, 0}, run: w.addCorner, can: wall},
		&command{id: "pin", menu: "Walls", title: "Fix or free a seam", more: "pin edge", key: keys{fyne.KeyP, 0}, run: w.pinSeam,
			can: func() bool { k := w.model.Selected.Kind; return k == draft.OnSeam || k == draft.OnPin }},
		&command{id: "allwalls", menu: "Walls", title: "Give every wall of the room the finish in hand", key: keys{fyne.KeyG, 0}, run: w.touchAll,
			can: func() bool { return w.model.Finish != nil }},
	)
	for i := range 9 {
		n := strconv.Itoa(i + 1)
		w.register(&command{id: "take" + n, menu: "", key: keys{fyne.KeyName(n), 0}, run: func() { w.rack.take(i) },
			words: func() string {
				if i < len(w.rack.sheets) {
					return "Take in hand: " + layersName(w.model.Doc.Job(), w.rack.sheets[i].layers)
				}
				return ""
			},
			can: func() bool { return i < len(w.rack.sheets) }})
	}
}

func (w *Window) viewCommands() {
	within := map[string]string{"Job": "rules stagger notch raked back blocking figures paint stock"}
	for i, name := range []string{"Plan & room", "Cut sheets", "Shopping", "Sequence", "Price", "Checks", "Job"} {
		w.register(&command{id: "tab-" + name, menu: "View", title: name, more: within[name], key: keys{fyne.KeyName(strconv.Itoa(i + 1)), ctrl},
			run: func() { w.turnTo(i) }, on: func() bool { return w.tab == i }})
	}
	room := func(f func(*roomView)) func() {
		return func() {
			if w.tab != 0 {
				w.showTab(0)
			}
			f(w.studio.room)
			w.studio.room.label()
			w.studio.room.pic.redraw()
			if w.compared != nil {
				w.compared.restyle()
			}
		}
	}
	look := func(f func(*eye)) func() {
		return func() {
			if w.tab != 0 {
				w.showTab(0)
			}
			f(w.gaze())
			if w.compared == nil { // arrow keys go on from there
				w.win.Canvas().Focus(w.studio.room.pic)
			}
		}
	}
	w.register(
		&command{id: "fill", menu: "View", title: "Fill the window with the view, or come back", more: "maximise", key: keys{fyne.KeyF, 0}, section: true, run: w.fillView},
		&command{id: "fit", menu: "View", title: "Show all", more: "zoom fit home frame", key: keys{fyne.KeyHome, 0}, also: keys{fyne.Key0, ctrl}, rooms: true, run: w.fit},
		&command{id: "seams", menu: "View", title: "Seams", key: keys{fyne.KeyS, 0}, rooms: true, section: true, run: room((*roomView).toggleSeams), on: func() bool { return w.studio.room.style.Seams > 0.1 }},
		&command{id: "more", menu: "View", title: "Seams plainer, as a diagram", more: "emphasis", key: keys{fyne.KeyRightBracket, 0}, rooms: true, run: room(func(v *roomView) { v.emphasis.step(1) })},
		&command{id: "less", menu: "View", title: "Seams fainter, as built", more: "emphasis", key: keys{fyne.KeyLeftBracket, 0}, rooms: true, run: room(func(v *roomView) { v.emphasis.step(-1) })},
		&command{id: "studs", menu: "View", title: "Studs", more: "members framing", key: keys{fyne.KeyT, 0}, rooms: true, run: room((*roomView).toggleStuds), on: func() bool { return w.studio.room.style.Members }},
		&command{id: "near", menu: "View", title: "Walls that stand before the room", more: "cutaway", key: keys{fyne.KeyX, 0}, rooms: true, run: room((*roomView).toggleWalls), on: func() bool { return !w.studio.room.style.Cutaway }},
		&command{id: "client", menu: "View", title: "Show the room to a client", more: "present price legend", key: keys{fyne.KeyF11, 0}, section: true, run: func() { w.showClient(!w.presenting) }, on: func() bool { return w.presenting }},
		&command{id: "finished", menu: "View", title: "Finished walls", section: true, children: w.lightCommands},
		&command{id: "from", menu: "View", title: "Room seen from", children: w.sides},
	)
	w.register(
		&command{id: "raking", menu: "View", submenu: true, title: "Raking light", more: "lamp show joints finished", key: keys{fyne.KeyL, 0}, rooms: true, run: room((*roomView).toggleRaking), on: func() bool { return w.studio.room.style.Raking.On }},
		&command{id: "lower", menu: "View", submenu: true, title: "Lamp nearer to the wall", key: keys{fyne.KeyL, shift}, rooms: true, run: room(func(v *roomView) { v.lower(2) })},
		&command{id: "farther", menu: "View", submenu: true, title: "Lamp farther from the wall", key: keys{fyne.KeyO, shift}, rooms: true, run: room(func(v *roomView) { v.lower(-2) })},
		&command{id: "lamps", menu: "View", submenu: true, title: "Next light: flood lamp, ceiling lamps, daylight", more: "lights window", key: keys{fyne.KeyO, 0}, rooms: true, run: room(func(v *roomView) { v.lights.next() })},
		&command{id: "side", menu: "View", submenu: true, title: "Lamp from the next side", more: "left above right below", key: keys{fyne.KeyN, 0}, rooms: true, run: room(func(v *roomView) { v.lights.from.Tapped(nil) })},
		&command{id: "reach", menu: "View", submenu: true, title: "Lamp at the next distance", more: "far near", key: keys{fyne.KeyJ, 0}, rooms: true, run: room(func(v *roomView) { v.lights.reach.Tapped(nil) })},
		&command{id: "level", menu: "View", submenu: true, title: "Next finish level", more: "3 4 5 skim", key: keys{fyne.KeyY, shift}, rooms: true, run: room(func(v *roomView) { v.lights.level.Tapped(nil) })},
		&command{id: "viewer", menu: "View", submenu: true, title: "Joints seen from the next distance", more: "viewer", key: keys{fyne.KeyJ, shift}, rooms: true, run: room(func(v *roomView) { v.lights.view.Tapped(nil) })},
		&command{id: "sheen", menu: "View", submenu: true, title: "Next sheen of the paint", more: "gloss flat eggshell satin", key: keys{fyne.KeyY, 0}, rooms: true, run: room(func(v *roomView) { v.lights.sheen.Tapped(nil) })},
		&command{id: "marks", menu: "View", submenu: true, title: "Mark the joints that show", key: keys{fyne.KeyM, 0}, rooms: true, run: room(func(v *roomView) { v.lights.marks.Tapped(nil) })},
		&command{id: "turnright", menu: "View", submenu: true, title: "Room from the next side, to the right", more: "room seen from turn", key: keys{fyne.KeyE, 0}, rooms: true, run: look(func(e *eye) { e.turnSide(1) })},
		&command{id: "turnleft", menu: "View", submenu: true, title: "Room from the next side, to the left", more: "room seen from turn", key: keys{fyne.KeyQ, 0}, rooms: true, run: look(func(e *eye) { e.turnSide(-1) })},
		&command{id: "above", menu: "View", submenu: true, title: "Room from above", more: "room seen from top", key: keys{fyne.KeyU, 0}, rooms: true, run: look(func(e *eye) { e.look("above") })},
		&command{id: "nextwall", menu: "View", submenu: true, title: "Next wall, looked at straight", more: "room seen from face", key: keys{fyne.KeyV, 0}, rooms: true, run: look(func(e *eye) { e.faceNext(1) })},
		&command{id: "wallbefore", menu: "View", submenu: true, title: "Wall before, looked at straight", more: "room seen from face previous", key: keys{fyne.KeyV, shift}, rooms: true, run: look(func(e *eye) { e.faceNext(-1) })},
		&command{id: "inside", menu: "View", submenu: true, title: "Step inside, at eye height", more: "room seen from step walk", key: keys{fyne.KeyI, 0}, rooms: true, run: look((*eye).stepInside)},
	)
	w.register(
		&command{id: "look", menu: "View", title: "Colours", section: true, children: w.looks},
	)
	w.register(
		&command{id: "book", menu: "Documents", title: "Print the job book…", more: "pdf paper elevations cut sheets export", key: keys{fyne.KeyP, ctrl}, run: func() { w.showPapers("book") }, can: func() bool { return w.model.Plan != nil }},
		&command{id: "papers", menu: "Documents", title: "All documents…", more: "export bid client page workbook spreadsheet xlsx csv calendar ics dxf svg drawing write", key: keys{fyne.KeyP, ctrl | alt}, run: func() { w.showPapers("") }, can: func() bool { return w.model.Plan != nil }},
		&command{id: "picture", menu: "Documents", title: "Save the room picture…", more: "png image export 4k 8k", key: keys{fyne.KeyP, ctrl | shift}, section: true, run: func() { w.model.WhenFound(w.savePicture) }, can: func() bool { return w.model.Plan != nil }},
		&command{id: "copy", menu: "Documents", title: "Copy the shopping list", more: "csv clipboard takeoff", key: keys{fyne.KeyC, ctrl | shift}, run: func() { w.model.WhenFound(w.views[2].(*shoppingView).copy) }, can: func() bool { return w.model.Plan != nil }},
		&command{id: "keys", menu: "Help", title: "Keys", more: "shortcuts", key: keys{fyne.KeyF1, 0}, run: w.showKeys},
		&command{id: "menus", menu: "Help", title: "Open the menus from the keyboard", key: keys{fyne.KeyF10, 0}, run: func() { w.bar.toggle(0) }},
		&command{id: "about", menu: "Help", title: "About", run: w.about},
	)
}

// sides are the views of the room.
func (w *Window) sides() []*command {
	names := map[string]string{"N": "the north", "NE": "the north-east", "E": "the east", "SE": "the south-east", "S": "the south", "SW": "the south-west",
		"W": "the west", "NW": "the north-west"}
	var list []*command
	for _, v := range scene.Views {
		if names[v] != "" {
			list = append(list, &command{title: names[v], run: func() { w.showTab(0); w.studio.room.look(v) }})
		}
	}
	return append(list, w.commandsNamed("turnright", "turnleft", "above", "nextwall", "wallbefore", "inside")...)
}

// lightCommands are what can be done with the lights.
func (w *Window) lightCommands() []*command {
	return w.commandsNamed("raking", "lower", "farther", "side", "reach", "lamps", "sheen", "level", "viewer", "marks")
}

// commandsNamed gathers commands by their ids.
func (w *Window) commandsNamed(ids ...string) (list []*command) {
	for _, id := range ids {
		list = append(list, w.command(id))
	}
	return list
}

// gaze is the eye that keys and menu move: of the rooms that are compared, else of the window's own.
func (w *Window) gaze() *eye {
	if w.compared != nil {
		return &w.compared.eye
	}
	return &w.studio.room.eye
}

// fit shows everything.
func (w *Window) fit() {
	if w.compared != nil {
		w.compared.eye.frameAll()
		return
	}
	w.studio.fit()
}

// looks are the colours that the window can have.
func (w *Window) looks() []*command {
	var list []*command
	for _, p := range Palettes() {
		list = append(list, &command{title: capital(p.Name), on: func() bool { return w.pal.Name == p.Name }, run: func() { w.colours(p) }})
	}
	return list
}

// colours shows the window in another palette.
func (w *Window) colours(p *Palette) {
	w.pal = p
	w.app.Preferences().SetString(prefLook, p.Name)
	w.app.Settings().SetTheme(&look{p})
	w.build()
	w.refresh(EverythingElse)
}

func (w *Window) switchUnits() {
	u := job.Metric
	if !w.imperial() {
		u = job.Imperial
	}
	w.try(planner.SetUnits{Units: u})
}

// stepBack goes back one level: a question open, letters typed, a corner, the tool, the finish in hand, what is picked,
// a view that fills the window.
func (w *Window) stepBack() {
	v := w.studio.plan
	switch {
	case w.over != nil:
		escape := w.over.escape
		w.lift()
		if escape != nil {
			escape()
		}
	case w.bar.open != nil:
		w.bar.close()
	case w.presenting:
		w.showClient(false)
	case v.pulling:
		v.pulling, v.held = false, draft.Target{}
		v.pic.pressed = false // what the hand still does until it lets go means nothing
		w.model.Cancel()
	case w.studio.strip.pulling:
		w.studio.strip.stop()
	case v.outline != nil:
		if v.outline.back() {
			v.stop()
		}
		v.pic.redraw()
	case v.opening != "":
		v.stop()
	case w.model.Finish != nil:
		w.model.Hold(nil)
	case w.model.Selected.Kind != draft.Nothing:
		w.model.Pick(draft.Target{})
	case w.studio.full != "":
		w.studio.toggle(w.studio.full)
	case w.model.searching():
		w.stopSearch()
		return
	}
	w.say("")
}

// fillView lets the view that has the keys fill the window, or come back.
func (w *Window) fillView() {
	w.showTab(0)
	s := w.studio
	switch {
	case s.full != "":
		s.toggle(s.full)
	case w.drawing == s.room.pic:
		s.toggle("room")
	case w.drawing == s.strip.pic:
		s.toggle("strip")
	default:
		s.toggle("plan")
	}
}

// touchAll gives every wall of the room shown the finish in hand, as one step.
func (w *Window) touchAll() {
	j := w.model.Doc.Job()
	r := findRoom(j, w.studio.strip.shown(j))
	if r == nil || w.model.Finish == nil {
		return
	}
	var all []string
	for i := range r.Walls {
		all = append(all, r.ID+"/"+r.Walls[i].ID)
	}
	if w.try(w.model.Doc.Lining(all, []job.Zone{zoneOf(w.model.Finish)})) {
		w.say(fmt.Sprintf("Every wall of %s: %s.", r.ID, layersName(j, w.model.Finish)))
	}
}

// addAlternative begins a variant from what is shown and shows it.
func (w *Window) addAlternative() {
	j := w.model.Doc.Job()
	name := ""
	for n := 1; ; n++ {
		name = "alternative " + strconv.Itoa(n)
		taken := false
		for _, a := range j.Alternatives {
			taken = taken || a.Name == name
		}
		if !taken {
			break
		}
	}
	if !w.try(planner.AddAlternative{Name: name, From: w.model.Doc.Active()}) {
		return
	}
	w.activate(name)
	w.model.Pick(draft.Target{})
	w.say("What you choose now is kept in “" + name + "” only. Its name stands below; As drawn goes back.")
}

func (w *Window) nextAlternative() {
	names := []string{""}
	at := 0
	for i, a := range w.model.Doc.Job().Alternatives {
		names = append(names, a.Name)
		if a.Name == w.model.Doc.Active() {
			at = i + 1
		}
	}
	w.activate(names[(at+1)%len(names)])
}

// showTabNamed brings a view to the front by its name.
func (w *Window) showTabNamed(name string) {
	w.invoke(w.command("tab-" + name))
}
