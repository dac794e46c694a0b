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
	return newBook(r).make(ctx, w, bookParts)
}

// WriteBid writes the bid.
func WriteBid(ctx context.Context, w io.Writer, r *ask.Request) error {
	return newBid(r).make(ctx, w, bidParts)
}

func newBook(r *ask.Request) *book { return begun(r, "book.title", false) }
func newBid(r *ask.Request) *book  { return begun(r, "book.bid-title", true) }

func begun(r *ask.Request, title string, client bool) *book {
	return &book{job: r.Job, plan: r.Plan, say: r.Voice, r: r, th: draft.Print(), title: r.Voice.Text(title), client: client}
}

// make lays the parts that are asked for, and writes them.
func (b *book) make(ctx context.Context, w io.Writer, parts []part) error {
	if err := b.lay(ctx, parts); err != nil {
		return err
	}
	return b.write(ctx, w)
}

// lay lays the parts that are asked for.
func (b *book) lay(ctx context.Context, parts []part) error {
	for _, p := range parts {
		if err := ctx.Err(); err != nil {
			return err
		}
		if b.r.Wants(p.id) {
			b.begin(b.say.Text(p.name))
			p.lay(b)
		}
	}
	return nil
}
