package main

import (
	"errors"
	"fmt"
	"io"
	"math"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"seamwright/assets/words"
	"seamwright/calc/plan"
	"seamwright/scene/document"
	"seamwright/scene/document/ask"
)

// readers are whom report writes for: the kinds in the table of documents by the ending of the file, and the money that
// they are told.
var readers = map[string]struct {
	kinds  map[string]string
	prices ask.Prices
}{"builder": {map[string]string{".pdf": "book"}, ask.ForBuilder}, "client": {map[string]string{".pdf": "bid", ".html": "page"}, ask.ForClient}}

// reportCall is what report is asked.
type reportCall struct {
	*documentCall
	reader, markup *string
}

// runReport writes the job book, or what a client gets: the bid, or a page to turn the room on.
func runReport(args []string, in io.Reader, out, errw io.Writer) int {
	c := &reportCall{documentCall: newDocumentCall(
		newCall("report", "the job book for the crew, or the bid for the client, as PDF; or the client's page, as HTML", "report "+sample+" -o job.pdf --paper letter --language en", out, errw),
		"the document to write: job.pdf, or page.html for a client; - for a PDF on standard output",
		"the parts wanted, as in cover,elevations,cuts; left out: all. For the builder: "+partIDs("book")+"; for the client: "+partIDs("bid"))}
	c.reader = c.String("for", "builder", "builder: the job book with the builder's own cost; client: the bid or the page, which tell nothing of that cost")
	c.markup = c.String("markup", "", "what is added to the cost in a client's price, in percent, as in 12.5; left out: nothing, and the page tells no price")
	if code, done := c.parse(args); done {
		return code
	}
	kind, r, err := c.request()
	if err == nil {
		err = c.mayWrite(*c.name)
	}
	if err != nil {
		return c.refuse(err)
	}
	if !c.planned(in, kind, &r) {
		return exitUsage
	}
	if r.Prices == ask.ForClient {
		c.warnUnpriced(r.Plan)
	}
	return c.produce(out, kind, r)
}

// request reads what the flags ask for; the plan, and what follows from the project, is filled in later.
func (c *reportCall) request() (kind document.Kind, r document.Request, err error) {
	reader, ok := readers[*c.reader]
	if !ok {
		return kind, r, fmt.Errorf("--for %s: write builder or client", *c.reader)
	}
	if r, err = c.asked(); err != nil {
		return kind, r, err
	}
	if r.Prices == "" {
		r.Prices = reader.prices
	}
	ending := strings.ToLower(filepath.Ext(*c.name))
	if *c.name == "-" {
		ending = ".pdf"
	}
	id, ok := reader.kinds[ending]
	switch {
	case *c.name == "":
		return kind, r, errors.New("say where to write the document: -o job.pdf")
	case !ok:
		return kind, r, fmt.Errorf("-o %s: only PDF is written for the builder, PDF or HTML for the client; end the name in .pdf or .html", *c.name)
	}
	kind, _ = document.Find(id)
	if *c.markup == "" {
		if *c.markup = "0"; id == "page" { // it is sent away, so a price stands in it only where one is asked for
			r.Prices = ask.NoPrices
		}
	}
	percent, err := strconv.ParseFloat(strings.TrimSpace(strings.TrimSuffix(*c.markup, "%")), 64)
	if err != nil || !(percent >= 0 && percent <= mostMarkup) {
		return kind, r, fmt.Errorf("--markup %s: write a percentage from 0 to %d, for example 12.5", *c.markup, mostMarkup)
	}
	r.Markup = int(math.Round(percent * 100))
	return kind, r, c.known(kind, r.Parts)
}

// mostMarkup is what no one adds to a cost; more is taken for a slip of the hand.
const mostMarkup = 500

// known refuses parts that a document does not have.
func (c *reportCall) known(kind document.Kind, parts []string) error {
	if len(parts) > 0 && kind.Parts == nil {
		return fmt.Errorf("--parts %s: the page is always whole", *c.parts)
	}
	for _, id := range parts {
		if ids := partIDs(kind.ID); !slices.Contains(strings.Split(ids, ", "), id) {
			return fmt.Errorf("--parts %s: there is no part %q for the %s; write some of %s", *c.parts, id, *c.reader, ids)
		}
	}
	return nil
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

// warnUnpriced says where a bid holds no pay for the work.
func (c *reportCall) warnUnpriced(p *plan.Plan) {
	if p.Cost.Labour == 0 && p.Summary.Hours > 0 {
		fmt.Fprintln(c.errw, "seamcalc report: the project states no rate for own hours, so the document prices material alone; set  site: {rate: 25}  to price the work")
	}
}
