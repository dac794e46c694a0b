package ui

import (
	"image/color"
	"math"

	"seamwright/calc/guard"
	"seamwright/scene/draft"
)

// Palette is the colours of one look: those of the drawings and, around them, of the menu bar. Colour is never the
// only sign: what is more wears a plus, what is less a minus, a caution a bar and a word.
type Palette struct {
	*draft.Theme
	Dark             bool
	OnAccent         color.NRGBA
	Bar              color.NRGBA // the menu bar
	BarInk, BarQuiet color.NRGBA

	failed func(*guard.Fault) // told of a fault in what a widget does, which knows its colours and not the window
}

// Palettes lists the looks in the order in which the View menu offers them.
func Palettes() []*Palette {
	return []*Palette{
		{Theme: draft.Paper(), OnAccent: hex(0xFFFFFF), Bar: hex(0x22262B), BarInk: hex(0xF6F3EA), BarQuiet: hex(0xB4B0A3)},
		{Theme: draft.Dark(), Dark: true, OnAccent: hex(0x14181D), Bar: hex(0x0C0E10), BarInk: hex(0xEFEBDF), BarQuiet: hex(0xABA698)},
		{Theme: draft.HighContrast(), OnAccent: hex(0xFFFFFF), Bar: hex(0x000000), BarInk: hex(0xFFFFFF), BarQuiet: hex(0xFFFFFF)},
	}
}

// paletteNamed finds a look by name; the first where there is none such.
func paletteNamed(name string) *Palette {
	all := Palettes()
	for _, p := range all {
		if p.Name == name {
			return p
		}
	}
	return all[0]
}

func hex(rgb uint32) color.NRGBA {
	return color.NRGBA{R: uint8(rgb >> 16), G: uint8(rgb >> 8), B: uint8(rgb), A: 0xFF}
}

// unusable is the ink of what cannot be used now.
func (p *Palette) unusable() color.NRGBA {
	if p.Quiet == p.Ink {
		return faded(p.Ink, 0.5)
	}
	return p.Quiet
}

// faded is the colour at a part of its opacity.
func faded(c color.NRGBA, opacity float64) color.NRGBA {
	c.A = uint8(math.Round(255 * opacity))
	return c
}
