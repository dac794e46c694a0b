package draft

// DrawIcon draws the program's sign, 64 by 64 logical pixels from a place: a sheet of board and one of plywood that
// meet at a staggered seam, each part of it on a stud; the seam is the chalk line's blue.
func DrawIcon(c Canvas, at Pt, size float64) {
	th := Paper()
	k := size / 64
	p := func(x, y float64) Pt { return at.Add(Pt{x * k, y * k}) }
	box := func(x, y, w, h float64) Path { return Path{{p(x, y), p(x+w, y), p(x+w, y+h), p(x, y+h)}} }
	c.Begin("icon")
	defer c.End()
	c.Fill(Path{corners(Rect{at.X + 2*k, at.Y + 2*k, 60 * k, 60 * k}, 9*k)}, th.Ink)
	// Studs look out above and below the sheets.
	for _, x := range [...]float64{12, 25, 38, 51} {
		c.Fill(box(x-2, 6, 4, 52), th.Framing.Fill)
	}
	c.Fill(Path{{p(6, 12), p(38, 12), p(38, 32), p(25, 32), p(25, 52), p(6, 52)}}, rgb(0xF6F3EA))
	c.Fill(Path{{p(38, 12), p(58, 12), p(58, 52), p(25, 52), p(25, 32), p(38, 32)}}, rgb(0xDDB06B))
	if size >= 32 {
		dot := Pen{Width: 1.2 * k, Color: th.Wood.Mark}
		for _, y := range [...]float64{18, 26, 38, 46} {
			from := 42.0
			if y > 32 {
				from = 30
			}
			c.Stroke([]Pt{p(from, y), p(54, y)}, false, dot)
		}
		for _, q := range [...]Pt{{11, 18}, {20, 24}, {30, 17}, {14, 30}, {33, 27}, {10, 41}, {19, 37}, {17, 47}} {
			c.Disc(p(q.X, q.Y), 0.9*k, th.Board.Mark)
		}
	}
	c.Stroke([]Pt{p(38, 12), p(38, 32), p(25, 32), p(25, 52)}, false, Pen{Width: 3.5 * k, Color: th.Accent})
}

// corners is a rectangle with rounded corners.
func corners(r Rect, radius float64) []Pt {
	const steps = 6
	var ring []Pt
	for q, mid := range [4]Pt{{r.X + r.W - radius, r.Y + r.H - radius}, {r.X + radius, r.Y + r.H - radius}, {r.X + radius, r.Y + radius}, {r.X + r.W - radius, r.Y + radius}} {
		for i := 0; i <= steps; i++ {
			ring = append(ring, mid.Add(turned(float64(q)+float64(i)/steps).Mul(radius)))
		}
	}
	return ring
}
