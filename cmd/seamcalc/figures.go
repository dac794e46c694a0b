package main

import (
	"fmt"
	"io"

	"seamwright/assets/words"
	"seamwright/calc"
)

// runFigures lists the figures that a project can set itself under figures:, with value, unit, source and status.
func runFigures(args []string, _ io.Reader, out, errw io.Writer) int {
	if len(args) > 0 {
		fmt.Fprint(out, "seamcalc figures: the adjustable figures of the trade; set one in a project with  figures: {ID: NUMBER}\n")
		return exitFine
	}
	say := words.In(words.English, words.Units{Imperial: true})
	t := &table{head: []string{"Id", "Value", "Unit", "What", "Status", "Source"}, right: []bool{false, true}}
	for _, f := range calc.Figures() {
		t.add(f.ID, fmt.Sprintf("%.4g", f.Value), f.Unit, say.Text("figure."+f.ID), string(f.Status), f.Source)
	}
	if err := t.write(out, "text"); err != nil {
		fmt.Fprintln(errw, err)
		return exitUsage
	}
	return exitFine
}
