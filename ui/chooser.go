package ui

import (
	"os"
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// chooser asks for a file: a folder's folders and files in a list, the name in a field that has the keys. Enter takes
// what is typed, which may be a name, a path or a folder to go to; Esc leaves everything as it was.
type chooser struct {
	w       *Window
	title   string
	verb    string   // what taking a file is called
	endings []string // which files are shown; the first is given to a name that has none
	saving  bool     // the file need not be there, and one that is there is asked about
	over    bool     // it was agreed to write over one
	take    func(path string)
	left    func() // what happens where nothing is taken, nil: nothing

	folder string
	where  *canvas.Text
	list   *table
	name   *entry
}

const (
	chooserWidth  float32 = 720
	chooserHeight float32 = 460
)

// chooseFile shows the chooser in the folder of the project, or in the home folder.
func (w *Window) chooseFile(c *chooser, name string) {
	c.w = w
	c.where = w.pal.caption("")
	c.list = newTable(w, "No folder and no such file is here.", tableColumn{title: "name"}, tableColumn{"changed", 120, true})
	c.name = newEntry(w, "a name, or a folder to go to")
	c.name.Text = name
	c.name.onKey = c.key
	title := w.pal.heading(c.title)
	up, home := newButton(w.pal, pill, "Up a folder", func() { c.show(filepath.Dir(c.folder)) }), newButton(w.pal, pill, "Home folder", c.home)
	take, leave := newButton(w.pal, pill, c.verb, c.done), newButton(w.pal, pill, "Cancel", w.stepBack)
	up.small, home.small, take.on = true, true, true
	for _, b := range []*button{up, home, take, leave} {
		b.keys = w.typedKey
	}
	label := w.pal.text("Name", sizeText, false, w.pal.Quiet)
	box := laidOut(arrange{fyne.NewSize(chooserWidth, chooserHeight), func(size fyne.Size) {
		put(title, 4, 0, size.Width, title.MinSize().Height)
		x := size.Width
		for _, b := range []*button{up, home} {
			m := b.MinSize()
			x -= m.Width
			put(b, x, 0, m.Width, m.Height)
			x -= grid
		}
		put(c.where, 4, 30, size.Width, c.where.MinSize().Height)
		foot := size.Height - 32
		put(c.list, 4, 48, size.Width-4, foot-48-grid)
		x = size.Width
		for _, b := range []*button{leave, take} {
			m := b.MinSize()
			x -= m.Width
			put(b, x, foot+2, m.Width, m.Height)
			x -= grid
		}
		m := label.MinSize()
		put(label, 4, foot+(30-m.Height)/2, m.Width, m.Height)
		put(c.name, m.Width+12, foot, x-m.Width-12-grid, 30)
	}}, title, up, home, c.where, c.list, label, c.name, take, leave)
	w.lay(box, c.left)
	switch p := w.model.Doc.Path(); {
	case isFolder(c.folder): // asked again, or where it was last
		c.show(c.folder)
	case p != "":
		c.show(filepath.Dir(p))
	default:
		c.home()
	}
	w.win.Canvas().Focus(c.name)
	c.name.Entry.TypedShortcut(&fyne.ShortcutSelectAll{})
}

func isFolder(path string) bool {
	info, err := os.Stat(path)
	return err == nil && info.IsDir()
}

func (c *chooser) home() {
	folder, err := os.UserHomeDir()
	if err != nil {
		folder = string(filepath.Separator)
	}
	c.show(folder)
}

func (c *chooser) key(k *fyne.KeyEvent) bool {
	switch k.Name {
	case fyne.KeyEscape:
		c.w.stepBack()
	case fyne.KeyReturn, fyne.KeyEnter:
		c.done()
	default:
		return false
	}
	return true
}

// show lists a folder: folders first, each by its name. One that cannot be read leaves the list as it is.
func (c *chooser) show(folder string) {
	entries, err := os.ReadDir(folder)
	if err != nil {
		c.say(sentence(err))
		return
	}
	c.folder = folder
	c.say(folder)
	var folders, files []tableRow
	for _, e := range entries {
		info, err := os.Stat(filepath.Join(folder, e.Name())) // what a link leads to counts
		if err != nil || strings.HasPrefix(e.Name(), ".") {
			continue
		}
		path, changed := filepath.Join(folder, e.Name()), cell{text: info.ModTime().Format("2 Jan 2006"), ink: c.w.pal.Quiet}
		switch {
		case info.IsDir():
			folders = append(folders, tableRow{tapped: func() { c.show(path) }, cells: []cell{{text: e.Name() + string(filepath.Separator), bold: true}, changed}})
		case c.fits(e.Name()):
			files = append(files, tableRow{tapped: func() { c.pick(path) }, cells: []cell{{text: e.Name()}, changed}})
		}
	}
	c.list.set(append(folders, files...))
	c.list.list.ScrollToTop()
}

// say puts the folder, or what stands against it, under the title.
func (c *chooser) say(words string) {
	c.where.Text = fit(words, sizeSmall, false, chooserWidth-8)
	c.where.Refresh()
}

func (c *chooser) fits(name string) bool {
	return slices.ContainsFunc(c.endings, func(e string) bool { return strings.HasSuffix(strings.ToLower(name), e) })
}

// pick opens a file at once; where one is to be written, its name is only taken over.
func (c *chooser) pick(path string) {
	c.name.SetText(filepath.Base(path))
	if !c.saving {
		c.done()
	}
}

// done takes what stands in the field.
func (c *chooser) done() {
	name := strings.TrimSpace(c.name.Text)
	if name == "" {
		c.say("Type a name, or click a file.")
		return
	}
	path := name
	if !filepath.IsAbs(path) {
		path = filepath.Join(c.folder, name)
	}
	if info, err := os.Stat(path); err == nil && info.IsDir() {
		c.name.SetText("")
		c.show(path)
		return
	}
	if c.saving && !c.fits(path) {
		path += c.endings[0]
	}
	_, err := os.Stat(path)
	switch {
	case !c.saving && err != nil:
		c.say("There is no file " + path + ".")
	case c.saving && err == nil && path != c.w.model.Doc.Path():
		c.w.ask(filepath.Base(path)+" is already there", "Writing over it gives up what is in it now: "+path,
			answer{"Choose another name", func() { c.w.chooseFile(c, filepath.Base(path)) }},
			answer{"Write over it", func() {
				c.over = true
				c.take(path)
			}},
			answer{"Cancel", c.left})
	default:
		c.w.lift()
		c.take(path)
	}
}
