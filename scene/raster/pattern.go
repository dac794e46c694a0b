package raster

// PatternBits gives a pattern 1<<PatternBits tones a side.
const PatternBits = 9

// Pattern is a square of tones that repeats without a seam, with its halvings down to a single tone, so that a
// pixel always finds tones about its own size.
type Pattern struct {
	PerMetre float32                  // tones per metre at full size
	Levels   [PatternBits + 1][]uint8 // level i is 1<<(PatternBits-i) tones a side
}

// NewPattern fills a pattern from a function of the place in it, both from 0 to just under 1, giving a tone from 0
// to 1. Size is the side of the square in metres.
func NewPattern(size float64, tone func(x, y float64) float64) *Pattern {
	const n = 1 << PatternBits
	p := &Pattern{PerMetre: float32(n / size)}
	full := make([]uint8, n*n)
	for y := range n {
		for x := range n {
			t := tone((float64(x)+0.5)/n, (float64(y)+0.5)/n)
			full[y*n+x] = uint8(max(0, min(1, t))*255 + 0.5)
		}
	}
	p.Levels[0] = full
	for l := 1; l <= PatternBits; l++ {
		side := n >> l
		from, to := p.Levels[l-1], make([]uint8, side*side)
		for y := range side {
			for x := range side {
				a := from[(2*y)*2*side+2*x:]
				b := from[(2*y+1)*2*side+2*x:]
				to[y*side+x] = uint8((int(a[0]) + int(a[1]) + int(b[0]) + int(b[1]) + 2) / 4)
			}
		}
		p.Levels[l] = to
	}
	return p
}
