package layout

import (
	"cmp"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/shape"
	"seamwright/calc/survey"
)

// Scheme is a field with its courses settled: what remains open are the end joints.
type Scheme struct {
	*Field
	Gap    length.Length // clearance at the floor
	Bands  []Band
	Rows   []Row
	Breaks []Break // rules that these courses break whatever the end joints
	// Near[i] are the rows whose end joints must keep clear of those of row i; each pair stands under both.
	Near [][]int

	regions []shape.Region
	levels  []length.Length // v of control joints between courses
}

// Band is one course: its cell across the courses, and which of its long edges are to be factory edges.
type Band struct {
	V0, V1    length.Length
	Low, High bool // a factory edge is wanted there
	pr        profile
}

// courses is one way to divide a field into bands.
type courses struct {
	gap    length.Length
	bands  []Band
	breaks []Break
}

// maxSchemes bounds the sets of courses tried for one direction of one zone, and boundSchemes those that a bound goes
// through.
const (
	maxSchemes   = 6
	boundSchemes = 24
)

// Schemes lists the sets of courses that the rule book leaves, the likeliest first. On layers further out sets with
// shifted courses are offered too, so that the layers' seams can keep clear of each other.
func Schemes(z *survey.Zone, rules *job.Rules, avoid []Line) []*Scheme {
	return schemes(z, rules, avoid, maxSchemes)
}

// Unhindered lists the sets of courses of a zone as if it kept clear of nothing elsewhere, and more of them than Schemes.
// The lawful ones are among them unless courses are shifted to keep clear of a layer below.
func Unhindered(z *survey.Zone, rules *job.Rules) []*Scheme {
	return schemes(z, rules, nil, boundSchemes)
}

func schemes(z *survey.Zone, rules *job.Rules, avoid []Line, most int) []*Scheme {
	var all []*Scheme
	for _, run := range runsOf(z) {
		f := NewField(z, rules, run, avoid)
		sets := f.courseSets()
		if len(sets) > most {
			sets, f.partial = sets[:most], true
		}
		for _, c := range sets {
			all = append(all, f.scheme(c))
		}
		f.rows = nil // every scheme has its own now, and settled ones let go of them
	}
	return all
}

// runsOf are the directions worth trying: both where the zone leaves its run open and the board spans the members either
// way, or neither way equally far.
func runsOf(z *survey.Zone) []job.Run {
	if z.Run != job.RunAuto && z.Run != "" {
		return []job.Run{z.Run}
	}
	far, across := z.Spans(job.RunAcross)
	near, along := z.Spans(job.RunAlong)
	switch {
	case across && !along, !across && !along && far > near:
		return []job.Run{job.RunAcross}
	case along && !across, !across && near > far:
		return []job.Run{job.RunAlong}
	default:
		return []job.Run{job.RunAcross, job.RunAlong}
	}
}

func (f *Field) courseSets() []courses {
	var sets []courses
	switch {
	case len(f.Zone.Courses) > 0 && f.Run == job.RunAcross: // upright sheets have no level courses to fix
		sets = []courses{f.fixed()}
	case f.Run == job.RunAlong:
		sets = f.upright()
	default:
		sets = f.level()
	}
	f.leastBroken(sets)
	if f.Zone.Layer > 1 && len(sets) > 0 && f.Run == job.RunAcross && len(f.Zone.Courses) == 0 && slices.ContainsFunc(sets[0].breaks, func(b Break) bool { return b.Rule == RuleLayers }) {
		more := f.betweenJoints()
		f.leastBroken(more)
		sets = append(sets, more...)
		slices.SortStableFunc(sets, func(a, b courses) int { return cmp.Compare(Weigh(a.breaks), Weigh(b.breaks)) })
	}
	return sets
}

