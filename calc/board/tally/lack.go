package tally

import "math"

// Lack is what the pieces asked for lack when sheets are limited: the area, in mm², of those that found no place, in the
// way of cutting that leaves least.
type Lack struct {
	Area int64
	Cost int64 // of the sheets that are opened
	Over bool  // the area is more than the limit that was asked about, and has not been counted further
	way  int
}

// NoLimit lets any number of sheets, any price and any area pass.
const NoLimit = math.MaxInt64

// perSquareMillimetre is how many units of area make 1 mm².
const perSquareMillimetre = 1_000_000

// Lack cuts what it can from so many bought sheets. It stops where more than a limit, in mm², must find no place.
func (c *Counter) Lack(d *Demand, sheets int, limit int64) Lack {
	asked := c.measure(d) - int64(sheets)*c.largest
	best := Lack{Area: NoLimit}
	from := c.habit[1]
	for k := range waysTried {
		way := from ^ k
		if len(c.sheets) == 1 && way&smallSheet != 0 || d.pieces > fewPieces && k > 1 && !c.Patient {
			continue
		}
		lack := c.fill(d, sheets, way, asked, min(best.Area-1, limit))
		if !lack.Over && lack.Area < best.Area {
			best = lack
			c.habit[1] = way
		}
		if best.Area == 0 {
			break
		}
	}
	if best.Area > limit {
		return Lack{Area: limit, Over: true}
	}
	return best
}

// fill cuts in one way, and gives up where more than an area is left over: as soon as what is wasted shows it.
func (c *Counter) fill(d *Demand, sheets, way int, asked, most int64) Lack {
	c.begin(sheets)
	c.excess = asked
	lack := Lack{way: way}
	for _, i := range d.order(way) {
		z := &d.sizes[i]
		for n := range d.n[i] {
			if !c.place(z, way, true) {
				lack.Area += int64(z.L/1e6) * int64(z.W/1e6) * int64(d.n[i]-n)
				break
			}
		}
		wasted := c.excess + int64(c.bought)*c.largest - c.largest/areaSlack // open has taken the area off, of smaller sheets too little
		if max(lack.Area, wasted/perSquareMillimetre) > most {
			lack.Over = true
			return lack
		}
	}
	lack.Cost = c.paid
	return lack
}

// Assign tells which sizes lie on each sheet when they are cut in the way that a lack was found by, and which sheets are
// bought.
func (c *Counter) Assign(d *Demand, sheets int, found Lack) (on [][]int32, bought []bool) {
	c.begin(sheets)
	for _, i := range d.order(found.way) {
		for range d.n[i] {
			c.place(&d.sizes[i], found.way, true)
			for int(c.last) >= len(on) {
				on = append(on, nil)
			}
			on[c.last] = append(on[c.last], i)
		}
	}
	for k := range on {
		bought = append(bought, c.opened[k].kind >= 0)
	}
	return on, bought
}
