package draft

import (
	"image/color"
	"math"
	"strconv"
	"strings"

	"seamwright/assets/words"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
)

// The parts of a cut sheet's page, in pixels.
const (
	cutHead    = 40.0  // title above the sheet
	cutLeft    = 46.0  // figures of rips at the left
	cutFoot    = 58.0  // figures of cross cuts below
	cutList    = 236.0 // the list of cuts at the right
	cutListRow = 18.0
	cutNarrow  = 540.0 // narrower pages have no room for the list at the right
	cutLow     = 90.0  // the least height of a sheet over its list
)

// cutView places the sheet on the page: x along its length, y across, from its lower left corner. The list of cuts stands
// at the right or below, wherever it leaves the sheet larger; a page too small for both goes without it. Where an inch on
// paper is so many pixels, the sheet is drawn to a usual scale.
func cutView(sh *plan.Sheet, j *job.Job, into Rect, inch float64) (v View, list Rect) {
	whole := Rect{into.X + cutLeft, into.Y + cutHead, into.W - cutLeft - 16, into.H - cutHead - cutFoot}
	fit := func(page Rect) View {
		v := Fit(shape.Point{}, shape.Point{X: sh.Size[0], Y: sh.Size[1]}, page)
		if inch > 0 {
			v.Scale = ScaleFor(j, v.Scale, inch).Pixels(inch)
		}
		v.X, v.Y = page.X, page.Y+v.Px(sh.Size[1])
		return v
	}
	beside, below := whole, whole
	beside.W -= cutList
	below.H -= cutListRow * float64(len(sh.Cuts)+2*len(sh.Slants())+cutNotes)
	right, under := fit(beside), View{}
	if below.H >= cutLow {
		under = fit(below)
	}
	switch {
	case under.Scale > 0 && (into.W < cutNarrow || under.Scale > right.Scale):
		top := under.Y + cutFoot
		return under, Rect{below.X, top, below.W, into.Y + into.H - top}
	case into.W >= cutNarrow:
		return right, Rect{into.X + into.W - cutList, into.Y + cutHead, cutList, into.H - cutHead}
	}
	return fit(whole), Rect{}
}

// cutNotes is how many lines stand round the cuts of a list: its head, and what is said below.
const cutNotes = 6

// DrawCutSheet draws how one sheet is cut up: its parts with their ids, sizes and where they go, what is kept and
// what is waste, and the cuts in order with the distance to measure and the edge to measure from.
func DrawCutSheet(c Canvas, th *Theme, sh *plan.Sheet, p *plan.Plan, j *job.Job, into Rect, s CutState) {
	c.Begin("sheet-" + sh.ID)
	defer c.End()
	v, list := cutView(sh, j, into, s.Inch)
	d := &cutPage{c: c, th: th, sh: sh, p: p, j: j, v: v, s: s, say: voice(s.Say, j), homes: HomesOf(p)}
	group := func(id string, draw func()) {
		c.Begin(id)
		draw()
		c.End()
	}
	group("words", func() { d.head(into) })
	group("parts", d.body)
	group("cuts", d.cuts)
	group("dimensions", func() { d.chains(true) })
	if list.W > 0 {
		group("list", func() { d.list(list) })
	}
}

// CutSheetHit finds the panel id of the part under a pixel, "" outside of parts.
func CutSheetHit(sh *plan.Sheet, j *job.Job, into Rect, at Pt) string {
	v, _ := cutView(sh, j, into, 0)
	for _, q := range sh.Parts {
		if rectBox(v, q.Rect).Has(at) {
			if q.Pair != nil && beyond(v, q, at) {
				return q.Pair.Panel
			}
			return q.Panel
		}
	}
	return ""
}

// CutSheetScale is the scale that a sheet has on paper, where an inch is so many pixels.
func CutSheetScale(sh *plan.Sheet, j *job.Job, into Rect, inch float64) Scale {
	v, _ := cutView(sh, j, into, inch)
	return ScaleFor(j, v.Scale, inch)
}

