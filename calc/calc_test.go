package calc_test

import (
	"bytes"
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc"
	"seamwright/calc/job"
	"seamwright/calc/money"
	"seamwright/calc/plan"
	"seamwright/planner"
)

// samples are the projects that ship.
func samples(t testing.TB) map[string]*job.Job {
	files, err := filepath.Glob("../assets/samples/*.seam.yaml")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	jobs := map[string]*job.Job{}
	for _, f := range files {
		d, err := planner.Load(f)
		require.NoError(t, err)
		jobs[filepath.Base(f)] = d.Job()
	}
	return jobs
}

func planned(t testing.TB, j *job.Job, memo *calc.Memo) (*plan.Plan, []byte) {
	p, err := calc.Plan(context.Background(), j, memo)
	require.NoError(t, err)
	return p, encoded(t, p)
}

func encoded(t require.TestingT, p *plan.Plan) []byte {
	b, err := json.Marshal(p)
	require.NoError(t, err)
	return b
}

// The same job gives the same bytes: again, with a warm memo, and on one core.
func TestSameJobSameBytes(t *testing.T) {
	for name, j := range samples(t) {
		_, first := planned(t, j, nil)
		memo := calc.NewMemo()
		_, cold := planned(t, j, memo)
		_, warm := planned(t, j, memo)
		require.True(t, bytes.Equal(first, cold), name)
		require.True(t, bytes.Equal(first, warm), "%s: warm memo", name)
		cores := runtime.GOMAXPROCS(1)
		_, alone := planned(t, j, nil)
		runtime.GOMAXPROCS(cores)
		require.True(t, bytes.Equal(first, alone), "%s: one core", name)
	}
}

func TestMoneyAndPiecesAddUp(t *testing.T) {
	for name, j := range samples(t) {
		p, _ := planned(t, j, nil)
		var takeoff, shares money.Money
		for _, i := range p.Takeoff {
			takeoff += i.Cost
		}
		for _, s := range p.Cost.BySurface {
			shares += s.Cost
		}
		require.Equal(t, p.Cost.Material, takeoff, name)
		require.Equal(t, p.Cost.Total, p.Cost.Material+p.Cost.Labour+p.Cost.Tax, name)
		require.Equal(t, p.Cost.Total, shares, "%s: every cent belongs to a surface", name)

		bought, parts := 0, map[string]int{}
		for _, s := range p.Sheets {
			if s.Source == plan.Buy {
				bought++
			}
			for _, q := range s.Parts {
				parts[q.Panel]++
			}
		}
		require.Equal(t, p.Summary.SheetsBought, bought, name)
		require.LessOrEqual(t, p.Summary.SheetsBound, bought, name)
		for _, s := range p.Surfaces {
			for _, z := range s.Zones {
				for _, panel := range z.Panels {
					require.Equal(t, 1, parts[panel.ID], "%s: %s is cut once", name, panel.ID)
				}
			}
		}
		require.Len(t, p.Alternatives, len(j.Alternatives), name)
	}
}

func TestCancelledIsNoPlan(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	for name, j := range samples(t) {
		p, err := calc.Plan(ctx, j, nil)
		require.ErrorIs(t, err, context.Canceled, name)
		require.Nil(t, p, name)
	}
}

func TestFiguresAreNamedOnceAndHaveAStatus(t *testing.T) {
	seen := map[string]bool{}
	for _, f := range calc.Figures() {
		require.False(t, seen[f.ID], "%s stands twice", f.ID)
		seen[f.ID] = true
		require.NotEmpty(t, f.Unit, f.ID)
		require.Contains(t, []job.Status{job.Read, job.Memory, job.Practice, job.Derived}, f.Status, f.ID)
	}
}

func BenchmarkSample(b *testing.B) {
	src, err := os.ReadFile("../assets/samples/kiln-yard-studio.seam.yaml")
	require.NoError(b, err)
	d, err := planner.Parse("sample", src)
	require.NoError(b, err)
	j := *d.Job()
	j.Alternatives = nil
	for b.Loop() {
		_, err := calc.Plan(context.Background(), &j, nil)
		require.NoError(b, err)
	}
}
