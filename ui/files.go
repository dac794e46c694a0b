package ui

import (
	"errors"
	"path/filepath"
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
		answer{"Save first", func() { w.save(do) }},
		answer{"Give them up", do},
		answer{"Go on working", nil})
}

// untouched says whether the document is a sample or an empty project that nobody has changed.
func (w *Window) untouched() bool {
	_, undo := w.model.Doc.CanUndo()
	_, redo := w.model.Doc.CanRedo()
	return w.model.Doc.Path() == "" && !undo && !redo
}

// replace shows another document; the autosaved copy of the one before is no longer needed.
func (w *Window) replace(doc *planner.Document) {
	w.discard()
	w.studio.plan.stop()
	w.studio.plan.fitted, w.studio.strip.fitted, w.studio.room.framed = false, false, false
	w.model.Show(doc)
	w.say("")
}

// discard removes the autosaved copy. Where that fails the copy is offered again at the next start, which loses nothing.
func (w *Window) discard() {
	if err := w.model.Doc.Discard(); err != nil {
		w.say(sentence(err))
	}
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
	done := func() {
		w.discard()
		w.model.Announce(DocumentChanged)
		if then != nil {
			then()
		}
	}
	err := w.model.Doc.Save()
	var changed *planner.ChangedError
	switch {
	case err == nil:
		w.say("Saved to " + w.model.Doc.Path() + ".")
		done()
	case errors.Is(err, planner.ErrNoPath):
		w.saveAs(then)
	case errors.As(err, &changed):
		w.askAboutDisk(changed, done)
	default:
		w.say("Not saved; nothing is lost. " + sentence(err))
	}
}

// saveAs asks for a name.
func (w *Window) saveAs(then func()) {
	w.chooseFile(&chooser{title: "Save the project", verb: "Save", endings: []string{planner.Extension, ".yaml", ".yml"}, saving: true,
		take: func(path string) { w.saveTo(path, then) }}, fileName(w.model.Doc.Name()))
}

// saveTo saves under a path, which gets the project files' ending where it has none.
func (w *Window) saveTo(path string, then func()) {
	if !strings.HasSuffix(path, ".yaml") && !strings.HasSuffix(path, ".yml") {
		path += planner.Extension
	}
	if err := w.model.Doc.SaveAs(path); err != nil {
		w.say("Not saved; nothing is lost. " + sentence(err))
		return
	}
	w.discard()
	w.remember(path)
	w.say("Saved to " + path + ".")
	w.model.Announce(DocumentChanged)
	if then != nil {
		then()
	}
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
func (w *Window) askAboutDisk(changed *planner.ChangedError, done func()) {
	answers := []answer{{"Save under another name", func() { w.saveAs(done) }}}
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
	answers = append(answers, answer{"Write mine over it", func() {
		if err := w.model.Doc.SaveOver(); err != nil {
			w.say("Not saved; nothing is lost. " + sentence(err))
			return
		}
		w.say("Saved to " + w.model.Doc.Path() + ".")
		done()
	}}, answer{"Go on working", nil})
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

// How often unsaved work is kept in the state folder, and how often the file is looked at.
const watchEvery = 20 * time.Second

// watch keeps unsaved work where the next start finds it, and notices when another program writes the file.
func (w *Window) watch() {
	if w.options.Still {
		return
	}
	told := uint64(0)
	guard.Go(func() {
		for range time.Tick(watchEvery) {
			w.post(func() {
				d := w.model.Doc
				if d.Dirty() && !w.untouched() {
					if err := d.Autosave(); err != nil && told != d.Revision() {
						told = d.Revision()
						w.say("Unsaved work could not be kept aside: " + sentence(err))
					}
				}
				if d.Path() != "" && d.ChangedOnDisk() && told != d.Revision()+1 {
					told = d.Revision() + 1
					w.say("Another program has changed " + filepath.Base(d.Path()) + ". Saving will ask which version to keep.")
				}
			})
		}
	}, w.faulted)
}

// offerRecovery offers work that a run before this one did not get to save.
func (w *Window) offerRecovery() {
	list := planner.Recoverable()
	if len(list) == 0 {
		return
	}
	r := list[0]
	w.ask("There is work that was not saved",
		"“"+r.Name+"” was being worked on when the program ended. Nothing of it has been thrown away.",
		answer{"Open it", func() {
			doc, err := r.Open()
			if err != nil {
				w.ShowFault(r.Name, err)
				return
			}
			w.replace(doc)
		}},
		answer{"Throw it away", func() {
			if err := r.Drop(); err != nil {
				w.say(sentence(err))
			}
		}},
		answer{"Later", nil})
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
