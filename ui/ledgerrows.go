package ui

import (
	"image/color"
	"math"
	"strings"

	"fyne.io/fyne/v2/canvas"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/scene/draft"
)

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
	case s.SheetsBound == s.SheetsBought && s.SheetsBought > 0:
		c.line(ledgerLine, cell{text: "none fewer is possible", ink: p.Quiet}, cell{text: "proven", width: ledgerNote, right: true, ink: p.Quiet})
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
	of, n := kinds(j), 0
	for _, item := range a.Takeoff {
		if in(of[item.Supply], kind) {
			n += item.Buy
		}
	}
	if n == 0 {
		return ""
	}
	return counted(n, "pack")
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
			c.line(ledgerLine, cell{text: draft.SurfaceName(room), bold: true})
		}
		name := draft.WallName(s.Surface) + ", " + l.lining(j, s.Surface)
		if _, short, _ := strings.Cut(s.Surface, "/"); isCeiling(short) { // a board for ceilings need not say so there
			name = strings.TrimSuffix(name, " ceiling")
		}
		c.tapLine(ledgerLine, on, w.typedKey, func() { w.pickSurface(s.Surface) },
			cell{text: name, ink: ink, bold: on}, cell{text: thousands(int64(s.Sheets)), width: 30, right: true, ink: ink},
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
		if p.Strand {
			kind = "OSB"
		}
	}
	thick := p.Thickness.Imperial(length.ShownFraction)
	if j.Units == job.Metric { // boards are made in half millimetres
		thick = exactNumber(math.Round(p.Thickness.MM()*10)/10) + " mm"
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
		inner.paragraph(w.tell(t.Name), sizeText, w.pal.Ink)
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
		inner.paragraph(w.shortMessage(k), sizeText, p.Ink)
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

func (w *Window) shortMessage(k plan.Check) string {
	m, said := w.tell(k.Says), w.voice().Fact(k.Says)
	if k.Where != "" && !strings.HasPrefix(said, k.Where) {
		m = draft.SurfaceName(k.Where) + ": " + w.plain(said)
	}
	if r := []rune(m); len(r) > messageLength {
		head := string(r[:messageLength+1])
		if end := strings.LastIndex(head, " "); end > 0 { // no word is cut
			head = head[:end]
		}
		return strings.TrimRight(head, " ,;") + "…"
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
