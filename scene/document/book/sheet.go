package book

import (
	"context"
	"fmt"
	"io"
	"time"

	"codeberg.org/go-pdf/fpdf"

	"seamwright/assets/words"
	"seamwright/calc/job"
	"seamwright/calc/plan"
	"seamwright/scene/document/ask"
	"seamwright/scene/draft"
)

// The page's frame, in points: one margin all round, a head with the page's title, a foot with its number.
const (
	margin   = 36.0
	headHigh = 36.0
	footHigh = 26.0
)

// sheet is one page of a book, laid out but not drawn yet.
type sheet struct {
	wide  bool   // landscape
	bare  bool   // without head and foot
	title string // in its head
	part  string // its part's name in the outline; "" where it belongs to the one before
	entry string // its own name there; "" none
	draw  func(c leaf)
}

// book is a document under way.
type book struct {
	job    *job.Job
	plan   *plan.Plan
	say    *words.Voice
	r      *ask.Request
	th     *draft.Theme
	title  string // of the whole document
	client bool   // it goes to the client, who is told nothing of the builder's own figures
	sheets []sheet
	sizes  map[string]string // what pieces are cut to, once it is asked for
	part   string            // the name of the part that the next page begins
}

// paper is the size of the request's paper in points, upright.
func (b *book) paper() (w, h float64) {
	if b.r.Paper == ask.A4 {
		return 210 * pointsPerMM, 297 * pointsPerMM
	}
	return 8.5 * pointsPerInch, 11 * pointsPerInch
}

// Points are 1/72 in.
const (
	pointsPerInch = 72.0
	pointsPerMM   = pointsPerInch / 25.4
)

// room is what of a page its content may take.
func (b *book) room(wide bool) draft.Rect {
	w, h := b.paper()
	if wide {
		w, h = h, w
	}
	return draft.Rect{X: margin, Y: margin + headHigh, W: w - 2*margin, H: h - 2*margin - headHigh - footHigh}
}

// add lays a page; the first one since a part was begun bears its name in the outline.
func (b *book) add(s sheet) {
	if b.part != "" {
		s.part, b.part = b.part, ""
	}
	b.sheets = append(b.sheets, s)
}

// begin starts a part of the book, named in the outline.
func (b *book) begin(name string) { b.part = name }

// write draws all pages. It looks at the context before each and tells how far it is.
func (b *book) write(ctx context.Context, w io.Writer) error {
	pdf := newPDF()
	pdf.SetTitle(b.job.Name+" · "+b.title, true)
	pdf.SetCreator("Seamwright", true)
	pdf.SetLang(string(b.say.Language()))
	made := b.r.Made
	if made.IsZero() {
		made = time.Unix(0, 0).UTC() // the library would take the clock's
	}
	pdf.SetCreationDate(made)
	pdf.SetModificationDate(made)
	wide, high := b.paper()
	tiles := map[tileKey]*tile{}
	for i := range b.sheets {
		if err := ctx.Err(); err != nil {
			return err
		}
		b.r.Tell(i, len(b.sheets))
		s := &b.sheets[i]
		c := &canvas{pdf: pdf, w: wide, h: high, tiles: tiles}
		way := "P"
		if s.wide {
			c.w, c.h, way = high, wide, "L"
		}
		c.high = c.h
		pdf.AddPageFormat(way, fpdf.SizeType{Wd: wide, Ht: high})
		pdf.SetFont(typeface, "", 1)
		b.outline(pdf, s)
		if !s.bare {
			b.frame(c, s, i+1)
		}
		s.draw(c)
		if err := pdf.Error(); err != nil {
			return fmt.Errorf("page %d: %w", i+1, err)
		}
		s.draw = nil // what it holds on to is done with
	}
	b.r.Tell(len(b.sheets), len(b.sheets))
	return pdf.Output(w)
}

// outline enters a page in the reader's side bar: parts, and below them what they show page by page.
func (b *book) outline(pdf *fpdf.Fpdf, s *sheet) {
	if s.part != "" {
		pdf.Bookmark(s.part, 0, 0)
	}
	if s.entry != "" {
		pdf.Bookmark(s.entry, 1, 0)
	}
}

// frame draws a page's head and foot.
func (b *book) frame(c leaf, s *sheet, number int) {
	wide, high := c.Size()
	hair := draft.Pen{Width: 0.75, Color: b.th.Ink}
	c.Stroke([]draft.Pt{{X: margin, Y: margin + 22}, {X: wide - margin, Y: margin + 22}}, false, hair)
	quiet := draft.Type{Size: draft.Small, Color: b.th.Quiet}
	name := draft.Shorten(b.job.Name, draft.Small, draft.Regular, (wide-2*margin)/3)
	room := wide - 2*margin - draft.Measure(name, draft.Small, draft.Regular) - 16
	c.Text(draft.Pt{X: margin, Y: margin + 14}, draft.Shorten(s.title, draft.Heading, draft.Semibold, room), draft.Type{Size: draft.Heading, Weight: draft.Semibold, Color: b.th.Ink})
	quiet.Anchor = draft.End
	c.Text(draft.Pt{X: wide - margin, Y: margin + 14}, name, quiet)
	foot := high - margin
	c.Text(draft.Pt{X: wide - margin, Y: foot}, b.say.Text("book.page", "page", number, "of", len(b.sheets)), quiet)
	quiet.Anchor = draft.Start
	c.Text(draft.Pt{X: margin, Y: foot}, b.say.Text("book.made", "date", b.r.Made), quiet)
}
