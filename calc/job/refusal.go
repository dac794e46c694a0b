package job

import "fmt"

// Refusal says why a project that reads well cannot be planned as it is drawn, and what to change. It names what is at
// fault as the project file does, so that whoever holds the file can point at the line.
type Refusal struct {
	Where       string // a room or a surface: studio, studio/south, studio/ceiling; "" for the whole project
	Key         string // what is at fault there, like top or openings; "" for all of it
	Item        int    // which entry under that key, from 1; 0 for all of them
	Alternative string // of which variant, "" of the project as drawn
	Problem     string
	Remedy      string
}

// Refuse is a refusal of a room or a surface.
func Refuse(where, remedy, format string, args ...any) *Refusal {
	return &Refusal{Where: where, Problem: fmt.Sprintf(format, args...), Remedy: remedy}
}

// At says under which key the fault lies, and at which of its entries.
func (r *Refusal) At(key string, item int) *Refusal {
	r.Key, r.Item = key, item
	return r
}

// Error names the place, the problem and the remedy in one line.
func (r *Refusal) Error() string {
	text := r.Problem
	if r.Remedy != "" {
		text += ": " + r.Remedy
	}
	if r.Where != "" {
		text = r.Where + ": " + text
	}
	return text
}
