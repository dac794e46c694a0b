package planner

import (
	"encoding/json"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"slices"

	"seamwright/planner/disk"
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
	if err := system.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return err
	}
	_, err = disk.Bytes(system, path, data, disk.Options{Part: true})
	return err
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
		_, err := system.Stat(path)
		files = append(files, RecentFile{Path: path, Missing: errors.Is(err, fs.ErrNotExist)})
	}
	return files
}

func recentPaths() []string {
	dir, err := stateFolder()
	if err != nil {
		return nil
	}
	data, _, err := disk.Read(system, filepath.Join(dir, "recent.json"), largestFile)
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
