package draft

import (
	"image/color"
	"strconv"
	"strings"

	"seamwright/assets/words"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
)

// planSheet is what one drawing of the plan works with.
type planSheet struct {
	c     Canvas
	th    *Theme
	p     *plan.Plan
	j     *job.Job
	v     View
	s     PlanState
	say   *words.Voice
	rooms [][]side
	boxes []Rect // round each room's corners
	taken places
}

// smallRoom is the width in pixels below which a room's words are left out.
const smallRoom = 44.0

// DrawPlan draws all rooms from above, cut at breast height. p may be nil while it is being calculated: studs of
// open walls and broken rules are then left out.
func DrawPlan(c Canvas, th *Theme, p *plan.Plan, j *job.Job, v View, s PlanState) {
	d := &planSheet{c: c, th: th, p: p, j: j, v: v, s: s, say: voice(s.Say, j)}
	w, h := c.Size()
	c.Begin("plan")
	defer c.End()
	c.Fill(Rect{0, 0, w, h}.Path(), th.Pane)
	if !s.NoGrid {
		d.grid()
	}
	for i := range j.Rooms {
		d.rooms = append(d.rooms, sides(&j.Rooms[i], j, v))
		d.boxes = append(d.boxes, around(d.ring(j.Rooms[i].Corners)...))
	}
	c.Begin("framing")
	for i := range d.rooms {
		c.Begin(j.Rooms[i].ID)
		d.floor(&j.Rooms[i])
		for k := range d.rooms[i] {
			d.framing(&d.rooms[i][k])
		}
		d.seamless(d.rooms[i])
		c.End()
	}
	c.End()
	c.Begin("sheets")
	for i := range d.rooms {
		for k := range d.rooms[i] {
			d.lining(&d.rooms[i][k])
		}
	}
	c.End()
	c.Begin("openings")
	for i := range d.rooms {
		for k := range d.rooms[i] {
			d.openings(&d.rooms[i][k], i)
		}
		d.overhead(&j.Rooms[i])
	}
	c.End()
	d.marks()
	broken := d.broken()
	d.chains()
	c.Begin("words")
	for i := range j.Rooms {
		d.roomName(&j.Rooms[i])
	}
	for i := range d.rooms {
		d.words(&j.Rooms[i], d.rooms[i])
	}
	d.note()
	for _, b := range broken {
		badge(c, th, b.at, b.number, th.Error)
	}
	c.End()
	if s.Rubber != nil {
		d.rubber(s.Rubber)
	}
	if s.Snap != nil {
		at := v.Place(*s.Snap)
		c.Stroke(Rect{at.X - 5, at.Y - 5, 10, 10}.Path()[0], true, Pen{Width: 1.5, Color: th.Accent})
	}
}

// gridSteps are the squares that may lie under the plan, finest first.
func gridSteps(j *job.Job) []length.Length {
	if imperial(j) {
		return []length.Length{length.Foot, 2 * length.Foot, 4 * length.Foot, 8 * length.Foot, 16 * length.Foot, 32 * length.Foot, 64 * length.Foot}
	}
	m := length.Metre
	return []length.Length{m / 4, m / 2, m, 2 * m, 5 * m, 10 * m, 20 * m}
}

// leastSquare is the smallest square drawn, in pixels.
const leastSquare = 12.0

// square is the grid's step at this zoom, 0 where even the largest would be too fine.
func (d *planSheet) square() length.Length {
	for _, step := range gridSteps(d.j) {
		if d.v.Px(step) >= leastSquare {
			return step
		}
	}
	return 0
}

func (d *planSheet) grid() {
	step := d.square()
	if step == 0 {
		return
	}
	w, h := d.c.Size()
	d.c.Begin("grid")
	pen := Pen{Width: 1, Color: d.th.Grid}
	lo, hi := d.v.At(Pt{0, h}), d.v.At(Pt{w, 0})
	for x := lo.X / step * step; x <= hi.X; x += step {
		px := d.v.Place(shape.Point{X: x}).X
		d.c.Stroke([]Pt{{px, 0}, {px, h}}, false, pen)
	}
	for y := lo.Y / step * step; y <= hi.Y; y += step {
		py := d.v.Place(shape.Point{Y: y}).Y
		d.c.Stroke([]Pt{{0, py}, {w, py}}, false, pen)
	}
	d.c.End()
}

