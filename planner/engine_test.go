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
	calculate := func(ctx context.Context, j *job.Job) (*plan.Plan, error) {
		started <- struct{}{}
		if j.Name == "slow" {
			<-ctx.Done()
			return nil, ctx.Err()
		}
		return &plan.Plan{Name: j.Name}, nil
	}
	e := NewEngine(func(r Result) {
		mu.Lock()
		defer mu.Unlock()
		got = append(got, r)
	})
	e.Ask(&job.Job{Name: "slow"}, calculate)
	<-started
	require.True(t, e.Busy())
	begin := time.Now()
	for range 1000 {
		e.Ask(&job.Job{Name: "slow"}, calculate)
	}
	last := e.Ask(&job.Job{Name: "last"}, calculate)
	require.Less(t, time.Since(begin), 5*time.Second, "asking must not wait")
	e.Wait()
	require.Len(t, got, 1)
	require.Equal(t, last, got[0].Generation)
	require.Equal(t, "last", got[0].Plan.Name)
	require.False(t, e.Busy())
}

func TestEngineSurvivesFaults(t *testing.T) {
	var got []Result
	calculate := func(ctx context.Context, j *job.Job) (*plan.Plan, error) {
		if j.Name == "panic" {
			panic("broken")
		}
		return nil, errors.New("cannot be planned")
	}
	e := NewEngine(func(r Result) { got = append(got, r) })
	e.Ask(&job.Job{Name: "panic"}, calculate)
	e.Wait()
	e.Ask(&job.Job{}, calculate)
	e.Wait()
	require.Len(t, got, 2)
	require.ErrorContains(t, got[0].Err, "a fault of the program: broken")
	require.EqualError(t, got[1].Err, "cannot be planned")
}

func TestEngineClose(t *testing.T) {
	started := make(chan struct{})
	calculate := func(ctx context.Context, j *job.Job) (*plan.Plan, error) {
		close(started)
		<-ctx.Done()
		return nil, ctx.Err()
	}
	e := NewEngine(func(Result) { t.Error("delivered after closing") })
	e.Ask(&job.Job{}, calculate)
	<-started
	e.Close()
	e.Ask(&job.Job{}, calculate)
	e.Wait()
}

// named is an effort that answers with its own name.
func named(name string) Calculate {
	return func(context.Context, *job.Job) (*plan.Plan, error) { return &plan.Plan{Name: name}, nil }
}

// failing is an effort that gives no answer.
func failing(why string) Calculate {
	return func(context.Context, *job.Job) (*plan.Plan, error) { return nil, errors.New(why) }
}

// TestEngineDeliversEveryEffort: the first answer, then the better one of the same generation, in order.
func TestEngineDeliversEveryEffort(t *testing.T) {
	var got []Result
	e := NewEngine(func(r Result) { got = append(got, r) })
	j := &job.Job{}
	generation := e.Ask(j, named("first"), named("full"))
	e.Wait()
	want := []Result{
		{Generation: generation, Job: j, Plan: &plan.Plan{Name: "first"}},
		{Generation: generation, Job: j, Plan: &plan.Plan{Name: "full"}, Last: true},
	}
	require.Equal(t, want, got)
}

// TestEngineOvertakenBetweenEfforts: a newer job ends the full effort of the one before, whose first answer stood; of
// the newer one both are delivered.
func TestEngineOvertakenBetweenEfforts(t *testing.T) {
	var names []string
	e := NewEngine(func(r Result) { names = append(names, r.Plan.Name) })
	searching := make(chan struct{})
	endless := func(ctx context.Context, _ *job.Job) (*plan.Plan, error) {
		close(searching)
		<-ctx.Done()
		return &plan.Plan{Name: "too late"}, nil
	}
	e.Ask(&job.Job{}, named("first"), endless)
	<-searching
	e.Ask(&job.Job{}, named("second"), named("full"))
	e.Wait()
	require.Equal(t, []string{"first", "second", "full"}, names)
}

// TestEngineDropsBetweenEfforts: what is given up while its full effort is under way is not delivered any more.
func TestEngineDropsBetweenEfforts(t *testing.T) {
	var names []string
	searching := make(chan struct{})
	e := NewEngine(func(r Result) { names = append(names, r.Plan.Name) })
	e.Ask(&job.Job{}, named("first"), func(ctx context.Context, _ *job.Job) (*plan.Plan, error) {
		close(searching)
		<-ctx.Done()
		return nil, ctx.Err()
	})
	<-searching
	e.Drop()
	e.Wait()
	require.Equal(t, []string{"first"}, names)
}

// TestEngineFaultOfOneEffort: a first effort that fails is silent, since the next may not; a last one that fails is
// told though a first answer stands.
func TestEngineFaultOfOneEffort(t *testing.T) {
	var got []Result
	e := NewEngine(func(r Result) { got = append(got, r) })
	e.Ask(&job.Job{}, failing("too quick"), named("full"))
	e.Wait()
	e.Ask(&job.Job{}, named("first"), failing("cannot be planned"))
	e.Wait()
	require.Len(t, got, 3)
	require.Equal(t, "full", got[0].Plan.Name)
	require.True(t, got[0].Last)
	require.Equal(t, "first", got[1].Plan.Name)
	require.EqualError(t, got[2].Err, "cannot be planned")
	require.True(t, got[2].Last)
}
