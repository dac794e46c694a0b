package ui

import (
	"image/color"
	"math"
	"strings"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/scene/draft"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
)

// ledger is the account that never leaves the window: money first, then sheets with the proven least beside them, and
// what the last change did to each.
type ledger struct {
	w        *Window
	box      *fyne.Container
	head     *fyne.Container // alternatives and money
	body     *fyne.Container // everything that may scroll
	scroll   *container.Scroll
	headHigh float32
}

// The inside of the ledger.
const (
	ledgerEdge  float32 = 14
	ledgerInner         = ledgerWidth - 2*ledgerEdge
	ledgerLine  float32 = 25
	ledgerNote  float32 = 92 // the column at the right: what the last change did, packs to buy
	ledgerValue float32 = 78
)

func newLedger(w *Window) *ledger {
	l := &ledger{w: w, head: container0(), body: container0()}
	l.scroll = container.NewVScroll(l.body)
	inner := laidOut(arrange{fyne.NewSize(ledgerWidth, 200), func(size fyne.Size) {
		put(l.head, 0, 0, size.Width, l.headHigh)
		put(l.scroll, 0, l.headHigh, size.Width, size.Height-l.headHigh)
	}}, l.head, l.scroll)
	l.box = w.pal.pane(inner)
	return l
}

func (l *ledger) refresh(c Change) {
	if c&^HandChanged == 0 {
		return
	}
	l.fillHead()
	l.fillBody()
	l.box.Refresh()
	size := l.box.Size()
	put(l.head, 0, 0, size.Width, l.headHigh)
	put(l.scroll, 0, l.headHigh, size.Width, size.Height-l.headHigh)
	l.scroll.Refresh()
}

// column stacks what a part of the ledger is made of.
type column struct {
	box   *fyne.Container
	pal   *Palette
	x, y  float32
	width float32
}

func (c *column) add(o fyne.CanvasObject, height float32) {
	put(o, c.x, c.y, c.width, height)
	c.box.Add(o)
	c.y += height
}

func (c *column) gap(h float32) { c.y += h }

func (c *column) title(words string) {
	c.gap(16)
	c.add(c.pal.caption(words), 18)
}

// line is a row of cells over a hairline.
func (c *column) line(height float32, cells ...cell) {
	c.add(c.pal.row(c.width, height-1, cells...), height-1)
	c.add(c.pal.rule(c.x, c.y, c.width), 1)
}

// tapLine is a line that goes somewhere.
func (c *column) tapLine(height float32, on bool, keys func(*fyne.KeyEvent), tapped func(), cells ...cell) *button {
	b := newButton(c.pal, plainItem, "", tapped)
	b.on, b.keys = on, keys
	put(b, c.x-6, c.y, c.width+12, height-1)
	c.box.Add(b)
	c.line(height, cells...)
	return b
}

// paragraph sets wrapped text.
func (c *column) paragraph(words string, size float32, ink color.Color) {
	for _, l := range wrap(words, size, false, c.width) {
		t := c.pal.text(l, size, false, ink)
		c.add(t, t.MinSize().Height+1)
	}
}

func (l *ledger) fillHead() {
	w, p := l.w, l.w.pal
	l.head.RemoveAll()
	c := &column{box: l.head, pal: p, x: ledgerEdge, y: 8, width: ledgerInner}
	l.alternatives(c)
	j, a := w.model.Doc.Job(), w.model.Plan
	c.gap(10)
	what := "Materials with tax"
	if j.Site.Rate > 0 {
		what = "Materials with tax, own hours at " + amount(j.Site.Rate, j.Currency)
	}
	c.add(p.caption(what), 16)
	figure := "–"
	if a != nil && len(j.Rooms) > 0 {
		figure = amount(a.Cost.Total, j.Currency)
	}
	big := p.text(figure, sizeFigure, true, p.Ink)
	put(big, c.x, c.y, big.MinSize().Width, big.MinSize().Height)
	l.head.Add(big)
	if b := w.model.Before; a != nil && b != nil && a.Cost.Total != b.Cost.Total {
		d := a.Cost.Total - b.Cost.Total
		t := p.text(fit(moneyChange(d, j.Currency)+" since last change", sizeText, false, c.width-big.MinSize().Width-10), sizeText, false, p.tone(float64(d)))
		put(t, c.x+big.MinSize().Width+10, c.y+big.MinSize().Height-t.MinSize().Height-5, t.MinSize().Width, t.MinSize().Height)
		l.head.Add(t)
	}
	c.gap(big.MinSize().Height)
	if a != nil && a.Cost.Quote > 0 {
		words := "hired quote " + amount(a.Cost.Quote, j.Currency)
		if a.Cost.BreakEven > 0 {
			words += " · break-even " + amount(a.Cost.BreakEven, j.Currency) + " an hour"
		}
		c.paragraph(words, sizeSmall, p.Quiet)
	}
	c.gap(8)
	l.headHigh = c.y
}

