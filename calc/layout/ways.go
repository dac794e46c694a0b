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
	return s.choice(&s.Rows[row], path{steps: steps})
}

// PlaceAt is where a place of a row lies.
func (s *Scheme) PlaceAt(row, place int) length.Length { return s.Rows[row].graph.at[place] }

// Anywhere tells whether the end joints of a row may stand at any place, of which the steps are but a choice.
func (s *Scheme) Anywhere(row int) bool { return s.Free || s.Rows[row].Stage == Relaxed }

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
			for n, l := range b.left {
				if l != b.right[n] {
					cs = append(cs, s.slanted(b, n)...)
					continue
				}
				cs = append(cs, Cover{Long: s.fitted(b.from, b.to), Size: Size{W: max(0, l.hi-l.lo-s.slack()), Turn: s.mayTurn()}})
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

// Strips lists every lawful upright course of a zone by the place that it starts from: a set of courses is a way from
// place 0 to the last. Not ok: long joints may stand anywhere.
func Strips(z *survey.Zone, rules *job.Rules) (strips [][]Strip, ok bool) {
	s := &Scheme{Field: NewField(z, rules, job.RunAlong, nil)}
	if s.Backed || s.Blocked || s.onFloor() && !s.Swap {
		return nil, false
	}
	_, _, gap := s.gaps()
	s.regions = s.cover(gap)
	lines := s.lines(s.widths, false)
	strips = make([][]Strip, len(lines))
	for i := range lines {
		for j := i + 1; j < len(lines); j++ {
			low, high := &lines[i], &lines[j]
			if s.isVoid(low.at, high.at) {
				strips[i] = append(strips[i], Strip{To: j})
				break
			}
			_, wide := s.stripCost(low, high, false)
			if wide && high.at-low.at <= s.widths[0] {
				strips[i] = append(strips[i], Strip{To: j, Covers: s.strip(low.at, high.at)})
			}
			if high.pinned {
				break
			}
		}
	}
	return strips, true
}

// strip is what an upright course from v0 to v1 must cover.
func (s *Scheme) strip(v0, v1 length.Length) []Cover {
	whole := slices.Contains(s.widths, v1-v0)
	box := len(s.outline) == 4 && s.outline.Area() == s.Box.Area()
	pr := newProfile(s.regions, v0, v1)
	var cs []Cover
	for i := range pr {
		b := &pr[i]
		for n, l := range b.left {
			if l != b.right[n] {
				cs = append(cs, s.slanted(b, n)...)
				continue
			}
			c := Cover{Long: s.fitted(b.from, b.to), Size: Size{W: l.hi - l.lo}}
			if whole && l.hi-l.lo == v1-v0 {
				if s.Zone.Product.Tapered && box {
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

// fitted is a stretch of u less the fit in the corners that it reaches.
func (s *Scheme) fitted(from, to length.Length) length.Length {
	return max(0, to-from-s.fitAt(from, LowU)-s.fitAt(to, HighU))
}

// slantSteps is how many rectangles stand for what lies under a slant.
const slantSteps = 12

// slanted is what lies wholly in one interval of a slab whose sides are no straight lines: rectangles side by side, each
// as wide as the narrower of its ends. Whatever covers the slab covers them, two pieces from one rectangle too.
func (s *Scheme) slanted(b *slab, n int) (cs []Cover) {
	step := (b.to - b.from) / slantSteps
	for from := b.from; step > 0 && from+step <= b.to; from += step {
		l, r := b.at(from, n), b.at(from+step, n)
		wide := min(l.hi, r.hi) - max(l.lo, r.lo) - s.slack()
		if wide > 0 {
			cs = append(cs, Cover{Long: s.fitted(from, from+step), Size: Size{W: wide, Turn: s.mayTurn()}})
		}
	}
	return cs
}

// slack is the most that gap and fit take off the width of a piece.
func (s *Scheme) slack() length.Length { return 2*s.Rules.Fit + s.Zone.Product.Gap }

// Complete tells whether a list of schemes holds every set of level courses that the rule book leaves: none was left out
// because there are so many, and no control joint was put at one of several places.
func Complete(schemes []*Scheme) bool {
	for _, s := range schemes {
		if len(s.controls) > 0 || s.partial && s.Run == job.RunAcross {
			return false
		}
	}
	return true
}
