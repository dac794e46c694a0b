package disk

import (
	"crypto/rand"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"
)

// What temporary files are called: short, so that they fit beside the longest name.
const (
	temporaryHead = ".seamwright-"
	temporaryTail = ".tmp"
)

// How old a temporary file without a lock must be before it is taken for left behind: an empty one may be locked in the
// next moment; where nothing is locked, nobody writes for a day.
const (
	emptyFor = time.Minute
	anyFor   = 24 * time.Hour
)

// temporary is a file that is written before it takes its place.
type temporary struct {
	sys    FS
	name   string
	file   File
	lock   Lock // nil where the system does not lock them
	closed bool
	placed bool
}

// newTemporary makes a new empty file with a lock on it, readable to its owner alone.
func newTemporary(sys FS, dir string) (*temporary, error) {
	for {
		t := &temporary{sys: sys, name: filepath.Join(dir, temporaryHead+rand.Text()[:12]+temporaryTail)}
		f, err := sys.OpenFile(t.name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
		if errors.Is(err, fs.ErrExist) {
			continue
		}
		if err != nil {
			return nil, err
		}
		t.file = f
		if locksTemporaries {
			// A file system without locks does without: nothing is swept there.
			t.lock, _, _ = sys.TryLock(t.name, false)
		}
		return t, nil
	}
}

// finish gives the new file owner, group and mode of the one it will replace, nil for none, and syncs it.
func (t *temporary) finish(was fs.FileInfo) (notes []string, err error) {
	mode := usualMode &^ umask()
	if was != nil {
		mode = was.Mode().Perm()
		if notes, mode, err = t.own(was, mode); err != nil {
			return nil, err
		}
	}
	if err := t.file.Chmod(mode); err != nil && renamesOpen {
		return nil, err
	}
	if err := t.file.Sync(); err != nil {
		return nil, err
	}
	if renamesOpen {
		return notes, nil
	}
	t.closed = true
	return notes, t.file.Close() // elsewhere than on Unix
}

// own hands the file to owner and group of the one before. Where the group cannot be kept, the new one is given no more
// than everybody has, since it is not whom the mode was meant for.
func (t *temporary) own(was fs.FileInfo, mode fs.FileMode) ([]string, fs.FileMode, error) {
	user, group, _, ok := ownerOf(was)
	if !ok {
		return nil, mode, nil
	}
	now, err := t.file.Stat()
	if err != nil {
		return nil, mode, err
	}
	ownUser, ownGroup, _, _ := ownerOf(now)
	var notes []string
	if group != ownGroup && t.file.Chown(-1, group) != nil {
		everybody := mode & 0o007
		mode = mode&^0o070 | mode&0o070&(everybody<<3)
		notes = append(notes, fmt.Sprintf("its group could not be kept: you are not in group %d", group))
	}
	if user != ownUser && t.file.Chown(user, -1) != nil {
		notes = append(notes, fmt.Sprintf("its owner could not be kept: it was user %d's and is yours now", user))
	}
	return notes, mode, nil
}

// replace renames the file over its target. Its lock holds until it stands there.
func (t *temporary) replace(target string) error {
	if err := t.sys.Rename(t.name, target); err != nil {
		return err
	}
	t.placed = true
	return nil
}

// drop closes the file, and removes it where it has not taken its place.
func (t *temporary) drop() {
	if !t.closed {
		_ = t.file.Close() // synced before, or given up
	}
	if !t.placed {
		_ = t.sys.Remove(t.name) // what stays is swept later
	}
	if t.lock != nil {
		_ = t.lock.Unlock()
	}
}

// sweep removes temporary files of writers that were killed. What cannot be looked at stays.
func sweep(sys FS, dir string) {
	entries, err := sys.ReadDir(dir)
	if err != nil {
		return
	}
	for _, e := range entries {
		if name := e.Name(); e.Type().IsRegular() && strings.HasPrefix(name, temporaryHead) && strings.HasSuffix(name, temporaryTail) {
			sweepOne(sys, filepath.Join(dir, name), e)
		}
	}
}

// sweepOne removes a temporary file if its writer is dead: its lock is free then.
func sweepOne(sys FS, path string, e fs.DirEntry) {
	info, err := e.Info()
	if err != nil {
		return
	}
	age := time.Since(info.ModTime())
	if !locksTemporaries || info.Size() == 0 {
		wait := anyFor
		if locksTemporaries {
			wait = emptyFor
		}
		if age < wait {
			return
		}
	}
	if locksTemporaries {
		lock, ok, err := sys.TryLock(path, false)
		if !ok || err != nil {
			return
		}
		defer lock.Unlock()
	}
	_ = sys.Remove(path)
}
