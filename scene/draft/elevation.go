package draft

import (
	"math"
	"slices"
	"strings"

	"seamwright/assets/words"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
)

// An elevation is one wall or ceiling by itself, as it is taped to the wall: every piece with its id and the measures that
// it is cut to, every member counted from the left end, openings, joints and courses dimensioned.

// ElevationState is what an elevation shows.
type ElevationState struct {
	Layer int               // 0 the outermost layer; n shows layer n where a zone has one
	Say   *words.Voice      // nil: English
	Sizes map[string]string // what CutSizes gives, where it is at hand for several elevations
}

// Room for the figures round an elevation, in pixels.
const (
	elevationLeft  = 54.0
	elevationRight = 50.0 // where openings are dimensioned there
	elevationBare  = 12.0 // where nothing is
	elevationAbove = 52.0 // members, counted from the left end
	elevationBelow = 60.0
	memberTick     = 6.0
	memberApart    = 13.0 // between figures at members
	memberWide     = 50.0 // what level members' figures take at the right
)

// FitElevation shows a surface as large as the rectangle allows, with room for its figures.
func FitElevation(p *plan.Plan, surface string, into Rect) View {
	s := surfaceOf(p, surface)
	if s == nil {
		return View{Scale: emptyScale}
	}
	b := s.Outline.Bounds()
	return Fit(shape.Point{X: b.X, Y: b.Y}, shape.Point{X: b.MaxX(), Y: b.MaxY()}, elevationInner(s, into))
}

// elevationInner is the part of a rectangle that the surface itself may take.
func elevationInner(s *plan.Surface, into Rect) Rect {
	right := elevationBare
	if len(s.Openings) > 0 {
		right = elevationRight
	}
	if s.Members.Axis == "y" {
		right += memberWide
	}
	return Rect{into.X + elevationLeft, into.Y + elevationAbove, into.W - elevationLeft - right, into.H - elevationAbove - elevationBelow}
}

// ElevationToScale shows a surface at a scale in the middle of the rectangle, with room for its figures.
func ElevationToScale(p *plan.Plan, surface string, scale Scale, inch float64, into Rect) View {
	v := FitElevation(p, surface, into)
	if s := surfaceOf(p, surface); s != nil {
		v = v.ToScale(scale, inch, elevationInner(s, into))
	}
	return v
}

// ElevationHeight is how high a surface's drawing is at a scale, its figures included.
func ElevationHeight(s *plan.Surface, scale Scale, inch float64) float64 {
	return elevationAbove + elevationBelow + s.Outline.Bounds().H.Metres()*scale.Pixels(inch)
}

// DrawElevation draws a surface by itself, and names the pieces whose measures had no room on it.
func DrawElevation(c Canvas, th *Theme, p *plan.Plan, j *job.Job, surface string, v View, s ElevationState) (unsized []string) {
	t, ok := slotOf(p, j, surface)
	if !ok {
		return nil
	}
	w, h := c.Size()
	c.Begin("elevation-" + surface)
	defer c.End()
	c.Fill(Rect{0, 0, w, h}.Path(), th.Pane)
	say := voice(s.Say, j)
	d := &elevation{stripSheet{c: c, th: th, p: p, j: j, v: v, say: say,
		s: StripState{Layer: s.Layer, Members: true, Screws: true, Crosses: true, NoIDs: true, Say: say}}, t, s.Sizes, places{}}
	if d.sizes == nil {
		d.sizes = CutSizes(p, say)
	}
	d.taken = d.surface(&t)
	c.Begin("words")
	d.openingWords()
	for _, i := range shownZones(t.s, s.Layer) {
		unsized = append(unsized, d.pieces(&t.s.Zones[i])...)
	}
	c.End()
	c.Begin("dimensions")
	d.widths()
	d.heights()
	d.memberFigures()
	c.End()
	return unsized
}

// Unsized names the pieces of an elevation whose measures have no room on it, without drawing it.
func Unsized(p *plan.Plan, j *job.Job, surface string, v View, s ElevationState) []string {
	return DrawElevation(nowhere{}, Print(), p, j, surface, v, s)
}

// slotOf is a surface standing by itself.
func slotOf(p *plan.Plan, j *job.Job, id string) (t slot, ok bool) {
	t.s = surfaceOf(p, id)
	if t.s == nil || j == nil {
		return t, false
	}
	t.bounds = t.s.Outline.Bounds()
	t.x = t.bounds.X
	for i := range j.Rooms {
		r := &j.Rooms[i]
		if r.ID != t.s.Room {
			continue
		}
		if t.s.Kind == plan.Ceiling {
			t.ceiling = r.Ceiling
		}
		for k := range r.Walls {
			if r.ID+"/"+r.Walls[k].ID == id {
				t.wall = &r.Walls[k]
			}
		}
	}
	return t, true
}

