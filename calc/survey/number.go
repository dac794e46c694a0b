package survey

import (
	"math"
	"math/big"

	"seamwright/calc/length"
	"seamwright/calc/shape"
)

// ratio is a·b/c, rounded once to the nearest nanometre, halves up; c is not 0.
func ratio(a, b, c length.Length) length.Length {
	num := new(big.Int).Mul(big.NewInt(int64(a)), big.NewInt(int64(b)))
	den := big.NewInt(int64(c))
	if den.Sign() < 0 {
		num.Neg(num)
		den.Neg(den)
	}
	num.Lsh(num, 1).Add(num, den)
	return length.Length(num.Div(num, den.Lsh(den, 1)).Int64()) // Div rounds down for a positive divisor
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
	dx, dy := big.NewInt(int64(b.X-a.X)), big.NewInt(int64(b.Y-a.Y))
	sum := new(big.Int).Mul(dx, dx)
	return roundRoot(sum.Add(sum, new(big.Int).Mul(dy, dy)), big.NewInt(1))
}

// dot and cross of two plan vectors, with their exact signs; the values are for formulas.
func dot(a, b shape.Point) float64 {
	return exact(a.X, b.X, a.Y, b.Y, false)
}

func cross(a, b shape.Point) float64 {
	return exact(a.X, b.Y, a.Y, b.X, true)
}

func exact(a, b, c, d length.Length, minus bool) float64 {
	p := new(big.Int).Mul(big.NewInt(int64(a)), big.NewInt(int64(b)))
	q := new(big.Int).Mul(big.NewInt(int64(c)), big.NewInt(int64(d)))
	if minus {
		q.Neg(q)
	}
	f, _ := new(big.Float).SetInt(p.Add(p, q)).Float64()
	return f
}

func sub(a, b shape.Point) shape.Point { return shape.Point{X: a.X - b.X, Y: a.Y - b.Y} }

// round turns a formula's nanometres into a length.
func round(nm float64) length.Length { return length.Length(math.Floor(nm + 0.5)) }

// unit is v/|v| without negative zeros.
func unit(v [3]float64) [3]float64 {
	n := math.Sqrt(v[0]*v[0] + v[1]*v[1] + v[2]*v[2])
	for i := range v {
		if v[i] /= n; v[i] == 0 {
			v[i] = 0 // not -0
		}
	}
	return v
}
