package layout

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamwright/calc/length"
)

// Every way to part a run, tried one by one: none has fewer joints than the one found, and none of as few stands on
// more doubled members.
func TestDivideNeedsFewestJoints(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		to := length.Length(rapid.IntRange(10, 60).Draw(t, "run"))
		most := length.Length(rapid.IntRange(5, 30).Draw(t, "most"))
		var sites []site
		at := length.Length(0)
		for len(sites) < 11 {
			at += length.Length(rapid.IntRange(1, 9).Draw(t, "step"))
			if at >= to {
				break
			}
			sites = append(sites, site{at, rapid.Bool().Draw(t, "doubled")})
		}
		bestCount, bestSingle := -1, 0
		for set := range 1 << len(sites) {
			last, n, single, ok := length.Length(0), 0, 0, true
			for i, p := range sites {
				if set>>i&1 == 1 {
					ok = ok && p.at-last <= most
					last, n = p.at, n+1
					if !p.doubled {
						single++
					}
				}
			}
			if ok = ok && to-last <= most; ok && (bestCount < 0 || n < bestCount || n == bestCount && single < bestSingle) {
				bestCount, bestSingle = n, single
			}
		}
		found := divide(0, to, most, sites, nil)
		if bestCount < 0 {
			require.Nil(t, found)
			return
		}
		require.Len(t, found, bestCount)
		single, last := 0, length.Length(0)
		for _, p := range found {
			k := slices.IndexFunc(sites, func(q site) bool { return q.at == p })
			require.GreaterOrEqual(t, k, 0)
			require.LessOrEqual(t, p-last, most)
			last = p
			if !sites[k].doubled {
				single++
			}
		}
		require.LessOrEqual(t, to-last, most)
		require.Equal(t, bestSingle, single)
	})
}

// 40 ft with joints allowed every 4 ft and 30 ft at most: 12 + 28, 16 + 24 and 20 + 20 ft take whole sheets of 8 and
// 12 ft (28 = 8 + 8 + 12), and the middle is the most even.
func TestDivideIsEven(t *testing.T) {
	var sites []site
	for k := length.Length(1); k < 10; k++ {
		sites = append(sites, site{at: 4 * k * length.Foot})
	}
	sums := sheetSums([]length.Length{8 * length.Foot, 12 * length.Foot}, 30*length.Foot)
	waste := func(w length.Length) length.Length {
		i, _ := slices.BinarySearch(sums, w)
		return sums[i] - w
	}
	require.Equal(t, []length.Length{20 * length.Foot}, divide(0, 40*length.Foot, 30*length.Foot, sites, waste))
}
