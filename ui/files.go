package ui

import (
	"errors"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"seamwright/calc/guard"
	"seamwright/calc/job"
	"seamwright/planner"

	"fyne.io/fyne/v2"
)

// Opening and saving. Nothing is thrown away without being asked for, and a file that cannot be read changes nothing.

// guarded does something that gives up the document, after asking where that would lose work.
func (w *Window) guarded(doing string, do func()) {
	if !w.model.Doc.Dirty() || w.untouched() {
		do()
		return
	}
	w.ask("The project has changes that are not saved",
		"“"+w.model.Doc.Name()+"” was changed since it was saved. "+capital(doing)+" gives the changes up unless they are saved first.",
		answer{"Save", func() { w.save(do) }},
		answer{"Discard", do},
		answer{"Cancel", nil})
}

// untouched says whether the document is a sample or an empty project that nobody has changed.
func (w *Window) untouched() bool {
	_, undo := w.model.Doc.CanUndo()
	_, redo := w.model.Doc.CanRedo()
	return w.model.Doc.Path() == "" && !undo && !redo
}

// replace shows another document; what was kept of the one before is no longer needed.
func (w *Window) replace(doc *planner.Document) {
	w.discard()
	w.keep(doc)
	w.studio.plan.stop()
	w.studio.plan.fitted, w.studio.strip.fitted, w.studio.room.framed = false, false, false
	w.model.Show(doc)
	w.say("")
}

// keep has every edit of a document kept as it happens.
func (w *Window) keep(doc *planner.Document) {
	if err := doc.Keep(); err != nil {
		w.say("Unsaved work cannot be kept: " + sentence(err))
	}
}

// discard removes what was kept. Where that fails the copy is offered again at the next start, which loses nothing.
func (w *Window) discard() {
	if err := w.model.Doc.Discard(); err != nil {
		w.say(sentence(err))
	}
}

// noteEdits tells whoever wants to know what the document is after each change.
func (w *Window) noteEdits(c Change) {
	if c&DocumentChanged != 0 && w.options.Edited != nil {
		w.options.Edited(w.model.Doc.Source())
	}
}

// tellUnkept says once where edits are not being kept.
func (w *Window) tellUnkept(c Change) {
	if c&DocumentChanged == 0 {
		return
	}
	words := ""
	if err := w.model.Doc.Unkept(); err != nil {
		words = "Save soon: unsaved work is not being kept. " + sentence(err)
	}
	if words != "" && words != w.unkept {
		w.say(words)
	}
	w.unkept = words
}

func (w *Window) newProject() {
	w.guarded("a new project", func() {
		units := job.Imperial
		if !w.imperial() {
			units = job.Metric
		}
		w.replace(planner.New(units))
		w.studio.plan.startRoom()
	})
}

func (w *Window) openSample() {
	if w.options.Sample == nil {
		return
	}
	w.guarded("opening the sample", func() {
		doc, err := w.options.Sample()
		if err != nil {
			w.ShowFault("The sample project", err)
			return
		}
		w.replace(doc)
	})
}

// open asks for a file.
func (w *Window) open() {
	w.guarded("opening another project", func() {
		w.chooseFile(&chooser{title: "Open a project", verb: "Open", endings: []string{".yaml", ".yml"}, take: w.openPath}, "")
	})
}

// openPath opens a file; one that cannot be read leaves everything as it is and shows its faults.
func (w *Window) openPath(path string) {
	doc, err := planner.Load(path)
	if err != nil {
		w.ShowFault(path, err)
		return
	}
	w.replace(doc)
	w.remember(path)
	w.say("Opened " + path + ".")
}

func (w *Window) remember(path string) {
	if err := planner.Remember(path); err != nil {
		w.say("The list of recent projects could not be kept: " + sentence(err))
	}
}

// dropped opens a file that was let fall on the window.
func (w *Window) dropped(_ fyne.Position, files []fyne.URI) {
	if len(files) == 0 {
		return
	}
	path := files[0].Path()
	w.guarded("opening "+filepath.Base(path), func() { w.openPath(path) })
}

// save writes the document and goes on with what was asked for.
func (w *Window) save(then func()) {
	if w.model.Doc.Path() == "" {
		w.saveAs(then)
		return
	}
	w.write(w.model.Doc.Path(), 0, then)
}

// saveAs asks for a name.
func (w *Window) saveAs(then func()) {
	c := &chooser{title: "Save the project", verb: "Save", endings: []string{planner.Extension, ".yaml", ".yml"}, saving: true}
	c.take = func(path string) {
		agreed := planner.Consent(0)
		if c.over {
			agreed = planner.OverFile
		}
		w.saveTo(path, agreed, then)
	}
	w.chooseFile(c, fileName(w.model.Doc.Name()))
}

