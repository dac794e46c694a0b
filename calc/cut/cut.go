// Package cut completes the cutting of every sheet for the person at the bench: from which edge each cut is measured
// and how far, which cuts one set-up of saw or knife makes, which sheets are cut alike, what becomes of every piece and
// of every rest. Everything is read from the sheets' own geometry: the cuts in order part the sheet, and each is measured
// from the edge that gives a piece its size.
package cut

import (
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/nest"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
)

// A rest at least so large is kept, all else is waste; the project's own least piece and least course count where they
// are greater. Common practice, no source.
const (
	LeastLong = 16 * length.Inch
	LeastWide = 6 * length.Inch
)

// Kept tells whether a rest is large enough to be kept.
func Kept(rules *job.Rules, r shape.Rect) bool {
	return max(r.W, r.H) >= max(LeastLong, rules.LeastPiece) && min(r.W, r.H) >= max(LeastWide, rules.LeastCourse)
}

// Sheets completes the sheets of a plan and counts its set-ups. Their lists, which other plans share, are not changed.
func Sheets(j *job.Job, p *plan.Plan) {
	homes, extra := homesOf(p)
	same := alike{sheets: p.Sheets, first: map[uint64][]int{}}
	var last setting
	for i := range p.Sheets {
		s := &p.Sheets[i]
		added := len(extra) > 0 && slices.ContainsFunc(s.Parts, func(q plan.Part) bool { return extra[q.Panel] })
		if added || s.Setups == 0 {
			s.Cuts = measured(s, added)
			s.Setups = setups(s.Cuts)
		}
		s.Parts = sent(s, homes, j.Rules.Fit)
		for n, pair := range s.Slants() { // each is marked by itself
			pair.Order = len(s.Cuts) + n + 1
			s.Setups++
		}
		s.Rests = make([]plan.Rest, len(s.Offcuts))
		for k, o := range s.Offcuts {
			s.Rests[k] = plan.Rest{Rect: o, Use: plan.Waste}
			if Kept(&j.Rules, o) {
				s.Rests[k].Use = plan.Keep
			}
		}
		k := same.of(i)
		s.Like = p.Sheets[k].ID
		if k == i {
			p.Summary.Setups += s.Setups
			if n := len(s.Cuts); n > 0 {
				if settingOf(&s.Cuts[0]) == last {
					p.Summary.Setups--
				}
				last = settingOf(&s.Cuts[n-1])
			}
		}
	}
}

// homesOf finds the surface of every panel, with its place in the hang order, and of every further piece.
func homesOf(p *plan.Plan) (homes map[string]home, extra map[string]bool) {
	panels := 0
	for i := range p.Surfaces {
		for k := range p.Surfaces[i].Zones {
			panels += len(p.Surfaces[i].Zones[k].Panels)
		}
	}
	homes, extra = make(map[string]home, panels+len(p.Returns)), map[string]bool{}
	order := make(map[string]int, len(p.Surfaces))
	for i := range p.Surfaces {
		s := &p.Surfaces[i]
		order[s.ID] = s.HangOrder
		for k := range s.Zones {
			for n := range s.Zones[k].Panels {
				homes[s.Zones[k].Panels[n].ID] = home{s.ID, s.HangOrder, s.Zones[k].Panels[n].Outline}
			}
		}
	}
	for _, r := range p.Returns {
		homes[r.ID] = home{surface: r.Surface, order: order[r.Surface]}
		extra[r.ID] = true
	}
	return homes, extra
}

// home is where a piece goes, and when that surface is hung.
type home struct {
	surface string
	order   int
	outline shape.Polygon // as it hangs; nil: of a return
}

// ease is what a whole sheet must lose of its length to go between two fixed faces: the fit at either end. At one end alone
// it is moved along instead.
func (h home) ease(s *plan.Sheet, q *plan.Part, fit length.Length) length.Length {
	if h.outline == nil || q.Rect.W != s.Size[0] || q.Pair != nil || fit <= 0 {
		return 0
	}
	hangs := h.outline.Bounds().W
	if q.Turned {
		hangs = h.outline.Bounds().H
	}
	if off := q.Rect.W - hangs; off >= 2*fit {
		return off
	}
	return 0
}