// alternatives are the tabs at the head: the project as drawn, its named variants, and the way to compare them.
func (l *ledger) alternatives(c *column) {
	w, p := l.w, l.w.pal
	names := []string{""}
	for _, a := range w.model.Doc.Job().Alternatives {
		names = append(names, a.Name)
	}
	x, high := c.x-4, target+4
	place := func(b *button) {
		b.small, b.keys = true, w.typedKey
		s := b.MinSize()
		if x+s.Width > c.x+c.width+6 {
			x = c.x - 4
			c.gap(high)
		}
		put(b, x, c.y, s.Width, high)
		c.box.Add(b)
		x += s.Width + 6
	}
	for _, name := range names {
		words := name
		if name == "" {
			words = "As drawn"
		}
		b := newButton(p, tab, fit(words, sizeSmall, true, 130), func() { w.activate(name) })
		b.on = name == w.model.Doc.Active()
		place(b)
	}
	if len(names) > 1 {
		place(newButton(p, link, "compare", func() { w.invoke(w.command("compare")) }))
	}
	place(newButton(p, link, "+ alternative", func() { w.invoke(w.command("alternative")) }))
	c.gap(high)
}

// tone is the colour of a difference: more is dearer.
func (p *Palette) tone(d float64) color.NRGBA {
	switch {
	case d > 0:
		return p.More
	case d < 0:
		return p.Less
	}
	return p.Quiet
}

func (l *ledger) fillBody() {
	w, p := l.w, l.w.pal
	l.body.RemoveAll()
	c := &column{box: l.body, pal: p, x: ledgerEdge, y: 0, width: ledgerInner}
	a := w.model.Plan
	switch {
	case len(w.model.Doc.Job().Rooms) == 0:
		c.paragraph("Nothing is drawn yet. Press R and click the corners of a room in the plan; type a length at any time and press Enter.", sizeText, p.Quiet)
	case a != nil:
		l.figures(c, a)
		l.byWall(c, a)
		l.next(c, a)
		l.checks(c, a)
	case w.model.Fault != nil:
		c.paragraph("The calculation gave no answer. "+sentence(w.model.Fault), sizeText, p.Error)
	default:
		c.paragraph("Working out the first answer.", sizeText, p.Quiet)
	}
	c.gap(16)
	l.body.Resize(fyne.NewSize(ledgerWidth-8, c.y))
}

// figures are the numbers of the whole job, each with what the last change did or with the packs that it takes.
func (l *ledger) figures(c *column, a *plan.Plan) {
	w, p := l.w, l.w.pal
	s := a.Summary
	was := s
	if b := w.model.Before; b != nil {
		was = b.Summary
	}
	row := func(name, value, note string, ink color.NRGBA, bold bool) {
		c.line(ledgerLine, cell{text: name}, cell{text: value, width: ledgerValue, right: true, bold: bold},
			cell{text: note, width: ledgerNote, right: true, ink: ink})
	}
	d := s.SheetsBought - was.SheetsBought
	row("Sheets to buy", thousands(int64(s.SheetsBought)), change(d), p.tone(float64(d)), true)
	switch {
	case s.SheetsBound == s.SheetsBought && !s.Searching && s.SheetsBought > 0:
		c.line(ledgerLine, cell{text: "none fewer is possible", ink: p.Quiet}, cell{text: "proven", width: ledgerNote, right: true, ink: p.Quiet})
	case s.Searching:
		row("at least", thousands(int64(s.SheetsBound)), "searching", p.Quiet, false)
	default:
		row("at least", thousands(int64(s.SheetsBound)), "", p.Quiet, false)
	}
	waste := (s.Waste - was.Waste) * 100
	note := ""
	if waste > 0.05 || waste < -0.05 {
		note = signed(waste)
	}
	row("Waste", percent(s.Waste), note, p.tone(waste), false)
	butt, buttWas := s.ButtJoint+s.MixedJoint, was.ButtJoint+was.MixedJoint
	row("Butt joints", w.run(butt), w.runChange(butt-buttWas), p.tone(float64(butt-buttWas)), false)
	row("Tapered joints", w.run(s.TaperedJoint), w.runChange(s.TaperedJoint-was.TaperedJoint), p.Quiet, false)
	j := w.model.Doc.Job()
	row("Screws", thousands(int64(s.Screws)), packs(j, a, "screw"), p.Quiet, false)
	need, unit := needed(j, a, "compound", "setting-compound")
	row("Compound", need+" "+unit, packs(j, a, "compound", "setting-compound"), p.Quiet, false)
	need, unit = needed(j, a, "primer", "paint")
	row("Primer, paint", need+" "+unit, packs(j, a, "primer", "paint"), p.Quiet, false)
	hours := s.Hours - was.Hours
	note = ""
	if hours >= 0.5 || hours <= -0.5 {
		note = signed(hours)
	}
	row("Own hours", quantity(float64(int(s.Hours+0.5))), note, p.tone(hours), false)
	finish := lastDay(a)
	if s.Days > 0 {
		finish += ", " + counted(s.Days, "day")
	}
	c.line(ledgerLine, cell{text: "Finished", width: 80}, cell{text: finish, right: true})
}

