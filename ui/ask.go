package ui

import (
	"errors"
	"path/filepath"
	"slices"
	"strconv"

	"seamwright/planner"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// answer is one way out of a question.
type answer struct {
	words string
	do    func() // nil: nothing happens
}

const askWidth float32 = 460

// ask puts a question that must be answered, the safest answer first.
func (w *Window) ask(title, words string, answers ...answer) {
	p := w.pal
	box := container0()
	c := &column{box: box, pal: p, x: 4, y: 4, width: askWidth}
	h := p.heading(title)
	c.add(h, h.MinSize().Height+8)
	c.paragraph(words, sizeText, p.Ink)
	c.gap(16)
	x := float32(4)
	for i, a := range answers {
		b := newButton(p, pill, a.words, func() {
			w.lift()
			w.question = nil
			if a.do != nil {
				a.do()
			}
		})
		b.on = i == 0
		m := b.MinSize()
		if x+m.Width > askWidth {
			x = 4
			c.gap(m.Height + 6)
		}
		put(b, x, c.y, m.Width, m.Height)
		x += m.Width + 8
		box.Add(b)
	}
	c.gap(target + 8)
	w.lay(box, func() { w.question = nil })
	w.question = answers
}

// ShowFault shows everything that is wrong with a file, with line, column and remedy. The project stays as it is.
func (w *Window) ShowFault(path string, err error) {
	p := w.pal
	box := container0()
	const width = 700
	c := &column{box: box, pal: p, x: 4, y: 4, width: width}
	h := p.heading(filepath.Base(path) + " cannot be opened")
	c.add(h, h.MinSize().Height+6)
	w.fault = faults(err)
	words := "Nothing was changed: the project that you were working on is still here."
	if slices.ContainsFunc(w.fault, func(f planner.Error) bool { return f.Line > 0 }) {
		words += " Mend these places in the file and open it again."
	}
	c.paragraph(words, sizeText, p.Quiet)
	c.gap(10)
	list := container0()
	lines := &column{box: list, pal: p, x: 0, y: 0, width: width - 20}
	for _, f := range w.fault {
		place := ""
		if f.Line > 0 {
			place = "line " + strconv.Itoa(f.Line) + ", column " + strconv.Itoa(f.Col)
		}
		if place != "" {
			t := p.text(place, sizeText, true, p.Ink)
			lines.add(t, 19)
		}
		lines.paragraph(capital(f.Message), sizeText, p.Ink)
		if f.Remedy != "" {
			lines.paragraph("→ "+f.Remedy, sizeText, p.Accent)
		}
		lines.gap(6)
		lines.add(p.rule(0, lines.y, lines.width), 1)
		lines.gap(6)
	}
	list.Resize(fyne.NewSize(width-20, lines.y))
	scroll := container.NewVScroll(list)
	high := min(lines.y+4, max(120, w.win.Canvas().Size().Height-260))
	put(scroll, 4, c.y, width, high)
	box.Add(scroll)
	c.gap(high + 12)
	x := float32(4)
	for i, a := range []answer{{"Close", nil}, {"Try again", func() { w.openPath(path) }}, {"Open another", w.open}} {
		b := newButton(p, pill, a.words, func() {
			w.lift()
			if a.do != nil {
				a.do()
			}
		})
		b.on = i == 0
		m := b.MinSize()
		put(b, x, c.y, m.Width, m.Height)
		x += m.Width + 8
		box.Add(b)
	}
	c.gap(target + 8)
	w.lay(box, nil)
}

// faults is the list in an error of the planner; any other error is one fault without a place.
func faults(err error) planner.Errors {
	var list planner.Errors
	if errors.As(err, &list) {
		return list
	}
	var one planner.Error
	if errors.As(err, &one) {
		return planner.Errors{one}
	}
	return planner.Errors{{Message: sentence(err)}}
}
