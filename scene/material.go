package scene

import (
	"image/color"
	"math"
	"sync"

	"seamwright/scene/draft"
	"seamwright/scene/raster"
)

// The materials of the room, in the order of the frame's list.
const (
	matBoard = iota
	matFire
	matWet
	matPly
	matStrand
	matPlyEdge
	matStud
	matSteel
	matBatt
	matKraft
	matWool
	matFoam
	matFloor
	matGlass
	matReveal
	matFilling
	matGap
	matCut
	matSheath
	matTrim // painted joinery and covers
	matLeaf
	matIron
	matLamp
	matPaint
	matCurb
	materialCount
)

// patternSize is the side of a pattern in metres.
const patternSize = 1.28

// patterns are the tones of every material, made once: they depend on nothing.
var patterns = sync.OnceValue(func() (p [materialCount]*raster.Pattern) {
	even := raster.NewPattern(patternSize, func(x, y float64) float64 { return 1 })
	for i := range p {
		p[i] = even
	}
	wood := raster.NewPattern(patternSize, grain(5))
	p[matBoard] = raster.NewPattern(patternSize, board(nil))
	p[matFire] = raster.NewPattern(patternSize, board(func(x, y float64) float64 {
		return stripe(math.Mod(10*(x-y)+20, 1), 0.055) * 0.3
	}))
	p[matWet] = raster.NewPattern(patternSize, board(func(x, y float64) float64 {
		return stripe(math.Mod(7*y+0.22*math.Sin(2*math.Pi*8*x)+2, 1), 0.05) * 0.42
	}))
	p[matPly] = raster.NewPattern(patternSize, veneer)
	p[matStrand] = raster.NewPattern(patternSize, strands())
	p[matPlyEdge] = raster.NewPattern(patternSize, grain(3))
	p[matCurb] = raster.NewPattern(patternSize, func(x, y float64) float64 { return 0.84 + 0.2*fractal(x, y, 12, 5, 61) })
	p[matStud], p[matReveal] = wood, wood
	p[matBatt] = raster.NewPattern(patternSize, batt(0.85))
	p[matWool] = raster.NewPattern(patternSize, batt(1.2))
	p[matKraft] = raster.NewPattern(patternSize, batt(0.6))
	p[matFoam] = raster.NewPattern(patternSize, func(x, y float64) float64 {
		return 0.86 + 0.1*noise(x, y, 64, 64, 5) - 0.3*stripe(math.Mod(4*x, 1), 0.015) - 0.3*stripe(math.Mod(4*y, 1), 0.015)
	})
	p[matSheath] = p[matStrand]
	p[matLeaf] = raster.NewPattern(patternSize, func(x, y float64) float64 { return 0.8 + 0.3*noise(x, y, 3, 40, 71) })
	p[matFloor] = raster.NewPattern(patternSize, func(x, y float64) float64 { return 0.86 + 0.14*fractal(x, y, 3, 4, 9) })
	return p
})

// hash is a number from 0 to 1 for a grid point and a layer.
func hash(ix, iy, layer int) float64 {
	h := uint32(ix)*0x8da6b343 ^ uint32(iy)*0xd8163841 ^ uint32(layer)*0xcb1ab31f
	h ^= h >> 15
	h *= 0x2c1b3c6d
	h ^= h >> 12
	h *= 0x297a2d39
	h ^= h >> 15
	return float64(h) / (1 << 32)
}

// noise is smooth value noise with nx by ny cells over the pattern; it repeats at the pattern's border.
func noise(x, y float64, nx, ny, layer int) float64 {
	fx, fy := x*float64(nx), y*float64(ny)
	ix, iy := int(math.Floor(fx)), int(math.Floor(fy))
	fx, fy = fx-float64(ix), fy-float64(iy)
	fx, fy = fx*fx*(3-2*fx), fy*fy*(3-2*fy)
	at := func(i, k int) float64 { return hash(((ix+i)%nx+nx)%nx, ((iy+k)%ny+ny)%ny, layer) }
	a := at(0, 0) + (at(1, 0)-at(0, 0))*fx
	b := at(0, 1) + (at(1, 1)-at(0, 1))*fx
	return a + (b-a)*fy - 0.5
}

// fractal sums octaves of noise, each twice as fine and half as strong; about -0.5 to 0.5.
func fractal(x, y float64, cells, octaves, layer int) float64 {
	sum, weight := 0.0, 1.0
	for o := range octaves {
		sum += weight * noise(x, y, cells<<o, cells<<o, layer+o)
		weight /= 2
	}
	return sum / 1.6
}

// stripe is 1 within half a width of 0.5 and falls to 0 over the same again.
func stripe(t, width float64) float64 {
	return clamp(2-math.Abs(t-0.5)*2/width, 0, 1)
}

