package draft

import (
	"math"
	"strconv"
	"strings"

	"seamwright/assets/words"
	"seamwright/calc/job"
	"seamwright/calc/length"
)

// dimension is a length as drawings write it: feet and inches to 1/16 in, or bare millimetres.
func dimension(l length.Length, say *words.Voice) string {
	return strings.TrimSuffix(say.Length(l), " mm")
}

// spacingText is a spacing of members as the trade says it: in inches even beyond a foot.
func spacingText(l length.Length, say *words.Voice) string {
	if say.Units().Imperial && l%(length.Inch/10) == 0 {
		return strconv.FormatFloat(l.In(), 'f', -1, 64) + `"`
	}
	return say.Length(l)
}

func imperial(j *job.Job) bool { return j == nil || j.Units != job.Metric }

// The parts of a dimension chain, in pixels.
const (
	chainGap   = 5.0  // from the wall to where its extension line begins
	chainOver  = 4.0  // the extension line beyond the chain
	chainTick  = 4.0  // half a tick mark
	chainText  = 3.0  // from the line up to the text's foot
	chainSide  = 4.0  // least room beside a figure within its part
	chainRaise = 12.0 // a figure that does not fit is raised by so much
)

// chain draws a row of dimensions along a line: marks are pixels along it from `from`, figures stand between them.
// Extension lines come from the wall's face, `reach` pixels back. Figures read from the bottom or from the right.
func chain(c Canvas, th *Theme, from, along, away Pt, reach float64, marks []float64, figures []string, taken *places) {
	if len(marks) < 2 {
		return
	}
	at := func(t float64) Pt { return from.Add(along.Mul(t)) }
	hair := Pen{Width: 1, Color: th.Quiet}
	c.Stroke([]Pt{at(marks[0]), at(marks[len(marks)-1])}, false, hair)
	// Ticks lean the same way on every chain, as the hand draws them: up to the right.
	lean := Pt{1, -1}.Mul(chainTick)
	for _, m := range marks {
		if reach > chainGap {
			c.Stroke([]Pt{at(m).Sub(away.Mul(reach - chainGap)), at(m).Add(away.Mul(chainOver))}, false, Pen{Width: 1, Color: th.Hairline})
		}
		c.Stroke([]Pt{at(m).Sub(lean), at(m).Add(lean)}, false, Pen{Width: 1.5, Color: th.Ink})
	}
	read, turn := reading(along)
	up := read.Left()
	for i, s := range figures {
		a, b := marks[i], marks[i+1]
		w := Measure(s, Small, Regular)
		lifts := []float64{chainText, chainText + chainRaise, -Small*capHeight - chainText}
		if up.X*away.X+up.Y*away.Y > 0 { // towards the wall before towards the next chain
			lifts[1], lifts[2] = lifts[2], lifts[1]
		}
		if b-a < w+2*chainSide {
			lifts = lifts[1:]
		}
		slack := math.Max(0, (b-a-w)/2-chainSide) // where another line crosses, the figure moves along its own
	search:
		for _, lift := range lifts {
			for _, by := range [...]float64{0, -0.5, 0.5, -1, 1} {
				foot := at((a+b)/2 + by*slack).Add(up.Mul(lift))
				if taken.add(turnedBox(foot, w, Small, read)) {
					c.Text(foot, s, Type{Size: Small, Anchor: Middle, Color: th.Ink, Turn: turn})
					break search
				}
			}
		}
	}
	taken.take(around(at(marks[0]), at(marks[len(marks)-1])))
}

// reading is the way in which text along a line runs so that it is never upside down, and its turn: upright lines
// read upward, from the right side of the drawing.
func reading(along Pt) (way Pt, turn float64) {
	if along.X < -1e-6 || math.Abs(along.X) <= 1e-6 && along.Y > 0 {
		along = along.Mul(-1)
	}
	return along, math.Atan2(-along.Y, along.X)
}

// turnedBox is the upright rectangle round a line of text centred at its foot and running along `way`.
func turnedBox(foot Pt, w, size float64, way Pt) Rect {
	up := way.Left()
	lo, hi := Pt{math.Inf(1), math.Inf(1)}, Pt{math.Inf(-1), math.Inf(-1)}
	for _, q := range [4]Pt{
		foot.Sub(way.Mul(w / 2)), foot.Add(way.Mul(w / 2)),
		foot.Sub(way.Mul(w / 2)).Add(up.Mul(size * capHeight)), foot.Add(way.Mul(w / 2)).Add(up.Mul(size * capHeight)),
	} {
		lo = Pt{math.Min(lo.X, q.X), math.Min(lo.Y, q.Y)}
		hi = Pt{math.Max(hi.X, q.X), math.Max(hi.Y, q.Y)}
	}
	return Rect{lo.X, lo.Y, hi.X - lo.X, hi.Y - lo.Y}
}

// places is what on a drawing is taken, so that no text is set over another.
type places struct{ list []Rect }

// textApart is the least distance between two texts.
const textApart = 2.0

// free says whether nothing is there yet.
func (p *places) free(r Rect) bool {
	r = r.Inset(-textApart)
	for _, o := range p.list {
		if o.Meets(r) {
			return false
		}
	}
	return true
}

// add takes the place where it is free.
func (p *places) add(r Rect) bool {
	if !p.free(r) {
		return false
	}
	p.list = append(p.list, r)
	return true
}

// take takes the place whatever is there.
func (p *places) take(r Rect) { p.list = append(p.list, r) }
