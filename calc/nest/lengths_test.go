package nest_test

import (
	"context"
	"math/rand/v2"
	"runtime"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamwright/calc/nest"
	"seamwright/calc/nest/proof"
)

// leastSticks is the least cost by trying, for the longest piece left, every set of pieces on every stick. -1: none.
func leastSticks(p *nest.LengthProblem, pieces []int64, set int, used []int, memo map[int]int64) int64 {
	if set == 0 {
		return 0
	}
	limited := false
	for _, s := range p.Sticks {
		limited = limited || s.Max > 0
	}
	if v, ok := memo[set]; ok && !limited {
		return v
	}
	best := int64(-1)
	first := set & -set
	for part := set; part > 0; part = (part - 1) & set {
		if part&first == 0 {
			continue
		}
		length := -p.Kerf
		for i, l := range pieces {
			if part&(1<<i) != 0 {
				length += l + p.Kerf
			}
		}
		for k, s := range p.Sticks {
			if length > s.L || s.Max > 0 && used[k] >= s.Max {
				continue
			}
			used[k]++
			if c := leastSticks(p, pieces, set&^part, used, memo); c >= 0 && (best < 0 || c+s.Cost < best) {
				best = c + s.Cost
			}
			used[k]--
		}
	}
	if !limited {
		memo[set] = best
	}
	return best
}

func TestLengthsMeetBruteForce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := &nest.LengthProblem{Kerf: rapid.Int64Range(0, 2).Draw(t, "kerf")}
		for i := range rapid.IntRange(1, 3).Draw(t, "sticks") {
			s := nest.Stick{L: rapid.Int64Range(8, 30).Draw(t, "L"), Cost: rapid.Int64Range(1, 9).Draw(t, "cost")}
			if i > 0 {
				s.Max = rapid.IntRange(0, 1).Draw(t, "max")
				s.Cost--
			}
			p.Sticks = append(p.Sticks, s)
		}
		var pieces []int64
		for range rapid.IntRange(1, 6).Draw(t, "pieces") {
			l := rapid.Int64Range(1, p.Sticks[0].L).Draw(t, "l")
			p.Pieces = append(p.Pieces, nest.Piece{L: l, N: 1})
			pieces = append(pieces, l)
		}
		want := leastSticks(p, pieces, 1<<len(pieces)-1, make([]int, len(p.Sticks)), map[int]int64{})
		r, err := nest.Lengths(context.Background(), p, nest.Budget{})
		require.NoError(t, err)
		require.NoError(t, proof.Lengths(p, r))
		require.LessOrEqual(t, r.Bound, want, "bound above the optimum")
		require.Equal(t, want, r.Cost)
	})
}

// The unit of length is nobody's business: the same problem in a unit finer by any factor has the same answer.
func TestLengthsDoNotDependOnTheUnit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := &nest.LengthProblem{Kerf: rapid.Int64Range(0, 3).Draw(t, "kerf")}
		for range rapid.IntRange(1, 2).Draw(t, "sticks") {
			p.Sticks = append(p.Sticks, nest.Stick{L: rapid.Int64Range(60, 240).Draw(t, "L"), Cost: rapid.Int64Range(1, 9).Draw(t, "cost")})
		}
		for range rapid.IntRange(1, 12).Draw(t, "pieces") {
			p.Pieces = append(p.Pieces, nest.Piece{L: rapid.Int64Range(1, 60).Draw(t, "l"), N: rapid.IntRange(0, 9).Draw(t, "n")})
		}
		factor := rapid.Int64Range(2, 1<<30).Draw(t, "factor")
		fine := &nest.LengthProblem{Kerf: p.Kerf * factor}
		for _, s := range p.Sticks {
			s.L *= factor
			fine.Sticks = append(fine.Sticks, s)
		}
		for _, q := range p.Pieces {
			q.L *= factor
			fine.Pieces = append(fine.Pieces, q)
		}
		budget := nest.Budget{Nodes: 100_000}
		coarse, err := nest.Lengths(context.Background(), p, budget)
		require.NoError(t, err)
		got, err := nest.Lengths(context.Background(), fine, budget)
		require.NoError(t, err)
		require.Equal(t, coarse, got)
	})
}

// Lengths in nanometres that share no divisor: sums are as many as there are, and memory must not grow with the unit.
func TestLengthsInNanometresKeepToTheirMemory(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 9))
	p := &nest.LengthProblem{Sticks: []nest.Stick{{L: 4_800_000_000, Cost: 48}, {L: 3_000_000_000, Cost: 31}}, Kerf: 3_175_000}
	for range 60 {
		p.Pieces = append(p.Pieces, nest.Piece{L: 150_000_000 + rng.Int64N(1_500_000_000), N: 1 + rng.IntN(3)})
	}
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	r, err := nest.Lengths(context.Background(), p, nest.Budget{Nodes: 1 << 22})
	runtime.ReadMemStats(&after)
	require.NoError(t, err)
	require.NoError(t, proof.Lengths(p, r))
	require.Less(t, after.TotalAlloc-before.TotalAlloc, uint64(1<<29), "half a gigabyte in all")
	require.LessOrEqual(t, r.Cost*100, r.Bound*103, "at most 3 % above the bound")
	t.Logf("cost %d, bound %d, %d MB in all", r.Cost, r.Bound, (after.TotalAlloc-before.TotalAlloc)>>20)
}

