package planner

import (
	"bytes"
	"crypto/rand"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"sort"
	"strings"
)

// mostRecent is how many files the list of recent ones remembers.
const mostRecent = 12

// stateFolder is where the program keeps what it must remember between runs: XDG_STATE_HOME on Unix systems (the
// XDG Base Directory Specification), the user's configuration folder elsewhere.
func stateFolder() (string, error) {
	if dir := os.Getenv("XDG_STATE_HOME"); filepath.IsAbs(dir) {
		return filepath.Join(dir, "seamwright"), nil
	}
	if runtime.GOOS == "windows" || runtime.GOOS == "darwin" {
		dir, err := os.UserConfigDir()
		return filepath.Join(dir, "seamwright"), err
	}
	home, err := os.UserHomeDir()
	return filepath.Join(home, ".local", "state", "seamwright"), err
}

// keep writes a file of the state folder.
func keep(name string, data []byte) error {
	dir, err := stateFolder()
	if err != nil {
		return err
	}
	path := filepath.Join(dir, name)
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return err
	}
	return writeFile(path, data, false)
}

// RecentFile is one file worked on lately.
type RecentFile struct {
	Path    string
	Missing bool // it is not there any more
}

// Recent is the files worked on lately, newest first.
func Recent() []RecentFile {
	var files []RecentFile
	for _, path := range recentPaths() {
		_, err := os.Stat(path)
		files = append(files, RecentFile{Path: path, Missing: errors.Is(err, fs.ErrNotExist)})
	}
	return files
}

func recentPaths() []string {
	dir, err := stateFolder()
	if err != nil {
		return nil
	}
	data, err := os.ReadFile(filepath.Join(dir, "recent.json"))
	if err != nil {
		return nil
	}
	var paths []string
	if json.Unmarshal(data, &paths) != nil {
		return nil
	}
	return paths[:min(len(paths), mostRecent)]
}

// Remember puts a file at the head of the recent ones.
func Remember(path string) error {
	path, err := filepath.Abs(path)
	if err != nil {
		return err
	}
	paths := slices.DeleteFunc(recentPaths(), func(p string) bool { return p == path })
	paths = append([]string{path}, paths...)
	data, err := json.MarshalIndent(paths[:min(len(paths), mostRecent)], "", "  ")
	if err != nil {
		return err
	}
	return keep("recent.json", append(data, '\n'))
}

// ForgetRecent empties the list of recent files.
func ForgetRecent() error { return keep("recent.json", []byte("[]\n")) }

// savedCopy is an autosaved document.
type savedCopy struct {
	Path   string // its file, "" for one never saved
	Source string
}

const copiesFolder = "unsaved"

// copyName is the file in the state folder that a document is autosaved to: one for each project file, and one for
// each unsaved document of this run.
func (d *Document) copyName() string {
	key := d.path
	if abs, err := filepath.Abs(key); err == nil && key != "" {
		key = abs
	}
	if key == "" {
		if d.unsavedID == "" {
			d.unsavedID = rand.Text()
		}
		key = "unsaved " + d.unsavedID
	}
	sum := sha256.Sum256([]byte(key))
	return filepath.Join(copiesFolder, hex.EncodeToString(sum[:8])+".json")
}

// Autosave keeps an unsaved document in the user's state folder, so that a crash loses nothing. A document without
// changes has its copy removed.
func (d *Document) Autosave() error {
	if !d.Dirty() {
		return d.Discard()
	}
	path := d.path
	if path != "" {
		abs, err := filepath.Abs(path)
		if err != nil {
			return err
		}
		path = abs
	}
	data, err := json.MarshalIndent(savedCopy{Path: path, Source: string(d.src)}, "", "  ")
	if err != nil {
		return err
	}
	return keep(d.copyName(), data)
}

// Discard removes the document's autosaved copy: after saving, or when the user gives the changes up.
func (d *Document) Discard() error { return dropCopy(d.copyName()) }

func dropCopy(name string) error {
	dir, err := stateFolder()
	if err != nil {
		return err
	}
	if err := os.Remove(filepath.Join(dir, name)); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return nil
}

// Recovery is an autosaved copy left by a run that did not end well.
type Recovery struct {
	Path string // the project file it belongs to, "" for one never saved
	Name string // the project's name
	copy string // file in the state folder
	src  []byte
}

// Recoverable lists the autosaved copies that differ from their files, by path.
func Recoverable() []Recovery {
	dir, err := stateFolder()
	if err != nil {
		return nil
	}
	entries, err := os.ReadDir(filepath.Join(dir, copiesFolder))
	if err != nil {
		return nil
	}
	var found []Recovery
	for _, e := range entries {
		name := filepath.Join(copiesFolder, e.Name())
		if !strings.HasSuffix(name, ".json") {
			continue
		}
		data, err := os.ReadFile(filepath.Join(dir, name))
		var c savedCopy
		if err != nil || json.Unmarshal(data, &c) != nil {
			continue
		}
		read, err := readSource("autosaved copy", []byte(c.Source))
		if err != nil {
			continue
		}
		if onDisk, err := os.ReadFile(c.Path); err == nil && bytes.Equal(onDisk, []byte(c.Source)) {
			continue
		}
		found = append(found, Recovery{Path: c.Path, Name: read.job.Name, copy: name, src: []byte(c.Source)})
	}
	sort.Slice(found, func(i, j int) bool { return found[i].Path+found[i].copy < found[j].Path+found[j].copy })
	return found
}

// Open gives the recovered document, changed against its file. One step of undo leads back to what stands there.
func (r Recovery) Open() (*Document, error) {
	d, err := Load(r.Path)
	if r.Path == "" || err != nil { // never saved, or its file is gone or broken: the copy is all there is
		d, err = Parse("recovered project", r.src)
		if err != nil {
			return nil, err
		}
		d.path, d.saved = r.Path, nil
		return d, nil
	}
	read, err := readSource(d.name, r.src)
	if err != nil {
		return nil, err
	}
	before := d.src
	d.show(r.src, read)
	d.push(step{label: "recover unsaved changes", splice: difference(before, r.src)})
	return d, nil
}

// Drop removes the copy.
func (r Recovery) Drop() error { return dropCopy(r.copy) }
