package scene

import (
	"github.com/go-gl/mathgl/mgl64"

	"seamwright/calc/job"
	"seamwright/calc/plan"
	"seamwright/scene/raster"
)

// Sizes of joinery, in metres: usual ones, drawn and not designed here.
const (
	paneBack    = 0.075 // a window pane behind the face of the framing, where no reveal says otherwise
	sashWide    = 0.055 // a sash's rails
	sashThick   = 0.030
	wideSash    = 0.75 // a wider window has a rail in its middle
	stoolThick  = 0.022
	stoolOut    = 0.025 // a window board before the lining
	jambThick   = 0.020
	casingThick = 0.014
	lidStop     = 0.042 // width of what a lid lies on
	leafThick   = 0.040
	leafBack    = 0.030 // a door leaf behind the face of the framing
	leafGap     = 0.003 // round a leaf
	stopOver    = 0.004 // the stop behind the gap before the back of a leaf
	doubleLeaf  = 1.40  // a wider door has two leaves
	boardWide   = 0.12  // a leaf's boards
	handleUp    = 1.02
	lidThick    = 0.018
	leastJoint  = 0.02 // smaller things are not drawn
)

// skyAbove is a window's brightness from its foot to its head: lower down one sees land, not sky.
var skyAbove = []float32{0.80, 0.90, 0.97, 1.0}

// openings adds what fills the rough openings: reveals, windows, doors, lids.
func (q *part) openings(b *builder, deep float64) {
	for i := range q.surface.Openings {
		o := &q.surface.Openings[i]
		ring := metres(o.Outline)
		if o.Kind == string(job.KeepOut) || len(ring) < 3 {
			continue
		}
		lo, hi := bounds(ring)
		front := max(0, q.frontAt(lo.Add(hi).Mul(0.5), o))
		q.reveal(b, o, ring, deep, front)
		if len(ring) != 4 || hi[0]-lo[0] < 4*sashWide || hi[1]-lo[1] < 4*sashWide {
			continue
		}
		box := rect2{lo, hi}
		switch job.OpeningKind(o.Kind) {
		case job.Window:
			q.window(b, o, box, deep, front)
		case job.Door:
			q.door(b, box, deep, front)
		case job.Hatch:
			q.lid(b, box)
		}
		if o.Casing > 0 {
			q.casing(b, box, o.Casing.Metres(), job.OpeningKind(o.Kind) == job.Door, front)
		}
	}
}

// rect2 is an upright rectangle on a surface.
type rect2 struct{ lo, hi mgl64.Vec2 }

func (r rect2) ring() []mgl64.Vec2 {
	return []mgl64.Vec2{r.lo, {r.hi[0], r.lo[1]}, r.hi, {r.lo[0], r.hi[1]}}
}

// inset is the rectangle less so much on every side.
func (r rect2) inset(by float64) rect2 {
	d := mgl64.Vec2{by, by}
	return rect2{r.lo.Add(d), r.hi.Sub(d)}
}

// slab adds a flat rectangular piece between two depths: its face, its sides and its edges. It gives the face's plane.
func (b *builder) slab(r rect2, back, front float64, p paint, size float64) int32 {
	ring := r.ring()
	face := p
	face.shade *= float32(brightness(b.frame.normal))
	plane := b.level(front, face)
	b.face(plane, front, face, ring)
	b.ring(plane, penFine, size, ring, front)
	for i, a := range ring {
		c := ring[(i+1)%4]
		s := p
		s.light = nil
		s.shade *= b.facing(a, c) * 0.9
		b.side(a, c, back, front, s)
	}
	return plane
}

// reveal adds the sides of an opening and their lines.
func (q *part) reveal(b *builder, o *plan.Opening, ring []mgl64.Vec2, deep, front float64) {
	p := paint{material: matReveal, tag: -1, shade: 0.97}
	if o.Return == string(job.ReturnBoard) {
		p.material = matBoard
	}
	for k, a := range ring {
		c := ring[(k+1)%len(ring)]
		side := p
		side.shade *= b.facing(c, a) * 0.95
		b.side(c, a, -deep, 0, side)
		n := int32(len(b.m.Planes) - 1)
		b.line(n, penEdge, 0.1, a[0], a[1], c[0], c[1], -deep)
		b.line(n, penEdge, 0.1, a[0], a[1], c[0], c[1], 0)
		b.m.Lines = append(b.m.Lines, lineBetween(b.frame.at(a[0], a[1], -deep), b.frame.at(a[0], a[1], front), n))
	}
}

