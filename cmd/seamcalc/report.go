package main

import (
	"context"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	"seamwright/assets/words"
	"seamwright/calc/job"
	"seamwright/calc/plan"
	"seamwright/scene/document"
	"seamwright/scene/document/ask"
)

// readers are whom report writes for: the kind in the table of documents, and the money that it tells them.
var readers = map[string]struct {
	kind   string
	prices ask.Prices
}{"builder": {"book", ask.ForBuilder}, "client": {"bid", ask.ForClient}}

// reportCall is what report is asked.
type reportCall struct {
	*call
	name, reader, paper, language, parts, markup *string
	unpriced                                     *bool
}

// runReport writes the job book, or the bid for a client.
func runReport(args []string, in io.Reader, out, errw io.Writer) int {
	c := &reportCall{call: newCall("report", "the job book for the crew, or the bid for the client, as PDF", "report "+sample+" -o job.pdf --paper letter --language en", out, errw)}
	c.name = c.String("o", "", "the document to write, ending in .pdf; - for standard output")
	c.reader = c.String("for", "builder", "builder: the job book with the builder's own cost; client: the bid, which tells nothing of that cost")
	c.paper = c.String("paper", "", "letter or a4; left out: letter for projects in feet and inches, a4 for metric ones")
	c.language = c.String("language", "en", "en or es")
	c.parts = c.String("parts", "", "the parts wanted, as in cover,elevations,cuts; left out: all. For the builder: "+partIDs("book")+"; for the client: "+partIDs("bid"))
	c.markup = c.String("markup", "0", "what is added to the cost in a client's price, in percent, as in 12.5")
	c.unpriced = c.Bool("no-prices", false, "leave all money out")
	if code, done := c.parse(args); done {
		return code
	}
	kind, r, err := c.request()
	if err == nil {
		err = c.mayWrite(*c.name)
	}
	if err != nil {
		fmt.Fprintf(errw, "seamcalc report: %v\n", err)
		return exitUsage
	}
	if r.Job, r.Plan = c.plan(in); r.Plan == nil {
		return exitUsage
	}
	r.Voice = words.In(words.Language(*c.language), words.Units{Imperial: r.Job.Units != job.Metric, Currency: r.Job.Currency})
	if r.Paper == "" {
		r.Paper = ask.PaperOf(r.Job.Units)
	}
	r.Made = c.dated()
	if kind.ID == "bid" && r.Prices != ask.NoPrices {
		c.warnUnpriced(r.Plan)
	}
	var done func()
	r.Progress, done = progress(errw)
	err = c.write(*c.name, out, func(f io.Writer) error { return kind.Write(context.Background(), f, r) })
	done()
	if err != nil {
		c.explain(err)
		return exitUsage
	}
	return exitFine
}

// request reads what the flags ask for; the plan, and what follows from the project, is filled in later.
func (c *reportCall) request() (kind document.Kind, r document.Request, err error) {
	reader, ok := readers[*c.reader]
	if !ok {
		return kind, r, fmt.Errorf("--for %s: write builder or client", *c.reader)
	}
	kind, _ = document.Find(reader.kind)
	r.Prices = reader.prices
	if *c.unpriced {
		r.Prices = ask.NoPrices
	}
	switch {
	case *c.name == "":
		return kind, r, fmt.Errorf("say where to write the document: -o job%s", kind.Ending)
	case *c.name != "-" && !strings.EqualFold(filepath.Ext(*c.name), kind.Ending):
		return kind, r, fmt.Errorf("-o %s: only PDF is written; end the name in %s", *c.name, kind.Ending)
	}
	r.Paper = ask.Paper(*c.paper)
	if r.Paper != "" && r.Paper != ask.Letter && r.Paper != ask.A4 {
		return kind, r, fmt.Errorf("--paper %s: write letter or a4", *c.paper)
	}
	if !slices.Contains(words.Languages, words.Language(*c.language)) {
		return kind, r, fmt.Errorf("--language %s: write en or es", *c.language)
	}
	percent, err := strconv.ParseFloat(strings.TrimSpace(strings.TrimSuffix(*c.markup, "%")), 64)
	if err != nil || !(percent >= 0 && percent <= mostMarkup) {
		return kind, r, fmt.Errorf("--markup %s: write a percentage from 0 to %d, for example 12.5", *c.markup, mostMarkup)
	}
	r.Markup = int(math.Round(percent * 100))
	r.Parts, err = c.partsOf(reader.kind)
	return kind, r, err
}

// mostMarkup is what no one adds to a cost; more is taken for a slip of the hand.
const mostMarkup = 500

// partsOf are the parts that are asked for.
func (c *reportCall) partsOf(kind string) (parts []string, err error) {
	if *c.parts == "" {
		return nil, nil
	}
	known := strings.Split(partIDs(kind), ", ")
	for _, id := range strings.Split(*c.parts, ",") {
		id = strings.TrimSpace(id)
		if !slices.Contains(known, id) {
			return nil, fmt.Errorf("--parts %s: there is no part %q for the %s; write some of %s", *c.parts, id, *c.reader, strings.Join(known, ", "))
		}
		parts = append(parts, id)
	}
	return parts, nil
}

// partIDs lists the parts of a kind of document.
func partIDs(kind string) string {
	k, _ := document.Find(kind)
	var ids []string
	for _, p := range k.Parts(&document.Request{Voice: words.In(words.English, words.Units{})}) {
		ids = append(ids, p.ID)
	}
	return strings.Join(ids, ", ")
}

// dated is the day that the documents of a project bear: that of its last change, so that printing it again gives the same
// pages. What comes from standard input is of now.
func (c *call) dated() time.Time {
	if info, err := os.Stat(c.file); err == nil && c.file != "-" {
		return info.ModTime().Truncate(time.Second)
	}
	return time.Now().Truncate(time.Second)
}

// warnUnpriced says where a bid holds no pay for the work.
func (c *reportCall) warnUnpriced(p *plan.Plan) {
	if p.Cost.Labour == 0 && p.Summary.Hours > 0 {
		fmt.Fprintln(c.errw, "seamcalc report: the project states no rate for own hours, so the bid prices material alone and says so; set  site: {rate: 25}  to price the work")
	}
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
	tell = func(done, total int) { fmt.Fprintf(f, "\rpage %d of %d ", done, total) }
	return tell, func() { fmt.Fprint(f, "\r\x1b[K") }
}
