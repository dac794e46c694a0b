package ui

import (
	"strconv"
	"strings"

	"seamwright/calc"
	"seamwright/calc/job"
	"seamwright/planner"
)

// figures are the numbers of the trade that a project can set itself, each with its source and how well it is known.
func (v *jobView) figures(f *form) {
	f.title("Figures of the trade")
	f.note("Coverages, hours, allowances: every number that a row of the shopping list or the sequence is made from. What was only remembered says so. What you set is kept in the project.")
	for _, g := range calc.Figures() {
		v.figureRow(f, g)
	}
}

const (
	figureWords float32 = 370
	figureField float32 = 80
)

// figureRow is one figure with its unit, its source, and the way back to the shipped value where it was changed.
func (v *jobView) figureRow(f *form, g job.Figure) {
	f.label(capital(v.w.voice().Text("figure."+g.ID)), 0, figureWords-10)
	f.at(figureWords, figureField, v.figureEntry(g))
	unit := unitOf(g)
	f.quiet(unit, figureWords+figureField+8, 88)
	x := figureWords + figureField + 100
	if _, own := v.w.model.Doc.Job().Figures[g.ID]; own {
		b := newButton(v.w.pal, link, "back to "+exactNumber(g.Value), func() { v.w.try(planner.ResetFigure{ID: g.ID}) })
		b.keys = v.w.typedKey
		f.at(x, b.MinSize().Width, b)
	} else {
		f.quiet(v.w.figureSource(g), x, 250)
	}
	f.next()
}

// unitOf is a figure's unit; one that is in the project's money needs no word for it.
func unitOf(g job.Figure) string { return squared(strings.ReplaceAll(g.Unit, "currency", "money")) }

func (v *jobView) figureEntry(g job.Figure) *entry {
	w := v.w
	e := newField(w, func() string { return exactNumber(g.Of(w.model.Doc.Job())) }, func(s string) error {
		n, err := number(s, g.Unit)
		if err != nil {
			return err
		}
		if n == g.Value {
			return w.model.Do(planner.ResetFigure{ID: g.ID})
		}
		return w.model.Do(planner.SetFigure{ID: g.ID, Value: n})
	})
	e.hint = capital(w.voice().Text("figure."+g.ID)) + ". Source: " + w.figureSource(g)
	return e
}

// exactNumber writes a number in as many places as it has.
func exactNumber(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// figureField is a figure among the fields of another part.
func (v *jobView) figureField(f *form, id, words, why string) {
	for _, g := range calc.Figures() {
		if g.ID == id {
			f.label(words, 0, formLabel-10)
			f.at(formLabel, formField, v.figureEntry(g))
			if g.Unit != "currency" {
				why = unitOf(g) + "; " + why
			}
			f.quiet(why, formLabel+formField+14, 320)
			f.next()
		}
	}
}
