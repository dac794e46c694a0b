package ui

import (
	"math"
	"slices"
	"strings"

	"seamwright/calc/job"
	"seamwright/calc/plan"

	"fyne.io/fyne/v2"
)

// answers is the band over the unrolled walls: the three named answers side by side, one click from each other, and
// what is proven about the one that stands.
type answers struct {
	w     *Window
	box   *fyne.Container
	cards *fyne.Container
}

const (
	answersHeight float32 = 44
	answerWide    float32 = 214 // a card at most
	answerNarrow  float32 = 150 // and at least
	answersFrom   float32 = 210 // the strip's height from which there is room for the band
)

func newAnswers(w *Window) *answers {
	a := &answers{w: w, cards: container0()}
	a.box = laidOut(arrange{fyne.NewSize(10, answersHeight), a.place}, a.cards)
	return a
}

// shown says whether there is something to choose between.
func (a *answers) shown() bool {
	p := a.w.model.Plan
	return p != nil && len(p.Answers) > 1 && slices.ContainsFunc(p.Answers, func(one plan.Answer) bool { return one.Sheets > 0 })
}

func (a *answers) refresh() { a.place(a.box.Size()) }

func (a *answers) place(size fyne.Size) {
	a.cards.RemoveAll()
	if !a.shown() {
		a.cards.Refresh()
		return
	}
	w, p := a.w, a.w.pal
	aim, list := w.standing(), w.model.Plan.Answers
	words := provenWords(&w.model.Plan.Summary)
	proof := textWidth(words, sizeText, false)
	wide := min(answerWide, (size.Width-proof-grid)/float32(len(list))-grid)
	if wide < answerNarrow {
		wide, words = min(answerWide, size.Width/float32(len(list))-grid), ""
	}
	x := float32(0)
	for _, one := range list {
		a.card(&one, x, wide, aimOf(one.Aim) == aim)
		x += wide + grid
	}
	if words != "" {
		head := p.caption("Whole job")
		put(head, x+grid, 5, head.MinSize().Width, 14)
		t := p.text(words, sizeText, false, p.Ink)
		put(t, x+grid, 20, t.MinSize().Width, 18)
		a.cards.Add(head)
		a.cards.Add(t)
	}
	a.cards.Refresh()
}

// card is one answer: its name, and what it takes; the figure that it makes least is set bold.
func (a *answers) card(one *plan.Answer, x, wide float32, on bool) {
	w, p := a.w, a.w.pal
	name := aimWord(aimOf(one.Aim))
	b := newButton(p, plainItem, "", func() {
		w.setAim(name)
	})
	b.on, b.framed, b.keys = on, true, w.typedKey
	under := len(a.cards.Objects)
	b.hovered = func(in bool) {
		words := ""
		if in {
			words = w.answerWords(one)
		}
		w.say(words)
	}
	ink, edge := p.Ink, p.Hairline
	if on {
		ink, edge = p.Accent, p.Accent
		a.cards.Add(newGround(p.AccentBg))
	}
	a.cards.Add(newFrame(edge, 1))
	a.cards.Add(b)
	for _, o := range a.cards.Objects[under:] {
		put(o, x, 0, wide, answersHeight-2)
	}
	cells := []cell{{text: capital(name), bold: true, ink: ink}}
	head := p.row(wide-20, 16, cells...)
	head.Move(fyne.NewPos(x+10, 4))
	a.cards.Add(head)
	at := x + 10
	for i, figure := range []string{counted(one.Sheets, "sheet"), w.run(seams(one)) + " butt", amount(one.Cost, w.model.Doc.Job().Currency)} {
		bold := i == map[job.Aim]int{job.AimSheets: 0, job.AimJoints: 1, job.AimCost: 2}[aimOf(one.Aim)]
		t := p.text(figure, sizeSmall, bold, p.Ink)
		least := t.MinSize()
		if at+least.Width > x+wide-6 {
			break
		}
		put(t, at, 22, least.Width, least.Height)
		at += least.Width + 10
		a.cards.Add(t)
	}
}

// aimOf reads the aim that an answer names.
func aimOf(s string) job.Aim { return job.Aim(s) }

// standing is the aim whose answer is shown.
func (w *Window) standing() job.Aim { return w.model.Doc.Job().Aim }

// answerNow is the named answer that is shown, nil before there is one.
func (w *Window) answerNow() *plan.Answer {
	for i := range w.model.Plan.Answers {
		if one := &w.model.Plan.Answers[i]; aimOf(one.Aim) == w.standing() {
			return one
		}
	}
	return nil
}

// provenWords say what is proven of the sheets: that none fewer is possible, or how few it could be at best.
func provenWords(s *plan.Summary) string {
	words := counted(s.SheetsBought, "sheet")
	switch {
	case s.SheetsBought == 0:
		return "no sheet to buy"
	case s.SheetsBound == s.SheetsBought:
		return words + ", none fewer is possible"
	case s.SheetsBound > 0:
		return words + ", at least " + thousands(int64(s.SheetsBound))
	}
	return words
}

// answerWords compare an answer with the one that stands.
func (w *Window) answerWords(one *plan.Answer) string {
	now := w.answerNow()
	name := capital(aimWord(aimOf(one.Aim)))
	if now == nil || now.Aim == one.Aim {
		return name + " is the answer shown. Money here is the total of the plan."
	}
	var parts []string
	if d := one.Sheets - now.Sheets; d != 0 {
		parts = append(parts, change(d)+plural(d, " sheet"))
	}
	if s := w.runChange(seams(one) - seams(now)); s != "" {
		parts = append(parts, s+" of butt joint")
	}
	if s := moneyChange(one.Cost-now.Cost, w.model.Doc.Job().Currency); s != "" {
		parts = append(parts, s)
	}
	if d := math.Round(10*(one.Hours-now.Hours)) / 10; d != 0 {
		parts = append(parts, signed(d)+" own hours")
	}
	against := " against " + aimWord(aimOf(now.Aim)) + ": "
	if len(parts) == 0 {
		return name + against + "no difference here."
	}
	return name + against + strings.Join(parts, ", ") + "."
}
