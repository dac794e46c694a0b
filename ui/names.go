package ui

import (
	"strings"

	"seamwright/scene/draft"
)

// plainly is a sentence of the plan as people read it: with a capital, and with names in the place of ids.
func (w *Window) plainly(s string) string { return capital(w.plain(s)) }

// plain is the same within another sentence.
func (w *Window) plain(s string) string {
	j := w.model.Doc.Job()
	for i := range j.Products {
		s = withProduct(s, j.Products[i].ID, shortLayers(j, []string{j.Products[i].ID}))
	}
	return squared(draft.Plainly(j, s))
}

// withProduct puts a product's name in the place of its id before a size: "board 1/2" 4x16" for "gyp-12 4x16".
func withProduct(s, id, name string) string {
	var out strings.Builder
	for {
		at := strings.Index(s, id+" ")
		if at < 0 {
			out.WriteString(s)
			return out.String()
		}
		end := at + len(id)
		out.WriteString(s[:at])
		if after := s[end+1:]; (at == 0 || s[at-1] == ' ') && after != "" && after[0] >= '0' && after[0] <= '9' {
			out.WriteString(name)
		} else {
			out.WriteString(id)
		}
		s = s[end:]
	}
}
