package planner

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
)

// usualMode is the mode of a file that did not exist before; the umask narrows it.
const usualMode = 0o666

// openTemporary makes the file that is written before it takes its place. A test puts a full disk here.
var openTemporary = func(dir, pattern string) (temporary, error) { return os.CreateTemp(dir, pattern) }

type temporary interface {
	io.Writer
	Name() string
	Chmod(os.FileMode) error
	Sync() error
	Close() error
}

// writeFile replaces a file whole or not at all: a temporary file in the same folder is written, synced and
// renamed over it, and the folder is synced. Links are followed, the mode is kept, and what stood there becomes
// the backup. On an error the old file is as it was.
func writeFile(path string, data []byte, backup bool) error {
	fail := func(err error) error {
		return fmt.Errorf("%s could not be saved: %w; the file is as it was", path, plainCause(err))
	}
	target := path
	if resolved, err := filepath.EvalSymlinks(path); err == nil {
		target = resolved
	}
	mode := os.FileMode(0)
	info, err := os.Stat(target)
	switch {
	case err == nil && info.IsDir():
		return fmt.Errorf("%s is a folder; choose a file name", path)
	case err == nil:
		mode = info.Mode().Perm()
		f, err := os.OpenFile(target, os.O_WRONLY, 0) // a read-only file is not to be replaced behind its owner's back
		if err != nil {
			return fail(err)
		}
		f.Close()
	}
	dir := filepath.Dir(target)
	temp, err := writeTemporary(dir, "."+filepath.Base(target)+".*.tmp", data, mode)
	if err != nil {
		return fail(err)
	}
	if mode != 0 && backup {
		if err := keepBackup(target, mode); err != nil {
			os.Remove(temp)
			return fail(err)
		}
	}
	if err := os.Rename(temp, target); err != nil {
		os.Remove(temp)
		return fail(err)
	}
	syncFolder(dir)
	return nil
}

// writeTemporary writes and syncs a new file beside the one it will replace, and gives its name. Mode 0 stands for
// the usual one.
func writeTemporary(dir, pattern string, data []byte, mode os.FileMode) (name string, err error) {
	f, err := openTemporary(dir, pattern)
	if err != nil {
		return "", err
	}
	closed := false
	defer func() {
		if err != nil {
			if !closed {
				f.Close()
			}
			os.Remove(f.Name())
		}
	}()
	if _, err := f.Write(data); err != nil {
		return "", err
	}
	if mode == 0 {
		mode = usualMode &^ umask()
	}
	if err := f.Chmod(mode); err != nil && runtime.GOOS != "windows" {
		return "", err
	}
	if err := f.Sync(); err != nil {
		return "", err
	}
	closed = true
	return f.Name(), f.Close()
}

// keepBackup copies what stands in a file to its backup, itself written whole or not at all.
func keepBackup(target string, mode os.FileMode) error {
	old, err := os.ReadFile(target)
	if err != nil {
		return err
	}
	backup := target + backupSuffix
	temp, err := writeTemporary(filepath.Dir(backup), "."+filepath.Base(backup)+".*.tmp", old, mode)
	if err != nil {
		return err
	}
	if err := os.Rename(temp, backup); err != nil {
		os.Remove(temp)
		return err
	}
	return nil
}

// syncFolder makes a rename last through a power cut. Systems that cannot sync a folder do without.
func syncFolder(dir string) {
	if f, err := os.Open(dir); err == nil {
		_ = f.Sync()
		_ = f.Close()
	}
}
