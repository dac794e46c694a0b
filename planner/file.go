package planner

import (
	"errors"
	"fmt"
	"time"
)

// Extension is how project files end.
const Extension = ".seam.yaml"

// ErrNoPath is returned by Save for a document that has no file yet.
var ErrNoPath = errors.New("the project has no file yet: save it under a name")

// ChangedError says that another program has changed or removed the file since it was opened or saved. The window
// offers the choice: Reload, SaveAs, or SaveOver.
type ChangedError struct {
	Path string
	Gone bool
}

// Error says what happened to the file.
func (e *ChangedError) Error() string {
	if e.Gone {
		return fmt.Sprintf("%s has been removed or renamed by another program since it was opened", e.Path)
	}
	return fmt.Sprintf("%s has been changed by another program since it was opened", e.Path)
}

// mark is how a file looked when it was read or written last.
type mark struct {
	size    int64
	changed time.Time
	sum     [32]byte
}
