package layout

import (
	"cmp"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/length"
)

// level divides a field whose courses cross the members: whole courses, and one ripped course at the end where hanging
// ends, or at the floor where the user has not chosen. A rip below the least course borrows from the course at the other
// end, whose cut edge then goes into the corner there.
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
	all := wholeCourses(Widths(f.Zone.Product), height-least, most-least)
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
	case !flat || f.Zone.Start == job.StartFloor && f.Zone.Begins:
		sets = [][]length.Length{high}
	case f.Zone.Start == job.StartFloor: // base trim hides a cut edge at the floor, nothing one below open framing
		sets = [][]length.Length{low, high}
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

// mostCourseSets bounds the sets of whole courses of one zone.
const mostCourseSets = 64

// wholeCourses lists the sets of whole sheet widths that leave less than one sheet of the height, those first that make
// the fewest courses and then the largest total; wide sheets stand at the top. So much may stay open at the floor as is
// spare: then no strip is ripped for it.
func wholeCourses(widths []length.Length, height, spare length.Length) [][]length.Length {
	var sets [][]length.Length
	var grow func(set []length.Length, i int, left length.Length)
	grow = func(set []length.Length, i int, left length.Length) {
		if left <= widths[0] {
			s := slices.Clone(set)
			slices.Sort(s)
			sets = append(sets, s)
		}
		for k := i; k < len(widths) && len(sets) < mostCourseSets; k++ {
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
		if total(s) < height-spare {
			n++
		}
		return n
	}
	slices.SortStableFunc(sets, func(a, b []length.Length) int {
		if d := courses(a) - courses(b); d != 0 {
			return d
		}
		return cmp.Compare(total(b), total(a))
	})
	return sets
}
