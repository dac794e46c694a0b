package raster

import (
	"math"
)

// poly is a face as the view sees it: at most five corners, one more than the face has since Near may cut one off.
type poly struct {
	x, y               [5]float32 // samples
	near               float32    // greatest 1/w of its corners
	shot               int32
	shift              [2]float32
	n                  int8
	tint               uint8
	turn               bool
	material           uint16
	tx0, ty0, tx1, ty1 int16 // tiles that it may reach
}

// project fills a batch: planes, then the faces and lines on planes that show their front.
func (c *core) project(b *batch) {
	m := b.item.Mesh
	for i := range m.Planes {
		s := &c.shots[b.plane+i]
		c.seen[b.plane+i] = c.view.shoot(&m.Planes[i], s)
		c.coarse[b.plane+i] = s.times(float64(c.samples))
	}
	n := 0
	for i := range m.Faces {
		f := &m.Faces[i]
		if !c.seen[b.plane+int(f.Plane)] {
			continue
		}
		p := &c.polys[b.poly+n]
		if !c.cast(f, p) {
			continue
		}
		p.shot = int32(b.plane) + f.Plane
		p.material, p.turn, p.shift, p.tint = f.Material, f.Turn, f.Shift, 0
		if b.item.Tints != nil && f.Tag >= 0 {
			p.tint = b.item.Tints[f.Tag]
		}
		n++
	}
	b.polyCount = n
	n = 0
	for i := range m.Lines {
		l := &m.Lines[i]
		if l.Plane >= 0 && !c.seen[b.plane+int(l.Plane)] {
			continue
		}
		if st := &c.strokes[b.stroke+n]; c.stroke(l, st) {
			st.shot = -1
			if l.Plane >= 0 {
				st.shot = int32(b.plane) + l.Plane
			}
			n++
		}
	}
	b.strokeCount = n
}

// cast projects a face's corners, clipped at Near; false where nothing of it can lie in the picture.
func (c *core) cast(f *Face, p *poly) bool {
	v := &c.view
	var cx, cy, cz [4]float64
	count := int(f.N)
	front := 0
	for i := range count {
		cx[i], cy[i], cz[i] = v.camera(&f.V[i])
		if cz[i] >= Near {
			front++
		}
	}
	if front == 0 {
		return false
	}
	halfW, halfH := float64(v.W)/2, float64(v.H)/2
	lowX, highX, lowY, highY, near := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1), 0.0
	n := 0
	put := func(x, y, z float64) {
		k := v.Focal / z
		x, y = halfW+x*k, halfH-y*k
		p.x[n], p.y[n] = float32(x), float32(y)
		lowX, highX = min(lowX, x), max(highX, x)
		lowY, highY = min(lowY, y), max(highY, y)
		near = max(near, 1/z)
		n++
	}
	if front == count {
		for i := range count {
			put(cx[i], cy[i], cz[i])
		}
	} else {
		for i := range count {
			k := i + 1
			if k == count {
				k = 0
			}
			if cz[i] >= Near {
				put(cx[i], cy[i], cz[i])
			}
			if (cz[i] >= Near) != (cz[k] >= Near) {
				// From the corner in front to the one behind, so that faces sharing the edge cut it alike.
				a, b := i, k
				if cz[a] < Near {
					a, b = k, i
				}
				t := (cz[a] - Near) / (cz[a] - cz[b])
				put(cx[a]+(cx[b]-cx[a])*t, cy[a]+(cy[b]-cy[a])*t, Near)
			}
		}
	}
	if highX < 0 || highY < 0 || lowX > float64(v.W) || lowY > float64(v.H) {
		return false
	}
	// No sample centre between its lowest and highest row: nothing to fill.
	if math.Ceil(lowY-0.5) > math.Floor(highY-0.5) || math.Ceil(lowX-0.5) > math.Floor(highX-0.5) {
		return false
	}
	p.n, p.near = int8(n), float32(near)
	p.tx0, p.tx1 = tileRange(lowX, highX, tileW, c.cols)
	p.ty0, p.ty1 = tileRange(lowY, highY, tileH, c.rows)
	return true
}

// tileRange is the first and last tile between two picture coordinates.
func tileRange(low, high float64, side, count int) (first, last int16) {
	limit := float64(count*side - 1)
	low, high = max(0, min(low, limit)), max(0, min(high, limit))
	return int16(int(low) / side), int16(int(high) / side)
}

