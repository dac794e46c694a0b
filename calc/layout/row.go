package layout

import (
	"cmp"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/calc/survey"
)

// Span is a stretch of a band between openings or ends, over the part of the band's height that it takes up.
type Span struct {
	Band   int
	U0, U1 length.Length
	V0, V1 length.Length
	// Fit at either end: how much a cut piece is shortened there so that it goes in.
	Fit0, Fit1 length.Length
	region     shape.Region // what must be covered
	plain      bool         // a full rectangle: pieces need no profile
	pr         profile
}

// Place is a lawful place for an end joint.
type Place struct {
	U       length.Length
	Support plan.Support
	pinned  bool
}

// Row is what takes one set of end joints: one span, or all spans of a zone whose seams stand in one line.
type Row struct {
	Spans  []Span
	Places []Place
	U0, U1 length.Length
	Stage  Stage
	Breaks []Break // by seams fixed by hand; see Breaches for what relaxing breaks
	Weight int     // of what every way to cover the row breaks
	// conflict are the rules that contradict each other where there is no lawful way.
	conflict []string
	graph    *graph
}

// makeRows cuts the bands into spans and gathers them into rows.
func (s *Scheme) makeRows() {
	if s.Zone.Pattern == job.Stacked || s.Zone.Pattern == job.Centred {
		var spans []Span
		for i := range s.Bands {
			spans = append(spans, s.bandSpans(i)...)
		}
		if len(spans) > 0 {
			s.Rows = []Row{s.row(spans)}
		}
	} else {
		for i := range s.Bands {
			s.Rows = append(s.Rows, s.bandRows(i)...)
		}
	}
	s.Breaks = append(s.Breaks, s.idlePins()...)
	s.Near = make([][]int, len(s.Rows))
	for i := range s.Rows {
		for k := range s.Rows {
			if i != k && s.adjoin(&s.Rows[i], &s.Rows[k]) {
				s.Near[i] = append(s.Near[i], k)
			}
		}
	}
}

// idlePins finds the seams fixed by hand that part no course.
func (s *Scheme) idlePins() (breaks []Break) {
	for _, p := range s.Zone.Pins {
		if p.Edge {
			if b, idle := s.idleEdge(p.Seam); idle {
				breaks = append(breaks, b)
			}
			continue
		}
		if s.rowOf(p.Course, p.Seam) >= 0 {
			continue
		}
		at := s.point(shape.Point{X: min(max(p.Seam, s.Box.X), s.Box.MaxX()), Y: s.Box.Y})
		b := Break{Rule: RulePin, At: at, Says: plan.Tell("layout.fixed-not-used"), Pin: &PinBreak{Course: p.Course, Seam: p.Seam}}
		for i := range s.Rows {
			for _, q := range s.Rows[i].Places {
				own := slices.ContainsFunc(s.Rows[i].Spans, func(sp Span) bool { return sp.Band == p.Course-1 })
				if own && s.brokenAt(&s.Rows[i], q.U) == "" && (!b.Pin.Found || (q.U-p.Seam).Abs() < (b.Pin.Nearest-p.Seam).Abs()) {
					b.Pin.Nearest, b.Pin.Found = q.U, true
				}
			}
		}
		breaks = append(breaks, b)
	}
	return breaks
}

// bandKey is all that the rows of a band depend on besides the field.
type bandKey struct {
	index                int
	v0, v1, gap          length.Length
	low, high, uppermost bool
}

// bandRows are the rows of a band whose courses are staggered: made once for all schemes that have such a band.
func (s *Scheme) bandRows(i int) []Row {
	b := &s.Bands[i]
	k := bandKey{i, b.V0, b.V1, s.Gap, b.Low, b.High, i == len(s.Bands)-1}
	rows, ok := s.rows[k]
	if !ok {
		spans := s.bandSpans(i)
		for n := range spans {
			rows = append(rows, s.row(spans[n:n+1:n+1]))
		}
		s.rows[k] = rows
	}
	return rows
}

// bandSpans are the spans of a band, by their start.
func (s *Scheme) bandSpans(i int) (spans []Span) {
	for _, g := range s.regions {
		for _, part := range g.Band(shape.AtY, s.Bands[i].V0, s.Bands[i].V1) {
			spans = append(spans, s.spansOf(i, part)...)
		}
	}
	slices.SortStableFunc(spans, func(a, b Span) int { return cmp.Compare(a.U0, b.U0) })
	return spans
}

// adjoin tells whether end joints of two rows must be staggered: their bands follow each other and they stand over
// each other.
func (s *Scheme) adjoin(a, b *Row) bool {
	d := a.Spans[0].Band - b.Spans[0].Band
	return (d == 1 || d == -1) && a.U0 < b.U1 && b.U0 < a.U1
}

