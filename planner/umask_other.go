//go:build !unix

package planner

import "os"

func umask() os.FileMode { return 0o022 }
