package scene

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"seamwright/calc/job"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/scene/raster"
)

// Sizes of framing that the plan does not carry, drawn as usual and not designed here.
const (
	headerHigh  = 0.14  // a beam over an opening
	battBack    = 0.012 // a batt behind the face of the members
	sheathLift  = 0.001 // the shaded sheathing of a bay before the whole
	usualMember = 0.0381
)

// axes lets framing be built alike whichever way the members run: positions count along u, members run along v.
type axes struct{ swapped bool }

func axesOf(s *plan.Surface) axes { return axes{s.Members.Axis == "y"} }

// swap turns a polygon into u, v, keeping it counter-clockwise.
func (a axes) swap(p []mgl64.Vec2) []mgl64.Vec2 {
	if !a.swapped {
		return p
	}
	out := make([]mgl64.Vec2, len(p))
	for i, v := range p {
		out[len(p)-1-i] = mgl64.Vec2{v[1], v[0]}
	}
	return out
}

// back turns u, v into x, y.
func (a axes) back(u, v float64) mgl64.Vec2 {
	if a.swapped {
		return mgl64.Vec2{v, u}
	}
	return mgl64.Vec2{u, v}
}

// ring turns corners in u, v into a counter-clockwise polygon in x, y.
func (a axes) ring(p ...mgl64.Vec2) []mgl64.Vec2 { return a.swap(p) }

type interval struct{ lo, hi float64 }

// across is where the line at u crosses an outline: its lowest and highest v.
func across(outline []mgl64.Vec2, u float64) (lo, hi float64, ok bool) {
	low, high := bounds(outline)
	const within = 1e-7 // metres: a line on the outline's own side counts as just inside it
	if u < low[0]-1e-3 || u > high[0]+1e-3 {
		return 0, 0, false
	}
	u = clamp(u, low[0]+within, high[0]-within)
	lo, hi = math.Inf(1), math.Inf(-1)
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		if (a[0] > u) == (b[0] > u) {
			continue
		}
		v := a[1] + (b[1]-a[1])*(u-a[0])/(b[0]-a[0])
		lo, hi = min(lo, v), max(hi, v)
	}
	return lo, hi, hi > lo
}

// free is what holes leave of an interval between u0 and u1, clear of them by so much below and above.
func (a axes) free(holes []shape.Polygon, u0, u1 float64, whole interval, below, above float64) []interval {
	out := []interval{whole}
	for _, h := range holes {
		lo, hi := bounds(a.swap(metres(h)))
		if hi[0] <= u0+1e-6 && u1 > u0 || lo[0] >= u1-1e-6 && u1 > u0 || hi[0] < u0 || lo[0] > u1 {
			continue
		}
		var next []interval
		for _, r := range out {
			if r.lo < lo[1]-below {
				next = append(next, interval{r.lo, min(r.hi, lo[1]-below)})
			}
			if r.hi > hi[1]+above {
				next = append(next, interval{max(r.lo, hi[1]+above), r.hi})
			}
		}
		out = next
	}
	return out
}

// openFraming adds members, plates and what stands between them, where no lining hides them.
func openFraming(b *builder, s *plan.Surface, l *look, areas [][]mgl64.Vec2, deep float64) {
	ax := axesOf(s)
	outline := ax.swap(metres(s.Outline))
	width := s.Members.Width.Metres()
	if width <= 0 {
		width = usualMember
	}
	member := paint{material: matStud, tag: -1, turn: !ax.swapped, shade: float32(brightness(b.frame.normal)), light: b.light}
	if s.Members.Material == string(job.Steel) {
		member.material = matSteel
	}
	sides := member
	sides.light, sides.shade = nil, 0.80
	f := framer{b: b, ax: ax, s: s, outline: outline, width: width, deep: deep, member: member, sides: sides}
	f.plane = b.level(0, member)
	for _, area := range areas {
		lo, hi := bounds(ax.swap(area))
		f.window = interval{lo[1] - 0.15, hi[1] + 0.15}
		f.plates()
		for i, at := range s.Members.At {
			f.stand(at.Metres())
			if i > 0 {
				f.bay(s.Members.At[i-1].Metres()+width/2, at.Metres()-width/2, l.insulation)
			}
		}
		for _, at := range s.Cripples {
			f.cripple(at.Metres())
		}
	}
	rear := paint{material: matSheath, tag: -1, shade: 0.84 * member.shade, light: b.light}
	b.regions(b.level(-deep, rear), -deep, rear, solid(s, s.Outline))
}

