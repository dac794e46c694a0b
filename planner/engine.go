package planner

import (
	"context"
	"sync"

	"seamwright/calc/guard"
	"seamwright/calc/job"
	"seamwright/calc/plan"
)

// Calculate answers a job, until its context is cancelled.
type Calculate func(context.Context, *job.Job) (*plan.Plan, error)

// Result is one finished calculation.
type Result struct {
	Generation uint64 // counts the jobs that were asked
	Job        *job.Job
	Plan       *plan.Plan // nil where Err is not
	Err        error
	Last       bool // no better answer of this generation follows
}

// Engine calculates in the background. The newest job wins: a calculation that a newer one overtakes is cancelled
// and its result is dropped. Asking never waits. A job may be answered several times, each answer better than the one
// before, so that a first one stands at once.
type Engine struct {
	deliver func(Result)

	mu         sync.Mutex
	generation uint64
	waiting    *job.Job    // asked, not yet begun
	efforts    []Calculate // by which it is to be answered
	cancel     context.CancelFunc
	running    bool
	closed     bool
	idle       *sync.Cond
}

// NewEngine makes an engine. Deliver is called on the engine's own goroutine, in the order of generations, and
// never for a generation that has been overtaken before it finished.
func NewEngine(deliver func(Result)) *Engine {
	e := &Engine{deliver: deliver}
	e.idle = sync.NewCond(&e.mu)
	return e
}

// Ask has a job answered by one effort after another, and returns its generation at once. The calculation under way is
// cancelled. Where an effort fails the next is tried; the fault of the last is delivered.
func (e *Engine) Ask(j *job.Job, efforts ...Calculate) uint64 {
	e.mu.Lock()
	defer e.mu.Unlock()
	if e.closed {
		return e.generation
	}
	e.generation++
	e.waiting, e.efforts = j, efforts
	if e.cancel != nil {
		e.cancel()
	}
	if !e.running {
		e.running = true
		guard.Go(e.work, e.stopped)
	}
	return e.generation
}

// Drop gives up what was asked: it is cancelled and never delivered. What is asked afterwards is calculated.
func (e *Engine) Drop() {
	e.mu.Lock()
	defer e.mu.Unlock()
	e.generation++
	e.waiting = nil
	if e.cancel != nil {
		e.cancel()
	}
}

// Busy says whether a calculation is under way or waiting.
func (e *Engine) Busy() bool {
	e.mu.Lock()
	defer e.mu.Unlock()
	return e.running
}

// Wait returns when nothing is being calculated. Not for the goroutine that draws the window.
func (e *Engine) Wait() {
	e.mu.Lock()
	defer e.mu.Unlock()
	for e.running {
		e.idle.Wait()
	}
}

// Close cancels what is under way; nothing is delivered afterwards.
func (e *Engine) Close() {
	e.mu.Lock()
	defer e.mu.Unlock()
	e.closed = true
	e.waiting = nil
	if e.cancel != nil {
		e.cancel()
	}
}

// work calculates until no job is waiting.
func (e *Engine) work() {
	for {
		e.mu.Lock()
		j, efforts, generation := e.waiting, e.efforts, e.generation
		e.waiting = nil
		if j == nil {
			e.running = false
			e.idle.Broadcast()
			e.mu.Unlock()
			return
		}
		ctx, cancel := context.WithCancel(context.Background())
		e.cancel = cancel
		e.mu.Unlock()

		for i, effort := range efforts {
			p, err := run(ctx, effort, j)
			last := i == len(efforts)-1
			if !e.current(generation) {
				break
			}
			if err == nil || last {
				e.deliver(Result{Generation: generation, Job: j, Plan: p, Err: err, Last: last})
			}
		}

		e.mu.Lock()
		e.cancel = nil
		e.mu.Unlock()
		cancel()
	}
}

// current tells whether nothing newer has been asked.
func (e *Engine) current(generation uint64) bool {
	e.mu.Lock()
	defer e.mu.Unlock()
	return !e.closed && e.generation == generation
}

// run keeps a fault of the calculation from ending the program with the user's work unsaved: it is the answer's error.
func run(ctx context.Context, effort Calculate, j *job.Job) (p *plan.Plan, err error) {
	err = guard.Do(func() (err error) {
		p, err = effort(ctx, j)
		return err
	})
	if err != nil {
		return nil, err
	}
	return p, nil
}

// stopped follows a fault of whoever takes the results: the next job that is asked starts work anew.
func (e *Engine) stopped(*guard.Fault) {
	e.mu.Lock()
	defer e.mu.Unlock()
	e.running, e.cancel = false, nil
	e.idle.Broadcast()
}
