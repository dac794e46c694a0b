package draft

import (
	"math"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
)

// The strip's floor is one line; between surfaces lies a gap wide enough for their captions.
const (
	surfaceGap = 900 * length.Millimetre
	roomGap    = 2400 * length.Millimetre
)

// slot is one surface's place in the strip: X is how far its own left bound stands from the strip's start.
type slot struct {
	s       *plan.Surface
	wall    *job.Wall    // nil for a ceiling
	ceiling *job.Ceiling // nil for a wall
	x       length.Length
	bounds  shape.Rect
	drop    length.Length // how far the surface is let down: ceilings stand on the floor line, upper rows above the last
}

// view is the strip's view moved so that it places the surface's own points.
func (t *slot) view(v View) View {
	return View{Scale: v.Scale, X: v.X + v.Px(t.x-t.bounds.X), Y: v.Y + v.Px(t.drop)}
}

// box is the surface's bounds on the canvas.
func (t *slot) box(v View) Rect {
	sv := t.view(v)
	a, b := sv.Place(shape.Point{X: t.bounds.X, Y: t.bounds.MaxY()}), sv.Place(shape.Point{X: t.bounds.MaxX(), Y: t.bounds.Y})
	return Rect{a.X, a.Y, b.X - a.X, b.Y - a.Y}
}

// layStrip puts the surfaces of a room (of every room for "") side by side: walls in the order in which one sees
// them turning to the right, beginning with the first side of the file, then the planes of the ceiling.
func layStrip(p *plan.Plan, j *job.Job, room string, rows int) []slot {
	if p == nil || j == nil {
		return nil
	}
	at := make(map[string]int, len(p.Surfaces))
	over := make(map[string][]int)
	for i := range p.Surfaces {
		at[p.Surfaces[i].ID] = i
		if p.Surfaces[i].Kind == plan.Ceiling {
			over[p.Surfaces[i].Room] = append(over[p.Surfaces[i].Room], i)
		}
	}
	var list []slot
	var x length.Length
	put := func(t slot) {
		t.bounds = t.s.Outline.Bounds()
		if t.ceiling != nil {
			t.drop = t.bounds.Y
		}
		t.x = x
		x += t.bounds.W + surfaceGap
		list = append(list, t)
	}
	for i := range j.Rooms {
		r := &j.Rooms[i]
		if room != "" && r.ID != room {
			continue
		}
		if len(list) > 0 {
			x += roomGap - surfaceGap
		}
		for k := range r.Walls {
			w := &r.Walls[turning(r, k)]
			if n, ok := at[r.ID+"/"+w.ID]; ok {
				put(slot{s: &p.Surfaces[n], wall: w})
			}
		}
		for _, n := range over[r.ID] {
			if r.Ceiling != nil {
				put(slot{s: &p.Surfaces[n], ceiling: r.Ceiling})
			}
		}
	}
	breakRows(list, rows)
	return list
}

// turning is the k-th wall that one sees turning to the right.
func turning(r *job.Room, k int) int {
	if shape.Polygon(r.Corners).CounterClockwise() {
		return (len(r.Walls) - k) % len(r.Walls)
	}
	return k
}

// Room left round the strip, in pixels: above for badges and the frame of the selected surface, below for ticks,
// captions and the legend.
const (
	stripSide    = 24.0
	stripAbove   = 20.0
	stripBelow   = 84.0
	captionName  = 25.0 // from the floor line to the foot of a name
	captionMore  = 41.0
	captionApart = 16.0 // between the words under neighbours
)

// FitStrip shows the whole strip, captions and legend included.
func FitStrip(p *plan.Plan, j *job.Job, room string, into Rect) View {
	list := layStrip(p, j, room, 1)
	if len(list) == 0 {
		return View{Scale: emptyScale, X: into.X + stripSide, Y: into.Y + into.H - stripBelow}
	}
	best := fitSlots(list, into)
	for rows := 2; rows <= mostRows && rows <= len(list); rows++ {
		v := fitSlots(layStrip(p, j, room, rows), into)
		if v.Rows = rows; v.Scale > best.Scale*rowsGain && v.Px(rowGap) >= captionMore+captionApart {
			best = v
		}
	}
	return best
}

func fitSlots(list []slot, into Rect) View {
	lo, hi := shape.Point{X: list[0].x}, shape.Point{}
	for i := range list {
		t := &list[i]
		hi.X = max(hi.X, t.x+t.bounds.W)
		lo.Y = min(lo.Y, t.bounds.Y-t.drop)
		hi.Y = max(hi.Y, t.bounds.MaxY()-t.drop)
	}
	below := math.Min(stripBelow, into.H/3)
	inner := Rect{into.X + stripSide, into.Y + stripAbove, into.W - 2*stripSide, into.H - stripAbove - below}
	v := Fit(lo, hi, inner)
	// The floor line stands low, so that walls grow up from it.
	v.Y = inner.Y + inner.H + v.Px(lo.Y)
	return v
}

// SurfaceView places the points of one surface within the strip; ok is false where the strip does not show it.
// Its Place gives the pixel of a point on the surface, its At the point under a pixel.
func SurfaceView(p *plan.Plan, j *job.Job, room, surface string, v View) (at View, ok bool) {
	list := layStrip(p, j, room, v.Rows)
	for i := range list {
		if list[i].s.ID == surface {
			return list[i].view(v), true
		}
	}
	return v, false
}

// FitSurface shows one surface of the strip as large as the rectangle allows.
func FitSurface(p *plan.Plan, j *job.Job, room, surface string, into Rect) View {
	list := layStrip(p, j, room, 1)
	for i := range list {
		if list[i].s.ID == surface {
			return fitSlots(list[i:i+1], into)
		}
	}
	return FitStrip(p, j, room, into)
}

// shownZones are the zones as they are looked at: of each zone the layer asked for, else its outermost.
func shownZones(s *plan.Surface, layer int) []int {
	var list []int
	for i := range s.Zones {
		z := &s.Zones[i]
		k := len(list) - 1
		switch {
		case k < 0 || s.Zones[list[k]].Zone != z.Zone:
			list = append(list, i)
		case layer == 0 || z.Layer <= layer:
			list[k] = i
		}
	}
	return list
}

// layersOf is the greatest number of layers on a surface.
func layersOf(s *plan.Surface) int {
	n := 0
	for i := range s.Zones {
		n = max(n, s.Zones[i].Layer)
	}
	return n
}
