package ui

import (
	"fmt"
	"image"

	"seamwright/calc/plan"
	"seamwright/scene/draft"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
)

// sheetsView is how every sheet is cut up: the list at the left, the sheet with its cuts in order at the right.
type sheetsView struct {
	w     *Window
	page  *page
	pic   *picture
	table *table
	shows string // sheet id
	step  int    // cuts done, 0: none
	panel string
}

func newSheetsView(w *Window) *sheetsView {
	v := &sheetsView{w: w}
	v.pic = newPicture(w, v, v.draw)
	v.table = newTable(w, "No sheets yet.", tableColumn{"sheet", 48, false}, tableColumn{title: "of"}, tableColumn{"pieces", 44, true}, tableColumn{"cuts", 36, true})
	split := container.NewHSplit(v.table, v.pic)
	split.Offset = 0.36
	v.page = w.newPage(split, newButton(w.pal, pill, "Cut back", func() { v.cut(-1) }), newButton(w.pal, pill, "Next cut", func() { v.cut(1) }),
		newButton(w.pal, pill, "Previous sheet", func() { v.turn(-1) }), newButton(w.pal, pill, "Next sheet", func() { v.turn(1) }))
	return v
}

func (v *sheetsView) name() string              { return "Cut sheets" }
func (v *sheetsView) object() fyne.CanvasObject { return v.page.box }

func (v *sheetsView) index() int {
	if a := v.w.model.Plan; a != nil {
		for i := range a.Sheets {
			if a.Sheets[i].ID == v.shows {
				return i
			}
		}
	}
	return 0
}

func (v *sheetsView) sheet() *plan.Sheet {
	a := v.w.model.Plan
	if a == nil || len(a.Sheets) == 0 {
		return nil
	}
	return &a.Sheets[v.index()]
}

func (v *sheetsView) draw(width, height float64) func(*image.RGBA, float64) {
	sheet, a, j, th := v.sheet(), v.w.model.Plan, v.w.model.Doc.Job(), v.w.pal.Theme
	state := draft.CutState{Step: v.step, Panel: v.panel}
	pane := v.w.pal.Pane
	return func(img *image.RGBA, scale float64) {
		c := draft.NewRaster(img, scale)
		c.Fill(draft.Rect{W: width, H: height}.Path(), pane)
		if sheet != nil {
			draft.DrawCutSheet(c, th, sheet, a, j, v.into(width, height), state)
		}
	}
}

func (v *sheetsView) into(width, height float64) draft.Rect {
	return draft.Rect{X: 16, Y: 8, W: width - 24, H: height - 16}
}

func (v *sheetsView) refresh(Change) {
	a := v.w.model.Plan
	if a == nil {
		v.table.set(nil)
		v.pic.redraw()
		return
	}
	j := v.w.model.Doc.Job()
	var rows []tableRow
	for i := range a.Sheets {
		s := &a.Sheets[i]
		on := s.ID == v.sheet().ID
		from := v.w.size(s.Size[0], s.Size[1]) + " " + shortLayers(j, []string{s.Product})
		if s.Source == plan.Stock {
			from += ", on hand"
		}
		ink := v.w.pal.Ink
		if on {
			ink = v.w.pal.Accent
		}
		rows = append(rows, tableRow{tapped: func() { v.show(s.ID) }, cells: []cell{{text: s.ID, bold: on, ink: ink}, {text: from, ink: ink},
			{text: thousands(int64(len(s.Parts) + len(s.Slants()))), ink: ink}, {text: thousands(int64(len(s.Cuts) + len(s.Slants()))), ink: ink}}})
	}
	v.table.set(rows)
	words := ""
	if s := v.sheet(); s != nil {
		words = fmt.Sprintf("%s, sheet %d of %d", s.ID, v.index()+1, len(a.Sheets))
		if n := len(s.Cuts) + len(s.Slants()); n > 0 {
			words += fmt.Sprintf(": cut %d of %d done", v.step, n)
		} else {
			words += ": hung in one piece"
		}
	}
	v.page.say(words)
	v.pic.redraw()
}

// show brings one sheet up.
func (v *sheetsView) show(id string) {
	v.shows, v.step, v.panel = id, 0, ""
	v.refresh(ViewChanged)
}

