package planner

import (
	"context"
	"errors"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/shape"
)

func square(l length.Length) []shape.Point { return shape.Rect{W: l, H: l}.Polygon() }

// TestEngineLatestWins: a job that is overtaken is cancelled, and only the last one is delivered.
func TestEngineLatestWins(t *testing.T) {
	var mu sync.Mutex
	var got []Result
	started := make(chan struct{}, 100)
	e := NewEngine(func(ctx context.Context, j *job.Job) (*plan.Plan, error) {
		started <- struct{}{}
		if j.Name == "slow" {
			<-ctx.Done()
			return nil, ctx.Err()
		}
		return &plan.Plan{Name: j.Name}, nil
	}, func(r Result) {
		mu.Lock()
		defer mu.Unlock()
		got = append(got, r)
	})
	e.Ask(&job.Job{Name: "slow"})
	<-started
	require.True(t, e.Busy())
	begin := time.Now()
	for range 1000 {
		e.Ask(&job.Job{Name: "slow"})
	}
	last := e.Ask(&job.Job{Name: "last"})
	require.Less(t, time.Since(begin), 5*time.Second, "asking must not wait")
	e.Wait()
	require.Len(t, got, 1)
	require.Equal(t, last, got[0].Generation)
	require.Equal(t, "last", got[0].Plan.Name)
	require.False(t, e.Busy())
}

func TestEngineSurvivesFaults(t *testing.T) {
	var got []Result
	e := NewEngine(func(ctx context.Context, j *job.Job) (*plan.Plan, error) {
		if j.Name == "panic" {
			panic("broken")
		}
		return nil, errors.New("cannot be planned")
	}, func(r Result) { got = append(got, r) })
	e.Ask(&job.Job{Name: "panic"})
	e.Wait()
	e.Ask(&job.Job{})
	e.Wait()
	require.Len(t, got, 2)
	require.ErrorContains(t, got[0].Err, "the calculation failed: broken")
	require.EqualError(t, got[1].Err, "cannot be planned")
}

func TestEngineClose(t *testing.T) {
	started := make(chan struct{})
	e := NewEngine(func(ctx context.Context, j *job.Job) (*plan.Plan, error) {
		close(started)
		<-ctx.Done()
		return nil, ctx.Err()
	}, func(Result) { t.Error("delivered after closing") })
	e.Ask(&job.Job{})
	<-started
	e.Close()
	e.Ask(&job.Job{})
	e.Wait()
}
