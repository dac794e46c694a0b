package nest_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamwright/calc/nest"
	"seamwright/calc/nest/proof"
)

// brute is the plainest exact solver there is: every way to part a set of pieces by every cut at every whole position,
// and every way to spread the pieces over sheets. Only for a handful of pieces on tiny sheets.
type brute struct {
	p      *nest.Problem
	pieces []nest.Item
	memo   map[region]bool
}

type region struct {
	set       int
	w, h      int64
	low, high bool // the edge along W is a tapered factory edge
}

// holds tells whether a piece of sheet can be cut into all of a set.
func (b *brute) holds(r region) bool {
	if r.set == 0 {
		return true
	}
	if r.w <= 0 || r.h <= 0 {
		return false
	}
	if ok, seen := b.memo[r]; seen {
		return ok
	}
	ok := b.search(r)
	b.memo[r] = ok
	return ok
}

func (b *brute) search(r region) bool {
	if r.set&(r.set-1) == 0 {
		for i, it := range b.pieces {
			if r.set != 1<<i {
				continue
			}
			if it.Turn && it.Tapers == 0 && it.H <= r.w && it.W <= r.h {
				return true
			}
			edges := 0
			if r.low {
				edges++
			}
			if r.high {
				edges++
			}
			return it.W <= r.w && it.H <= r.h && (it.Tapers == 0 || it.Tapers == 1 && edges > 0 ||
				it.Tapers == 2 && edges == 2 && it.H == r.h)
		}
	}
	for part := (r.set - 1) & r.set; part > 0; part = (part - 1) & r.set {
		rest := r.set &^ part
		for x := int64(1); x < r.w; x++ {
			if b.holds(region{part, x, r.h, r.low, r.high}) && b.holds(region{rest, r.w - x - b.p.Kerf, r.h, r.low, r.high}) {
				return true
			}
		}
		for y := int64(1); y < r.h; y++ {
			if b.holds(region{part, r.w, y, r.low, false}) && b.holds(region{rest, r.w, r.h - y - b.p.Kerf, false, r.high}) {
				return true
			}
		}
	}
	return false
}

// least is the least cost for a set, given how many sheets of each size are used; -1: impossible.
func (b *brute) least(set int, used []int) int64 {
	if set == 0 {
		return 0
	}
	best := int64(-1)
	first := set & -set
	for part := set; part > 0; part = (part - 1) & set {
		if part&first == 0 {
			continue
		}
		for k, s := range b.p.Sheets {
			if s.Max > 0 && used[k] >= s.Max || !b.holds(region{part, s.W, s.H, s.Tapered[0], s.Tapered[1]}) {
				continue
			}
			used[k]++
			if c := b.least(set&^part, used); c >= 0 && (best < 0 || c+s.Cost < best) {
				best = c + s.Cost
			}
			used[k]--
		}
	}
	return best
}

func bruteForce(p *nest.Problem) int64 {
	b := &brute{p: p, memo: map[region]bool{}}
	for _, it := range p.Items {
		for range it.N {
			b.pieces = append(b.pieces, it)
		}
	}
	return b.least(1<<len(b.pieces)-1, make([]int, len(p.Sheets)))
}

// tiny draws problems that brute can solve.
func tiny(t *rapid.T) *nest.Problem {
	p := &nest.Problem{Kerf: rapid.Int64Range(0, 2).Draw(t, "kerf")}
	tapered := rapid.Bool().Draw(t, "tapered")
	for i := range rapid.IntRange(1, 2).Draw(t, "sheets") {
		s := nest.Sheet{W: rapid.Int64Range(4, 10).Draw(t, "W"), H: rapid.Int64Range(3, 7).Draw(t, "H"),
			Cost: rapid.Int64Range(1, 5).Draw(t, "cost"), Tapered: [2]bool{tapered, tapered}}
		if i > 0 {
			s.Max = rapid.IntRange(0, 2).Draw(t, "max")
			s.Cost--
		}
		p.Sheets = append(p.Sheets, s)
	}
	for range rapid.IntRange(1, 5).Draw(t, "items") {
		s := p.Sheets[0]
		it := nest.Item{W: rapid.Int64Range(1, s.W).Draw(t, "w"), H: rapid.Int64Range(1, s.H).Draw(t, "h"), N: 1,
			Turn: rapid.Bool().Draw(t, "turn")}
		if tapered {
			it.Tapers = rapid.IntRange(0, 1).Draw(t, "tapers")
			if rapid.IntRange(0, 4).Draw(t, "whole") == 0 {
				it.H, it.Tapers = s.H, 2
			}
		}
		p.Items = append(p.Items, it)
	}
	return p
}

func TestTinyProblemsMeetBruteForce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := tiny(t)
		want := bruteForce(p)
		require.GreaterOrEqual(t, want, int64(0))
		require.LessOrEqual(t, nest.Bound(p), want, "bound above the optimum")
		r, err := nest.Solve(context.Background(), p, nest.Budget{Nodes: 200_000})
		require.NoError(t, err)
		require.NoError(t, proof.Result(p, r))
		require.Equal(t, want, r.Cost)
		again, err := nest.Solve(context.Background(), p, nest.Budget{Nodes: 200_000})
		require.NoError(t, err)
		require.Equal(t, r, again, "the same problem gives the same answer")
	})
}
