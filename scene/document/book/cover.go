package book

import (
	"image"
	xdraw "image/draw"
	"strconv"

	"seamwright/calc/plan"
	"seamwright/scene"
	"seamwright/scene/draft"
)

// cover is the first page: what job it is, the room as it will stand, the key figures, and what stands where.
func (b *book) cover() {
	b.add(sheet{bare: true, title: b.job.Name, draw: b.drawCover})
}

// figure is a number that the cover tells, with its label.
type figure struct{ label, value string }

// The parts of the cover, in points.
const (
	coverTop    = 64.0
	figureWide  = 4 // key figures in a row
	figureHigh  = 44.0
	pictureDots = 200.0 // of the picture, in an inch
)

func (b *book) drawCover(c leaf) {
	paper, _ := c.Size()
	ink := draft.Type{Size: draft.Small, Color: b.th.Ink}
	quiet := ink
	quiet.Color = b.th.Quiet
	c.Stroke([]draft.Pt{{X: margin, Y: coverTop - 36}, {X: paper - margin, Y: coverTop - 36}}, false, draft.Pen{Width: 4, Color: b.th.Accent})
	c.Text(draft.Pt{X: margin, Y: coverTop}, draft.Shorten(b.job.Name, draft.Figure, draft.Semibold, paper-2*margin),
		draft.Type{Size: draft.Figure, Weight: draft.Semibold, Color: b.th.Ink})
	c.Text(draft.Pt{X: margin, Y: coverTop + 24}, b.title, draft.Type{Size: draft.Heading, Color: b.th.Ink})
	quiet.Anchor = draft.End
	c.Text(draft.Pt{X: paper - margin, Y: coverTop + 24}, b.say.LongDate(b.r.Made), quiet)
	picture := draft.Rect{X: margin, Y: coverTop + 44, W: paper - 2*margin, H: (paper - 2*margin) * 0.62}
	b.picture(c, picture)
	y := picture.Y + picture.H + 28
	figures := b.keyFigures()
	wide := (paper - 2*margin) / figureWide
	for i, f := range figures {
		at := draft.Pt{X: margin + wide*float64(i%figureWide), Y: y + figureHigh*float64(i/figureWide)}
		c.Text(at, draft.Shorten(f.label, draft.Small, draft.Regular, wide-8), draft.Type{Size: draft.Small, Color: b.th.Quiet})
		c.Text(at.Add(draft.Pt{Y: 18}), draft.Shorten(f.value, draft.Heading, draft.Semibold, wide-8), draft.Type{Size: draft.Heading, Weight: draft.Semibold, Color: b.th.Ink})
	}
	rows := (len(figures) + figureWide - 1) / figureWide
	b.contents(c, y+figureHigh*float64(rows)+12)
}

// picture draws the room as the window's room view does, from the side that shows most.
func (b *book) picture(c leaf, at draft.Rect) {
	w, h := int(at.W/pointsPerInch*pictureDots), int(at.H/pointsPerInch*pictureDots)
	room := scene.Build(b.plan, b.job, scene.Options{})
	st := scene.DefaultStyle()
	st.Sharp, st.Scale = true, float64(w)/at.W
	cam, ok := room.Camera("SE", w, h)
	if !ok {
		return
	}
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	st.Clear = true
	renderer := scene.NewRenderer(0)
	defer renderer.Close()
	renderer.Render(img, room, cam, st)
	onPaper := image.NewRGBA(img.Rect)
	xdraw.Draw(onPaper, img.Rect, image.White, image.Point{}, xdraw.Src)
	xdraw.Draw(onPaper, img.Rect, img, image.Point{}, xdraw.Over)
	c.picture(at, onPaper)
}

// keyFigures are the job in a few numbers; a client sees what the job is, not how it is worked.
func (b *book) keyFigures() []figure {
	s, say := &b.plan.Summary, b.say
	var list []figure
	add := func(label, value string) { list = append(list, figure{label, value}) }
	finish, dated := stamp(s.Finish)
	if !b.client {
		add(say.Text("book.sheets"), strconv.Itoa(s.SheetsBought))
		add(say.Text("book.screws"), say.Value(s.Screws))
		add(say.Text("book.butt-joint"), say.Value(plan.Run(s.ButtJoint+s.MixedJoint)))
		add(say.Text("book.delivery-weight"), say.Value(weight(s.Weight)))
		add(say.Text("book.own-hours"), say.Decimal(s.Hours, 1))
	} else {
		add(say.Text("book.lined-area"), say.Value(b.lined()))
		add(say.Text("book.rooms"), strconv.Itoa(len(b.job.Rooms)))
	}
	add(say.Text("book.working-days"), strconv.Itoa(s.Days))
	if dated {
		add(say.Text("book.finished-on"), say.Date(finish))
	}
	switch {
	case !b.priced():
	case b.client:
		add(say.Text("book.price-offered"), say.Money(b.r.Marked(b.plan.Cost.Total)))
	default:
		add(say.Text("book.total"), say.Money(b.plan.Cost.Total))
	}
	return list
}

// contents lists the parts with the pages that they begin on.
func (b *book) contents(c leaf, y float64) {
	t := draft.Type{Size: draft.Small, Color: b.th.Ink}
	for i, s := range b.sheets {
		if s.part == "" || i == 0 {
			continue
		}
		c.Text(draft.Pt{X: margin, Y: y + riseOf}, s.part, t)
		number := t
		number.Anchor = draft.End
		c.Text(draft.Pt{X: margin + 24 + contentsWide, Y: y + riseOf}, strconv.Itoa(i+1), number)
		from := margin + draft.Measure(s.part, draft.Small, draft.Regular) + 6
		to := margin + 24 + contentsWide - draft.Measure(strconv.Itoa(i+1), draft.Small, draft.Regular) - 6
		c.Stroke([]draft.Pt{{X: from, Y: y + riseOf - 1}, {X: to, Y: y + riseOf - 1}}, false, draft.Pen{Width: 0.7, Color: b.th.Hairline, Dash: []float64{1, 3}})
		y += lineHigh + 1
	}
}

// contentsWide is the width of the list of parts.
const contentsWide = 260.0
