package main

import (
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"seamwright/scene/document"
)

// runExport writes the job in a form that other programs read; the name's ending says which.
func runExport(args []string, in io.Reader, out, errw io.Writer) int {
	c := newDocumentCall(
		newCall("export", "drawings, tables, the calendar, the model or a picture, for other programs", "export "+sample+" -o south.svg --parts studio/south", out, errw),
		"the file to write; its ending says what it is: "+strings.Join(exported(), ", "),
		"what it holds, as in plan,studio/south. .svg and .dxf: plan, elevations, the id of a wall or ceiling, in .svg also cutsheets or the id of a sheet; "+
			".xlsx and .csv: takeoff, cutlist, schedule, price, walls. Left out: the plan in .svg, the shopping list in .csv, else all")
	if code, done := c.parse(args); done {
		return code
	}
	r, err := c.asked()
	var kind document.Kind
	if err == nil {
		kind, err = exportedAs(*c.name, r.Parts)
	}
	if err == nil {
		err = c.mayWrite(*c.name)
	}
	if err != nil {
		return c.refuse(err)
	}
	if !c.planned(in, kind, &r) {
		return exitUsage
	}
	return c.produce(out, kind, r)
}

// forPeople are the endings of what is laid out for people to read, which report writes.
var forPeople = []string{".pdf", ".html"}

// exported lists the endings that export writes.
func exported() (endings []string) {
	for _, k := range document.Kinds() {
		if !slices.Contains(forPeople, k.Ending) {
			endings = append(endings, k.Ending)
		}
	}
	return endings
}

// exportedAs is the kind of document that a name's ending asks for.
func exportedAs(name string, parts []string) (kind document.Kind, err error) {
	ending := strings.ToLower(filepath.Ext(name))
	at := slices.IndexFunc(document.Kinds(), func(k document.Kind) bool { return k.Ending == ending })
	switch {
	case name == "":
		return kind, fmt.Errorf("say where to write: -o NAME with one of %s", strings.Join(exported(), ", "))
	case slices.Contains(forPeople, ending):
		return kind, fmt.Errorf("%s: seamcalc report writes what is laid out for people", name)
	case at < 0:
		return kind, fmt.Errorf("%s: end the name in one of %s", name, strings.Join(exported(), ", "))
	}
	if kind = document.Kinds()[at]; len(parts) > 0 && kind.Parts == nil {
		return kind, fmt.Errorf("--parts %s: a %s file is always whole", strings.Join(parts, ","), ending)
	}
	return kind, nil
}
