package shape

import (
	"math/bits"

	"seamwright/calc/length"
)

// wide is a signed count of 128 bits, two's complement: products of two lengths, added up without rounding.
// Coordinates of a thousand kilometres would still fit.
type wide struct{ hi, lo uint64 }

func product(a, b length.Length) wide {
	hi, lo := bits.Mul64(uint64(a.Abs()), uint64(b.Abs()))
	if (a < 0) != (b < 0) {
		return wide{hi, lo}.negated()
	}
	return wide{hi, lo}
}

func (w wide) plus(v wide) wide {
	lo, carry := bits.Add64(w.lo, v.lo, 0)
	hi, _ := bits.Add64(w.hi, v.hi, carry)
	return wide{hi, lo}
}

func (w wide) minus(v wide) wide {
	lo, borrow := bits.Sub64(w.lo, v.lo, 0)
	hi, _ := bits.Sub64(w.hi, v.hi, borrow)
	return wide{hi, lo}
}

func (w wide) negated() wide { return wide{}.minus(w) }

func (w wide) sign() int {
	switch {
	case int64(w.hi) < 0:
		return -1
	case w.hi == 0 && w.lo == 0:
		return 0
	}
	return 1
}

// halfArea turns twice an area in square nanometres (not negative) into square micrometres, rounded once.
func (w wide) halfArea() length.Area {
	const divisor = 2_000_000 // twice the nm² in a µm²
	sum := w.plus(wide{lo: divisor / 2})
	q, _ := bits.Div64(sum.hi, sum.lo, divisor)
	return length.Area(q)
}

// Turn is the sign of the turn from a over b to c: 1 to the left, -1 to the right, 0 straight on (or back). Exact.
func Turn(a, b, c Point) int {
	return product(b.X-a.X, c.Y-a.Y).minus(product(b.Y-a.Y, c.X-a.X)).sign()
}

// yAt is the height at which the slanted segment ab crosses the vertical line x = at, rounded to the nearest
// nanometre, halves up. The result does not depend on the segment's direction.
func yAt(a, b Point, at length.Length) length.Length {
	run, rise, along := b.X-a.X, b.Y-a.Y, at-a.X
	if run < 0 {
		run, along = -run, -along
	}
	hi, lo := bits.Mul64(uint64(along.Abs()), uint64(rise.Abs()))
	q, r := bits.Div64(hi, lo, uint64(run)) // along ≤ run on the segment, so the quotient fits
	if (along < 0) != (rise < 0) {
		if 2*r > uint64(run) {
			q++
		}
		return a.Y - length.Length(q)
	}
	if 2*r >= uint64(run) {
		q++
	}
	return a.Y + length.Length(q)
}
