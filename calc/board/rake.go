package board

import (
	"cmp"
	"math"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/layout"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
)

// Raked pieces have one slanted edge. Two whose slants run alike fill one rectangle, one of them turned half round in the
// plane of the sheet: the face stays outward and the grain its way. The rectangle is cut by straight cuts like any piece,
// then parted by one slanted cut. Which pieces are paired is decided when the sheets are cut: two ways of pairing are
// tried, and the pieces stay apart unless one of them saves.

// slantSlack is how far two slants may differ from each other over their length: they are rounded on the way.
const slantSlack = length.Millimetre / 10

// raked is a raked piece, by what it is as the near half of a rectangle: below the cut, or left of it where that is steep.
type raked struct {
	piece int
	// rise tells pieces that may be paired: whether the slant runs from the lower to the upper edge of the sheet rather than
	// from end to end, whether it rises from left to right, how long the slant is in the direction it crosses, and how far
	// it goes in the other.
	steep, rising bool
	across, rise  length.Length
	sides         [2]length.Length // at the start and at the end of the cut
	tapers        [2]bool          // wanted at the lower, the upper edge
	halfRound     bool             // lies so when it is turned half round
	swap          bool             // its long edge stands upright on the wall
}

// far are the sides as the far half.
func (r *raked) far() [2]length.Length { return [2]length.Length{r.sides[1], r.sides[0]} }

// readRake reads a piece that is raked: all of it lies on one side of its one slanted edge, which runs from one side of its
// bounds to the other.
func readRake(panel *layout.Panel, swap bool) (r raked, ok bool) {
	b := panel.Region.Outline.Bounds()
	if (b.W-panel.Size.L).Abs() > layout.Mark || (b.H-panel.Size.W).Abs() > layout.Mark {
		return r, false
	}
	lie := make(shape.Polygon, len(panel.Region.Outline))
	for i, q := range panel.Region.Outline {
		lie[i] = shape.Point{X: q.X - b.X, Y: q.Y - b.Y}
		if swap {
			lie[i].Y = b.H - lie[i].Y // upright on the wall: turned by a quarter, not mirrored
		}
	}
	var p, q shape.Point
	slants := 0
	for i, a := range lie {
		if e := lie[(i+1)%len(lie)]; a.X != e.X && a.Y != e.Y {
			p, q, slants = a, e, slants+1
		}
	}
	if slants != 1 {
		return r, false
	}
	if p.X > q.X {
		p, q = q, p
	}
	r = raked{swap: swap, rising: q.Y > p.Y, rise: (q.Y - p.Y).Abs(), across: b.W}
	switch {
	case p.X == 0 && q.X == b.W:
	case min(p.Y, q.Y) == 0 && max(p.Y, q.Y) == b.H:
		r.steep, r.rise, r.across = true, q.X-p.X, b.H
		if !r.rising {
			p, q = q, p // from the lower edge up
		}
	default:
		return r, false
	}
	side, clear := sideOf(lie, p, q)
	if !clear {
		return r, false
	}
	r.tapers = panel.Tapers
	if swap {
		r.tapers[0], r.tapers[1] = r.tapers[1], r.tapers[0]
	}
	near := side < 0 // right of the way from p to q: below it
	if r.sides = [2]length.Length{p.Y, q.Y}; r.steep {
		near = side > 0 // left of the way up
		r.sides = [2]length.Length{p.X, q.X}
	}
	if !near {
		whole := b.H
		if r.steep {
			whole = b.W
		}
		r.halfRound = true
		r.sides = [2]length.Length{whole - r.sides[1], whole - r.sides[0]}
		r.tapers[0], r.tapers[1] = r.tapers[1], r.tapers[0]
	}
	return r, true
}

// sideOf tells on which side of the way from p to q a polygon lies: 1 left, -1 right; not clear where on both.
func sideOf(lie shape.Polygon, p, q shape.Point) (side int, clear bool) {
	for _, v := range lie {
		cross := float64(float64(q.X-p.X)*float64(v.Y-p.Y)) - float64(float64(q.Y-p.Y)*float64(v.X-p.X))
		on := 0
		switch {
		case v == p || v == q:
		case cross > 0:
			on = 1
		case cross < 0:
			on = -1
		}
		if on != 0 && side != 0 && on != side {
			return 0, false
		}
		side = cmp.Or(side, on)
	}
	return side, side != 0
}

