package disk

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"syscall"
)

// LinkedError says that a file has several names, which writing would part.
type LinkedError struct {
	Path  string
	Names uint64
}

// Error says what stands against writing, and what to do.
func (e *LinkedError) Error() string {
	return fmt.Sprintf("%s is one file with %d names (hard links), and writing would part them: the others would keep the old content; choose another name", e.Path, e.Names)
}

// ErrMoved is returned where another program has written the file while it was being saved.
var ErrMoved = errors.New("another program has written it at the same moment")

// Refused says in one line why something that stands under a name cannot be read or written as a file, "" where it can.
func Refused(info fs.FileInfo) string {
	switch m := info.Mode(); {
	case m.IsDir():
		return "is a folder"
	case m&fs.ModeNamedPipe != 0:
		return "is a pipe"
	case m&fs.ModeSocket != 0:
		return "is a socket"
	case m&fs.ModeDevice != 0:
		return "is a device"
	case !m.IsRegular():
		return "is not a regular file"
	}
	return ""
}

// Cause takes the call and the path out of a file error and words the common causes.
func Cause(err error) error {
	for _, c := range []struct {
		is    error
		words string
	}{
		{fs.ErrPermission, "you do not have permission"},
		{syscall.ENOSPC, "the disk is full"},
		{syscall.EDQUOT, "your share of the disk is full"},
		{syscall.EROFS, "the disk cannot be written to"},
		{syscall.EIO, "the disk does not answer as it should"},
		{syscall.ENAMETOOLONG, "the name is too long"},
		{fs.ErrNotExist, "the folder is not there"},
	} {
		if errors.Is(err, c.is) {
			return &worded{c.words, err}
		}
	}
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	var l *os.LinkError
	if errors.As(err, &l) {
		return l.Err
	}
	return err
}

// worded is an error in plain words that remembers what it was.
type worded struct {
	words string
	err   error
}

func (w *worded) Error() string { return w.words }
func (w *worded) Unwrap() error { return w.err }
