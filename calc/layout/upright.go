package layout

import (
	"cmp"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/shape"
)

// Costs that rank sets of upright sheets against each other; only their order of size matters. Fewer sheets come
// before fewer mixed joints, since a strip more is also a joint more.
const (
	costStrip   = 100
	costMixed   = 60
	costOpening = 500 // a joint in line with an opening's edge, or that leaves a sliver beside it
	costWaste   = 40  // for a whole sheet's width of waste
)

// middleCourse is how far a course between others may be ripped. Common practice, no source.
const middleCourse = 24 * length.Inch

// upright divides a field whose courses run along the members: long edges land on members (or anywhere on backing).
// The sets are the shortest paths over the lawful places of the long joints.
func (f *Field) upright() []courses {
	widths := Widths(f.Zone.Product)
	places := f.longPlaces(widths)
	n := len(places)
	// A label is one way to reach a place; whole tells whether the strip that ends there has a factory edge there.
	type label struct {
		cost  int
		prev  int // label before it
		place int
		whole bool
	}
	var labels []label
	at := make([][]int, n)
	labels = append(labels, label{prev: -1})
	at[0] = []int{0}
	const keep = 4
	for i := 1; i < n; i++ {
		var found []label
		for j := i - 1; j >= 0; j-- {
			w := places[i] - places[j]
			if w > widths[0] {
				break
			}
			edge := j == 0 || i == n-1
			least := middleCourse
			if edge {
				least = f.Rules.LeastCourse
			}
			if w < least && !(j == 0 && i == n-1) {
				continue
			}
			sheet := narrowest(widths, w)
			whole := sheet == w
			waste := int(int64(costWaste) * int64(sheet-w) / int64(sheet))
			for _, k := range at[j] {
				// A ripped strip between two joints turns its cut edge to the low side, or to the high side.
				for _, cutHigh := range []bool{false, true} {
					lowOK, highOK := whole || cutHigh, whole || !cutHigh
					if whole && cutHigh {
						continue
					}
					c := labels[k].cost + costStrip + waste
					if j > 0 && (!lowOK || !labels[k].whole) {
						c += costMixed
					}
					if j > 0 && f.nearOpening(places[j]) {
						c += costOpening
					}
					found = append(found, label{cost: c, prev: k, place: i, whole: highOK})
				}
			}
		}
		slices.SortStableFunc(found, func(a, b label) int { return cmp.Compare(a.cost, b.cost) })
		for k := 0; k < len(found) && k < 2*keep; k++ {
			labels = append(labels, found[k])
			at[i] = append(at[i], len(labels)-1)
		}
	}
	var sets []courses
	seen := map[string]bool{}
	for _, k := range at[n-1] {
		var bands []Band
		key := ""
		for l := k; labels[l].prev >= 0; l = labels[l].prev {
			p := labels[labels[l].prev].place
			b := Band{V0: places[p], V1: places[labels[l].place]}
			whole := slices.Contains(widths, b.V1-b.V0)
			b.High = labels[l].whole
			b.Low = whole || !b.High
			bands = append(bands, b)
			key += string(rune(labels[l].place)) + map[bool]string{true: "h", false: "l"}[b.High]
		}
		slices.Reverse(bands)
		if len(bands) > 0 && !slices.Contains(widths, bands[len(bands)-1].V1-bands[len(bands)-1].V0) {
			last := &bands[len(bands)-1]
			last.Low, last.High = len(bands) > 1, false
		}
		if seen[key] || len(sets) == keep {
			continue
		}
		seen[key] = true
		for _, gap := range f.uprightGaps() {
			sets = append(sets, courses{gap: gap, bands: slices.Clone(bands)})
		}
	}
	if len(sets) == 0 {
		c := courses{gap: f.Zone.FloorGap}
		for v := f.Box.Y; v < f.Box.MaxY(); v += widths[0] {
			c.bands = append(c.bands, Band{V0: v, V1: min(v+widths[0], f.Box.MaxY())})
		}
		f.chooseEdges(c.bands)
		c.breaks = []Break{{Rule: RuleBearing, At: f.point(shape.Point{X: f.Box.X, Y: c.bands[0].V1}),
			Message: "members stand too far apart, or too unevenly, for the long edges of upright sheets to land on them"}}
		sets = append(sets, c)
	}
	return sets
}

// uprightGaps are the clearances at the floor worth trying: the one that spares a cut, else the one asked for.
func (f *Field) uprightGaps() []length.Length {
	least, asked, most := f.gaps()
	for _, w := range Widths(f.Zone.Product) {
		for _, l := range Lengths(f.Zone.Product, w) {
			if rest := f.Box.W - l; rest >= least && rest <= most {
				return []length.Length{rest}
			}
		}
	}
	return []length.Length{asked}
}

// longPlaces are the lawful places of long joints, both ends of the field included, in order.
func (f *Field) longPlaces(widths []length.Length) []length.Length {
	low, high := f.Box.Y, f.Box.MaxY()
	ps := []length.Length{low, high}
	for _, m := range f.members {
		if m.At > low && m.At < high {
			ps = append(ps, m.At)
		}
	}
	if f.Backed {
		for _, w := range widths {
			for v := low + w; v < high; v += w {
				ps = append(ps, v)
			}
			for v := high - w; v > low; v -= w {
				ps = append(ps, v)
			}
		}
	}
	if f.Blocked && !f.Backed {
		for _, v := range f.bays() {
			if v > low && v < high {
				ps = append(ps, v)
			}
		}
		for _, w := range widths {
			for k := w; k < high-low; k += w {
				for _, v := range []length.Length{low + k, high - k} {
					if f.blockFits(v) {
						ps = append(ps, v)
					}
				}
			}
		}
	}
	for _, l := range f.avoid[1] {
		if f.Backed {
			ps = append(ps, l.At+l.Clear, l.At-l.Clear)
		}
	}
	slices.Sort(ps)
	return slices.DeleteFunc(slices.Compact(ps), func(v length.Length) bool {
		_, clear := f.clearOfLines(v, false)
		return v < low || v > high || v > low && v < high && (!clear || !f.clearOfBacking(v, false))
	})
}

// narrowest is the narrowest sheet that holds a strip.
func narrowest(widths []length.Length, w length.Length) length.Length {
	for i := len(widths) - 1; i >= 0; i-- {
		if widths[i] >= w {
			return widths[i]
		}
	}
	return widths[0]
}

// nearOpening tells whether a long joint runs in line with an opening's long side, or within the opening rule of it.
func (f *Field) nearOpening(v length.Length) bool {
	for _, h := range f.Holes {
		if (v-h.Y).Abs() < f.Rules.Opening || (v-h.MaxY()).Abs() < f.Rules.Opening {
			return true
		}
	}
	return false
}

// sliver tells whether a joint between upright courses leaves less than the least course beside an opening.
func (f *Field) sliver(v length.Length) bool {
	if f.Run != job.RunAlong {
		return false
	}
	for _, h := range f.Holes {
		if v < h.Y && h.Y-v < f.Rules.LeastCourse || v > h.MaxY() && v-h.MaxY() < f.Rules.LeastCourse {
			return true
		}
	}
	return false
}
