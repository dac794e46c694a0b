package check

import (
	"cmp"
	"slices"

	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/calc/survey"
)

// Covering is looked at along upright lines: every corner of the zone, its openings and its panels parts the zone into
// strips, and in the middle of a strip the panels must follow each other from end to end. Clearances that the trade
// leaves are not gaps: the fit, half panel gaps, and what trim covers at the floor.

var coverRules = []Rule{
	{"cover", "panels cover the whole of their zone, but for openings and clearances, nothing else, and nothing twice", plan.Error, plan.Tell("source.geometry"), (*site).cover, room},
}

// stretch is a part of an upright line.
type stretch struct{ from, to length.Length }

// shadow is an outline prepared for lines across it.
type shadow struct {
	outline shape.Polygon
	box     shape.Rect
	plain   bool // the outline is its box
	panel   int  // index of the panel, -1 for what is no panel
}

func shadowOf(p shape.Polygon, panel int) shadow {
	s := shadow{outline: p, box: p.Bounds(), panel: panel}
	s.plain = len(p) == 4 && !slices.ContainsFunc(p, func(q shape.Point) bool {
		return q.X != s.box.X && q.X != s.box.MaxX() || q.Y != s.box.Y && q.Y != s.box.MaxY()
	})
	return s
}

// across adds the stretches in which the upright line at x lies in the outline.
func (s *shadow) across(x length.Length, out []stretch) []stretch {
	if x <= s.box.X || x >= s.box.MaxX() {
		return out
	}
	if s.plain {
		return append(out, stretch{s.box.Y, s.box.MaxY()})
	}
	var at [16]length.Length
	ys := at[:0]
	for i, a := range s.outline {
		b := s.outline[(i+1)%len(s.outline)]
		if a.X > b.X {
			a, b = b, a
		}
		if a.X < x && x <= b.X {
			t := float64(x-a.X) / float64(b.X-a.X)
			ys = append(ys, a.Y+length.Length(t*float64(b.Y-a.Y)))
		}
	}
	slices.Sort(ys)
	for i := 0; i+1 < len(ys); i += 2 {
		out = append(out, stretch{ys[i], ys[i+1]})
	}
	return out
}

// steepness is how much longer an upright clearance is than a level one at the steepest side of an outline, at least 1.
func steepness(p shape.Polygon) float64 {
	most := 0.0
	for i, a := range p {
		b := p[(i+1)%len(p)]
		if a.X != b.X && a.Y != b.Y {
			most = max(most, (b.Y-a.Y).Abs().MM()/(b.X-a.X).Abs().MM())
		}
	}
	return 1 + most
}

func (s *site) cover() (found []finding) {
	for _, l := range s.layers() {
		if l.asked.Product != nil {
			found = append(found, s.uncovered(l)...)
		}
	}
	return found
}

