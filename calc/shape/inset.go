package shape

import (
	"math/big"

	"seamwright/calc/length"
)

// Inset moves every side i (from corner i to corner i+1) of a counter-clockwise outline inwards by its own distance,
// outwards where that is negative. Corners stand where the moved sides meet, rounded once; sides that go on
// straight must move alike. The caller checks that the outline is still simple.
func (p Polygon) Inset(by []length.Length) Polygon {
	r := make(Polygon, len(p))
	for i := range p {
		r[i] = p[i]
		prev := (i + len(p) - 1) % len(p)
		if by[prev] != 0 || by[i] != 0 {
			r[i] = meet(p[prev], p[i], p.at(i+1), by[prev], by[i])
		}
	}
	return r
}

// meet is the point where the line ab moved to its left by da meets the line bc moved by db.
func meet(a, b, c Point, da, db length.Length) Point {
	// A line n·p = k with n = (-dy, dx), moved to the left by d: k + d·|n|.
	nx1, ny1, k1 := moved(a, b, da)
	nx2, ny2, k2 := moved(b, c, db)
	det := new(big.Float).Sub(mul(nx1, ny2), mul(nx2, ny1))
	if det.Sign() == 0 {
		return b
	}
	x := new(big.Float).Sub(mul(k1, ny2), mul(k2, ny1))
	y := new(big.Float).Sub(mul(nx1, k2), mul(nx2, k1))
	return Point{nearest(x.Quo(x, det)), nearest(y.Quo(y, det))}
}

// insetPrecision is the bits of the intermediate values: far more than the 128 of an exact product.
const insetPrecision = 320

func float(l length.Length) *big.Float {
	return new(big.Float).SetPrec(insetPrecision).SetInt64(int64(l))
}

func mul(a, b *big.Float) *big.Float { return new(big.Float).SetPrec(insetPrecision).Mul(a, b) }

func moved(a, b Point, d length.Length) (nx, ny, k *big.Float) {
	nx, ny = float(a.Y-b.Y), float(b.X-a.X)
	k = new(big.Float).Add(mul(nx, float(a.X)), mul(ny, float(a.Y)))
	norm := new(big.Float).Add(mul(nx, nx), mul(ny, ny))
	return nx, ny, k.Add(k, mul(float(d), norm.Sqrt(norm)))
}

func nearest(f *big.Float) length.Length {
	half := big.NewFloat(0.5)
	if f.Sign() < 0 {
		half.Neg(half)
	}
	n, _ := f.Add(f, half).Int64()
	return length.Length(n)
}
