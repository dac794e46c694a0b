package ui

import (
	"image"
	"image/color"
	"math"

	"seamwright/scene/document/ask"
	"seamwright/scene/draft"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
)

// paperPreview shows a document's pages as they will be printed, one at a time.
type paperPreview struct {
	v          *papers
	box        *fyne.Container
	pic        *picture
	words      *canvas.Text
	back, next *button

	pages  []ask.Page
	laying int  // counts what was laid, so that pages laid late for an older request are dropped
	busy   bool // pages are being laid
	fault  error
}

func newPaperPreview(v *papers) *paperPreview {
	p := &paperPreview{v: v, words: v.w.pal.text("", sizeText, false, v.w.pal.Ink)}
	p.pic = newPicture(v.w, p, p.draw)
	p.pic.always = true
	say := v.w.voice()
	p.back = newButton(v.w.pal, pill, say.Text("papers.back"), func() { p.turn(-1) })
	p.next = newButton(v.w.pal, pill, say.Text("papers.next"), func() { p.turn(1) })
	p.back.keys, p.next.keys = v.key, v.key
	p.box = container0(p.pic, p.words, p.back, p.next)
	return p
}

// place lays the preview right of x; its first line ends before what stands at the right of it.
func (p *paperPreview) place(x float32, size fyne.Size, right float32) {
	put(p.box, x, 0, size.Width-x, size.Height)
	b, n := p.back.MinSize(), p.next.MinSize()
	put(p.back, 0, 2, b.Width, b.Height)
	put(p.next, b.Width+6, 2, n.Width, n.Height)
	at := b.Width + n.Width + 2*grid
	if len(p.pages) < 2 {
		at = 0
	}
	put(p.words, at, 2+(b.Height-p.words.MinSize().Height)/2, size.Width-x-at-right, p.words.MinSize().Height)
	put(p.pic, 0, 36, size.Width-x, size.Height-36)
}

// close lets go of the pictures.
func (p *paperPreview) close() {
	p.laying++
	p.pic.leave(p.pic.drop)
	all := p.v.w.pictures
	for i, q := range all {
		if q == p.pic {
			p.v.w.pictures = append(all[:i:i], all[i+1:]...)
			break
		}
	}
}

// lay has the pages of what is asked for laid out, elsewhere: a large job has hundreds. Those that stand are shown until then.
func (p *paperPreview) lay() {
	k := p.v.kind()
	p.laying++
	mine := p.laying
	p.fault = nil
	if k.Pages == nil {
		p.pages, p.busy = nil, false
		p.show()
		return
	}
	r := p.v.request()
	if r.Parts != nil && len(r.Parts) == 0 {
		p.pages, p.busy = nil, false
		p.show()
		return
	}
	p.busy = true
	take := func(pages []ask.Page, err error) {
		if p.laying == mine {
			p.pages, p.fault, p.busy = pages, err, false
			p.show()
		}
	}
	p.v.w.elsewhere(func() func() {
		pages, err := k.Pages(p.v.ctx, &r)
		return func() { take(pages, err) }
	}, func() { take(nil, errNoAnswer) })
	p.show()
}

// at is the page that is looked at.
func (p *paperPreview) at() int {
	return max(0, min(p.v.asked.page[p.v.asked.kind], len(p.pages)-1))
}

// turn leafs through the pages.
func (p *paperPreview) turn(by int) {
	p.v.asked.page[p.v.asked.kind] = p.at() + by
	p.v.asked.page[p.v.asked.kind] = p.at()
	p.show()
}

// show says which page is looked at, and draws it.
func (p *paperPreview) show() {
	say := p.v.w.voice()
	leafs := len(p.pages) > 1
	shownIf(p.back, leafs)
	shownIf(p.next, leafs)
	p.back.off, p.next.off = p.at() == 0, p.at() == len(p.pages)-1
	p.back.Refresh()
	p.next.Refresh()
	text := ""
	switch {
	case p.fault != nil:
		text = sentence(p.fault)
	case len(p.pages) > 0:
		text = say.Text("papers.page", "page", p.at()+1, "of", len(p.pages), "title", p.pages[p.at()].Title)
	case p.busy:
		text = say.Text("papers.laying")
	case p.v.kind().Pages != nil:
		text = say.Text("papers.nothing")
	default:
		text = say.Text("papers.unpaged")
	}
	p.v.box.Refresh() // the line has the room that buttons leave
	p.words.Text = fit(text, sizeText, false, max(40, p.words.Size().Width))
	p.words.Refresh()
	p.pic.redraw()
}

// pageEdge is what stays free round a page.
const pageEdge = 14.0

// draw paints the page on the desk, as large as it fits.
func (p *paperPreview) draw(width, height float64) func(*image.RGBA, float64) {
	desk, line := p.v.w.pal.Ground, p.v.w.pal.Quiet
	if len(p.pages) == 0 {
		return func(img *image.RGBA, _ float64) { flood(img, p.v.w.pal.Pane) }
	}
	page := p.pages[p.at()]
	zoom := math.Min((width-2*pageEdge)/page.W, (height-2*pageEdge)/page.H)
	return func(img *image.RGBA, scale float64) {
		flood(img, desk)
		wide, high := int(page.W*zoom*scale), int(page.H*zoom*scale)
		if zoom <= 0 || wide < 1 || high < 1 {
			return
		}
		left, top := (img.Rect.Dx()-wide)/2, (img.Rect.Dy()-high)/2
		paper := image.NewRGBA(image.Rect(0, 0, wide, high))
		flood(paper, color.NRGBA{255, 255, 255, 255})
		page.Draw(draft.NewRaster(paper, zoom*scale))
		for y := range high {
			copy(img.Pix[img.PixOffset(left, top+y):], paper.Pix[y*paper.Stride:][:4*wide])
		}
		frame := draft.Rect{X: float64(left) / scale, Y: float64(top) / scale, W: float64(wide) / scale, H: float64(high) / scale}
		draft.NewRaster(img, scale).Stroke(frame.Path()[0], true, draft.Pen{Width: 1, Color: line})
	}
}

// click leafs on at the right half of the page, and back at its left.
func (p *paperPreview) click(at draft.Pt, _ desktop.MouseButton, _ fyne.KeyModifier) {
	width, _ := p.pic.size()
	if at.X < width/2 {
		p.turn(-1)
		return
	}
	p.turn(1)
}

func (p *paperPreview) scroll(_ draft.Pt, dy float64) {
	switch {
	case dy < 0:
		p.turn(1)
	case dy > 0:
		p.turn(-1)
	}
}

func (p *paperPreview) key(e *fyne.KeyEvent) bool {
	p.v.key(e)
	return true
}

func (p *paperPreview) hover(draft.Pt)                                       {}
func (p *paperPreview) leave()                                               {}
func (p *paperPreview) down(draft.Pt, desktop.MouseButton, fyne.KeyModifier) {}
func (p *paperPreview) drag(draft.Pt, draft.Pt)                              {}
func (p *paperPreview) release(bool)                                         {}
func (p *paperPreview) double(at draft.Pt)                                   { p.click(at, 0, 0) }
func (p *paperPreview) typed(rune) bool                                      { return false }
func (p *paperPreview) cursor() desktop.Cursor                               { return desktop.PointerCursor }