// saveTo saves under a path, which gets the project files' ending where it has none.
func (w *Window) saveTo(path string, agreed planner.Consent, then func()) {
	if end := strings.ToLower(filepath.Ext(path)); end != ".yaml" && end != ".yml" {
		path += planner.Extension
	}
	w.write(path, agreed, then)
}

// write saves to a file with what the user has agreed to, and asks where it takes more.
func (w *Window) write(path string, agreed planner.Consent, then func()) {
	doc := w.model.Doc
	err := doc.SaveAs(path, agreed)
	agree := func(more planner.Consent) func() { return func() { w.write(path, agreed|more, then) } }
	other := answer{"Save under another name", func() { w.saveAs(then) }}
	var changed *planner.ChangedError
	var exists *planner.ExistsError
	var linked *planner.LinkedError
	switch {
	case err == nil:
		w.remember(path)
		w.say(withNotes("Saved to "+path+".", doc.SaveNotes()))
		w.model.Announce(DocumentChanged)
		if then != nil {
			then()
		}
	case errors.As(err, &changed):
		w.askAboutDisk(changed, other, agree(planner.OverChange))
	case errors.As(err, &exists):
		w.ask(filepath.Base(path)+" is already there", "Its text is kept beside it as a backup: "+path, other,
			answer{"Write over it", agree(planner.OverFile)}, answer{"Cancel", nil})
	case errors.As(err, &linked):
		w.ask(filepath.Base(path)+" has "+strconv.FormatUint(linked.Names, 10)+" names", "It is one file in several places (hard links). Saved here, the other places keep the old text.",
			other, answer{"Save here only", agree(planner.PartLinks)}, answer{"Cancel", nil})
	default:
		w.say("Not saved; nothing is lost. " + sentence(err))
	}
}

// withNotes adds what a save could not keep of the file that stood there.
func withNotes(words string, notes []string) string {
	for _, n := range notes {
		words += " " + capital(n) + "."
	}
	return words
}

// fileName is a project's name as a file name.
func fileName(name string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(name) {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
	}
	s := strings.Trim(b.String(), "-")
	if s == "" {
		s = "project"
	}
	return s + planner.Extension
}

// askAboutDisk offers what can be done when another program has written the file.
func (w *Window) askAboutDisk(changed *planner.ChangedError, other answer, over func()) {
	answers := []answer{other}
	if !changed.Gone {
		answers = append(answers, answer{"Take the file's version", func() {
			if err := w.model.Doc.Reload(); err != nil {
				w.ShowFault(changed.Path, err)
				return
			}
			w.model.Refreshed()
			w.say("The file's version is shown; Undo brings back yours.")
		}})
	}
	answers = append(answers, answer{"Write mine over it", over}, answer{"Cancel", nil})
	w.ask("The file is not the one that was opened", sentence(changed), answers...)
}

// askToClose guards the window's closing.
func (w *Window) askToClose() {
	w.guarded("closing", func() {
		w.discard()
		w.model.Close()
		w.win.Close()
	})
}

// Interrupt ends the program because the system asks for it; Run then lets go of unsaved work, which the next start offers.
// Any goroutine may call it. Where the window does not answer it returns after a while, and nothing is lost then either.
func (w *Window) Interrupt() {
	done := make(chan struct{})
	w.post(func() {
		w.model.Close()
		w.app.Quit()
		close(done)
	})
	select {
	case <-done:
	case <-time.After(interruptWithin):
	}
}

const (
	interruptWithin = 2 * time.Second
	watchEvery      = 20 * time.Second // how often the file is looked at
)

// watch notices when another program writes the file.
func (w *Window) watch() {
	if w.options.Still {
		return
	}
	told := uint64(0)
	guard.Go(func() {
		for range time.Tick(watchEvery) {
			w.post(func() {
				d := w.model.Doc
				if told != d.Revision()+1 && d.ChangedOnDisk() {
					told = d.Revision() + 1
					w.say("Another program has changed " + filepath.Base(d.Path()) + ". Saving will ask which version to keep.")
				}
			})
		}
	}, func(f *guard.Fault) { w.post(func() { w.faulted(f) }) })
}

// recent lists the projects worked on lately.
func (w *Window) recent() []*command {
	var list []*command
	for _, r := range planner.Recent() {
		c := &command{title: r.Path, short: filepath.Base(r.Path), run: func() { w.guarded("opening another project", func() { w.openPath(r.Path) }) }}
		if r.Missing {
			c.title += "  (not there)"
			c.can = func() bool { return false }
		}
		list = append(list, c)
	}
	if len(list) > 0 {
		list = append(list, &command{title: "Forget these", run: func() {
			if err := planner.ForgetRecent(); err != nil {
				w.say(sentence(err))
			}
		}})
	}
	return list
}
