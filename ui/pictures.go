package ui

import (
	"fmt"
	"io"
	"path/filepath"
	"runtime/debug"

	"seamwright/planner/disk"
	"seamwright/scene"
)

// pictureSizes are the sizes that a saved room picture can have; lines and letters grow with them.
var pictureSizes = []struct {
	words      string
	wide, high int
}{{"1920 × 1080", 1920, 1080}, {"4K, 3840 × 2160", 3840, 2160}, {"8K, 7680 × 4320", 7680, 4320}}

// linesFor is the width of a picture at which lines are as wide as they are named.
const linesFor = 1280.0

// savePicture writes the room as it is seen now, as a picture in one of several sizes.
func (w *Window) savePicture() {
	v := w.studio.room
	if v.scene == nil {
		w.showTab(0)
		v.pic.redraw()
	}
	if v.scene == nil {
		return
	}
	var answers []answer
	for _, size := range pictureSizes {
		for _, clear := range []bool{false, true} {
			words := size.words
			if clear {
				words += ", clear ground"
			}
			answers = append(answers, answer{words, func() { w.saveRoom(size.wide, size.high, clear) }})
		}
	}
	answers = append(answers, answer{"Cancel", nil})
	w.ask("Save the room as it is seen now", "A PNG picture, on paper or on a clear ground.", answers...)
}

func (w *Window) saveRoom(wide, high int, clear bool) {
	v := w.studio.room
	sc, cam, style := v.scene, v.cam, v.style
	style.Sharp, style.Scale, style.Clear = true, float64(wide)/linesFor, clear
	w.saveFile(fmt.Sprintf("room-%d.png", wide), func(out io.Writer) error { return scene.PNG(out, sc, cam, style, wide, high) })
}

// saveFile asks for a name and writes a document; a large picture takes seconds, so that happens elsewhere. The file
// stands under its name only when it is whole.
func (w *Window) saveFile(name string, write func(io.Writer) error) {
	w.chooseFile(&chooser{title: "Save " + name, verb: "Save", endings: []string{filepath.Ext(name)}, saving: true, take: func(path string) {
		w.say("Writing " + filepath.Base(path) + ".")
		w.elsewhere(func() func() {
			notes, err := disk.Write(disk.OS{}, path, disk.Options{}, write)
			debug.FreeOSMemory() // of a large picture nothing is left
			return func() {
				if err != nil {
					w.say("Not written. " + sentence(err))
					return
				}
				w.say(withNotes("Wrote "+path+".", notes))
			}
		}, nil)
	}}, name)
}