// rectBox is a rectangle of the sheet on the canvas.
func rectBox(v View, r shape.Rect) Rect {
	a := v.Place(shape.Point{X: r.X, Y: r.MaxY()})
	return Rect{a.X, a.Y, v.Px(r.W), v.Px(r.H)}
}

// home is where a part goes.
type home struct {
	surface *plan.Surface
	panel   *plan.Panel
}

// Homes tells where the pieces of a plan hang.
type Homes map[string]home

// HomesOf finds them.
func HomesOf(p *plan.Plan) Homes {
	m := Homes{}
	if p == nil {
		return m
	}
	for i := range p.Surfaces {
		s := &p.Surfaces[i]
		for k := range s.Zones {
			z := &s.Zones[k]
			for n := range z.Panels {
				m[z.Panels[n].ID] = home{s, &z.Panels[n]}
			}
		}
	}
	return m
}

type cutPage struct {
	c     Canvas
	th    *Theme
	sh    *plan.Sheet
	p     *plan.Plan
	j     *job.Job
	v     View
	s     CutState
	say   *words.Voice
	homes Homes
	taken places
	small []plan.Part // parts too small for all their words
	// notched says that something is cut out of a part afterwards.
	notched bool
}

func (d *cutPage) size(w, h length.Length) string {
	return dimension(w, d.say) + " × " + dimension(h, d.say)
}

func (d *cutPage) head(into Rect) {
	d.c.Text(Pt{into.X + cutLeft, into.Y + 16}, d.sh.ID, Type{Size: Heading, Weight: Semibold, Color: d.th.Ink})
	x := into.X + cutLeft + Measure(d.sh.ID, Heading, Semibold) + 12
	d.c.Text(Pt{x, into.Y + 16}, Shorten(d.about(), Body, Regular, into.X+into.W-x-8), Type{Size: Body, Color: d.th.Quiet})
}

// about says what sheet it is.
func (d *cutPage) about() string {
	name := d.sh.Product
	if p := d.j.Product(d.sh.Product); p != nil {
		name = ProductName(p, d.say)
	}
	from := d.say.Text("draft.to-buy")
	if d.sh.Source == plan.Stock {
		from = d.say.Text("draft.in-stock")
	}
	text := name + " · " + d.size(d.sh.Size[0], d.sh.Size[1]) + " · " + from
	if !d.say.Units().Imperial {
		text += " · " + d.say.Text("draft.in-mm")
	}
	if d.sh.Kerf > 0 {
		text += " · " + d.say.Text("draft.blade", "kerf", d.sh.Kerf)
	}
	return text
}

// body draws the sheet: what is waste hatched, what is kept in a broken line, and the parts.
func (d *cutPage) body() {
	whole := rectBox(d.v, shape.Rect{W: d.sh.Size[0], H: d.sh.Size[1]})
	product := d.j.Product(d.sh.Product)
	m, _ := d.th.look(product)
	d.c.Fill(whole.Path(), d.th.Pane)
	d.c.Hatch(whole.Path(), Hatch{Kind: Waste, Color: d.th.Quiet, From: Pt{whole.X, whole.Y + whole.H}})
	for _, o := range d.sh.Rests {
		b := rectBox(d.v, o.Rect)
		if o.Use == plan.Keep {
			d.c.Fill(b.Path(), d.th.Pane)
			d.c.Stroke(b.Inset(3).Path()[0], true, Pen{Width: 1, Color: d.th.Quiet, Dash: []float64{4, 3}})
		}
		d.words(b.Path(), []string{d.say.Text(restWords[o.Use]), d.size(o.Rect.W, o.Rect.H)}, d.th.Quiet, d.th.Pane)
	}
	for _, q := range d.sh.Parts {
		b := rectBox(d.v, q.Rect)
		lay(d.c, d.th, product, b.Path(), Pt{b.X, b.Y + b.H}, false)
		if q.Pair != nil {
			d.pair(q, b, m.Fill)
			continue
		}
		left := d.notches(q, b)
		d.c.Stroke(b.Path()[0], true, Pen{Width: 1, Color: d.th.Ink})
		if q.Panel == d.s.Panel && q.Panel != "" {
			d.c.Fill(b.Path(), fade(d.th.Accent, 0.14))
			d.c.Stroke(b.Path()[0], true, Pen{Width: 2.5, Color: d.th.Accent})
		}
		lines := []string{q.Panel, d.size(q.Rect.W, q.Rect.H)}
		if h, ok := d.homes[q.Panel]; ok {
			lines = append(lines, d.homeText(h, q.Later, q.Turned, b.W-8))
		}
		if d.words(left, lines, d.th.Ink, m.Fill) < len(lines) {
			d.small = append(d.small, q)
		}
	}
	d.c.Stroke(whole.Path()[0], true, Pen{Width: 2, Color: d.th.Ink})
}