// kinds maps supply ids to their kinds.
func kinds(j *job.Job) map[string]string {
	m := make(map[string]string, len(j.Supplies))
	for _, s := range j.Supplies {
		m[s.ID] = s.Kind
	}
	return m
}

// needed sums what the takeoff needs of some kinds of supply, in the unit of the first row.
func needed(j *job.Job, a *plan.Plan, kind ...string) (amount, unit string) {
	of, sum := kinds(j), 0.0
	for _, item := range a.Takeoff {
		if in(of[item.Supply], kind) && (unit == "" || item.Unit == unit) {
			sum += item.Need
			unit = item.Unit
		}
	}
	if unit == "" {
		return "–", ""
	}
	return trimZero(math.Round(sum*10) / 10), unit
}

// packs counts the packs to buy of some kinds of supply.
func packs(j *job.Job, a *plan.Plan, kind ...string) string {
	of, n, name := kinds(j), 0, ""
	for _, item := range a.Takeoff {
		if in(of[item.Supply], kind) && item.Buy > 0 {
			n += item.Buy
			word := packWord(item.Pack)
			if name != "" && name != word {
				word = "pack"
			}
			name = word
		}
	}
	if n == 0 {
		return ""
	}
	return counted(n, name)
}

// packWords are what packs are called.
var packWords = []string{"box", "pail", "roll", "can", "tube", "bag", "bucket", "stick", "tin", "jar", "cartridge"}

// packWord is the noun in a pack's name: "box of 1000" is a box, "5 gal pail" a pail.
func packWord(pack string) string {
	for _, f := range strings.Fields(pack) {
		if in(f, packWords) {
			return f
		}
	}
	return "pack"
}

func in(s string, list []string) bool {
	for _, x := range list {
		if x == s {
			return true
		}
	}
	return false
}

// counted writes a count with its noun in the right number.
func counted(n int, noun string) string {
	s := thousands(int64(n)) + " " + noun
	if n == 1 {
		return s
	}
	if strings.HasSuffix(noun, "x") || strings.HasSuffix(noun, "ch") {
		return s + "es"
	}
	return s + "s"
}

// byWall is each surface's sheets and money; a click picks it in every view.
func (l *ledger) byWall(c *column, a *plan.Plan) {
	w, p := l.w, l.w.pal
	if len(a.Cost.BySurface) == 0 {
		return
	}
	c.title("By wall")
	j := w.model.Doc.Job()
	many, room := len(j.Rooms) > 1, ""
	for _, s := range a.Cost.BySurface {
		ink := p.Ink
		on := surfaceName(w.model.Selected.Surface) == surfaceName(s.Surface)
		if on {
			ink = p.Accent
		}
		if many && roomOf(s.Surface) != room {
			room = roomOf(s.Surface)
			c.line(ledgerLine, cell{text: capital(room), bold: true})
		}
		name := shortName(s.Surface) + ", " + l.lining(j, s.Surface)
		c.tapLine(ledgerLine, on, w.typedKey, func() { w.pickSurface(s.Surface) },
			cell{text: capital(name), ink: ink, bold: on}, cell{text: thousands(int64(s.Sheets)), width: 30, right: true, ink: ink},
			cell{text: amount(s.Cost, j.Currency), width: 66, right: true, ink: ink})
	}
}

// lining names what a surface gets, in few words.
func (l *ledger) lining(j *job.Job, surface string) string {
	zones := liningOf(findSurface(j, surface))
	names := make([]string, 0, len(zones))
	for _, z := range zones {
		names = append(names, shortLayers(j, z.Layers))
	}
	return strings.Join(names, ", ")
}

// shortLayers is a finish in the fewest words: its product id says kind and thickness, but people read names.
func shortLayers(j *job.Job, layers []string) string {
	if len(layers) == 1 && layers[0] == job.Open || len(layers) == 0 {
		return "left open"
	}
	p := j.Product(layers[len(layers)-1])
	if p == nil {
		return layers[len(layers)-1]
	}
	kind := "board"
	if p.Kind == job.WoodPanel {
		kind = "ply"
		if strings.HasPrefix(p.ID, "osb") {
			kind = "OSB"
		}
	}
	thick := p.Thickness.Show(j.Units != job.Metric)
	if j.Units != job.Metric {
		thick = p.Thickness.Imperial(length.ShownFraction)
	}
	s := kind + " " + thick
	if p.FireType {
		s += " fire"
	}
	if p.Moisture {
		s += " wet"
	}
	if p.Sag && !p.FireType {
		s += " ceiling"
	}
	if len(layers) > 1 {
		s = counted(len(layers), "layer") + " " + s
	}
	return s
}

