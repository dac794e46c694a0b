package draft

import "math"

// scanner turns outlines into coverage, exactly: every edge adds its signed area to the cells that it crosses, and
// a running sum along each row gives the covered part of each pixel. Outlines that overlap in the same direction
// join; a hole runs the other way. Coordinates are device pixels relative to the scanner's window.
type scanner struct {
	w, h  int
	cells []float32 // (w+1) a row: the last takes what lies to the right of the window
	top   int       // rows touched: top <= y < end
	end   int
}

func (s *scanner) open(w, h int) {
	s.w, s.h = w, h
	if n := (w + 1) * h; n > len(s.cells) {
		s.cells = make([]float32, n)
	}
	s.top, s.end = h, 0
}

// edge adds the line from a to b, split where it leaves the window so that what lies to the left still counts.
func (s *scanner) edge(a, b Pt) {
	if a.Y == b.Y {
		return
	}
	sign := float32(1)
	if a.Y > b.Y {
		a, b, sign = b, a, -1
	}
	h, w := float64(s.h), float64(s.w)
	if b.Y <= 0 || a.Y >= h {
		return
	}
	slope := (b.X - a.X) / (b.Y - a.Y)
	if a.Y < 0 {
		a = Pt{a.X - a.Y*slope, 0}
	}
	if b.Y > h {
		b = Pt{b.X + (h-b.Y)*slope, h}
	}
	if s.top > int(a.Y) {
		s.top = int(a.Y)
	}
	if e := int(math.Ceil(b.Y)); s.end < e {
		s.end = e
	}
	// Cut at x = 0 and x = w, in order of y; outside parts become upright lines on the border.
	cuts := [4]float64{a.Y, b.Y, b.Y, b.Y}
	n := 1
	if slope != 0 {
		y0, y1 := a.Y-a.X/slope, a.Y+(w-a.X)/slope
		if y1 < y0 {
			y0, y1 = y1, y0
		}
		for _, y := range [2]float64{y0, y1} {
			if y > a.Y && y < b.Y {
				cuts[n] = y
				n++
			}
		}
	}
	cuts[n] = b.Y
	x := func(y float64) float64 { return math.Max(0, math.Min(w, a.X+(y-a.Y)*slope)) }
	for i := 0; i < n; i++ {
		s.inside(Pt{x(cuts[i]), cuts[i]}, Pt{x(cuts[i+1]), cuts[i+1]}, sign)
	}
}

// inside adds a downward line that lies within the window.
func (s *scanner) inside(a, b Pt, sign float32) {
	if a.Y >= b.Y || a.X >= float64(s.w) && b.X >= float64(s.w) {
		return
	}
	slope := (b.X - a.X) / (b.Y - a.Y)
	x := a.X
	for y := int(a.Y); float64(y) < b.Y && y < s.h; y++ {
		row := s.cells[y*(s.w+1) : (y+1)*(s.w+1)]
		dy := math.Min(float64(y+1), b.Y) - math.Max(float64(y), a.Y)
		next := x + slope*dy
		d := sign * float32(dy)
		x0, x1 := x, next
		if x1 < x0 {
			x0, x1 = x1, x0
		}
		x = next
		i0 := int(x0)
		i1 := int(math.Ceil(x1))
		if i0 < 0 {
			i0, x0 = 0, 0
		}
		if i0 >= s.w {
			row[s.w] += d
			continue
		}
		if i1 <= i0+1 { // within one cell
			m := float32((x0+x1)/2 - float64(i0))
			row[i0] += d * (1 - m)
			row[i0+1] += d * m
			continue
		}
		inv := 1 / (x1 - x0)
		f0 := float32(float64(i0+1) - x0)
		first := float32(0.5*inv) * f0 * f0
		row[i0] += d * first
		if i1 == i0+2 {
			f1 := float32(x1 - float64(i0+1))
			last := float32(0.5*inv) * f1 * f1
			row[i0+1] += d * (1 - first - last)
			s.put(row, i0+2, d*last)
			continue
		}
		a1 := float32(inv) * (0.5 + f0)
		row[i0+1] += d * (a1 - first)
		for i := i0 + 2; i < i1-1; i++ {
			s.put(row, i, d*float32(inv))
		}
		a2 := a1 + float32(inv)*float32(i1-i0-3)
		f1 := float32(x1 - float64(i1-1))
		last := float32(0.5*inv) * f1 * f1
		s.put(row, i1-1, d*(1-a2-last))
		s.put(row, i1, d*last)
	}
}

// put adds to a cell; rounding can push the last one a hair past the window.
func (s *scanner) put(row []float32, i int, d float32) {
	if i > s.w {
		i = s.w
	}
	row[i] += d
}

// rows gives each touched row's coverage from column `from` on, and leaves the scanner clean.
func (s *scanner) rows(emit func(y, from int, cover []uint8)) {
	var buf []uint8
	for y := s.top; y < s.end && y < s.h; y++ {
		row := s.cells[y*(s.w+1) : (y+1)*(s.w+1)]
		if cap(buf) < s.w {
			buf = make([]uint8, s.w)
		}
		buf = buf[:s.w]
		var sum float32
		from, to := -1, 0
		for x := 0; x < s.w; x++ {
			sum += row[x]
			row[x] = 0
			v := sum
			if v < 0 {
				v = -v
			}
			if v > 1 {
				v = 1
			}
			k := uint8(v*255 + 0.5)
			buf[x] = k
			if k != 0 {
				if from < 0 {
					from = x
				}
				to = x + 1
			}
		}
		row[s.w] = 0
		if from >= 0 {
			emit(y, from, buf[from:to])
		}
	}
}

// turns gives twice the signed area of an outline: its sign is the direction it runs in.
func turns(line []Pt) float64 {
	var a float64
	for i, p := range line {
		q := line[(i+1)%len(line)]
		a += p.X*q.Y - q.X*p.Y
	}
	return a
}
