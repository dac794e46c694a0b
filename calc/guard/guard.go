// Package guard is the one way to start work on other goroutines. A panic on a goroutine that nobody guards ends the
// whole program, and with it whatever the user has not saved; here it comes back as a Fault, to whoever asked for the
// work. What the runtime itself gives up on, as a map written to from two sides or no memory, no package can catch.
package guard

import (
	"fmt"
	"runtime"
	"runtime/debug"
	"sync"
	"sync/atomic"
)

// Fault is a panic that was caught: a mistake of the program, not of what it was given.
type Fault struct {
	Value any
	Stack []byte // of the goroutine that it happened on, where it happened
}

func (f *Fault) Error() string { return fmt.Sprintf("a fault of the program: %v", f.Value) }

// Unwrap is the error that was panicked with, where it was one.
func (f *Fault) Unwrap() error {
	err, _ := f.Value.(error)
	return err
}

// Caught makes a fault of what recover gave. One that was raised again stays as it was first caught.
func Caught(value any) *Fault {
	if f, ok := value.(*Fault); ok {
		return f
	}
	return &Fault{Value: value, Stack: debug.Stack()}
}

// Catch hands a panic over; it is to be deferred.
func Catch(failed func(*Fault)) {
	if value := recover(); value != nil {
		failed(Caught(value))
	}
}

// Do does work here; a panic in it is its error.
func Do(work func() error) (err error) {
	defer Catch(func(f *Fault) { err = f })
	return work()
}

// Go starts work on a goroutine of its own; failed is told of a panic in it, on that goroutine.
func Go(work func(), failed func(*Fault)) {
	go func() {
		defer Catch(failed)
		work()
	}()
}

// Each does n pieces of work on all cores, begun in order, and returns when all are done. Where each keeps to what is its
// own the result is the same on one core. A piece may wait for one before it. A panic in one is raised
// here once all are still; what had not begun is left.
func Each(n int, work func(i int)) {
	hands := min(n, runtime.GOMAXPROCS(0))
	if hands < 2 {
		for i := range n {
			work(i)
		}
		return
	}
	var next atomic.Int64
	var fault atomic.Pointer[Fault]
	var all sync.WaitGroup
	for range hands {
		all.Go(func() {
			defer Catch(func(f *Fault) { fault.CompareAndSwap(nil, f) })
			for fault.Load() == nil { // what has been taken is done: others may wait for it
				i := int(next.Add(1)) - 1
				if i >= n {
					return
				}
				work(i)
			}
		})
	}
	all.Wait()
	if f := fault.Load(); f != nil {
		panic(f)
	}
}
