package layout

import (
	"cmp"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/survey"
)

// Control joint distances for gypsum board: 30 ft along a wall, 50 ft each way on a ceiling whose edges are free to
// move, which keeps every field within 2,500 ft² too. ASTM C840 s. 20 as quoted.
const (
	ControlWall    = 30 * length.Foot
	ControlCeiling = 50 * length.Foot
)

// A control joint goes through all layers of board, so that nothing bridges it: the first layer is divided like a face, and
// the layers on it at the same places. Common practice, no source for the layers below the face.

// GypsumOutward tells whether a zone's layers are gypsum board from this one to the face. What carries wood, or lies under
// wood that stays visible, has no finish that could crack.
func GypsumOutward(z *survey.Zone) bool {
	for _, o := range z.Surface.Zones {
		if o.Index == z.Index && o.Layer >= z.Layer && (o.Product == nil || o.Product.Kind != job.Gypsum) {
			return false
		}
	}
	return true
}

// goingOn are the control joints of the layer below, which this one must have too: across the courses, or between them.
func (f *Field) goingOn(between bool) (at []length.Length) {
	k, low, high := 0, f.Box.X, f.Box.MaxX()
	if between {
		k, low, high = 1, f.Box.Y, f.Box.MaxY()
	}
	for _, l := range f.avoid[k] {
		if l.Control && l.At > low && l.At < high {
			at = append(at, l.At)
		}
	}
	slices.Sort(at)
	return slices.Compact(at)
}

// longest are the longest runs along u and along v without a control joint; 0 is no limit.
func (f *Field) longest() (u, v length.Length) {
	switch {
	case !GypsumOutward(f.Zone):
		return 0, 0
	case f.Ceiling():
		return ControlCeiling, ControlCeiling
	case f.Swap:
		return 0, ControlWall
	default:
		return ControlWall, 0
	}
}

// controlJoints are the u at which every course is parted because the run is too long: the fewest that divide it, on
// doubled members where there are some, away from openings if that can be, and then where whole sheets waste least.
func (f *Field) controlJoints() []length.Length {
	most, _ := f.longest()
	if most == 0 || f.Box.W <= most {
		return nil
	}
	if at := f.goingOn(false); len(at) > 0 {
		return at
	}
	var free, all []site
	for _, p := range f.controlSites() {
		_, clear := f.clearOfLines(p.at, true)
		if p.at <= f.Box.X || p.at >= f.Box.MaxX() || !clear || !f.clearOfBacking(p.at, true) {
			continue
		}
		all = append(all, p)
		if !f.inHole(p.at) {
			free = append(free, p)
		}
	}
	sums := sheetSums(Lengths(f.Zone.Product, Widths(f.Zone.Product)[0]), most)
	waste := func(w length.Length) length.Length {
		i, _ := slices.BinarySearch(sums, w)
		if i == len(sums) {
			return 0
		}
		return sums[i] - w
	}
	if at := divide(f.Box.X, f.Box.MaxX(), most, free, waste); at != nil {
		return at
	}
	return divide(f.Box.X, f.Box.MaxX(), most, all, waste)
}

// longControls are the joints between courses that divide a run across the courses: the fewest, at about equal parts.
func (s *Scheme) longControls() []length.Length {
	_, most := s.longest()
	if most == 0 || s.Box.H <= most {
		return nil
	}
	var sites []site
	going := s.goingOn(true)
	for _, b := range s.Bands[1:] {
		if len(going) > 0 && !slices.Contains(going, b.V0) {
			continue
		}
		sites = append(sites, site{at: b.V0, doubled: s.doubledAt(b.V0)})
	}
	return divide(s.Box.Y, s.Box.MaxY(), most, sites, nil)
}

// Controls are the places of control joints: across the courses, and between them.
func (s *Scheme) Controls() (across, between []length.Length) { return s.controls, s.levels }

// site is a place for a control joint. Doubled: each side of the joint has a member of its own there.
type site struct {
	at      length.Length
	doubled bool
}

