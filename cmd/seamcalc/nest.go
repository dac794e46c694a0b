package main

import (
	"bufio"
	"context"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"math"
	"os"
	"slices"
	"time"

	"seamwright/calc/nest"
	"seamwright/calc/nest/cases"
	"seamwright/calc/nest/proof"
)

const nestHelp = `seamcalc nest cuts plain rectangles from sheets, or lengths from sticks, and proves how few would do.

  seamcalc nest CASE.json [--limit 1s] [--layout=false] [--table] [--turn case|yes|no]

CASE.json holds one instance or a family of them; - reads standard input. All numbers are whole numbers of one unit:

  {"name": "two doors", "sheet": [2440, 1220], "kerf": 3, "rotate": true, "items": [[900, 600, 2], [400, 300, 5]]}
  {"name": "sizes", "sheets": [{"size": [2440, 1220], "cost": 31}, {"size": [1525, 1525], "cost": 27, "max": 2}],
   "kerf": 3, "rotate": true, "items": [[900, 600, 2], [400, 300, 5]]}
  {"name": "battens", "stock": [{"L": 3000, "cost": 12}, {"L": 900, "cost": 0, "max": 2}], "items": [[700, 1, 9]]}

For every instance one line of JSON is written: name, value (sheets; with "sheets" or "stock" their cost), bound (none
lower is possible), seconds (all of the wait), and the layout: for each sheet which of the sizes it is ("stock", from 0),
its parts [item, x, y, w, h] and its cuts in order. Every answer is checked from its rectangles before it is written.

  --limit 1s      time for each instance, all included; without it a fixed amount of work, the same answer on every machine
  --layout=false  leave the layout out
  --table         a summary for people instead of JSON
  --turn yes      let every item be turned a quarter, or none (no), whatever the case says
`

// nestOptions are the flags of the verb.
type nestOptions struct {
	limit  time.Duration
	layout bool
	table  bool
	turn   cases.Turn
}

// runNest is the verb nest: 0 all answered, 1 an answer failed its check, 2 the input cannot be read.
func runNest(args []string, in io.Reader, out, errw io.Writer) int {
	start := time.Now() // of the wait for the instance at hand; the first one's begins with the reading
	var o nestOptions
	flags := flag.NewFlagSet("nest", flag.ContinueOnError)
	flags.SetOutput(io.Discard)
	flags.DurationVar(&o.limit, "limit", 0, "")
	flags.BoolVar(&o.layout, "layout", true, "")
	flags.BoolVar(&o.table, "table", false, "")
	flags.StringVar((*string)(&o.turn), "turn", string(cases.AsCase), "")
	files, err := parseMixed(flags, args)
	switch {
	case errors.Is(err, flag.ErrHelp):
		fmt.Fprint(out, nestHelp)
		return 0
	case err != nil:
		return refuse(errw, err.Error())
	case len(files) != 1:
		return refuse(errw, "give one case file, or - for standard input")
	case o.turn != cases.AsCase && o.turn != cases.All && o.turn != cases.None:
		return refuse(errw, fmt.Sprintf("--turn is %q; must be case, yes or no", o.turn))
	case o.limit < 0:
		return refuse(errw, "--limit must be above zero, for example --limit 500ms")
	}
	family, err := readFamily(files[0], in, o.turn)
	if err != nil {
		return refuse(errw, fmt.Sprintf("%s: %v", files[0], err))
	}
	w := bufio.NewWriter(out)
	defer w.Flush()
	sum := nestSummary{family: family.Name}
	for i := range family.Cases {
		c := &family.Cases[i]
		line, err := answer(c, o, start)
		if err != nil {
			w.Flush()
			fmt.Fprintf(errw, "seamcalc nest: %s: %v\n", c.Name, err)
			return 1
		}
		if sum.add(c, line); !o.table {
			b, err := json.Marshal(line)
			if err != nil {
				return refuse(errw, err.Error())
			}
			w.Write(append(b, '\n'))
			w.Flush() // a family may take long: every answer shows at once
		}
		start = time.Now()
	}
	if o.table {
		sum.write(w)
	}
	return 0
}

