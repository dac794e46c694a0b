package ui

import (
	"fmt"
	"io"
	"runtime/debug"

	"seamwright/scene"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
)

// pictureSizes are the sizes that a saved room picture can have; lines and letters grow with them.
var pictureSizes = []struct {
	words      string
	wide, high int
}{{"1920 × 1080", 1920, 1080}, {"4K, 3840 × 2160", 3840, 2160}, {"8K, 7680 × 4320", 7680, 4320}}

// linesFor is the width of a picture at which lines are as wide as they are named.
const linesFor = 1280.0

// savePicture writes the room as it is seen now: as a picture in one of several sizes, or as a model.
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
	answers = append(answers, answer{"Model for other programs (glTF)", w.saveModel}, answer{"Go on working", nil})
	w.ask("Save the room as it is seen now", "A PNG picture, on paper or on a clear ground, or the room as a binary glTF 2.0 model with every sheet by its name.", answers...)
}

func (w *Window) saveRoom(wide, high int, clear bool) {
	v := w.studio.room
	sc, cam, style := v.scene, v.cam, v.style
	style.Sharp, style.Scale, style.Clear = true, float64(wide)/linesFor, clear
	w.saveFile(fmt.Sprintf("room-%d.png", wide), func(out io.Writer) error { return scene.PNG(out, sc, cam, style, wide, high) })
}

func (w *Window) saveModel() {
	sc := w.studio.room.scene
	w.saveFile("room.glb", func(out io.Writer) error { return scene.GLB(out, sc) })
}

// saveFile asks for a name and writes a document; a large picture takes seconds, so that happens elsewhere.
func (w *Window) saveFile(name string, write func(io.Writer) error) {
	d := dialog.NewFileSave(func(out fyne.URIWriteCloser, err error) {
		if err != nil || out == nil {
			return
		}
		w.say("Writing " + out.URI().Name() + ".")
		go func() {
			err := write(out)
			if closing := out.Close(); err == nil {
				err = closing
			}
			w.post(func() {
				if err != nil {
					w.say("Not written. " + sentence(err))
					return
				}
				w.say("Wrote " + out.URI().Path() + ".")
			})
			debug.FreeOSMemory() // of a large picture nothing is left
		}()
	}, w.win)
	d.SetFileName(name)
	w.showFiles(d)
}
