package planner

import (
	"fmt"
	"sort"
	"strings"
)

// Error is one fault of a project file: where it stands, what is wrong and how to mend it.
type Error struct {
	File      string
	Line, Col int // 1-based, columns count characters; 0: the file as a whole
	Message   string
	Remedy    string // "" where the message already says it
}

// Error writes file:line:col: message; remedy.
func (e Error) Error() string {
	var b strings.Builder
	if e.File != "" {
		b.WriteString(e.File + ":")
	}
	if e.Line > 0 {
		fmt.Fprintf(&b, "%d:%d:", e.Line, e.Col)
	}
	if b.Len() > 0 {
		b.WriteByte(' ')
	}
	b.WriteString(e.Message)
	if e.Remedy != "" {
		b.WriteString(": " + e.Remedy)
	}
	return b.String()
}

// Errors is every fault of a file in the order of its text.
type Errors []Error

// shownErrors is how many faults one message lists before it says "and N more".
const shownErrors = 20

// Error writes one fault a line, and how many more there are.
func (e Errors) Error() string {
	lines := make([]string, 0, shownErrors+1)
	for i, x := range e {
		if i == shownErrors {
			lines = append(lines, fmt.Sprintf("and %d more", len(e)-i))
			break
		}
		lines = append(lines, x.Error())
	}
	return strings.Join(lines, "\n")
}

// andMore adds that so many more faults are not listed, at the place of the last one that is.
func (e Errors) andMore(n int) Errors {
	if n <= 0 {
		return e
	}
	last := e[len(e)-1]
	last.Message, last.Remedy = fmt.Sprintf("%d more faults are not listed", n), "mend those above first"
	return append(e, last)
}

// sorted puts the faults in the order of the text and drops exact repeats.
func (e Errors) sorted() Errors {
	sort.SliceStable(e, func(i, j int) bool {
		if e[i].Line != e[j].Line {
			return e[i].Line < e[j].Line
		}
		return e[i].Col < e[j].Col
	})
	kept := e[:0]
	for i, x := range e {
		if i == 0 || x != e[i-1] {
			kept = append(kept, x)
		}
	}
	return kept
}