// board is paper over gypsum: nearly even, with the draughtsman's stipple, less what a hatch takes away.
func board(hatch func(x, y float64) float64) func(x, y float64) float64 {
	const cells = 22
	return func(x, y float64) float64 {
		t := 0.93 + 0.05*fractal(x, y, 8, 4, 1)
		ix, iy := int(x*cells), int(y*cells)
		dot := 0.0
		for dy := -1; dy <= 1; dy++ {
			for dx := -1; dx <= 1; dx++ {
				cx, cy := ((ix+dx)%cells+cells)%cells, ((iy+dy)%cells+cells)%cells
				if hash(cx, cy, 3) < 0.35 {
					continue
				}
				px := float64(ix+dx) + 0.15 + 0.7*hash(cx, cy, 4)
				py := float64(iy+dy) + 0.15 + 0.7*hash(cx, cy, 5)
				d := math.Hypot(x*cells-px, y*cells-py)
				dot = max(dot, clamp(1.7-d/0.062, 0, 1))
			}
		}
		t -= 0.55 * dot
		if hatch != nil {
			t -= hatch(x, y)
		}
		return t
	}
}

// grain is sawn softwood: fine streaks along x, so many broad bands across.
func grain(bands int) func(x, y float64) float64 {
	return func(x, y float64) float64 {
		bend := 0.02 * noise(x, y, 3, 4, 11)
		return 0.72 + 0.34*noise(x, y+bend, 2, bands*6, 12) + 0.22*noise(x, y+bend, 4, 96, 13) + 0.12*noise(x, y, 16, 200, 14)
	}
}

// veneer is plywood's rotary-cut face: long growth rings that sway along x, and fine pores.
func veneer(x, y float64) float64 {
	sway := 0.09*noise(x, y, 2, 3, 31) + 0.03*noise(x, y, 5, 7, 32)
	ring := math.Sin(2 * math.Pi * (13*(y+sway) + 1.1*noise(x, y, 3, 5, 33)))
	ring = ring * math.Abs(ring) // broad early wood, narrow late wood
	return 0.66 + 0.13*ring + 0.2*noise(x, y, 3, 64, 34) + 0.16*noise(x, y, 12, 220, 35)
}

// strands is oriented strand board: flakes laid over each other, mostly along x.
func strands() func(x, y float64) float64 {
	const n = 1 << raster.PatternBits
	tones := make([]float64, n*n)
	for i := range tones {
		tones[i] = 0.55
	}
	for i := range 620 {
		sin, cos := math.Sincos((hash(i, 0, 41) - 0.5) * 1.5)
		cx, cy := hash(i, 1, 41)*n, hash(i, 2, 41)*n
		length, width := (0.03+0.035*hash(i, 3, 41))*n, (0.006+0.008*hash(i, 4, 41))*n
		tone := 0.42 + 0.55*hash(i, 5, 41)
		for y := int(cy - length); y <= int(cy+length); y++ {
			for x := int(cx - length); x <= int(cx+length); x++ {
				dx, dy := float64(x)-cx, float64(y)-cy
				if math.Abs(dx*cos+dy*sin) < length && math.Abs(dy*cos-dx*sin) < width {
					tones[(y&(n-1))*n+x&(n-1)] = tone
				}
			}
		}
	}
	return func(x, y float64) float64 {
		return tones[int(y*n)*n+int(x*n)] + 0.1*noise(x, y, 8, 128, 44)
	}
}

// batt is insulation: the draughtsman's waves over a soft ground.
func batt(depth float64) func(x, y float64) float64 {
	return func(x, y float64) float64 {
		wave := stripe(math.Mod(9*y+0.3*math.Sin(2*math.Pi*10*x)+3, 1), 0.07)
		return 0.84 + 0.24*depth*fractal(x, y, 12, 4, 51) - 0.34*wave
	}
}

// swatch is a material's darkest and lightest colour.
type swatch struct{ dark, light raster.Colour }

func rgb(hex uint32) raster.Colour { return raster.RGB(uint8(hex>>16), uint8(hex>>8), uint8(hex)) }

// palette is everything coloured in one theme. Lines and accent are the drawings': draft.Theme.
type palette struct {
	top, bottom raster.Colour // the ground
	line        raster.Colour // edges and joints, which lie on materials in every theme
	cut         raster.Colour // edges of a section
	accent      raster.Colour // chalk-line blue: selected
	swatches    [materialCount]swatch
	ramps       [materialCount][raster.Tints]*raster.Palette
}

func colour(c color.NRGBA) raster.Colour { return raster.RGB(c.R, c.G, c.B) }

// toned is a material of the drawings as the room's light plays on it: from its mark's colour, so far faded into the
// fill, to its fill, so far lit up towards white. Nothing that both show has colours of its own here.
func toned(m draft.Material, faded, lit float64) swatch {
	return swatch{colour(m.Mark).Mix(colour(m.Fill), faded), colour(m.Fill).Mix(rgb(0xFFFFFF), lit)}
}

// paletteOf takes lines and accent from the drawings' theme.
func paletteOf(th *draft.Theme, top, bottom, line uint32) *palette {
	return &palette{top: rgb(top), bottom: rgb(bottom), line: rgb(line), cut: colour(th.Ink), accent: colour(th.Accent)}
}

