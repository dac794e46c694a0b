// Package faulty is a file system that fails on demand, for tests of everything that writes.
package faulty

import (
	"fmt"
	"io/fs"
	"path/filepath"
	"runtime"
	"strings"
	"sync"

	"seamwright/planner/disk"
)

// FS passes every call to the system's own file system, save for the one that is to fail.
type FS struct {
	At    int    // the call that fails, counted from 1; 0: none does
	Err   error  // with what
	Short bool   // a failing write writes half of what it was given before it fails
	Every string // a call that always fails besides, by its name: "Rename"
	Dead  bool   // after the failing call no other does anything: the program was killed there

	mu    sync.Mutex
	calls int
	sites map[string]bool // where in the program the failing calls were made, "write.go:12 Rename"
	on    disk.OS
}

// New is a file system whose calls all succeed until At is set. Sites are gathered into the map given.
func New(sites map[string]bool) *FS { return &FS{sites: sites} }

// Calls is how many calls were made.
func (f *FS) Calls() int {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.calls
}

// fails counts a call and says whether it is the one to fail.
func (f *FS) fails(name string) error {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.calls++
	switch {
	case name == f.Every:
	case f.At == 0 || f.calls < f.At, f.calls > f.At && !f.Dead:
		return nil
	}
	if f.calls == f.At {
		f.sites[site(name)] = true
	}
	return &fs.PathError{Op: name, Path: "injected", Err: f.Err}
}

// site is the nearest caller outside this package.
func site(name string) string {
	pc := make([]uintptr, 12)
	frames := runtime.CallersFrames(pc[:runtime.Callers(2, pc)])
	for {
		frame, more := frames.Next()
		if !strings.Contains(frame.Function, "planner/disk/faulty") {
			return fmt.Sprintf("%s:%d %s", filepath.Base(frame.File), frame.Line, name)
		}
		if !more {
			return name
		}
	}
}

// OpenFile opens a file whose calls may fail too.
func (f *FS) OpenFile(name string, flag int, mode fs.FileMode) (disk.File, error) {
	if err := f.fails("OpenFile"); err != nil {
		return nil, err
	}
	file, err := f.on.OpenFile(name, flag, mode)
	if err != nil {
		return nil, err
	}
	return &open{file, f}, nil
}

// Stat looks at a file.
func (f *FS) Stat(name string) (fs.FileInfo, error) {
	if err := f.fails("Stat"); err != nil {
		return nil, err
	}
	return f.on.Stat(name)
}

// Lstat looks at a link.
func (f *FS) Lstat(name string) (fs.FileInfo, error) {
	if err := f.fails("Lstat"); err != nil {
		return nil, err
	}
	return f.on.Lstat(name)
}

// Readlink tells where a link leads.
func (f *FS) Readlink(name string) (string, error) {
	if err := f.fails("Readlink"); err != nil {
		return "", err
	}
	return f.on.Readlink(name)
}

// ReadDir lists a folder.
func (f *FS) ReadDir(name string) ([]fs.DirEntry, error) {
	if err := f.fails("ReadDir"); err != nil {
		return nil, err
	}
	return f.on.ReadDir(name)
}

// Rename moves a file.
func (f *FS) Rename(from, to string) error {
	if err := f.fails("Rename"); err != nil {
		return err
	}
	return f.on.Rename(from, to)
}

// Remove takes a file away.
func (f *FS) Remove(name string) error {
	if err := f.fails("Remove"); err != nil {
		return err
	}
	return f.on.Remove(name)
}

// MkdirAll makes folders.
func (f *FS) MkdirAll(name string, mode fs.FileMode) error {
	if err := f.fails("MkdirAll"); err != nil {
		return err
	}
	return f.on.MkdirAll(name, mode)
}

// TryLock takes a lock.
func (f *FS) TryLock(name string, create bool) (disk.Lock, bool, error) {
	if err := f.fails("TryLock"); err != nil {
		return nil, false, err
	}
	return f.on.TryLock(name, create) // given back whatever fails: a killed program's locks are free
}

// open is an open file.
type open struct {
	disk.File
	f *FS
}

func (o *open) Read(p []byte) (int, error) {
	if err := o.f.fails("Read"); err != nil {
		return 0, err
	}
	return o.File.Read(p)
}

func (o *open) Write(p []byte) (int, error) {
	if err := o.f.fails("Write"); err != nil {
		if o.f.Short {
			n, _ := o.File.Write(p[:len(p)/2])
			return n, err
		}
		return 0, err
	}
	return o.File.Write(p)
}

func (o *open) Stat() (fs.FileInfo, error) {
	if err := o.f.fails("File.Stat"); err != nil {
		return nil, err
	}
	return o.File.Stat()
}

func (o *open) Chmod(mode fs.FileMode) error {
	if err := o.f.fails("Chmod"); err != nil {
		return err
	}
	return o.File.Chmod(mode)
}

func (o *open) Chown(user, group int) error {
	if err := o.f.fails("Chown"); err != nil {
		return err
	}
	return o.File.Chown(user, group)
}

func (o *open) Truncate(size int64) error {
	if err := o.f.fails("Truncate"); err != nil {
		return err
	}
	return o.File.Truncate(size)
}

func (o *open) Sync() error {
	if err := o.f.fails("Sync"); err != nil {
		return err
	}
	return o.File.Sync()
}

// Close always closes, so that a test leaves nothing open, and then fails if it is to.
func (o *open) Close() error {
	err := o.f.fails("Close")
	if closing := o.File.Close(); err == nil {
		err = closing
	}
	return err
}
