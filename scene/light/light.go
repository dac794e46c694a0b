// Package light predicts whether the joints of a finished wall will show under a lamp.
//
// A finished joint is a small hill or hollow: compound stands over a butt joint in a crown of height c that is
// feathered out over a half-width w on either side; over tapered edges it shrinks to a shallow hollow. A parabola
// c(1 - x²/w²) would be steepest, 2c/w, where it ends in a crease. Here the last quarter of the half-width is
// feathered: the slope falls evenly to nothing, over a parabola that much higher, so that height, half-width and
// the steepest slope s = 2c/w stay those of the plain one.
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
// Of several lamps each adds its own, by its distance and direction; the part of a beam that runs along the joint
// shows nothing of it. Assumptions and limits: lamps are small, large ones are cut into small ones; nothing stands
// between lamp and wall, and a joint throws no shadow beyond itself; the rest of the light is even from all sides;
// the joint is straight, workmanship even. The numbers compare choices; they do not promise what one wall
// will look like. Heights are usual values of the trade, not measurements of this job.
package light

import "math"

// Joint is the section of one finished joint: its height over the wall (negative: a hollow) and the half-width that
// it is feathered over, in metres.
type Joint struct{ Height, Half float64 }

// feather is the part of the half-width over which the section is a parabola; beyond, its slope falls to nothing.
const feather = 0.75

// At is the height at x metres from the middle.
func (j Joint) At(x float64) float64 {
	t := math.Abs(x) / j.Half
	switch {
	case t >= 1:
		return 0
	case t > feather:
		return j.Height * (1 - t) * (1 - t) / (1 - feather)
	}
	return j.Height * (1 - t*t/feather)
}

// SlopeAt is the slope at x metres from the middle, rise over run.
func (j Joint) SlopeAt(x float64) float64 {
	t := math.Abs(x) / j.Half
	if t >= 1 {
		return 0
	}
	s := 2 * j.Height / j.Half * math.Min(t/feather, (1-t)/(1-feather))
	if x > 0 {
		return -s
	}
	return s
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
