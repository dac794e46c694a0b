package main

import (
	"cmp"
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"seamwright/assets/words"
	"seamwright/calc"
	"seamwright/calc/guard"
	"seamwright/calc/job"
	"seamwright/calc/plan"
	"seamwright/planner"
	"seamwright/planner/disk"
)

// readAtMost is more than the largest project that planner accepts, so that it can say how much is too much.
const readAtMost = 32 << 20

// call is one command line: flags may stand before or behind the file.
type call struct {
	*flag.FlagSet
	errw io.Writer
	file string
	memo *calc.Memo // what planning the project has found, for its alternatives
}

// newCall prepares a verb's flags; its help ends with an example.
func newCall(name, does, example string, out, errw io.Writer) *call {
	c := &call{FlagSet: flag.NewFlagSet(name, flag.ContinueOnError), errw: errw}
	c.SetOutput(errw)
	c.Usage = func() {
		fmt.Fprintf(out, "seamcalc %s: %s\n\nUsage: seamcalc %s FILE [flags]   (FILE may be - for standard input)\n", name, does, name)
		c.SetOutput(out)
		c.PrintDefaults()
		fmt.Fprintf(out, "\nExample: seamcalc %s\n", example)
	}
	return c
}

// parse reads flags and the one file. done is true where there is nothing more to do, with the exit code.
func (c *call) parse(args []string) (code int, done bool) {
	var files []string
	for len(args) > 0 {
		if err := c.Parse(args); errors.Is(err, flag.ErrHelp) {
			return exitFine, true
		} else if err != nil {
			return exitUsage, true
		}
		if args = c.Args(); len(args) > 0 {
			files, args = append(files, args[0]), args[1:]
		}
	}
	if len(files) != 1 {
		fmt.Fprintf(c.errw, "seamcalc %s: name one project file, or - for standard input\n", c.Name())
		return exitUsage, true
	}
	if f := c.Lookup("language"); f != nil && f.Value.String() != "" && !slices.Contains(words.Languages, words.Language(f.Value.String())) {
		fmt.Fprintf(c.errw, "seamcalc %s: %q is no language of this program: write en or es\n", c.Name(), f.Value)
		return exitUsage, true
	}
	c.file = files[0]
	return 0, false
}

// document reads the call's project file.
func (c *call) document(in io.Reader) (*planner.Document, error) {
	if c.file != "-" {
		return planner.Load(c.file)
	}
	src, err := io.ReadAll(io.LimitReader(in, readAtMost))
	if err != nil {
		return nil, fmt.Errorf("standard input: %w", err)
	}
	return planner.Parse("standard input", src)
}

// plan reads the project and plans it; a nil plan has been explained on errw.
func (c *call) plan(in io.Reader) (*job.Job, *plan.Plan) {
	d, err := c.document(in)
	if err != nil {
		c.explain(err)
		return nil, nil
	}
	j := d.Job()
	c.memo = calc.NewMemo()
	p, err := calc.Plan(context.Background(), j, c.memo)
	var fault *guard.Fault
	if errors.As(err, &fault) {
		panic(fault) // told where all faults are
	}
	if err != nil {
		c.explain(d.Placed(err))
		return nil, nil
	}
	return j, p
}

// language is the flag that asks for a language.
func (c *call) language() *string {
	return c.String("language", "", "en or es: what is told; without it the project's language")
}

// voice says what a plan tells, in the language asked for, else in that of the project, and in the project's units.
func voice(asked string, j *job.Job) *words.Voice {
	return words.In(words.Language(cmp.Or(asked, string(j.Language))), words.Units{Imperial: j.Units != job.Metric, Currency: j.Currency})
}

// mayWrite refuses, before anything is worked out, to write over the project that is read, and what cannot be written.
func (c *call) mayWrite(name string) error {
	if name == "-" {
		return nil
	}
	from, err1 := os.Stat(c.file)
	to, err2 := os.Stat(name)
	if err1 == nil && err2 == nil && os.SameFile(from, to) {
		return fmt.Errorf("%s is the project that is read, and is not written over: name another file", name)
	}
	return disk.MayWrite(disk.OS{}, name, disk.Options{})
}

// write writes a document to a file, whole or not at all, or to standard output where the name is -.
func (c *call) write(name string, out io.Writer, content func(io.Writer) error) error {
	if name == "-" {
		return content(out)
	}
	if err := c.mayWrite(name); err != nil {
		return err
	}
	notes, err := disk.Write(disk.OS{}, name, disk.Options{}, content)
	for _, note := range notes {
		fmt.Fprintf(c.errw, "%s: %s\n", name, note)
	}
	return err
}

// explain writes an error that may have several lines, each as it is; every fault of a project file, however many.
func (c *call) explain(err error) {
	var faults planner.Errors
	if errors.As(err, &faults) {
		for _, f := range faults {
			fmt.Fprintln(c.errw, f.Error())
		}
		return
	}
	for _, line := range strings.Split(strings.TrimRight(err.Error(), "\n"), "\n") {
		fmt.Fprintf(c.errw, "%s\n", line)
	}
}
