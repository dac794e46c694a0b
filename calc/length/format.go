package length

import (
	"strconv"
	"strings"
)

// Feet-inch fractions: sheets are measured to 1/16 in, and 1/64 in is the finest mark that is written.
const (
	ShownFraction  = 16
	FinestFraction = 64
)

// Imperial writes feet, inches and a fraction, rounded to 1/denominator in: 12' 6 1/2", 8' 0", 3/4".
// The denominator is a power of two up to 64.
func (l Length) Imperial(denominator int64) string {
	unit := Inch / Length(denominator)
	n := int64((l.Abs() + unit/2) / unit)
	feet, rest := n/(12*denominator), n%(12*denominator)
	var b strings.Builder
	if l < 0 && n != 0 {
		b.WriteByte('-')
	}
	if feet > 0 {
		b.WriteString(strconv.FormatInt(feet, 10) + "' ")
	}
	b.WriteString(inches(rest, denominator))
	return b.String()
}

// inches writes n/denominator in as whole inches and a reduced fraction.
func inches(n, denominator int64) string {
	whole, f := n/denominator, n%denominator
	for f != 0 && f%2 == 0 {
		f, denominator = f/2, denominator/2
	}
	switch fraction := strconv.FormatInt(f, 10) + "/" + strconv.FormatInt(denominator, 10) + `"`; {
	case f == 0:
		return strconv.FormatInt(whole, 10) + `"`
	case whole == 0:
		return fraction
	default:
		return strconv.FormatInt(whole, 10) + " " + fraction
	}
}

// Metric writes millimetres, rounded to a whole one: 2440 mm. An exact half stays, since boards are made so: 12.5 mm.
func (l Length) Metric() string {
	if l%Millimetre != 0 && l%(Millimetre/2) == 0 {
		return string(l.AppendMM(nil)) + " mm"
	}
	n := int64((l.Abs() + Millimetre/2) / Millimetre)
	if l < 0 {
		n = -n
	}
	return strconv.FormatInt(n, 10) + " mm"
}

// Show writes the length as a person reads it on a drawing: to 1/16 in, or to 1 mm.
func (l Length) Show(imperial bool) string {
	if imperial {
		return l.Imperial(ShownFraction)
	}
	return l.Metric()
}

// Exact writes the length so that Parse gives it back unchanged, in the units asked for where they can hold it.
func (l Length) Exact(imperial bool) string {
	if l == 0 {
		return "0"
	}
	if imperial && l%(Inch/FinestFraction) == 0 {
		return strings.TrimSuffix(l.Imperial(FinestFraction), ` 0"`)
	}
	return string(l.AppendMM(nil)) + " mm"
}