// Seven sticks of 10 with 5, 4 and 3: the classic where longest-first wastes. 5+5, 4+3+3, three times each, is perfect
// (arithmetic: 60 in all, six sticks of 10).
func TestLengthsFindThePerfectFill(t *testing.T) {
	p := &nest.LengthProblem{Sticks: []nest.Stick{{L: 10, Cost: 1}},
		Pieces: []nest.Piece{{L: 5, N: 6}, {L: 4, N: 3}, {L: 3, N: 6}}}
	r, err := nest.Lengths(context.Background(), p, nest.Budget{})
	require.NoError(t, err)
	require.True(t, r.Proven)
	require.EqualValues(t, 6, r.Cost)
}

// The blade takes its width between pieces but not after the last: three 100 need 306 at kerf 3, not 309 (arithmetic).
func TestLengthsLoseTheKerfBetweenPiecesOnly(t *testing.T) {
	for length, want := range map[int64]int64{306: 1, 305: 2} {
		p := &nest.LengthProblem{Sticks: []nest.Stick{{L: length, Cost: 1}}, Pieces: []nest.Piece{{L: 100, N: 3}}, Kerf: 3}
		r, err := nest.Lengths(context.Background(), p, nest.Budget{})
		require.NoError(t, err)
		require.True(t, r.Proven)
		require.Equal(t, want, r.Cost)
	}
}

// A thousand different lengths are long to fill well: once the time is over, the sticks that are left are filled fast. The
// wait is measured against a fill without a clock, in the same run.
func TestLengthsEndWithTheirTime(t *testing.T) {
	rng := rand.New(rand.NewPCG(25, 34))
	p := &nest.LengthProblem{Sticks: []nest.Stick{{L: 100_000, Cost: 1}}}
	for range 1000 {
		p.Pieces = append(p.Pieces, nest.Piece{L: 20_000 + rng.Int64N(30_001), N: 1})
	}
	wait := func(b nest.Budget) time.Duration {
		b.Plain = true
		start := time.Now()
		r, err := nest.Lengths(context.Background(), p, b)
		require.NoError(t, err)
		took := time.Since(start)
		require.NoError(t, proof.Lengths(p, r))
		return took
	}
	filled := wait(nest.Budget{Nodes: 1})
	over := wait(nest.Budget{Nodes: 1 << 40, Stop: func() bool { return true }})
	require.Less(t, over, filled/2)
}

func TestLengthsRefuse(t *testing.T) {
	_, err := nest.Lengths(context.Background(), &nest.LengthProblem{Sticks: []nest.Stick{{L: 10, Cost: 1}},
		Pieces: []nest.Piece{{L: 4, N: 1}, {L: 11, N: 1}}}, nest.Budget{})
	var bad *nest.ProblemError
	require.ErrorAs(t, err, &bad)
	require.Equal(t, "item", bad.What)
	require.Equal(t, 1, bad.Index)
	_, err = nest.Lengths(context.Background(), &nest.LengthProblem{Sticks: []nest.Stick{{L: 10, Cost: 1, Max: 1}},
		Pieces: []nest.Piece{{L: 6, N: 2}}}, nest.Budget{})
	require.ErrorContains(t, err, "do not suffice")
}

// triplets draws a problem whose sticks of 1000 hold three pieces each and no rest, as Falkenauer (1996) draws his: the
// first from 380 to 490, the second from 250 to half of what is left.
func triplets(rng *rand.Rand, sticks int) *nest.LengthProblem {
	p := &nest.LengthProblem{Sticks: []nest.Stick{{L: 1000, Cost: 1}}}
	for range sticks {
		a := 380 + rng.Int64N(111)
		b := 250 + rng.Int64N((1000-a)/2-250+1)
		for _, l := range []int64{a, b, 1000 - a - b} {
			p.Pieces = append(p.Pieces, nest.Piece{L: l, N: 1})
		}
	}
	return p
}

// Triplets leave no rest anywhere, so that the number of sticks drawn is the optimum by construction.
func TestTripletsAreFoundAgain(t *testing.T) {
	rng := rand.New(rand.NewPCG(60, 120))
	for _, sticks := range []int{20, 20, 40, 40, 83} {
		p := triplets(rng, sticks)
		r, err := nest.Lengths(context.Background(), p, nest.Budget{Nodes: 1 << 24})
		require.NoError(t, err)
		require.NoError(t, proof.Lengths(p, r))
		require.EqualValues(t, sticks, r.Cost)
		require.True(t, r.Proven)
	}
}
