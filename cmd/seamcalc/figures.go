package main

import (
	"fmt"
	"io"

	"seamwright/assets/words"
	"seamwright/calc"
	"seamwright/calc/plan"
)

// runFigures lists the figures that a project can set itself under figures:, with value, unit, source and status.
func runFigures(args []string, _ io.Reader, out, errw io.Writer) int {
	language := words.English
	switch {
	case len(args) == 2 && args[0] == "--language" && args[1] == string(words.Spanish):
		language = words.Spanish
	case len(args) > 0:
		fmt.Fprint(out, "seamcalc figures: the adjustable figures of the trade; set one in a project with  figures: {ID: NUMBER}\n\nUsage: seamcalc figures [--language es]\n")
		return exitFine
	}
	t := &table{teller: teller{say: words.In(language, words.Units{Imperial: true})}, columns: columns("id", ">value", "unit", "what", "status", "source")}
	for _, f := range calc.Figures() {
		t.add(f.ID, fmt.Sprintf("%.4g", f.Value), f.Unit, t.text("figure."+f.ID), t.fact(plan.Cited(plan.Fact{}, string(f.Status))), f.Source)
	}
	if err := t.write(out, "text"); err != nil {
		fmt.Fprintln(errw, err)
		return exitUsage
	}
	return exitFine
}
