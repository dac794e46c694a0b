package board

import "sync"

// Memo keeps the layouts of groups by the content that they were found from. It may be nil, and may be used from
// several goroutines at once. What it holds never changes an answer.
type Memo struct {
	mu     sync.Mutex
	groups map[[32]byte][]settled
}

// NewMemo is an empty memo.
func NewMemo() *Memo { return &Memo{groups: map[[32]byte][]settled{}} }