// note says how large the grid's squares are and in what the figures are, in whichever corner is free.
func (d *planSheet) note() {
	var notes []string
	if step := d.square(); step != 0 && !d.s.NoGrid {
		notes = append(notes, d.say.Text("draft.grid", "step", step))
	}
	if !imperial(d.j) {
		notes = append(notes, d.say.Text("draft.in-mm"))
	}
	text := strings.Join(notes, " · ")
	w, h := d.c.Size()
	for _, k := range [...]struct {
		at     Pt
		anchor Anchor
	}{{Pt{8, h - 8}, Start}, {Pt{w - 8, h - 8}, End}, {Pt{w - 8, 18}, End}, {Pt{8, 18}, Start}} {
		t := Type{Size: Small, Anchor: k.anchor, Color: d.th.Quiet}
		if d.taken.add(textBox(k.at, text, t)) {
			d.c.Text(k.at, text, t)
			return
		}
	}
}

// floor clears the grid, so that a room reads as a room.
func (d *planSheet) floor(r *job.Room) {
	d.c.Fill(Path{d.ring(r.Corners)}, d.th.Pane)
}

func (d *planSheet) ring(corners []shape.Point) []Pt {
	ring := make([]Pt, len(corners))
	for i, p := range corners {
		ring[i] = d.v.Place(p)
	}
	return ring
}

// open says whether the plan's cut meets bare framing here.
func open(s *side) bool {
	if s.wall == nil {
		return false
	}
	z := atCut(s.wall.Lining)
	return z == nil || len(z.Layers) == 0 || z.Layers[0] == job.Open
}

// framing draws the wall's thickness: solid where it is lined, studs and batt where it is left open.
func (d *planSheet) framing(s *side) {
	body := Path{{s.left, s.right, s.outer[1], s.outer[0]}}
	if !open(s) {
		d.c.Fill(body, d.th.Poche)
		return
	}
	d.c.Fill(body, d.th.Open.Fill)
	if s.wall.Insulation != job.NoInsulation && s.wall.Insulation != "" {
		d.c.Hatch(body, Hatch{Kind: Batt, Color: d.th.Open.Mark, From: s.outer[0]})
	}
	if q := surfaceOf(d.p, s.surface); q != nil {
		for _, at := range q.Members.At {
			half := d.v.Px(q.Members.Width) / 2
			d.c.Fill(s.band(d.v.Px(at)-half, d.v.Px(at)+half, -s.depth, 0), d.th.Poche)
		}
	}
	d.c.Stroke(body[0], true, Pen{Width: 1.5, Color: d.th.Poche})
}

// seamless closes the hair that anti-aliasing leaves between two solid walls along their mitre.
func (d *planSheet) seamless(walls []side) {
	for k := range walls {
		a, b := &walls[k], &walls[(k+1)%len(walls)]
		if !open(a) && !open(b) {
			corner, outer := a.right, a.outer[1]
			if corner != b.left { // the corners run the other way round
				corner, outer = a.left, a.outer[0]
			}
			d.c.Stroke([]Pt{corner, outer}, false, Pen{Width: 1.5, Color: d.th.Poche})
		}
	}
}

// lining draws the finish on the room's side of the wall.
func (d *planSheet) lining(s *side) {
	if s.wall == nil {
		return
	}
	body := Path{{s.left, s.right, s.inner[1], s.inner[0]}}
	hand := len(d.s.Hand) > 0 && d.s.Hover.Kind == OnSurface && d.s.Hover.Surface == s.surface
	ids := d.s.Hand
	if !hand {
		if open(s) {
			return
		}
		ids = atCut(s.wall.Lining).Layers
	}
	if ids[0] == job.Open {
		d.c.Fill(body, d.th.Open.Fill)
		d.c.Stroke(body[0], true, Pen{Width: 1, Color: d.th.Open.Mark, Dash: []float64{3, 2}})
		return
	}
	p := d.j.Product(ids[len(ids)-1])
	if p == nil {
		return
	}
	steep := s.along.X*s.along.X < s.along.Y*s.along.Y
	// The pattern's middle line runs along the middle of the band.
	mid := s.left.Add(s.in.Mul(s.finish / 2)).Sub(Pt{6, 6})
	lay(d.c, d.th, p, body, mid, steep)
	d.c.Stroke([]Pt{s.inner[0], s.inner[1]}, false, Pen{Width: 1, Color: d.th.Ink})
	if len(ids) > 1 { // one line between layers, whatever their number
		half := func(a, b Pt) Pt { return a.Add(b).Mul(0.5) }
		d.c.Stroke([]Pt{half(s.left, s.inner[0]), half(s.right, s.inner[1])}, false, Pen{Width: 1, Color: d.th.Ink})
	}
}