// fixed takes the user's courses, counted from the bottom. The lowest
// gives up the floor gap where the courses leave none.
func (f *Field) fixed() courses {
	low, high := f.Box.Y, f.Box.MaxY()
	var sum length.Length
	for _, c := range f.Zone.Courses {
		sum += c
	}
	least, asked, most := f.gaps()
	c := courses{gap: asked}
	v := low
	if rest := high - low - sum; rest >= least && rest <= most {
		c.gap = rest
		v = low + rest
	}
	for _, h := range f.Zone.Courses {
		to := min(v+h, high)
		if to > v {
			c.bands = append(c.bands, Band{V0: v, V1: to})
		}
		v = to
	}
	if v < high {
		c.bands = append(c.bands, Band{V0: v, V1: high})
		c.breaks = append(c.breaks, Break{Rule: RuleCourses, At: f.point(shape.Point{X: f.Box.X, Y: v}),
			Message: "the courses given do not reach the top of the zone: a further course fills it"})
	}
	if len(c.bands) > 0 && c.bands[0].V0 < low+c.gap {
		c.bands[0].V0 = low + c.gap
	}
	f.chooseEdges(c.bands)
	return c
}

// chooseEdges decides which long edges of the bands are factory edges: both of a whole sheet; of a ripped course the
// one that meets another course, the upper one where both do.
func (f *Field) chooseEdges(bands []Band) {
	widths := Widths(f.Zone.Product)
	for i := range bands {
		b := &bands[i]
		if slices.Contains(widths, b.V1-b.V0) {
			b.Low, b.High = true, true
			continue
		}
		b.High = i < len(bands)-1
		b.Low = !b.High && i > 0
	}
}

// level divides a field whose courses cross the members: whole courses, and one ripped course at the end where
// hanging ends. A rip below the least course borrows from the course at the other end, whose cut edge then goes into
// the corner there.
func (f *Field) level() []courses {
	height := f.Box.H
	least, asked, most := f.gaps()
	var sets []courses
	add := func(gap length.Length, heights []length.Length) {
		c := courses{gap: gap}
		v := f.Box.Y + gap
		for i, h := range heights {
			b := Band{V0: v, V1: v + h}
			if i == len(heights)-1 {
				b.V1 = f.Box.MaxY()
			}
			v = b.V1
			c.bands = append(c.bands, b)
		}
		f.chooseEdges(c.bands)
		sets = append(sets, c)
	}
	all := wholeCourses(Widths(f.Zone.Product), height-least)
	f.partial = len(all) >= mostCourseSets
	for _, whole := range all {
		var total length.Length
		for _, w := range whole {
			total += w
		}
		rest := height - total
		if rest >= least && rest <= most {
			add(rest, whole)
			continue
		}
		rip := rest - asked
		if rip <= 0 {
			continue
		}
		for _, hs := range f.withRip(whole, rip) {
			add(asked, hs)
		}
	}
	return sets
}

// leastBroken marks the sets whose long joints break a rule, and puts the sets first whose breaches weigh least.
func (f *Field) leastBroken(sets []courses) {
	fixed := f.fixedEdges()
	for i := range sets {
		c := &sets[i]
		if f.Run == job.RunAlong {
			c.breaks = append(c.breaks, f.narrowStrips(c.bands)...)
		}
		for k := 1; k < len(c.bands); k++ {
			v := c.bands[k].V0
			tapered := c.bands[k-1].High && c.bands[k].Low
			at := f.point(shape.Point{X: f.Box.X, Y: v})
			upright := f.Run == job.RunAlong
			switch {
			case upright && f.inVoid(v):
				continue
			case upright && slices.Contains(fixed, v):
				if b, broken := f.pinnedEdge(v, tapered); broken {
					c.breaks = append(c.breaks, b)
				}
				continue
			case upright:
				c.breaks = append(c.breaks, f.edgeBreaks(v)...)
			default:
				c.breaks = append(c.breaks, f.lineBreaks(v)...)
			}
			if !tapered && f.nearOpening(v) {
				c.breaks = append(c.breaks, Break{Rule: RuleOpening, At: at, Message: "a long joint without tapers runs in line with an opening's edge"})
			} else if f.sliver(v) {
				c.breaks = append(c.breaks, Break{Rule: RuleLeastCourse, At: at, Message: "a joint between courses leaves a sliver beside an opening or a corner"})
			}
		}
	}
	slices.SortStableFunc(sets, func(a, b courses) int { return cmp.Compare(Weigh(a.breaks), Weigh(b.breaks)) })
}

