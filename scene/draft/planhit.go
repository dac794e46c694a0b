package draft

import (
	"math"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/shape"
)

// PlanExtent is the smallest upright rectangle on the floor that holds every room with its framing.
func PlanExtent(j *job.Job) (lo, hi shape.Point) {
	first := true
	for i := range j.Rooms {
		if len(j.Rooms[i].Corners) == 0 {
			continue
		}
		b := shape.Polygon(j.Rooms[i].Corners).Bounds()
		var deep length.Length
		for k := range j.Rooms[i].Walls {
			deep = max(deep, j.Rooms[i].Walls[k].Framing.Depth)
		}
		b = shape.Rect{X: b.X - deep, Y: b.Y - deep, W: b.W + 2*deep, H: b.H + 2*deep}
		if first {
			lo, hi, first = shape.Point{X: b.X, Y: b.Y}, shape.Point{X: b.MaxX(), Y: b.MaxY()}, false
			continue
		}
		lo = shape.Point{X: min(lo.X, b.X), Y: min(lo.Y, b.Y)}
		hi = shape.Point{X: max(hi.X, b.MaxX()), Y: max(hi.Y, b.MaxY())}
	}
	return lo, hi
}

// planMargin is the room left around the plan for framing and two rows of dimensions, in pixels.
const planMargin = farChain + chainRaise + Small + 6

// emptyScale is the scale of a plan without rooms: 1/4 in to a foot on a screen of 96 pixels to the inch would be
// 79; a little less shows a whole shed.
const emptyScale = 48.0

// FitPlan shows all rooms with room for their dimensions. Without rooms the origin stands in the lower left quarter.
func FitPlan(j *job.Job, into Rect) View {
	lo, hi := PlanExtent(j)
	if lo == hi {
		return View{Scale: emptyScale, X: into.X + into.W/4, Y: into.Y + into.H*3/4}
	}
	m := math.Min(planMargin, math.Min(into.W, into.H)/4)
	return Fit(lo, hi, into.Inset(m))
}

// PlanHit finds what lies under a pixel: corner before opening before wall before room.
func PlanHit(j *job.Job, v View, at Pt) Target {
	here := v.At(at)
	found := Target{At: here}
	near := CornerReach
	for i := range j.Rooms {
		for k, p := range j.Rooms[i].Corners {
			if d := v.Place(p).Sub(at).Len(); d <= near {
				near = d
				found = Target{Kind: OnCorner, Room: j.Rooms[i].ID, Corner: k, At: here}
			}
		}
	}
	if found.Kind != Nothing {
		return found
	}
	best, bestOpening := math.Inf(1), math.Inf(1) // the nearest wall face, and the nearest opening
	var opening Target
	for i := range j.Rooms {
		walls := sides(&j.Rooms[i], j, v)
		for k := range walls {
			s := &walls[k]
			if s.wall == nil {
				continue
			}
			d := at.Sub(s.left)
			t, n := d.X*s.along.X+d.Y*s.along.Y, d.X*s.in.X+d.Y*s.in.Y
			if t < -s.depth || t > s.px+s.depth || n < -s.depth-WallReach || n > s.finish+WallReach {
				continue
			}
			for o := range s.wall.Openings {
				q := &s.wall.Openings[o]
				beside := math.Max(0, math.Max(v.Px(q.At)-t, t-v.Px(q.At+q.Width)))
				if away := beside + math.Abs(n); beside <= OpeningReach && away < bestOpening {
					bestOpening = away
					opening = Target{Kind: OnOpening, Room: s.room.ID, Surface: s.surface, Opening: q.ID, Index: o, Drag: job.AxisX, At: here}
				}
			}
			if away := math.Abs(n); away < best && t >= 0 && t <= s.px {
				best = away
				found = Target{Kind: OnSurface, Room: s.room.ID, Surface: s.surface, At: here}
			}
		}
	}
	if opening.Kind != Nothing {
		return opening
	}
	if found.Kind != Nothing {
		return found
	}
	for i := range j.Rooms {
		if shape.Polygon(j.Rooms[i].Corners).Contains(here) != shape.Outside {
			return Target{Kind: OnRoom, Room: j.Rooms[i].ID, At: here}
		}
	}
	return found
}