// window adds glass, its sash and a window board.
func (q *part) window(b *builder, o *plan.Opening, r rect2, deep, front float64) {
	depth := -min(paneBack, deep*0.85)
	if back := o.Reveal.Metres(); back > 0 {
		depth = -min(back, deep*0.95)
	}
	sky := &raster.LightMap{X0: float32(r.lo[0]), Y0: float32(r.lo[1]), PerStep: float32(float64(len(skyAbove)-1) / (r.hi[1] - r.lo[1])), W: 2, H: len(skyAbove)}
	for _, v := range skyAbove {
		sky.V = append(sky.V, v, v)
	}
	glass := paint{material: matGlass, tag: -1, shade: 1, light: sky}
	b.face(b.level(depth, glass), depth, glass, r.ring())
	sash := paint{material: matTrim, tag: -1, shade: 0.98}
	bar := func(x0, y0, x1, y1 float64) {
		b.slab(rect2{mgl64.Vec2{x0, y0}, mgl64.Vec2{x1, y1}}, depth, depth+sashThick, sash, sashWide)
	}
	in := r.inset(sashWide)
	bar(r.lo[0], r.lo[1], in.lo[0], r.hi[1])
	bar(in.hi[0], r.lo[1], r.hi[0], r.hi[1])
	bar(in.lo[0], r.lo[1], in.hi[0], in.lo[1])
	bar(in.lo[0], in.hi[1], in.hi[0], r.hi[1])
	if in.hi[0]-in.lo[0] > wideSash {
		mid := (in.lo[0] + in.hi[0]) / 2
		bar(mid-sashWide/2, in.lo[1], mid+sashWide/2, in.hi[1])
	}
	if q.surface.Kind == plan.Wall { // the board that one sets a cup on
		stool := paint{material: matTrim, tag: -1, shade: 1}
		b.slab(rect2{r.lo, mgl64.Vec2{r.hi[0], r.lo[1] + stoolThick}}, depth+sashThick, front+stoolOut, stool, stoolThick)
	}
}

// casing frames an opening on the lining; a door's stands on the floor.
func (q *part) casing(b *builder, r rect2, wide float64, door bool, front float64) {
	p := paint{material: matTrim, tag: -1, shade: 0.99}
	foot := r.lo[1]
	if !door {
		foot -= wide
		b.slab(rect2{mgl64.Vec2{r.lo[0], foot}, mgl64.Vec2{r.hi[0], r.lo[1]}}, front, front+casingThick, p, wide)
	}
	head := r.hi[1] + wide
	b.slab(rect2{mgl64.Vec2{r.lo[0] - wide, foot}, mgl64.Vec2{r.lo[0], head}}, front, front+casingThick, p, wide)
	b.slab(rect2{mgl64.Vec2{r.hi[0], foot}, mgl64.Vec2{r.hi[0] + wide, head}}, front, front+casingThick, p, wide)
	b.slab(rect2{mgl64.Vec2{r.lo[0], r.hi[1]}, mgl64.Vec2{r.hi[0], head}}, front, front+casingThick, p, wide)
}