// withRip places a rip among whole courses, from the bottom up.
func (f *Field) withRip(whole []length.Length, rip length.Length) [][]length.Length {
	low := append([]length.Length{rip}, whole...)
	high := append(slices.Clone(whole), rip)
	fits := f.Rules.LeastCourse
	if rip < fits && len(whole) > 0 {
		borrow := fits - rip
		last := whole[len(whole)-1]
		if last-borrow >= fits {
			n := len(whole)
			low[0], low[n] = rip+borrow, last-borrow
			high[n], high[0] = rip+borrow, whole[0]-borrow
		}
	}
	flat := f.flatHead()
	var sets [][]length.Length
	switch {
	case f.Ceiling():
		sets = [][]length.Length{low, high}
	case f.Zone.Start == job.StartFloor || !flat:
		sets = [][]length.Length{high}
	default:
		sets = [][]length.Length{low}
	}
	if f.Zone.Layer > 1 && len(f.avoid[1]) > 0 && len(whole) > 0 {
		sheet := whole[0]
		if flat || f.Ceiling() {
			sheet = whole[len(whole)-1]
		}
		for _, t := range []length.Length{sheet / 2, sheet / 3, 2 * sheet / 3} {
			if shifted := f.shift(low, high, t); min(shifted[0], shifted[len(shifted)-1]) >= fits {
				sets = append(sets, shifted)
			}
		}
	}
	return sets
}

// shift moves courses so that one at an end is t high instead of a whole sheet: the uppermost where they are counted down
// from a level head or a ceiling's edge, else the lowest. What is won goes to the other end. Low has its rip at the bottom,
// high at the top.
func (f *Field) shift(low, high []length.Length, t length.Length) []length.Length {
	down := f.flatHead() || f.Ceiling()
	from := high
	if down {
		from = slices.Clone(low)
		slices.Reverse(from)
	}
	sheet := from[0]
	shifted := slices.Clone(from)
	shifted[0] = t
	last := len(shifted) - 1
	if shifted[last] += sheet - t; shifted[last] > sheet {
		shifted = append(shifted, shifted[last]-sheet)
		shifted[last] = sheet
	}
	if down {
		slices.Reverse(shifted)
	}
	return shifted
}

// betweenJoints shifts courses so that a joint stands just clear of one of the layer below: for where every usual set of
// courses breaks the rule on layers.
func (f *Field) betweenJoints() (sets []courses) {
	sheet := f.widths[0]
	_, asked, _ := f.gaps()
	var high []length.Length
	for rest := f.Box.H - asked; rest > 0; rest -= sheet {
		high = append(high, min(rest, sheet))
	}
	if len(high) < 2 {
		return nil
	}
	low := slices.Clone(high)
	slices.Reverse(low)
	var ends []length.Length
	for _, l := range f.avoid[1] {
		for _, v := range []length.Length{l.At - l.Clear, l.At + l.Clear} {
			t := (v - f.Box.Y - asked) % sheet
			if f.flatHead() || f.Ceiling() {
				t = (f.Box.MaxY() - v) % sheet
			}
			if l.Rule == RuleLayers && t >= f.Rules.LeastCourse {
				ends = append(ends, t)
			}
		}
	}
	slices.Sort(ends)
	for _, t := range slices.Compact(ends) {
		heights := f.shift(low, high, t)
		if min(heights[0], heights[len(heights)-1]) < f.Rules.LeastCourse {
			continue
		}
		c := courses{gap: asked}
		v := f.Box.Y + asked
		for _, h := range heights {
			c.bands = append(c.bands, Band{V0: v, V1: v + h})
			v += h
		}
		f.chooseEdges(c.bands)
		sets = append(sets, c)
	}
	return sets
}

