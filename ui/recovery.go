package ui

import (
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"seamwright/planner"
	"seamwright/planner/disk"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// Work that a run before this one did not get to save. All copies are listed, each with its file, the time of its last
// edit and how many there were; one goes only where that was asked for twice.

const (
	recoveryWidth float32 = 720
	recoveryHigh  float32 = 420 // of the list, at most
	mostDiffLines         = 400 // more are not read in a window
)

// offerRecovery lists the copies at the start, if there are any. Where something else lies over the window it waits.
func (w *Window) offerRecovery() {
	if w.over != nil {
		w.owing = true
		return
	}
	found, skipped := planner.Recoverable()
	switch {
	case len(found) > 0:
		w.showRecovery(found, skipped)
	case len(skipped) > 0:
		w.say(skippedWords(skipped))
	}
}

// offerLate lists the copies again some time after the start where there are more by then: a program that was killed while
// it waited for a slow disk holds on to its copy until the disk has answered.
func (w *Window) offerLate() {
	if w.options.Still {
		return
	}
	offered, _ := planner.Recoverable()
	for _, after := range lookAgain {
		time.AfterFunc(after, func() {
			w.post(func() {
				if found, _ := planner.Recoverable(); len(found) > len(offered) {
					offered = found
					w.offerRecovery()
				}
			})
		})
	}
}

// lookAgain is when copies are looked for once more after the start.
var lookAgain = []time.Duration{3 * time.Second, 15 * time.Second}

// unsavedWork lists the copies at the user's wish.
func (w *Window) unsavedWork() {
	found, skipped := planner.Recoverable()
	if len(found) == 0 {
		w.say(strings.TrimSpace("There is no unsaved work besides what is shown. " + skippedWords(skipped)))
		return
	}
	w.showRecovery(found, skipped)
}

func skippedWords(skipped []planner.Skipped) string {
	if len(skipped) == 0 {
		return ""
	}
	var words []string
	for _, s := range skipped {
		words = append(words, s.Path+" "+s.Why)
	}
	return "Skipped: " + strings.Join(words, "; ") + "."
}

func (w *Window) showRecovery(found []planner.Recovery, skipped []planner.Skipped) {
	p := w.pal
	box := container0()
	c := &column{box: box, pal: p, x: 4, y: 4, width: recoveryWidth}
	h := p.heading("Unsaved work")
	c.add(h, h.MinSize().Height+6)
	c.paragraph("These changes were not saved when the program ended. They stay until you save or discard them.", sizeText, p.Quiet)
	c.gap(10)
	list := container0()
	rows := &column{box: list, pal: p, x: 0, y: 0, width: recoveryWidth - 20}
	for _, r := range found {
		w.recoveryRow(rows, r)
	}
	if len(skipped) > 0 {
		rows.paragraph(skippedWords(skipped), sizeSmall, p.Quiet)
		rows.gap(6)
	}
	list.Resize(fyne.NewSize(rows.width, rows.y))
	high := min(rows.y+4, recoveryHigh)
	scroll := container.NewVScroll(list)
	put(scroll, 4, c.y, recoveryWidth, high)
	box.Add(scroll)
	c.gap(high + 12)
	w.buttons(c, answer{"Later", nil})
	w.lay(box, nil)
}

// recoveryRow sets one copy with what can be done with it.
func (w *Window) recoveryRow(c *column, r planner.Recovery) {
	p := w.pal
	name := p.text(r.Name, sizeText, true, p.Ink)
	c.add(name, 20)
	file := r.Path
	if file == "" {
		file = "Never saved"
	}
	c.paragraph(file, sizeText, p.Ink)
	facts := fmt.Sprintf("%s, last %s", counted(r.Edits, "edit"), when(r.Last))
	if r.Path != "" {
		facts += "; " + string(r.File)
	}
	c.paragraph(facts, sizeText, p.Quiet)
	answers := []answer{{"Open", func() { w.openCopy(r) }}, {"Compare", func() { w.compareCopy(r) }}, {"Discard", func() { w.discardCopy(r) }}}
	if r.Ended {
		c.paragraph("The program ended when it opened this last. Compare it as text, or open what worked before; the copy stays.", sizeText, p.Accent)
		answers = []answer{{"Compare", func() { w.compareCopy(r) }}, {"Open what worked", func() { w.openGood(r) }},
			{"Open it all the same", func() { w.openCopy(r) }}, {"Discard", func() { w.discardCopy(r) }}}
	}
	c.gap(6)
	w.buttons(c, answers...)
	c.gap(4)
	c.add(p.rule(0, c.y, c.width), 1)
	c.gap(8)
}

// buttons sets a row of buttons that close what they lie on; the first is the likeliest.
func (w *Window) buttons(c *column, answers ...answer) {
	x := c.x
	for i, a := range answers {
		b := newButton(w.pal, pill, a.words, func() {
			w.lift()
			if a.do != nil {
				a.do()
			}
		})
		b.on = i == 0
		m := b.MinSize()
		put(b, x, c.y, m.Width, m.Height)
		x += m.Width + 8
		c.box.Add(b)
	}
	c.gap(target + 8)
}

// when words a moment for somebody who looks back: the day only where it was not today.
func when(t time.Time) string {
	if t.IsZero() {
		return "at an unknown time"
	}
	now := time.Now()
	if t.YearDay() == now.YearDay() && t.Year() == now.Year() {
		return "today at " + t.Format("15:04:05")
	}
	return t.Format("2 Jan 2006 at 15:04")
}

func (w *Window) openCopy(r planner.Recovery) {
	w.guarded("opening the unsaved work", func() {
		doc, err := r.Open()
		if err != nil {
			w.ShowFault(r.Name, err)
			return
		}
		w.replace(doc)
	})
}

func (w *Window) openGood(r planner.Recovery) {
	w.guarded("opening the unsaved work", func() {
		doc, err := r.OpenGood()
		if err != nil {
			w.ShowFault(r.Name, err)
			return
		}
		w.replace(doc)
		w.say("What worked before is shown. The later edits stay under File, Unsaved work.")
	})
}

// discardCopy asks a second time: this is the one place where work goes for good.
func (w *Window) discardCopy(r planner.Recovery) {
	w.ask("Discard "+counted(r.Edits, "edit")+" of “"+r.Name+"”?", "What is discarded cannot be brought back.",
		answer{"Cancel", w.unsavedWork},
		answer{"Discard", func() {
			if err := r.Drop(); err != nil {
				w.say(sentence(err))
				return
			}
			if found, skipped := planner.Recoverable(); len(found) > 0 {
				w.showRecovery(found, skipped)
			}
		}})
}

// compareCopy shows as text how a copy differs from its file, or from what worked last.
func (w *Window) compareCopy(r planner.Recovery) {
	p := w.pal
	base, what := r.Base()
	box := container0()
	c := &column{box: box, pal: p, x: 4, y: 4, width: recoveryWidth}
	h := p.heading(r.Name)
	c.add(h, h.MinSize().Height+6)
	c.paragraph("− only in "+what+"   + only in the unsaved work", sizeText, p.Quiet)
	c.gap(8)
	list := container0()
	lines := &column{box: list, pal: p, x: 0, y: 0, width: recoveryWidth - 20}
	diff := planner.Diff(base, r.Text())
	for _, l := range diff[:min(len(diff), mostDiffLines)] {
		t := p.text(string(l.Sign)+" "+fit(strings.ReplaceAll(l.Text, "\t", "    "), sizeSmall, false, lines.width-30), sizeSmall, l.Sign != ' ', p.Ink)
		if l.Sign == ' ' || l.Sign == '…' {
			t.Color = p.Quiet
		}
		t.TextStyle.Monospace = true
		lines.add(t, 17)
	}
	if !slices.ContainsFunc(diff, func(l planner.DiffLine) bool { return l.Sign == '+' || l.Sign == '-' }) {
		lines.paragraph("The two are the same.", sizeText, p.Ink)
	}
	if more := len(diff) - mostDiffLines; more > 0 {
		lines.paragraph(fmt.Sprintf("and %d more lines: save the text to read them all", more), sizeText, p.Ink)
	}
	list.Resize(fyne.NewSize(lines.width, lines.y))
	scroll := container.NewScroll(list)
	high := min(lines.y+4, recoveryHigh)
	put(scroll, 4, c.y, recoveryWidth, high)
	box.Add(scroll)
	c.gap(high + 12)
	w.buttons(c, answer{"Back", w.unsavedWork}, answer{"Open", func() { w.openCopy(r) }}, answer{"Save the text…", func() { w.saveText(r) }})
	w.lay(box, w.unsavedWork)
}

// saveText writes the copy as it is to a file, without reading it as a project. The copy stays.
func (w *Window) saveText(r planner.Recovery) {
	name := fileName(r.Name)
	if r.Path != "" {
		name = strings.TrimSuffix(filepath.Base(r.Path), planner.Extension) + "-unsaved" + planner.Extension
	}
	w.chooseFile(&chooser{title: "Save the text", verb: "Save", endings: []string{planner.Extension, ".yaml", ".yml"}, saving: true, take: func(path string) {
		_, err := disk.Write(disk.OS{}, path, disk.Options{}, func(out io.Writer) error {
			_, err := out.Write(r.Text())
			return err
		})
		if err != nil {
			w.say("Not saved. " + sentence(err))
			return
		}
		w.say("Saved the text to " + path + ".")
	}}, name)
}

// proven tells the document, some time after an answer was shown, that its text does not end the program.
func (w *Window) proven(c Change) {
	if c&PlanChanged == 0 || w.options.Still {
		return
	}
	revision := w.model.Doc.Revision()
	time.AfterFunc(provenAfter, func() {
		w.post(func() {
			if m := w.model; m.Doc.Revision() == revision && (m.settled() || m.Fault != nil && !m.Stale) {
				m.Doc.Answered()
			}
		})
	})
}

// provenAfter is how long an answer must have been on the screen: every view has drawn it by then.
const provenAfter = 2 * time.Second
