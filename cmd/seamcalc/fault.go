package main

import (
	"errors"
	"fmt"
	"io"

	"seamwright/calc/guard"
	"seamwright/planner"
)

// guarded runs a command. A fault of the program, on whichever goroutine, ends in a report and words on what to send, not
// in a trace of the code.
func guarded(errw io.Writer, command func() int) (code int) {
	err := guard.Do(func() error {
		code = command()
		return nil
	})
	var fault *guard.Fault
	if errors.As(err, &fault) {
		tellFault(errw, fault)
		return exitFault
	}
	return code
}

// tellFault reports a fault of the program; where no report can be written, it is printed.
func tellFault(errw io.Writer, fault *guard.Fault) {
	fmt.Fprintln(errw, "seamcalc met a fault of its own; your files are as they were.")
	report, err := planner.Report(fault, nil)
	if err == nil {
		fmt.Fprintf(errw, "Please send the report %s, with the project if others may see it, to whoever you have the program from. Nothing is sent by itself.\n", report)
		return
	}
	fmt.Fprintf(errw, "No report could be written (%v). Please send what follows to whoever you have the program from:\n%v\n%s\n", err, fault, fault.Stack)
}
