package draft

import "seamwright/calc/length"

// A strip that has more height than it can use in one row stands in several, filled like lines of text.
const (
	rowGap   = 2 * length.Metre // from a floor line down to the highest wall of the row below: captions stand there
	mostRows = 4
	rowsGain = 1.15 // how much larger walls must become for the eye to go on in another row
)

// breakRows sets surfaces that stand in one row in as many as are asked for, so that the widest is as narrow as it can
// be. Each row begins at the left; the last one keeps the floor line at 0.
func breakRows(list []slot, rows int) {
	if rows < 2 || len(list) < 2 {
		return
	}
	first := rowStarts(list, narrowest(list, rows))
	var raise length.Length
	for k := len(first) - 1; k >= 0; k-- {
		end := len(list)
		if k+1 < len(first) {
			end = first[k+1]
		}
		row, left := list[first[k]:end], list[first[k]].x
		lo, hi := extent(row)
		if k+1 < len(first) {
			raise -= lo // what hangs below its floor line
		}
		for i := range row {
			row[i].x -= left
			row[i].drop -= raise
		}
		raise += hi + rowGap
	}
}

// extent is how far a row reaches below and above its floor line.
func extent(row []slot) (lo, hi length.Length) {
	for i := range row {
		t := &row[i]
		lo, hi = min(lo, t.bounds.Y-t.drop), max(hi, t.bounds.MaxY()-t.drop)
	}
	return lo, hi
}

// width is from the left side of one surface to the right side of another.
func width(a, b *slot) length.Length { return b.x + b.bounds.W - a.x }

// narrowest is the least width at which no more than so many rows are needed. It is the width of some run of surfaces,
// so the search halves the lengths between the widest surface and all of them until a millimetre decides nothing.
func narrowest(list []slot, rows int) length.Length {
	var least length.Length
	for i := range list {
		least = max(least, list[i].bounds.W)
	}
	most := width(&list[0], &list[len(list)-1])
	for most-least > length.Millimetre {
		if mid := (least + most) / 2; len(rowStarts(list, mid)) <= rows {
			most = mid
		} else {
			least = mid
		}
	}
	return most
}

// rowStarts fills rows no wider than a width, and tells where each begins.
func rowStarts(list []slot, wide length.Length) []int {
	first := []int{0}
	for i := range list {
		if start := first[len(first)-1]; i > start && width(&list[start], &list[i]) > wide {
			first = append(first, i)
		}
	}
	return first
}
