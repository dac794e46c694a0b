package planner

import (
	"bytes"

	"seamwright/planner/journal"
)

// splice replaces old by new at a byte offset. Its inverse gives back the same bytes.
type splice struct {
	at       int
	old, new []byte
}

// inverse takes the splice back.
func (s splice) inverse() splice { return splice{at: s.at, old: s.new, new: s.old} }

// empty says that nothing is replaced.
func (s splice) empty() bool { return len(s.old) == 0 && len(s.new) == 0 }

// on gives the text with the splice made; src stays as it is.
func (s splice) on(src []byte) []byte {
	out := make([]byte, 0, len(src)-len(s.old)+len(s.new))
	out = append(out, src[:s.at]...)
	out = append(out, s.new...)
	return append(out, src[s.at+len(s.old):]...)
}

// difference is the smallest single splice that turns before into after.
func difference(before, after []byte) splice {
	at, removed, inserted := journal.Difference(before, after)
	return splice{at: at, old: bytes.Clone(before[at : at+removed]), new: bytes.Clone(inserted)}
}
