package layout

import (
	"cmp"
	"context"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
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
// shifted courses are offered too, so that the layers' seams can keep clear of each other. Once the context is cancelled no
// further scheme is made but the first, so that there is one, and rows not made yet have no way across: whoever asked must
// look at the context before he keeps them.
func Schemes(ctx context.Context, z *survey.Zone, rules *job.Rules, avoid []Line) []*Scheme {
	return schemes(ctx, z, rules, avoid, maxSchemes)
}

// Unhindered lists the sets of courses of a zone as if it kept clear of nothing elsewhere, and more of them than Schemes.
// The lawful ones are among them unless courses are shifted to keep clear of a layer below.
func Unhindered(ctx context.Context, z *survey.Zone, rules *job.Rules) []*Scheme {
	return schemes(ctx, z, rules, nil, boundSchemes)
}

func schemes(ctx context.Context, z *survey.Zone, rules *job.Rules, avoid []Line, most int) []*Scheme {
	var all []*Scheme
	for _, run := range runsOf(z) {
		f := NewField(z, rules, run, avoid)
		f.ctx = ctx
		sets := f.courseSets()
		if len(sets) > most {
			sets, f.partial = sets[:most], true
		}
		for _, c := range sets {
			if len(all) > 0 && ctx.Err() != nil {
				f.ctx = nil
				return all
			}
			all = append(all, f.scheme(c))
		}
		f.rows, f.ctx = nil, nil // every scheme has its own rows now, and settled ones let go of them
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
			Says: plan.Tell("layout.courses-too-low")})
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

// leastBroken marks the sets whose long joints break a rule, and puts the sets first whose breaches weigh least, of those
// the ones whose joints run into the fewest boxes.
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
				c.breaks = append(c.breaks, Break{Rule: RuleOpening, At: at, Says: plan.Tell("layout.long-joint-opening")})
			} else if f.sliver(v) {
				c.breaks = append(c.breaks, Break{Rule: RuleLeastCourse, At: at, Says: plan.Tell("layout.sliver")})
			}
		}
	}
	slices.SortStableFunc(sets, func(a, b courses) int {
		return cmp.Or(cmp.Compare(Weigh(a.breaks), Weigh(b.breaks)), cmp.Compare(f.boxesOn(a), f.boxesOn(b)))
	})
}

// boxesOn counts the boxes that the joints between courses run into.
func (f *Field) boxesOn(c courses) (n int) {
	for _, b := range f.Zone.Surface.Placed {
		r := f.turn(b.Rect().Polygon()).Bounds()
		for k := 1; k < len(c.bands); k++ {
			if v := c.bands[k].V0; r.Y < v && v < r.MaxY() && r.X < f.Box.MaxX() && r.MaxX() > f.Box.X {
				n++
			}
		}
	}
	return n
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
