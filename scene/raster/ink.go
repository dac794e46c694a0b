package raster

import "math"

// lineBias lets a line show on the face that it lies on: 0.4 mm at 2 m, above float32's own error. As part of 1/w.
const lineBias = 2e-4

// ink lays a stroke over the tile. A sample's share is its distance from the stroke's axis against half the width,
// cut off over one sample. Depth is tested at the axis, not at the sample: the plane of the face seen in the sample
// is taken to the axis point and compared there, so a line in an inside corner is not swallowed by the walls that
// rise towards the eye on both sides of it.
//
// All is counted in pixels; in a sharp frame, where depth has four samples to a pixel, two of them are asked.
func (c *core) ink(t *tile, s *stroke) {
	pen := &c.frame.Pens[s.pen]
	per := 1 / float64(c.samples)
	x0, y0 := float64(s.x0)*per, float64(s.y0)*per
	dx, dy := float64(s.x1)*per-x0, float64(s.y1)*per-y0
	length := math.Sqrt(dx*dx + dy*dy)
	if length < 1e-3 {
		return
	}
	steep := math.Abs(dy) > math.Abs(dx)
	// Along the major axis a, across it b; steps of both in depth, face and colour.
	a0, b0, da, db := x0-float64(t.x0)*per, y0-float64(t.y0)*per, dx, dy
	countA, countB := t.w/c.samples, t.h/c.samples
	stepA, stepB, outA, outB := c.samples, tileW*c.samples, 1, t.pitch
	if steep {
		a0, b0, da, db = b0, a0, db, da
		countA, countB = countB, countA
		stepA, stepB, outA, outB = stepB, stepA, outB, outA
	}
	half := float64(s.half) * per
	cos := math.Abs(da) / length
	reach := (half + 0.5) / cos // how far the stroke extends across, measured along b
	ext := half * cos           // square ends close the corners of outlines
	lowA, highA := a0-ext, a0+da+ext
	if da < 0 {
		lowA, highA = a0+da-ext, a0+ext
	}
	slope := db / da
	from, to := lowA-0.5, highA+0.5
	// Only where the axis passes within reach of the tile.
	if math.Abs(slope) > 1e-6 {
		u, v := a0+(-reach-b0)/slope, a0+(float64(countB)+reach-b0)/slope
		if u > v {
			u, v = v, u
		}
		if u > from {
			from = u
		}
		if v < to {
			to = v
		}
	}
	first, last := firstCentre(from, 0, countA), firstCentre(to, 0, countA)
	if first >= last {
		return
	}
	full := 1.0 // what a sample on the axis takes at most
	if half < 0.5 {
		full = 2 * half
	}
	dash := &c.dashes[s.pen]
	run, perStep := 0.0, 0.0 // along the dashes, in steps of their table
	if dash.scale > 0 {
		perStep = length / da * dash.scale
		run = (float64(s.phase)*per+(float64(first)+0.5-a0)*length/da)*dash.scale + 1<<20*dashSteps
	}
	at, dat := (float64(first)+0.5-a0)/da, 1/da
	bc := b0 + (float64(first)+0.5-a0)*slope
	double := 0.0
	if pen.Double {
		double = half / 3
	}
	for a := first; a < last; a, at, bc, run = a+1, at+dat, bc+slope, run+perStep {
		share := float64(s.alpha)
		// The ends fade over one sample.
		ac := float64(a) + 0.5
		if e := ac - lowA + 0.5; e < 1 {
			share *= e
		}
		if e := highA - ac + 0.5; e < 1 {
			share *= e
		}
		if dash.scale > 0 {
			share *= float64(dash.down[int(run)&(dashSteps-1)])
		}
		if share <= 0 {
			continue
		}
		on := at
		if on < 0 {
			on = 0
		} else if on > 1 {
			on = 1
		}
		limit := (float64(s.z0) + float64(s.z1-s.z0)*on) * (1 + lineBias)
		near := float32(limit)
		low, high := bc-reach-0.5, bc+reach-0.5
		fb, lb := 0, countB
		if low > 0 {
			fb = int(low) + 1
		}
		if high < float64(countB) {
			lb = int(high + 1) // high is above -1 here: the axis is within reach
		}
		i, o := a*stepA+fb*stepB, a*outA+fb*outB
		for b := fb; b < lb; b, i, o = b+1, i+stepB, o+outB {
			dist := (float64(b) + 0.5 - bc) * cos
			if dist < 0 {
				dist = -dist
			}
			cover := half + 0.5 - dist
			if cover <= 0 {
				continue
			}
			if cover > full {
				cover = full
			}
			if dist < double {
				if cover *= dist - double + 0.5; cover <= 0 {
					continue
				}
			}
			if !pen.Over {
				first := t.depth[i] > near && c.hidden(t.face[i], s, on, limit)
				last := first
				if j := i + tileW + 1; c.samples > 1 {
					last = t.depth[j] > near && c.hidden(t.face[j], s, on, limit)
				}
				if first && last {
					continue
				}
				if first != last {
					cover /= 2
				}
			}
			blend(&t.out[o], pen.Colour, uint32(cover*share*256+0.5))
		}
	}
}

// hidden reports whether the face seen in a sample lies before the stroke's axis a part of the way along it. On its
// own plane a line shows, whatever the sample's depth.
func (c *core) hidden(number int32, s *stroke, on, limit float64) bool {
	if number == 0 {
		return true
	}
	owner := c.polys[number-1].shot
	return owner != s.shot &&
		c.shots[owner].z.at(float64(s.x0)+float64(s.x1-s.x0)*on, float64(s.y0)+float64(s.y1-s.y0)*on) > limit
}

// blend lays k/256 of a colour over a sample.
func blend(to *Colour, colour Colour, k uint32) {
	under, over := uint32(*to), uint32(colour)
	// Alpha is blended with the colour, as image.RGBA holds it premultiplied.
	rb := ((under&0xff00ff)*(256-k) + (over&0xff00ff)*k) >> 8 & 0xff00ff
	ga := ((under>>8&0xff00ff)*(256-k) + (over>>8&0xff00ff)*k) & 0xff00ff00
	*to = Colour(rb | ga)
}

// dashSteps is how finely a dash pattern is tabled: the longest, 30 pixels, to an eighth of a pixel.
const dashSteps = 256

// dashes is a pen's pattern over one period: how far it is down, 0 to 1.
type dashes struct {
	scale float64 // table steps per pixel; 0: solid
	down  [dashSteps]float32
}

// fill tables a pen's dashes.
func (d *dashes) fill(p *Pen) {
	d.scale = 0
	total := 0.0
	for _, l := range p.Dash {
		total += float64(l)
	}
	if total <= 0 {
		return
	}
	d.scale = dashSteps / total
	for i := range d.down {
		d.down[i] = float32(p.dash((float64(i) + 0.5) / d.scale))
	}
}

// dash is how far the pen is down after so many pixels of a period, 0 to 1, with its ends softened.
func (p *Pen) dash(run float64) float64 {
	for i, d := range p.Dash {
		l := float64(d)
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
