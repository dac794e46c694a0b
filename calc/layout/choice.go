package layout

import (
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/shape"
	"seamwright/calc/survey"
)

// Size is what a piece asks of its sheet: L along the paper or grain, W across it.
type Size struct {
	L, W   length.Length
	Tapers int  // its long edges that must be tapered factory edges
	Turn   bool // may be cut across the paper
}

// Piece is one piece of a choice: its cell, how far the piece stays clear of the cell's sides, and its size.
type Piece struct {
	Band   int
	Span   int // in the row
	Cell   shape.Rect
	Inset  [4]length.Length // at low u, high u, low v, high v
	Tapers [2]bool          // which long edge is to be a tapered factory edge: low v, high v
	Size   Size
}

// Choice is one lawful set of end joints for a row.
type Choice struct {
	Seams  []length.Length // u, in order
	Pieces []Piece
	Butt   length.Length // length of the end joints, openings taken out
	Shun   length.Length // of them, those that would lie flatter on back-blocks
	Weight int           // of what it breaks beyond what every choice of its row does
}

// Settled is the scheme without what only serves to choose end joints: it is kept for long, and that is large.
func (s *Scheme) Settled() *Scheme {
	t := *s
	t.Rows = slices.Clone(s.Rows)
	for i := range t.Rows {
		t.Rows[i].graph, t.Rows[i].Places = nil, nil
	}
	return &t
}

// cut is the pieces that one stretch of a row asks for. Not ok: a piece is too long or too short; longer: so will
// be every longer stretch.
func (s *Scheme) cut(r *Row, from, to length.Length) (pieces []Piece, ok, longer bool) {
	return s.cutOnto(nil, r, from, to)
}

// cutOnto appends to pieces what cut gives.
func (s *Scheme) cutOnto(pieces []Piece, r *Row, from, to length.Length) (all []Piece, ok, longer bool) {
	ok = true
	var buf [4]interval
	for k := range r.Spans {
		sp := &r.Spans[k]
		a, b := max(from, sp.U0), min(to, sp.U1)
		if a >= b {
			continue
		}
		if r.Stage == Lawful && s.shortPiece(r, sp, a, b) {
			ok = false
		}
		ivs := buf[:0]
		if sp.plain {
			ivs = append(ivs, interval{sp.V0, sp.V1})
		} else {
			ivs = sp.pr.pieces(a, b, buf[:0])
		}
		for _, iv := range ivs {
			p, longest := s.piece(sp, a, b, iv)
			if p.Size.L > longest {
				return nil, false, true
			}
			ok = ok && p.Size.L > 0 && p.Size.W > 0
			p.Span = k
			pieces = append(pieces, p)
		}
	}
	return pieces, ok, false
}

// pinnedAt tells whether the user has fixed a seam at either end of a stretch: then its length is the user's choice.
func (s *Scheme) pinnedAt(r *Row, a, b length.Length) bool {
	return slices.ContainsFunc(r.Places, func(p Place) bool { return p.pinned && (p.U == a || p.U == b) })
}

// piece sizes one piece: a whole factory sheet is never cut only for a gap; any other piece is shortened by half the
// panel gap at every joint, and by the fit in corners. Longest is the longest sheet that is wide enough.
func (s *Scheme) piece(sp *Span, a, b length.Length, iv interval) (p Piece, longest length.Length) {
	p = Piece{Band: sp.Band, Cell: shape.Rect{X: a, Y: iv.lo, W: b - a, H: iv.hi - iv.lo}}
	band := &s.Bands[sp.Band]
	half := s.Zone.Product.Gap / 2
	if s.Zone.Product.Kind == job.Gypsum {
		half = 0 // gypsum touches
	}
	joint := [4]bool{a > sp.U0, b < sp.U1, iv.lo == band.V0 && sp.Band > 0, iv.hi == band.V1 && sp.Band < len(s.Bands)-1}
	for i, j := range joint {
		if j {
			p.Inset[i] = half
		}
	}
	if a == sp.U0 {
		p.Inset[LowU] = sp.Fit0
	}
	if b == sp.U1 {
		p.Inset[HighU] = sp.Fit1
	}
	wanted := [2]bool{band.Low && joint[LowV], band.High && joint[HighV]}
	p.Size.W = p.Cell.H
	if !slices.Contains(s.widths, p.Cell.H) {
		if wanted[0] && wanted[1] {
			wanted[0] = false
		}
		if iv.lo == s.Box.Y && s.Ends[LowV] == survey.AtInsideCorner {
			p.Inset[LowV] = s.Rules.Fit
		}
		if iv.hi == s.Box.MaxY() && s.Ends[HighV] == survey.AtInsideCorner {
			p.Inset[HighV] = s.Rules.Fit
		}
		if w, ok := wholeSheet(s.widths, p.Cell.H, p.Inset[LowV]+p.Inset[HighV]); ok {
			p.Inset[LowV] = min(p.Inset[LowV], p.Cell.H-w)
			p.Inset[HighV] = p.Cell.H - w - p.Inset[LowV]
		}
		p.Size.W = p.Cell.H - p.Inset[LowV] - p.Inset[HighV]
	}
	if s.Zone.Product.Tapered {
		p.Tapers = wanted
		for _, t := range wanted {
			if t {
				p.Size.Tapers++
			}
		}
	}
	p.Size.L = p.Cell.W
	whole, uncut := length.Length(0), false // the first sheet that goes in with no more clearance than is allowed there anyway
	for _, z := range s.Zone.Product.Sizes {
		if z.Width < p.Size.W {
			continue
		}
		longest = max(longest, z.Length)
		uncut = uncut || z.Length == p.Cell.W
		if whole == 0 && z.Length < p.Cell.W && z.Length >= p.Cell.W-p.Inset[LowU]-p.Inset[HighU] {
			whole = z.Length
		}
	}
	switch {
	case uncut:
	case whole > 0:
		p.Inset[LowU] = min(p.Inset[LowU], p.Cell.W-whole)
		p.Inset[HighU] = p.Cell.W - whole - p.Inset[LowU]
		p.Size.L = whole
	default:
		p.Size.L = p.Cell.W - p.Inset[LowU] - p.Inset[HighU]
	}
	p.Size.L, p.Size.W = Marked(p.Size.L), Marked(p.Size.W)
	p.Size.Turn = s.mayTurn() && p.Size.Tapers == 0
	return p, longest
}

