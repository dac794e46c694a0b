package calc_test

import (
	"context"
	"encoding/json"
	"fmt"
	"slices"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"seamwright/calc"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
	"seamwright/planner"
)

func loaded(b testing.TB, src []byte) *planner.Document {
	d, err := planner.Parse("village", src)
	require.NoError(b, err)
	return d
}

// timed runs steps and keeps the processor time that each took, on all cores together: on a machine that does other work
// besides, the time that passes says little.
type timed struct{ took []time.Duration }

func (t *timed) run(step func()) {
	began := worked()
	step()
	t.took = append(t.took, worked()-began)
}

// worked is the processor time of this process so far.
func worked() time.Duration {
	var u syscall.Rusage
	if syscall.Getrusage(syscall.RUSAGE_SELF, &u) != nil {
		return 0
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

func (t *timed) report(b *testing.B) {
	slices.Sort(t.took)
	for name, share := range map[string]int{"least-ms": 0, "p50-ms": 50, "p99-ms": 99} {
		at := min(len(t.took)*share/100, len(t.took)-1)
		b.ReportMetric(float64(t.took[at].Microseconds())/1000, name)
	}
}

// efforts are the ways to answer a job.
var efforts = []struct {
	name   string
	effort func(context.Context, *job.Job, *calc.Memo) (*plan.Plan, error)
}{{"prompt", calc.Prompt}, {"full", calc.Plan}}

// sizes of the growth table, in walls.
var sizes = []int{10, 30, 75, 150, 300, 600}

func BenchmarkCold(b *testing.B) {
	for _, e := range efforts {
		for _, walls := range sizes {
			b.Run(fmt.Sprintf("%s/%d", e.name, walls), func(b *testing.B) {
				j := loaded(b, village(walls/5)).Job()
				b.ReportAllocs()
				var t timed
				var p *plan.Plan
				for b.Loop() {
					t.run(func() {
						var err error
						p, err = e.effort(context.Background(), j, nil)
						require.NoError(b, err)
					})
				}
				t.report(b)
				b.ReportMetric(float64(p.Summary.SheetsBought), "sheets")
				b.ReportMetric(p.Cost.Total.Float(), "cost")
			})
		}
	}
}

// moved drags the second corner of a room out in steps of 5/64 in, so that no two edits of a run give one room.
func moved(d *planner.Document, room, i int) error {
	r := d.Job().Rooms[room]
	at := shape.Point{X: r.Corners[0].X + length.Inches(190) + length.Sixtyfourths(int64(i*5%3072)), Y: r.Corners[0].Y}
	return d.Apply(planner.MoveCorner{Room: r.ID, Corner: 2, To: at})
}

// BenchmarkEdit is one corner moved in the middle of the building, the plan of the one before in the memo.
func BenchmarkEdit(b *testing.B) {
	for _, e := range efforts {
		for _, walls := range append([]int{5}, sizes...) {
			b.Run(fmt.Sprintf("%s/%d", e.name, walls), func(b *testing.B) {
				d := loaded(b, village(walls/5))
				memo := calc.NewMemo()
				_, err := e.effort(context.Background(), d.Job(), memo)
				require.NoError(b, err)
				b.ReportAllocs()
				var t timed
				for i := 0; b.Loop(); i++ {
					b.StopTimer()
					require.NoError(b, moved(d, walls/10, i))
					j := d.Job()
					b.StartTimer()
					t.run(func() {
						_, err := e.effort(context.Background(), j, memo)
						require.NoError(b, err)
					})
				}
				t.report(b)
			})
		}
	}
}

// BenchmarkDocumentEdit is the change of the text alone, with its fresh reading.
func BenchmarkDocumentEdit(b *testing.B) {
	for _, walls := range append([]int{5}, sizes...) {
		b.Run(fmt.Sprint(walls), func(b *testing.B) {
			d := loaded(b, village(walls/5))
			b.ReportAllocs()
			for i := 0; b.Loop(); i++ {
				require.NoError(b, moved(d, walls/10, i))
				d.Job()
			}
		})
	}
}

// BenchmarkHandToWindow is what the user waits for: one step of a drag in the text, its fresh reading, the prompt plan
// in the background, and its delivery.
func BenchmarkHandToWindow(b *testing.B) {
	for _, walls := range []int{5, 600} {
		b.Run(fmt.Sprint(walls), func(b *testing.B) {
			d, memo := loaded(b, village(walls/5)), calc.NewMemo()
			var shown planner.Result
			engine := planner.NewEngine(func(r planner.Result) { shown = r })
			prompt := func(ctx context.Context, j *job.Job) (*plan.Plan, error) { return calc.Prompt(ctx, j, memo) }
			engine.Ask(d.Job(), prompt)
			engine.Wait()
			var t timed
			for i := 0; b.Loop(); i++ {
				t.run(func() {
					require.NoError(b, moved(d, walls/10, i))
					engine.Ask(d.Job(), prompt)
					engine.Wait()
				})
				require.NoError(b, shown.Err)
			}
			t.report(b)
		})
	}
}

func BenchmarkJSON(b *testing.B) {
	j := loaded(b, village(120)).Job()
	p, err := calc.Plan(context.Background(), j, nil)
	require.NoError(b, err)
	b.ReportAllocs()
	for b.Loop() {
		_, err := json.Marshal(p)
		require.NoError(b, err)
	}
}
