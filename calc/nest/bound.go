package nest

import (
	"math"
	"math/bits"
)

// wide is an unsigned 128-bit sum of areas: a single sheet of nanometres already fills 62 bits.
type wide struct{ hi, lo uint64 }

func (a wide) add(hi, lo uint64) wide {
	l, c := bits.Add64(a.lo, lo, 0)
	h, _ := bits.Add64(a.hi, hi, c)
	return wide{h, l}
}

func (a wide) addProduct(x, y int64) wide {
	hi, lo := bits.Mul64(uint64(x), uint64(y))
	return a.add(hi, lo)
}

func (a wide) less(b wide) bool { return a.hi < b.hi || a.hi == b.hi && a.lo < b.lo }

// areaBound covers the area of all pieces by sheets at the least cost. Every piece and every sheet is one kerf larger
// each way: a row of pieces fits if and only if the enlarged ones fit, since the last piece needs no cut after it.
func areaBound(p *Problem) int64 {
	var need wide
	for _, it := range p.Items {
		hi, lo := bits.Mul64(uint64(it.W+p.Kerf), uint64(it.H+p.Kerf))
		for range it.N {
			need = need.add(hi, lo)
		}
	}
	if need == (wide{}) {
		return 0
	}
	best := int64(math.MaxInt64)
	for _, s := range p.Sheets {
		if s.Max > 0 && s.Cost > 0 || s.Cost == 0 && s.Max == 0 {
			return 0
		}
	}
	least := int64(math.MaxInt64)
	var free, biggest wide
	for _, s := range p.Sheets {
		a := wide{}.addProduct(s.W+p.Kerf, s.H+p.Kerf)
		if s.Cost == 0 {
			for range s.Max {
				free = free.add(a.hi, a.lo)
			}
			continue
		}
		if biggest.less(a) {
			biggest = a
		}
		least = min(least, s.Cost)
	}
	if !free.less(need) {
		return 0
	}
	n := int64(0)
	for free.less(need) {
		free = free.add(biggest.hi, biggest.lo)
		n++
	}
	best = min(best, n*least)
	return best
}