// Mark is the finest size that is told apart when a piece is cut: pieces that differ by less, since a slant was rounded
// on the way, are one size.
const Mark = length.Millimetre / 100

// Marked is a size as it is marked for cutting: rounded up by less than Mark. Whole sixty-fourths of an inch stay as they are.
func Marked(l length.Length) length.Length {
	if l%length.Sixtyfourths(1) == 0 || l%Mark == 0 {
		return l
	}
	return l - l%Mark + Mark
}

// wholeSheet finds a factory size that goes into a cell with no more clearance than is allowed there anyway.
func wholeSheet(sizes []length.Length, cell, clearance length.Length) (length.Length, bool) {
	for _, l := range sizes {
		if l < cell && l >= cell-clearance {
			return l, true
		}
	}
	return 0, false
}

// mayTurn tells whether pieces may be cut across the paper: gypsum on a wall whose run the user leaves open.
func (s *Scheme) mayTurn() bool {
	return s.Zone.Product.Kind == job.Gypsum && !s.Ceiling() && (s.Zone.Run == job.RunAuto || s.Zone.Run == "")
}

// Prices says what pieces and end joints are worth to a search.
type Prices struct {
	Piece func(Size) int64
	Butt  func(length.Length) int64
}

// uprightChoices is how many sets of end joints are kept for an upright course, which seldom needs any.
const uprightChoices = 12

// Choices lists lawful sets of end joints for a row, cheapest first under the first prices. Where there are no more
// than limit of them all are listed, and complete is true; else the cheapest under each of the prices in turn.
func (s *Scheme) Choices(row int, prices []Prices, limit int) (choices []Choice, complete bool) {
	g := s.Rows[row].graph
	if s.Run == job.RunAlong {
		limit = min(limit, uprightChoices)
	}
	if g.paths[0] == 0 {
		return nil, true
	}
	centred := s.Zone.Pattern == job.Centred
	var paths []path
	if complete = g.paths[0] <= int64(limit); complete || centred {
		paths = g.cheapest(prices[0], limit)
	} else {
		for _, p := range prices {
			paths = append(paths, g.cheapest(p, max(1, limit/len(prices)))...)
		}
	}
	if centred {
		paths = g.centred(paths)
	}
	for i, p := range paths {
		if !slices.ContainsFunc(paths[:i], func(q path) bool { return slices.Equal(p.nodes, q.nodes) }) {
			choices = append(choices, s.choice(&s.Rows[row], p))
		}
	}
	return choices, complete
}

// Cheapest is the price and the end joint of the way that Choices lists where it may list but one; not ok where there is
// none.
func (s *Scheme) Cheapest(row int, prices Prices) (price int64, butt length.Length, ok bool) {
	g := s.Rows[row].graph
	last := len(g.at) - 1
	if g.paths[0] == 0 {
		return 0, 0, false
	}
	cost, next := make([]int64, last+1), make([]int, last+1) // from every place to the end, and by which arc
	for i := last - 1; i >= 0; i-- {
		next[i] = -1
		for a := range g.steps[i] {
			st := &g.steps[i][a]
			c := cost[st.To] + st.price(prices)
			if st.To < last {
				c += prices.Butt(st.Butt + g.shun[st.To])
			}
			if next[i] < 0 || c < cost[i] {
				cost[i], next[i] = c, a
			}
		}
	}
	for i := 0; i != last; {
		st := &g.steps[i][next[i]]
		price += st.price(prices)
		i = st.To
		butt += st.Butt
	}
	return price + prices.Butt(butt), butt, true
}

func (st *Step) price(prices Prices) (sum int64) {
	for _, z := range st.Sizes {
		sum += prices.Piece(z)
	}
	return sum
}

// choice is the end joints and pieces of a way through a row's graph.
func (s *Scheme) choice(r *Row, p path) Choice {
	g := r.graph
	var c Choice
	pieces, i := 0, 0
	for _, a := range p.steps {
		st := &g.steps[i][a]
		pieces += len(st.Sizes)
		i = st.To
	}
	c.Pieces = make([]Piece, 0, pieces)
	if len(p.steps) > 1 {
		c.Seams = make([]length.Length, 0, len(p.steps)-1)
	}
	i = 0
	for _, a := range p.steps {
		to := g.steps[i][a].To
		c.Pieces, _, _ = s.cutOnto(c.Pieces, r, g.at[i], g.at[to])
		i = to
		if i < len(g.at)-1 {
			c.Seams = append(c.Seams, g.at[i])
			c.Butt += g.butt[i]
			c.Shun += g.shun[i]
		}
	}
	return c
}

// Clash tells whether end joints of two adjoining rows stand nearer than the stagger.
func Clash(a, b []length.Length, stagger length.Length) bool {
	for i, k := 0, 0; i < len(a) && k < len(b); {
		d := a[i] - b[k]
		switch {
		case d.Abs() < stagger:
			return true
		case d < 0:
			i++
		default:
			k++
		}
	}
	return false
}
