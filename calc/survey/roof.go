package survey

import (
	"fmt"
	"math"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/shape"
)

// pitch is one plane of ceiling framing: its height above the floor changes along one axis of the floor plan, from
// one place to another; axis is empty for a flat one.
type pitch struct {
	side         string // the low side's compass name where the ceiling has two planes
	axis         job.Axis
	from, to     length.Length // places along the axis, from < to
	atFrom, atTo length.Length // heights at from and to
}

// roof is what stands over a room: its planes from the low coordinate up, and the lining below them.
type roof struct {
	ceiling *job.Ceiling
	planes  []pitch
	lining  length.Length // thickness of all layers; 0: nothing lined
}

// roofOf reads the ceiling's shape. A room without a ceiling has a flat head.
func roofOf(j *job.Job, r *job.Room) (roof, error) {
	flat := pitch{atFrom: r.Height, atTo: r.Height}
	c := r.Ceiling
	if c == nil {
		return roof{planes: []pitch{flat}}, nil
	}
	f := roof{ceiling: c}
	bounds := shape.Polygon(r.Corners).Bounds()
	span := map[job.Axis][2]length.Length{job.AxisX: {bounds.X, bounds.MaxX()}, job.AxisY: {bounds.Y, bounds.MaxY()}}
	switch c.Shape {
	case job.Flat, "":
		f.planes = []pitch{flat}
	case job.Ridge:
		across, low, high := job.AxisY, "south", "north"
		if c.Along == job.AxisY {
			across, low, high = job.AxisX, "west", "east"
		}
		s := span[across]
		if c.At <= s[0] || c.At >= s[1] {
			return f, job.Refuse(r.ID+"/ceiling", fmt.Sprintf("put `at` between its %s and %s walls", low, high), "the ridge does not lie over the room").At("shape", 0)
		}
		f.planes = []pitch{{low, across, s[0], c.At, r.Height, c.High}, {high, across, c.At, s[1], c.High, r.Height}}
	case job.Slope:
		p := pitch{axis: job.AxisY}
		if c.From == "west" || c.From == "east" {
			p.axis = job.AxisX
		}
		p.from, p.to = span[p.axis][0], span[p.axis][1]
		switch c.From + " " + c.To {
		case "south north", "west east":
			p.atFrom, p.atTo = r.Height, c.High
		case "north south", "east west":
			p.atFrom, p.atTo = c.High, r.Height
		default:
			return f, job.Refuse(r.ID+"/ceiling", "write opposite sides, like from: south, to: north", "a slope rises from one side to the opposite one, not from %q to %q", c.From, c.To).At("shape", 0)
		}
		f.planes = []pitch{p}
	default:
		return f, job.Refuse(r.ID+"/ceiling", "write flat, ridge or slope", "the ceiling's shape %q is not known", c.Shape).At("shape", 0)
	}
	if c.Shape != job.Flat && c.Shape != "" && c.High < r.Height {
		return f, job.Refuse(r.ID+"/ceiling", "raise it, or make the ceiling flat", "the high side lies below the room's height, which is that of the low side").At("shape", 0)
	}
	if len(c.Lining) > 1 {
		return f, job.Refuse(r.ID+"/ceiling", "zones by height belong to walls", "a ceiling has one zone").At("lining", 0)
	}
	for _, z := range c.Lining {
		for _, l := range z.Layers {
			if l == job.Open {
				continue
			}
			p := j.Product(l)
			if p == nil {
				return f, job.Refuse(r.ID+"/ceiling", "write the id of a product of the catalog", "there is no product %q in the catalog", l).At("lining", 0)
			}
			f.lining += p.Thickness
		}
	}
	return f, nil
}

func along(p shape.Point, axis job.Axis) length.Length {
	if axis == job.AxisX {
		return p.X
	}
	return p.Y
}

func (p pitch) run() length.Length  { return p.to - p.from }
func (p pitch) rise() length.Length { return p.atTo - p.atFrom }

// height of the framing's underside over a point of the floor plan, rounded once; the plane goes on past its ends.
func (p pitch) height(at shape.Point) length.Length {
	if p.rise() == 0 {
		return p.atFrom
	}
	return p.atFrom + ratio(along(at, p.axis)-p.from, p.rise(), p.run())
}

// thick is the vertical thickness of a lining of thickness t under the plane: t/cos of the slope.
func (p pitch) thick(t length.Length) length.Length {
	if p.rise() == 0 {
		return t
	}
	return stretched(t, p.run(), p.rise())
}

// fall is how steeply the plane falls on the way from a wall into the room: the tangent of that angle, negative
// where it rises. normal is the wall's unit normal into the room.
func (p pitch) fall(normal [3]float64) float64 {
	if p.rise() == 0 {
		return 0
	}
	n := normal[0]
	if p.axis == job.AxisY {
		n = normal[1]
	}
	return -n * float64(p.rise()) / float64(p.run())
}

// slant is a straight line over a wall: its heights at the wall's left end and at its right end.
type slant struct{ left, right length.Length }

func (l slant) at(x, width length.Length) length.Length {
	return l.left + ratio(x, l.right-l.left, width)
}

// head is the line of the roof's underside over a wall, from the left end to the right: the lowest of the planes,
// each lowered by what `lower` says (nil: not at all). Planes are two at most and the roof is highest where they
// meet, so the lowest plane is the one that lies there.
func (f roof) head(left, right shape.Point, width length.Length, lower func(pitch) length.Length) []shape.Point {
	lines := make([]slant, len(f.planes))
	down := make([]length.Length, len(f.planes))
	for i, p := range f.planes {
		if lower != nil {
			down[i] = lower(p)
		}
		lines[i] = slant{p.height(left) - down[i], p.height(right) - down[i]}
	}
	if len(lines) == 1 {
		return []shape.Point{{Y: lines[0].left}, {X: width, Y: lines[0].right}}
	}
	a, b := lines[0], lines[1]
	if a.left > b.left { // a: the plane over the left end
		a, b = b, a
	}
	points := []shape.Point{{Y: min(a.left, b.left)}}
	if d0, d1 := a.left-b.left, a.right-b.right; d0 < 0 && d1 > 0 {
		ridge := f.planes[0]
		x := ratio(width, -d0, d1-d0)
		y := a.at(x, width)
		if down[0] == down[1] { // straight under the ridge: take its place and height from the plan
			x = ratio(ridge.to-along(left, ridge.axis), width, along(right, ridge.axis)-along(left, ridge.axis))
			y = ridge.atTo - down[0]
		}
		if x > 0 && x < width {
			points = append(points, shape.Point{X: x, Y: y})
		}
	}
	return append(points, shape.Point{X: width, Y: min(a.right, b.right)})
}

// cosine of the slope.
func (p pitch) cosine() float64 {
	return float64(p.run()) / math.Hypot(float64(p.run()), float64(p.rise()))
}
