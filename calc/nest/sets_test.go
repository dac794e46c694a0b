package nest_test

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"seamwright/calc/nest"
	"seamwright/calc/nest/cases"
	"seamwright/calc/nest/proof"
)

// families are the public sets that tests and benchmarks read from the folder in SEAMWRIGHT_NEST_DATA.
var families = []string{
	"1d-batten-multilength", "1d-falkenauer-u", "1d-scholl1", "1d-schwerin1", "1d-waescher",
	"2d-atp30-49", "2d-bwmv-class01", "2d-bwmv-class02", "2d-bwmv-class03", "2d-bwmv-class05", "2d-bwmv-class07",
	"2d-bwmv-class09", "2d-cintra2008-gcutd", "2d-gcut-bin", "2d-synth-sheet48x96-kerf", "2d-synth-sheet48x96-nokerf-rot",
}

// readSet reads a public family, or skips.
func readSet(t testing.TB, name string) *cases.Family {
	t.Helper()
	dir := os.Getenv("SEAMWRIGHT_NEST_DATA")
	if dir == "" {
		t.Skip("SEAMWRIGHT_NEST_DATA is not set: the public sets stay outside the repository, so this check did not run")
	}
	f, err := os.Open(filepath.Join(dir, name+".json"))
	require.NoError(t, err)
	defer f.Close()
	family, err := cases.Read(f, cases.AsCase)
	require.NoError(t, err)
	return family
}

// turnAll lets all items be turned, or none.
func turnAll(c *cases.Case, turned bool) {
	for i := range c.Sheets.Items {
		c.Sheets.Items[i].Turn = turned
	}
}

// Published values are reached by someone, so no bound may lie above one (sources in the files' citations). Every answer
// must pass the proof; lengths must be within one stick of the published optimum.
func TestPublicSets(t *testing.T) {
	for _, name := range families {
		t.Run(name, func(t *testing.T) {
			family := readSet(t, name)
			for i := range family.Cases {
				if testing.Short() && i%5 != 0 {
					continue
				}
				c := &family.Cases[i]
				if c.Lengths != nil {
					r, err := nest.Lengths(context.Background(), c.Lengths, nest.Budget{})
					require.NoError(t, err, c.Name)
					require.NoError(t, proof.Lengths(c.Lengths, r), c.Name)
					require.LessOrEqual(t, r.Bound, c.Best(false), c.Name)
					if !c.Costs {
						require.LessOrEqual(t, r.Cost, c.Best(false)+1, c.Name)
					}
					continue
				}
				for _, turned := range []bool{false, true} {
					if c.Best(turned) == 0 {
						continue
					}
					turnAll(c, turned)
					r, err := nest.Solve(context.Background(), c.Sheets, nest.Budget{Nodes: 1 << 15})
					require.NoError(t, err, c.Name)
					require.NoError(t, proof.Result(c.Sheets, r), c.Name)
					require.LessOrEqual(t, r.Bound, c.Best(turned), c.Name)
				}
			}
		})
	}
}

// cutUp makes a problem whose optimum is known: whole sheets are cut at random, kerf lost at every cut, so all the
// pieces come from count sheets; and their area, each a kerf larger, is more than count-1 sheets hold.
func cutUp(rng *rand.Rand, count int, kerf int64) *nest.Problem {
	for {
		p := &nest.Problem{Sheets: []nest.Sheet{{W: 960, H: 480, Cost: 1}}, Kerf: kerf}
		var split func(w, h int64, depth int)
		split = func(w, h int64, depth int) {
			across := rng.Int64N(w+h) < w
			size := h
			if across {
				size = w
			}
			if depth == 0 || size < 120 {
				p.Items = append(p.Items, nest.Item{W: w, H: h, N: 1})
				return
			}
			at := 50 + rng.Int64N(size-100-kerf)
			if across {
				split(at, h, depth-1)
				split(w-at-kerf, h, depth-1)
			} else {
				split(w, at, depth-1)
				split(w, h-at-kerf, depth-1)
			}
		}
		for range count {
			split(960, 480, 3)
		}
		area := int64(0)
		for _, it := range p.Items {
			area += (it.W + kerf) * (it.H + kerf)
		}
		if area > int64(count-1)*(960+kerf)*(480+kerf) {
			return p
		}
	}
}