// homeText says where a part goes, and that it waits where its surface is hung later, in as many words as the width
// takes.
func (d *cutPage) homeText(h home, later, turned bool, width float64) string {
	wall, course := lower(Named(h.surface.ID, d.say)), d.say.Text("draft.course", "course", h.panel.Course)
	if later {
		wall = d.say.Text("draft.later-for", "wall", wall)
	}
	place := title(h.surface.Room) + ", " + wall + ", " + course
	full := place
	if turned {
		full += ", " + d.say.Text("draft.upright")
	}
	for _, s := range [...]string{full, place, upper(wall) + ", " + course} {
		if Measure(s, Small, Regular) <= width {
			return s
		}
	}
	return upper(wall)
}

// words sets as many lines as fit inside an outline and beside its holes, each on its ground; the first is semibold. It
// tells how many do.
func (d *cutPage) words(left Path, lines []string, ink, ground color.NRGBA) int {
	const row = 15.0
	b := around(left[0]...)
	turn := b.H > b.W*1.6 && b.W < 90
	w, h := b.W-8, b.H-6
	if turn {
		w, h = h, w
	}
	var wide []float64 // of the widest line so far
	var fit []string
	for i, l := range lines {
		weight := Regular
		if i == 0 {
			weight = Semibold
		}
		if long := Measure(l, Small, weight); float64(len(fit)+1)*row <= h && long <= w {
			if i > 0 && len(fit) > 0 {
				long = math.Max(long, wide[len(fit)-1])
			}
			fit, wide = append(fit, l), append(wide, long)
		}
	}
	var mid Pt
	for n, ok := len(fit), false; n > 0 && !ok; n-- {
		if mid, ok = d.clearOf(left, b, wide[n-1], row*float64(n), turn); ok || n == 1 {
			fit = fit[:n]
		}
	}
	for i, l := range fit {
		t := Type{Size: Small, Anchor: Middle, Color: ink}
		if l == lines[0] {
			t.Weight = Semibold
		}
		off := (float64(i)-float64(len(fit)-1)/2)*row + Small*capHeight/2
		foot, way := Pt{mid.X, mid.Y + off}, Pt{1, 0}
		if turn {
			foot, way = Pt{mid.X + off, mid.Y}, Pt{0, -1}
			t.Turn = math.Pi / 2
		}
		box := turnedBox(foot, Measure(l, Small, t.Weight), Small, way)
		d.c.Fill(box.Inset(-2).Path(), ground)
		d.c.Text(foot, l, t)
		d.taken.take(box)
	}
	return len(fit)
}

// clearOf is the middle of a block of words that lies within an outline and outside its holes, as near the middle as
// they allow. Not ok: there is no room for it; then it lies where the outline is widest.
func (d *cutPage) clearOf(left Path, b Rect, w, h float64, turn bool) (mid Pt, ok bool) {
	if turn {
		w, h = h, w
	}
	var holes places
	for _, ring := range left[1:] {
		holes.take(around(ring...))
	}
	const steps = 20
	nearest := math.Inf(1)
	for i := 1; i < steps; i++ {
		for k := 1; k < steps; k++ {
			at := Pt{b.X + b.W*float64(i)/steps, b.Y + b.H*float64(k)/steps}
			far := math.Hypot(at.X-b.X-b.W/2, at.Y-b.Y-b.H/2)
			if r := (Rect{at.X - w/2, at.Y - h/2, w, h}); far < nearest && holds(left[0], r) && holes.free(r) {
				mid, nearest, ok = at, far, true
			}
		}
	}
	if !ok {
		mid, _ = inmost(left[0])
	}
	return mid, ok
}

