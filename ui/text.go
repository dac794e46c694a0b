package ui

import (
	"image/color"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// text makes a line of text in one of the four sizes.
func (p *Palette) text(s string, size float32, bold bool, ink color.Color) *canvas.Text {
	t := canvas.NewText(s, ink)
	t.TextSize = size
	t.TextStyle.Bold = bold
	return t
}

func (p *Palette) caption(s string) *canvas.Text { return p.text(s, sizeSmall, false, p.Quiet) }
func (p *Palette) heading(s string) *canvas.Text { return p.text(s, sizeHeading, true, p.Ink) }

// squared writes areas with the mark that people write.
func squared(s string) string {
	return strings.NewReplacer("ft2", "ft²", " m2", " m²", "/m2", "/m²").Replace(s)
}

// textWidth is the width that a line takes.
func textWidth(s string, size float32, bold bool) float32 {
	return fyne.MeasureText(s, size, fyne.TextStyle{Bold: bold}).Width
}

// fit shortens a line to a width, with an ellipsis where something had to go.
func fit(s string, size float32, bold bool, width float32) string {
	if s == "" || textWidth(s, size, bold) <= width {
		return s
	}
	r := []rune(s)
	low, high := 0, len(r)
	for low < high {
		middle := (low + high + 1) / 2
		if textWidth(strings.TrimRight(string(r[:middle]), " ")+"…", size, bold) <= width {
			low = middle
		} else {
			high = middle - 1
		}
	}
	return strings.TrimRight(string(r[:low]), " ") + "…"
}

// wrap breaks a text into lines no wider than width; a single word that is wider keeps a line of its own.
func wrap(s string, size float32, bold bool, width float32) []string {
	var lines []string
	for _, paragraph := range strings.Split(s, "\n") {
		line := ""
		for _, word := range strings.Fields(paragraph) {
			longer := word
			if line != "" {
				longer = line + " " + word
			}
			if line != "" && textWidth(longer, size, bold) > width {
				lines = append(lines, line)
				longer = word
			}
			line = longer
		}
		lines = append(lines, line)
	}
	return lines
}

// cell is one piece of text in a row: its share of the row, from left to right.
type cell struct {
	text  string
	width float32 // 0: what the others leave
	right bool    // set against the right edge, as figures are
	bold  bool
	small bool
	ink   color.Color // nil: the palette's ink
}

// row lays cells out in one line of a given width, shortened where they do not fit.
func (p *Palette) row(width, height float32, cells ...cell) *fyne.Container {
	rest := width
	for _, c := range cells {
		rest -= c.width
	}
	box := container0()
	x := float32(0)
	for _, c := range cells {
		w := c.width
		if w == 0 {
			w = rest
		}
		size := sizeText
		if c.small {
			size = sizeSmall
		}
		ink := c.ink
		if ink == nil {
			ink = p.Ink
		}
		t := p.text(fit(c.text, size, c.bold, w), size, c.bold, ink)
		at := x
		if c.right {
			at = x + w - t.MinSize().Width
		}
		t.Move(fyne.NewPos(at, (height-t.MinSize().Height)/2))
		t.Resize(t.MinSize())
		box.Add(t)
		x += w
	}
	box.Resize(fyne.NewSize(width, height))
	return box
}

// rule is a hairline.
func (p *Palette) rule(x, y, width float32) *canvas.Rectangle {
	r := canvas.NewRectangle(p.Hairline)
	r.Move(fyne.NewPos(x, y))
	r.Resize(fyne.NewSize(width, 1))
	return r
}