// door hangs one or two closed leaves of upright boards, with handles; they show a face to either side.
func (q *part) door(b *builder, r rect2, deep, front float64) {
	jamb := paint{material: matTrim, tag: -1, shade: 0.97}
	back := -min(leafBack, deep/3)
	in := rect2{mgl64.Vec2{r.lo[0] + jambThick, r.lo[1] + 0.01}, mgl64.Vec2{r.hi[0] - jambThick, r.hi[1] - jambThick}}
	b.slab(rect2{r.lo, mgl64.Vec2{in.lo[0], r.hi[1]}}, -deep, front, jamb, jambThick)
	b.slab(rect2{mgl64.Vec2{in.hi[0], r.lo[1]}, r.hi}, -deep, front, jamb, jambThick)
	b.slab(rect2{mgl64.Vec2{in.lo[0], in.hi[1]}, mgl64.Vec2{in.hi[0], r.hi[1]}}, -deep, front, jamb, jambThick)
	leaves := []rect2{in.inset(leafGap)}
	if in.hi[0]-in.lo[0] > doubleLeaf {
		mid := (in.lo[0] + in.hi[0]) / 2
		leaves = []rect2{
			{in.lo, mgl64.Vec2{mid, in.hi[1]}}, {mgl64.Vec2{mid, in.lo[1]}, in.hi},
		}
		leaves[0], leaves[1] = leaves[0].inset(leafGap), leaves[1].inset(leafGap)
	}
	// The stop that the leaves close against: one does not see out through the gaps round them, to either side.
	stop := paint{material: matCut, tag: -1, shade: 0.9}
	b.face(b.level(back-leafThick+stopOver, stop), back-leafThick+stopOver, stop, in.ring())
	outside := b.plane(b.frame.at(0, 0, back-leafThick+stopOver), b.frame.x.Mul(-1), b.frame.y, b.frame.normal.Mul(-1), stop)
	b.face(outside, back-leafThick+stopOver, stop, in.ring())
	for i, l := range leaves {
		p := paint{material: matLeaf, tag: -1, shade: 1, turn: true, light: leafLight(l)}
		plane := b.slab(l, back-leafThick, back, p, 0.2)
		boards := max(2, int((l.hi[0]-l.lo[0])/boardWide+0.5))
		for k := 1; k < boards; k++ {
			x := l.lo[0] + (l.hi[0]-l.lo[0])*float64(k)/float64(boards)
			b.line(plane, penFine, boardWide, x, l.lo[1], x, l.hi[1], back)
		}
		rear := paint{material: matLeaf, tag: -1, shade: float32(brightness(b.frame.normal.Mul(-1)))}
		away := b.plane(b.frame.at(0, 0, back-leafThick), b.frame.x.Mul(-1), b.frame.y, b.frame.normal.Mul(-1), rear)
		b.face(away, back-leafThick, rear, l.ring())
		// The handle stands where the leaf opens: at the middle of a pair, else at its right.
		x := l.hi[0] - 0.07
		if i == 1 {
			x = l.lo[0] + 0.07
		}
		plate := rect2{mgl64.Vec2{x - 0.017, l.lo[1] + handleUp - 0.09}, mgl64.Vec2{x + 0.017, l.lo[1] + handleUp + 0.07}}
		iron := paint{material: matIron, tag: -1, shade: 1}
		b.slab(plate, back, back+0.004, iron, 0.03)
		grip := rect2{mgl64.Vec2{x - 0.011, l.lo[1] + handleUp}, mgl64.Vec2{x + 0.011, l.lo[1] + handleUp + 0.022}}
		if i == 1 {
			grip.hi[0] += 0.1
		} else {
			grip.lo[0] -= 0.1
		}
		b.slab(grip, back+0.03, back+0.045, iron, 0.02)
	}
}

// leafLight darkens a leaf towards its rebate, most under the head.
func leafLight(r rect2) *raster.LightMap {
	return rim(r, 6, 0.86)
}

// rim is a light map that is dark along a rectangle's border and 1 inside, on a grid of so many steps a side.
func rim(r rect2, steps int, dark float32) *raster.LightMap {
	l := &raster.LightMap{X0: float32(r.lo[0]), Y0: float32(r.lo[1]), Fine: true}
	size := r.hi.Sub(r.lo)
	step := min(size[0], size[1]) / float64(steps)
	l.PerStep = float32(1 / step)
	l.W, l.H = max(2, int(size[0]/step+0.5)+1), max(2, int(size[1]/step+0.5)+1)
	for y := range l.H {
		for x := range l.W {
			v := float32(1)
			if x == 0 || x == l.W-1 || y == 0 || y == l.H-1 {
				v = dark
			}
			l.V = append(l.V, v)
		}
	}
	return l
}

// lid closes a hatch with a board that lies just inside it.
func (q *part) lid(b *builder, r rect2) {
	p := paint{material: matTrim, tag: -1, shade: 0.96, light: rim(r, 5, 0.88)}
	b.slab(r.inset(leafGap), -lidThick-0.01, -0.01, p, 0.2)
	ring := paint{material: matTrim, tag: -1, shade: 0.97}
	const wide = lidStop
	for _, side := range []rect2{
		{mgl64.Vec2{r.lo[0], r.lo[1]}, mgl64.Vec2{r.lo[0] + wide, r.hi[1]}},
		{mgl64.Vec2{r.hi[0] - wide, r.lo[1]}, r.hi},
		{mgl64.Vec2{r.lo[0] + wide, r.lo[1]}, mgl64.Vec2{r.hi[0] - wide, r.lo[1] + wide}},
		{mgl64.Vec2{r.lo[0] + wide, r.hi[1] - wide}, mgl64.Vec2{r.hi[0] - wide, r.hi[1]}},
	} {
		b.slab(side, -0.01, -0.002, ring, wide)
	}
}

func lineBetween(a, b mgl64.Vec3, plane int32) raster.Line {
	return raster.Line{A: vec32(a), B: vec32(b), Plane: plane, Size: 0.1, Pen: penEdge}
}
