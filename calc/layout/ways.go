package layout

import (
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/survey"
)

// What follows shows every lawful way of covering a field, not only those that are listed as choices, so that a bound
// can be proven over all of them.

// Step is a stretch of a row between two places for end joints, and the sizes of the pieces that cover it.
type Step struct {
	To    int
	Sizes []Size
	Butt  length.Length // of the end joint at its far end; 0 at the row's end
}

// Steps lists the lawful steps of a row by the place that they start from: 0 is the row's start, the last its end.
// Only where end joints need a member are these all that the rules allow; see Anywhere.
func (s *Scheme) Steps(row int) [][]Step {
	return s.Rows[row].graph.steps
}

// Take is the choice that a way along the steps of a row makes: which step is taken at its start, and at every place
// that one leads to.
func (s *Scheme) Take(row int, steps []int) Choice {
	return s.choice(row, path{steps: steps})
}

// PlaceAt is where a place of a row lies.
func (s *Scheme) PlaceAt(row, place int) length.Length { return s.Rows[row].graph.at[place] }

// Anywhere tells whether the end joints of a row may stand at any place, of which the steps are but a choice.
func (s *Scheme) Anywhere(row int) bool { return s.Free || s.Rows[row].Stage >= OffMember }

// Cover is a stretch along the courses that pieces of at least one width across must cover, whatever the end joints.
type Cover struct {
	Long length.Length
	Size Size // of the pieces; L is not settled
}

// Covers lists what the pieces of a row must cover if end joints may stand anywhere.
func (s *Scheme) Covers(row int) []Cover {
	var cs []Cover
	for k := range s.Rows[row].Spans {
		sp := &s.Rows[row].Spans[k]
		if sp.plain {
			p, _ := s.piece(sp, sp.U0, sp.U1, interval{sp.V0, sp.V1})
			cs = append(cs, Cover{Long: sp.U1 - sp.U0 - sp.Fit0 - sp.Fit1, Size: p.Size})
			continue
		}
		for i := range sp.pr {
			b := &sp.pr[i]
			long := b.to - b.from
			if b.from == sp.U0 {
				long -= sp.Fit0
			}
			if b.to == sp.U1 {
				long -= sp.Fit1
			}
			for n := range b.left {
				wide := min(b.left[n].hi-b.left[n].lo, b.right[n].hi-b.right[n].lo)
				wide -= s.slack()
				cs = append(cs, Cover{Long: max(0, long), Size: Size{W: max(0, wide), Turn: s.mayTurn()}})
			}
		}
	}
	return cs
}

// Strip is a lawful upright course from one place for long joints to another, and what it must cover.
type Strip struct {
	To     int
	Covers []Cover
}

// Strips lists every lawful upright course of a rectangular zone by the place that it starts from: a set of courses is
// a way from place 0 to the last. Not ok: the zone is no rectangle, or its long joints may stand anywhere.
func Strips(z *survey.Zone, rules *job.Rules) (strips [][]Strip, ok bool) {
	s := &Scheme{Field: NewField(z, rules, job.RunAlong, nil)}
	if s.Backed || s.Blocked || len(s.outline) != 4 || s.outline.Area() != s.Box.Area() || s.onFloor() && !s.Swap {
		return nil, false
	}
	widths := Widths(z.Product)
	places := s.longPlaces(widths)
	_, _, gap := s.gaps()
	from, to := s.Box.X+gap, s.Box.MaxX()
	if s.Ends[LowU] == survey.AtInsideCorner {
		from += rules.Fit
	}
	if s.Ends[HighU] == survey.AtInsideCorner {
		to -= rules.Fit
	}
	strips = make([][]Strip, len(places))
	last := len(places) - 1
	for i := range places {
		for j := i + 1; j <= last && places[j]-places[i] <= widths[0]; j++ {
			least := middleCourse
			switch {
			case i == 0 && j == last:
				least = 0
			case i == 0 || j == last:
				least = rules.LeastCourse
			}
			if places[j]-places[i] >= least {
				strips[i] = append(strips[i], Strip{To: j, Covers: s.strip(places[i], places[j], from, to)})
			}
		}
	}
	return strips, true
}

// strip is what an upright course from v0 to v1 must cover between two heights.
func (s *Scheme) strip(v0, v1, from, to length.Length) []Cover {
	cuts := []length.Length{from, to}
	for _, h := range s.Holes {
		if h.Y < v1 && h.MaxY() > v0 {
			cuts = append(cuts, min(max(h.X, from), to), min(max(h.MaxX(), from), to))
		}
	}
	slices.Sort(cuts)
	cuts = slices.Compact(cuts)
	whole := slices.Contains(Widths(s.Zone.Product), v1-v0)
	var cs []Cover
	for k := 1; k < len(cuts); k++ {
		open := []interval{{v0, v1}}
		for _, h := range s.Holes {
			if h.X >= cuts[k] || h.MaxX() <= cuts[k-1] {
				continue
			}
			var rest []interval
			for _, iv := range open {
				if lo := (interval{iv.lo, min(iv.hi, h.Y)}); lo.lo < lo.hi {
					rest = append(rest, lo)
				}
				if hi := (interval{max(iv.lo, h.MaxY()), iv.hi}); hi.lo < hi.hi {
					rest = append(rest, hi)
				}
			}
			open = rest
		}
		for _, iv := range open {
			c := Cover{Long: cuts[k] - cuts[k-1], Size: Size{W: iv.hi - iv.lo}}
			if whole && iv.hi-iv.lo == v1-v0 {
				if s.Zone.Product.Tapered {
					c.Size.Tapers = 2
					if v0 == s.Box.Y {
						c.Size.Tapers--
					}
					if v1 == s.Box.MaxY() {
						c.Size.Tapers--
					}
				}
			} else {
				c.Size.W = max(0, c.Size.W-s.slack())
			}
			c.Size.Turn = c.Size.Tapers == 0 && s.mayTurn()
			cs = append(cs, c)
		}
	}
	return cs
}

// slack is the most that gap and fit take off the width of a piece.
func (s *Scheme) slack() length.Length { return 2*s.Rules.Fit + s.Zone.Product.Gap }

// Complete tells whether a list of schemes holds every set of level courses that the rule book leaves: none was left out
// because there are so many, and no control joint was put at one of several places.
func Complete(schemes []*Scheme) bool {
	level := 0
	for _, s := range schemes {
		if len(s.controls) > 0 {
			return false
		}
		if s.Run == job.RunAcross {
			level++
		}
	}
	return level < maxSchemes
}