// palettes are the three themes' colours, made once.
var palettes = sync.OnceValue(func() (p [3]*palette) {
	th := draft.Paper()
	paper := paletteOf(th, 0xE9E5DA, 0xDDD8CA, 0x22262B)
	paper.swatches = [materialCount]swatch{
		matBoard:   toned(th.Board, 0.2, 0.4),
		matFire:    toned(th.Fire, 0.15, 0.3),
		matWet:     toned(th.Wet, 0.15, 0.35),
		matPly:     toned(th.Wood, 0.1, 0.35),
		matStrand:  {rgb(0x9A6E38), rgb(0xE9CC96)},
		matPlyEdge: {rgb(0x8A5C2C), rgb(0xDDB579)},
		matStud:    toned(th.Framing, 0.55, 0.6),
		matSteel:   {rgb(0x80858A), rgb(0xD4D7D8)},
		matBatt:    toned(th.Open, 0.25, 0.2),
		matKraft:   {rgb(0x9C7444), rgb(0xE2C79B)},
		matWool:    {rgb(0x7F8468), rgb(0xD8DAC4)},
		matFoam:    {rgb(0x7E8B93), rgb(0xDDE4E4)},
		matFloor:   {rgb(0x8B8371), rgb(0xD6CDB9)},
		matGlass:   {rgb(0xD3E2EA), rgb(0xD3E2EA)},
		matReveal:  toned(th.Framing, 0.55, 0.6),
		matFilling: {rgb(0xD5D0C3), rgb(0xDAD5C8)},
		matGap:     {rgb(0x6A4A26), rgb(0x6A4A26)},
		matCut:     {rgb(0x3E4247), rgb(0x3E4247)},
		matSheath:  {rgb(0x8D7650), rgb(0xC9B48B)},
		matTrim:    {rgb(0xEFEBE0), rgb(0xEFEBE0)},
		matLeaf:    {rgb(0x7F8C86), rgb(0xB4BFB6)},
		matIron:    {rgb(0x45494C), rgb(0x45494C)},
		matLamp:    {rgb(0xFFF8E2), rgb(0xFFF8E2)},
		matPaint:   {rgb(0x000000), rgb(0xFFFCF4)},
		matCurb:    {rgb(0x8A867C), rgb(0xDEDACF)},
	}
	ink := paletteOf(draft.Dark(), 0x262A30, 0x1A1D21, 0x0B0C0E)
	for i, s := range paper.swatches {
		// The same materials in a darkened room: three fifths of the light, warm.
		dim := func(c raster.Colour) raster.Colour { return c.Mix(rgb(0x15130F), 0.38) }
		ink.swatches[i] = swatch{dim(s.dark), dim(s.light)}
	}
	ink.swatches[matCut] = swatch{rgb(0x8F8A7D), rgb(0x8F8A7D)}
	ink.swatches[matLamp] = paper.swatches[matLamp]
	ink.swatches[matPaint] = paper.swatches[matPaint]
	high := paletteOf(draft.HighContrast(), 0xFFFFFF, 0xFFFFFF, 0x000000)
	for i := range high.swatches {
		high.swatches[i] = swatch{rgb(0x404040), rgb(0xFFFFFF)}
	}
	high.swatches[matStud] = swatch{rgb(0xB8B8B8), rgb(0xFFFFFF)}
	for _, m := range []int{matPly, matStrand, matPlyEdge, matReveal, matSheath} {
		high.swatches[m] = swatch{rgb(0x303030), rgb(0xE8E8E8)}
	}
	high.swatches[matFloor] = swatch{rgb(0x909090), rgb(0xE0E0E0)}
	high.swatches[matLeaf] = swatch{rgb(0xA0A0A0), rgb(0xD0D0D0)}
	high.swatches[matIron] = swatch{rgb(0x000000), rgb(0x000000)}
	high.swatches[matCut] = swatch{rgb(0x000000), rgb(0x000000)}
	high.swatches[matPaint] = swatch{rgb(0x000000), rgb(0xFFFFFF)}
	high.swatches[matGap] = high.swatches[matCut]
	high.swatches[matFilling] = swatch{rgb(0xC8C8C8), rgb(0xC8C8C8)}
	p = [3]*palette{paper, ink, high}
	for _, t := range p {
		t.blend()
	}
	return p
})

// How far a tint goes towards the accent.
const (
	selectedTint = 0.18
	hoveredTint  = 0.18
)

// blend makes the ramps from dark to light, plain and tinted.
func (p *palette) blend() {
	for m := range p.ramps {
		for tint, k := range [raster.Tints]float64{0, hoveredTint, selectedTint} {
			ramp := new(raster.Palette)
			for i := range ramp {
				ramp[i] = p.swatches[m].dark.Mix(p.swatches[m].light, float64(i)/255).Mix(p.accent, k)
			}
			p.ramps[m][tint] = ramp
		}
	}
}
