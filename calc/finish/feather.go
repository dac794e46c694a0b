package finish

import (
	"math"

	"seamwright/calc/job"
	"seamwright/calc/length"
)

// Sheen of a painted surface. A glossier paint throws a lobe of light in one direction, so a small slope changes what
// reaches the eye more than a flat paint does; the gain says by how much (a model of ours, common practice, no source).
func sheenGain(sheen string) float64 {
	switch sheen {
	case "eggshell":
		return 1.5
	case "satin":
		return 2
	case "semi-gloss":
		return 3
	case "gloss":
		return 5
	}
	return 1 // flat, matte, none named
}

// Contrast is the greatest change in brightness that a slope s makes on a matt wall under light at an angle a above its
// plane: the slope that leans towards the light gets sin(a + s) of it, the other sin(a - s), the flat wall sin a.
// A slope in its own shadow has contrast 1.
func Contrast(angle, slope float64) float64 {
	flat := math.Sin(angle)
	dark := math.Max(math.Sin(angle-slope), 0)
	return math.Max(math.Sin(angle+slope)-flat, flat-dark) / flat
}

// Feather is the whole width to which the crown of a butt joint must be feathered so that its contrast stays below
// what an eye picks out (seen, a ratio), under light at an angle in radians above the wall and for a sheen. It is
// exact for Contrast: the slope allowed is the smaller of a - asin((1 - k) sin a) on the dark side and
// asin((1 + k) sin a) - a on the light one, with k = seen / gain of the sheen; the width is then 4c / tan s.
func Feather(angle float64, sheen string, crown length.Length, seen float64) length.Length {
	k := seen / sheenGain(sheen)
	flat := math.Sin(angle)
	slope := angle - math.Asin((1-k)*flat)
	if light := (1 + k) * flat; light <= 1 {
		slope = math.Min(slope, math.Asin(light)-angle)
	}
	return length.Length(math.Ceil(4 * float64(crown) / math.Tan(slope)))
}

// ButtWidth is the finished width of butt joints in this job: Feather for the hardest light, between the least that is
// usual and the most that is practical. unseen is Feather's own answer: where it is wider, expect the joint to show.
func ButtWidth(j *job.Job) (width, unseen length.Length) {
	unseen = Feather(lightAngle.Of(j)*math.Pi/180, j.Paint.Sheen, inches(j, buttCrown), threshold.Of(j)/100)
	least, most := inches(j, buttLeast), inches(j, buttMost)
	return min(max(least, unseen), max(least, most)), unseen
}
