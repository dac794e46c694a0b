package ui

import (
	"errors"

	"seamwright/calc/guard"
	"seamwright/planner"
)

// A fault of the program, wherever it happens, must not take the user's work with it: the document stays open, what is
// unsaved is kept aside, and a report says what happened. Work elsewhere is started here and nowhere else in the window.

// elsewhere does work on a goroutine of its own, and what it returns on the window's. After a fault, which is reported,
// failed runs there instead; nil: there is nothing more to do then.
func (w *Window) elsewhere(work func() (then func()), failed func()) {
	guard.Go(func() {
		if then := work(); then != nil {
			w.post(then)
		}
	}, func(f *guard.Fault) {
		w.post(func() {
			w.faulted(f)
			if failed != nil {
				failed()
			}
		})
	})
}

// post runs something on the window's goroutine.
func (w *Window) post(f func()) {
	w.options.Post(func() {
		defer guard.Catch(w.faulted)
		f()
	})
}

// faulted reports a fault of the program: once for each place of the code, since what fails once in a view fails at every
// move of the hand.
func (w *Window) faulted(f *guard.Fault) {
	d := w.model.Doc
	path, err := planner.Report(f, d.Source())
	if w.reports[path] {
		return
	}
	if w.reports == nil {
		w.reports = map[string]bool{}
	}
	w.reports[path] = true
	words := "Something in the program failed; the project is open and unharmed. "
	if d.Dirty() && d.Unkept() == nil {
		words += "Unsaved work is kept aside. "
	}
	if err != nil {
		words += "No report could be written: " + sentence(err)
	} else {
		words += "Please send the report " + path + "."
	}
	w.say(words)
}

// faultedAnswer reports the calculation's fault, where what went wrong is the program and not the project.
func (w *Window) faultedAnswer(err error) {
	var f *guard.Fault
	if errors.As(err, &f) {
		w.faulted(f)
	}
}
