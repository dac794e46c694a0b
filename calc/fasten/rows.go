package fasten

import (
	"cmp"
	"math"
	"slices"

	"seamwright/calc/length"
	"seamwright/calc/shape"
)

// The work is done in coordinates u, v: u counts across the members, v along them. Walls and ceilings, members
// that stand and members that lie, are then one case.

// stretch is a part of a row on a sheet; its ends are where the sheet ends.
type stretch = shape.Span

// sheet is a panel in u, v.
type sheet struct {
	outline shape.Polygon
	holes   []shape.Polygon
	box     shape.Rect // X, W across the members; Y, H along them
}

func newSheet(outline shape.Polygon, holes []shape.Polygon, transposed bool) sheet {
	s := sheet{outline: outline, holes: holes}
	if transposed {
		return s.transposed()
	}
	s.box = outline.Bounds()
	return s
}

func (s sheet) transposed() sheet {
	t := sheet{outline: s.outline.Transposed()}
	for _, h := range s.holes {
		t.holes = append(t.holes, h.Transposed())
	}
	t.box = t.outline.Bounds()
	return t
}

// crossing is where a line u = const meets a side of an outline.
type crossing struct {
	v    length.Length
	side int
}

// crossings lists where the line at u crosses an outline, from low v to high. A side counts from its lower u up to,
// but not at, its higher u, so a corner on the line counts once.
func crossings(p shape.Polygon, u length.Length) []crossing {
	var found []crossing
	for i, a := range p {
		b := p[(i+1)%len(p)]
		if (a.X <= u) == (b.X <= u) {
			continue
		}
		share := float64(u-a.X) / float64(b.X-a.X)
		v := a.Y + length.Length(math.Round(share*float64(b.Y-a.Y)))
		found = append(found, crossing{v, i})
	}
	slices.SortFunc(found, func(a, b crossing) int { return cmp.Or(cmp.Compare(a.v, b.v), cmp.Compare(a.side, b.side)) })
	return found
}

// stretches are the parts of the line u = const within an outline.
func stretches(p shape.Polygon, u length.Length) []stretch {
	c := crossings(p, u)
	var spans []stretch
	for i := 0; i+1 < len(c); i += 2 {
		if c[i+1].v > c[i].v {
			spans = append(spans, stretch{From: c[i].v, To: c[i+1].v})
		}
	}
	return spans
}

// at lists the stretches of the sheet on the line u = const, holes taken out.
func (s sheet) at(u length.Length) []stretch {
	spans := stretches(s.outline, u)
	for _, h := range s.holes {
		for _, gone := range stretches(h, u) {
			var left []stretch
			for _, c := range spans {
				if gone.To <= c.From || gone.From >= c.To {
					left = append(left, c)
					continue
				}
				if gone.From > c.From {
					left = append(left, stretch{From: c.From, To: gone.From})
				}
				if gone.To < c.To {
					left = append(left, stretch{From: gone.To, To: c.To})
				}
			}
			spans = left
		}
	}
	return spans
}

// clear lists the stretches of the line u = const that keep Edge away from every upright side of the sheet.
func (s sheet) clear(u length.Length) []stretch {
	return overlap(overlap(s.at(u), s.at(u-Edge+1)), s.at(u+Edge-1))
}

// overlap is the part that two lists of stretches share.
func overlap(a, b []stretch) []stretch {
	var both []stretch
	for _, x := range a {
		for _, y := range b {
			if from, to := max(x.From, y.From), min(x.To, y.To); to > from {
				both = append(both, stretch{From: from, To: to})
			}
		}
	}
	return both
}

// along places fasteners between two places, both of them fixed, at most spacing apart and evenly.
func along(from, to, spacing length.Length) []length.Length {
	if to < from {
		return nil
	}
	n := (to - from + spacing - 1) / spacing
	if n == 0 {
		return []length.Length{from}
	}
	at := make([]length.Length, 0, n+1)
	for i := range n + 1 {
		at = append(at, from+even(to-from, i, n))
	}
	return at
}

// even is i/n of a distance, rounded down; the product stays in range for distances under a kilometre.
func even(distance, i, n length.Length) length.Length {
	return distance/n*i + distance%n*i/n
}
