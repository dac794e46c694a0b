package layout

import (
	"cmp"
	"slices"

	"seamwright/calc/length"
	"seamwright/calc/shape"
)

// interval is a stretch of v.
type interval struct{ lo, hi length.Length }

// slab is a stretch of u over which the covered part of a band changes evenly: its intervals of v at either end.
type slab struct {
	from, to    length.Length
	left, right []interval
}

// profile describes the covered part of a band, slab by slab, so that the size of a piece and the length of a seam
// are found without clipping polygons again.
type profile []slab

// newProfile reads the profile of the regions between two heights.
func newProfile(cover []shape.Region, v0, v1 length.Length) profile {
	var parts []shape.Region
	for _, g := range cover {
		parts = append(parts, g.Band(shape.AtY, v0, v1)...)
	}
	var us []length.Length
	for _, g := range parts {
		for _, p := range g.Outline {
			us = append(us, p.X)
		}
		for _, h := range g.Holes {
			for _, p := range h {
				us = append(us, p.X)
			}
		}
	}
	slices.Sort(us)
	us = slices.Compact(us)
	var pr profile
	for i := 1; i < len(us); i++ {
		s := slab{from: us[i-1], to: us[i]}
		for _, g := range parts {
			for _, piece := range g.Band(shape.AtX, s.from, s.to) {
				s.left = append(s.left, side(piece.Outline, s.from))
				s.right = append(s.right, side(piece.Outline, s.to))
			}
		}
		if len(s.left) == 0 {
			continue
		}
		order := make([]int, len(s.left))
		for k := range order {
			order[k] = k
		}
		slices.SortFunc(order, func(a, b int) int { return cmp.Compare(s.left[a].lo, s.left[b].lo) })
		l, r := make([]interval, len(order)), make([]interval, len(order))
		for k, o := range order {
			l[k], r[k] = s.left[o], s.right[o]
		}
		s.left, s.right = l, r
		pr = append(pr, s)
	}
	return pr
}

// side is the stretch of an outline that lies on an upright line; a corner that touches it gives an empty stretch.
func side(p shape.Polygon, u length.Length) interval {
	first := true
	var iv interval
	for _, q := range p {
		if q.X != u {
			continue
		}
		if first {
			iv, first = interval{q.Y, q.Y}, false
			continue
		}
		iv.lo, iv.hi = min(iv.lo, q.Y), max(iv.hi, q.Y)
	}
	if first {
		b := p.Bounds()
		return interval{b.Y, b.MaxY()}
	}
	return iv
}

// at interpolates a slab's interval k at u.
func (s *slab) at(u length.Length, k int) interval {
	l, r := s.left[k], s.right[k]
	if s.to == s.from || l == r || u <= s.from {
		return l
	}
	if u >= s.to {
		return r
	}
	t := float64(u-s.from) / float64(s.to-s.from)
	return interval{l.lo + length.Length(t*float64(r.lo-l.lo)), l.hi + length.Length(t*float64(r.hi-l.hi))}
}

// pieces are the bounding stretches of v of the connected parts between two places.
func (pr profile) pieces(from, to length.Length, out []interval) []interval {
	n := 0
	for i := range pr {
		s := &pr[i]
		if s.to <= from || s.from >= to {
			continue
		}
		if n == 0 || len(s.left) < n {
			n = len(s.left)
		}
	}
	out = out[:0]
	for i := range pr {
		s := &pr[i]
		if s.to <= from || s.from >= to {
			continue
		}
		for k := range s.left {
			j := min(k, n-1)
			a, b := s.at(max(from, s.from), k), s.at(min(to, s.to), k)
			iv := interval{min(a.lo, b.lo), max(a.hi, b.hi)}
			if j >= len(out) {
				out = append(out, iv)
				continue
			}
			out[j] = interval{min(out[j].lo, iv.lo), max(out[j].hi, iv.hi)}
		}
	}
	return out
}

// seam are the stretches of v in which a seam at u has board on both sides.
func (pr profile) seam(u length.Length) []interval {
	var l, r []interval
	for i := range pr {
		s := &pr[i]
		if s.from < u && u <= s.to {
			for k := range s.left {
				l = append(l, s.at(u, k))
			}
		}
		if s.from <= u && u < s.to {
			for k := range s.left {
				r = append(r, s.at(u, k))
			}
		}
	}
	var both []interval
	for _, a := range l {
		for _, b := range r {
			if lo, hi := max(a.lo, b.lo), min(a.hi, b.hi); lo < hi {
				both = append(both, interval{lo, hi})
			}
		}
	}
	return both
}
