package survey

import (
	"math"
	"math/big"
	"math/bits"

	"seamwright/calc/length"
	"seamwright/calc/shape"
)

// ratio is a·b/c, rounded once to the nearest nanometre, halves up; c is not 0. Beyond all lengths it is the longest one.
func ratio(a, b, c length.Length) length.Length {
	d := uint64(c.Abs())
	hi, lo := bits.Mul64(uint64(a.Abs()), uint64(b.Abs()))
	minus := (a < 0) != (b < 0) != (c < 0)
	if hi >= d {
		if minus {
			return -length.Longest
		}
		return length.Longest
	}
	q, r := bits.Div64(hi, lo, d)
	if minus {
		if r > d/2 { // halves up is towards zero here
			q++
		}
		return -length.Length(q)
	}
	if r >= d-d/2 {
		q++
	}
	return length.Length(q)
}

// stretched is l·√(run²+rise²)/run, rounded once: the length on a slope that covers l in plan, and also the
// vertical thickness of a slab whose thickness square to the slope is l. run is positive.
func stretched(l, run, rise length.Length) length.Length {
	if rise == 0 {
		return l
	}
	square := func(l length.Length) *big.Int { return new(big.Int).Mul(big.NewInt(int64(l)), big.NewInt(int64(l))) }
	num := square(run)
	num.Add(num, square(rise)).Mul(num, square(l))
	root := roundRoot(num, square(run))
	if l < 0 {
		return -root
	}
	return root
}

// roundRoot is √(num/den) rounded to the nearest whole number: half of ⌊√(4·num/den)⌋, rounded up.
func roundRoot(num, den *big.Int) length.Length {
	q := new(big.Int).Lsh(num, 2)
	q.Div(q, den).Sqrt(q)
	return length.Length((q.Int64() + 1) / 2)
}

// distance between two points, rounded once.
func distance(a, b shape.Point) length.Length {
	dx, dy := (b.X - a.X).Abs(), (b.Y - a.Y).Abs()
	if dx == 0 || dy == 0 {
		return dx + dy
	}
	x, y := big.NewInt(int64(dx)), big.NewInt(int64(dy))
	sum := new(big.Int).Mul(x, x)
	return roundRoot(sum.Add(sum, new(big.Int).Mul(y, y)), big.NewInt(1))
}

// dot and cross of two plan vectors, with their exact signs and rounded once; the values are for formulas.
func dot(a, b shape.Point) float64 { return products(a.X, b.X, a.Y, b.Y) }

func cross(a, b shape.Point) float64 { return products(a.X, b.Y, -a.Y, b.X) }

// products is a·b + c·d, rounded to the nearest float, in numbers of 128 bits.
func products(a, b, c, d length.Length) float64 {
	hi, lo := bits.Mul64(uint64(a.Abs()), uint64(b.Abs()))
	minus := (a < 0) != (b < 0)
	h, l := bits.Mul64(uint64(c.Abs()), uint64(d.Abs()))
	if minus == ((c < 0) != (d < 0)) {
		var carry uint64
		lo, carry = bits.Add64(lo, l, 0)
		hi, _ = bits.Add64(hi, h, carry)
	} else {
		if h > hi || h == hi && l > lo {
			hi, lo, h, l, minus = h, l, hi, lo, !minus
		}
		var borrow uint64
		lo, borrow = bits.Sub64(lo, l, 0)
		hi, _ = bits.Sub64(hi, h, borrow)
	}
	f := float64(lo)
	if hi != 0 { // the upper 64 bits, and in the last of them whether anything lies below
		n := bits.LeadingZeros64(hi)
		top := hi<<n | lo>>(64-n)
		if lo<<n != 0 {
			top |= 1
		}
		f = math.Ldexp(float64(top), 64-n)
	}
	if minus && f != 0 {
		return -f
	}
	return f
}

func sub(a, b shape.Point) shape.Point { return shape.Point{X: a.X - b.X, Y: a.Y - b.Y} }

// round turns a formula's nanometres into a length.
func round(nm float64) length.Length { return length.Length(math.Floor(float64(nm) + 0.5)) }

// unit is v/|v| without negative zeros.
func unit(v [3]float64) [3]float64 {
	n := math.Sqrt(float64(v[0]*v[0]) + float64(v[1]*v[1]) + float64(v[2]*v[2]))
	for i := range v {
		if v[i] /= n; v[i] == 0 {
			v[i] = 0 // not -0
		}
	}
	return v
}