func refuse(errw io.Writer, why string) int {
	fmt.Fprintf(errw, "seamcalc nest: %s\nseamcalc nest --help shows an example.\n", why)
	return 2
}

// parseMixed takes flags before and after the file name.
func parseMixed(flags *flag.FlagSet, args []string) (files []string, err error) {
	for {
		if err := flags.Parse(args); err != nil {
			return nil, err
		}
		if flags.NArg() == 0 {
			return files, nil
		}
		files = append(files, flags.Arg(0))
		args = flags.Args()[1:]
	}
}

func readFamily(name string, in io.Reader, turn cases.Turn) (*cases.Family, error) {
	if name == "-" {
		return cases.Read(in, turn)
	}
	info, err := os.Stat(name)
	switch {
	case errors.Is(err, os.ErrNotExist):
		return nil, errors.New("there is no such file")
	case err != nil:
		return nil, errors.New("the file cannot be looked at")
	case info.IsDir():
		return nil, errors.New("this is a folder; name one file in it")
	}
	f, err := os.Open(name)
	if err != nil {
		return nil, errors.New("the file cannot be opened")
	}
	defer f.Close()
	return cases.Read(f, turn)
}

// nestLine is one line of the answer.
type nestLine struct {
	Name    string          `json:"name"`
	Value   int64           `json:"value"`
	Bound   int64           `json:"bound"`
	Seconds float64         `json:"seconds"` // all of the wait, the writing of the layout too
	Layout  json.RawMessage `json:"layout,omitempty"`
}

type nestSheet struct {
	Stock int        `json:"stock"`
	Parts [][5]int64 `json:"parts"`
	Cuts  []nestCut  `json:"cuts"`
}

type nestCut struct {
	Order int      `json:"order"`
	Kind  string   `json:"kind"`
	From  [2]int64 `json:"from"`
	To    [2]int64 `json:"to"`
}

// answer solves one case, checks what came out and writes its layout. start is when the wait for it began.
func answer(c *cases.Case, o nestOptions, start time.Time) (nestLine, error) {
	var budget nest.Budget
	if o.limit > 0 {
		end := start.Add(o.limit - closing(c, o.limit))
		budget = nest.Budget{Nodes: math.MaxInt64, Stop: func() bool { return time.Now().After(end) }}
	}
	line := nestLine{Name: c.Name}
	var layout []nestSheet
	if c.Lengths != nil {
		r, err := nest.Lengths(context.Background(), c.Lengths, budget)
		if err != nil {
			return line, err
		}
		line.Value, line.Bound = r.Cost, r.Bound
		if err := proof.Lengths(c.Lengths, r); err != nil {
			return line, fmt.Errorf("the answer failed its check: %w", err)
		}
		if o.layout {
			layout = stickLayout(c.Lengths, r)
		}
	} else {
		r, err := nest.Solve(context.Background(), c.Sheets, budget)
		if err != nil {
			return line, err
		}
		line.Value, line.Bound = r.Cost, r.Bound
		if err := proof.Result(c.Sheets, r); err != nil {
			return line, fmt.Errorf("the answer failed its check: %w", err)
		}
		if o.layout {
			layout = sheetLayout(r)
		}
	}
	if layout != nil {
		b, err := json.Marshal(layout)
		if err != nil {
			return line, err
		}
		line.Layout = b
	}
	line.Seconds = math.Round(time.Since(start).Seconds()*1e6) / 1e6
	return line, nil
}

// closing is the part of the limit that is kept for reading the answer off, checking and writing it.
func closing(c *cases.Case, limit time.Duration) time.Duration {
	const each = 50 * time.Microsecond // a piece, measured at 10 on an idle machine
	pieces := 0
	if c.Sheets != nil {
		for _, it := range c.Sheets.Items {
			pieces += it.N
		}
	}
	return min(time.Duration(pieces)*each, limit/4)
}