// stroke is a line as the view sees it.
type stroke struct {
	x0, y0, z0 float32 // start: samples and 1/w
	x1, y1, z1 float32
	half       float32 // half the width
	alpha      float32
	phase      float32 // samples that the dashes have run before the start
	shot       int32   // of the plane that it lies on, or -1
	pen        uint8
}

// The sizes in pixels between which a line fades: lines closer together than the lower are not drawn, which keeps
// distant framing from turning into noise.
const (
	FadeFrom = 2.0
	FadeTo   = 9.0
)

// slightest is the least opacity in 1/255 worth drawing.
const slightest = 0.02

// stroke projects a line, clipped at Near and at the picture's border; false where it is not drawn.
func (c *core) stroke(l *Line, s *stroke) bool {
	pen := &c.frame.Pens[l.Pen]
	if pen.Width <= 0 || pen.Alpha <= slightest {
		return false
	}
	v := &c.view
	ax, ay, az := v.camera(&l.A)
	bx, by, bz := v.camera(&l.B)
	if az < Near && bz < Near {
		return false
	}
	if az < Near {
		t := (Near - az) / (bz - az)
		ax, ay, az = ax+(bx-ax)*t, ay+(by-ay)*t, Near
	} else if bz < Near {
		t := (Near - bz) / (az - bz)
		bx, by, bz = bx+(ax-bx)*t, by+(ay-by)*t, Near
	}
	halfW, halfH := float64(v.W)/2, float64(v.H)/2
	x0, y0, z0 := halfW+v.Focal*ax/az, halfH-v.Focal*ay/az, 1/az
	x1, y1, z1 := halfW+v.Focal*bx/bz, halfH-v.Focal*by/bz, 1/bz
	half := float64(pen.Width) * float64(c.samples) / 2
	alpha := pen.Alpha
	if l.Size > 0 {
		size := float64(l.Size) * v.Focal * max(z0, z1) / float64(c.samples)
		if size < FadeFrom {
			return false
		}
		alpha *= float32(min(1, (size-FadeFrom)/(FadeTo-FadeFrom)))
		if alpha <= slightest {
			return false
		}
	}
	// Clip to the picture, grown by the width (Liang and Barsky 1984).
	t0, t1 := 0.0, 1.0
	dx, dy := x1-x0, y1-y0
	edge := half + 2
	for _, e := range [4][2]float64{
		{-dx, x0 + edge}, {dx, float64(v.W) + edge - x0}, {-dy, y0 + edge}, {dy, float64(v.H) + edge - y0},
	} {
		switch {
		case e[0] == 0:
			if e[1] < 0 {
				return false
			}
		case e[0] < 0:
			t0 = max(t0, e[1]/e[0])
		default:
			t1 = min(t1, e[1]/e[0])
		}
	}
	if t0 >= t1 {
		return false
	}
	s.x0, s.y0, s.z0 = float32(x0+dx*t0), float32(y0+dy*t0), float32(z0+(z1-z0)*t0)
	s.x1, s.y1, s.z1 = float32(x0+dx*t1), float32(y0+dy*t1), float32(z0+(z1-z0)*t1)
	s.half, s.alpha, s.pen = float32(half), alpha, l.Pen
	s.phase = float32(math.Hypot(dx, dy) * t0)
	return true
}

// reach calls visit for every tile that a stroke may touch, in a fixed order.
func (c *core) reach(s *stroke, visit func(tile int)) {
	edge := s.half + 1.5
	y0, y1 := min(s.y0, s.y1)-edge, max(s.y0, s.y1)+edge
	if y1 < 0 || y0 > float32(c.view.H) {
		return
	}
	first, last := tileRange(float64(y0), float64(y1), tileH, c.rows)
	for ty := first; ty <= last; ty++ {
		// The part of the line between the tile row's upper and lower border.
		top, bottom := float32(ty)*tileH-edge, float32(ty+1)*tileH+edge
		t0, t1 := float32(0), float32(1)
		if dy := s.y1 - s.y0; dy != 0 {
			a, b := (top-s.y0)/dy, (bottom-s.y0)/dy
			t0, t1 = max(t0, min(a, b)), min(t1, max(a, b))
			if t0 > t1 {
				continue
			}
		}
		dx := s.x1 - s.x0
		xa, xb := s.x0+dx*t0, s.x0+dx*t1
		x0, x1 := min(xa, xb)-edge, max(xa, xb)+edge
		if x1 < 0 || x0 > float32(c.view.W) {
			continue
		}
		left, right := tileRange(float64(x0), float64(x1), tileW, c.cols)
		for tx := left; tx <= right; tx++ {
			visit(int(ty)*c.cols + int(tx))
		}
	}
}
