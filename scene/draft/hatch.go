package draft

import (
	"image"
	"image/color"
	"math"
	"sync"
)

// Hatch is a pattern laid over a fill. Its tiles start at From, so that the pattern moves with the drawing; Upright
// turns the pattern a quarter turn, for grain and paper that run up the wall.
type Hatch struct {
	Kind    HatchKind
	Color   color.NRGBA
	From    Pt
	Upright bool
}

// HatchKind is the sign of a material or a state; it reads without colour.
type HatchKind uint8

// The hatches.
const (
	Stipple         HatchKind = iota // gypsum board
	StippleDiagonal                  // fire board
	Wave                             // wet-area board
	Grain                            // plywood, along the sheet
	Batt                             // insulation in an open bay
	Waste                            // what is thrown away
	Wait                             // drying and other waits
)

// Pattern is one tile of a hatch, W by H logical pixels, that repeats without a seam: lines that leave one side
// come in at the other.
type Pattern struct {
	W, H  float64
	Dots  []Pt
	Dot   float64 // radius
	Lines [][]Pt
	Pen   float64 // line width
}

// PatternOf gives the tile of a hatch, lying or turned.
func PatternOf(k HatchKind, turned bool) Pattern {
	p := patterns[k]
	if !turned {
		return p
	}
	turn := func(list []Pt) []Pt {
		t := make([]Pt, len(list))
		for i, q := range list {
			t[i] = Pt{q.Y, q.X}
		}
		return t
	}
	q := Pattern{W: p.H, H: p.W, Dots: turn(p.Dots), Dot: p.Dot, Pen: p.Pen}
	for _, l := range p.Lines {
		q.Lines = append(q.Lines, turn(l))
	}
	return q
}

// Dots are set by hand so that no rows show; the waves are sines sampled finely enough for the largest scale.
var patterns = [...]Pattern{
	Stipple: {W: 24, H: 24, Dot: 0.62, Dots: []Pt{{3, 4}, {11, 2}, {19, 6}, {7, 11}, {15, 13}, {22, 16}, {2, 18}, {10, 20}, {18, 22}}},
	StippleDiagonal: {W: 24, H: 24, Dot: 0.62, Dots: []Pt{{4, 5}, {16, 5}, {10, 11}, {22, 11}, {4, 17}, {16, 17}, {10, 23}, {22, 23}},
		Pen: 0.9, Lines: [][]Pt{{{-2, 14}, {14, -2}}, {{-2, 26}, {26, -2}}, {{10, 26}, {26, 10}}}},
	Wave: {W: 24, H: 12, Dot: 0.62, Dots: []Pt{{6, 9.5}, {18, 3}}, Pen: 0.9, Lines: [][]Pt{sine(24, 6, 2, 1)}},
	Grain: {W: 48, H: 18, Pen: 0.8, Lines: [][]Pt{
		part(sine(48, 3, 0.7, 1), 0, 30), part(sine(48, 7.5, 0.9, 1), 14, 48), part(sine(48, 12, 0.7, 1), 4, 38), part(sine(48, 16, 0.5, 1), 26, 52),
		part(sine(48, 16, 0.5, 1), -22, 4), {{38, 3.2}, {46, 3}}, {{2, 8}, {9, 7.7}}}},
	Batt:  {W: 16, H: 14, Pen: 0.9, Lines: [][]Pt{sine(16, 7, 3.4, 1)}},
	Waste: {W: 8, H: 8, Pen: 0.9, Lines: [][]Pt{{{-1, 5}, {5, -1}}, {{-1, 9}, {9, -1}}, {{3, 9}, {9, 3}}}},
	Wait:  {W: 8, H: 8, Pen: 0.9, Lines: [][]Pt{{{-1, -1}, {9, 9}}, {{-1, 7}, {1, 9}}, {{7, -1}, {9, 1}}}},
}

// sine is a wave of whole periods across a tile, a little beyond both sides.
func sine(w, y, high float64, periods int) []Pt {
	const steps = 24
	var line []Pt
	for i := -2; i <= steps*periods+2; i++ {
		t := float64(i) / steps
		line = append(line, Pt{t * w / float64(periods), y + high*math.Sin(2*math.Pi*t)})
	}
	return line
}

// part is what of a line lies between two x.
func part(line []Pt, from, to float64) []Pt {
	var l []Pt
	for _, p := range line {
		if p.X >= from && p.X <= to {
			l = append(l, p)
		}
	}
	return l
}

// tile is a pattern in device pixels: how much of each pixel it covers.
type tile struct {
	w, h int
	mask []uint8
}

type tileKey struct {
	kind   HatchKind
	turned bool
	scale  float64
}

var tiles sync.Map // tileKey to *tile: drawn once a scale

// tileOf draws a pattern at a device scale. Tiles are whole pixels, so the pattern may be a little wider or
// narrower than its drawing.
func tileOf(k HatchKind, turned bool, scale float64) *tile {
	key := tileKey{k, turned, scale}
	if t, ok := tiles.Load(key); ok {
		return t.(*tile)
	}
	p := PatternOf(k, turned)
	t := &tile{w: int(p.W*scale + 0.5), h: int(p.H*scale + 0.5)}
	// Drawn three by three and cut from the middle, so that what crosses the sides is whole.
	img := image.NewRGBA(image.Rect(0, 0, 3*t.w, 3*t.h))
	r := NewRaster(img, scale)
	ink := color.NRGBA{255, 255, 255, 255}
	for dy := 0; dy < 3; dy++ {
		for dx := 0; dx < 3; dx++ {
			off := Pt{float64(dx*t.w) / scale, float64(dy*t.h) / scale}
			fx, fy := float64(t.w)/scale/p.W, float64(t.h)/scale/p.H
			at := func(q Pt) Pt { return Pt{off.X + q.X*fx, off.Y + q.Y*fy} }
			for _, d := range p.Dots {
				r.Disc(at(d), p.Dot, ink)
			}
			for _, l := range p.Lines {
				line := make([]Pt, len(l))
				for i, q := range l {
					line[i] = at(q)
				}
				r.Stroke(line, false, Pen{Width: p.Pen, Color: ink})
			}
		}
	}
	t.mask = make([]uint8, t.w*t.h)
	for y := 0; y < t.h; y++ {
		for x := 0; x < t.w; x++ {
			t.mask[y*t.w+x] = img.Pix[img.PixOffset(x+t.w, y+t.h)+3]
		}
	}
	tiles.Store(key, t)
	return t
}
