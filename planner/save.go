package planner

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"seamwright/planner/disk"
)

// ErrNoPath is returned by Save for a document that has no file yet.
var ErrNoPath = errors.New("the project has no file yet: save it under a name")

// ChangedError says that another program has changed or removed the file since it was opened or saved, told by its
// content. The window offers the choice: Reload, SaveAs, or Save with OverChange.
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

// ExistsError says that another file stands where the project was to be saved.
type ExistsError struct{ Path string }

// Error says which.
func (e *ExistsError) Error() string { return fmt.Sprintf("%s is already there", e.Path) }

// LinkedError says that the file has several names, which saving would part.
type LinkedError = disk.LinkedError

// Consent is what the user has agreed to when saving. Without it a save is refused with the error named beside it.
type Consent uint8

// The consents there are; they add up.
const (
	OverChange Consent = 1 << iota // another program's change is written over: *ChangedError
	OverFile                       // another file is written over: *ExistsError
	PartLinks                      // the other names of the file keep the old text: *LinkedError
)

// ChangedOnDisk says whether another program has changed or removed the file since it was opened or saved.
func (d *Document) ChangedOnDisk() bool {
	if d.path == "" {
		return false
	}
	src, _, err := disk.Read(system, d.path, largestFile+1)
	if err != nil {
		return errors.Is(err, fs.ErrNotExist)
	}
	return sha256.Sum256(src) != d.disk
}

// Save writes the document to its file, whole or not at all, and keeps what stood there as one backup. Nothing is written
// where that text stands there already.
func (d *Document) Save(agreed ...Consent) error {
	if d.path == "" {
		return ErrNoPath
	}
	return d.write(d.path, all(agreed))
}

// SaveAs writes the document to another file, which becomes its own. What stood there is kept as its backup.
func (d *Document) SaveAs(path string, agreed ...Consent) error { return d.write(path, all(agreed)) }

func all(agreed []Consent) (sum Consent) {
	for _, c := range agreed {
		sum |= c
	}
	return sum
}

// SaveNotes says in words what the last save could not keep of the file that stood there: its owner, say.
func (d *Document) SaveNotes() []string { return d.notes }

// write saves and takes the file as the document's own.
func (d *Document) write(path string, agreed Consent) error {
	d.EndGroup()
	d.notes = nil
	own := d.path != "" && sameFile(path, d.path)
	if own && agreed&OverChange == 0 {
		if _, err := system.Stat(d.path); errors.Is(err, fs.ErrNotExist) {
			return &ChangedError{Path: d.path, Gone: true}
		}
	}
	notes, err := disk.Bytes(system, path, d.src, disk.Options{
		Part:   agreed&PartLinks != 0,
		Before: func(target string, is fs.FileInfo) error { return d.mayWrite(path, target, is, own, agreed) },
	})
	switch {
	case errors.Is(err, disk.ErrMoved):
		return &ChangedError{Path: path}
	case err != nil && !errors.Is(err, errNothingToWrite):
		return err
	}
	d.notes = append(d.notes, notes...)
	d.path, d.name = path, filepath.Base(path)
	d.stands(d.src)
	return nil
}

// mayWrite says what stands against writing over the file that is there, and keeps its text as the backup.
func (d *Document) mayWrite(path, target string, is fs.FileInfo, own bool, agreed Consent) error {
	if is == nil {
		return nil
	}
	old, _, err := disk.Read(system, target, largestFile+1)
	switch {
	case err != nil:
		return fmt.Errorf("%s could not be saved: what stands there cannot be read: %w; the file is as it was", path, disk.Cause(err))
	case bytes.Equal(old, d.src):
		return errNothingToWrite
	case own && agreed&OverChange == 0 && sha256.Sum256(old) != d.disk:
		return &ChangedError{Path: path}
	case !own && agreed&OverFile == 0:
		return &ExistsError{Path: path}
	case len(old) > largestFile:
		d.notes = append(d.notes, "what stood there was too large to be kept")
		return nil
	}
	note, err := keepBackup(target, old, is)
	if note != "" {
		d.notes = append(d.notes, note)
	}
	return err
}

// errNothingToWrite ends a save early: the text stands there already.
var errNothingToWrite = errors.New("the text stands there already")

// sameFile says whether two names are one file, through links; names of which nothing is there are compared.
func sameFile(a, b string) bool {
	x, err1 := system.Stat(a)
	y, err2 := system.Stat(b)
	if err1 == nil && err2 == nil {
		return os.SameFile(x, y)
	}
	a, err1 = filepath.Abs(a)
	b, err2 = filepath.Abs(b)
	return err1 == nil && err2 == nil && a == b
}
