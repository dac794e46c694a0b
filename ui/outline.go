package ui

import (
	"errors"
	"math"

	"seamwright/calc/length"
	"seamwright/calc/shape"
	"seamwright/scene/draft"
)

// outline is a room being drawn: corners set so far, where the pointer has snapped to, and a length typed in place of
// the measured one. It knows nothing of windows.
type outline struct {
	set      []shape.Point
	to       shape.Point
	caught   *shape.Point // what the pointer snapped to, where that was a point
	typed    string
	imperial bool
}

// What the pointer snaps to, in pixels, from the strongest.
const (
	snapCorner = 12.0 // closing, and corners that are there already
	snapAlign  = 8.0  // in line with the last corner or with the first
	snapGrid   = 6.0  // least distance of the grid's lines
	snapSlope  = 0.12 // rise over run, about 7 degrees
)

var (
	errTooClose = errors.New("the next corner stands on the last one: move the pointer away or type a length")
	errCrosses  = errors.New("the outline would cross itself: set the corner elsewhere")
	errFew      = errors.New("a room needs three corners at least")
)

// move follows the pointer: to the first corner, to a corner of another room, in line with what is set, to the grid.
func (o *outline) move(v draft.View, at draft.Pt, corners []shape.Point) {
	near := func(p shape.Point) bool { return v.Place(p).Sub(at).Len() <= snapCorner }
	o.caught = nil
	if len(o.set) >= 3 && near(o.set[0]) {
		o.to = o.set[0]
		o.caught = &o.to
		return
	}
	for _, c := range corners {
		if near(c) {
			o.to = c
			o.caught = &o.to
			return
		}
	}
	p := v.At(at)
	step := snapStep(o.imperial, v, snapGrid)
	o.to = shape.Point{X: nearest(p.X, step), Y: nearest(p.Y, step)}
	if len(o.set) == 0 {
		return
	}
	last, first := o.set[len(o.set)-1], o.set[0]
	dx, dy := math.Abs(v.Px(p.X-last.X)), math.Abs(v.Px(p.Y-last.Y))
	for _, c := range []shape.Point{first, last} {
		if math.Abs(v.Px(p.X-c.X)) <= snapAlign {
			o.to.X = c.X
		}
		if math.Abs(v.Px(p.Y-c.Y)) <= snapAlign {
			o.to.Y = c.Y
		}
	}
	switch { // nearly square to the grid is meant to be square
	case dy < dx*snapSlope:
		o.to.Y = last.Y
	case dx < dy*snapSlope:
		o.to.X = last.X
	}
	if o.to == last { // both lines of the last corner: the longer way of the pointer wins
		if math.Abs(v.Px(p.X-last.X)) > math.Abs(v.Px(p.Y-last.Y)) {
			o.to.X = nearest(p.X, step)
		} else {
			o.to.Y = nearest(p.Y, step)
		}
	}
}

// closing says whether the pointer stands on the first corner.
func (o *outline) closing() bool { return len(o.set) >= 3 && o.to == o.set[0] && o.typed == "" }

// target is where the next corner would be: at the typed length in the pointer's direction, else at the pointer.
func (o *outline) target() (shape.Point, error) {
	if o.typed == "" || len(o.set) == 0 {
		return o.to, nil
	}
	l, err := o.length()
	if err != nil {
		return o.to, err
	}
	last := o.set[len(o.set)-1]
	dx, dy := (o.to.X - last.X).MM(), (o.to.Y - last.Y).MM()
	switch long := math.Hypot(dx, dy); {
	case l <= 0:
		return o.to, errors.New("a wall is longer than nothing: type a length like " + o.example())
	case long == 0:
		return o.to, errTooClose
	case dx == 0:
		return shape.Point{X: last.X, Y: last.Y + towards(l, dy)}, nil
	case dy == 0:
		return shape.Point{X: last.X + towards(l, dx), Y: last.Y}, nil
	default:
		return shape.Point{X: last.X + length.FromMM(l.MM()*dx/long), Y: last.Y + length.FromMM(l.MM()*dy/long)}, nil
	}
}

func towards(l length.Length, d float64) length.Length {
	if d < 0 {
		return -l
	}
	return l
}

// length reads what was typed. While drawing, a bare number means feet, or metres, since that is what walls are
// called in; the label beside the pointer shows how it was read.
func (o *outline) length() (length.Length, error) {
	if l, err := length.Parse(o.typed); err == nil {
		return l, nil
	}
	if o.imperial {
		if l, err := length.Parse(o.typed + "'"); err == nil {
			return l, nil
		}
	} else if l, err := length.Parse(o.typed + " m"); err == nil {
		return l, nil
	}
	return length.Parse(o.typed)
}

func (o *outline) example() string {
	if o.imperial {
		return `12' 6"`
	}
	return "3.8 m"
}

// crosses says whether a wall from the last corner to p would cross one that is set.
func (o *outline) crosses(p shape.Point) bool {
	n := len(o.set)
	if n < 2 {
		return false
	}
	last := o.set[n-1]
	for i := 0; i+2 < n; i++ {
		if segmentsCross(o.set[i], o.set[i+1], last, p) && !(i == 0 && p == o.set[0]) {
			return true
		}
	}
	for _, c := range o.set[1:] {
		if c == p {
			return true
		}
	}
	return false
}

// put sets the next corner; done says that the outline is closed.
func (o *outline) put() (done bool, err error) {
	if o.closing() {
		return o.close()
	}
	p, err := o.target()
	if err != nil {
		return false, err
	}
	if n := len(o.set); n > 0 && p == o.set[n-1] {
		return false, errTooClose
	}
	if o.crosses(p) {
		return false, errCrosses
	}
	o.typed = ""
	if len(o.set) >= 3 && p == o.set[0] {
		return o.close()
	}
	o.set = append(o.set, p)
	return false, nil
}

// close ends the outline with a wall back to the first corner.
func (o *outline) close() (done bool, err error) {
	if len(o.set) < 3 {
		return false, errFew
	}
	if o.crosses(o.set[0]) {
		return false, errCrosses
	}
	return true, nil
}

// back takes back the last thing: typed letters, then a corner; none means that there is nothing left.
func (o *outline) back() (none bool) {
	switch {
	case o.typed != "":
		o.typed = ""
	case len(o.set) > 0:
		o.set = o.set[:len(o.set)-1]
	default:
		return true
	}
	return false
}

// rubber is the outline as the drawing shows it.
func (o *outline) rubber() *draft.Rubber {
	to := o.to
	if p, err := o.target(); err == nil {
		to = p
	}
	return &draft.Rubber{Set: o.set, To: to, Closing: o.closing(), Typed: o.typed, Wrong: len(o.set) > 0 && !o.closing() && o.crosses(to)}
}