// controlSites lists where control joints across the courses may stand: between doubled members and on single ones
// where the courses cross members, else on the grid and at whole sheets.
func (f *Field) controlSites() (sites []site) {
	add := func(at length.Length, doubled bool) { sites = append(sites, site{at, doubled}) }
	if f.Run == job.RunAcross {
		for i, m := range f.members {
			add(m.At, false)
			if i > 0 && f.touch(i) {
				add((f.members[i-1].At+m.At)/2, true)
			}
		}
	} else {
		for u := f.Box.X + gridStep; u < f.Box.MaxX(); u += gridStep {
			add(u, false)
		}
		for _, l := range Lengths(f.Zone.Product, Widths(f.Zone.Product)[0]) {
			for u := f.Box.X + l; u < f.Box.MaxX(); u += l {
				add(u, false)
			}
		}
	}
	slices.SortFunc(sites, func(a, b site) int { return cmp.Compare(a.at, b.at) })
	return slices.CompactFunc(sites, func(a, b site) bool { return a.at == b.at })
}

// doubledGap is the widest space between two members that carry a control joint together: the bead's own slot of
// 1/2 in (from memory) and as much again.
const doubledGap = length.Inch

// touch tells whether a member and the one before it stand close enough for a control joint between them.
func (f *Field) touch(i int) bool {
	a, b := f.members[i-1], f.members[i]
	return b.At > a.At && b.At-a.At <= (a.Width+b.Width)/2+doubledGap
}

// doubledAt tells whether a place lies between doubled members.
func (f *Field) doubledAt(at length.Length) bool {
	for i := 1; i < len(f.members); i++ {
		if f.members[i-1].At < at && at < f.members[i].At && f.touch(i) {
			return true
		}
	}
	return false
}

// sheetSums are the lengths that whole sheets in a row can cover, up to one that is more than the limit.
func sheetSums(lengths []length.Length, limit length.Length) []length.Length {
	sums := []length.Length{0}
	for i := 0; i < len(sums); i++ {
		for _, l := range lengths {
			if k, known := slices.BinarySearch(sums, sums[i]+l); sums[i] < limit && !known {
				sums = slices.Insert(sums, k, sums[i]+l)
			}
		}
	}
	return sums
}

// divide parts a run so that no stretch is longer than the limit: with the fewest joints, of these with the fewest on
// single members, of these with the least waste, of these the most even. It finds the shortest path over the sites in
// order; nil where the sites lie too far apart.
func divide(from, to, most length.Length, sites []site, waste func(length.Length) length.Length) []length.Length {
	type label struct {
		joints, single int
		waste, uneven  length.Length
		prev           int // index of the site before, -1 the start
		ok             bool
	}
	count := (to - from + most - 1) / most
	equal := (to - from) / count
	better := func(a, b label) bool {
		return !b.ok || cmp.Or(cmp.Compare(a.joints, b.joints), cmp.Compare(a.single, b.single), cmp.Compare(a.waste, b.waste), cmp.Compare(a.uneven, b.uneven)) < 0
	}
	labels := make([]label, len(sites)+1)
	for i := range labels {
		at, single := to, 0
		if i < len(sites) {
			at = sites[i].at
			if !sites[i].doubled {
				single = 1
			}
		}
		for k := i - 1; k >= -1; k-- {
			start, before := from, label{ok: true, joints: -1}
			if k >= 0 {
				start, before = sites[k].at, labels[k]
			}
			w := at - start
			if w > most {
				break
			}
			if !before.ok || w <= 0 {
				continue
			}
			l := label{joints: before.joints + 1, single: before.single + single, waste: before.waste, uneven: before.uneven + (w - equal).Abs(), prev: k, ok: true}
			if waste != nil {
				l.waste += waste(w)
			}
			if better(l, labels[i]) {
				labels[i] = l
			}
		}
	}
	if !labels[len(sites)].ok {
		return nil
	}
	var at []length.Length
	for i := labels[len(sites)].prev; i >= 0; i = labels[i].prev {
		at = append(at, sites[i].at)
	}
	slices.Reverse(at)
	return at
}
