// Package book makes the documents on paper, as PDF: the job book for the crew, with plan, elevations, cut sheets, shopping
// list, sequence and the builder's own cost, and the bid for the client, which tells nothing of that cost. Pages are laid
// out first and drawn afterwards, so that each knows how many there are. All drawings are those of package draft, to scale;
// one logical pixel is one point, so that letters on them are 11 points high at least.
package book

import (
	"context"
	"io"

	"seamwright/scene/document/ask"
	"seamwright/scene/draft"
)

// part is a part of a document that can be asked for alone.
type part struct {
	id   string
	name string // the key of its name
	lay  func(*book)
}

// bookParts and bidParts are the parts of the two documents in their order.
var (
	bookParts = []part{
		{"cover", "book.cover", (*book).cover},
		{"plan", "book.plan", (*book).floorPlans},
		{"elevations", "book.elevations", (*book).elevations},
		{"cuts", "book.cuts", (*book).cuts},
		{"shopping", "book.shopping", (*book).shopping},
		{"site", "book.site", (*book).site},
		{"sequence", "book.sequence", (*book).sequence},
		{"price", "book.price", (*book).price},
		{"sources", "book.sources", (*book).sources},
		{"safety", "book.safety", (*book).safety},
	}
	bidParts = []part{
		{"cover", "book.cover", (*book).cover},
		{"scope", "book.scope", (*book).scope},
		{"offer", "book.offer", (*book).offer},
		{"dates", "book.dates", (*book).dates},
	}
)

// Parts lists the parts of the job book.
func Parts(r *ask.Request) []ask.Part { return named(r, bookParts) }

// BidParts lists the parts of the bid.
func BidParts(r *ask.Request) []ask.Part { return named(r, bidParts) }

func named(r *ask.Request, parts []part) []ask.Part {
	list := make([]ask.Part, len(parts))
	for i, p := range parts {
		list[i] = ask.Part{ID: p.id, Name: r.Voice.Text(p.name)}
	}
	return list
}

// Write writes the job book.
func Write(ctx context.Context, w io.Writer, r *ask.Request) error {
	return write(ctx, w, r, "book.title", bookParts)
}

// WriteBid writes the bid.
func WriteBid(ctx context.Context, w io.Writer, r *ask.Request) error {
	client := *r
	if client.Prices == ask.ForBuilder {
		client.Prices = ask.ForClient
	}
	return write(ctx, w, &client, "book.bid-title", bidParts)
}

func write(ctx context.Context, w io.Writer, r *ask.Request, title string, parts []part) error {
	b := &book{job: r.Job, plan: r.Plan, say: r.Voice, r: r, th: draft.Print(), title: r.Voice.Text(title)}
	for _, p := range parts {
		if err := ctx.Err(); err != nil {
			return err
		}
		if r.Wants(p.id) {
			b.begin(b.say.Text(p.name))
			p.lay(b)
		}
	}
	return b.write(ctx, w)
}
