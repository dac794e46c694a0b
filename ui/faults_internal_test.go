package ui

import (
	"context"
	"image"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/planner"
	"seamwright/scene/draft"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"github.com/stretchr/testify/require"
)

// stumble is the mistake of the program that these tests are about.
func stumble() { panic("a mistake") }

// reports are the reports of faults that have been written.
func reports(t *testing.T) []string {
	found, err := filepath.Glob(filepath.Join(os.Getenv("XDG_STATE_HOME"), "seamwright", "faults", "*.txt"))
	require.NoError(t, err)
	return found
}

// requireReported asks that the one fault so far was reported and told, and that the document is as it was.
func (b *bench) requireReported(source string) {
	b.t.Helper()
	found := reports(b.t)
	require.Len(b.t, found, 1)
	text, err := os.ReadFile(found[0])
	require.NoError(b.t, err)
	require.Contains(b.t, string(text), "ui.stumble", "the stack leads to the mistake")
	require.Contains(b.t, b.note, found[0], "the note line says what to send")
	require.Equal(b.t, source, string(b.model.Doc.Source()))
}

func TestAFaultInTheCalculationIsReportedAndTheNextAnswerComes(t *testing.T) {
	b := newBench(t, oneRoom)
	broken := func(context.Context, *job.Job) (*plan.Plan, error) { stumble(); return nil, nil }
	whole := b.model.full
	b.model.prompt, b.model.full = broken, broken
	b.moveCorner(17)
	b.settle()
	b.requireReported(string(b.model.Doc.Source()))
	require.Contains(t, b.model.Fault.Error(), "a mistake")
	require.Equal(t, "no answer: see Checks", b.noteLine.right.Text)

	b.model.prompt, b.model.full = nil, whole
	b.moveCorner(18)
	b.settle()
	require.NoError(t, b.model.Fault)
	require.False(t, b.model.Stale)
}

// hasty is hands that fail at every move.
type hasty struct{ hands }

func (hasty) hover(draft.Pt) { stumble() }

func TestAFaultUnderTheMouseIsReportedOnce(t *testing.T) {
	b := newBench(t, oneRoom)
	source := string(b.model.Doc.Source())
	pic := newPicture(b.Window, hasty{}, nil)
	pic.MouseMoved(mouse(draft.Pt{}, 0))
	b.requireReported(source)
	b.say("")
	pic.MouseMoved(mouse(draft.Pt{X: 1}, 0))
	require.Empty(t, b.note, "it is told once")
}

// Whatever a hand can reach on the window's own goroutine may fail without ending the program.
func TestAFaultInAWidgetIsReported(t *testing.T) {
	for name, reach := range map[string]func(*bench){
		"button": func(b *bench) { newButton(b.pal, pill, "Go", stumble).Tapped(nil) },
		"by key": func(b *bench) { newButton(b.pal, pill, "Go", stumble).TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace}) },
		"pointer": func(b *bench) {
			x := newButton(b.pal, pill, "Go", nil)
			x.hovered = func(bool) { stumble() }
			x.MouseIn(nil)
		},
		"choice": func(b *bench) {
			newChoice(b.Window, []string{"a", "b"}, func() string { return "a" }, func(string) { stumble() }).SetSelected("b")
		},
		"letters": func(b *bench) {
			e := newEntry(b.Window, "")
			e.OnChanged = func(string) { stumble() }
			e.TypedRune('x')
		},
		"a slider": func(b *bench) {
			newSlider(b.Window, 0, 1, func() float64 { return 0 }, func(float64) { stumble() }).step(1)
		},
		"a row": func(b *bench) {
			x := newTable(b.Window, "")
			x.set([]tableRow{{tapped: stumble}})
			x.choose(0)
		},
		"a command": func(b *bench) { b.invoke(&command{run: stumble}) },
	} {
		t.Run(name, func(t *testing.T) {
			b := newBench(t, oneRoom)
			source := string(b.model.Doc.Source())
			b.colours(Palettes()[1]) // widgets made anew tell the same
			reach(b)
			b.requireReported(source)
			b.moveCorner(17)
			b.settle()
			require.False(t, b.model.Stale, "work goes on")
		})
	}
}

