package draft

import (
	"image/color"
	"math"
)

// Theme is the colours of all drawings and of the window around them.
type Theme struct {
	Name     string
	Ground   color.NRGBA // the desk
	Pane     color.NRGBA // the paper that is drawn on
	Hairline color.NRGBA // pane borders
	Grid     color.NRGBA // the plan's squares
	Ink      color.NRGBA
	Quiet    color.NRGBA // text of lesser weight
	Accent   color.NRGBA // chalk-line blue: selected, or may be moved
	AccentBg color.NRGBA // a wash behind what is selected
	More     color.NRGBA
	Less     color.NRGBA
	Caution  color.NRGBA
	Error    color.NRGBA
	Chip     color.NRGBA // ground of the label at the pointer
	OnChip   color.NRGBA // text on it
	Board    Material
	Fire     Material
	Wet      Material
	Wood     Material
	Open     Material
	Framing  Material // studs and joists seen from the room
	Poche    color.NRGBA
	Glass    color.NRGBA
}

// Material is a fill and the colour of the hatch that goes over it.
type Material struct{ Fill, Mark color.NRGBA }

func rgb(v uint32) color.NRGBA {
	return color.NRGBA{uint8(v >> 16), uint8(v >> 8), uint8(v), 255}
}

// Paper is the theme of the drafting table.
func Paper() *Theme {
	return &Theme{
		Name: "paper", Ground: rgb(0xF6F3EA), Pane: rgb(0xFBF9F3), Hairline: rgb(0xD9D3C2), Grid: rgb(0xEFEBDF),
		Ink: rgb(0x22262B), Quiet: rgb(0x6B675C), Accent: rgb(0x1F5FA8), AccentBg: rgb(0xDCE7F2),
		More: rgb(0x9A3412), Less: rgb(0x1B6E45), Caution: rgb(0xB26B00), Error: rgb(0xB3261E),
		Chip: rgb(0x22262B), OnChip: rgb(0xFBF9F3),
		Board:   Material{rgb(0xE8E6DF), rgb(0x77756C)},
		Fire:    Material{rgb(0xEFDCD3), rgb(0x9C5F4A)},
		Wet:     Material{rgb(0xDFE7E8), rgb(0x3F7391)},
		Wood:    Material{rgb(0xE3BE84), rgb(0x8A5E22)},
		Open:    Material{rgb(0xF4EBD0), rgb(0x8F7B45)},
		Framing: Material{rgb(0xD9B273), rgb(0x6F5126)},
		Poche:   rgb(0x22262B), Glass: rgb(0xC3D6E3),
	}
}

// Dark is ink ground with paper lines and the same hatches.
func Dark() *Theme {
	return &Theme{
		Name: "dark", Ground: rgb(0x17191C), Pane: rgb(0x1F2226), Hairline: rgb(0x3C4046), Grid: rgb(0x282C31),
		Ink: rgb(0xEDE9DD), Quiet: rgb(0xA9A598), Accent: rgb(0x7DB2EA), AccentBg: rgb(0x25374B),
		More: rgb(0xF0A184), Less: rgb(0x7FCBA2), Caution: rgb(0xE2A24A), Error: rgb(0xF08A80),
		Chip: rgb(0xEDE9DD), OnChip: rgb(0x17191C),
		Board:   Material{rgb(0x3A3C3E), rgb(0xA3A298)},
		Fire:    Material{rgb(0x47352F), rgb(0xD39C86)},
		Wet:     Material{rgb(0x2C3B42), rgb(0x8DBBD6)},
		Wood:    Material{rgb(0x54401F), rgb(0xC9A05C)},
		Open:    Material{rgb(0x35321F), rgb(0xB5A66F)},
		Framing: Material{rgb(0x6B5125), rgb(0xDDBB7E)},
		Poche:   rgb(0xC9C5B9), Glass: rgb(0x3D5566),
	}
}

// HighContrast is black, white and blue only: hatches and line styles carry everything.
func HighContrast() *Theme {
	black, white, blue := rgb(0x000000), rgb(0xFFFFFF), rgb(0x0041A8)
	plain := Material{white, black}
	return &Theme{
		Name: "high contrast", Ground: white, Pane: white, Hairline: black, Grid: rgb(0xDDDDDD),
		Ink: black, Quiet: black, Accent: blue, AccentBg: white,
		More: black, Less: black, Caution: black, Error: black, Chip: black, OnChip: white,
		Board: plain, Fire: plain, Wet: plain, Wood: plain, Open: plain, Framing: plain,
		Poche: black, Glass: white,
	}
}

// Print is ink on white paper: hatches and line styles carry everything, so that a black-and-white printer loses nothing.
func Print() *Theme {
	white, ink, dark := rgb(0xFFFFFF), rgb(0x000000), rgb(0x3A3A3A)
	marks := Material{white, rgb(0xA6A6A6)}
	return &Theme{
		Name: "print", Ground: rgb(0xF0F0F0), Pane: white, Hairline: rgb(0xA8A8A8), Grid: rgb(0xE4E4E4),
		Ink: ink, Quiet: dark, Accent: rgb(0x1F5FA8), AccentBg: white,
		More: ink, Less: ink, Caution: ink, Error: ink, Chip: ink, OnChip: white,
		Board: marks, Fire: marks, Wet: marks, Wood: marks, Open: marks,
		Framing: Material{rgb(0xE6E6E6), rgb(0x6A6A6A)},
		Poche:   rgb(0x2A2A2A), Glass: white,
	}
}

// Contrast is the ratio of the luminances of two opaque colours, 1 to 21 (WCAG 2.2, "contrast ratio" and
// "relative luminance").
func Contrast(a, b color.NRGBA) float64 {
	hi, lo := luminance(a), luminance(b)
	if hi < lo {
		hi, lo = lo, hi
	}
	return (hi + 0.05) / (lo + 0.05)
}

func luminance(c color.NRGBA) float64 {
	linear := func(v uint8) float64 {
		s := float64(v) / 255
		if s <= 0.04045 {
			return s / 12.92
		}
		return math.Pow((s+0.055)/1.055, 2.4)
	}
	return 0.2126*linear(c.R) + 0.7152*linear(c.G) + 0.0722*linear(c.B)
}

// fade is the colour at a part of its weight, for what lies behind.
func fade(c color.NRGBA, part float64) color.NRGBA {
	c.A = uint8(float64(c.A)*part + 0.5)
	return c
}

// blended is the opaque colour that a colour at a part of its weight makes on a ground.
func blended(ground, c color.NRGBA, part float64) color.NRGBA {
	mid := func(a, b uint8) uint8 { return uint8(float64(a)*(1-part) + float64(b)*part + 0.5) }
	return color.NRGBA{mid(ground.R, c.R), mid(ground.G, c.G), mid(ground.B, c.B), 255}
}