// notches hatches what is cut out of a part afterwards, for openings and slopes. The part lies as it hangs, turned
// a quarter where its long edge stands upright. What is left is returned.
func (d *cutPage) notches(q plan.Part, b Rect) Path {
	left := b.Path()
	h, ok := d.homes[q.Panel]
	if !ok {
		return left
	}
	o := h.panel.Outline.Bounds()
	lie := func(poly shape.Polygon) []Pt {
		ring := make([]Pt, len(poly))
		for i, k := range poly {
			at := shape.Point{X: q.Rect.X + k.X - o.X, Y: q.Rect.Y + k.Y - o.Y}
			if q.Turned {
				at = shape.Point{X: q.Rect.X + k.Y - o.Y, Y: q.Rect.MaxY() - (k.X - o.X)}
			}
			ring[i] = d.v.Place(at)
		}
		return ring
	}
	hatch := Hatch{Kind: Waste, Color: d.th.Quiet, From: Pt{b.X, b.Y + b.H}}
	pen := Pen{Width: 1, Color: d.th.Ink, Dash: []float64{4, 2}}
	show := func(p Path) {
		d.c.Fill(p, d.th.Pane)
		d.c.Hatch(p, hatch)
	}
	if len(h.panel.Outline) > 4 || h.panel.Outline.Area() != o.Area() {
		ring := lie(h.panel.Outline)
		show(append(b.Path(), ring))
		d.c.Stroke(ring, true, pen)
		left[0] = ring
		d.notched = true
	}
	for _, hole := range h.panel.Holes {
		ring := lie(hole)
		show(Path{ring})
		d.c.Stroke(ring, true, pen)
		left = append(left, ring)
		d.notched = true
	}
	return left
}

// cuts draws the cut lines with their numbers, the straight ones first. What is done is thin, what comes next is blue.
func (d *cutPage) cuts() {
	type line struct {
		from, to shape.Point
		order    int
	}
	var lines []line
	for i := range d.sh.Cuts {
		k := &d.sh.Cuts[i]
		lines = append(lines, line{k.From, k.To, k.Order})
	}
	for _, k := range d.sh.Slants() {
		lines = append(lines, line{k.From, k.To, k.Order})
	}
	for i, k := range lines {
		pen := Pen{Width: 2, Color: d.th.Ink}
		switch {
		case d.s.Step > 0 && i < d.s.Step:
			pen = Pen{Width: 1, Color: d.th.Quiet}
		case d.s.Step > 0 && i == d.s.Step:
			pen = Pen{Width: 3, Color: d.th.Accent}
		}
		d.c.Stroke([]Pt{d.v.Place(k.from), d.v.Place(k.to)}, false, pen)
	}
	for i, k := range lines {
		a, b := d.v.Place(k.from), d.v.Place(k.to)
		at := a.Add(b).Mul(0.5)
		for _, f := range [...]float64{0.5, 0.3, 0.7, 0.15, 0.85} {
			q := a.Add(b.Sub(a).Mul(f))
			if d.taken.add(Rect{q.X - badgeRadius, q.Y - badgeRadius, 2 * badgeRadius, 2 * badgeRadius}) {
				at = q
				break
			}
		}
		d.number(at, i, k.order)
	}
}

func (d *cutPage) number(at Pt, i, order int) {
	ring, ink, ground := d.th.Ink, d.th.Ink, d.th.Pane
	switch {
	case d.s.Step > 0 && i < d.s.Step:
		ring, ink = d.th.Quiet, d.th.Quiet
	case d.s.Step > 0 && i == d.s.Step:
		ring, ink, ground = d.th.Accent, d.th.Pane, d.th.Accent
	}
	d.c.Disc(at, badgeRadius, ring)
	d.c.Disc(at, badgeRadius-1.5, ground)
	d.c.Text(Pt{at.X, at.Y + Small*capHeight/2}, strconv.Itoa(order), Type{Size: Small, Weight: Semibold, Anchor: Middle, Color: ink})
}

