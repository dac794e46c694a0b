package planner

import "bytes"

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
	n := min(len(before), len(after))
	head := 0
	for head < n && before[head] == after[head] {
		head++
	}
	tail := 0
	for tail < n-head && before[len(before)-1-tail] == after[len(after)-1-tail] {
		tail++
	}
	return splice{at: head,
		old: bytes.Clone(before[head : len(before)-tail]),
		new: bytes.Clone(after[head : len(after)-tail])}
}
