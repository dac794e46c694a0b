package layout

import (
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
)

// Break is a rule that a layout breaks, and where.
type Break struct {
	Rule string
	At   shape.Point // on the surface
	Says plan.Fact
	Pin  *PinBreak // where a seam fixed by hand breaks the rule
}

// PinBreak is a seam fixed by hand that breaks a rule, and the lawful place nearest to it.
type PinBreak struct {
	Course        int
	Edge          bool   // the joint between two upright courses; it belongs to no one course
	Rule          string // the rule that it breaks; "": it parts nothing and is not used
	Seam, Nearest length.Length
	Found         bool // there is a lawful place
}

// The rules of the rule book for seams that the layout obeys. Sources stand in the table Source.
const (
	RuleBearing     = "bearing"
	RuleStagger     = "stagger"
	RuleFourCorners = "four-corners"
	RuleOpening     = "opening"
	RuleBacking     = "backing-seam"
	RuleLayers      = "layers"
	RuleOpposite    = "opposite-faces"
	RuleEdges       = "edges"
	RuleFloorGap    = "floor-gap"
	RuleLeastPiece  = "least-piece"
	RuleLeastCourse = "least-course"
	RuleControl     = "control-joint"
	RuleCourses     = "courses"
	RulePin         = "pin"
	RulePattern     = "pattern"
	RuleSize        = "sheet-size"
)

// Source names where a rule comes from.
func Source(rule string) plan.Fact {
	switch rule {
	case RuleBearing:
		return plan.Cite("IBC 2508.3").Also(plan.Tell("source.backing-practice"))
	case RuleStagger, RuleOpposite:
		return plan.Cite("GA-216-2024 s. 4.6.7").Also(plan.Tell("source.distance-practice"))
	case RuleLayers:
		return plan.Cite("GA-216-2024 s. 4.6.8")
	case RuleOpening:
		return plan.Cite("NAVEDTRA 14044 ch. 5")
	case RuleFloorGap:
		return plan.Cite("GA-216 s. 4.6.11; NAVEDTRA 14044 ch. 5")
	case RuleControl:
		return plan.Tell("source.quoted-by-users", "title", "ASTM C840 s. 20")
	default:
		return plan.Practice()
	}
}

func (f *Field) inHole(u length.Length) bool {
	for _, h := range f.Holes {
		if u > h.X-f.Rules.Opening && u < h.MaxX()+f.Rules.Opening {
			return true
		}
	}
	return false
}

// atOpening tells whether an end joint at u breaks the opening rule where the band from v0 to v1 meets an opening.
func (f *Field) atOpening(u, v0, v1 length.Length) bool {
	for _, h := range f.Holes {
		if v1 < h.Y || v0 > h.MaxY() {
			continue
		}
		if (u-h.X).Abs() < f.Rules.Opening || (u-h.MaxX()).Abs() < f.Rules.Opening {
			return true
		}
	}
	return false
}

// clearOfBacking tells whether a seam keeps clear of every parallel seam in the backing: an end joint at u (across),
// or a long joint at v. Only the distance is looked at, not where along their length the seams pass each other.
func (f *Field) clearOfBacking(at length.Length, across bool) bool {
	for _, s := range f.seams {
		var place length.Length
		switch {
		case across && s[0].X == s[1].X:
			place = s[0].X
		case !across && s[0].Y == s[1].Y:
			place = s[0].Y
		default:
			continue
		}
		if (at - place).Abs() < f.Rules.Backing {
			return false
		}
	}
	return true
}

// clearOfLines tells whether an end joint at u, or a long joint at v, keeps clear of the lines to avoid.
func (f *Field) clearOfLines(at length.Length, across bool) (rule string, ok bool) {
	k := 1
	if across {
		k = 0
	}
	for _, l := range f.avoid[k] {
		if (at-l.At).Abs() < l.Clear && !(l.Control && at == l.At) {
			return l.Rule, false
		}
	}
	return "", true
}