// flatHead tells whether the top of the zone is level, so that courses can be counted down from it.
func (f *Field) flatHead() bool {
	top := 0
	for _, p := range f.outline {
		if p.Y == f.Box.MaxY() {
			top++
		}
	}
	return top >= 2 && len(f.outline) == 4
}

// maxCourses bounds the whole courses of one zone, and mostCourseSets the sets of them.
const (
	maxCourses     = 40
	mostCourseSets = 64
)

// wholeCourses lists the sets of whole sheet widths that leave less than one sheet of the height, fewest first and
// then the largest total; wide sheets stand at the top.
func wholeCourses(widths []length.Length, height length.Length) [][]length.Length {
	var sets [][]length.Length
	var grow func(set []length.Length, i int, left length.Length)
	grow = func(set []length.Length, i int, left length.Length) {
		if left <= widths[0] {
			s := slices.Clone(set)
			slices.Sort(s)
			sets = append(sets, s)
		}
		for k := i; k < len(widths) && len(set) < maxCourses && len(sets) < mostCourseSets; k++ {
			if widths[k] <= left {
				grow(append(set, widths[k]), k, left-widths[k])
			}
		}
	}
	grow(nil, 0, height)
	total := func(s []length.Length) (t length.Length) {
		for _, w := range s {
			t += w
		}
		return t
	}
	courses := func(s []length.Length) int {
		n := len(s)
		if total(s) < height {
			n++
		}
		return n
	}
	slices.SortStableFunc(sets, func(a, b []length.Length) int {
		if d := courses(a) - courses(b); d != 0 {
			return d
		}
		return int(min(1, max(-1, total(b)-total(a))))
	})
	return sets
}

// scheme settles the courses of a field and finds the rows in which end joints are to be placed.
func (f *Field) scheme(c courses) *Scheme {
	s := &Scheme{Field: f, Gap: c.gap, Bands: c.bands, Breaks: c.breaks, regions: f.cover(c.gap)}
	for i := range s.Bands {
		s.Bands[i].pr = newProfile(s.regions, s.Bands[i].V0, s.Bands[i].V1)
	}
	s.levels = s.longControls()
	s.makeRows()
	return s
}

// LongJoints measures the joints between courses by their kind; those between square edges count as none of these.
func (s *Scheme) LongJoints() (tapered, mixed, butt length.Length) {
	for k := 1; k < len(s.Bands); k++ {
		l := s.sharedLength(k)
		low, high := s.Bands[k-1].High, s.Bands[k].Low
		switch {
		case slices.Contains(s.levels, s.Bands[k].V0): // a control joint is a bead, whatever the edges
		case !s.Zone.Product.Tapered:
		case low && high:
			tapered += l
		case low || high:
			mixed += l
		default:
			butt += l
		}
	}
	return tapered, mixed, butt
}

// sharedLength is the length over which band k meets the band before it.
func (s *Scheme) sharedLength(k int) (l length.Length) {
	v := s.Bands[k].V0
	for _, a := range s.Bands[k-1].touching(v, true) {
		for _, b := range s.Bands[k].touching(v, false) {
			if from, to := max(a.lo, b.lo), min(a.hi, b.hi); from < to {
				l += to - from
			}
		}
	}
	return l
}

// touching are the stretches of u over which the covered part of a band reaches the line at v, its upper or its lower
// side.
func (b *Band) touching(v length.Length, upper bool) (us []interval) {
	for i := range b.pr {
		s := &b.pr[i]
		for k := range s.left {
			if upper && s.left[k].hi == v && s.right[k].hi == v || !upper && s.left[k].lo == v && s.right[k].lo == v {
				us = append(us, interval{s.from, s.to})
			}
		}
	}
	return us
}
