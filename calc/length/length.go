// Package length keeps lengths exact: an integer count of nanometres, in which both 1/64 in and 1 mm
// are whole numbers, so edges that should meet do meet. Areas are square micrometres, rounded once.
package length

import (
	"math/bits"
	"strconv"
)

// Length is a count of nanometres. 1/64 in is 396,875 nm and 1 mm is 1,000,000 nm.
type Length int64

// The units that the trade writes.
const (
	Nanometre  Length = 1
	Millimetre        = 1_000_000 * Nanometre
	Centimetre        = 10 * Millimetre
	Metre             = 1000 * Millimetre
	Inch              = 25_400_000 * Nanometre
	Foot              = 12 * Inch
)

// Inches gives n inches.
func Inches(n int64) Length { return Length(n) * Inch }

// Sixtyfourths gives n/64 in, exactly.
func Sixtyfourths(n int64) Length { return Length(n) * Inch / 64 }

// MM is the length in millimetres, for drawing and for formulas; never compare two lengths through it.
func (l Length) MM() float64 { return float64(l) / float64(Millimetre) }

// Metres is the length in metres, for formulas.
func (l Length) Metres() float64 { return float64(l) / float64(Metre) }

// In is the length in inches, for formulas.
func (l Length) In() float64 { return float64(l) / float64(Inch) }

// Feet is the length in feet, for formulas.
func (l Length) Feet() float64 { return float64(l) / float64(Foot) }

// Abs is the length without its sign.
func (l Length) Abs() Length {
	if l < 0 {
		return -l
	}
	return l
}

// FromMM rounds millimetres to the nearest nanometre, halves away from zero.
func FromMM(mm float64) Length {
	n := float64(mm * float64(Millimetre))
	if n < 0 {
		return -Length(-n + 0.5)
	}
	return Length(n + 0.5)
}

// AppendMM appends the length in millimetres as a decimal: at most six places, no exponent.
func (l Length) AppendMM(b []byte) []byte {
	n := int64(l)
	u := uint64(n)
	if n < 0 {
		b = append(b, '-')
		u = -u
	}
	b = strconv.AppendUint(b, u/1_000_000, 10)
	if f := u % 1_000_000; f != 0 {
		b = append(b, '.')
		for d := uint64(100_000); f != 0; d /= 10 {
			b = append(b, byte('0'+f/d))
			f %= d
		}
	}
	return b
}

// MarshalJSON writes the length in millimetres, exactly.
func (l Length) MarshalJSON() ([]byte, error) { return l.AppendMM(nil), nil }

// UnmarshalJSON reads millimetres.
func (l *Length) UnmarshalJSON(b []byte) error {
	mm, err := strconv.ParseFloat(string(b), 64)
	if err != nil {
		return err
	}
	*l = FromMM(mm)
	return nil
}

// Area is a count of square micrometres: up to nine million square metres.
type Area int64

// SquareMetre and SquareFoot are the areas that the trade counts in.
const (
	SquareMetre Area = 1_000_000_000_000
	SquareFoot  Area = 92_903_040_000
)

// Times is the area of a rectangle of the two lengths, rounded to the square micrometre.
func (l Length) Times(w Length) Area {
	neg := (l < 0) != (w < 0)
	hi, lo := bits.Mul64(uint64(l.Abs()), uint64(w.Abs()))
	lo, carry := bits.Add64(lo, 500_000, 0)
	q, _ := bits.Div64(hi+carry, lo, 1_000_000)
	if neg {
		return -Area(q)
	}
	return Area(q)
}

// SquareMetres is the area in square metres, for formulas.
func (a Area) SquareMetres() float64 { return float64(a) / float64(SquareMetre) }

// SquareFeet is the area in square feet, for formulas.
func (a Area) SquareFeet() float64 { return float64(a) / float64(SquareFoot) }