// chains sets the figures outside the sheet: the cuts that are made in its full width or length, and the whole where it is
// asked for or nothing else stands there.
func (d *cutPage) chains(whole bool) {
	sheet := rectBox(d.v, shape.Rect{W: d.sh.Size[0], H: d.sh.Size[1]})
	corner := Pt{sheet.X, sheet.Y + sheet.H}
	across, up := []length.Length{0}, []length.Length{0}
	for i := range d.sh.Cuts {
		switch k := &d.sh.Cuts[i]; {
		case k.From.X == k.To.X && k.To.Y-k.From.Y == d.sh.Size[1]:
			across = append(across, k.From.X)
		case k.From.Y == k.To.Y && k.To.X-k.From.X == d.sh.Size[0]:
			up = append(up, k.From.Y)
		}
	}
	below, left := corner.Add(Pt{0, 22}), corner.Add(Pt{-18, 0})
	d.row(below, Pt{1, 0}, Pt{0, 1}, 22, across, d.sh.Size[0])
	d.row(left, Pt{0, -1}, Pt{-1, 0}, 18, up, d.sh.Size[1])
	if whole && len(across) > 1 {
		d.row(below.Add(Pt{0, 22}), Pt{1, 0}, Pt{0, 1}, 44, []length.Length{0}, d.sh.Size[0])
	}
}

// row is a dimension chain of places along one edge, in order, to its end.
func (d *cutPage) row(from, along, away Pt, reach float64, at []length.Length, whole length.Length) {
	at = append(at, whole)
	for i := range at { // few: insertion keeps them in order
		for k := i; k > 0 && at[k] < at[k-1]; k-- {
			at[k], at[k-1] = at[k-1], at[k]
		}
	}
	var marks []float64
	var figures []string
	for i, l := range at {
		marks = append(marks, d.v.Px(l))
		if i > 0 {
			figures = append(figures, dimension(l-at[i-1], d.say))
		}
	}
	var free places
	sheet := rectBox(d.v, shape.Rect{W: d.sh.Size[0], H: d.sh.Size[1]})
	free.take(sheet)
	if along.X == 0 { // figures stand outside
		free.take(Rect{from.X + 2, sheet.Y, sheet.X - from.X - 2, sheet.H})
	}
	chain(d.c, d.th, from, along, away, reach, marks, figures, &free)
}

// edgeWords are the phrases of the edge that a cut is measured from, kindWords those of its kind.
var (
	edgeWords = map[plan.Side]string{plan.Left: "draft.from-left", plan.Right: "draft.from-right", plan.Bottom: "draft.from-lower", plan.Top: "draft.from-upper"}
	kindWords = map[string]string{"cross": "draft.cross", "rip": "draft.rip"}
	restWords = map[plan.Use]string{plan.Keep: "draft.keep", plan.Waste: "draft.waste"}
)

// list says every cut in words: its number, how far, from which edge of the piece in hand. Cuts that need no new setting
// say so and stand together. A slanted cut has two measures, one at each of its ends.
func (d *cutPage) list(r Rect) {
	slants := d.sh.Slants()
	all := len(d.sh.Cuts) + len(slants)
	d.c.Text(Pt{r.X, r.Y + 10}, d.cutsHead(), Type{Size: Small, Color: d.th.Quiet})
	y := r.Y + 10 + cutListRow
	for i := range all {
		if y+cutListRow > r.Y+r.H && i+1 < all {
			d.c.Text(Pt{r.X, y}, d.say.Text("draft.and-more", "count", all-i), Type{Size: Small, Color: d.th.Quiet})
			return
		}
		ink := Type{Size: Small, Color: d.th.Ink}
		switch {
		case d.s.Step > 0 && i < d.s.Step:
			ink.Color = d.th.Quiet
		case d.s.Step > 0 && i == d.s.Step:
			ink.Color, ink.Weight = d.th.Accent, Semibold
		}
		if i < len(d.sh.Cuts) {
			d.cutRow(r, y, i, ink)
		} else {
			d.slantRow(r, y, slants[i-len(d.sh.Cuts)], ink)
		}
		y += cutListRow
	}
	y += 4
	notes := d.notes(false)
	if d.s.Inch > 0 { // on paper nobody can look closer: cut-outs have their measures, and nothing is shortened
		notes = wrapped(append(notes, d.cutOutNotes()...), r.W)
	}
	for _, s := range notes {
		if y > r.Y+r.H {
			return
		}
		d.c.Text(Pt{r.X, y}, Shorten(s, Small, Regular, r.W), Type{Size: Small, Color: d.th.Quiet})
		y += cutListRow
	}
}