// spansOf parts a connected piece of a band where only rectangles may be used, and at control joints.
func (s *Scheme) spansOf(band int, part shape.Region) []Span {
	box := part.Bounds()
	cuts := []length.Length{box.X, box.MaxX()}
	for _, c := range s.controls {
		if c > box.X && c < box.MaxX() {
			cuts = append(cuts, c)
		}
	}
	if s.Rules.Cutouts == job.RectOnly {
		for _, h := range s.Holes {
			if h.Y >= s.Bands[band].V1 || h.MaxY() <= s.Bands[band].V0 {
				continue
			}
			for _, u := range []length.Length{h.X, h.MaxX()} {
				if u > box.X && u < box.MaxX() {
					cuts = append(cuts, u)
				}
			}
		}
	}
	slices.Sort(cuts)
	cuts = slices.Compact(cuts)
	var spans []Span
	for i := 1; i < len(cuts); i++ {
		for _, g := range part.Band(shape.AtX, cuts[i-1], cuts[i]) {
			b := g.Bounds()
			sp := Span{Band: band, U0: b.X, U1: b.MaxX(), V0: b.Y, V1: b.MaxY(), region: g}
			sp.Fit0 = s.fitAt(b.X, LowU)
			sp.Fit1 = s.fitAt(b.MaxX(), HighU)
			sp.plain = len(g.Holes) == 0 && len(g.Outline) == 4 && g.Area() == b.Area()
			if !sp.plain {
				sp.pr = newProfile([]shape.Region{g}, b.Y, b.MaxY())
			}
			spans = append(spans, sp)
		}
	}
	return spans
}

// fitAt is the clearance of a cut end at u: only in corners, where a piece must be eased in.
func (s *Scheme) fitAt(u length.Length, end int) length.Length {
	edge := s.Box.X
	if end == HighU {
		edge = s.Box.MaxX()
	}
	if u == edge && s.Ends[end] == survey.AtInsideCorner {
		return s.Rules.Fit
	}
	return 0
}

// row finds the lawful places for end joints, and relaxes the rules where they leave no way to cover the row.
func (s *Scheme) row(spans []Span) Row {
	r := Row{Spans: spans, U0: spans[0].U0, U1: spans[0].U1}
	for _, sp := range spans {
		r.U0, r.U1 = min(r.U0, sp.U0), max(r.U1, sp.U1)
	}
	if s.ctx != nil && s.ctx.Err() != nil {
		r.graph = noWay(r.U0, r.U1)
		return r
	}
	r.Places = s.places(&r)
	if r.graph = s.newGraph(&r); r.graph.paths[0] == 0 {
		s.relax(&r)
	}
	r.Breaks = s.pinBreaks(&r)
	r.Weight += Weigh(r.Breaks)
	return r
}

// pinBreaks finds the seams fixed by hand that break a rule of their own.
func (s *Scheme) pinBreaks(r *Row) []Break {
	var breaks []Break
	for _, p := range r.Places {
		if !p.pinned {
			continue
		}
		rule := s.brokenAt(r, p.U)
		if rule == "" {
			continue
		}
		b := Break{Rule: RulePin, At: s.point(shape.Point{X: p.U, Y: r.Spans[0].V0}), Pin: &PinBreak{Course: r.Spans[0].Band + 1, Seam: p.U, Rule: rule},
			Says: fixedBreaks(rule)}
		for _, q := range r.Places {
			if !q.pinned && s.brokenAt(r, q.U) == "" && (!b.Pin.Found || (q.U-p.U).Abs() < (b.Pin.Nearest-p.U).Abs()) {
				b.Pin.Nearest, b.Pin.Found = q.U, true
			}
		}
		breaks = append(breaks, b)
	}
	return breaks
}

// brokenAt names the first rule that an end joint at u breaks by its place alone, "" where it breaks none.
func (s *Scheme) brokenAt(r *Row, u length.Length) string {
	for i := range r.Spans {
		sp := &r.Spans[i]
		if u <= sp.U0 || u >= sp.U1 {
			continue
		}
		switch {
		case !s.carried(u) && !s.bearing(u, sp.seam(u)):
			return RuleBearing
		case s.openingBars(sp, u):
			return RuleOpening
		case u-sp.U0 < s.Rules.LeastPiece || sp.U1-u < s.Rules.LeastPiece:
			return RuleLeastPiece
		}
	}
	if rule, ok := s.clearOfLines(u, true); !ok {
		return rule
	}
	if !s.clearOfBacking(u, true) {
		return RuleBacking
	}
	return ""
}

// gridStep is the spacing of places for end joints where no member is needed. Common practice, no source: half of
// the usual member space.
const gridStep = 8 * length.Inch

// gridPlaces bounds the places of a grid in one row: in a longer one they stand further apart.
const gridPlaces = 128

// mostLengths bounds the lengths of sheets for whose whole multiples places are named: no yard has more, and the places
// of a row stand in pairs.
const mostLengths = 16

