package tally

import (
	"math"

	"seamwright/calc/layout"
	"seamwright/calc/length"
)

// wider is added to the score of a place that is wider than the piece: a strip of just the right width comes first.
const wider = 1 << 50

// perPiece is the work that goes with a piece whatever the number of places looked at.
const perPiece = 16

// place cuts one piece from the tightest rest, or opens a sheet: a strip of just the right width first, then the least
// length and width left.
func (c *Counter) place(s *layout.Size, way int, bySheets bool) bool {
	l, w := s.L+c.kerf, s.W+c.kerf
	tapers := int8(s.Tapers)
	best, turned := -1, false
	score := length.Length(math.MaxInt64)
	for i := range c.rects {
		r := &c.rects[i]
		if r.l >= l && r.w >= w && r.tapers >= tapers && (tapers < 2 || r.w == w) {
			sc := r.l - l
			if r.w != w {
				sc += r.w - w + wider
			}
			if sc < score {
				best, turned, score = i, false, sc
			}
		}
		if s.Turn && r.l >= w && r.w >= l {
			sc := r.l - w
			if r.w != l {
				sc += r.w - l + wider
			}
			if sc < score {
				best, turned, score = i, true, sc
			}
		}
	}
	c.meter.Work += int64(len(c.rects)) + perPiece
	if best < 0 {
		if best, turned = c.open(s, l, w, way, bySheets); best < 0 {
			return false
		}
	}
	if turned {
		l, w = w, l
	}
	c.take(best, l, w, tapers > 0, way&ripFirst != 0)
	return true
}

// take cuts a piece from a rest.
func (c *Counter) take(at int, l, w length.Length, tapered, rip bool) {
	r := c.rects[at]
	c.last = r.sheet
	if f := &c.opened[r.sheet]; r.x+l > f.used {
		f.used = r.x + l
		if f.kind >= 0 {
			price := c.shrunk(f)
			c.paid += price - f.price
			f.price = price
		}
	}
	tapers, mine := r.tapers, int8(0)
	if tapers > 0 && (tapered || tapers == 2) {
		tapers--
	}
	if tapered {
		mine = 1
	}
	along := rest{r.x + l, r.l - l, r.w, r.tapers, r.sheet}
	if r.w == w {
		c.rects[at] = along
		c.drop(at)
		return
	}
	var beside rest
	if rip {
		beside = rest{r.x + l, r.l - l, w, mine, r.sheet}
		c.rects[at] = rest{r.x, r.l, r.w - w, tapers, r.sheet}
	} else {
		beside = rest{r.x, l, r.w - w, tapers, r.sheet}
		c.rects[at] = along
	}
	c.rects = append(c.rects, beside)
	c.drop(len(c.rects) - 1)
	c.drop(at)
}

// drop forgets a rest that is too small for any piece.
func (c *Counter) drop(i int) {
	if r := &c.rects[i]; r.l < c.leastL || r.w < c.leastW {
		c.excess += areaOf(r.l, r.w)
		n := len(c.rects) - 1
		c.rects[i] = c.rects[n]
		c.rects = c.rects[:n]
	}
}

// shrunk is the price of the cheapest sheet of the same width that is long enough for what is cut from one.
func (c *Counter) shrunk(f *sheet) int64 {
	k := &c.sheets[f.kind]
	for i := range c.sheets {
		s := &c.sheets[i]
		if s.w == k.w && s.l >= f.used {
			return min(s.cost, k.cost)
		}
	}
	return k.cost
}

// holds tells whether a sheet holds a piece, lying straight or turned.
func (k *sheetKind) holds(s *layout.Size, l, w length.Length) (straight, across bool) {
	straight = k.l >= l && k.w >= w && k.tapers >= int8(s.Tapers) && (s.Tapers < 2 || k.w == w)
	return straight, s.Turn && k.l >= w && k.w >= l
}

// open takes a piece from stock, the smallest that holds it, or opens a new sheet.
func (c *Counter) open(s *layout.Size, l, w length.Length, way int, bySheets bool) (at int, turned bool) {
	kind, found := int32(0), false
	var least float64
	for i := range c.stock {
		k := &c.stock[i]
		straight, across := k.holds(s, l, w)
		if c.used[i] == k.count || !straight && !across {
			continue
		}
		if area := float64(k.l) * float64(k.w); !found || area < least {
			kind, found, turned, least = int32(-1-i), true, !straight, area
		}
	}
	if !found && c.bought < c.room {
		for _, i := range c.opening(way, bySheets) {
			if straight, across := c.sheets[i].holds(s, l, w); straight || across {
				kind, found, turned = i, true, !straight
				break
			}
		}
	}
	if !found {
		return -1, false
	}
	var k *sheetKind
	if kind < 0 {
		c.used[-1-kind]++
		k = &c.stock[-1-kind]
	} else {
		k = &c.sheets[kind]
		c.bought++
		c.excess -= areaOf(k.l, k.w)
	}
	c.opened = append(c.opened, sheet{kind: kind})
	c.rects = append(c.rects, rest{0, k.l, k.w, k.tapers, int32(len(c.opened) - 1)})
	return len(c.rects) - 1, turned
}
