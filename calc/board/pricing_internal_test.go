package board

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamwright/calc/board/tally"
	"seamwright/calc/job"
	"seamwright/calc/layout"
	"seamwright/calc/length"
)

// The best set of lengths on a line, against all sets; what is left between them is worth its share.
func TestTheBestSetOnALine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const side = 60
		sizes := rapid.SliceOfNDistinct(rapid.Int64Range(7, 60), 1, 5, rapid.ID[int64]).Draw(t, "sizes")
		worth := make([]int64, len(sizes))
		for k := range worth {
			worth[k] = rapid.Int64Range(0, 1000).Draw(t, "worth")
		}
		rate := rapid.Int64Range(0, 1000).Draw(t, "rate")
		long := rapid.Int64Range(0, side).Draw(t, "long")
		var best func(left int64, k int) int64
		best = func(left int64, k int) int64 {
			if k == len(sizes) {
				return (rate*left + side - 1) / side
			}
			v := best(left, k+1)
			if left >= sizes[k] {
				v = max(v, worth[k]+best(left-sizes[k], k))
			}
			return v
		}
		l, ok := newLine(sizes, side)
		require.True(t, ok)
		counts := make([]float64, len(sizes))
		most, rest := l.best(worth, rate, long, counts)
		require.Equal(t, best(long, 0), most)
		sum, used := int64(0), int64(0)
		for k, n := range counts {
			sum, used = sum+int64(n)*worth[k], used+int64(n)*sizes[k]
		}
		require.InDelta(t, float64(long-used)/side, rest, 1e-9)
		require.Equal(t, most, sum+(rate*(long-used)+side-1)/side)
	})
}

// A sheet parted at random by cuts right across its pieces is worth no more than the best line times a whole side across,
// whatever the worths: pieces of the lengths that have a worth of their own, and stretches of any length.
func TestTailoredWorthsHold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawScales(t)
		x := pricing{across: rapid.SampledFrom(s.across).Draw(t, "across"), kerf: s.kerf, side: s.along[0].side, index: map[int64]int{}}
		for _, l := range rapid.SliceOfN(rapid.Int64Range(2, 24), 1, 5).Draw(t, "sizes") {
			x.size(l * (x.side / 24))
		}
		line, ok := newLine(x.sizes, x.side)
		require.True(t, ok)
		for range x.sizes {
			x.worth = append(x.worth, rapid.Int64Range(0, fine).Draw(t, "worth"))
		}
		x.rate = rapid.Int64Range(0, fine).Draw(t, "rate")
		sum := int64(0)
		var part func(l, w int64, tapers, depth int)
		part = func(l, w int64, tapers, depth int) {
			cut := rapid.IntRange(0, 2).Draw(t, "cut")
			size := rapid.SampledFrom(x.sizes).Draw(t, "size")
			switch {
			case cut == 1 && depth > 0 && size < l:
				part(size, w, tapers, depth-1)
				part(l-size, w, tapers, depth-1)
			case cut == 2 && depth > 0 && w > 2:
				y := rapid.Int64Range(1, w-1).Draw(t, "y")
				part(l, y, min(1, tapers), depth-1)
				part(l, w-y, max(0, tapers-1), depth-1)
			case l > s.kerf && w > s.kerf:
				k, known := x.index[l]
				if !known {
					sum += x.rate * (portion(l, x.side) * x.across.across(w, tapers) / one)
					return
				}
				z := layout.Size{L: length.Length(l - s.kerf), W: length.Length(w - s.kerf), Tapers: tapers}
				p := x.piece(z)
				require.Equal(t, k, p.straight)
				v, _ := x.worthOf(&p)
				sum += v
			}
		}
		part(x.side, x.across.side, 2, 5)
		most, _ := line.best(x.worth, x.rate, x.side, make([]float64, len(x.sizes)))
		require.LessOrEqual(t, sum, most*one)
	})
}

// Nine rows of 75 in and nine of 22, from boards of 96. Worked by hand: 75 + 22 are one too long, so nine boards give the
// long ones, and the short ones, four a board, take three more. The families of scales find ten.
func TestABoundMadeForTheCase(t *testing.T) {
	in := length.Inch
	p := &productState{product: &job.Product{Kind: job.Gypsum, Sizes: []job.Size{{Length: 96 * in, Width: 48 * in}}}}
	p.counter, p.scales = tally.New(p.product, nil, &tally.Meter{}), newScales(p.product, &job.Rules{LeastCourse: 6 * in}, nil)
	x := newPricing(p, 0)
	most := int64(0)
	for _, f := range p.scales.along {
		most = max(most, 9*(f.at(int64(75*in))+f.at(int64(22*in))))
	}
	require.EqualValues(t, 10, (most+one-1)/one)
	row := func(l length.Length) pricedRow {
		return pricedRow{{{to: 1, pieces: []pricedPiece{x.piece(layout.Size{L: l * in, W: 48 * in})}}}, nil}
	}
	for range 9 {
		x.zones = append(x.zones, pricedZone{rows: []pricedRow{row(75), row(22)}, sets: []rowSet{{rows: []int{0, 1}}}})
	}
	require.Equal(t, 12, x.bound(10, 20))
	require.Equal(t, 11, x.bound(10, 11), "no more is asked for than is enough")
	x.stock = []onHand{{side: int64(48 * in), across: one, count: 1}}
	require.Equal(t, 11, x.bound(10, 20), "a piece on hand of 48 holds two of 22: 9 + 7/4")
	x.zones[0].sets = append(x.zones[0].sets, rowSet{rows: []int{1, 1}})
	require.Equal(t, 10, x.bound(9, 20), "one zone may take two of 22 instead: 8 + 8/4")
}
