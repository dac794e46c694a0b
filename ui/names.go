package ui

import (
	"strings"

	"seamwright/assets/words"
	"seamwright/calc/job"
	"seamwright/calc/plan"
	"seamwright/scene/draft"
)

// voice says what the plan tells. The window itself speaks English.
func (w *Window) voice() *words.Voice {
	return words.In(words.English, w.units())
}

// units are what the project's figures are shown in.
func (w *Window) units() words.Units {
	return words.Units{Imperial: w.imperial(), Currency: w.model.Doc.Job().Currency}
}

// tell is a fact of the plan as people read it: with a capital, and with names in the place of ids.
func (w *Window) tell(f plan.Fact) string { return w.plainly(w.voice().Fact(f)) }

// told is how a number came about: its formula with the numbers in it, its source and how well that is known.
func (w *Window) told(basis, source plan.Fact) string {
	say := w.voice()
	if source.None() {
		return say.Fact(basis)
	}
	return say.Fact(basis) + "\nSource: " + say.Fact(source)
}

// figureSource is where a figure comes from and how well it is known.
func (w *Window) figureSource(f job.Figure) string {
	return w.voice().Fact(plan.Cited(plan.Cite(f.Source), string(f.Status)))
}

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