func TestCutUpSheetsAreNestedBack(t *testing.T) {
	rng := rand.New(rand.NewPCG(20, 26))
	exact, all := 0, 0
	for _, kerf := range []int64{0, 3} {
		for count := 1; count <= 4; count++ {
			p := cutUp(rng, count, kerf)
			r, err := nest.Solve(context.Background(), p, nest.Budget{Nodes: 1 << 22})
			require.NoError(t, err)
			require.NoError(t, proof.Result(p, r))
			require.EqualValues(t, count, r.Bound, "the area alone proves it")
			require.LessOrEqual(t, r.Cost, r.Bound+1)
			if all++; r.Proven {
				exact++
			}
		}
	}
	require.GreaterOrEqual(t, exact, all/2)
	t.Logf("%d of %d cut-up problems nested back into the very number of sheets", exact, all)
}

// BenchmarkSets measures each public set: reached is the share at or below the best value known, proven the share whose
// bound meets the value. NEST_LIMIT sets the time for an instance.
func BenchmarkSets(b *testing.B) {
	limit := time.Second / 10
	if d, err := time.ParseDuration(os.Getenv("NEST_LIMIT")); err == nil {
		limit = d
	}
	for _, name := range families {
		for _, turned := range []bool{false, true} {
			label := name
			if turned {
				label += "/turned"
			}
			b.Run(label, func(b *testing.B) {
				family := readSet(b, name)
				if family.Cases[0].Best(turned) == 0 || turned && family.Cases[0].Lengths != nil {
					b.Skip("no values are published for this variant")
				}
				reached, proven, all := 0, 0, 0
				for b.Loop() {
					for i := range family.Cases {
						cost, bound := timed(b, &family.Cases[i], turned, limit)
						all++
						if cost <= family.Cases[i].Best(turned) {
							reached++
						}
						if cost == bound {
							proven++
						}
					}
				}
				b.ReportMetric(float64(reached)/float64(all), "reached")
				b.ReportMetric(float64(proven)/float64(all), "proven")
			})
		}
	}
}

// timed solves one case within a time.
func timed(b *testing.B, c *cases.Case, turned bool, limit time.Duration) (cost, bound int64) {
	start := time.Now()
	budget := nest.Budget{Nodes: math.MaxInt64, Stop: func() bool { return time.Since(start) > limit }}
	if c.Lengths != nil {
		r, err := nest.Lengths(context.Background(), c.Lengths, budget)
		require.NoError(b, err)
		return r.Cost, r.Bound
	}
	turnAll(c, turned)
	r, err := nest.Solve(context.Background(), c.Sheets, budget)
	require.NoError(b, err)
	return r.Cost, r.Bound
}

// BenchmarkBoard is a board's worth: 20 and 40 rips and pieces for a gypsum room, in nanometres, with the budget of one
// trial of a layout.
func BenchmarkBoard(b *testing.B) {
	const inch = 25_400_000
	for _, sizes := range []int64{5, 10} {
		p := &nest.Problem{Sheets: []nest.Sheet{{W: 96 * inch, H: 48 * inch, Cost: 1550, Tapered: [2]bool{true, true}},
			{W: 144 * inch, H: 48 * inch, Cost: 2380, Tapered: [2]bool{true, true}}}}
		for i := range sizes {
			p.Items = append(p.Items, nest.Item{W: (30 + 6*i) * inch, H: 24 * inch, N: 4, Tapers: 1})
		}
		b.Run(fmt.Sprint(4*sizes), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				_, err := nest.Solve(context.Background(), p, nest.Budget{Nodes: 60_000})
				require.NoError(b, err)
			}
		})
	}
}
