package nest

import "slices"

// scale is one dual feasible function on one side of the sheet: sizes are exchanged for values such that parts which fit
// side by side never sum to more than top. In the language of Fekete & Schepers (2001) it is a conservative scale: a
// packing stays a packing when widths and heights are each exchanged by one, so areas may be counted in the new sizes.
type scale struct {
	straight []int64 // per item type: value of its size on this side, as drawn
	turned   []int64 // turned a quarter
	top      int64   // most that fits on the side of the largest sheet
}

// most is how much fits on a side of the given size: never more than top, nor than the densest item would fill.
func (f *scale) most(side int64, sizes, turned []int64) int64 {
	most := f.top
	density := 0.0
	for i, v := range f.straight {
		density = max(density, float64(v)/float64(sizes[i]))
	}
	for i, v := range f.turned {
		if turned[i] > 0 {
			density = max(density, float64(v)/float64(turned[i]))
		}
	}
	if d := density * float64(side) * (1 + densitySlack); d < float64(most) {
		most = min(most, int64(d)+1)
	}
	return most
}

// densitySlack keeps a capacity reckoned in floating point on the safe, larger side: it is far above the rounding of the
// few operations and far below anything that matters.
const densitySlack = 1e-12

// most side values tried per side.
const maxScales = 72

// function is a dual feasible function on [0, side] with its capacity.
type function struct {
	top int64
	at  func(x int64) int64
}

// functions lists the families for a side: identity; f0 lifts what leaves no room for any kept item (Martello & Toth
// 1990, Martello & Vigo 1998); the staircase u(k) (Fekete & Schepers 2001); and the symmetric rounding by k (Carlier,
// Clautiaux & Moukrim 2007). Parameters come from the sizes themselves, where the functions have their steps.
func functions(side int64, sizes []int64) []function {
	out := []function{{side, func(x int64) int64 { return x }}}
	var lifts, steps []int64
	for _, x := range sizes {
		for _, p := range []int64{x, side - x + 1} {
			if p > 0 && 2*p <= side {
				lifts = append(lifts, p)
			}
		}
		for _, k := range []int64{x, side - x + 1, x / 2, x / 3, (side - x) / 2} {
			if k > 0 && 2*k <= side {
				steps = append(steps, k)
			}
		}
	}
	for j := int64(2); j <= 8; j++ {
		steps = append(steps, max(1, side/j), max(1, side/(j+1)+1))
	}
	for _, p := range thin(lifts, maxScales/3) {
		out = append(out, function{side, func(x int64) int64 {
			switch {
			case x > side-p:
				return side
			case x < p:
				return 0
			}
			return x
		}})
	}
	for _, k := range thin(steps, maxScales/2) {
		if k > side {
			continue
		}
		out = append(out, function{2 * (side / k), func(x int64) int64 {
			switch {
			case 2*x > side:
				return 2 * (side/k - (side-x)/k)
			case 2*x == side:
				return side / k
			}
			return 2 * (x / k)
		}})
	}
	for k := int64(1); k <= 6; k++ {
		out = append(out, function{side * k, func(x int64) int64 {
			if (k+1)*x%side == 0 {
				return x * k
			}
			return (k + 1) * x / side * side
		}})
	}
	return out
}

// thin sorts, removes doubles and keeps at most n, evenly spread.
func thin(list []int64, n int) []int64 {
	slices.Sort(list)
	list = slices.Compact(list)
	if len(list) <= n {
		return list
	}
	out := make([]int64, n)
	for i := range out {
		out[i] = list[i*(len(list)-1)/(n-1)]
	}
	return out
}
