package plan

import "seamwright/calc/length"

// SeamPlaces says where one seam of a plan may be moved to, and why not elsewhere. It is no part of the plan's JSON: it
// is asked for when a seam is taken in the hand.
type SeamPlaces struct {
	Axis   string // "x" or "y": the coordinate that moves
	Course int    // of the seam; of the lower (or left) course where the seam runs between two
	Long   bool   // the seam runs between two courses: moving it changes their heights
	// Upright: the courses run along the members. Such a seam is pinned; level courses are fixed by their heights.
	Upright bool
	// From and To bound the stretch in which the seam can be moved at all; Ends says what stands at either.
	From, To length.Length
	Ends     [2]Fact
	Places   []SeamPlace // in order
}

// SeamPlace is one place: every member behind the course and, where a seam needs none, the steps of a rule between.
type SeamPlace struct {
	At      length.Length
	Support Support
	Member  int    // the member that it lands on, counted from 1 as in the surface's members; 0: none of these
	Rule    string // the rule that it would break, "" where it is lawful
	Why     Fact   // that breach: within 6 in of the jamb of opening d1
	Gives   Fact   // what would have to give way in the new plan: the joint at 8' 0" in the course above; none where nothing would
}

// Lawful tells whether a seam may stand there.
func (p *SeamPlace) Lawful() bool { return p.Rule == "" }

// Nearest is the index of the lawful place nearest to a wish, the lower of two; -1 where no place is lawful.
func (s *SeamPlaces) Nearest(wish length.Length) int {
	best := -1
	for i := range s.Places {
		if p := &s.Places[i]; p.Lawful() && (best < 0 || (p.At-wish).Abs() < (s.Places[best].At-wish).Abs()) {
			best = i
		}
	}
	return best
}

// NoMember is the reason where nothing carries a seam.
func NoMember() Fact { return Tell("joint.no-member") }

// Why says why a seam may not stand at a place, nothing where it may. Within reach of a listed place that place answers,
// and elsewhere nothing carries the seam.
func (s *SeamPlaces) Why(at, reach length.Length) Fact {
	switch {
	case at <= s.From:
		return s.Ends[0]
	case at >= s.To:
		return s.Ends[1]
	}
	near := -1
	for i := range s.Places {
		if d := (s.Places[i].At - at).Abs(); d <= reach && (near < 0 || d < (s.Places[near].At-at).Abs()) {
			near = i
		}
	}
	if near < 0 {
		return NoMember()
	}
	return s.Places[near].Why
}
