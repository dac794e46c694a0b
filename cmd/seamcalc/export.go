package main

import (
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"seamwright/scene"
)

// runExport writes the job in a form that other programs read; the name's ending says which.
func runExport(args []string, in io.Reader, out, errw io.Writer) int {
	c := newCall("export", "the room as binary glTF 2.0, for other programs", "export "+sample+" -o studio.glb", out, errw)
	name := c.String("o", "", "the file to write; its ending is .glb")
	if code, done := c.parse(args); done {
		return code
	}
	if ending := strings.ToLower(filepath.Ext(*name)); ending != ".glb" {
		fmt.Fprintf(errw, "seamcalc export: %q: only .glb is written in this version; takeoff, cutlist and schedule give tables with --format csv or json\n", *name)
		return exitUsage
	}
	if err := c.mayWrite(*name); err != nil {
		c.explain(err)
		return exitUsage
	}
	j, p := c.plan(in)
	if p == nil {
		return exitUsage
	}
	room := scene.Build(p, j, scene.Options{})
	if err := c.write(*name, out, func(f io.Writer) error { return scene.GLB(f, room) }); err != nil {
		c.explain(err)
		return exitUsage
	}
	return exitFine
}
