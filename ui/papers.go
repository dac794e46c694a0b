package ui

import (
	"context"
	"path/filepath"
	"slices"

	"seamwright/assets/words"
	"seamwright/scene/document"
	"seamwright/scene/document/ask"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
)

// papers is the view of all that the project can be written as: the documents at the left with what can be asked of the
// one that is chosen, its pages at the right as they will be printed. It lies over the window, as the comparison does.
type papers struct {
	w     *Window
	asked *paperChoice
	ctx   context.Context // ends when the view goes

	box     *fyne.Container
	kinds   []*button
	options *fyne.Container
	scroll  *container.Scroll
	preview *paperPreview
	write   *button
	told    *canvas.Text // how far a document that is being written is, and what became of it
	stop    *button
	folder  *button
}

// paperChoice is what was asked for last; it outlives the view.
type paperChoice struct {
	kind     string
	language words.Language
	paper    ask.Paper // "": what goes with the project's units
	prices   ask.Prices
	markup   int                        // hundredths of a percent
	without  map[string]map[string]bool // parts that are left out, by kind
	one      map[string]string          // the part that was chosen, by kind, of those that hold one
	page     map[string]int             // the page that was looked at, by kind
}

func newPaperChoice() *paperChoice {
	return &paperChoice{kind: document.Kinds()[0].ID, language: words.English, prices: ask.ForBuilder, without: map[string]map[string]bool{}, one: map[string]string{}, page: map[string]int{}}
}

// The measures of the view.
const (
	papersLeft float32 = 316
	papersLine float32 = 28
	papersFoot float32 = 40
)

// showPapers opens the view on a kind of document, "" the one that was chosen last. It waits for the full answer: what is
// printed is not a first draft.
func (w *Window) showPapers(kind string) {
	if !w.model.settled() {
		w.say(w.voice().Text("papers.waiting"))
	}
	w.model.WhenFound(func() {
		if w.papersAsked == nil {
			w.papersAsked = newPaperChoice()
		}
		if kind != "" {
			w.papersAsked.kind = kind
		}
		w.openPapers()
	})
}

func (w *Window) openPapers() {
	ctx, stop := context.WithCancel(context.Background())
	v := &papers{w: w, asked: w.papersAsked, ctx: ctx, options: container0()}
	v.preview = newPaperPreview(v)
	heading := w.pal.heading(w.voice().Text("papers.title"))
	closer := newButton(w.pal, pill, w.voice().Text("papers.close"), w.stepBack)
	v.write = newButton(w.pal, pill, "", v.save)
	v.write.on = true
	v.told = w.pal.text("", sizeText, false, w.pal.Ink)
	v.stop = newButton(w.pal, pill, w.voice().Text("papers.stop"), func() { w.paperWork.stop() })
	v.folder = newButton(w.pal, pill, w.voice().Text("papers.folder"), func() { w.openFolder(w.paperWork.path) })
	list := container0()
	for i, k := range document.Kinds() {
		b := newButton(w.pal, plainItem, w.voice().Text(k.Name), func() { v.choose(k.ID) })
		put(b, 0, float32(i)*papersLine, papersLeft, papersLine)
		v.kinds = append(v.kinds, b)
		list.Add(b)
	}
	v.scroll = container.NewVScroll(v.options)
	listHigh := papersLine * float32(len(v.kinds))
	v.box = laidOut(arrange{fyne.NewSize(760, 520), func(size fyne.Size) {
		put(heading, 4, 4, papersLeft, heading.MinSize().Height)
		put(list, 0, 36, papersLeft, listHigh)
		put(v.scroll, 4, 36+listHigh+grid, papersLeft, size.Height-36-listHigh-grid-papersFoot)
		m := v.write.MinSize()
		put(v.write, 4, size.Height-m.Height, m.Width, m.Height)
		c := closer.MinSize()
		put(closer, size.Width-c.Width, 2, c.Width, c.Height)
		x := papersLeft + 2*grid
		v.preview.place(x, fyne.NewSize(size.Width, size.Height-papersFoot), c.Width+grid)
		v.placeFoot(x, size)
	}}, heading, list, v.scroll, v.write, closer, v.preview.box, v.told, v.stop, v.folder)
	for _, b := range append([]*button{closer, v.write, v.stop, v.folder}, v.kinds...) {
		b.keys = v.key
	}
	w.cover(v.box, func() {
		stop()
		w.papers = nil
		v.preview.close()
	})
	w.papers = v
	v.refresh()
	w.win.Canvas().Focus(v.preview.pic)
}

