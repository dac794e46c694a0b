package ui

import (
	"context"
	"errors"
	"io"
	"net/url"
	"path/filepath"
	"runtime/debug"
	"strings"
	"time"

	"seamwright/planner/disk"
	"seamwright/scene/document"
	"seamwright/scene/document/ask"
)

// paperWork is a document that is being written, or was: it goes on when the view is closed.
type paperWork struct {
	path        string
	stop        context.CancelFunc
	done, total int  // pages
	over        bool // written, given up or failed
	written     bool
	told        string
}

const prefPapers = "papers" // the folder that a document was written to last

// save asks for a name and writes the document that is asked for.
func (v *papers) save() {
	w, k, r := v.w, v.kind(), v.request()
	if k.Parts != nil && len(r.Parts) == 0 {
		return
	}
	others := []string{}
	if k.Others {
		others = append(others, "")
		for _, a := range r.Job.Alternatives {
			others = append(others, a.Name)
		}
	}
	name := strings.TrimSuffix(fileName(w.model.Doc.Name()), filepath.Ext(fileName(w.model.Doc.Name())))
	name = strings.TrimSuffix(name, ".seam") + "-" + k.ID + k.Ending
	c := &chooser{title: w.voice().Text("papers.save", "name", name), verb: w.voice().Text("papers.save-verb"), endings: []string{k.Ending}, saving: true,
		folder: w.app.Preferences().String(prefPapers), left: w.openPapers}
	c.take = func(path string) {
		w.app.Preferences().SetString(prefPapers, filepath.Dir(path))
		w.writePaper(path, k, r, others)
		w.openPapers()
	}
	w.chooseFile(c, name)
}

// writePaper writes a document elsewhere, with the alternatives that it wants worked out first. The file stands under its
// name only when it is whole; what stood there before stays where that fails.
func (w *Window) writePaper(path string, k document.Kind, r document.Request, others []string) {
	ctx, stop := context.WithCancel(context.Background())
	work := &paperWork{path: path, stop: stop}
	w.paperWork = work
	var jobs []ask.Alternative
	for _, name := range others {
		if name != w.model.Doc.Active() {
			jobs = append(jobs, ask.Alternative{Name: alternativeName(name), Job: alone(w.model.Doc.JobFor(name))})
		}
	}
	told := time.Time{}
	r.Progress = func(done, total int) {
		if now := time.Now(); now.Sub(told) > longWait/2 || done == total {
			told = now
			w.post(func() {
				work.done, work.total = done, total
				w.showPaperWork()
			})
		}
	}
	end := func(text string) {
		work.over, work.told = true, text
		w.say(text)
		w.showPaperWork()
	}
	say := w.voice()
	w.elsewhere(func() func() {
		defer stop()
		notes, err := []string(nil), error(nil)
		for i := range jobs {
			if jobs[i].Plan, err = w.options.Calculate(ctx, jobs[i].Job); err != nil {
				break
			}
		}
		r.Others = jobs
		if err == nil {
			notes, err = disk.Write(disk.OS{}, path, disk.Options{}, func(out io.Writer) error { return k.Write(ctx, out, r) })
			debug.FreeOSMemory() // of a large document nothing is left
		}
		return func() {
			switch {
			case errors.Is(err, context.Canceled):
				end(say.Text("papers.given-up", "file", filepath.Base(path)))
			case err != nil:
				end(say.Text("papers.failed", "cause", sentence(err)))
			default:
				work.written = true
				end(withNotes(say.Text("papers.written", "file", path), notes))
			}
		}
	}, func() { end(say.Text("papers.failed", "cause", sentence(errNoAnswer))) })
}

// openFolder shows the folder of a file in the desktop's own way.
func (w *Window) openFolder(path string) {
	u := &url.URL{Scheme: "file", Path: filepath.ToSlash(filepath.Dir(path))}
	if err := w.app.OpenURL(u); err != nil {
		w.say(sentence(err))
	}
}

// now is the day that documents bear.
func (w *Window) now() time.Time {
	if w.options.Today == nil {
		return time.Now().Truncate(time.Second)
	}
	d := w.options.Today()
	return time.Date(d.Year, time.Month(d.Month), d.Day, 0, 0, 0, 0, time.UTC)
}
