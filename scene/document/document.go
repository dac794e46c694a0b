// Package document is the table of everything that a project can be written as. The window and seamcalc both read it, so
// a document that is added here is offered everywhere.
package document

import (
	"bytes"
	"context"
	"io"

	"seamwright/scene"
	"seamwright/scene/document/ask"
	"seamwright/scene/document/book"
	"seamwright/scene/document/calendar"
	"seamwright/scene/document/drawing"
	"seamwright/scene/document/page"
	"seamwright/scene/document/tables"
)

// Request is what a document is asked for.
type Request = ask.Request

// Kind is one document that can be written.
type Kind struct {
	ID     string
	Ending string // of its file's name, with the dot; several kinds may share one
	Name   string // the key of its name in the catalog of words

	Paper  bool // it is laid out on paper
	Prices bool // it tells as much of the money as is asked
	Others bool // it wants the alternatives planned in full
	Client bool // a client reads it: the builder's own cost never stands in it
	One    bool // its parts are asked for one at a time

	// Parts lists what may be asked for alone, in the order in which it stands; nil where there is no choice.
	Parts func(*Request) []ask.Part

	// Pages lays the document's pages out for a look before it is written; nil where it has none.
	Pages func(context.Context, *Request) ([]ask.Page, error)

	build func(context.Context, io.Writer, *Request) error
}

// kinds is the table.
var kinds = [...]Kind{
	{ID: "book", Ending: ".pdf", Name: "document.book", Paper: true, Prices: true, Parts: book.Parts, Pages: book.Pages, build: book.Write},
	{ID: "bid", Ending: ".pdf", Name: "document.bid", Paper: true, Prices: true, Client: true, Parts: book.BidParts, Pages: book.BidPages, build: book.WriteBid},
	{ID: "page", Ending: ".html", Name: "document.page", Prices: true, Others: true, Client: true, build: page.Write},
	{ID: "drawing", Ending: ".svg", Name: "document.drawing", Paper: true, One: true, Parts: drawing.Parts, build: drawing.SVG},
	{ID: "dxf", Ending: ".dxf", Name: "document.dxf", Parts: drawing.Built, build: drawing.DXF},
	{ID: "workbook", Ending: ".xlsx", Name: "document.workbook", Paper: true, Prices: true, Parts: tables.Parts, build: tables.Workbook},
	{ID: "table", Ending: ".csv", Name: "document.table", Prices: true, One: true, Parts: tables.Parts, build: tables.CSV},
	{ID: "calendar", Ending: ".ics", Name: "document.calendar", build: calendar.Write},
	{ID: "picture", Ending: ".png", Name: "document.picture", build: picture},
	{ID: "model", Ending: ".glb", Name: "document.model", build: model},
}

// Kinds lists every document, in the order in which they are offered.
func Kinds() []Kind { return kinds[:] }

// About is the key of the sentence that says what the document is for.
func (k Kind) About() string { return k.Name + "-about" }

// Find is the kind with an id.
func Find(id string) (Kind, bool) {
	for _, k := range kinds {
		if k.ID == id {
			return k, true
		}
	}
	return Kind{}, false
}

// Write writes the document. Nothing is written before it is whole: a cancelled context gives its error and leaves the
// writer as it was.
func (k Kind) Write(ctx context.Context, w io.Writer, r Request) error {
	var whole bytes.Buffer
	if err := k.build(ctx, &whole, &r); err != nil {
		return err
	}
	if err := ctx.Err(); err != nil {
		return err
	}
	_, err := whole.WriteTo(w)
	return err
}

// model is the building as binary glTF 2.0.
func model(_ context.Context, w io.Writer, r *Request) error {
	return scene.GLB(w, scene.Build(r.Plan, r.Job, scene.Options{}))
}

// The picture's size and the side that it is seen from: those that seamcalc render takes unasked.
const (
	pictureWide, pictureHigh = 1920, 1080
	pictureFrom              = "SE"
)

// picture is the building from above, as PNG.
func picture(_ context.Context, w io.Writer, r *Request) error {
	s := scene.Build(r.Plan, r.Job, scene.Options{})
	style := scene.DefaultStyle()
	style.Sharp = true
	cam, _ := s.Camera(pictureFrom, pictureWide, pictureHigh) // one of scene.Views
	return scene.PNG(w, s, cam, style, pictureWide, pictureHigh)
}