// cutsHead heads the list of cuts, with how often saw or knife is set where that is not for every cut.
func (d *cutPage) cutsHead() string {
	head := d.say.Text("draft.cuts-in-order")
	if n := d.sh.Setups; n > 0 && n < len(d.sh.Cuts)+len(d.sh.Slants()) {
		head += ", " + d.say.Text("draft.set-ups", "count", n)
	}
	return head
}

// cutRow is a straight cut in the list.
func (d *cutPage) cutRow(r Rect, y float64, i int, ink Type) {
	k := &d.sh.Cuts[i]
	num := ink
	num.Anchor = End
	measure := dimension(k.Measure, d.say)
	if i > 0 && k.Setup == d.sh.Cuts[i-1].Setup {
		measure = d.say.Text("draft.same")
	}
	d.c.Text(Pt{r.X + 16, y}, strconv.Itoa(k.Order), num)
	d.c.Text(Pt{r.X + 26, y}, d.say.Text(kindWords[k.Kind]), ink)
	d.c.Text(Pt{r.X + 118, y}, measure, num)
	d.c.Text(Pt{r.X + 126, y}, d.say.Text(edgeWords[k.Edge]), ink)
}

// notes are what stands below the cuts. On a card some of it is said once for all, and cut-outs stand below the sheet.
func (d *cutPage) notes(card bool) (notes []string) {
	uncut := len(d.sh.Cuts)+len(d.sh.Slants()) == 0
	switch {
	case uncut && d.notched && card:
		notes = append(notes, d.say.Text("draft.only-cut-outs"))
	case uncut && d.notched:
		notes = append(notes, d.say.Text("draft.none"))
	case uncut:
		notes = append(notes, d.say.Text("draft.no-cuts"))
	case !card:
		notes = append(notes, d.say.Text("draft.face-up"))
	}
	notes = append(notes, d.slantNotes()...)
	if d.notched && !card {
		notes = append(notes, d.say.Text("draft.cut-out-afterwards"))
	}
	for _, q := range d.sh.Parts {
		if q.Ease > 0 {
			notes = append(notes, d.say.Text("draft.trim-afterwards", "panel", q.Panel, "ease", q.Ease))
		}
	}
	for _, q := range d.small {
		note, wall := q.Panel+": "+d.size(q.Rect.W, q.Rect.H), lower(Named(q.Surface, d.say))
		if q.Later {
			wall = d.say.Text("draft.later-for", "wall", wall)
		}
		if q.Surface != "" {
			note += ", " + wall
		}
		notes = append(notes, note)
	}
	if alike := d.alike(); len(d.sh.Cuts) > 0 && len(alike) > 0 {
		if card && len(alike) > alikeNamed {
			more := d.say.Text("draft.and-more", "count", len(alike)-alikeNamed)
			alike = append(alike[:alikeNamed:alikeNamed], more)
		}
		notes = append(notes, d.say.Text("draft.cut-alike", "sheets", strings.Join(alike, ", ")))
	}
	return notes
}

// alikeNamed is how many sheets that are cut alike a card names; a large building has hundreds.
const alikeNamed = 6

// alike are the other sheets that are cut in the same way.
func (d *cutPage) alike() (ids []string) {
	if d.p == nil || d.sh.Like == "" {
		return nil
	}
	for i := range d.p.Sheets {
		if s := &d.p.Sheets[i]; s.Like == d.sh.Like && s.ID != d.sh.ID {
			ids = append(ids, s.ID)
		}
	}
	return ids
}