func (v *sheetsView) turn(by int) {
	if a := v.w.model.Plan; a != nil && len(a.Sheets) > 0 {
		n := len(a.Sheets)
		v.show(a.Sheets[(v.index()+by+n)%n].ID)
		v.table.list.ScrollTo(v.index())
	}
}

func (v *sheetsView) cut(by int) {
	if s := v.sheet(); s != nil {
		v.step = max(0, min(len(s.Cuts)+len(s.Slants()), v.step+by))
		v.refresh(ViewChanged)
	}
}

// showCutSheet brings up the sheet that a panel is cut from.
func (w *Window) showCutSheet(panel string) {
	v := w.views[1].(*sheetsView)
	if w.model.Plan != nil {
		for i := range w.model.Plan.Sheets {
			for _, p := range w.model.Plan.Sheets[i].Parts {
				if p.Panel == panel || p.Pair != nil && p.Pair.Panel == panel {
					v.shows, v.step, v.panel = w.model.Plan.Sheets[i].ID, 0, panel
				}
			}
		}
	}
	w.showTab(1)
}

// foundSheets are the sheets for the finder, by their own ids and those of their pieces.
func (w *Window) foundSheets() []found {
	if w.model.Plan == nil {
		return nil
	}
	var all []found
	for i := range w.model.Plan.Sheets {
		s := &w.model.Plan.Sheets[i]
		one := found{words: "Sheet " + s.ID, where: "Cut sheets", run: func() {
			v := w.views[1].(*sheetsView)
			v.shows, v.step, v.panel = s.ID, 0, ""
			w.showTab(1)
		}}
		for _, q := range s.Parts {
			one.more += " " + q.Panel
			if q.Pair != nil {
				one.more += " " + q.Pair.Panel
			}
		}
		all = append(all, one)
	}
	return all
}

// whereHangs is the surface that a panel hangs on.
func (m *Model) whereHangs(panel string) string {
	if m.Plan == nil {
		return ""
	}
	for i := range m.Plan.Surfaces {
		for _, z := range m.Plan.Surfaces[i].Zones {
			for _, p := range z.Panels {
				if p.ID == panel {
					return m.Plan.Surfaces[i].ID
				}
			}
		}
	}
	return ""
}

func (v *sheetsView) part(at draft.Pt) string {
	s := v.sheet()
	if s == nil {
		return ""
	}
	width, height := v.pic.size()
	return draft.CutSheetHit(s, v.w.model.Doc.Job(), v.into(width, height), at)
}

func (v *sheetsView) click(at draft.Pt, _ desktop.MouseButton, _ fyne.KeyModifier) {
	v.panel = v.part(at)
	if v.panel != "" {
		if where := v.w.model.whereHangs(v.panel); where != "" {
			v.w.model.Pick(draft.Target{Kind: draft.OnPanel, Room: roomOf(where), Surface: where, Panel: v.panel})
			v.w.say(v.w.panelWords(v.w.model.Selected) + ". Double click shows it on its wall.")
		}
	}
	v.pic.redraw()
}

func (v *sheetsView) double(at draft.Pt) {
	if v.part(at) != "" {
		v.w.showTab(0)
	}
}

func (v *sheetsView) key(e *fyne.KeyEvent) bool {
	switch e.Name {
	case fyne.KeyRight:
		v.cut(1)
	case fyne.KeyLeft:
		v.cut(-1)
	case fyne.KeyDown:
		v.turn(1)
	case fyne.KeyUp:
		v.turn(-1)
	default:
		return false
	}
	return true
}

func (v *sheetsView) hover(draft.Pt)                                       {}
func (v *sheetsView) leave()                                               {}
func (v *sheetsView) down(draft.Pt, desktop.MouseButton, fyne.KeyModifier) {}
func (v *sheetsView) drag(draft.Pt, draft.Pt)                              {}
func (v *sheetsView) release(bool)                                         {}
func (v *sheetsView) scroll(draft.Pt, float64)                             {}
func (v *sheetsView) typed(rune) bool                                      { return false }
func (v *sheetsView) cursor() desktop.Cursor                               { return desktop.DefaultCursor }
