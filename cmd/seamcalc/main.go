// Command seamcalc is Seamwright without a window: it reads a project file and answers on standard output. It is
// pure Go and needs no display.
package main

import (
	"fmt"
	"io"
	"os"
	"runtime/debug"
)

// Exit codes: a plan or a clean check; a broken rule; a file or a call that cannot be read; a mistake of this program.
const (
	exitFine   = 0
	exitBroken = 1
	exitUsage  = 2
	exitFault  = 3
)

// verb is one of the command's calls.
type verb struct {
	name, args, does string
	run              func(args []string, in io.Reader, out, errw io.Writer) int
}

func verbs() []verb {
	return []verb{
		{"plan", "FILE", "everything, as the plan's JSON", runPlan},
		{"check", "FILE", "the checks; exit 1 where a rule is broken", runCheck},
		{"takeoff", "FILE", "what to buy", runTakeoff},
		{"cutlist", "FILE", "which piece is cut from which sheet, cut by cut", runCutlist},
		{"schedule", "FILE", "the sequence of the work by date", runSchedule},
		{"compare", "FILE", "the alternatives side by side", runCompare},
		{"site", "FILE", "what to check before covering, level lines, weights", runSite},
		{"render", "FILE -o room.png", "the room as a picture", runRender},
		{"report", "FILE -o job.pdf", "the job book for the crew or the bid for the client, as PDF", runReport},
		{"export", "FILE -o NAME.EXT", "drawings and tables for other programs", runExport},
		{"figures", "", "the adjustable figures of the trade with their sources", runFigures},
		{"nest", "CASE.json", "the sheet-cutting engine alone", runNest},
	}
}

// memory is what the command keeps to as long as it can: the layout of a large building leaves much behind that is
// cleared away early for the sake of it. It is a wish, not a limit.
const memory = 400 << 20

func main() {
	if os.Getenv("GOMEMLIMIT") == "" {
		debug.SetMemoryLimit(memory)
	}
	os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}

// run is the command with its streams given, for tests.
func run(args []string, in io.Reader, out, errw io.Writer) int {
	if len(args) == 0 {
		usage(errw)
		return exitUsage
	}
	switch args[0] {
	case "help", "--help", "-help", "-h":
		usage(out)
		return exitFine
	}
	errw = &plainly{to: errw}
	for _, v := range verbs() {
		if v.name == args[0] {
			return guarded(errw, func() int { return v.run(args[1:], in, out, errw) })
		}
	}
	fmt.Fprintf(errw, "seamcalc: there is no command %q; seamcalc --help lists them\n", args[0])
	return exitUsage
}

func usage(w io.Writer) {
	fmt.Fprint(w, "seamcalc plans the lining of rooms from a project file, without a window.\n\n")
	for _, v := range verbs() {
		fmt.Fprintf(w, "  seamcalc %-9s %-17s %s\n", v.name, v.args, v.does)
	}
	fmt.Fprint(w, `
FILE may be - for standard input. Each command has --help with an example.
Exit codes: 0 done, 1 a rule is broken (check), 2 the file or the call cannot be read,
3 a fault of the program: it says which report to send.
Example: seamcalc takeoff assets/samples/kiln-yard-studio.seam.yaml
`)
}
