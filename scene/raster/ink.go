package raster

import "math"

// Tolerances of the lines' depth test, as parts of 1/w.
const (
	// lineBias lets a line show on the face that it lies on: 0.4 mm at 2 m, above float32's own error.
	lineBias = 2e-4
)

// ink lays a stroke over the tile. A sample's share is its distance from the stroke's axis against half the width,
// cut off over one sample. Depth is tested at the axis, not at the sample: the plane of the face seen in the sample
// is taken to the axis point and compared there, so a line in an inside corner is not swallowed by the walls that
// rise towards the eye on both sides of it.
func (c *core) ink(t *tile, s *stroke) {
	pen := &c.frame.Pens[s.pen]
	dx, dy := float64(s.x1-s.x0), float64(s.y1-s.y0)
	length := math.Hypot(dx, dy)
	if length < 1e-3 {
		return
	}
	steep := math.Abs(dy) > math.Abs(dx)
	// Along the major axis a, across it b.
	a0, b0, da, db := float64(s.x0), float64(s.y0), dx, dy
	originA, originB, countA, countB := t.x0, t.y0, t.w, t.h
	if steep {
		a0, b0, da, db = b0, a0, db, da
		originA, originB, countA, countB = originB, originA, countB, countA
	}
	half := float64(s.half)
	cos := math.Abs(da) / length
	reach := (half + 0.5) / cos // how far the stroke extends across, measured along b
	lowA, highA := min(a0, a0+da), max(a0, a0+da)
	ext := half * cos // square ends close the corners of outlines
	first, last := firstCentre(lowA-ext-0.5, originA, countA), firstCentre(highA+ext+0.5, originA, countA)
	slope := db / da
	for a := first; a < last; a++ {
		ac := float64(originA+a) + 0.5
		off := (ac - a0) / da
		at := max(0, min(1, off))
		bc := b0 + (ac-a0)*slope
		// The ends fade over one sample.
		end := min(1, min(ac-(lowA-ext), highA+ext-ac)+0.5)
		if end <= 0 {
			continue
		}
		share := float64(s.alpha) * end
		if pen.Dash[0] > 0 {
			d := pen.dash(float64(s.phase)+at*length, float64(c.samples))
			if d <= 0 {
				continue
			}
			share *= d
		}
		z := float64(s.z0) + float64(s.z1-s.z0)*at
		limit := z * (1 + lineBias)
		axisX, axisY := float64(s.x0)+dx*at, float64(s.y0)+dy*at
		fb, lb := firstCentre(bc-reach, originB, countB), firstCentre(bc+reach, originB, countB)
		for b := fb; b < lb; b++ {
			dist := math.Abs(float64(originB+b)+0.5-bc) * cos
			cover := half + 0.5 - dist
			if cover <= 0 {
				continue
			}
			if cover > 1 {
				cover = 1
			}
			if half < 0.5 {
				cover = min(cover, 2*half)
			}
			if pen.Double && dist < half/3 {
				cover *= max(0, dist-half/3+0.5)
				if cover <= 0 {
					continue
				}
			}
			i := b*tileW + a
			if steep {
				i = a*tileW + b
			}
			if !pen.Over && float64(t.depth[i]) > limit {
				if k := t.face[i]; k == 0 || c.shots[c.polys[k-1].shot].z.at(axisX, axisY) > limit {
					continue
				}
			}
			t.blend(i, pen.Colour, cover*share)
		}
	}
}

// blend lays colour over a sample.
func (t *tile) blend(i int, colour Colour, share float64) {
	k := uint32(share*256 + 0.5)
	under, over := uint32(t.colour[i]), uint32(colour)
	// Alpha is blended with the colour, as image.RGBA holds it premultiplied.
	rb := ((under&0xff00ff)*(256-k) + (over&0xff00ff)*k) >> 8 & 0xff00ff
	ga := ((under>>8&0xff00ff)*(256-k) + (over>>8&0xff00ff)*k) & 0xff00ff00
	t.colour[i] = Colour(rb | ga)
}

// dash is how far the pen is down after so many samples, 0 to 1, with its ends softened.
func (p *Pen) dash(run, samples float64) float64 {
	total := 0.0
	for _, d := range p.Dash {
		total += float64(d) * samples
	}
	run -= total * math.Floor(run/total)
	for i, d := range p.Dash {
		l := float64(d) * samples
		if run < l {
			if i%2 == 1 {
				return 0
			}
			return min(1, min(run, l-run)+0.5)
		}
		run -= l
	}
	return 0
}
