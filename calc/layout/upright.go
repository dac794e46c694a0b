package layout

import (
	"cmp"
	"slices"

	"seamwright/calc/job"
	"seamwright/calc/length"
)

// Costs that rank sets of upright sheets against each other; only their order of size matters. Fewer sheets come
// before fewer mixed joints, since a strip more is also a joint more.
const (
	costStrip   = 100
	costMixed   = 60
	costOpening = 500  // a joint in line with an opening's edge, or that leaves a sliver beside it or a corner
	costWaste   = 40   // for a whole sheet's width of waste
	costBreach  = 5000 // for each weight of a breach, as far as sets of courses break rules
)

// middleCourse is how far a course between others may be ripped. Common practice, no source.
const middleCourse = 24 * length.Inch

// line is a place where the long edges of two upright courses may meet, or where courses begin or end.
type line struct {
	at     length.Length
	pinned bool
	end    bool // an end of the zone, or the edge of an opening that parts it: no joint
	weight int  // of the rules that a joint there breaks by its place alone
}

// label is one way to reach a line: the courses up to it.
type label struct {
	cost int
	prev int // label before it
	line int
	// whole: the strip that ends there has a factory edge there; void: there is no strip, but an opening.
	whole, void bool
}

// upright divides a field whose courses run along the members: long edges land on members (or anywhere on backing), and
// every joint fixed by hand is one of them. The sets are the shortest paths over the lawful lines; where these leave no
// way, over all lines, those first that break the least.
func (f *Field) upright() []courses {
	widths := Widths(f.Zone.Product)
	lines := f.lines(widths, false)
	labels, last := f.strips(lines, widths, false)
	if len(last) == 0 {
		lines = f.lines(widths, true)
		labels, last = f.strips(lines, widths, true)
	}
	const keep = 4
	var sets []courses
	seen := map[string]bool{}
	for _, k := range last {
		bands, key := f.bandsOf(lines, labels, k, widths)
		if seen[key] || len(sets) == keep {
			continue
		}
		seen[key] = true
		for _, gap := range f.uprightGaps() {
			sets = append(sets, courses{gap: gap, bands: slices.Clone(bands)})
		}
	}
	return sets
}

// labelsKept is how many ways to reach a line are followed up.
const labelsKept = 8

// strips finds the cheapest ways from line to line, and the labels that reach the last one. Relaxed: a course may be
// narrower than the rules allow, and lines that break rules cost as much as these weigh.
func (f *Field) strips(lines []line, widths []length.Length, relaxed bool) (labels []label, last []int) {
	n := len(lines)
	at := make([][]int, n)
	labels = append(labels, label{prev: -1})
	at[0] = []int{0}
	for i := 1; i < n; i++ {
		var found []label
		for j := i - 1; j >= 0; j-- {
			w := lines[i].at - lines[j].at
			if f.isVoid(lines[j].at, lines[i].at) {
				for _, k := range at[j] {
					found = append(found, label{cost: labels[k].cost, prev: k, line: i, whole: true, void: true})
				}
				break
			}
			if w > widths[0] {
				if len(f.voids) > 0 {
					continue // the opening that ends here may be wider than a sheet
				}
				break
			}
			if c, ok := f.stripCost(&lines[j], &lines[i], relaxed); ok {
				found = f.addStrips(found, labels, at[j], lines, j, i, widths, c)
			}
			if lines[j].pinned {
				break
			}
		}
		slices.SortStableFunc(found, func(a, b label) int { return cmp.Compare(a.cost, b.cost) })
		for k := 0; k < len(found) && k < labelsKept; k++ {
			labels = append(labels, found[k])
			at[i] = append(at[i], len(labels)-1)
		}
	}
	return labels, at[n-1]
}

// stripCost is what a strip between two lines costs by its width alone; not ok where it is too narrow.
func (f *Field) stripCost(low, high *line, relaxed bool) (cost int, ok bool) {
	least := middleCourse
	if low.end || high.end {
		least = f.Rules.LeastCourse
	}
	switch {
	case low.end && high.end || high.at-low.at >= least:
		return costStrip, true
	case relaxed || low.pinned || high.pinned:
		return costStrip + costBreach*Weight(RuleLeastCourse), true
	default:
		return 0, false
	}
}

// addStrips adds the ways to line i by a strip from line j: a ripped strip between two joints turns its cut edge to the
// low side, or to the high side.
func (f *Field) addStrips(found, labels []label, from []int, lines []line, j, i int, widths []length.Length, cost int) []label {
	w := lines[i].at - lines[j].at
	sheet := narrowest(widths, w)
	whole := sheet == w
	cost += int(int64(costWaste) * int64(sheet-w) / int64(sheet))
	near := !lines[j].end && f.nearOpening(lines[j].at)
	beside := near || !lines[j].end && f.sliver(lines[j].at)
	for _, k := range from {
		for _, cutHigh := range []bool{false, true} {
			if whole && cutHigh {
				continue
			}
			c := labels[k].cost + cost + costBreach*lines[j].weight
			if mixed := !lines[j].end && (!whole && !cutHigh || !labels[k].whole); mixed {
				c += costMixed
				if near {
					c += costBreach * Weight(RuleOpening)
				}
			}
			if beside {
				c += costOpening
			}
			found = append(found, label{cost: c, prev: k, line: i, whole: whole || !cutHigh})
		}
	}
	return found
}

// bandsOf reads the courses that a label stands for, and a key that tells them from others.
func (f *Field) bandsOf(lines []line, labels []label, k int, widths []length.Length) (bands []Band, key string) {
	for l := k; labels[l].prev >= 0; l = labels[l].prev {
		low, high := &lines[labels[labels[l].prev].line], &lines[labels[l].line]
		b := Band{V0: low.at, V1: high.at}
		whole := slices.Contains(widths, b.V1-b.V0)
		b.High = labels[l].whole
		b.Low = whole || !b.High
		if high.end && !whole { // its cut edge goes where it ends
			b.Low, b.High = !low.end, false
		}
		if f.inVoid(b.V0) {
			b.Low = false
		}
		if f.inVoid(b.V1) {
			b.High = false
		}
		bands = append(bands, b)
		key += string(rune(labels[l].line)) + map[bool]string{true: "h", false: "l"}[b.High]
	}
	slices.Reverse(bands)
	return bands, key
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

// sliver tells whether a joint between courses leaves less than the least course beside an edge of the zone that runs along
// it, as in the angle of an L-shaped ceiling, or, between upright courses, beside an opening.
func (f *Field) sliver(v length.Length) bool {
	least := f.Rules.LeastCourse
	for i, a := range f.outline {
		b := f.outline[(i+1)%len(f.outline)]
		if a.Y != b.Y || a.Y == f.Box.Y || a.Y == f.Box.MaxY() || (a.X-b.X).Abs() < f.Rules.LeastPiece {
			continue // a short step is only where the lining of the wall round the corner grows thicker
		}
		if d := v - a.Y; a.X < b.X && d > 0 && d < least || a.X > b.X && d < 0 && -d < least { // the board lies to an edge's left
			return true
		}
	}
	if f.Run != job.RunAlong {
		return false
	}
	for _, h := range f.Holes {
		if v < h.Y && h.Y-v < least || v > h.MaxY() && v-h.MaxY() < least {
			return true
		}
	}
	return false
}
