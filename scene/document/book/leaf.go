package book

import (
	"context"
	"image"
	"image/color"
	"strings"

	"seamwright/scene/document/ask"
	"seamwright/scene/draft"
)

// leaf is what a page of the book is drawn on: the PDF, or the window's preview of it.
type leaf interface {
	draft.Canvas
	// within is the canvas of a part of this one.
	within(r draft.Rect) leaf
	// picture puts a picture into a rectangle.
	picture(r draft.Rect, img *image.RGBA)
}

// Pages lays the job book's pages out for a look.
func Pages(ctx context.Context, r *ask.Request) ([]ask.Page, error) {
	return newBook(r).pages(ctx, bookParts)
}

// BidPages lays the bid's pages out for a look.
func BidPages(ctx context.Context, r *ask.Request) ([]ask.Page, error) {
	return newBid(r).pages(ctx, bidParts)
}

func (b *book) pages(ctx context.Context, parts []part) ([]ask.Page, error) {
	if err := b.lay(ctx, parts); err != nil {
		return nil, err
	}
	list := make([]ask.Page, len(b.sheets))
	for i := range b.sheets {
		s := &b.sheets[i]
		p := ask.Page{Title: s.title}
		p.W, p.H = b.paper()
		if s.wide {
			p.W, p.H = p.H, p.W
		}
		if p.Title == "" {
			p.Title = b.title
		}
		p.Draw = func(on draft.Canvas) {
			c := &shown{Canvas: on, w: p.W, h: p.H}
			if !s.bare {
				b.frame(c, s, i+1)
			}
			s.draw(c)
		}
		list[i] = p
	}
	return list, nil
}

// shown is a part of a canvas that is not a PDF.
type shown struct {
	draft.Canvas
	at   draft.Pt
	w, h float64
}

// pictured is a canvas that takes pictures.
type pictured interface {
	Image(r draft.Rect, img *image.RGBA)
}

func (c *shown) Size() (w, h float64) { return c.w, c.h }

func (c *shown) within(r draft.Rect) leaf {
	return &shown{c.Canvas, c.at.Add(draft.Pt{X: r.X, Y: r.Y}), r.W, r.H}
}

func (c *shown) picture(r draft.Rect, img *image.RGBA) {
	if on, ok := c.Canvas.(pictured); ok {
		on.Image(c.moved(r), img)
	}
}

func (c *shown) moved(r draft.Rect) draft.Rect {
	return draft.Rect{X: r.X + c.at.X, Y: r.Y + c.at.Y, W: r.W, H: r.H}
}

func (c *shown) line(list []draft.Pt) []draft.Pt {
	moved := make([]draft.Pt, len(list))
	for i, p := range list {
		moved[i] = p.Add(c.at)
	}
	return moved
}

func (c *shown) path(p draft.Path) draft.Path {
	moved := make(draft.Path, len(p))
	for i, ring := range p {
		moved[i] = c.line(ring)
	}
	return moved
}

func (c *shown) Fill(p draft.Path, k color.NRGBA) { c.Canvas.Fill(c.path(p), k) }

func (c *shown) Hatch(p draft.Path, h draft.Hatch) {
	h.From = h.From.Add(c.at)
	c.Canvas.Hatch(c.path(p), h)
}

func (c *shown) Stroke(line []draft.Pt, closed bool, pen draft.Pen) {
	c.Canvas.Stroke(c.line(line), closed, pen)
}

func (c *shown) Disc(at draft.Pt, r float64, k color.NRGBA) { c.Canvas.Disc(at.Add(c.at), r, k) }

func (c *shown) Text(at draft.Pt, s string, t draft.Type) {
	c.Canvas.Text(at.Add(c.at), strings.ReplaceAll(s, fixed, " "), t)
}

func (c *shown) Clip(r draft.Rect) { c.Canvas.Clip(c.moved(r)) }
