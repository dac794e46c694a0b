package planner

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
	"time"

	"seamwright/calc/job"
)

// Extension is how project files end.
const Extension = ".seam.yaml"

// backupSuffix ends the one backup that is kept beside a file: the text before the last save.
const backupSuffix = ".bak"

// ErrNoPath is returned by Save for a document that has no file yet.
var ErrNoPath = errors.New("the project has no file yet: save it under a name")

// ChangedError says that another program has changed or removed the file since it was opened or saved. The window
// offers the choice: Reload, SaveAs, or SaveOver.
type ChangedError struct {
	Path string
	Gone bool
}

// Error says what happened to the file.
func (e *ChangedError) Error() string {
	if e.Gone {
		return fmt.Sprintf("%s has been removed or renamed by another program since it was opened", e.Path)
	}
	return fmt.Sprintf("%s has been changed by another program since it was opened", e.Path)
}

// mark is how a file looked when it was read or written last.
type mark struct {
	size    int64
	changed time.Time
	sum     [sha256.Size]byte
}

// Parse reads a project. Name is how errors call the file; the error is Errors with every fault in it.
func Parse(name string, src []byte) (*Document, error) {
	read, err := readSource(name, src)
	if err != nil {
		return nil, err
	}
	src = append([]byte(nil), src...)
	return &Document{name: name, src: src, saved: src, read: read, jobs: map[string]*job.Job{}}, nil
}

// New is an empty project.
func New(units job.Units) *Document {
	if units != job.Metric {
		units = job.Imperial
	}
	src := fmt.Sprintf("seamwright: %d\nname: New project\nunits: %s\nrooms: []\n", FormatVersion, units)
	d, err := Parse("new project", []byte(src))
	if err != nil {
		panic("planner: the empty project does not read: " + err.Error())
	}
	return d
}

// Load reads a project file. What cannot be read gives one clear line; what reads as text but is no sound project
// gives Errors.
func Load(path string) (*Document, error) {
	src, m, err := readFile(path)
	if err != nil {
		return nil, err
	}
	d, err := Parse(filepath.Base(path), src)
	if err != nil {
		return nil, err
	}
	d.path, d.disk = path, m
	return d, nil
}

// readFile reads at most one byte more than a project may have; Parse refuses it then.
func readFile(path string) ([]byte, mark, error) {
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, mark{}, fmt.Errorf("there is no file %s", path)
	case err != nil:
		return nil, mark{}, fmt.Errorf("%s cannot be opened: %w", path, plainCause(err))
	case info.IsDir():
		return nil, mark{}, fmt.Errorf("%s is a folder, not a project file", path)
	case !info.Mode().IsRegular():
		return nil, mark{}, fmt.Errorf("%s is not a regular file", path)
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, mark{}, fmt.Errorf("%s cannot be opened: %w", path, plainCause(err))
	}
	defer f.Close()
	src, err := io.ReadAll(io.LimitReader(f, largestFile+1))
	if err != nil {
		return nil, mark{}, fmt.Errorf("%s cannot be read: %w", path, plainCause(err))
	}
	return src, mark{size: info.Size(), changed: info.ModTime(), sum: sha256.Sum256(src)}, nil
}

// plainCause takes the call and the path out of a file error and words the common causes.
func plainCause(err error) error {
	switch {
	case errors.Is(err, fs.ErrPermission):
		return errors.New("you do not have permission")
	case errors.Is(err, syscall.ENOSPC):
		return errors.New("the disk is full")
	case errors.Is(err, syscall.EROFS):
		return errors.New("the disk cannot be written to")
	}
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	return err
}

// ChangedOnDisk says whether another program has changed or removed the file since it was opened or saved.
func (d *Document) ChangedOnDisk() bool { return d.checkDisk() != nil }

// checkDisk compares the file with what was read or written last.
func (d *Document) checkDisk() *ChangedError {
	if d.path == "" {
		return nil
	}
	info, err := os.Stat(d.path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return &ChangedError{Path: d.path, Gone: true}
	case err != nil || info.Size() == d.disk.size && info.ModTime().Equal(d.disk.changed):
		return nil
	}
	src, _, err := readFile(d.path)
	if err != nil || sha256.Sum256(src) == d.disk.sum { // touched, but the same text
		return nil
	}
	return &ChangedError{Path: d.path}
}

// Save writes the document to its file, whole or not at all, and keeps what stood there as one backup. It refuses
// with a *ChangedError where another program has changed the file meanwhile.
func (d *Document) Save() error {
	if d.path == "" {
		return ErrNoPath
	}
	if changed := d.checkDisk(); changed != nil {
		return changed
	}
	return d.write(d.path)
}

// SaveOver saves although another program has changed or removed the file.
func (d *Document) SaveOver() error {
	if d.path == "" {
		return ErrNoPath
	}
	return d.write(d.path)
}

// SaveAs writes the document to another file, which becomes its own. What stood there is kept as its backup.
func (d *Document) SaveAs(path string) error { return d.write(path) }

// write saves and takes the file as the document's own.
func (d *Document) write(path string) error {
	d.EndGroup()
	if err := writeFile(path, d.src, true); err != nil {
		return err
	}
	info, err := os.Stat(path)
	if err != nil {
		return fmt.Errorf("%s was written, but cannot be looked at: %w", path, plainCause(err))
	}
	was := d.copyName()
	d.path, d.name = path, filepath.Base(path)
	d.saved = d.src
	d.disk = mark{size: info.Size(), changed: info.ModTime(), sum: sha256.Sum256(d.src)}
	dropCopy(was)
	return nil
}

// Reload reads the file again as one step that can be undone.
func (d *Document) Reload() error {
	if d.path == "" {
		return ErrNoPath
	}
	src, m, err := readFile(d.path)
	if err != nil {
		return err
	}
	read, err := readSource(d.name, src)
	if err != nil {
		return err
	}
	d.EndGroup()
	before := d.src
	d.show(src, read)
	d.saved, d.disk, d.redo = src, m, nil
	d.push(step{label: "reload the file", splice: difference(before, src)})
	return nil
}
