package layout

import (
	"cmp"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/shape"
	"seamwright/calc/survey"
)

// A joint along the members bears on what stands behind each of its stretches: a full member, over and under an opening
// a cripple, beside it a jamb. Where it crosses the opening there is no joint, and nothing need carry it. This holds for
// the end joints of sheets laid across the members and for the long joints of sheets laid along them.

const (
	// offCentre is how far a joint may lie from the middle of its member: then each sheet still bears on half of a 1-1/2 in
	// member less 1/8 in. Only a seam fixed by hand lies off the middle.
	offCentre = length.Inch / 8
	// pastEnd is how far a joint may run past the end of its member: onto the plate, sill or header that it ends at.
	pastEnd = 3 * length.Inch / 2
)

// sortMembers parts the members into full ones and those that stand along a part of the surface only: cripples, and a
// member at an edge inside the outline, as in the angle of an L-shaped ceiling.
func (f *Field) sortMembers() {
	s := f.Zone.Surface
	f.members, f.short = s.Studs, s.Short
	b := s.Outline.Bounds()
	low, high := b.X, b.MaxX()
	if s.Members.Axis == string(job.AxisY) {
		low, high = b.Y, b.MaxY()
	}
	inside := func(m survey.Member) bool {
		return m.Kind == survey.End && m.At-low > m.Width && high-m.At > m.Width
	}
	if !slices.ContainsFunc(f.members, inside) {
		return
	}
	f.short = slices.Clone(f.short)
	for _, m := range f.members {
		if inside(m) {
			f.short = append(f.short, m)
		}
	}
	f.members = slices.DeleteFunc(slices.Clone(f.members), inside)
	slices.SortStableFunc(f.short, func(a, b survey.Member) int { return cmp.Compare(a.From, b.From) })
}

// bearing tells whether members carry a joint along them at a place, over all of its stretches.
func (f *Field) bearing(at length.Length, stretches []interval) bool {
	for i := range f.members {
		if (f.members[i].At - at).Abs() <= offCentre {
			return true
		}
	}
	return !slices.ContainsFunc(stretches, func(iv interval) bool { return !f.crippled(at, iv) })
}

// crippled tells whether short members at a place carry a stretch from end to end; they stand in order of where they start.
func (f *Field) crippled(at length.Length, iv interval) bool {
	reached := iv.lo
	for i := range f.short {
		if m := &f.short[i]; (m.At-at).Abs() <= offCentre && m.From <= reached+pastEnd {
			reached = max(reached, m.To)
		}
	}
	return reached > iv.lo && reached >= iv.hi-pastEnd
}

// readStretches finds how far a joint between upright courses would run at every place, and where it would not run at
// all: beside and within openings that part the zone from end to end.
func (f *Field) readStretches() {
	if f.Run != job.RunAlong || len(f.Holes) == 0 && len(f.short) == 0 {
		return
	}
	var turned []shape.Region
	for _, g := range f.cover(f.Zone.FloorGap) {
		turned = append(turned, g.Transposed())
	}
	f.stretches = newProfile(turned, f.Box.X, f.Box.MaxX())
	for _, h := range f.Holes {
		if len(f.stretches.seam(h.Y+h.H/2)) == 0 && h.Y < f.Box.MaxY() && h.MaxY() > f.Box.Y {
			f.voids = append(f.voids, interval{max(h.Y, f.Box.Y), min(h.MaxY(), f.Box.MaxY())})
		}
	}
	slices.SortFunc(f.voids, func(a, b interval) int { return cmp.Compare(a.lo, b.lo) })
}

// borne tells whether members carry a joint between upright courses at v.
func (f *Field) borne(v length.Length) bool {
	return f.bearing(v, f.stretchesAt(v))
}

// stretchesAt are the stretches of a joint between upright courses at v; one from end to end where no opening interrupts it.
func (f *Field) stretchesAt(v length.Length) []interval {
	if f.stretches == nil {
		return []interval{{f.Box.X, f.Box.MaxX()}}
	}
	return f.stretches.seam(v)
}

// inVoid tells whether a line between upright courses would run where an opening parts the zone: there is no joint then.
func (f *Field) inVoid(v length.Length) bool {
	return slices.ContainsFunc(f.voids, func(iv interval) bool { return iv.lo <= v && v <= iv.hi })
}
