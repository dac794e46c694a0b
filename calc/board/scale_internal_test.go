package board

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamwright/calc/job"
	"seamwright/calc/layout"
	"seamwright/calc/length"
)

func drawScales(t *rapid.T) *scales {
	in := length.Inch
	p := &job.Product{Tapered: true, Kerf: rapid.SampledFrom([]length.Length{0, in / 8}).Draw(t, "kerf"), Sizes: []job.Size{
		{Length: rapid.SampledFrom([]length.Length{96 * in, 144 * in, 2500 * length.Millimetre}).Draw(t, "length"), Width: rapid.SampledFrom([]length.Length{48 * in, 54 * in, 1200 * length.Millimetre}).Draw(t, "width")}}}
	return newScales(p, &job.Rules{LeastCourse: 6 * in, Fit: in / 8}, nil)
}

// A dual feasible function gives sizes that fit side by side no more than the whole side (Fekete & Schepers 2001); here
// each is superadditive too, never falls, and gives the whole side its full worth.
func TestScalesAreSuperadditive(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawScales(t)
		all := append([]scale{}, s.along...)
		for _, g := range s.across {
			if g.kind != edges {
				all = append(all, g)
			}
		}
		f := rapid.SampledFrom(all).Draw(t, "scale")
		grain := rapid.SampledFrom([]int64{1, f.side / 12, f.side / 7, int64(length.Inch)}).Draw(t, "grain")
		x := rapid.Int64Range(0, f.side/grain).Draw(t, "x") * grain
		y := rapid.Int64Range(0, (f.side-x)/grain).Draw(t, "y") * grain
		require.LessOrEqual(t, f.at(x)+f.at(y), f.at(x+y))
		require.EqualValues(t, one, f.at(f.side))
		require.LessOrEqual(t, f.at(x+y), int64(one))
	})
}

// What lies side by side across a sheet has at most two tapered edges, and only a piece of the full width has both.
func TestEdgesAcrossASheet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawScales(t)
		for _, g := range s.across {
			left, tapers, sum := g.side, 2, int64(0)
			for left > 0 && rapid.IntRange(0, 9).Draw(t, "more") > 0 {
				w := rapid.OneOf(rapid.Int64Range(1, left), rapid.Just(left)).Draw(t, "wide")
				most := min(1, tapers)
				if w == g.side {
					most = 2
				}
				n := rapid.IntRange(0, most).Draw(t, "tapers")
				sum += g.across(w, n)
				left, tapers = left-w, tapers-n
			}
			require.LessOrEqual(t, sum, int64(one), "%+v", g)
		}
	})
}

// A sheet parted at random by cuts right across its pieces is never worth more than a sheet, under any pair.
func TestAPartedSheetIsWorthASheet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawScales(t)
		sum := make([]int64, s.pairs())
		var part func(l, w int64, tapers, depth int)
		part = func(l, w int64, tapers, depth int) {
			cut := rapid.IntRange(0, 2).Draw(t, "cut")
			switch {
			case cut == 1 && depth > 0 && l > 2:
				x := rapid.Int64Range(1, l-1).Draw(t, "x")
				part(x, w, tapers, depth-1)
				part(l-x, w, tapers, depth-1)
			case cut == 2 && depth > 0 && w > 2:
				y := rapid.Int64Range(1, w-1).Draw(t, "y")
				part(l, y, min(1, tapers), depth-1)
				part(l, w-y, max(0, tapers-1), depth-1)
			case l > s.kerf && w > s.kerf:
				z := layout.Size{L: length.Length(l - s.kerf), W: length.Length(w - s.kerf), Tapers: tapers}
				if tapers == 0 && rapid.Bool().Draw(t, "turned") {
					z = layout.Size{L: z.W, W: z.L, Turn: true}
				}
				s.weigh(z, sum)
			}
		}
		part(s.along[0].side, s.across[0].side, 2, 4)
		for k, v := range sum {
			require.LessOrEqual(t, v, int64(one*one), "pair %d", k)
		}
	})
}
