package disk

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
)

// usualMode is the mode of a file that did not exist before; the umask narrows it.
const usualMode = 0o666

// mostLinks is how many symbolic links are followed, as the Linux kernel does (path_resolution(7)).
const mostLinks = 40

// Options says how a file is written. The zero value writes a new file or replaces one that has a single name.
type Options struct {
	// Part agrees that a file with several names (hard links) becomes two files.
	Part bool
	// Like is a file whose owner, group and mode the new one gets; nil: those of the file it replaces.
	Like fs.FileInfo
	// Before looks at what will be replaced, nil for nothing yet, when the new content is safe beside it. On an error nothing
	// is replaced. ErrMoved follows where the file is written between Before and the replacing.
	Before func(target string, is fs.FileInfo) error
}

// Bytes writes content that is at hand.
func Bytes(sys FS, path string, data []byte, o Options) (notes []string, err error) {
	return Write(sys, path, o, func(w io.Writer) error {
		_, err := io.Copy(w, bytes.NewReader(data))
		return err
	})
}

// Write replaces a file whole or not at all by what content writes. Notes say in words what of the old file could not be
// kept although the new one stands.
func Write(sys FS, path string, o Options, content func(io.Writer) error) (notes []string, err error) {
	fail := func(err error) ([]string, error) {
		return nil, fmt.Errorf("%s could not be saved: %w; the file is as it was", path, Cause(err))
	}
	target, err := follow(sys, path)
	if err != nil {
		return fail(err)
	}
	was, err := sys.Stat(target)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		was = nil
	case err != nil:
		return fail(err)
	default:
		if err := mayReplace(sys, path, target, was, o); err != nil {
			return nil, err
		}
	}
	dir := filepath.Dir(target)
	sweep(sys, dir)
	t, err := newTemporary(sys, dir)
	if err != nil {
		return fail(err)
	}
	defer t.drop()
	if err := content(t.file); err != nil {
		return fail(err)
	}
	if o.Like != nil {
		was = o.Like
	}
	if notes, err = t.finish(was); err != nil {
		return fail(err)
	}
	if err := look(sys, target, o); err != nil {
		return nil, err
	}
	if err := t.replace(target); err != nil {
		return fail(err)
	}
	return append(notes, syncFolder(sys, dir)...), nil
}

// MayWrite says beforehand what would stand against writing a file, as far as that is seen from outside: for those who
// have long work to do before there is anything to write.
func MayWrite(sys FS, path string, o Options) error {
	target, err := follow(sys, path)
	if err == nil {
		var was fs.FileInfo
		if was, err = sys.Stat(target); err == nil {
			return mayReplace(sys, path, target, was, o)
		}
		if errors.Is(err, fs.ErrNotExist) {
			_, err = sys.Stat(filepath.Dir(target))
		}
	}
	if err != nil {
		return fmt.Errorf("%s cannot be written: %w", path, Cause(err))
	}
	return nil
}

// mayReplace says what stands against replacing a file that is there.
func mayReplace(sys FS, path, target string, was fs.FileInfo, o Options) error {
	if why := Refused(was); why != "" {
		return fmt.Errorf("%s %s; choose a file name", path, why)
	}
	if _, _, names, ok := ownerOf(was); ok && names > 1 && !o.Part {
		return &LinkedError{path, names}
	}
	f, err := sys.OpenFile(target, os.O_WRONLY, 0) // a read-only file is not to be replaced behind its owner's back
	if err != nil {
		return fmt.Errorf("%s could not be saved: %w; the file is as it was", path, Cause(err))
	}
	return f.Close()
}

// look shows what stands in the target to the caller, and makes sure that it stays until it is replaced, as far as that
// can be seen.
func look(sys FS, target string, o Options) error {
	if o.Before == nil {
		return nil
	}
	is, err := sys.Stat(target)
	if errors.Is(err, fs.ErrNotExist) {
		return o.Before(target, nil)
	}
	if err != nil {
		return fmt.Errorf("%s could not be saved: %w; the file is as it was", target, Cause(err))
	}
	if err := o.Before(target, is); err != nil {
		return err
	}
	after, err := sys.Stat(target)
	if err != nil || !os.SameFile(is, after) || is.Size() != after.Size() || !is.ModTime().Equal(after.ModTime()) {
		return ErrMoved
	}
	return nil
}

// Read reads a regular file, at most so many bytes of it; 0 reads all. What else stands under the name is refused.
func Read(sys FS, path string, most int64) ([]byte, fs.FileInfo, error) {
	info, err := sys.Stat(path)
	if err != nil {
		return nil, nil, err
	}
	if why := Refused(info); why != "" {
		return nil, nil, fmt.Errorf("%s %s", path, why)
	}
	f, err := sys.OpenFile(path, os.O_RDONLY, 0)
	if err != nil {
		return nil, nil, err
	}
	defer f.Close()
	if info, err = f.Stat(); err != nil {
		return nil, nil, err
	}
	var in io.Reader = f
	if most > 0 {
		in = io.LimitReader(f, most)
	}
	data, err := io.ReadAll(in)
	if err != nil {
		return nil, nil, err
	}
	return data, info, nil
}

// follow gives the file that symbolic links lead to, also where that is not there yet.
func follow(sys FS, path string) (string, error) {
	for range mostLinks {
		info, err := sys.Lstat(path)
		if errors.Is(err, fs.ErrNotExist) {
			return path, nil
		}
		if err != nil {
			return "", err
		}
		if info.Mode()&fs.ModeSymlink == 0 {
			return path, nil
		}
		to, err := sys.Readlink(path)
		if err != nil {
			return "", err
		}
		if !filepath.IsAbs(to) {
			to = filepath.Join(filepath.Dir(path), to)
		}
		path = to
	}
	return "", syscall.ELOOP
}

// syncFolder makes a rename last through a power cut. Systems that cannot sync a folder do without.
func syncFolder(sys FS, dir string) []string {
	f, err := sys.OpenFile(dir, os.O_RDONLY, 0)
	if err != nil {
		return nil
	}
	defer f.Close()
	if err := f.Sync(); errors.Is(err, syscall.EIO) {
		return []string{"the folder could not be synced: a power cut now might bring the old file back"}
	}
	return nil
}
