package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
	"github.com/sahilm/fuzzy"
)

// The finder's size: as many lines as can be read at a glance.
const (
	finderWidth float32 = 520
	finderLines         = 11
	finderLine  float32 = 28
)

// found is one line of the finder: an action or a place.
type found struct {
	words string // what it is called
	where string // its menu, or what kind of place it is
	key   string
	more  string // further words it answers to
	short string // what it is ranked by, "": the words; the rest of them, as a file's folder, is looked at last
	run   func()
}

// Finder finds actions and places by a few letters of their names.
type finder struct {
	w     *Window
	all   []found
	hits  []found
	at    int
	entry *entry
	lines *fyne.Container
	popup *widget.PopUp
}

// find offers everything that can be done or gone to.
func (w *Window) find() {
	f := &finder{w: w, all: w.findable()}
	f.entry = newEntry(w, "what do you want to do, or where do you want to go?")
	f.entry.OnChanged = f.search
	f.entry.onKey = f.key
	f.lines = container0()
	box := laidOut(arrange{fyne.NewSize(finderWidth, 36+finderLines*finderLine), func(size fyne.Size) {
		put(f.entry, 0, 0, size.Width, 30)
		put(f.lines, 0, 36, size.Width, size.Height-36)
	}}, f.entry, f.lines)
	f.popup = widget.NewPopUp(w.framed(box), w.win.Canvas())
	size := w.win.Canvas().Size()
	f.popup.ShowAtPosition(fyne.NewPos(max(8, (size.Width-finderWidth)/2), barHeight+24))
	w.win.Canvas().Focus(f.entry)
	f.search("")
}

// findable lists actions first, then the places of the project.
func (w *Window) findable() []found {
	var all []found
	for _, c := range w.commands {
		if c.children != nil {
			all = append(all, children(c)...)
		}
		if c.run == nil || !c.enabled() {
			continue
		}
		all = append(all, found{words: c.label(), where: c.menu, key: c.key.String(), more: c.more, run: func() { w.invoke(c) }})
	}
	return append(append(all, w.places()...), w.foundSheets()...)
}

// children are the entries of a submenu, with the submenu's words before them.
func children(c *command) []found {
	var all []found
	for _, child := range c.children() {
		if child.id == "" && child.enabled() { // one with a name is found by itself
			one := found{words: c.title + ": " + child.title, where: c.menu, run: child.run}
			if child.short != "" {
				one.short = c.title + ": " + child.short
			}
			all = append(all, one)
		}
	}
	return all
}

// search keeps the lines that have the letters in this order, best first; those that have them in one run lead. Files of
// which only the folder has them come last.
func (f *finder) search(letters string) {
	f.hits, f.at = nil, 0
	if letters == "" {
		f.hits = f.all
	} else {
		names := make([]string, len(f.all))
		for i, x := range f.all {
			name := x.words
			if x.short != "" {
				name = x.short
			}
			names[i] = name + " " + x.where + " " + x.more
		}
		var parted []found
		taken := map[int]bool{}
		for _, m := range fuzzy.Find(letters, names) {
			taken[m.Index] = true
			if has(m.Str, letters) {
				f.hits = append(f.hits, f.all[m.Index])
			} else {
				parted = append(parted, f.all[m.Index])
			}
		}
		f.hits = append(f.hits, parted...)
		for i, x := range f.all {
			if !taken[i] && x.short != "" && has(x.words, letters) {
				f.hits = append(f.hits, x)
			}
		}
	}
	f.show()
}

// has says whether words have the letters in one run, in whatever case.
func has(words, letters string) bool {
	return strings.Contains(strings.ToLower(words), strings.ToLower(letters))
}

func (f *finder) show() {
	p := f.w.pal
	f.lines.RemoveAll()
	first := max(0, f.at-finderLines+1)
	for i := first; i < len(f.hits) && i < first+finderLines; i++ {
		hit := f.hits[i]
		y := float32(i-first) * finderLine
		line := newButton(p, plainItem, "", func() { f.choose(i) })
		line.on = i == f.at
		put(line, 0, y, finderWidth, finderLine)
		ink := p.Ink
		if i == f.at {
			ink = p.Accent
		}
		words := p.row(finderWidth-20, finderLine, cell{text: hit.words, ink: ink}, cell{text: hit.where, width: 110, ink: p.Quiet},
			cell{text: hit.key, width: 90, right: true, ink: p.Quiet, small: true})
		words.Move(fyne.NewPos(10, y))
		f.lines.Add(line)
		f.lines.Add(words)
	}
	if len(f.hits) == 0 {
		f.lines.Add(p.row(finderWidth-20, finderLine, cell{text: "   nothing is called that", ink: p.Quiet}))
	}
	canvas.Refresh(f.lines)
}

// close takes the finder away, the focus first: a field that goes with it would blink on, unseen.
func (f *finder) close() {
	f.w.win.Canvas().Unfocus()
	f.popup.Hide()
}

func (f *finder) choose(i int) {
	f.close()
	f.hits[i].run()
}

// key walks the list; it says whether the key was its own.
func (f *finder) key(e *fyne.KeyEvent) bool {
	switch e.Name {
	case fyne.KeyDown:
		f.at = min(f.at+1, max(0, len(f.hits)-1))
	case fyne.KeyUp:
		f.at = max(f.at-1, 0)
	case fyne.KeyReturn, fyne.KeyEnter:
		if f.at < len(f.hits) {
			f.choose(f.at)
		}
		return true
	case fyne.KeyEscape:
		f.close()
		return true
	default:
		return false
	}
	f.show()
	return true
}