// framer builds the members of one surface.
type framer struct {
	b             *builder
	ax            axes
	s             *plan.Surface
	outline       []mgl64.Vec2 // in u, v
	width, deep   float64
	member, sides paint
	plane         int32    // the face of the framing
	window        interval // only what lies between these v is seen
}

// block adds one member on four corners in u, v and the lines along its front.
func (f *framer) block(corners ...mgl64.Vec2) {
	ring := f.ax.ring(corners...)
	f.b.face(f.plane, 0, f.member, ring)
	for i, a := range ring {
		c := ring[(i+1)%len(ring)]
		if f.s.Kind == plan.Wall && onBorder(a, c, metres(f.s.Outline)) {
			continue // the section or the floor lies there
		}
		s := f.sides
		s.shade *= f.b.facing(a, c)
		f.b.side(a, c, -f.deep, 0, s)
	}
	f.b.ring(f.plane, penStud, 2*f.width, ring, 0)
}

// onBorder reports whether the line from a to c lies along one edge of an outline.
func onBorder(a, c mgl64.Vec2, outline []mgl64.Vec2) bool {
	const within = 1e-6 // metres
	for i, p := range outline {
		e := outline[(i+1)%len(outline)].Sub(p)
		off := func(v mgl64.Vec2) float64 { return math.Abs(e[0]*(v[1]-p[1]) - e[1]*(v[0]-p[0])) }
		if off(a) <= within*e.Len() && off(c) <= within*e.Len() {
			return true
		}
	}
	return false
}

// seen cuts an interval to the window; false where nothing is left.
func (f *framer) seen(r interval) (interval, bool) {
	r = interval{max(r.lo, f.window.lo), min(r.hi, f.window.hi)}
	return r, r.hi-r.lo > 0.01
}

// stand adds a full-height member with its centre at u.
func (f *framer) stand(u float64) {
	u0, u1 := u-f.width/2, u+f.width/2
	l0, h0, ok0 := across(f.outline, u0)
	l1, h1, ok1 := across(f.outline, u1)
	if !ok0 || !ok1 {
		return
	}
	r, ok := f.seen(interval{max(l0, l1) + f.width, min(h0, h1) - f.width})
	if !ok {
		return
	}
	top0, top1 := r.hi, r.hi
	if r.hi < f.window.hi { // the head follows the slope
		top0, top1 = h0-f.width, h1-f.width
	}
	f.block(mgl64.Vec2{u0, r.lo}, mgl64.Vec2{u1, r.lo}, mgl64.Vec2{u1, top1}, mgl64.Vec2{u0, top0})
}

// cripple adds the short members under and over the openings at u.
func (f *framer) cripple(u float64) {
	lo, hi, ok := across(f.outline, u)
	if !ok {
		return
	}
	u0, u1 := u-f.width/2, u+f.width/2
	for _, r := range f.ax.free(f.s.Holes, u0, u1, interval{lo + f.width, hi - f.width}, f.width, headerHigh) {
		if r, ok := f.seen(r); ok {
			f.block(mgl64.Vec2{u0, r.lo}, mgl64.Vec2{u1, r.lo}, mgl64.Vec2{u1, r.hi}, mgl64.Vec2{u0, r.hi})
		}
	}
}

