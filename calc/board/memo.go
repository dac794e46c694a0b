package board

import (
	"math"

	"seamwright/calc/job"
	"seamwright/calc/layout"
	"seamwright/calc/length"
	"seamwright/calc/memo"
	"seamwright/calc/money"
	"seamwright/calc/shape"
	"seamwright/calc/survey"
	"seamwright/calc/worth"
)

// Memo is where layouts of groups, the sheets cut for them and how rooms hang are kept by the content that they were made
// from, and apart from them the listings of zones, which are large. Either may be nil, and may be used from several
// goroutines at once. What they hold never changes an answer.
type Memo struct{ Results, Listings *memo.Memo }

// NewMemo is an empty memo.
func NewMemo() *Memo { return &Memo{&memo.Memo{}, NewListings()} }

// NewListings is an empty memo for listings. They serve while their room is under the hand, so they stay for a few plans,
// and not many of them: those of a small building or of a few rooms.
func NewListings() *memo.Memo { return &memo.Memo{Plans: 2, Most: 24} }

// writer feeds what layouts depend on to a key.
type writer struct{ memo.Writer }

func (w *writer) lengths(ls []length.Length) {
	w.Int(int64(len(ls)))
	for _, l := range ls {
		w.Int(int64(l))
	}
}

func (w *writer) polygon(p shape.Polygon) {
	w.Int(int64(len(p)))
	for _, q := range p {
		w.Int(int64(q.X))
		w.Int(int64(q.Y))
	}
}

func (w *writer) rects(rs []shape.Rect) {
	w.Int(int64(len(rs)))
	for _, r := range rs {
		w.lengths([]length.Length{r.X, r.Y, r.W, r.H})
	}
}

func (w *writer) members(ms []survey.Member) {
	w.Int(int64(len(ms)))
	for _, m := range ms {
		w.Int(int64(m.At))
		w.Int(int64(m.Width))
		w.Text(string(m.Kind))
		w.Int(int64(m.From))
		w.Int(int64(m.To))
	}
}

// frame writes what all groups of a job share.
func (w *writer) frame(j *job.Job, book *worth.Book, sheet money.Money) {
	r := &j.Rules
	w.lengths([]length.Length{r.Stagger, r.LeastPiece, r.LeastCourse, r.Opening, r.Backing, r.FloorGap, r.Fit})
	w.Text(string(r.Cutouts))
	w.Text(string(r.Rakes))
	w.Bool(r.BackBlocking)
	w.Any(book)
	w.Int(int64(sheet))
	w.Int(int64(len(j.Products)))
	for i := range j.Products {
		w.Text(j.Products[i].ID) // needs and bounds go by its place among them
	}
	for _, s := range j.Stock {
		w.stock(s)
	}
}

func (w *writer) stock(s job.Stock) {
	w.Text(s.Product)
	w.Int(int64(s.Length))
	w.Int(int64(s.Width))
	w.Bool(s.Tapered)
	w.Int(int64(s.Count))
}

func (w *writer) product(p *job.Product) {
	w.Text(p.ID)
	w.Text(string(p.Kind))
	w.Bool(p.Tapered)
	w.Int(int64(p.Kerf))
	w.Int(int64(p.Gap))
	w.Int(int64(len(p.Sizes)))
	for _, s := range p.Sizes {
		w.Int(int64(s.Length))
		w.Int(int64(s.Width))
		w.Int(int64(s.Price))
	}
}

// zone writes all that the layout of a zone depends on.
func (w *writer) zone(z *survey.Zone) {
	s := z.Surface
	w.product(z.Product)
	w.Int(int64(z.Layer))
	w.Int(int64(z.Layers))
	w.Int(int64(z.Finish))
	w.Bool(layout.GypsumOutward(z)) // not of this zone alone
	for _, run := range []job.Run{job.RunAcross, job.RunAlong} {
		limit, ok := z.Spans(run) // goes by thickness and load, which nothing else here does
		w.Int(int64(limit))
		w.Bool(ok)
	}
	w.Text(string(z.Run))
	w.Text(string(z.Pattern))
	w.Text(string(z.Start))
	w.Bool(z.Begins)
	w.lengths(z.Courses)
	w.polygon(z.Outline)
	for _, e := range z.Edges {
		w.Text(string(e.Meets))
	}
	w.Int(int64(len(z.Holes)))
	for _, h := range z.Holes {
		w.polygon(h.Outline)
	}
	w.rects(z.Large)
	var boxes []shape.Rect
	for _, b := range s.Placed {
		boxes = append(boxes, b.Rect())
	}
	w.rects(boxes)
	w.Int(int64(z.FloorGap))
	w.Int(int64(len(z.Pins)))
	for _, p := range z.Pins {
		w.Int(int64(p.Course))
		w.Int(int64(p.Seam))
		w.Bool(p.Edge)
	}
	w.Text(s.Members.Axis)
	w.Int(int64(s.Members.Width))
	w.Int(int64(s.Space()))
	w.members(s.Studs)
	w.members(s.Short)
	w.Bool(s.Backing != nil)
	if s.Backing != nil {
		w.Int(int64(len(s.Backing.Seams)))
		for _, l := range s.Backing.Seams {
			w.polygon(l[:])
		}
	}
	w.Bool(s.Wall != nil)
	if s.Wall != nil {
		w.Int(int64(s.Wall.Trim))
		w.duties(s.Wall.Duty)
	}
	if s.Ceiling != nil {
		w.duties(s.Ceiling.Duty)
	}
}

// facing writes how the two faces of a partition lie to each other.
func (w *writer) facing(a, b *survey.Surface) {
	for k := range 2 {
		w.Int(int64(b.Frame.Origin[k] - a.Frame.Origin[k]))
		w.Int(int64(math.Float64bits(a.Frame.X[k])))
		w.Int(int64(math.Float64bits(b.Frame.X[k])))
	}
}

func (w *writer) duties(ds []job.Duty) {
	w.Int(int64(len(ds)))
	for _, d := range ds {
		w.Text(string(d))
	}
}

func (w *writer) lines(ls []layout.Line) {
	w.Int(int64(len(ls)))
	for _, l := range ls {
		w.Bool(l.Upright)
		w.Bool(l.Control)
		w.Int(int64(l.At))
		w.Int(int64(l.Clear))
		w.Text(l.Rule)
	}
}
