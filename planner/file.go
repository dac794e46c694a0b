package planner

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"

	"seamwright/calc/job"
	"seamwright/planner/disk"
)

// system is where all files of this package are. A test puts a failing disk here.
var system disk.FS = disk.OS{}

// Extension is how project files end.
const Extension = ".seam.yaml"

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
	src, err := readFile(path)
	if err != nil {
		return nil, err
	}
	d, err := Parse(filepath.Base(path), src)
	if err != nil {
		return nil, err
	}
	d.path, d.disk = path, sha256.Sum256(src)
	return d, nil
}

// readFile reads at most one byte more than a project may have; Parse refuses it then.
func readFile(path string) ([]byte, error) {
	src, _, err := disk.Read(system, path, largestFile+1)
	var p *fs.PathError
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, fmt.Errorf("there is no file %s", path)
	case errors.As(err, &p):
		return nil, fmt.Errorf("%s cannot be opened: %w", path, disk.Cause(err))
	case err != nil:
		return nil, fmt.Errorf("%w, not a project file", err)
	}
	return src, nil
}

// Reload reads the file again as one step that can be undone.
func (d *Document) Reload() error {
	if d.path == "" {
		return ErrNoPath
	}
	src, err := readFile(d.path)
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
	d.redo = nil
	d.push(step{label: "reload the file", splice: difference(before, src)})
	d.stands(src)
	return nil
}

// stands notes that a text is what the document's file holds: nothing before it need be kept.
func (d *Document) stands(src []byte) {
	d.saved, d.disk = src, sha256.Sum256(src)
	if d.journal != nil {
		_ = d.journal.Saved(d.origin()) // what stays equals the file, and the next start removes it
	}
}