// couple is two raked pieces in one rectangle.
type couple struct {
	near, far *raked
	size      layout.Size
	tapers    [2]bool // wanted at the lower, the upper edge of the rectangle
}

// coupled puts two raked pieces into one rectangle; not ok where their slants differ or no sheet for sale holds it.
func coupled(p *job.Product, near, far *raked) (c couple, ok bool) {
	if near.steep != far.steep || near.rising != far.rising || near.across != far.across || (near.rise-far.rise).Abs() > slantSlack {
		return c, false
	}
	c = couple{near: near, far: far}
	lower, upper := near.tapers[0], far.tapers[0] // of the far half, which lies half round, the lower is the upper
	if near.steep {
		c.tapers = [2]bool{lower || far.tapers[1], near.tapers[1] || upper}
	} else {
		if near.tapers[1] || far.tapers[1] {
			return c, false // the slant itself cannot be a tapered edge
		}
		c.tapers = [2]bool{lower, upper}
	}
	over := far.far()
	long := layout.Marked(max(near.sides[0]+over[0], near.sides[1]+over[1]) + blade(p.Kerf, near))
	c.size = layout.Size{L: near.across, W: long}
	if near.steep {
		c.size = layout.Size{L: long, W: near.across}
	}
	for _, t := range c.tapers {
		if t {
			c.size.Tapers++
		}
	}
	return c, slices.ContainsFunc(p.Sizes, func(z job.Size) bool {
		return c.size.L <= z.Length && (c.size.W < z.Width && c.size.Tapers < 2 || c.size.W == z.Width)
	})
}

// blade is what a slanted cut takes, measured along the sides that it parts.
func blade(kerf length.Length, r *raked) length.Length {
	if kerf == 0 {
		return 0
	}
	slope := float64(r.rise) / float64(r.across)
	return length.Length(math.Ceil(float64(kerf) * math.Sqrt(1+float64(slope*slope))))
}

// couples pairs raked pieces, the longest first: each with the longest that a sheet holds beside it or, even, with the
// shortest, so that the rectangles come out alike.
func couples(p *job.Product, all []raked, even bool) (found []couple) {
	order := make([]int, len(all))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Compare(max(all[b].sides[0], all[b].sides[1]), max(all[a].sides[0], all[a].sides[1]))
	})
	taken := make([]bool, len(all))
	for at, i := range order {
		if taken[i] {
			continue
		}
		rest := slices.Clone(order[at+1:])
		if even {
			slices.Reverse(rest)
		}
		for _, k := range rest {
			if taken[k] {
				continue
			}
			if c, ok := coupled(p, &all[i], &all[k]); ok {
				taken[i], taken[k] = true, true
				found = append(found, c)
				break
			}
		}
	}
	return found
}

// cutPaired cuts the sheets of one product, raked pieces in pairs where that is asked for and saves. of gives the couple
// of every piece that has one.
func (s *Draft) cutPaired(p *job.Product, sizes []layout.Size, batches []batch, where [][2]int) (c *cutting, of map[int]*couple, err error) {
	if c, err = s.cutAll(p, sizes, batches); err != nil || s.job.Rules.Rakes != job.RakesPaired {
		return c, nil, err
	}
	var last []couple
	for _, even := range []bool{true, false} {
		var found []couple
		for _, b := range batches {
			var all []raked
			for _, n := range b.pieces {
				st := &s.settled[where[n][0]]
				if r, ok := readRake(&st.panels[where[n][1]], st.scheme.Swap); ok {
					r.piece = n
					all = append(all, r)
				}
			}
			found = append(found, couples(p, all, even)...)
		}
		if len(found) == 0 || len(last) > 0 && slices.EqualFunc(found, last, func(a, b couple) bool { return a.near.piece == b.near.piece && a.far.piece == b.far.piece }) {
			break
		}
		last = found
		d, err := s.cutCouples(p, sizes, batches, found, even)
		if err != nil {
			return nil, nil, err
		}
		if s.saves(d, c) {
			c, of = d, map[int]*couple{}
			for i := range found {
				of[found[i].near.piece], of[found[i].far.piece] = &found[i], &found[i]
			}
		}
	}
	return c, of, nil
}

