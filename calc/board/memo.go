package board

import (
	"crypto/sha256"
	"encoding/binary"
	"hash"
	"math"
	"sync"

	"seamwright/calc/job"
	"seamwright/calc/layout"
	"seamwright/calc/length"
	"seamwright/calc/shape"
	"seamwright/calc/survey"
)

// Memo keeps the layouts of groups, and the sheets cut for them, by the content that they were found from. It may be
// nil, and may be used from several goroutines at once. What it holds never changes an answer.
type Memo struct {
	mu     sync.Mutex
	groups map[key]*groupPlans
	cuts   map[key]*cutting
	// Listings are large and serve only until their room is planned again: the latest are kept, in a ring.
	listings map[key]*listing
	latest   [memoListings]key
	next     int
}

// key is a hash of everything that an entry depends on.
type key [sha256.Size]byte

// memoSize is how many entries are kept of each kind before all are dropped: some twenty edits of a large building.
const memoSize = 4096

// memoListings is how many zones' listings are kept: those of a large room, or of the few rooms under the hand.
const memoListings = 24

// NewMemo is an empty memo.
func NewMemo() *Memo {
	return &Memo{groups: map[key]*groupPlans{}, cuts: map[key]*cutting{}, listings: map[key]*listing{}}
}

func (m *Memo) group(k key) *groupPlans {
	if m == nil {
		return nil
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	return m.groups[k]
}

func (m *Memo) keepGroup(k key, g *groupPlans) {
	if m == nil {
		return
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.groups == nil || len(m.groups) >= memoSize {
		m.groups = map[key]*groupPlans{}
	}
	m.groups[k] = g
}

func (m *Memo) cut(k key) *cutting {
	if m == nil {
		return nil
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	return m.cuts[k]
}

func (m *Memo) keepCut(k key, c *cutting) {
	if m == nil {
		return
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.cuts == nil || len(m.cuts) >= memoSize {
		m.cuts = map[key]*cutting{}
	}
	m.cuts[k] = c
}

func (m *Memo) listing(k key) *listing {
	if m == nil {
		return nil
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	return m.listings[k]
}

func (m *Memo) keepListing(k key, l *listing) {
	if m == nil {
		return
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.listings == nil {
		m.listings = map[key]*listing{}
	}
	if m.listings[k] == nil {
		delete(m.listings, m.latest[m.next])
		m.latest[m.next] = k
		m.next = (m.next + 1) % memoListings
	}
	m.listings[k] = l
}

// writer feeds values to a hash. Every list is preceded by its length, so that no two contents read alike.
type writer struct {
	h   hash.Hash
	buf []byte
}

func newWriter() *writer { return &writer{h: sha256.New()} }

func (w *writer) sum() (k key) {
	w.h.Write(w.buf)
	w.h.Sum(k[:0])
	return k
}

// restart empties the writer for another content.
func (w *writer) restart() {
	w.h.Reset()
	w.buf = w.buf[:0]
}

func (w *writer) key(k key) { w.buf = append(w.buf, k[:]...) }

func (w *writer) int(v int64) {
	w.buf = binary.LittleEndian.AppendUint64(w.buf, uint64(v))
	if len(w.buf) > 4096 {
		w.h.Write(w.buf)
		w.buf = w.buf[:0]
	}
}

func (w *writer) bool(b bool) {
	if b {
		w.int(1)
	} else {
		w.int(0)
	}
}

func (w *writer) text(s string) {
	w.int(int64(len(s)))
	w.buf = append(w.buf, s...)
}

func (w *writer) lengths(ls []length.Length) {
	w.int(int64(len(ls)))
	for _, l := range ls {
		w.int(int64(l))
	}
}

func (w *writer) polygon(p shape.Polygon) {
	w.int(int64(len(p)))
	for _, q := range p {
		w.int(int64(q.X))
		w.int(int64(q.Y))
	}
}

func (w *writer) members(ms []survey.Member) {
	w.int(int64(len(ms)))
	for _, m := range ms {
		w.int(int64(m.At))
		w.int(int64(m.Width))
		w.text(string(m.Kind))
		w.int(int64(m.From))
		w.int(int64(m.To))
	}
}

// frame writes what all groups of a job share.
func (w *writer) frame(j *job.Job) {
	r := &j.Rules
	w.lengths([]length.Length{r.Stagger, r.LeastPiece, r.LeastCourse, r.Opening, r.Backing, r.FloorGap, r.Fit})
	w.text(string(r.Cutouts))
	w.bool(r.BackBlocking)
	w.int(int64(j.Site.Rate))
	w.bool(j.Aim == job.AimSheets)
	for _, f := range Figures() {
		w.int(int64(math.Float64bits(f.Of(j))))
	}
	for _, s := range j.Stock {
		w.stock(s)
	}
}

func (w *writer) stock(s job.Stock) {
	w.text(s.Product)
	w.int(int64(s.Length))
	w.int(int64(s.Width))
	w.bool(s.Tapered)
	w.int(int64(s.Count))
}

func (w *writer) product(p *job.Product) {
	w.text(p.ID)
	w.text(string(p.Kind))
	w.bool(p.Tapered)
	w.int(int64(p.Kerf))
	w.int(int64(p.Gap))
	w.int(int64(len(p.Sizes)))
	for _, s := range p.Sizes {
		w.int(int64(s.Length))
		w.int(int64(s.Width))
		w.int(int64(s.Price))
	}
}

// zone writes all that the layout of a zone depends on.
func (w *writer) zone(z *survey.Zone) {
	s := z.Surface
	w.product(z.Product)
	w.int(int64(z.Layer))
	w.int(int64(z.Layers))
	w.text(string(z.Run))
	w.text(string(z.Pattern))
	w.text(string(z.Start))
	w.lengths(z.Courses)
	w.polygon(z.Outline)
	for _, e := range z.Edges {
		w.text(string(e.Meets))
	}
	w.int(int64(len(z.Holes)))
	for _, h := range z.Holes {
		w.polygon(h.Outline)
	}
	w.int(int64(z.FloorGap))
	w.int(int64(len(z.Pins)))
	for _, p := range z.Pins {
		w.int(int64(p.Course))
		w.int(int64(p.Seam))
		w.bool(p.Edge)
	}
	w.text(s.Members.Axis)
	w.int(int64(s.Members.Width))
	w.members(s.Studs)
	w.members(s.Short)
	w.bool(s.Backing != nil)
	if s.Backing != nil {
		w.int(int64(len(s.Backing.Seams)))
		for _, l := range s.Backing.Seams {
			w.polygon(l[:])
		}
	}
	w.bool(s.Wall != nil)
	if s.Wall != nil {
		w.int(int64(s.Wall.Framing.Spacing))
		w.int(int64(s.Wall.Trim))
		w.duties(s.Wall.Duty)
	}
	if s.Ceiling != nil {
		w.int(int64(s.Ceiling.Framing.Spacing))
		w.duties(s.Ceiling.Duty)
	}
}

func (w *writer) duties(ds []job.Duty) {
	w.int(int64(len(ds)))
	for _, d := range ds {
		w.text(string(d))
	}
}

func (w *writer) lines(ls []layout.Line) {
	w.int(int64(len(ls)))
	for _, l := range ls {
		w.bool(l.Upright)
		w.int(int64(l.At))
		w.int(int64(l.Clear))
		w.text(l.Rule)
	}
}