// wholeLengths are the lengths that sheets come in, width by width, the longest first; the longest of all where there are
// very many.
func (s *Scheme) wholeLengths() (ls []length.Length) {
	for _, w := range Widths(s.Zone.Product) {
		ls = append(ls, Lengths(s.Zone.Product, w)...)
	}
	if len(ls) > mostLengths {
		slices.SortFunc(ls, func(a, b length.Length) int { return cmp.Compare(b, a) })
		ls = slices.Compact(ls)
		ls = ls[:min(len(ls), mostLengths)]
	}
	return ls
}

// places lists where end joints of a row may stand, at the row's stage of relaxing.
func (s *Scheme) places(r *Row) []Place {
	var ps []Place
	add := func(u length.Length, sup plan.Support) {
		if u <= r.U0 || u >= r.U1 || sup == plan.OnBackBlock && !s.blockFits(u) || !s.lawfulAt(r, u) {
			return
		}
		ps = append(ps, Place{U: u, Support: sup})
	}
	if s.Run == job.RunAcross {
		for _, m := range s.members {
			add(m.At, plan.OnMember)
		}
		for _, m := range s.short {
			if s.carriedAt(r, m.At) {
				add(m.At, plan.OnMember)
			}
		}
	}
	if s.Free || r.Stage == Relaxed {
		sup := s.freeSupport()
		if sup == plan.OnBackBlock {
			for _, u := range s.bays() {
				add(u, sup)
			}
		}
		step := gridStep
		for (r.U1-r.U0)/step > gridPlaces {
			step *= 2
		}
		for u := s.Box.X + step; u < r.U1; u += step {
			add(u, sup)
		}
		for _, l := range s.wholeLengths() {
			for k := length.Length(1); k <= 3; k++ {
				add(r.U0+k*l, sup)
				add(r.U1-k*l, sup)
			}
		}
	}
	ps = append(ps, s.pinned(r)...)
	slices.SortStableFunc(ps, func(a, b Place) int {
		switch {
		case a.U < b.U:
			return -1
		case a.U > b.U:
			return 1
		case a.pinned != b.pinned && a.pinned:
			return -1
		case a.pinned != b.pinned:
			return 1
		}
		return 0
	})
	ps = slices.CompactFunc(ps, func(a, b Place) bool { return a.U == b.U })
	return ps
}

// freeSupport is what lies behind an end joint away from the members.
func (s *Scheme) freeSupport() plan.Support {
	switch {
	case s.Run == job.RunAlong && s.Zone.Product.Kind == job.WoodPanel:
		return plan.OnBlocking
	case s.Backed:
		return plan.OnBacking
	case s.Run == job.RunAlong:
		return plan.Unsupported
	case s.Blocked:
		return plan.OnBackBlock
	default:
		return plan.Unsupported
	}
}

// lawfulAt applies the opening rule and the backing rule to an end joint at u through every span that it crosses, as long
// as the row is not relaxed.
func (s *Scheme) lawfulAt(r *Row, u length.Length) bool {
	if r.Stage == Relaxed {
		return true
	}
	for i := range r.Spans {
		if sp := &r.Spans[i]; u > sp.U0 && u < sp.U1 && s.openingBars(sp, u) {
			return false
		}
	}
	_, ok := s.clearOfLines(u, true)
	return ok && s.clearOfBacking(u, true)
}

// openingBars tells whether the opening rule bars an end joint at u through a span.
func (s *Scheme) openingBars(sp *Span, u length.Length) bool {
	return s.atOpening(u, sp.V0, sp.V1) && s.Rules.Cutouts != job.RectOnly
}

// carriedAt tells whether short members carry an end joint at u in every span.
func (s *Scheme) carriedAt(r *Row, u length.Length) bool {
	for i := range r.Spans {
		sp := &r.Spans[i]
		if u > sp.U0 && u < sp.U1 && !s.bearing(u, sp.seam(u)) {
			return false
		}
	}
	return true
}

// seam is the stretches of v of an end joint at u.
func (sp *Span) seam(u length.Length) []interval {
	if sp.plain {
		return []interval{{sp.V0, sp.V1}}
	}
	return sp.pr.seam(u)
}

// pinned are the seams that the user has fixed in a row.
func (s *Scheme) pinned(r *Row) []Place {
	var ps []Place
	for _, p := range s.Zone.Pins {
		for i := range r.Spans {
			sp := &r.Spans[i]
			if p.Edge || p.Course != sp.Band+1 || p.Seam <= sp.U0 || p.Seam >= sp.U1 {
				continue
			}
			sup := s.freeSupport()
			if s.bearing(p.Seam, sp.seam(p.Seam)) && s.Run == job.RunAcross {
				sup = plan.OnMember
			}
			ps = append(ps, Place{U: p.Seam, Support: sup, pinned: true})
			break
		}
	}
	return ps
}
