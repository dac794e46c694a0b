package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"strings"
	"time"

	"seamwright/calc"
	"seamwright/scene/document"
	"seamwright/scene/document/ask"
)

// documentCall is a call that writes a document: what report and export ask alike.
type documentCall struct {
	*call
	name, parts, language, paper *string
	unpriced                     *bool
}

// newDocumentCall prepares the flags of a call that writes documents.
func newDocumentCall(c *call, name, parts string) *documentCall {
	d := &documentCall{call: c}
	d.name = c.String("o", "", name)
	d.parts = c.String("parts", "", parts)
	d.language = c.language()
	d.paper = c.String("paper", "", "letter or a4; left out: letter for projects in feet and inches, a4 for metric ones")
	d.unpriced = c.Bool("no-prices", false, "leave all money out")
	return d
}

// asked reads what the flags ask of a document, whichever it is.
func (c *documentCall) asked() (r document.Request, err error) {
	if r.Paper = ask.Paper(*c.paper); r.Paper != "" && r.Paper != ask.Letter && r.Paper != ask.A4 {
		return r, fmt.Errorf("--paper %s: write letter or a4", *c.paper)
	}
	if *c.unpriced {
		r.Prices = ask.NoPrices
	}
	if *c.parts != "" {
		for _, id := range strings.Split(*c.parts, ",") {
			r.Parts = append(r.Parts, strings.TrimSpace(id))
		}
	}
	return r, nil
}

// refuse tells why nothing is written.
func (c *documentCall) refuse(err error) int {
	fmt.Fprintf(c.errw, "seamcalc %s: %v\n", c.Name(), err)
	return exitUsage
}

// planned fills in what a request takes from the project; false where that has no plan, which has been explained.
func (c *documentCall) planned(in io.Reader, kind document.Kind, r *document.Request) bool {
	if r.Job, r.Plan = c.plan(in); r.Plan == nil {
		return false
	}
	r.Voice = voice(*c.language, r.Job)
	if r.Paper == "" {
		r.Paper = ask.PaperOf(r.Job.Units)
	}
	r.Made = c.dated()
	if !kind.Others {
		return true
	}
	for _, a := range r.Job.Alternatives {
		with := r.Job.With(a)
		p, err := calc.Plan(context.Background(), with, c.memo)
		if err != nil {
			c.explain(fmt.Errorf("%s: alternative %s: %w", c.file, a.Name, err))
			return false
		}
		r.Others = append(r.Others, ask.Alternative{Name: a.Name, Job: with, Plan: p})
	}
	return true
}

// produce writes the document, and tells on a terminal how far it is.
func (c *documentCall) produce(out io.Writer, kind document.Kind, r document.Request) int {
	var done func()
	r.Progress, done = progress(c.errw)
	err := c.write(*c.name, out, func(f io.Writer) error { return kind.Write(context.Background(), f, r) })
	done()
	if err != nil {
		return c.refuse(err)
	}
	return exitFine
}

// dated is the day that the documents of a project bear: that of its last change, so that printing it again gives the same
// pages. What comes from standard input is of now.
func (c *call) dated() time.Time {
	if info, err := os.Stat(c.file); err == nil && c.file != "-" {
		return info.ModTime().Truncate(time.Second)
	}
	return time.Now().Truncate(time.Second)
}

// progress tells on a terminal how far a document is, on one line that is wiped at the end. Elsewhere nothing is told.
func progress(errw io.Writer) (tell func(done, total int), wipe func()) {
	if p, ok := errw.(*plainly); ok {
		errw = p.to
	}
	f, ok := errw.(*os.File)
	if !ok {
		return nil, func() {}
	}
	if info, err := f.Stat(); err != nil || info.Mode()&os.ModeCharDevice == 0 {
		return nil, func() {}
	}
	tell = func(done, total int) { fmt.Fprintf(f, "\r%d of %d ", done, total) }
	return tell, func() { fmt.Fprint(f, "\r\x1b[K") }
}
