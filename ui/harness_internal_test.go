package ui

import (
	"context"
	"os"
	"path/filepath"
	"sync"
	"testing"

	"seamwright/assets"
	"seamwright/calc"
	"seamwright/calc/job"
	"seamwright/calc/plan"
	"seamwright/planner"
	"seamwright/scene/draft"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
)

// bench is a window on the test driver: no display, pictures drawn at once, and what the calculation posts is run when
// the test asks for it, so that everything happens on one goroutine.
type bench struct {
	*Window
	t     *testing.T
	mu    sync.Mutex
	posts []func()
}

// oneRoom is a room of 16 by 12 ft with two walls lined, enough to plan in milliseconds.
const oneRoom = `seamwright: 1
name: Shed
units: imperial
currency: USD
site: {start: 2027-03-01, tax: 10 %, quote: 3000}
rooms:
  - id: shed
    height: 8'
    corners: [[0, 0], [16', 0], [16', 12'], [0, 12']]
    walls:
      - {side: 1, id: south, lining: [{product: gyp-12}], openings: [{id: d1, kind: door, at: 3', width: 38", height: 82 1/2"}]}
      - {side: 3, id: north, lining: [{product: gyp-12}]}
defaults: {framing: {material: wood, spacing: 16"}, lining: [{product: open}]}
`

// newBench opens a window on a project; "" is an empty one.
func newBench(t *testing.T, source string) *bench {
	t.Helper()
	home := t.TempDir()
	t.Setenv("XDG_STATE_HOME", filepath.Join(home, "state"))
	t.Setenv("XDG_CONFIG_HOME", filepath.Join(home, "config"))
	t.Setenv("HOME", home)
	doc := planner.New(job.Imperial)
	if source != "" {
		var err error
		doc, err = planner.Parse("test.seam.yaml", []byte(source))
		require.NoError(t, err)
	}
	b := &bench{t: t}
	memo := calc.NewMemo()
	app := test.NewApp()
	b.Window = New(app, doc, Options{
		Prompt:    func(ctx context.Context, j *job.Job) (*plan.Plan, error) { return calc.Prompt(ctx, j, memo) },
		Calculate: func(ctx context.Context, j *job.Job) (*plan.Plan, error) { return calc.Plan(ctx, j, memo) },
		Sample:    func() (*planner.Document, error) { return planner.Parse("sample", assets.KilnYardStudio) },
		Post: func(f func()) {
			b.mu.Lock()
			b.posts = append(b.posts, f)
			b.mu.Unlock()
		},
		Still: true,
		Today: func() job.Date { return job.Date{Year: 2027, Month: 3, Day: 2} },
	})
	b.win.Resize(fyne.NewSize(1280, 800))
	t.Cleanup(func() {
		b.model.Close()
		app.Quit()
	})
	b.settle()
	b.draw()
	return b
}

// draw paints the window once: only what has been drawn can take the focus.
func (b *bench) draw() { b.win.Canvas().Capture() }

// settle waits for the calculation and takes its results in, until nothing more comes.
func (b *bench) settle() {
	b.t.Helper()
	for {
		b.model.Wait()
		b.mu.Lock()
		posts := b.posts
		b.posts = nil
		b.mu.Unlock()
		if len(posts) == 0 {
			return
		}
		for _, f := range posts {
			f()
		}
	}
}

func mouse(at draft.Pt, button desktop.MouseButton) *desktop.MouseEvent {
	return &desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(float32(at.X), float32(at.Y))}, Button: button}
}

// click presses and releases the left button on a picture.
func (b *bench) click(p *picture, at draft.Pt) {
	p.MouseMoved(mouse(at, 0))
	p.MouseDown(mouse(at, desktop.MouseButtonPrimary))
	p.MouseUp(mouse(at, desktop.MouseButtonPrimary))
	p.lastClick = p.lastClick.Add(-doubleClick) // the next click is one of its own
}

// drag presses at one place, moves to others, and releases at the last, as the driver reports it.
func (b *bench) drag(p *picture, from draft.Pt, to ...draft.Pt) {
	p.MouseMoved(mouse(from, 0))
	p.MouseDown(mouse(from, desktop.MouseButtonPrimary))
	last := from
	for _, at := range to {
		p.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(float32(at.X), float32(at.Y))},
			Dragged: fyne.NewDelta(float32(at.X-last.X), float32(at.Y-last.Y))})
		last = at
	}
	p.MouseUp(mouse(last, desktop.MouseButtonPrimary))
	p.DragEnd()
}

// press sends a key to whatever has the focus, as the driver does: letters come as a key and as a rune.
func (b *bench) press(names ...fyne.KeyName) {
	for _, n := range names {
		if f := b.win.Canvas().Focused(); f != nil {
			f.TypedKey(&fyne.KeyEvent{Name: n})
		} else {
			b.typedKey(&fyne.KeyEvent{Name: n})
		}
	}
}

// typeIn sends runes to whatever has the focus.
func (b *bench) typeIn(s string) {
	f := b.win.Canvas().Focused()
	require.NotNil(b.t, f, "something has the focus")
	for _, r := range s {
		f.TypedRune(r)
	}
}

// do runs a command by its id, as its menu entry does.
func (b *bench) do(id string) {
	b.t.Helper()
	c := b.command(id)
	require.True(b.t, c.enabled(), "%s can be done now", id)
	b.invoke(c)
}

// room is the first room of the project.
func (b *bench) room() job.Room { return b.model.Doc.Job().Rooms[0] }

// choose answers the question that is open.
func (b *bench) choose(words string) {
	b.t.Helper()
	for _, a := range b.question {
		if a.words == words {
			b.lift()
			b.question = nil
			if a.do != nil {
				a.do()
			}
			return
		}
	}
	require.Failf(b.t, "no such answer", "%q among %d answers", words, len(b.question))
}

func write(t *testing.T, name, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	return path
}