// saves tells whether a cutting is better than another, as they are cut for.
func (s *Draft) saves(a, b *cutting) bool {
	n, price := a.bought()
	m, cost := b.bought()
	if !s.fewest {
		return cmp.Or(cmp.Compare(price, cost), cmp.Compare(n, m)) < 0
	}
	return cmp.Or(cmp.Compare(n, m), cmp.Compare(price, cost)) < 0
}

// cutCouples cuts with each couple as one piece; both its pieces are then at the place of the rectangle.
func (s *Draft) cutCouples(p *job.Product, sizes []layout.Size, batches []batch, found []couple, even bool) (*cutting, error) {
	rect, gone := map[int]layout.Size{}, map[int]int{}
	for _, c := range found {
		rect[c.near.piece], gone[c.far.piece] = c.size, c.near.piece
	}
	var units []int // the piece that each stands for
	var asked []layout.Size
	fewer := make([]batch, len(batches))
	for g, b := range batches {
		var w writer
		w.Text("paired")
		w.Bool(even)
		w.Add(b.key)
		fewer[g].key = w.Key()
		for _, n := range b.pieces {
			if _, far := gone[n]; far {
				continue
			}
			z := sizes[n]
			if r, ok := rect[n]; ok {
				z = r
			}
			fewer[g].pieces = append(fewer[g].pieces, len(units))
			units, asked = append(units, n), append(asked, z)
		}
	}
	c, err := s.cutAll(p, asked, fewer)
	if err != nil {
		return nil, err
	}
	at := make([]place, len(sizes))
	for u, n := range units {
		at[n] = c.at[u]
	}
	for far, near := range gone {
		at[far] = at[near]
	}
	return &cutting{sheets: c.sheets, at: at}, nil
}

// laid puts a couple into its part of a sheet, its tapered edge to that of the sheet, and tells of one of its pieces which
// of its sides are edges of the sheet as it came, on the wall, and whether it is the half beyond the cut.
func (c *couple) laid(p *job.Product, sh *plan.Sheet, part *plan.Part, piece int, stock []job.Stock) (made layout.Made, beyond bool) {
	near, far := c.near, c.far
	r := part.Rect
	if c.tapers[0] != c.tapers[1] && (c.tapers[0] && r.Y != 0 || c.tapers[1] && r.MaxY() != sh.Size[1]) {
		near, far = far, near // half round, all of it
	}
	if part.Pair == nil {
		pair := &plan.Pair{Turned: far.swap, HalfRound: [2]bool{near.halfRound, !far.halfRound}, Measures: near.sides}
		pair.From, pair.To = shape.Point{X: r.X, Y: r.Y + near.sides[0]}, shape.Point{X: r.MaxX(), Y: r.Y + near.sides[1]}
		if near.steep {
			pair.From, pair.To = shape.Point{X: r.X + near.sides[0], Y: r.Y}, shape.Point{X: r.X + near.sides[1], Y: r.MaxY()}
		}
		part.Turned, part.Pair = near.swap, pair
	}
	mine, beyond := near, piece == far.piece
	if beyond {
		mine = far
	}
	return half(mine, !beyond, edgesOf(p, sh, r, stock)), beyond
}

// half tells which sides of one half are edges of the sheet as it came, on the wall; edges are those of its rectangle.
func half(r *raked, near bool, edges layout.Made) layout.Made {
	switch {
	case near && r.steep:
		edges[layout.HighU] = plan.EdgeCut
	case near:
		edges[layout.HighV] = plan.EdgeCut
	case r.steep:
		edges[layout.LowU] = plan.EdgeCut
	default:
		edges[layout.LowV] = plan.EdgeCut
	}
	if near == r.halfRound {
		edges = layout.Made{edges[layout.HighU], edges[layout.LowU], edges[layout.HighV], edges[layout.LowV]}
	}
	if r.swap {
		edges[layout.LowV], edges[layout.HighV] = edges[layout.HighV], edges[layout.LowV]
	}
	return edges
}