// sent says where every part goes. A part whose surface is hung after that of another part of the sheet is an offcut
// that waits for it.
func sent(s *plan.Sheet, homes map[string]home, fit length.Length) []plan.Part {
	parts := slices.Clone(s.Parts)
	earliest := 0
	to := func(panel string) string {
		h, ok := homes[panel]
		if ok && (earliest == 0 || h.order < earliest) {
			earliest = h.order
		}
		return h.surface
	}
	for i := range parts {
		q := &parts[i]
		q.Surface = to(q.Panel)
		q.Ease = homes[q.Panel].ease(s, q, fit)
		if q.Pair != nil {
			pair := *q.Pair
			pair.Surface = to(pair.Panel)
			q.Pair = &pair
		}
	}
	for i := range parts {
		q := &parts[i]
		q.Later = homes[q.Panel].order > earliest
		if q.Pair != nil {
			q.Pair.Later = homes[q.Pair.Panel].order > earliest
		}
	}
	return parts
}

// setting is what saw or knife is set to.
type setting struct {
	kind string
	at   length.Length
}

func settingOf(c *plan.Cut) setting { return setting{c.Kind, c.Measure} }

// setups numbers the set-ups of cuts in order, and gives how many there are.
func setups(cuts []plan.Cut) int {
	n := 0
	for i := range cuts {
		if i == 0 || settingOf(&cuts[i]) != settingOf(&cuts[i-1]) {
			n++
		}
		cuts[i].Setup = n
	}
	return n
}

// made is a cut with what it makes of the piece that it is made in.
type made struct {
	*plan.Cut
	near, far shape.Rect
}

// piece is a part of a sheet between cuts, and the cut that made it, -1 for the sheet itself.
type piece struct {
	shape.Rect
	from int
}

// followed calls yield for every cut in the order in which they stand, with the cut that made its piece. Not ok: a cut
// runs across none of the pieces; that is the validator's business.
func followed(s *plan.Sheet, cuts []plan.Cut, yield func(m made, after int)) (ok bool) {
	var few [16]piece
	pieces := append(few[:0], piece{shape.Rect{W: s.Size[0], H: s.Size[1]}, -1})
	for i := range cuts {
		c := &cuts[i]
		k := 0
		for k < len(pieces) && !through(c, pieces[k].Rect, s.Kerf) {
			k++
		}
		if k == len(pieces) {
			return false
		}
		q := pieces[k]
		m := made{Cut: c, near: q.Rect, far: q.Rect}
		if c.From.X == c.To.X {
			m.near.W = max(0, c.From.X-q.X)
			m.far.X = c.From.X + s.Kerf
			m.far.W = max(0, q.MaxX()-m.far.X)
		} else {
			m.near.H = max(0, c.From.Y-q.Y)
			m.far.Y = c.From.Y + s.Kerf
			m.far.H = max(0, q.MaxY()-m.far.Y)
		}
		pieces[k] = piece{m.near, i}
		pieces = append(pieces, piece{m.far, i})
		yield(m, q.from)
	}
	return true
}

// through tells whether a cut runs right across a piece. Where less than the blade is taken off the near side, its line
// lies before the piece.
func through(c *plan.Cut, q shape.Rect, kerf length.Length) bool {
	if c.From.X == c.To.X {
		return c.From.X > q.X-max(kerf, 1) && c.From.X < q.MaxX() && min(c.From.Y, c.To.Y) == q.Y && max(c.From.Y, c.To.Y) == q.MaxY()
	}
	return c.From.Y > q.Y-max(kerf, 1) && c.From.Y < q.MaxY() && min(c.From.X, c.To.X) == q.X && max(c.From.X, c.To.X) == q.MaxX()
}