// nextTasks is how many steps the ledger shows.
const nextTasks = 3

// next is the first steps that are not done yet; a click ticks one off.
func (l *ledger) next(c *column, a *plan.Plan) {
	w := l.w
	var tasks []plan.Task
	for _, t := range a.Schedule {
		if !t.Done && t.Kind != "wait" && len(tasks) < nextTasks {
			tasks = append(tasks, t)
		}
	}
	if len(tasks) == 0 {
		return
	}
	c.title("Next")
	for _, t := range tasks {
		top := c.y
		b := newButton(w.pal, plainItem, "", func() { w.tick(t, true) })
		b.keys = w.typedKey
		c.box.Add(b)
		inner := &column{box: c.box, pal: w.pal, x: c.x + 22, y: c.y + 4, width: c.width - 22}
		inner.paragraph(capital(t.Name), sizeText, w.pal.Ink)
		c.y = inner.y + 5
		put(b, c.x-6, top, c.width+12, c.y-top)
		square := canvas.NewRectangle(color.Transparent)
		square.StrokeColor, square.StrokeWidth, square.CornerRadius = w.pal.Ink, 1, 1
		put(square, c.x+1, top+6, 12, 12)
		c.box.Add(square)
		c.add(w.pal.rule(c.x, c.y, c.width), 1)
	}
}

// shownChecks is how many findings the ledger shows; broken rules come first.
const shownChecks = 4

func (l *ledger) checks(c *column, a *plan.Plan) {
	w, p := l.w, l.w.pal
	broken, cautions := 0, 0
	var shown []plan.Check
	for _, level := range []plan.Level{plan.Error, plan.Caution} {
		for _, k := range a.Checks {
			if k.Level != level {
				continue
			}
			if level == plan.Error {
				broken++
			} else {
				cautions++
			}
			if len(shown) < shownChecks {
				shown = append(shown, k)
			}
		}
	}
	words := "Checks: nothing to look at"
	if broken+cautions > 0 {
		words = "Checks: " + counted(broken, "rule") + " broken, " + counted(cautions, "caution")
		if broken == 0 {
			words = "Checks: " + counted(cautions, "caution")
		}
	}
	c.title(words)
	for _, k := range shown {
		top := c.y
		b := newButton(p, plainItem, "", func() { w.goTo(k) })
		b.keys = w.typedKey
		c.box.Add(b)
		inner := &column{box: c.box, pal: p, x: c.x + 10, y: c.y + 3, width: c.width - 10}
		inner.paragraph(shortMessage(k), sizeText, p.Ink)
		c.y = inner.y + 6
		put(b, c.x-2, top, c.width+8, c.y-top-3)
		mark := canvas.NewRectangle(p.Caution)
		if k.Level == plan.Error {
			mark.FillColor = p.Error
		}
		put(mark, c.x, top+2, 3, c.y-top-7)
		c.box.Add(mark)
	}
	if broken+cautions > len(shown) {
		all := newButton(p, link, "all checks", func() { w.showTabNamed("Checks") })
		all.keys = w.typedKey
		put(all, c.x-2, c.y, all.MinSize().Width, target)
		c.box.Add(all)
		c.y += target
	}
}

// messageLength is what the ledger shows of a check; the rest stands in the Checks view.
const messageLength = 130

func shortMessage(k plan.Check) string {
	m := capital(k.Message)
	if k.Where != "" && !strings.HasPrefix(k.Message, k.Where) {
		m = capital(k.Where) + ": " + k.Message
	}
	if r := []rune(m); len(r) > messageLength {
		return strings.TrimRight(string(r[:messageLength]), " ,;") + "…"
	}
	return m
}

// signed writes a difference to one place with its sign.
func signed(v float64) string {
	if v < 0 {
		return "− " + oneDecimal(-v)
	}
	return "+ " + oneDecimal(v)
}

func capital(s string) string {
	if s == "" {
		return s
	}
	r := []rune(s)
	return strings.ToUpper(string(r[0])) + string(r[1:])
}

// pickSurface selects a wall or ceiling in every view.
func (w *Window) pickSurface(id string) {
	w.model.Pick(draft.Target{Kind: draft.OnSurface, Room: roomOf(id), Surface: surfaceName(id)})
}

// activate shows an alternative, "" the project as drawn.
func (w *Window) activate(name string) {
	if err := w.model.Activate(name); err != nil {
		w.say(sentence(err))
	}
}
