// Package light predicts whether the joints of a finished wall will show under a lamp.
//
// A finished joint is a small hill or hollow: compound stands over a butt joint in a crown of height c that is
// feathered out over a half-width w on either side; over tapered edges it shrinks to a shallow hollow. The section is
// taken as a parabola, h(x) = c(1 - x²/w²), whose slope grows to s = 2c/w where the feathering ends.
//
// A lamp at an angle a above the wall's plane lights a slope s as sin(a + s) (Lambert), so between the side that
// faces the lamp and the side that does not, the contrast (brightest less darkest over their sum) is exactly
// tan s / tan a, near s / tan a. Where s exceeds a the far side lies in shadow. A glossy paint adds a lobe about the
// mirror direction (J. Blinn 1977): k(N·H)ⁿ. Seen where the lobe falls off most steeply, a tilt s changes it by
// k·s·√(n/e) to either side of k/√e.
//
// Whether an eye sees that depends on how large the joint looks. Light and dark side together make one cycle of
// 2w; sensitivity at f cycles per degree follows J. Mannos and D. Sakrison (IEEE Transactions on Information Theory
// 20, 1974; from memory): A(f) = 2.6 (0.0192 + 0.114 f) exp(-(0.114 f)^1.1).
//
// Assumptions and limits: one lamp far enough to be taken as parallel light, plus even light from all sides; the
// joint straight and lit across; workmanship even. The numbers compare choices; they do not promise what one wall
// will look like. Heights are usual values of the trade, not measurements of this job.
package light

import "math"

// Joint is the section of one finished joint: its height over the wall (negative: a hollow) and the half-width that
// it is feathered over, in metres.
type Joint struct{ Height, Half float64 }

// At is the height at x metres from the middle.
func (j Joint) At(x float64) float64 {
	if math.Abs(x) >= j.Half {
		return 0
	}
	return j.Height * (1 - x*x/(j.Half*j.Half))
}

// SlopeAt is the slope at x metres from the middle, rise over run.
func (j Joint) SlopeAt(x float64) float64 {
	if math.Abs(x) >= j.Half {
		return 0
	}
	return -2 * j.Height * x / (j.Half * j.Half)
}

// Slope is the steepest slope of the section, 2c/w.
func (j Joint) Slope() float64 {
	if j.Half <= 0 {
		return 0
	}
	return 2 * math.Abs(j.Height) / j.Half
}

// Paint is how a coat reflects: Diffuse the part scattered evenly, and the lobe's strength and exponent.
type Paint struct {
	Diffuse, Lobe, Exponent float64
}

// Lamp is light at an angle of so many radians above the wall's plane; Even is the part of the wall's light that
// comes from all sides instead, 0 to 1.
type Lamp struct{ Angle, Even float64 }

// Contrast is (brightest - darkest) / (brightest + darkest) across a slope s, from 0 (nothing shows) to 1.
func Contrast(s float64, lamp Lamp, p Paint) float64 {
	if s <= 0 {
		return 0
	}
	share := 1 - lamp.Even
	tilt := math.Atan(s)
	lit := func(tilt float64) float64 { return math.Max(0, math.Sin(lamp.Angle+tilt)) }
	up, down := p.Diffuse*lit(tilt), p.Diffuse*lit(-tilt)
	// The even light that makes up the rest is scaled so that the flat wall is as bright as the lamp alone makes it.
	even := p.Diffuse * math.Sin(lamp.Angle) * lamp.Even
	level := p.Lobe * math.Exp(-0.5)
	swing := math.Min(p.Lobe*math.Sqrt(p.Exponent/math.E)*tilt, level)
	bright := share*(up+level+swing) + even
	dark := share*(down+level-swing) + even
	if bright+dark == 0 {
		return 0
	}
	return (bright - dark) / (bright + dark)
}

// Facing is the angle of a lamp that shines straight at the wall.
const Facing = math.Pi / 2

// Blinn is the lobe's light k(N·H)ⁿ for unit normal and half vector at an angle of so many radians.
func (p Paint) Blinn(angle float64) float64 {
	return p.Lobe * math.Pow(math.Max(0, math.Cos(angle)), p.Exponent)
}

// peakSensitivity scales A(f): the reciprocal of the least contrast seen at the best spatial frequency, about 1/2 %
// in room light; from memory.
const peakSensitivity = 200

// Sensitivity is Mannos and Sakrison's A(f), about 1 at its peak near 8 cycles per degree.
func Sensitivity(f float64) float64 {
	return 2.6 * (0.0192 + 0.114*f) * math.Exp(-math.Pow(0.114*f, 1.1))
}

// Frequency is the cycles per degree that a joint shows from a distance in metres.
func (j Joint) Frequency(distance float64) float64 {
	degrees := 2 * math.Atan(j.Half/distance) * 180 / math.Pi
	if degrees <= 0 {
		return math.Inf(1)
	}
	return 1 / degrees
}

// Threshold is the least contrast of that joint that is seen from the distance, at most 1.
func (j Joint) Threshold(distance float64) float64 {
	return math.Min(1, 1/(peakSensitivity*Sensitivity(j.Frequency(distance))))
}
