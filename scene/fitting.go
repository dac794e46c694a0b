package scene

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"seamwright/calc/plan"
)

// Sizes of fittings, in metres: usual ones, drawn and not designed here.
const (
	trimThick  = 0.014
	plateRim   = 0.010 // a cover plate past its box
	plateThick = 0.006
	lowBox     = 0.75 // a box on a wall lower than this is taken for an outlet, where nothing says what it is
	highBox    = 1.60 // and up to this for a switch
)

// reach is the foremost face of one lined zone.
type reach struct {
	outline []mgl64.Vec2
	front   float64
}

// frontAt is how far the lining stands out at a place, or, where an opening is given, beside it; 0 where there is none.
func (q *part) frontAt(p mgl64.Vec2, o *plan.Opening) float64 {
	out := 0.0
	for _, z := range q.reaches {
		beside := inside(p, z.outline)
		if o != nil {
			for _, v := range metres(o.Outline) {
				beside = beside || inside(v, z.outline)
			}
		}
		if beside {
			out = max(out, z.front)
		}
	}
	return out
}

// trim adds the base trim along the floor, as the plan has it.
func (q *part) trim(b *builder) {
	base := &q.surface.BaseTrim
	if base.Height <= 0 {
		return
	}
	lo, _ := bounds(q.outline)
	foot, high := lo[1]+base.Foot.Metres(), base.Height.Metres()
	p := paint{material: matTrim, tag: -1, shade: 0.99}
	for _, r := range base.Runs {
		from, to := r[0].Metres(), r[1].Metres()
		if to-from < leastJoint {
			continue
		}
		front := q.frontAt(mgl64.Vec2{(from + to) / 2, foot + high}, nil)
		b.slab(rect2{mgl64.Vec2{from, foot}, mgl64.Vec2{to, foot + high}}, 0, front+trimThick, p, high)
	}
}

// boxes adds the covers of power boxes and the lamps.
func (q *part) boxes(b *builder, l *look) {
	for i, o := range q.surface.Boxes {
		ring := metres(o)
		lo, hi := bounds(ring)
		mid := lo.Add(hi).Mul(0.5)
		front := q.frontAt(mid, nil)
		kind := ""
		if len(l.boxes) == len(q.surface.Boxes) {
			kind = l.boxes[i]
		}
		round := len(ring) > 4
		switch {
		case kind != "":
		case round:
			kind = "light"
		case q.surface.Kind == plan.Wall && mid[1] < lowBox:
			kind = "outlet"
		case q.surface.Kind == plan.Wall && mid[1] < highBox:
			kind = "switch"
		}
		r := rect2{lo, hi}.inset(-plateRim)
		plate := paint{material: matTrim, tag: -1, shade: 1}
		if round || kind == "light" {
			q.lamp(b, mid, (hi[0]-lo[0])/2+plateRim, front)
			continue
		}
		b.slab(r, front, front+plateThick, plate, 0.03)
		top := front + plateThick + 0.0005
		dark := paint{material: matIron, tag: -1, shade: 1}
		spot := func(cx, cy, w, h float64) {
			s := rect2{mgl64.Vec2{mid[0] + cx - w/2, mid[1] + cy - h/2}, mgl64.Vec2{mid[0] + cx + w/2, mid[1] + cy + h/2}}
			b.face(b.level(top, dark), top, dark, s.ring())
		}
		switch kind {
		case "outlet":
			for _, y := range []float64{-0.024, 0.024} {
				spot(-0.008, y, 0.004, 0.014)
				spot(0.008, y, 0.004, 0.014)
				spot(0, y-0.013, 0.006, 0.006)
			}
		case "switch":
			b.slab(rect2{mgl64.Vec2{mid[0] - 0.012, mid[1] - 0.022}, mgl64.Vec2{mid[0] + 0.012, mid[1] + 0.022}}, front, front+2*plateThick, plate, 0.02)
		case "data":
			spot(0, 0, 0.014, 0.012)
		case "panel":
			b.ring(b.level(top, plate), penFine, 0.05, r.inset(0.02).ring(), top)
		}
	}
}

// lamp adds a round light: a ring and the bright glass in it.
func (q *part) lamp(b *builder, mid mgl64.Vec2, radius, front float64) {
	const sides = 20
	disc := func(radius float64) (ring []mgl64.Vec2) {
		for k := range sides {
			s, c := math.Sincos(2 * math.Pi * float64(k) / sides)
			ring = append(ring, mgl64.Vec2{mid[0] + radius*c, mid[1] + radius*s})
		}
		return
	}
	rim := paint{material: matTrim, tag: -1, shade: 0.97}
	outer := disc(radius)
	plane := b.level(front+plateThick, rim)
	b.face(plane, front+plateThick, rim, outer)
	b.ring(plane, penFine, 0.05, outer, front+plateThick)
	for k, a := range outer {
		side := rim
		c := outer[(k+1)%sides]
		side.shade *= 0.9 * b.facing(a, c)
		b.side(a, c, front, front+plateThick, side)
	}
	glow := paint{material: matLamp, tag: -1, shade: 1}
	inner := disc(radius * 0.74)
	plane = b.level(front+plateThick+0.0005, glow)
	b.face(plane, front+plateThick+0.0005, glow, inner)
	b.ring(plane, penFine, 0.05, inner, front+plateThick+0.0005)
}
