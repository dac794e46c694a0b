package main

import (
	"fmt"
	"io"
	"path/filepath"
	"strconv"
	"strings"

	"seamwright/scene"
)

// largest is the most pixels a side that a picture may have: 8K.
const largest = 8192

// runRender draws the room and writes a PNG picture.
func runRender(args []string, in io.Reader, out, errw io.Writer) int {
	c := newCall("render", "the room as a PNG picture", "render studio.seam.yaml -o room.png --from NE --size 1920x1080 --light raking", out, errw)
	name := c.String("o", "", "the picture to write; - for standard output")
	from := c.String("from", "SE", "the side to look from: "+strings.Join(scene.Views, ", ")+"; or room/wall to look straight at one; or inside/ROOM to stand in one")
	size := c.String("size", "1920x1080", "width and height in pixels, at most 8192 each")
	lights := c.lighting()
	theme := c.String("theme", "paper", "paper, ink or contrast")
	seams := c.Float64("seams", 0.6, "emphasis of seams, 0 as built to 1 diagram")
	ids := c.Bool("ids", false, "letter every sheet with its id")
	members := c.Bool("members", false, "show the members behind the lining")
	legend := c.Bool("legend", false, "explain the joints' lines in the lower left corner")
	ground := c.Bool("transparent", false, "leave the ground transparent")
	if code, done := c.parse(args); done {
		return code
	}
	w, h, ok := pictureSize(*size)
	if !ok {
		return complain(errw, "--size %s: write width x height in pixels, 1 to %d each, for example 1920x1080", *size, largest)
	}
	if *name == "" {
		return complain(errw, "say where to write the picture: -o room.png")
	}
	if *name != "-" && !strings.EqualFold(filepath.Ext(*name), ".png") {
		return complain(errw, "-o %s: only PNG is written; end the name in .png", *name)
	}
	if !(*seams >= 0 && *seams <= 1) {
		return complain(errw, "--seams %g: write a number from 0 to 1", *seams)
	}
	st := scene.DefaultStyle()
	st.Sharp, st.Seams, st.SheetIDs, st.Members, st.Clear, st.Legend = true, *seams, *ids, *members, *ground, *legend
	st.Scale = max(1, float64(h)/1080)
	switch *theme {
	case "paper":
	case "ink":
		st.Theme = scene.Ink
	case "contrast":
		st.Theme = scene.HighContrast
	default:
		return complain(errw, "--theme %s: write paper, ink or contrast", *theme)
	}
	raking, wrong := lights.raking()
	if wrong != "" {
		return complain(errw, "%s", wrong)
	}
	if err := c.mayWrite(*name); err != nil {
		return complain(errw, "%v", err)
	}
	j, p := c.plan(in)
	if p == nil {
		return exitUsage
	}
	if *lights.sheen == "" {
		raking.Sheen, _ = scene.SheenNamed(j.Paint.Sheen)
	}
	s := scene.Build(p, j, scene.Options{})
	for i := range p.Surfaces {
		if p.Surfaces[i].ID == *from { // looked at straight, the lamp is held to it
			raking.Surface = *from
		}
	}
	st.Raking = raking
	cam, ok := viewFrom(s, *from, w, h)
	if !ok {
		return complain(errw, "--from %s: write one of %s, or room/wall, or inside/ROOM", *from, strings.Join(scene.Views, ", "))
	}
	if err := c.write(*name, out, func(f io.Writer) error { return scene.PNG(f, s, cam, st, w, h) }); err != nil {
		return complain(errw, "%v", err)
	}
	if raking.On && *name != "-" {
		tellJoints(out, s, j, raking)
	}
	return exitFine
}

func complain(errw io.Writer, format string, args ...any) int {
	fmt.Fprintf(errw, "seamcalc render: "+format+"\n", args...)
	return exitUsage
}

// viewFrom finds a camera by a compass side, a surface or a room to stand in.
func viewFrom(s *scene.Scene, from string, w, h int) (scene.Camera, bool) {
	if cam, ok := s.Camera(strings.ToUpper(from), w, h); ok {
		return cam, true
	}
	if room, ok := strings.CutPrefix(from, "inside/"); ok {
		return s.Stand(room)
	}
	if cam, ok := s.Camera(from, w, h); ok {
		return cam, true
	}
	return s.Facing(from, w, h)
}

// pictureSize reads WIDTHxHEIGHT.
func pictureSize(text string) (w, h int, ok bool) {
	a, b, found := strings.Cut(strings.ToLower(text), "x")
	w, err1 := strconv.Atoi(a)
	h, err2 := strconv.Atoi(b)
	ok = found && err1 == nil && err2 == nil && w >= 1 && h >= 1 && w <= largest && h <= largest
	return w, h, ok
}