// uncovered finds the first place of a layer that no panel covers, the first that two do, and the first panel that lies
// where it should not.
func (s *site) uncovered(l layer) (found []finding) {
	slack := s.fits() + l.asked.Product.Gap
	upright := length.Length(float64(slack) * steepness(l.asked.Outline))
	zone := shadowOf(l.asked.Outline, -1)
	corners := cornersOf(nil, l.asked.Outline)
	var holes, boxes, panels []shadow
	for _, h := range l.asked.Holes {
		holes = append(holes, shadowOf(h.Outline, -1))
		corners = cornersOf(corners, h.Outline)
	}
	for _, b := range l.surface.Boxes {
		boxes = append(boxes, shadowOf(b, -1))
		corners = cornersOf(corners, b)
	}
	for i, p := range l.planned.Panels {
		panels = append(panels, shadowOf(p.Outline, i))
		corners = cornersOf(corners, p.Outline)
	}
	slices.Sort(corners)
	atFloor := l.floorClearance() + slack
	var gap, twice, outside bool
	var want, have []stretch
	var ids []int
	tell := func(x, y length.Length, what plan.Fact) {
		found = append(found, finding{where: l.surface.ID, at: shape.Point{X: x, Y: y}, says: what})
	}
	for i := 1; i < len(corners); i++ {
		if corners[i]-corners[i-1] <= slack {
			continue
		}
		x := corners[i-1]/2 + corners[i]/2
		want = without(zone.across(x, want[:0]), holes, x)
		have, ids = have[:0], ids[:0]
		for k := range panels {
			n := len(have)
			have = panels[k].across(x, have)
			if cut := l.planned.Panels[k].Holes; len(cut) > 0 {
				var inner []shadow
				for _, h := range cut {
					inner = append(inner, shadowOf(h, k))
				}
				have = append(have[:n], without(slices.Clone(have[n:]), inner, x)...)
			}
			for range have[n:] {
				ids = append(ids, k)
			}
		}
		sortTogether(have, ids)
		if at, a, b := twiceCovered(have, ids); a >= 0 && !twice {
			twice = true
			tell(x, at, plan.Tell("check.overlap", "one", l.planned.Panels[a].ID, "other", l.planned.Panels[b].ID, "layer", l.asked.Layer, "at", x))
		}
		for k, h := range have {
			if out := open(have[k:k+1], want); len(out) > 0 && !outside && out[0].to-out[0].from > rounding {
				outside = true
				tell(x, h.from, plan.Tell("check.outside", "piece", l.planned.Panels[ids[k]].ID, "layer", l.asked.Layer, "at", x))
			}
		}
		for _, o := range open(without(want, boxes, x), have) {
			if o.to-o.from <= upright || o.from == want[0].from && o.to-o.from <= atFloor || gap {
				continue
			}
			gap = true
			tell(x, o.from/2+o.to/2, plan.Tell("check.uncovered", "layer", l.asked.Layer, "at", x, "from", o.from, "to", o.to))
		}
	}
	return found
}

// floorClearance is how far a layer may stand clear of the floor before another rule speaks of it.
func (l layer) floorClearance() length.Length {
	on := slices.ContainsFunc(l.asked.Edges, func(e survey.Edge) bool { return e.Meets == survey.AtFloor || e.Meets == survey.AtCurb })
	if !on || l.surface.Wall == nil {
		return 0
	}
	return max(l.asked.FloorGap, l.surface.Wall.Trim)
}

func cornersOf(xs []length.Length, p shape.Polygon) []length.Length {
	for _, q := range p {
		xs = append(xs, q.X)
	}
	return xs
}

// without takes holes out of the stretches of a line.
func without(line []stretch, holes []shadow, x length.Length) []stretch {
	var buf [4]stretch
	for k := range holes {
		for _, h := range holes[k].across(x, buf[:0]) {
			var rest []stretch
			for _, w := range line {
				if w.from < min(h.from, w.to) {
					rest = append(rest, stretch{w.from, min(h.from, w.to)})
				}
				if max(h.to, w.from) < w.to {
					rest = append(rest, stretch{max(h.to, w.from), w.to})
				}
			}
			line = rest
		}
	}
	return line
}

// sortTogether orders stretches from the bottom, their owners with them; there are few, so by insertion.
func sortTogether(line []stretch, ids []int) {
	for i := 1; i < len(line); i++ {
		for k := i; k > 0 && cmp.Compare(line[k].from, line[k-1].from) < 0; k-- {
			line[k], line[k-1] = line[k-1], line[k]
			ids[k], ids[k-1] = ids[k-1], ids[k]
		}
	}
}

// rounding is how far slanted sides may overlap since they were rounded on the way.
const rounding = length.Millimetre / 100

// twiceCovered finds where two panels in order lie over each other; -1 where none do.
func twiceCovered(line []stretch, ids []int) (at length.Length, a, b int) {
	for i := 1; i < len(line); i++ {
		if line[i-1].to > line[i].from+rounding {
			return line[i].from, ids[i-1], ids[i]
		}
	}
	return 0, -1, -1
}

// open are the parts of the wanted stretches that those in order leave open.
func open(want, have []stretch) (left []stretch) {
	for _, w := range want {
		at := w.from
		for _, h := range have {
			if h.to <= at || h.from >= w.to {
				continue
			}
			if h.from > at {
				left = append(left, stretch{at, h.from})
			}
			at = max(at, h.to)
		}
		if at < w.to {
			left = append(left, stretch{at, w.to})
		}
	}
	return left
}
