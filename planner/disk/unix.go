//go:build unix

package disk

import (
	"io/fs"
	"os"
	"sync"
	"syscall"
)

const (
	// neverWait keeps the opening of a pipe from waiting for its other end.
	neverWait = syscall.O_NONBLOCK
	// locksTemporaries: a temporary file is locked while it is written, so that one whose writer is dead can be told.
	locksTemporaries = true
	// renamesOpen: a file can be renamed while it is open, so that its lock holds until it stands in its place.
	renamesOpen = true
)

// umask of the program. It can only be read by setting it, so it is read once.
var umask = sync.OnceValue(func() os.FileMode {
	mask := syscall.Umask(0o077)
	syscall.Umask(mask)
	return os.FileMode(mask)
})

// ownerOf gives user, group and number of names of a file.
func ownerOf(info fs.FileInfo) (user, group int, names uint64, ok bool) {
	s, ok := info.Sys().(*syscall.Stat_t)
	if !ok {
		return 0, 0, 1, false
	}
	return int(s.Uid), int(s.Gid), uint64(s.Nlink), true
}