// marks shows what is hovered and selected, in the chalk line's blue.
func (d *planSheet) marks() {
	d.c.Begin("selection")
	defer d.c.End()
	blue := Pen{Width: 2, Color: d.th.Accent}
	for i := range d.rooms {
		for k := range d.rooms[i] {
			s := &d.rooms[i][k]
			if h := d.s.Hover; h.Kind == OnSurface && h.Surface == s.surface {
				d.c.Stroke([]Pt{s.inner[0], s.inner[1]}, false, Pen{Width: 2, Color: fade(d.th.Accent, 0.6)})
			}
			if picked(d.s.Selected, s.surface) {
				d.c.Stroke([]Pt{s.inner[0], s.inner[1]}, false, blue)
				d.c.Stroke([]Pt{s.left, s.right}, false, blue)
				d.handle(s.left, false)
				d.handle(s.right, false)
			}
			if s.wall == nil {
				continue
			}
			for n := range s.wall.Openings {
				d.markOpening(s, n)
			}
		}
	}
	for i := range d.j.Rooms {
		r := &d.j.Rooms[i]
		room := selected(d.s.Selected, Target{Kind: OnRoom, Room: r.ID})
		for k, p := range r.Corners {
			t := Target{Kind: OnCorner, Room: r.ID, Corner: k}
			on := selected(d.s.Selected, t)
			if room || on || d.s.Hover.Same(t) {
				d.handle(d.v.Place(p), on || d.s.Hover.Same(t))
			}
		}
	}
}

// handleRadius is half the drawn handle; the target around it is CornerReach.
const handleRadius = 6.0

func (d *planSheet) handle(at Pt, full bool) {
	inside := d.th.Pane
	if full {
		inside = d.th.Accent
	}
	d.c.Disc(at, handleRadius, d.th.Accent)
	d.c.Disc(at, handleRadius-2, inside)
}

// badgeAt is a number and its place.
type badgeAt struct {
	at     Pt
	number string
}

// broken finds places for numbered marks on walls where a rule is broken; the number is the check's place in the
// list. They are drawn last, over every line.
func (d *planSheet) broken() (list []badgeAt) {
	if d.p == nil {
		return nil
	}
	for i := range d.rooms {
		for k := range d.rooms[i] {
			s := &d.rooms[i][k]
			n := firstBroken(d.p, s.surface)
			if n < 0 {
				continue
			}
			for _, along := range [...]float64{0.5, 0.35, 0.65, 0.2, 0.8} {
				at := s.at(s.px*along, s.finish+badgeRadius+3)
				if d.taken.add(Rect{at.X - badgeRadius, at.Y - badgeRadius, 2 * badgeRadius, 2 * badgeRadius}) {
					list = append(list, badgeAt{at, strconv.Itoa(n + 1)})
					break
				}
			}
		}
	}
	return list
}

// firstBroken is the place in the list of checks of a surface's first broken rule, -1 where none is.
func firstBroken(p *plan.Plan, surface string) int {
	for n := range p.Checks {
		if p.Checks[n].Where == surface && p.Checks[n].Level == plan.Error {
			return n
		}
	}
	return -1
}

// badge is a small numbered disc.
func badge(c Canvas, th *Theme, at Pt, s string, ground color.NRGBA) {
	c.Disc(at, badgeRadius, ground)
	c.Text(Pt{at.X, at.Y + Small*capHeight/2}, s, Type{Size: Small, Weight: Semibold, Anchor: Middle, Color: th.Pane})
}

const badgeRadius = 9.0
