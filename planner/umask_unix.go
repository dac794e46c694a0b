//go:build unix

package planner

import (
	"os"
	"sync"
	"syscall"
)

// umask of the program. It can only be read by setting it, so it is read once.
var umask = sync.OnceValue(func() os.FileMode {
	mask := syscall.Umask(0o077)
	syscall.Umask(mask)
	return os.FileMode(mask)
})
