package ui

import (
	"seamwright/calc/plan"
	"seamwright/scene/draft"

	"fyne.io/fyne/v2"
)

// checksView is every finding of the rule book, broken rules first; a click goes to the place.
type checksView struct {
	w     *Window
	page  *page
	table *table
	notes bool
}

func newChecksView(w *Window) *checksView {
	v := &checksView{w: w, notes: true}
	v.table = newTable(w, "Nothing to look at.", tableColumn{"", 110, false}, tableColumn{title: ""}, tableColumn{"", 60, true})
	v.page = w.newPage(v.table, newButton(w.pal, pill, "Explain all", v.explain), newButton(w.pal, pill, "Notes too", v.toggle))
	v.page.buttons[1].on = true
	return v
}

func (v *checksView) name() string {
	broken, caution := 0, 0
	if a := v.w.model.Plan; a != nil {
		for _, k := range a.Checks {
			switch k.Level {
			case plan.Error:
				broken++
			case plan.Caution:
				caution++
			}
		}
	}
	if broken+caution == 0 {
		return "Checks"
	}
	return "Checks " + thousands(int64(broken+caution))
}

func (v *checksView) object() fyne.CanvasObject { return v.page.box }

func (v *checksView) explain() {
	b := v.page.buttons[0]
	b.set(map[bool]string{true: "Close all", false: "Explain all"}[!b.on], !b.on)
	v.refresh(ViewChanged)
}

func (v *checksView) toggle() {
	v.notes = !v.notes
	v.page.buttons[1].set("Notes too", v.notes)
	v.refresh(ViewChanged)
}

// levelWords say how grave a finding is.
var levelWords = map[plan.Level]string{plan.Error: "rule broken", plan.Caution: "caution", plan.Note: "note"}

func (v *checksView) refresh(Change) {
	if f := v.w.model.Fault; f != nil {
		v.table.set([]tableRow{{heading: "The calculation gave no answer", detail: f.Error()}})
		return
	}
	a := v.w.model.Plan
	if a == nil {
		v.table.set(nil)
		return
	}
	p := v.w.pal
	var rows []tableRow
	for _, level := range []plan.Level{plan.Error, plan.Caution, plan.Note} {
		if level == plan.Note && !v.notes {
			continue
		}
		for _, k := range a.Checks {
			if k.Level != level {
				continue
			}
			row := tableRow{shown: true, detail: v.w.tell(k.Says), tapped: func() { v.w.goTo(k) },
				cells: []cell{{text: capital(levelWords[level]), ink: p.Quiet}, {text: whereWords(k.Where), bold: true}, {text: "show", ink: p.Accent}}}
			if v.page.buttons[0].on {
				row.detail += "\nRule: " + k.Rule + ". Source: " + v.w.voice().Fact(k.Source)
			}
			switch level {
			case plan.Error:
				row.mark = p.Error
			case plan.Caution:
				row.mark = p.Caution
			}
			rows = append(rows, row)
		}
	}
	rows = append(rows, v.before(a)...)
	v.table.set(rows)
	v.page.say("What the program points out is for you and your local building authority to judge; it is no approval.")
}

// before is what to look at and photograph while it can still be seen.
func (v *checksView) before(a *plan.Plan) []tableRow {
	if len(a.Before) == 0 {
		return nil
	}
	rows := []tableRow{{heading: "Look at and photograph before it is covered"}}
	for _, k := range a.Before {
		row := tableRow{shown: true, detail: v.w.tell(k.Text), tapped: func() { v.w.lookAt(k) },
			cells: []cell{{text: capital(k.What), ink: v.w.pal.Quiet}, {text: whereWords(k.Surface), bold: true}, {text: "show", ink: v.w.pal.Accent}}}
		if v.page.buttons[0].on {
			row.detail += "\nSource: " + v.w.voice().Fact(k.Source)
		}
		rows = append(rows, row)
	}
	return rows
}

// lookAt shows the surface of something to look at.
func (w *Window) lookAt(k plan.Look) {
	w.showTab(0)
	w.pickSurface(k.Surface)
	w.studio.room.face(k.Surface)
	w.say(w.tell(k.Text) + " (" + w.voice().Fact(k.Source) + ")")
}

// whereWords names the place of a check.
func whereWords(where string) string {
	if where == "" {
		return "The whole job"
	}
	return draft.SurfaceName(where)
}

// goTo shows the place of a check in the drawings.
func (w *Window) goTo(k plan.Check) {
	w.showTab(0)
	w.say(w.tell(k.Says) + " (" + w.voice().Fact(k.Source) + ")")
	if k.Where == "" {
		return
	}
	for i, x := range w.model.Plan.Checks {
		if x.Same(k) {
			if wall, ceiling := findSurface(w.model.Doc.Job(), k.Where); wall != nil || ceiling != nil {
				w.model.Pick(draft.Target{Kind: draft.OnCheck, Room: roomOf(k.Where), Surface: k.Where, Index: i, At: k.At})
				w.studio.room.face(k.Where)
				return
			}
		}
	}
	if findRoom(w.model.Doc.Job(), roomOf(k.Where)) != nil {
		w.model.Pick(draft.Target{Kind: draft.OnRoom, Room: roomOf(k.Where)})
	}
}
