package board

import "slices"

// line finds the best set of lengths on one line along a sheet.
type line struct {
	side  int64
	sizes []int64
	sums  []int64   // that sizes reach, in order (normal positions: Herz 1972)
	less  [][]int32 // by size and sum: the largest sum that a piece of the size can follow to end there, nowhere if none
	value []int64
	last  []int32 // the size that a sum ends with, nowhere where the sum before it is as good
}

// newLine lists the sums of sizes on a line; not ok where they are too many.
func newLine(sizes []int64, side int64) (l line, ok bool) {
	sorted := slices.Clone(sizes)
	slices.Sort(sorted)
	seen := map[int64]bool{0: true}
	sums := []int64{0}
	for i := 0; i < len(sums); i++ {
		for _, z := range sorted {
			v := sums[i] + z
			if v > side {
				break
			}
			if !seen[v] {
				if len(sums) >= linePlaces {
					return l, false
				}
				seen[v] = true
				sums = append(sums, v)
			}
		}
	}
	if len(sums)*len(sizes) > lineSteps {
		return l, false
	}
	slices.Sort(sums)
	l = line{side: side, sizes: sizes, sums: sums, value: make([]int64, len(sums)), last: make([]int32, len(sums))}
	for _, z := range sizes {
		less := make([]int32, len(sums))
		at := int32(nowhere)
		for i, v := range sums {
			for int(at+1) < len(sums) && sums[at+1] <= v-z {
				at++
			}
			less[i] = at
		}
		l.less = append(l.less, less)
	}
	return l, true
}

// best is the greatest worth of lengths on a line no longer than side, where what is left between them is worth rate for
// each side of the sheet, rounded up; counts are the lengths of such a set, and rest what is left, in sides of the sheet.
func (l *line) best(worth []int64, rate, side int64, counts []float64) (most int64, rest float64) {
	n, found := slices.BinarySearch(l.sums, side)
	if found {
		n++
	}
	at := 0
	for i := range n {
		l.value[i], l.last[i] = 0, nowhere
		if i > 0 {
			l.value[i] = l.value[i-1]
		}
		for k, w := range worth {
			if f := l.less[k][i]; f >= 0 && l.value[f]+w > l.value[i] {
				l.value[i], l.last[i] = l.value[f]+w, int32(k)
			}
		}
		if v := l.value[i] + (rate*(side-l.sums[i])+l.side-1)/l.side; i == 0 || v > most {
			most, at = v, i
		}
	}
	left := side
	for i := at; i > 0; {
		k := l.last[i]
		if k == nowhere {
			i--
			continue
		}
		counts[k]++
		left -= l.sizes[k]
		i = int(l.less[k][i])
	}
	return most, float64(left) / float64(l.side)
}
