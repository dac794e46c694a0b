// Package planner owns the document: the user's project file, its edits with undo, saving and recovery.
//
// The text of the file is the datum. A document is the source bytes and what they read as; every edit is a
// replacement of a few bytes at places read from the YAML nodes, after which the text is read again, in a long file
// the room that was changed. So comments, blank lines and alignment survive, an edit that would break the file is
// refused as a whole, and undo is the inverse replacement: it gives back the same bytes. This is the only package that
// reads or writes YAML.
package planner

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"path/filepath"
	"strings"

	"seamwright/calc/job"
	"seamwright/planner/journal"
)

// Document is a project file being worked on. It is not safe for use by several goroutines at once; the jobs it
// hands out are never changed afterwards and may be read anywhere.
type Document struct {
	path   string // "" until it is saved for the first time
	name   string // how errors call the file
	src    []byte
	read   *reading
	active string // alternative shown, "" for the project's own linings

	undo, redo []step
	group      *group
	revision   uint64

	saved   []byte              // the text as it stands on disk
	disk    [sha256.Size]byte   // of what was read from or written to the file last
	notes   []string            // of the last save
	journal *journal.Journal    // keeps every edit; nil where that was not asked for
	jobs    map[string]*job.Job // resolved for each alternative; emptied by every change
}

// Edit is one change of the document. The structs of this package are the edits there are.
type Edit interface {
	// Label says in words what the edit does, for "Undo move corner".
	Label() string
	apply(*patch) error
}

// step is a change that can be taken back: at its place old became new.
type step struct {
	label string
	key   string // steps of one gesture share it
	splice
}

// group is a gesture in progress.
type group struct {
	label  string
	before []byte
}

// Source is the text of the document. Do not change it.
func (d *Document) Source() []byte { return d.src }

// Path is the file that the document was loaded from or saved to, "" for a new one.
func (d *Document) Path() string { return d.path }

// Name is the project's name.
func (d *Document) Name() string { return d.read.job.Name }

// Title is what a window shows: the file's name, or that it is not saved yet, with a mark where it was changed.
func (d *Document) Title() string {
	title := "Not saved yet"
	if d.path != "" {
		title = strings.TrimSuffix(filepath.Base(d.path), Extension)
	}
	if d.Dirty() {
		title += " *"
	}
	return title
}

// Dirty says whether the text differs from what stands on disk.
func (d *Document) Dirty() bool { return !bytes.Equal(d.src, d.saved) }

// Revision counts the changes made so far, undo and redo among them.
func (d *Document) Revision() uint64 { return d.revision }

// Job is what the calculation is asked, for the alternative shown. It is never changed; do not change it.
func (d *Document) Job() *job.Job { return d.JobFor(d.active) }

// JobFor is the job with the linings of one alternative; "" or an unknown name gives the project's own.
func (d *Document) JobFor(alternative string) *job.Job {
	if j, ok := d.jobs[alternative]; ok {
		return j
	}
	j := resolve(d.read.job, alternative)
	d.jobs[alternative] = j
	return j
}

// Active is the alternative shown, "" for the project's own linings.
func (d *Document) Active() string { return d.active }

// Activate shows an alternative, "" the project's own linings. It is view state: not an edit, not undone.
func (d *Document) Activate(alternative string) error {
	if alternative != "" && findAlternative(d.read.job, alternative) == nil {
		return fmt.Errorf("there is no alternative called %q", alternative)
	}
	d.active = alternative
	return nil
}

// Apply makes one edit. On an error nothing has changed.
func (d *Document) Apply(e Edit) error { return d.ApplyMerged("", e) }

// ApplyMerged makes one edit and joins it with the one before into a single undo step if both have the same key.
func (d *Document) ApplyMerged(key string, e Edit) error {
	p := newPatch(d.src, d.read)
	if err := e.apply(p); err != nil {
		return err
	}
	after, read, err := p.finish(d.name)
	if err != nil {
		return err
	}
	if bytes.Equal(after, d.src) {
		return nil
	}
	before := d.src
	d.show(after, read)
	d.redo = nil
	if d.group != nil {
		return nil
	}
	if n := len(d.undo); key != "" && n > 0 && d.undo[n-1].key == key {
		before = d.undo[n-1].inverse().on(before)
		d.undo = d.undo[:n-1]
	}
	d.push(step{label: e.Label(), key: key, splice: difference(before, after)})
	return nil
}

// push keeps a step for undo; one that changed nothing in the end is dropped.
func (d *Document) push(s step) {
	if !s.splice.empty() {
		d.undo = append(d.undo, s)
	}
}

// BeginGroup starts a gesture: the edits until EndGroup are one undo step. A gesture in progress is ended first.
func (d *Document) BeginGroup(label string) {
	d.EndGroup()
	d.group = &group{label: label, before: d.src}
}

// EndGroup ends the gesture in progress, if there is one.
func (d *Document) EndGroup() {
	g := d.group
	if g == nil {
		return
	}
	d.group = nil
	d.push(step{label: g.label, splice: difference(g.before, d.src)})
}

// CancelGroup ends the gesture in progress and takes back what it did.
func (d *Document) CancelGroup() {
	g := d.group
	if g == nil {
		return
	}
	d.group = nil
	if !bytes.Equal(g.before, d.src) {
		d.reread(g.before)
	}
}

// CanUndo says whether there is a step to take back, and what it did.
func (d *Document) CanUndo() (label string, ok bool) { return top(d.undo) }

// CanRedo says whether there is a step to do again, and what it does.
func (d *Document) CanRedo() (label string, ok bool) { return top(d.redo) }

func top(steps []step) (string, bool) {
	if len(steps) == 0 {
		return "", false
	}
	return steps[len(steps)-1].label, true
}

// Undo takes back the last step; it says whether there was one. A gesture in progress is ended first.
func (d *Document) Undo() bool {
	d.EndGroup()
	n := len(d.undo)
	if n == 0 {
		return false
	}
	s := d.undo[n-1]
	d.undo, d.redo = d.undo[:n-1], append(d.redo, s)
	d.reread(s.inverse().on(d.src))
	return true
}

// Redo does the last undone step again; it says whether there was one.
func (d *Document) Redo() bool {
	d.EndGroup()
	n := len(d.redo)
	if n == 0 {
		return false
	}
	s := d.redo[n-1]
	d.redo, d.undo = d.redo[:n-1], append(d.undo, s)
	d.reread(s.on(d.src))
	return true
}

// reread shows text that has been read before and is therefore sound.
func (d *Document) reread(src []byte) {
	read, err := readChanged(d.name, d.read, d.src, src)
	if err != nil {
		panic("planner: text that was sound before no longer reads: " + err.Error())
	}
	d.show(src, read)
}

// show makes the text and its reading the document's own. Every change passes here.
func (d *Document) show(src []byte, read *reading) {
	if d.journal != nil {
		if s := difference(d.src, src); !s.empty() {
			d.journal.Edit(s.at, len(s.old), s.new, src)
		}
	}
	d.src, d.read = src, read
	d.jobs = map[string]*job.Job{}
	d.revision++
	if d.active != "" && findAlternative(read.job, d.active) == nil {
		d.active = ""
	}
}

// resolve gives the job with the linings of an alternative; an unknown name gives the project's own.
func resolve(j *job.Job, alternative string) *job.Job {
	if a := findAlternative(j, alternative); a != nil {
		return j.With(*a)
	}
	return j
}

func findAlternative(j *job.Job, name string) *job.Alternative {
	for i := range j.Alternatives {
		if j.Alternatives[i].Name == name && name != "" {
			return &j.Alternatives[i]
		}
	}
	return nil
}
