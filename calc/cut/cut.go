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

// Sheets completes the sheets of a plan and counts its set-ups. The sheets that came in are not changed.
func Sheets(j *job.Job, p *plan.Plan) {
	p.Sheets = slices.Clone(p.Sheets)
	homes, extra := homesOf(p)
	first := map[string]string{} // way of cutting: the first sheet that is cut so
	var last setting
	for i := range p.Sheets {
		s := &p.Sheets[i]
		added := slices.ContainsFunc(s.Parts, func(q plan.Part) bool { return extra[q.Panel] })
		s.Cuts = measured(s, added)
		s.Setups = setups(s.Cuts)
		s.Parts = sent(s.Parts, homes)
		s.Rests = make([]plan.Rest, len(s.Offcuts))
		for k, o := range s.Offcuts {
			s.Rests[k] = plan.Rest{Rect: o, Use: plan.Waste}
			if Kept(&j.Rules, o) {
				s.Rests[k].Use = plan.Keep
			}
		}
		k := key(s)
		if first[k] == "" {
			first[k] = s.ID
			p.Summary.Setups += s.Setups
			if n := len(s.Cuts); n > 0 {
				if settingOf(&s.Cuts[0]) == last {
					p.Summary.Setups--
				}
				last = settingOf(&s.Cuts[n-1])
			}
		}
		s.Like = first[k]
	}
}

// homesOf finds the surface of every panel, with its place in the hang order, and of every further piece.
func homesOf(p *plan.Plan) (homes map[string]home, extra map[string]bool) {
	homes, extra = map[string]home{}, map[string]bool{}
	order := map[string]int{}
	for i := range p.Surfaces {
		s := &p.Surfaces[i]
		order[s.ID] = s.HangOrder
		for k := range s.Zones {
			for _, panel := range s.Zones[k].Panels {
				homes[panel.ID] = home{s.ID, s.HangOrder}
			}
		}
	}
	for _, r := range p.Returns {
		homes[r.ID] = home{r.Surface, order[r.Surface]}
		extra[r.ID] = true
	}
	return homes, extra
}

// home is where a piece goes, and when that surface is hung.
type home struct {
	surface string
	order   int
}

// sent says where every part goes. A part whose surface is hung after that of another part of the sheet is an offcut
// that waits for it.
func sent(parts []plan.Part, homes map[string]home) []plan.Part {
	parts = slices.Clone(parts)
	earliest := 0
	for i := range parts {
		if h, ok := homes[parts[i].Panel]; ok {
			parts[i].Surface = h.surface
			if earliest == 0 || h.order < earliest {
				earliest = h.order
			}
		}
	}
	for i := range parts {
		parts[i].Later = homes[parts[i].Panel].order > earliest
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

// made is a cut with the piece that it is made in, what it makes of it, and the cut that made that piece, -1 for none.
type made struct {
	plan.Cut
	near, far shape.Rect
	after     int
}

// followed finds the piece of every cut, in the order in which they stand.
func followed(s *plan.Sheet) []made {
	type piece struct {
		shape.Rect
		from int
	}
	pieces := []piece{{shape.Rect{W: s.Size[0], H: s.Size[1]}, -1}}
	all := make([]made, 0, len(s.Cuts))
	for i, c := range s.Cuts {
		k := slices.IndexFunc(pieces, func(q piece) bool { return through(&c, q.Rect, s.Kerf) })
		if k < 0 {
			continue // no cut of this sheet: the validator's business
		}
		q := pieces[k]
		m := made{Cut: c, near: q.Rect, far: q.Rect, after: q.from}
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
		all = append(all, m)
	}
	return all
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
	all := followed(s)
	if len(all) < len(s.Cuts) {
		return s.Cuts
	}
	cuts := make([]plan.Cut, len(all))
	var last setting
	for i := range all {
		cuts[i] = measure(&all[i], s.Parts, last)
		last = settingOf(&cuts[i])
	}
	if !reorder {
		return cuts
	}
	plain, after := make([]nest.Cut, len(cuts)), make([]int, len(cuts))
	for i := range cuts {
		plain[i] = nest.Cut{Kind: nest.Cross, Setting: int64(cuts[i].Measure)}
		if cuts[i].Kind == nest.Rip.String() {
			plain[i].Kind = nest.Rip
		}
		after[i] = all[i].after
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
func measure(m *made, parts []plan.Part, last setting) plan.Cut {
	c := m.Cut
	cross := c.From.X == c.To.X
	near, far := m.near.H, m.far.H
	edges := [2]plan.Side{plan.Bottom, plan.Top}
	if cross {
		near, far = m.near.W, m.far.W
		edges = [2]plan.Side{plan.Left, plan.Right}
	}
	fits := func(half shape.Rect) bool { return filled(half, parts, cross) }
	c.Edge, c.Measure = edges[0], near
	if fits(m.far) && (!fits(m.near) || last == setting{c.Kind, far} && last != setting{c.Kind, near}) {
		c.Edge, c.Measure = edges[1], far
	}
	return c
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

// key tells sheets apart by how they are cut.
func key(s *plan.Sheet) string {
	k := append([]byte(s.Product), 0)
	add := func(ls ...length.Length) {
		for _, l := range ls {
			for b := range 8 {
				k = append(k, byte(l>>(8*b)))
			}
		}
	}
	add(s.Size[0], s.Size[1])
	for i := range s.Cuts {
		c := &s.Cuts[i]
		add(c.From.X, c.From.Y, c.To.X, c.To.Y, c.Measure)
		k = append(k, c.Edge...)
	}
	return string(k)
}