func sheetLayout(r *nest.Result) []nestSheet {
	var out []nestSheet
	for _, b := range r.Bins {
		s := nestSheet{Stock: b.Sheet, Cuts: []nestCut{}}
		for _, q := range b.Parts() {
			s.Parts = append(s.Parts, [5]int64{int64(q.Item), q.X, q.Y, q.W, q.H})
		}
		for i, k := range b.Cuts() {
			s.Cuts = append(s.Cuts, nestCut{i + 1, k.Kind.String(), [2]int64{k.X1, k.Y1}, [2]int64{k.X2, k.Y2}})
		}
		out = append(out, s)
	}
	return out
}

func stickLayout(p *nest.LengthProblem, r *nest.LengthResult) []nestSheet {
	var out []nestSheet
	for _, b := range r.Bars {
		s := nestSheet{Stock: b.Stick, Cuts: []nestCut{}}
		x := int64(0)
		for i, q := range b.Pieces {
			l := p.Pieces[q].L
			s.Parts = append(s.Parts, [5]int64{int64(q), x, 0, l, 1})
			if x += l; x < p.Sticks[b.Stick].L {
				s.Cuts = append(s.Cuts, nestCut{i + 1, nest.Cross.String(), [2]int64{x, 0}, [2]int64{x, 1}})
			}
			x += p.Kerf
		}
		out = append(out, s)
	}
	return out
}

// nestSummary counts over a family for --table.
type nestSummary struct {
	family                            string
	n, judged, best, below, near, met int
	value, bound                      int64
	seconds                           []float64
	open                              []string
}

func (s *nestSummary) add(c *cases.Case, l nestLine) {
	s.n++
	s.value += l.Value
	s.bound += l.Bound
	s.seconds = append(s.seconds, l.Seconds)
	if l.Value == l.Bound {
		s.met++
	}
	turned := c.Sheets != nil && slices.ContainsFunc(c.Sheets.Items, func(it nest.Item) bool { return it.Turn })
	known := c.Best(turned)
	if known == 0 {
		return
	}
	s.judged++
	step := int64(1)
	if c.Costs && c.Lengths != nil {
		for _, k := range c.Lengths.Sticks {
			step = max(step, k.Cost)
		}
	} else if c.Costs {
		for _, k := range c.Sheets.Sheets {
			step = max(step, k.Cost)
		}
	}
	switch {
	case l.Value < known:
		s.below++
		s.open = append(s.open, fmt.Sprintf("%s %d, known %d", c.Name, l.Value, known))
		fallthrough
	case l.Value == known:
		s.best++
	default:
		s.open = append(s.open, fmt.Sprintf("%s %d, known %d", c.Name, l.Value, known))
	}
	if l.Value <= known+step {
		s.near++
	}
	if l.Bound > known {
		s.open = append(s.open, fmt.Sprintf("%s bound %d above the known %d", c.Name, l.Bound, known))
	}
}

func (s *nestSummary) write(w io.Writer) {
	slices.Sort(s.seconds)
	fmt.Fprintf(w, "%-28s %9s %9s %14s %7s %11s %7s %9s %9s %9s %9s\n", "family", "instances", "judged", "at best known",
		"below", "within one", "proven", "value", "bound", "median s", "longest s")
	median, longest := 0.0, 0.0
	if s.n > 0 {
		median, longest = s.seconds[s.n/2], s.seconds[s.n-1]
	}
	fmt.Fprintf(w, "%-28s %9d %9d %14d %7d %11d %7d %9d %9d %9.4f %9.4f\n", s.family, s.n, s.judged, s.best, s.below,
		s.near, s.met, s.value, s.bound, median, longest)
	for _, line := range s.open {
		fmt.Fprintf(w, "  %s\n", line)
	}
}