type elevation struct {
	stripSheet
	t     slot
	sizes map[string]string
	taken places
}

// CutSizes are the measures that pieces are cut to, width × height as they hang.
func CutSizes(p *plan.Plan, say *words.Voice) map[string]string {
	sizes := map[string]string{}
	for i := range p.Sheets {
		for _, q := range p.Sheets[i].Parts {
			w, h := q.Rect.W, q.Rect.H
			if q.Turned {
				w, h = h, w
			}
			if q.Pair == nil { // two that share a rectangle go by their own outlines
				sizes[q.Panel] = dimension(w, say) + " × " + dimension(h, say)
			}
		}
	}
	return sizes
}

// size is what a piece is cut to.
func (d *elevation) size(q *plan.Panel) string {
	if size, ok := d.sizes[q.ID]; ok {
		return size
	}
	b := q.Outline.Bounds()
	return dimension(b.W, d.say) + " × " + dimension(b.H, d.say)
}

// pieces letters the panels of a zone, and names those whose measures have no room.
func (d *elevation) pieces(z *plan.Zone) (unsized []string) {
	if z.Product == job.Open {
		return nil
	}
	m, _ := d.th.look(d.j.Product(z.Product))
	for i := range z.Panels {
		q := &z.Panels[i]
		ring := place(d.v, q.Outline)[0]
		size := d.size(q)
		w, h, _ := strings.Cut(size, " × ")
		if !d.letter(ring, m, []string{q.ID, size}) && !d.letter(ring, m, []string{q.ID, w + " ×", h}) && !d.letter(ring, m, []string{q.ID + "  " + size}) {
			d.letter(ring, m, []string{q.ID})
			unsized = append(unsized, q.ID)
		}
	}
	return unsized
}

// letterRow is the height of a line within a piece.
const letterRow = 13.0

// letter sets lines within an outline, on its ground, level or upright, where nothing else stands; the first is semibold.
func (d *elevation) letter(ring []Pt, m Material, lines []string) bool {
	wide := 0.0
	for i, l := range lines {
		wide = math.Max(wide, Measure(l, Small, weightOf(i)))
	}
	wide += 2
	high := letterRow*float64(len(lines)-1) + Small
	b := around(ring...)
	for _, upright := range [2]bool{b.H > 2*b.W, b.H <= 2*b.W} {
		w, h := wide, high
		if upright {
			w, h = high, wide
		}
		if w > b.W-4 || h > b.H-4 {
			continue
		}
		for _, k := range spots {
			mid := Pt{b.X + b.W/2 + k.X*(b.W-w-4)/2, b.Y + b.H/2 + k.Y*(b.H-h-4)/2}
			box := Rect{mid.X - w/2, mid.Y - h/2, w, h}
			if !holds(ring, box) || !d.taken.add(box) {
				continue
			}
			d.c.Fill(box.Inset(-1.5).Path(), m.Fill)
			for i, l := range lines {
				off := (float64(i)-float64(len(lines)-1)/2)*letterRow + Small*capHeight/2
				t := Type{Size: Small, Weight: weightOf(i), Anchor: Middle, Color: d.th.Ink}
				at := Pt{mid.X, mid.Y + off}
				if upright {
					at, t.Turn = Pt{mid.X + off, mid.Y}, math.Pi/2
				}
				d.c.Text(at, l, t)
			}
			return true
		}
	}
	return false
}

func weightOf(line int) Weight {
	if line == 0 {
		return Semibold
	}
	return Regular
}

// spots are places within an outline, from its middle outward: parts of the room on either side.
var spots = func() (list []Pt) {
	for y := -4; y <= 4; y++ {
		for x := -4; x <= 4; x++ {
			list = append(list, Pt{float64(x) / 4, float64(y) / 4})
		}
	}
	slices.SortStableFunc(list, func(a, b Pt) int {
		switch la, lb := math.Round(a.Len()*1000), math.Round(b.Len()*1000); {
		case la < lb:
			return -1
		case la > lb:
			return 1
		}
		return 0
	})
	return list
}()

// openingWords name openings and their sizes within them, where nothing else is set.
func (d *elevation) openingWords() {
	taken := d.taken
	d.taken = places{}
	defer func() { d.taken = taken }()
	for i := range d.t.s.Openings {
		o := &d.t.s.Openings[i]
		b := o.Outline.Bounds()
		ring := place(d.v, o.Outline)[0]
		size := dimension(b.W, d.say) + " × " + dimension(b.H, d.say)
		ground := Material{Fill: d.th.Pane}
		name := upper(d.say.Text("opening."+o.Kind, "id", o.ID))
		if o.Kind == string(job.KeepOut) { // it is lined: the pieces' own words stand there
			continue
		}
		if !d.letter(ring, ground, []string{name, size}) {
			d.letter(ring, ground, []string{name})
		}
	}
}