// plates adds the members that run along the ends of the others, and a sill and header at each opening.
func (f *framer) plates() {
	w := f.width
	lo, hi := bounds(f.outline)
	n := len(f.outline)
	for i, a := range f.outline {
		c := f.outline[(i+1)%n]
		switch {
		case a[0] == c[0]:
		case a[0] > c[0]: // over the room: the head
			if _, ok := f.seen(interval{min(a[1], c[1]) - w, max(a[1], c[1])}); ok {
				f.block(mgl64.Vec2{c[0], c[1] - w}, mgl64.Vec2{a[0], a[1] - w}, a, c)
			}
		default: // the foot, broken at doors
			if _, ok := f.seen(interval{a[1], c[1] + w}); !ok {
				continue
			}
			from := a[0]
			for _, h := range f.s.Holes {
				l, r := bounds(f.ax.swap(metres(h)))
				if l[1] <= a[1]+w && l[0] > from && r[0] < c[0] {
					f.block(mgl64.Vec2{from, a[1]}, mgl64.Vec2{l[0], a[1]}, mgl64.Vec2{l[0], a[1] + w}, mgl64.Vec2{from, a[1] + w})
					from = r[0]
				}
			}
			f.block(mgl64.Vec2{from, a[1]}, c, mgl64.Vec2{c[0], c[1] + w}, mgl64.Vec2{from, a[1] + w})
		}
	}
	for _, h := range f.s.Holes {
		l, r := bounds(f.ax.swap(metres(h)))
		if l[1]-w > lo[1] {
			if v, ok := f.seen(interval{l[1] - w, l[1]}); ok {
				f.block(mgl64.Vec2{l[0], v.lo}, mgl64.Vec2{r[0], v.lo}, mgl64.Vec2{r[0], v.hi}, mgl64.Vec2{l[0], v.hi})
			}
		}
		if top := min(r[1]+headerHigh, hi[1]-w); top > r[1] {
			if v, ok := f.seen(interval{r[1], top}); ok {
				f.block(mgl64.Vec2{l[0], v.lo}, mgl64.Vec2{r[0], v.lo}, mgl64.Vec2{r[0], v.hi}, mgl64.Vec2{l[0], v.hi})
			}
		}
	}
}

// How light falls off across a bay from member to member: on sheathing deep between them, on a batt that bulges.
var (
	deepBay = []float32{0.62, 0.82, 0.93, 0.93, 0.82, 0.62}
	softBay = []float32{0.76, 0.93, 1, 1, 0.93, 0.76}
)

// bay fills the space between two members with insulation, or shades the sheathing in it.
func (f *framer) bay(u0, u1 float64, kind job.Insulation) {
	material, filled := battOf(kind)
	if u1-u0 < leastJoint {
		return
	}
	l0, h0, ok0 := across(f.outline, u0)
	l1, h1, ok1 := across(f.outline, u1)
	if !ok0 || !ok1 {
		return
	}
	depth, falloff := -battBack, softBay
	p := paint{material: material, tag: -1, turn: f.ax.swapped, shade: f.member.shade * 0.97}
	if !filled {
		depth, falloff = -f.deep+sheathLift, deepBay
		p.material, p.shade = matSheath, f.member.shade
	}
	whole := interval{max(l0, l1) + f.width, min(h0, h1) - f.width}
	for _, r := range f.ax.free(f.s.Holes, u0, u1, whole, f.width, headerHigh) {
		r, ok := f.seen(r)
		if !ok {
			continue
		}
		t0, t1 := r.hi, r.hi
		if r.hi == whole.hi {
			t0, t1 = h0-f.width, h1-f.width
		}
		p.light = f.bayLight(u0, u1, interval{r.lo, max(t0, t1)}, falloff)
		ring := f.ax.ring(mgl64.Vec2{u0, r.lo}, mgl64.Vec2{u1, r.lo}, mgl64.Vec2{u1, t1}, mgl64.Vec2{u0, t0})
		f.b.face(f.b.level(depth, p), depth, p, ring)
	}
}

// bayLight is the surface's light, falling off across a bay.
func (f *framer) bayLight(u0, u1 float64, r interval, falloff []float32) *raster.LightMap {
	n := len(falloff)
	step := (u1 - u0) / float64(n-1)
	l := &raster.LightMap{PerStep: float32(1 / step), Fine: true, W: n, H: max(2, int((r.hi-r.lo)/step)+2)}
	if f.ax.swapped {
		l.W, l.H = l.H, l.W
	}
	start := f.ax.back(u0, r.lo)
	l.X0, l.Y0 = float32(start[0]), float32(start[1])
	l.V = make([]float32, l.W*l.H)
	for y := range l.H {
		for x := range l.W {
			k := x
			if f.ax.swapped {
				k = y
			}
			at := start.Add(mgl64.Vec2{float64(x) * step, float64(y) * step})
			l.V[y*l.W+x] = falloff[k] * f.b.light.At(float32(at[0]), float32(at[1]))
		}
	}
	return l
}

// battOf is the look of insulation; false where there is none to see.
func battOf(k job.Insulation) (uint16, bool) {
	switch k {
	case job.UnfacedBatt:
		return matBatt, true
	case job.KraftBatt:
		return matKraft, true
	case job.MineralWool:
		return matWool, true
	case job.FoamPlastic:
		return matFoam, true
	}
	return 0, false
}