// Rooms that are compared are let go of whatever takes them away: a question that comes over them too, as on closing the
// window. Keys then move the window's own room again.
func TestComparedRoomsGoWithWhatCoversThem(t *testing.T) {
	b := newBench(t, oneRoom)
	b.compare()
	rooms := b.compared.rooms
	require.NotEmpty(t, rooms)
	b.ask("Close without saving?", "Something was changed.", answer{"Stay", nil})
	require.Nil(t, b.compared)
	for _, r := range rooms {
		require.Nil(t, r.render)
	}
	b.stepBack()
	require.True(t, b.win.Content().Visible())
	require.Same(t, &b.studio.room.eye, b.gaze())
	b.command("inside").run()
	require.Same(t, b.studio.room.pic, b.win.Canvas().Focused())
}

// What lies over the window is answered or closed first: the window's own keys rest meanwhile, and it stays.
func TestKeysRestWhileSomethingLiesOverTheWindow(t *testing.T) {
	for name, lay := range map[string]func(*bench){
		"question": func(b *bench) { b.ask("Sure?", "Or not.", answer{"Yes", nil}) },
		"finder":   func(b *bench) { b.find() },
		"menu":     func(b *bench) { b.bar.toggle(1) },
	} {
		t.Run(name, func(t *testing.T) {
			b := newBench(t, oneRoom)
			source := string(b.model.Doc.Source())
			lay(b)
			top := b.win.Canvas().Overlays().Top()
			require.NotNil(t, top)
			b.invoke(b.command("alternative"))
			require.Equal(t, source, string(b.model.Doc.Source()))
			require.Same(t, top, b.win.Canvas().Overlays().Top(), "it lies there still")
		})
	}
}

// A drawing that fails, at once or in a worker, is drawn again at the next change.
func TestAFaultInADrawingIsReported(t *testing.T) {
	for _, took := range []time.Duration{0, time.Second} {
		b := newBench(t, oneRoom)
		b.options.Still = false
		fails, drawn := true, 0
		pic := newPicture(b.Window, nil, func(float64, float64) func(*image.RGBA, float64) {
			return func(*image.RGBA, float64) {
				if fails {
					stumble()
				}
				drawn++
			}
		})
		pic.always, pic.took = true, took
		pic.BaseWidget.Resize(pic.MinSize())
		pic.redraw()
		require.Eventually(t, func() bool { b.settle(); return !pic.busy }, 5*time.Second, time.Millisecond)
		b.requireReported(string(b.model.Doc.Source()))
		fails = false
		pic.redraw()
		require.Eventually(t, func() bool { b.settle(); return drawn == 1 }, 5*time.Second, time.Millisecond)
	}
}

func TestAnAlternativeWithoutAnAnswerSaysSo(t *testing.T) {
	b := newBench(t, oneRoom)
	require.NoError(t, b.model.Do(planner.AddAlternative{Name: "other"}))
	b.settle()
	b.options.Calculate = func(context.Context, *job.Job) (*plan.Plan, error) { stumble(); return nil, nil }
	b.do("compare")
	words := func() string {
		var all []string
		for _, r := range b.compared.rooms {
			for _, o := range r.words.Objects {
				if c, ok := o.(*canvas.Text); ok {
					all = append(all, c.Text)
				}
			}
		}
		return strings.Join(all, "\n")
	}
	b.draw()
	require.Eventually(t, func() bool { b.settle(); return b.compared.rooms[1].fault != nil }, 5*time.Second, time.Millisecond)
	require.NotContains(t, words(), "Working it out")
	require.Contains(t, words(), "No answer. Something in the program failed.")
	b.requireReported(string(b.model.Doc.Source()))
}

func TestWhatIsSaidOfATextGoesWhenItIsMended(t *testing.T) {
	b := newBench(t, oneRoom)
	value := "8'"
	e := newField(b.Window, func() string { return value }, func(s string) error {
		_, err := length.Parse(s)
		return err
	})
	e.SetText("8 parsecs")
	require.False(t, e.done())
	require.NotEmpty(t, b.note)
	e.SetText("9'")
	require.True(t, e.done())
	require.Empty(t, b.note)

	e.SetText("8 parsecs")
	require.False(t, e.done())
	e.SetText("8'") // as it stood there
	require.True(t, e.done())
	require.Empty(t, b.note)
}