// widths are the dimensions below: openings from end to end, then the whole.
func (d *elevation) widths() {
	b := d.t.bounds
	ends := []length.Length{b.X, b.MaxX()}
	for _, o := range d.t.s.Openings {
		q := o.Outline.Bounds()
		ends = append(ends, max(q.X, b.X), min(q.MaxX(), b.MaxX()))
	}
	from := d.v.Place(shape.Point{X: b.X, Y: b.Y})
	row := chainBelow
	if len(d.t.s.Openings) > 0 {
		d.row(from.Add(Pt{0, row}), Pt{1, 0}, Pt{0, 1}, row, ends)
		row += chainRow
	}
	d.row(from.Add(Pt{0, row}), Pt{1, 0}, Pt{0, 1}, row, ends[:2])
}

// Where dimension chains stand.
const (
	chainBelow = 24.0
	chainRow   = 24.0
	chainAside = 24.0
)

// row is a chain through places, each counted once and in order.
func (d *elevation) row(from, along, away Pt, reach float64, ends []length.Length) {
	ends = slices.Compact(slices.Sorted(slices.Values(ends)))
	var marks []float64
	var figures []string
	for i, e := range ends {
		marks = append(marks, d.v.Px(e-ends[0]))
		if i > 0 {
			figures = append(figures, dimension(e-ends[i-1], d.say))
		}
	}
	chain(d.c, d.th, from, along, away, reach, marks, figures, &d.taken)
}

// heights are the dimensions at the sides: courses at the left, sills and heads of openings at the right.
func (d *elevation) heights() {
	b := d.t.bounds
	left, right := []length.Length{b.Y, b.MaxY()}, []length.Length{b.Y, b.MaxY()}
	for _, i := range shownZones(d.t.s, d.s.Layer) {
		z := &d.t.s.Zones[i]
		for k := range z.Joints {
			if q := &z.Joints[k]; q.From.Y == q.To.Y && q.From.Y > b.Y && q.From.Y < b.MaxY() {
				left = append(left, q.From.Y)
			}
		}
	}
	for _, o := range d.t.s.Openings {
		q := o.Outline.Bounds()
		right = append(right, max(q.Y, b.Y), min(q.MaxY(), b.MaxY()))
	}
	aside := chainAside
	low, high := d.v.Place(shape.Point{X: b.X, Y: b.Y}), d.v.Place(shape.Point{X: b.MaxX(), Y: b.MaxY()})
	d.taken.take(Rect{low.X - aside + 2, high.Y, aside - 2, low.Y - high.Y}) // figures stand outside
	d.taken.take(Rect{low.X, high.Y, high.X - low.X, low.Y - high.Y})
	d.row(d.v.Place(shape.Point{X: b.X, Y: b.Y}).Sub(Pt{aside, 0}), Pt{0, -1}, Pt{-1, 0}, aside, left)
	if len(d.t.s.Openings) > 0 {
		if d.t.s.Members.Axis == "y" {
			aside += memberWide
		}
		d.row(d.v.Place(shape.Point{X: b.MaxX(), Y: b.Y}).Add(Pt{aside, 0}), Pt{0, -1}, Pt{1, 0}, aside, right)
	}
}

// memberFigures count the members from the left end, or the lower one where they lie level; those at the ends go without,
// and figures that would touch.
func (d *elevation) memberFigures() {
	b, list := d.t.bounds, d.t.s.Members.At
	tick := Pen{Width: 1, Color: d.th.Ink}
	last := math.Inf(-1)
	for i, at := range list {
		if i == 0 || i == len(list)-1 {
			continue
		}
		if d.t.s.Members.Axis == "y" {
			p := d.v.Place(shape.Point{X: b.MaxX(), Y: at})
			d.c.Stroke([]Pt{{p.X + 3, p.Y}, {p.X + 3 + memberTick, p.Y}}, false, tick)
			if -p.Y-last >= memberApart {
				d.c.Text(Pt{p.X + memberTick + 7, p.Y + Small*capHeight/2}, dimension(at-b.Y, d.say), Type{Size: Small, Color: d.th.Ink})
				last = -p.Y
			}
			continue
		}
		p := d.v.Place(shape.Point{X: at, Y: b.MaxY()})
		d.c.Stroke([]Pt{{p.X, p.Y - 3}, {p.X, p.Y - 3 - memberTick}}, false, tick)
		if p.X-last >= memberApart {
			d.c.Text(Pt{p.X + Small*capHeight/2, p.Y - memberTick - 7}, dimension(at-b.X, d.say), Type{Size: Small, Color: d.th.Ink, Turn: math.Pi / 2})
			last = p.X
		}
	}
}