// measured gives every cut its edge and measure. Cuts of a sheet to which pieces were added later are put into a new
// order, so that equal ones stand together again.
func measured(s *plan.Sheet, reorder bool) []plan.Cut {
	cuts := slices.Clone(s.Cuts)
	var after []int
	var last setting
	ok := followed(s, cuts, func(m made, came int) {
		m.Edge, m.Measure = measure(&m, s.Parts, last)
		last = settingOf(m.Cut)
		if reorder {
			after = append(after, came)
		}
	})
	if !ok {
		return s.Cuts
	}
	if !reorder {
		return cuts
	}
	plain := make([]nest.Cut, len(cuts))
	for i := range cuts {
		plain[i] = nest.Cut{Kind: nest.Cross, Setting: int64(cuts[i].Measure)}
		if cuts[i].Kind == nest.Rip.String() {
			plain[i].Kind = nest.Rip
		}
	}
	ordered := make([]plan.Cut, 0, len(cuts))
	for n, i := range nest.Order(plain, after) {
		c := cuts[i]
		c.Order = n + 1
		ordered = append(ordered, c)
	}
	return ordered
}

// measure chooses the edge from which a cut is measured: one from which the measure is the size of a part, or of several
// together, since that is what must be exact; of two such edges the one that needs no new setting, else the near one.
func measure(m *made, parts []plan.Part, last setting) (edge plan.Side, at length.Length) {
	c := m.Cut
	cross := c.From.X == c.To.X
	near, far := m.near.H, m.far.H
	edges := [2]plan.Side{plan.Bottom, plan.Top}
	if cross {
		near, far = m.near.W, m.far.W
		edges = [2]plan.Side{plan.Left, plan.Right}
	}
	if filled(m.far, parts, cross) && (!filled(m.near, parts, cross) || last == setting{c.Kind, far} && last != setting{c.Kind, near}) {
		return edges[1], far
	}
	return edges[0], near
}

// filled tells whether parts reach from end to end of what a cut has made, in the direction that it measures.
func filled(half shape.Rect, parts []plan.Part, cross bool) bool {
	var low, high bool
	for i := range parts {
		r := parts[i].Rect
		if r.X < half.X || r.MaxX() > half.MaxX() || r.Y < half.Y || r.MaxY() > half.MaxY() {
			continue
		}
		low = low || cross && r.X == half.X || !cross && r.Y == half.Y
		high = high || cross && r.MaxX() == half.MaxX() || !cross && r.MaxY() == half.MaxY()
	}
	return low && high
}

// alike finds the sheet that is the first to be cut in the same way.
type alike struct {
	sheets []plan.Sheet
	first  map[uint64][]int // by a sum over the cutting: sheets that are the first of their kind
}

// of is the index of the first sheet cut as sheet i, which is i where there is none before it.
func (a *alike) of(i int) int {
	s := &a.sheets[i]
	sum := mixed(mixed(uint64(s.Size[0]), uint64(s.Size[1])), uint64(len(s.Cuts)))
	for k := range s.Cuts {
		c := &s.Cuts[k]
		sum = mixed(sum, uint64(c.From.X)^uint64(c.From.Y)<<1^uint64(c.Measure)<<2)
	}
	for _, k := range a.first[sum] {
		if o := &a.sheets[k]; o.Product == s.Product && o.Size == s.Size && o.Kerf == s.Kerf && slices.Equal(o.Cuts, s.Cuts) && sameSlants(o, s) {
			return k
		}
	}
	a.first[sum] = append(a.first[sum], i)
	return i
}

// sameSlants tells whether the slanted cuts of two sheets that are cut alike otherwise are the same.
func sameSlants(a, b *plan.Sheet) bool {
	return slices.EqualFunc(a.Slants(), b.Slants(), func(p, q *plan.Pair) bool { return p.From == q.From && p.To == q.To })
}

// mixed folds a number into a sum so that like sums stand for like sheets nearly always (the finaliser of splitmix64).
func mixed(sum, x uint64) uint64 {
	x += sum + 0x9e3779b97f4a7c15
	x = (x ^ x>>30) * 0xbf58476d1ce4e5b9
	x = (x ^ x>>27) * 0x94d049bb133111eb
	return x ^ x>>31
}
