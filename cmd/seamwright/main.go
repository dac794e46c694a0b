// Command seamwright is the desktop planner: one window on one project.
package main

import (
	"context"
	"crypto/sha256"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"runtime"
	"runtime/debug"
	"syscall"
	"time"

	"seamwright/assets"
	"seamwright/calc"
	"seamwright/calc/guard"
	"seamwright/calc/job"
	"seamwright/calc/plan"
	"seamwright/planner"
	"seamwright/ui"

	"fyne.io/fyne/v2/app"
)

// appID names the program to the desktop and to its own settings.
const appID = "io.github.seamwright.Seamwright"

const help = `Seamwright plans the lining of a room: where every sheet goes, what to buy, what it costs, and in which order it is done.

usage: seamwright [FILE]

  FILE    a project (*.seam.yaml); without one the sample project is opened as an unsaved copy

Without a display use the headless program, which gives the same plan:

  seamcalc plan FILE
`

// gcPercent is how much garbage may gather beside what is in use: less than usual, since a window idles most of the time.
const gcPercent = 60

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// run opens the window and gives the exit code: 0 well, 2 where it could not be opened.
func run(args []string, out, messages io.Writer) int {
	flags := flag.NewFlagSet("seamwright", flag.ContinueOnError)
	flags.SetOutput(messages)
	flags.Usage = func() { fmt.Fprint(messages, help) }
	for _, a := range args {
		if a == "-h" || a == "-help" || a == "--help" {
			fmt.Fprint(out, help)
			return 0
		}
	}
	if err := flags.Parse(args); err != nil {
		return 2
	}
	if flags.NArg() > 1 {
		fmt.Fprintln(messages, "seamwright opens one project: name one file. See seamwright --help.")
		return 2
	}
	path := flags.Arg(0)
	if !hasDisplay() {
		file := path
		if file == "" {
			file = "FILE"
		}
		fmt.Fprintf(messages, "There is no display here (DISPLAY and WAYLAND_DISPLAY are empty): run “seamcalc plan %s” instead, which needs none.\n", file)
		return 2
	}
	debug.SetGCPercent(gcPercent)
	return open(path, messages)
}

// hasDisplay says whether a window can be opened: on systems with X11 or Wayland that is seen from the environment.
func hasDisplay() bool {
	switch runtime.GOOS {
	case "windows", "darwin":
		return true
	}
	return os.Getenv("DISPLAY") != "" || os.Getenv("WAYLAND_DISPLAY") != ""
}

// show puts the window on the screen. The toolkit panics where the display that the environment names is not there.
func show(w *ui.Window) (err error) {
	defer func() {
		if fault := recover(); fault != nil {
			err = fmt.Errorf("%v", fault)
		}
	}()
	w.Show()
	return nil
}

// sample is an unsaved copy of the sample project.
func sample() (*planner.Document, error) { return planner.Parse("sample", assets.KilnYardStudio) }

// document is what the window begins with: the project of a file, or an unsaved copy of the sample where none is named or
// it cannot be read; fault is why not.
func document(path string) (doc *planner.Document, fault error) {
	if path != "" {
		if doc, fault = planner.Load(path); fault == nil {
			return doc, nil
		}
	}
	doc, err := sample()
	if err != nil {
		panic("seamwright: the sample is broken: " + err.Error()) // it is part of the program
	}
	return doc, fault
}

// open shows the window until it is closed. A file that is not there or cannot be read does not keep the window from
// opening: it says what is wrong, over an unsaved copy of the sample.
func open(path string, messages io.Writer) int {
	doc, fault := document(path)
	memo := calc.NewMemo()
	window := ui.New(app.NewWithID(appID), doc, ui.Options{
		Prompt:    func(ctx context.Context, j *job.Job) (*plan.Plan, error) { return calc.Prompt(ctx, j, memo) },
		Calculate: func(ctx context.Context, j *job.Job) (*plan.Plan, error) { return calc.Plan(ctx, j, memo) },
		Sample:    sample,
		Frame:     frames(os.Getenv("SEAMWRIGHT_FRAMES")),
		Edited:    edits(os.Getenv("SEAMWRIGHT_EDITS")),
		Trim:      trim,
		Today: func() job.Date {
			y, m, d := time.Now().Date()
			return job.Date{Year: y, Month: int(m), Day: d}
		},
	})
	if err := show(window); err != nil {
		fmt.Fprintf(messages, "The display %s cannot be opened (%v): run “seamcalc plan FILE” instead, which needs none.\n", os.Getenv("DISPLAY"), err)
		return 2
	}
	if fault != nil {
		window.ShowFault(path, fault)
	}
	endOnSignal(window)
	if err := window.Run(); err != nil {
		fmt.Fprintln(messages, err)
	}
	return 0
}

// endOnSignal closes the window with unsaved work kept when the system asks the program to end: at log-out, at shut-down,
// or when its terminal goes.
func endOnSignal(window *ui.Window) {
	asked := make(chan os.Signal, 1)
	signal.Notify(asked, syscall.SIGTERM, syscall.SIGHUP, os.Interrupt)
	guard.Go(func() {
		<-asked
		window.Interrupt()
		time.Sleep(time.Second) // for main to return; a window that hangs does not keep the system from shutting down
		os.Exit(0)
	}, func(*guard.Fault) { os.Exit(1) })
}

// frames notes what frames cost while the room moves, and how far apart they begin, in a file that is asked for by the
// environment: two numbers of milliseconds a line. nil where none is.
func frames(path string) func(cost, apart time.Duration) {
	file := notes(path)
	if file == nil {
		return nil
	}
	return func(cost, apart time.Duration) {
		fmt.Fprintf(file, "%.2f %.2f\n", cost.Seconds()*1000, apart.Seconds()*1000)
	}
}

// edits notes the text after every change, by time and hash, in a file that is asked for by the environment: what a test
// that kills the window holds the kept work against. nil where none is.
func edits(path string) func(source []byte) {
	file := notes(path)
	if file == nil {
		return nil
	}
	return func(source []byte) {
		fmt.Fprintf(file, "%d %x\n", time.Now().UnixMilli(), sha256.Sum256(source))
	}
}

// notes makes a file for measurements, nil where none is asked for.
func notes(path string) *os.File {
	if path == "" {
		return nil
	}
	file, err := os.Create(path)
	if err != nil {
		fmt.Fprintln(os.Stderr, "Nothing is noted:", err)
		return nil
	}
	return file
}
