package planner

import (
	"bytes"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"runtime/debug"
	"strings"
	"time"

	"seamwright/planner/disk"
	"seamwright/planner/journal"
)

const copiesFolder = "unsaved"

// journals is the folder in which edits are kept as they happen.
func journals() (*journal.Store, error) {
	dir, err := stateFolder()
	return &journal.Store{Dir: filepath.Join(dir, copiesFolder), Sys: system, Now: time.Now}, err
}

// Keep has every edit from here on kept in the state folder as it happens, so that a crash loses nothing. Discard or Leave
// ends that.
func (d *Document) Keep() error {
	if d.journal != nil {
		return nil
	}
	store, err := journals()
	if err != nil {
		return fmt.Errorf("there is no folder to keep unsaved work in: %w", err)
	}
	d.journal = store.New(d.origin())
	return nil
}

// origin is what edits begin from: the text as it stands on disk, or as the document began.
func (d *Document) origin() journal.Origin {
	if d.path == "" {
		return journal.Origin{Text: d.src}
	}
	path, err := filepath.Abs(d.path)
	if err != nil {
		path = d.path
	}
	text := d.saved
	if text == nil { // it began from a copy whose file has been changed since
		text = d.src
	}
	return journal.Origin{Path: path, Sum: hex.EncodeToString(d.disk[:]), Text: text}
}

// Unkept is why edits are not being kept at present, nil where they are.
func (d *Document) Unkept() error {
	if d.journal == nil {
		return nil
	}
	return d.journal.Fault()
}

// Answered tells that the calculation has come to an end with the text as it is. A kept copy of which that was never
// told has ended the program, maybe: see Recovery.Ended.
func (d *Document) Answered() {
	if d.journal != nil {
		d.journal.Answered()
	}
}

// Discard removes what was kept of the document: after saving, or when the user gives the changes up.
func (d *Document) Discard() error {
	if d.journal == nil {
		return nil
	}
	return d.journal.Drop()
}

// Leave makes what was kept of unsaved work safe and lets go of it: the next start offers it.
func (d *Document) Leave() error {
	if d.journal == nil {
		return nil
	}
	return d.journal.Leave()
}

// OnDisk is how a project file stands to the copy that is kept of it.
type OnDisk string

// What can have become of the file since the edits began.
const (
	NeverSaved  OnDisk = "never saved"
	FileSame    OnDisk = "the file is as it was"
	FileChanged OnDisk = "the file has been changed since"
	FileGone    OnDisk = "the file is gone"
)

// Recovery is a copy of unsaved work left by a run that did not end well, or put off.
type Recovery struct {
	Path  string // the project file it belongs to, "" for one never saved
	Name  string // the project's name
	Edits int
	Last  time.Time // of the last edit
	File  OnDisk
	// Ended says that the program has opened this copy before and ended before the calculation answered for it.
	Ended bool

	kept journal.Copy
}

// Skipped is something among the copies that is none.
type Skipped = journal.Skipped

// Recoverable lists the copies that differ from their files and that no window works on, the newest first, and names what
// is among them and is no copy. It does not read them as projects: a text that ends the program does not do so here.
func Recoverable() (found []Recovery, skipped []Skipped) {
	store, err := journals()
	if err != nil {
		return nil, nil
	}
	copies, skipped := store.List()
	for _, c := range copies {
		r := Recovery{Path: c.Origin.Path, Name: nameIn(c.Text), Edits: c.Edits, Last: c.Last, Ended: ended(c), kept: c}
		var same bool
		r.File, same = compare(c)
		if same {
			_ = c.Drop() // nothing is in it that is not in the file
			continue
		}
		found = append(found, r)
	}
	return found, skipped
}

// compare holds a copy against its file; same says that nothing would be lost with the copy.
func compare(c journal.Copy) (is OnDisk, same bool) {
	if c.Origin.Path == "" {
		return NeverSaved, bytes.Equal(c.Text, c.Origin.Text)
	}
	src, _, err := disk.Read(system, c.Origin.Path, largestFile+1)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return FileGone, false
	case err != nil:
		return FileChanged, false
	case bytes.Equal(src, c.Text):
		return FileSame, true
	case hash(src) == c.Origin.Sum:
		return FileSame, false
	}
	return FileChanged, false
}

// nameIn finds the project's name in a text without reading it as YAML.
func nameIn(text []byte) string {
	for line := range strings.Lines(string(text)) {
		if name, ok := strings.CutPrefix(line, "name:"); ok {
			return strings.Trim(strings.TrimSpace(name), `"'`)
		}
	}
	return "a project without a name"
}

// Text is the copy as it was last.
func (r Recovery) Text() []byte { return r.kept.Text }

// Base is what a person wants the copy compared with, and what to call it: the last text that worked, where the copy has
// ended the program; else the file as it is now, or what the edits began with.
func (r Recovery) Base() (text []byte, what string) {
	if r.Ended {
		return r.Good(), "what worked before"
	}
	if src, _, err := disk.Read(system, r.Path, largestFile+1); r.Path != "" && err == nil {
		return src, "the file as it is now"
	}
	return r.kept.Origin.Text, "what the edits began with"
}

// Good is the last other text that the program has calculated to the end; where there is none, the one that the edits
// began with.
func (r Recovery) Good() []byte {
	if r.kept.Good != nil && !bytes.Equal(r.kept.Good, r.kept.Text) {
		return r.kept.Good
	}
	return r.kept.Origin.Text
}

// ended says whether a copy seems to end the program: it did when the copy was opened, twice where the very same text was
// calculated to the end before, since a kill has other causes, too.
func ended(c journal.Copy) bool {
	if bytes.Equal(c.Good, c.Text) {
		return c.Opened > 1
	}
	return c.Opened > 0
}

// Open goes on with the copy. It is changed against its file, one step of undo leads back to what the edits began with,
// and saving asks where the file has been changed since.
func (r Recovery) Open() (*Document, error) {
	now, kept, err := r.kept.Take()
	if err != nil {
		return nil, err
	}
	d, err := r.document(now.Text)
	if err != nil {
		return nil, errors.Join(err, kept.Leave())
	}
	d.journal = kept
	return d, nil
}

// OpenGood begins from the last good text in place of the copy, which stays where it is.
func (r Recovery) OpenGood() (*Document, error) { return r.document(r.Good()) }

// document shows a text of the copy as a change of its file.
func (r Recovery) document(text []byte) (d *Document, err error) {
	defer func() { // a text that ends the program when it is read must not do so at every start
		if fault := recover(); fault != nil {
			d, err = nil, fmt.Errorf("reading the copy failed: %v\n%s", fault, debug.Stack())
		}
	}()
	name := "recovered project"
	if r.Path != "" {
		name = filepath.Base(r.Path)
	}
	began := r.kept.Origin.Text
	d, err = Parse(name, began)
	if err != nil { // the file was mended by the first edits
		if d, err = Parse(name, text); err != nil {
			return nil, err
		}
		began = text
	}
	read, err := readSource(name, text)
	if err != nil {
		return nil, err
	}
	d.show(text, read)
	d.push(step{label: "recover unsaved changes", splice: difference(began, text)})
	d.path, d.saved = r.Path, nil
	if src, _, err := disk.Read(system, r.Path, largestFile+1); err == nil && hash(src) == r.kept.Origin.Sum {
		d.saved = src
	}
	if sum, err := hex.DecodeString(r.kept.Origin.Sum); err == nil {
		copy(d.disk[:], sum)
	}
	return d, nil
}

// Drop removes the copy.
func (r Recovery) Drop() error { return r.kept.Drop() }
