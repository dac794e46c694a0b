package draft

import (
	"strconv"
	"strings"

	"seamwright/calc/job"
	"seamwright/calc/length"
)

// Scale is a scale of drawings on paper: so many times smaller than the thing itself.
type Scale int

// The scales of drawings on paper, largest first. Feet and inches: the faces of an architect's scale rule, then those of an
// engineer's; metric: ISO 5455, with 1:25, which is common practice.
var (
	imperialScales = [...]Scale{12, 16, 24, 32, 48, 64, 96, 128, 192, 240, 480, 720, 1200}
	metricScales   = [...]Scale{10, 20, 25, 50, 100, 200, 500, 1000, 2000}
)

// ScaleFor is the largest usual scale, no larger than what fits: pixels to a metre, so many pixels being one inch on paper.
// The smallest one is given where none fits.
func ScaleFor(j *job.Job, fits, inch float64) Scale {
	list := metricScales[:]
	if imperial(j) {
		list = imperialScales[:]
	}
	for _, s := range list {
		if s.Pixels(inch) <= fits {
			return s
		}
	}
	return list[len(list)-1]
}

// Pixels is how many pixels a metre takes at this scale, so many pixels being one inch on paper.
func (s Scale) Pixels(inch float64) float64 { return inch * length.Metre.In() / float64(s) }

// Text writes the scale as the trade says it: 1/4" = 1'-0", or 1:50.
func (s Scale) Text(j *job.Job) string {
	if !imperial(j) {
		return "1:" + strconv.Itoa(int(s))
	}
	if s%120 == 0 { // so many feet to an inch
		return `1" = ` + strconv.Itoa(int(s)/12) + `'-0"`
	}
	on := length.Foot / length.Length(s) // on paper, for a foot
	return strings.TrimPrefix(on.Imperial(32), `0' `) + ` = 1'-0"`
}

// ToScale is the view at a scale, about the middle of the rectangle that it was fitted into.
func (v View) ToScale(s Scale, inch float64, into Rect) View {
	return v.Zoom(into.Mid(), s.Pixels(inch)/v.Scale)
}
