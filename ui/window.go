// Package ui is the one window: the rack of finishes at the left, the views of the plan in the middle, the ledger at
// the right. It draws and asks; it computes nothing of the trade. Everything shown comes from the document and from
// the last answer of the calculation, which runs elsewhere: the window never waits for it, and figures stay as they
// are until new ones arrive. All of the package runs on the toolkit's own goroutine, save for drawings that take
// longer than a moment.
package ui

import (
	"errors"
	"fmt"
	"runtime/debug"
	"strings"
	"time"

	"seamwright/calc/guard"
	"seamwright/calc/job"
	"seamwright/planner"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// Options is what the window is given from outside.
type Options struct {
	Prompt    planner.Calculate // the calculation for an answer within a frame, as calc.Prompt with a memo bound; nil: none
	Calculate planner.Calculate // the whole calculation, as calc.Plan with the same memo
	// Sample makes an unsaved copy of the project that the window starts with; nil starts with an empty one.
	Sample func() (*planner.Document, error)
	// Post runs a function on the window's goroutine; nil: the toolkit's own way.
	Post func(func())
	// Still draws every picture at once and moves nothing by itself; for tests.
	Still bool
	// Frame is told, while a room moves, what each frame has cost, drawn and presented, and how long after the one before
	// it began; nil: nobody is.
	Frame func(cost, apart time.Duration)
	// Edited is told the text after every change of the document; nil: nobody is.
	Edited func(source []byte)
	// Trim gives memory back that others than this program's own code hold, once nothing changes; nil: nothing can.
	Trim func()
	// Today is the civil day, for ticking tasks.
	Today func() job.Date
}

// Window is the program's window.
type Window struct {
	app     fyne.App
	win     fyne.Window
	options Options
	pal     *Palette
	model   *Model

	commands []*command
	pictures []*picture      // all that there are
	drawing  *picture        // the drawing that had the focus last
	tidy     *time.Timer     // gives memory back when nothing changes any more
	rested   int             // how often it has since the last change
	note     string          // what the program has to say
	unkept   string          // what was said last of edits that are not kept
	owing    bool            // unsaved work is still to be offered
	over     *over           // what must be answered or closed first, nil: nothing
	question []answer        // a question that waits for its answer
	fault    planner.Errors  // the faults of the file that could not be opened last
	reports  map[string]bool // faults of the program that have been reported, by file

	desk     *desk
	bar      *bar
	rack     *rack
	ledger   *ledger
	noteLine *noteLine
	tabs     *tabRow
	views    []view
	studio   *studio
	tab      int

	compared   *comparison // alternatives side by side over the window, nil: none
	presenting bool        // a client looks: nothing but room, legend and price

	papers      *papers      // the view of the documents while it is open
	papersAsked *paperChoice // what was asked of them last
	paperWork   *paperWork   // the document that was written last, or is being written
}

// view is what stands in the middle of the window under one of its tabs.
type view interface {
	name() string
	object() fyne.CanvasObject
	refresh(Change)
}

// New makes the window on a document and shows nothing yet.
func New(app fyne.App, doc *planner.Document, options Options) *Window {
	if options.Post == nil {
		options.Post = fyne.Do
	}
	w := &Window{app: app, options: options, pal: paletteNamed(app.Preferences().String(prefLook))}
	app.Settings().SetTheme(&look{w.pal})
	w.win = app.NewWindow("Seamwright")
	w.win.SetPadded(false)
	w.model = NewModel(doc, options.Prompt, options.Calculate, w.post)
	w.addCommands()
	w.build()
	w.model.Listen(w.noteEdits)
	w.model.Listen(w.refresh)
	w.model.Listen(w.proven)
	w.model.Listen(w.tellUnkept)
	w.keep(doc)
	w.win.Canvas().SetOnTypedKey(w.typedKey)
	w.win.SetCloseIntercept(func() { defer guard.Catch(w.faulted); w.askToClose() })
	w.win.SetOnDropped(func(at fyne.Position, files []fyne.URI) { defer guard.Catch(w.faulted); w.dropped(at, files) })
	w.win.Resize(fyne.NewSize(1280, 800))
	w.refresh(EverythingElse)
	return w
}

// Show puts the window on the screen.
func (w *Window) Show() {
	w.win.Show()
	w.offerRecovery()
	w.offerLate()
	w.watch()
}

// What the window remembers from run to run.
const (
	prefLook = "look"
)

// build makes every widget in the present colours. It is called once, and again when the colours change.
func (w *Window) build() {
	w.pal.failed = w.faulted
	for _, p := range w.pictures {
		p.leave(p.drop)
	}
	w.pictures, w.drawing = nil, nil
	w.desk = newDesk(w)
	w.bar = newBar(w)
	w.rack = newRack(w)
	w.ledger = newLedger(w)
	w.noteLine = newNoteLine(w)
	w.studio = newStudio(w)
	w.views = nil
	w.add(w.studio)
	w.add(newSheetsView(w))
	w.add(newShoppingView(w))
	w.add(newSequenceView(w))
	w.add(newPriceView(w))
	w.add(newChecksView(w))
	w.add(newJobView(w))
	w.tabs = newTabRow(w)
	w.tab = min(w.tab, len(w.views)-1)
	objects := []fyne.CanvasObject{w.desk.box, w.rack.box, w.ledger.box, w.noteLine.box, w.tabs.box}
	for _, v := range w.views {
		objects = append(objects, v.object())
	}
	objects = append(objects, w.bar.box) // last, so that nothing lies over it
	w.win.SetContent(laidOut(arrange{fyne.NewSize(1000, 640), w.place}, objects...))
	w.showTab(w.tab)
}

// add adds a view, to which the pictures belong that were made for it.
func (w *Window) add(v view) {
	for _, p := range w.pictures {
		if p.view == nil {
			p.view = v
		}
	}
	w.views = append(w.views, v)
}

// The fixed measures of the window.
const (
	rackWidth   float32 = 104
	ledgerWidth float32 = 304
	tabsHeight  float32 = 40
	noteHeight  float32 = 26
)

// place lays the window out: the middle takes what rack and ledger leave.
func (w *Window) place(size fyne.Size) {
	if w.presenting {
		put(w.studio.object(), 0, 0, size.Width, size.Height)
		return
	}
	put(w.bar.box, 0, 0, size.Width, barHeight)
	w.bar.place(fyne.NewSize(size.Width, barHeight))
	below := size.Height - barHeight
	put(w.desk.box, 0, barHeight, size.Width, below)
	put(w.rack.box, 0, barHeight, rackWidth, below)
	put(w.ledger.box, size.Width-ledgerWidth-grid, barHeight+grid, ledgerWidth, below-2*grid)
	x, width := rackWidth, size.Width-rackWidth-ledgerWidth-2*grid
	put(w.tabs.box, x, barHeight, width, tabsHeight)
	put(w.noteLine.box, x, size.Height-noteHeight, width, noteHeight)
	for _, v := range w.views {
		put(v.object(), x, barHeight+tabsHeight, width, below-tabsHeight-noteHeight)
	}
	w.spread()
}

// spread paints the desk between ledger and views.
func (w *Window) spread() {
	if w.tab >= len(w.views) {
		return // they are being made
	}
	top := fyne.NewPos(0, -barHeight)
	sheets := []area{areaOf(w.ledger.box, top)}
	front := w.views[w.tab].object()
	if s := w.studio; front == s.object() {
		sheets = append(sheets, areaOf(s.inspector.box, front.Position().Add(top)))
		for _, name := range []string{"plan", "room", "strip"} {
			if box := s.panes[name].box; box.Visible() {
				sheets = append(sheets, areaOf(box, front.Position().Add(top)))
			}
		}
	} else {
		sheets = append(sheets, areaOf(front, top))
	}
	w.desk.spread(sheets)
}

// showTab brings one view to the front.
func (w *Window) showTab(i int) {
	if w.presenting {
		i = 0
	}
	w.tab = i
	for k, v := range w.views {
		if k == i {
			v.object().Show()
		} else {
			v.object().Hide()
		}
	}
	w.spread()
	w.tabs.refresh()
	w.noteLine.refresh()
	w.views[i].refresh(EverythingElse)
}

// turnTo brings a view to the front at the user's wish; the keys go with it.
func (w *Window) turnTo(i int) {
	w.showTab(i)
	w.say("")
	w.focusDrawing()
}

// visible says whether a picture is on the screen, so that no other is drawn.
func (w *Window) visible(p *picture) bool {
	return p.Visible() && p.view != nil && p.view.object().Visible()
}

// refresh shows what is new.
func (w *Window) refresh(c Change) {
	defer guard.Catch(w.faulted)
	if c&(DocumentChanged|ViewChanged) != 0 {
		w.bar.refresh()
		w.win.SetTitle(w.model.Doc.Title() + " – Seamwright")
	}
	w.tidyLater()
	w.rack.refresh(c)
	w.ledger.refresh(c)
	w.noteLine.refresh()
	w.tabs.refresh()
	w.views[w.tab].refresh(c)
	if c&PlanChanged != 0 && c != EverythingElse {
		w.faultedAnswer(w.model.Fault)
	}
}

// How long nothing must change before memory is given back, and how long after that the toolkit is asked to forget what
// it has not drawn for a minute, which it does when it next draws: one frame is drawn then.
const (
	restForTidy = 4 * time.Second
	forgetAfter = 70 * time.Second
	drawnBy     = time.Second
)

// tidyLater gives memory that the last changes needed back to the system, once nothing changes any more.
func (w *Window) tidyLater() {
	if w.options.Still {
		return
	}
	w.rested = 0
	if w.tidy == nil {
		w.tidy = time.AfterFunc(restForTidy, func() { w.post(w.tidyUp) })
		return
	}
	w.tidy.Reset(restForTidy)
}

// tidyUp lets go of what is not on the screen; after a longer rest also of what the toolkit keeps of it.
func (w *Window) tidyUp() {
	covered := !w.win.Content().Visible()
	for _, p := range w.pictures {
		p.spare(p.always || !covered && w.visible(p))
	}
	w.studio.room.spare(!covered && w.visible(w.studio.room.pic))
	w.rested++
	if w.tidy != nil && w.rested == 1 {
		w.tidy.Reset(forgetAfter)
	}
	if w.tidy != nil && w.rested == 2 {
		canvas.Refresh(w.noteLine.box)
		w.tidy.Reset(drawnBy)
		return
	}
	w.elsewhere(func() func() {
		debug.FreeOSMemory()
		if w.options.Trim != nil {
			w.options.Trim()
		}
		return nil
	}, nil)
}

// say puts a sentence on the note line; it stays until the next action has something else to say.
func (w *Window) say(sentence string) {
	w.note = sentence
	w.noteLine.refresh()
}

// try makes an edit and says what stands against it.
func (w *Window) try(e planner.Edit) bool {
	if err := w.model.Do(e); err != nil {
		w.say(sentence(err))
		return false
	}
	w.say("")
	return true
}

// focusDrawing gives the keys back to the drawing that had them last.
func (w *Window) focusDrawing() {
	c := w.win.Canvas()
	if w.drawing != nil && w.drawing.Visible() && w.tab == 0 {
		c.Focus(w.drawing)
		return
	}
	c.Unfocus()
}

func (w *Window) imperial() bool { return w.model.Doc.Job().Units != job.Metric }

// savedState says in words whether the document is safe.
func (w *Window) savedState() string {
	d := w.model.Doc
	switch {
	case d.Path() == "":
		return "not saved yet"
	case d.Dirty():
		return "changed since saved"
	}
	return "all changes saved"
}

// sentence makes an error fit to be read: a capital, a full stop, and only the first of several lines.
func sentence(err error) string {
	if list, ok := err.(planner.Errors); ok && len(list) > 0 {
		s := list[0].Message
		if list[0].Remedy != "" {
			s += ": " + list[0].Remedy
		}
		err = fmt.Errorf("%s", s)
	}
	s, _, _ := strings.Cut(err.Error(), "\n")
	if s == "" {
		return s
	}
	r := []rune(s)
	s = strings.ToUpper(string(r[0])) + string(r[1:])
	if !strings.HasSuffix(s, ".") {
		s += "."
	}
	return s
}

// Run serves the window until it is closed. Work that was neither saved nor given up by then is kept for the next start.
// Whatever the window itself does is guarded where it begins; a fault of the toolkit beneath it, which cannot go on after
// one, is reported, and the work is kept like any other.
func (w *Window) Run() error {
	fault := guard.Do(func() error { w.app.Run(); return nil })
	var f *guard.Fault
	if errors.As(fault, &f) {
		path, err := planner.Report(f, w.model.Doc.Source())
		fault = fmt.Errorf("%w. Unsaved work is offered at the next start. The report is %s", fault, path)
		if err != nil {
			fault = fmt.Errorf("%w. No report could be written: %w", fault, err)
		}
	}
	return errors.Join(fault, w.model.Doc.Leave())
}
