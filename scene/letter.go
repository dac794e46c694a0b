package scene

import (
	"strings"

	"github.com/go-gl/mathgl/mgl64"
)

// strokes are single-line capitals and figures as a draughtsman letters a sheet: on a grid 4 wide and 6 high, each
// point x and y, runs parted by bars.
var strokes = map[rune]string{
	'A': "00 26 40|12 32",
	'B': "00 06 36 45 44 33 03|33 42 41 30 00",
	'C': "45 36 16 05 01 10 30 41",
	'D': "00 06 26 44 42 20 00",
	'E': "46 06 00 40|03 33",
	'F': "46 06 00|03 33",
	'G': "45 36 16 05 01 10 30 41 43 23",
	'H': "00 06|40 46|03 43",
	'I': "20 26|10 30|16 36",
	'J': "46 41 30 10 01",
	'K': "00 06|46 02|13 40",
	'L': "06 00 40",
	'M': "00 06 23 46 40",
	'N': "00 06 40 46",
	'O': "10 30 41 45 36 16 05 01 10",
	'P': "00 06 36 45 44 33 03",
	'Q': "10 30 41 45 36 16 05 01 10|22 40",
	'R': "00 06 36 45 44 33 03|23 40",
	'S': "45 36 16 05 04 13 33 42 41 30 10 01",
	'T': "06 46|26 20",
	'U': "06 01 10 30 41 46",
	'V': "06 20 46",
	'W': "06 10 24 30 46",
	'X': "00 46|06 40",
	'Y': "06 23 46|23 20",
	'Z': "06 46 00 40",
	'0': "10 30 41 45 36 16 05 01 10|11 35",
	'1': "15 26 20|10 30",
	'2': "05 16 36 45 44 00 40",
	'3': "05 16 36 45 44 33 42 41 30 10 01|13 33",
	'4': "30 36 02 42",
	'5': "46 06 04 34 43 41 30 10 01",
	'6': "36 16 05 01 10 30 41 42 33 03",
	'7': "06 46 10",
	'8': "13 04 05 16 36 45 44 33 13 02 01 10 30 41 42 33",
	'9': "10 30 41 45 36 16 05 04 13 43",
	'-': "13 33",
	'.': "20 21",
	'/': "00 46",
}

// Sizes of the lettering.
const (
	letterHigh  = 0.13 // metres, on a sheet with room for it
	letterWide  = 1.0  // advance of a letter against its height
	letterFill  = 0.6  // of a sheet's width at most
	letterClear = 0.12 // metres from an opening, so that casing does not cover it
)

// letterPlaces are where on a sheet its id may stand, as parts of its width and height, the best first.
var letterPlaces = []mgl64.Vec2{{0.5, 0.5}, {0.25, 0.5}, {0.75, 0.5}, {0.5, 0.25}, {0.5, 0.75}, {0.2, 0.25}, {0.8, 0.25}, {0.2, 0.75}, {0.8, 0.75}}

// letterPlace is the first place where lettering of that half size lies on the sheet and clear of openings.
func letterPlace(ring []mgl64.Vec2, avoid [][]mgl64.Vec2, half mgl64.Vec2) (mgl64.Vec2, bool) {
	lo, hi := bounds(ring)
	size := hi.Sub(lo)
	for _, p := range letterPlaces {
		at := mgl64.Vec2{lo[0] + p[0]*size[0], lo[1] + p[1]*size[1]}
		free := true
		for _, c := range [4]mgl64.Vec2{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}} {
			free = free && inside(mgl64.Vec2{at[0] + c[0]*half[0], at[1] + c[1]*half[1]}, ring)
		}
		for _, h := range avoid {
			a, c := bounds(h)
			free = free && (at[0]+half[0] < a[0]-letterClear || at[0]-half[0] > c[0]+letterClear || at[1]+half[1] < a[1]-letterClear || at[1]-half[1] > c[1]+letterClear)
		}
		if free {
			return at, true
		}
	}
	return mgl64.Vec2{}, false
}

// letter writes a sheet's id on its face, in its middle unless an opening is there.
func letter(b *builder, plane int32, text string, ring []mgl64.Vec2, avoid [][]mgl64.Vec2, depth float64) {
	lo, hi := bounds(ring)
	n := float64(len(text))
	if n == 0 {
		return
	}
	unit := min(letterHigh, (hi[1]-lo[1])*0.4, (hi[0]-lo[0])*letterFill/(n*letterWide)) / 6
	half := mgl64.Vec2{n * letterWide * 3 * unit, 4 * unit}
	mid, ok := letterPlace(ring, avoid, half)
	if !ok {
		return
	}
	flip := 1.0 // on a ceiling laid flat by the room's axes, x runs to the left for those who look up
	if b.frame.mirrored() {
		flip = -1
	}
	x := -(n*letterWide*6 - 2) * unit / 2
	for _, r := range strings.ToUpper(text) {
		for _, run := range strings.Split(strokes[r], "|") {
			points := strings.Fields(run)
			for i := 1; i < len(points); i++ {
				p, q := points[i-1], points[i]
				b.line(plane, penLetter, 6*unit*0.55,
					mid[0]+flip*(x+float64(p[0]-'0')*unit), mid[1]+(float64(p[1]-'0')-3)*unit,
					mid[0]+flip*(x+float64(q[0]-'0')*unit), mid[1]+(float64(q[1]-'0')-3)*unit, depth)
			}
		}
		x += letterWide * 6 * unit
	}
}
