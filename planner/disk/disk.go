// Package disk is the one way in which this program writes files: projects, their backups, what it remembers between
// runs, pictures and exports.
//
// A file is replaced whole or not at all. The new content goes to a temporary file in the same folder, is synced, takes
// over mode, owner and group of the file it will replace, and is renamed over it; then the folder is synced. So a kill, a
// full disk or a failing one leave either the old file or the new one, never a part, and what is left lying about by a
// killed save is swept by the next one in that folder.
//
// What is not to be replaced so is refused with one clear line: folders, pipes, devices, read-only files. Symbolic links
// are followed, also to a file that is not there yet. A file with several names (hard links) is refused until the caller
// has agreed that they part (Options.Part): writing into the file itself would keep them together, but could be cut off
// half way, and many such names are backups that must keep their old content.
//
// Every call to the system goes through FS, so that tests let each of them fail in turn (package faulty).
package disk

import (
	"io"
	"io/fs"
	"os"

	"github.com/gofrs/flock"
)

// FS is what writing asks of the system.
type FS interface {
	OpenFile(name string, flag int, mode fs.FileMode) (File, error)
	Stat(name string) (fs.FileInfo, error)
	Lstat(name string) (fs.FileInfo, error)
	Readlink(name string) (string, error)
	ReadDir(name string) ([]fs.DirEntry, error)
	Rename(from, to string) error
	Remove(name string) error
	MkdirAll(name string, mode fs.FileMode) error
	// TryLock takes the advisory lock of a file, until Unlock or the end of the program. ok is false where another holds
	// it. The file is made if create is set and it is not there.
	TryLock(name string, create bool) (lock Lock, ok bool, err error)
}

// File is an open file.
type File interface {
	io.ReadWriteCloser
	Stat() (fs.FileInfo, error)
	Chmod(fs.FileMode) error
	Chown(user, group int) error
	Truncate(size int64) error
	Sync() error
}

// Lock is a lock that is held.
type Lock interface{ Unlock() error }

// OS is the system's own file system.
type OS struct{}

// OpenFile opens a file; a pipe that nobody writes to does not hold it up.
func (OS) OpenFile(name string, flag int, mode fs.FileMode) (File, error) {
	f, err := os.OpenFile(name, flag|neverWait, mode)
	if err != nil {
		return nil, err
	}
	return f, nil
}

// Stat looks at a file through links.
func (OS) Stat(name string) (fs.FileInfo, error) { return os.Stat(name) }

// Lstat looks at a link itself.
func (OS) Lstat(name string) (fs.FileInfo, error) { return os.Lstat(name) }

// Readlink tells where a link leads.
func (OS) Readlink(name string) (string, error) { return os.Readlink(name) }

// ReadDir lists a folder.
func (OS) ReadDir(name string) ([]fs.DirEntry, error) { return os.ReadDir(name) }

// Rename moves a file over another.
func (OS) Rename(from, to string) error { return os.Rename(from, to) }

// Remove takes a file away.
func (OS) Remove(name string) error { return os.Remove(name) }

// MkdirAll makes a folder and those above it.
func (OS) MkdirAll(name string, mode fs.FileMode) error { return os.MkdirAll(name, mode) }

// TryLock takes the lock of a file.
func (OS) TryLock(name string, create bool) (Lock, bool, error) {
	flag := os.O_RDWR | neverWait
	if create {
		flag |= os.O_CREATE
	}
	l := flock.New(name, flock.SetFlag(flag), flock.SetPermissions(0o600))
	ok, err := l.TryLock()
	if !ok {
		return nil, false, err
	}
	return l, true, nil
}
