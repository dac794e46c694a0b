// Package ask is what a document is asked for: the plan that it tells, the voice that it tells it in, the paper that it
// is laid out on. It stands apart from the table of documents so that each document can read its request.
package ask

import (
	"errors"
	"slices"
	"time"

	"seamwright/assets/words"
	"seamwright/calc/job"
	"seamwright/calc/money"
	"seamwright/calc/plan"
)

// Request is everything that a document depends on: the same request gives the same bytes. Documents read no clock, no
// files and no settings.
type Request struct {
	Job    *job.Job
	Plan   *plan.Plan
	Others []Alternative // the alternatives planned in full, for kinds that want them; the plan holds their numbers
	Voice  *words.Voice
	Made   time.Time // the day and hour that the document says it is of
	Paper  Paper
	Parts  []string // ids of the parts that are wanted; empty: all
	Prices Prices
	// Markup is added to the cost where a price is told to a client, in hundredths of a percent: 1250 is 12.5 %.
	Markup int
	// Progress is told how far a long document is; nil: nobody asks. It is called on the goroutine that writes.
	Progress func(done, total int)
}

// Alternative is one named variant with a plan of its own.
type Alternative struct {
	Name string
	Job  *job.Job
	Plan *plan.Plan
}

// Paper is a size of paper.
type Paper string

// The two papers: 8-1/2 x 11 in (ANSI/ASME Y14.1, size A) and 210 x 297 mm (ISO 216).
const (
	Letter Paper = "letter"
	A4     Paper = "a4"
)

// PaperOf is the paper that a project's units go with.
func PaperOf(u job.Units) Paper {
	if u == job.Metric {
		return A4
	}
	return Letter
}

// Prices says which money a document may tell.
type Prices string

// The prices: none at all; what the client pays; what the builder pays, with hours and rates. A kind shows no more than
// it is made for, whatever is asked.
const (
	NoPrices   Prices = "none"
	ForClient  Prices = "client"
	ForBuilder Prices = "builder"
)

// Part is what a reader may leave out of a document or ask for alone.
type Part struct {
	ID   string
	Name string // in the request's voice
}

// Wants tells whether a part is asked for.
func (r *Request) Wants(part string) bool { return len(r.Parts) == 0 || slices.Contains(r.Parts, part) }

// Tell says how far the document is.
func (r *Request) Tell(done, total int) {
	if r.Progress != nil {
		r.Progress(done, total)
	}
}

// ErrOwnCost says that a client's price would be what the builder pays.
var ErrOwnCost = errors.New("the price would be your own cost: the total holds no labour and nothing is added to it; state what an hour is worth in site.rate, add a markup, or leave prices out")

// ClientPrice is what a client is told that a plan costs: its total, with the markup added once.
func (r *Request) ClientPrice(p *plan.Plan) (money.Money, error) {
	if p.Cost.Labour == 0 && r.Markup <= 0 {
		return 0, ErrOwnCost
	}
	return r.Marked(p.Cost.Total), nil
}

// Marked is what a client pays for what the builder pays: the markup is added.
func (r *Request) Marked(m money.Money) money.Money {
	const whole = 100_00
	return m + m.Part(int64(r.Markup), whole)
}
