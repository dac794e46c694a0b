package board

import (
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/layout"
	"seamwright/calc/length"
	"seamwright/calc/survey"
)

// before are the zones whose joints zone i must keep clear of: the layer below, and the base layer on the other face
// of the partition where that surface comes first.
func (s *solver) before(i int) []int {
	z := s.zones[i]
	var ks []int
	for _, k := range s.ofSurface[z.Surface] {
		if o := s.zones[k]; keepsClear(z, o) {
			ks = append(ks, k)
		}
	}
	for _, back := range z.Surface.Backs {
		for _, k := range s.ofSurface[back] {
			if o := s.zones[k]; k < i && keepsClear(z, o) {
				ks = append(ks, k)
			}
		}
	}
	return ks
}

// keepsClear tells whether the joints of a zone must keep clear of those of another: of the layer below, or of the base
// layer on the other face of the partition.
func keepsClear(z, o *survey.Zone) bool {
	switch {
	case o.Product == nil:
		return false
	case o.Surface == z.Surface:
		return o.Index == z.Index && o.Layer == z.Layer-1
	default:
		return slices.Contains(z.Surface.Backs, o.Surface) && z.Layer == 1 && o.Layer == 1
	}
}

// Clearances of parallel joints. Between layers: one member space along the members, else 16 in (GA-216-2024
// s. 4.6.8; distance as the rule book gives it). Joints on two faces nearer than a member's width share a stud.
const (
	layerClear = 16 * length.Inch
	studShare  = length.Inch
)

// lines are the joints that zone i must keep clear of, in the layout by one measure.
func (s *solver) lines(i, m int) []layout.Line {
	z := s.zones[i]
	var lines []layout.Line
	for _, k := range s.before(i) {
		st := &s.settled[m][k]
		if st.scheme == nil {
			continue
		}
		for _, l := range st.lines() {
			if l, ok := cleared(z, s.zones[k], l); ok {
				lines = append(lines, l)
			}
		}
	}
	return lines
}

// cleared is a joint of another zone as a line that zone z must keep clear of; not ok where it need not.
func cleared(z, o *survey.Zone, l layout.Line) (_ layout.Line, ok bool) {
	if o.Surface == z.Surface {
		l.Control = l.Control && z.Product.Kind == job.Gypsum
		l.Clear, l.Rule = layerClear, layout.RuleLayers
		if l.Upright == (z.Surface.Members.Axis != "y") {
			l.Clear = z.Surface.Space()
		}
		return l, true
	}
	l.Clear, l.Rule = max(studShare, z.Surface.Members.Width), layout.RuleOpposite
	l.At, l.Control = z.Surface.FromFace(o.Surface, l.At), false
	return l, l.Upright
}

// lines are a settled zone's joints as lines on its surface, each once.
func (st *settled) lines() []layout.Line {
	var lines []layout.Line
	seen := map[layout.Line]bool{}
	add := func(l layout.Line) {
		if !seen[l] {
			seen[l] = true
			lines = append(lines, l)
		}
	}
	across, between := st.scheme.Controls()
	for k := 1; k < len(st.scheme.Bands); k++ {
		v := st.scheme.Bands[k].V0
		add(layout.Line{Upright: st.scheme.Swap, At: v, Control: slices.Contains(between, v)})
	}
	for _, u := range across {
		add(layout.Line{Upright: !st.scheme.Swap, At: u, Control: true})
	}
	for _, u := range st.seams {
		add(layout.Line{Upright: !st.scheme.Swap, At: u})
	}
	return lines
}
