package finish

import (
	"cmp"
	"slices"

	"seamwright/calc/length"
	"seamwright/calc/money"
)

// leastJoined is the shortest piece that a run longer than any stick is joined from: common practice, no source.
const leastJoined = 16 * length.Inch

// parting says how a run longer than any stick is joined.
type parting int

const (
	wholeFirst parting = iota // whole longest sticks and a rest
	leastCost                 // the sticks that cover the run at least cost
)

// parted gives the pieces of a run; one that a stick holds stays whole. The rest is no sliver: what it lacks comes off the
// piece before it.
func parted(run length.Length, forSale []offer, mark length.Length, how parting) []length.Length {
	sticks := make([]offer, len(forSale))
	for i, o := range forSale {
		sticks[i] = o
		sticks[i].long = o.long / mark * mark
	}
	slices.SortStableFunc(sticks, func(a, b offer) int { return cmp.Compare(b.long, a.long) })
	longest := sticks[0].long
	if run <= longest || longest <= 0 {
		return []length.Length{run}
	}
	var pieces []length.Length
	whole := longest // up to here the longest sticks are taken in any case
	if how == leastCost {
		whole = 4 * longest // a cover of so much is searched through
	}
	for ; run > whole; run -= longest {
		pieces = append(pieces, longest)
	}
	if how == leastCost {
		for _, i := range cheapestCover(sticks, run) {
			l := min(sticks[i].long, run)
			pieces, run = append(pieces, l), run-l
		}
	} else {
		pieces = append(pieces, run)
	}
	if n := len(pieces); pieces[n-1] < leastJoined && pieces[n-2] >= 2*leastJoined {
		pieces[n-2] -= leastJoined - pieces[n-1]
		pieces[n-1] = leastJoined
	}
	return pieces
}

// cheapestCover chooses sticks, longest first, that hold a run at least cost, of equal cost the fewest.
func cheapestCover(sticks []offer, run length.Length) []int {
	var best, chosen []int
	var least money.Money
	var try func(from int, left length.Length, cost money.Money)
	try = func(from int, left length.Length, cost money.Money) {
		if best != nil && (cost > least || cost == least && len(chosen) >= len(best)) {
			return
		}
		if left <= 0 {
			best, least = slices.Clone(chosen), cost
			return
		}
		for i := from; i < len(sticks); i++ {
			if sticks[i].long <= 0 {
				continue
			}
			chosen = append(chosen, i)
			try(i, left-sticks[i].long, cost+sticks[i].pack.Price)
			chosen = chosen[:len(chosen)-1]
		}
	}
	try(0, run, 0)
	return best
}