// placeFoot lays the line about the document that is being written, right of x.
func (v *papers) placeFoot(x float32, size fyne.Size) {
	at := size.Width
	for _, b := range []*button{v.stop, v.folder} {
		if b.Visible() {
			m := b.MinSize()
			at -= m.Width
			put(b, at, size.Height-m.Height, m.Width, m.Height)
			at -= grid
		}
	}
	v.told.Text = ""
	if k := v.w.paperWork; k != nil {
		v.told.Text = fit(v.w.tellPaperWork(k), sizeText, false, max(40, at-x))
	}
	high := v.told.MinSize().Height
	put(v.told, x, size.Height-(target+high)/2, at-x, high)
}

// showPaperWork follows a document that is being written, where the view is open.
func (w *Window) showPaperWork() {
	v := w.papers
	if v == nil {
		return
	}
	k := w.paperWork
	shownIf(v.stop, k != nil && !k.over)
	shownIf(v.folder, k != nil && k.over && k.written)
	v.write.off = k != nil && !k.over
	v.write.Refresh()
	v.placeFoot(papersLeft+2*grid, v.box.Size())
	v.box.Refresh()
}

// tellPaperWork says how far a document is, or what became of it.
func (w *Window) tellPaperWork(k *paperWork) string {
	switch say, name := w.voice(), filepath.Base(k.path); {
	case k.over:
		return k.told
	case k.total > 0:
		return say.Text("papers.writing-page", "file", name, "page", k.done, "of", k.total)
	default:
		return say.Text("papers.writing", "file", name)
	}
}

// kind is the document that is chosen.
func (v *papers) kind() document.Kind {
	k, ok := document.Find(v.asked.kind)
	if !ok {
		return document.Kinds()[0]
	}
	return k
}

func (v *papers) choose(id string) {
	v.asked.kind = id
	v.refresh()
}

// refresh shows what is asked for, and lays its pages anew.
func (v *papers) refresh() {
	say := v.w.voice()
	for i, k := range document.Kinds() {
		v.kinds[i].set(say.Text(k.Name), k.ID == v.asked.kind)
	}
	v.write.set(say.Text("papers.write"), true)
	v.layOptions()
	v.w.showPaperWork()
	v.preview.lay()
}

// request is what is asked of the document now.
func (v *papers) request() document.Request {
	m, c, k := v.w.model, v.asked, v.kind()
	r := document.Request{Job: m.Doc.Job(), Plan: m.Plan, Voice: words.In(c.language, v.w.units()), Made: v.w.now(), Paper: v.paper(), Prices: c.prices, Markup: c.markup}
	if k.Client && r.Prices == ask.ForBuilder {
		r.Prices = ask.ForClient
	}
	if k.Parts == nil {
		return r
	}
	parts := k.Parts(&r)
	switch {
	case k.One && len(parts) > 0:
		r.Parts = []string{parts[max(0, slices.IndexFunc(parts, func(p ask.Part) bool { return p.ID == c.one[k.ID] }))].ID}
	default:
		for _, p := range parts {
			if !c.without[k.ID][p.ID] {
				r.Parts = append(r.Parts, p.ID)
			}
		}
	}
	return r
}

// paper is the paper that is asked for.
func (v *papers) paper() ask.Paper {
	if v.asked.paper != "" {
		return v.asked.paper
	}
	return ask.PaperOf(v.w.model.Doc.Job().Units)
}

// key turns the pages; the rest is the window's.
func (v *papers) key(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyPageDown, fyne.KeyRight:
		v.preview.turn(1)
	case fyne.KeyPageUp, fyne.KeyLeft:
		v.preview.turn(-1)
	default:
		v.w.typedKey(e)
	}
}
