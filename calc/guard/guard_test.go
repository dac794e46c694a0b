package guard_test

import (
	"errors"
	"io"
	"runtime"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc/guard"
)

// stumble is where the stack of a fault must lead.
func stumble(value any) { panic(value) }

func TestAPanicComesBackAsAnError(t *testing.T) {
	require.NoError(t, guard.Do(func() error { return nil }))
	require.Equal(t, io.EOF, guard.Do(func() error { return io.EOF }), "an error stays what it is")

	err := guard.Do(func() error { stumble(io.ErrShortWrite); return nil })
	var fault *guard.Fault
	require.ErrorAs(t, err, &fault)
	require.ErrorIs(t, err, io.ErrShortWrite)
	require.Contains(t, string(fault.Stack), "guard_test.stumble")
	require.Equal(t, "a fault of the program: short write", err.Error())
}

func TestWorkElsewhereTellsOfItsPanic(t *testing.T) {
	told := make(chan *guard.Fault)
	guard.Go(func() { stumble("here") }, func(f *guard.Fault) { told <- f })
	f := <-told
	require.Equal(t, "here", f.Value)
	require.Contains(t, string(f.Stack), "guard_test.stumble")
}

func TestEachPieceIsDoneOnce(t *testing.T) {
	for _, n := range []int{0, 1, 2, 1000} {
		done := make([]int32, n)
		guard.Each(n, func(i int) { atomic.AddInt32(&done[i], 1) })
		for i := range done {
			require.EqualValues(t, 1, done[i], "piece %d of %d", i, n)
		}
	}
}

// A panic on another goroutine reaches whoever asked, with the stack of the piece that it happened in, on one core and on
// several, and only when no piece is being worked at any more.
func TestAPanicInOnePieceIsRaisedWhereItWasAskedFor(t *testing.T) {
	for _, cores := range []int{1, 4} {
		before := runtime.GOMAXPROCS(cores)
		var busy atomic.Int32
		err := guard.Do(func() error {
			guard.Each(100, func(i int) {
				busy.Add(1)
				defer busy.Add(-1)
				if i == 7 {
					stumble(errors.New("seven"))
				}
				runtime.Gosched()
			})
			return nil
		})
		runtime.GOMAXPROCS(before)
		var fault *guard.Fault
		require.ErrorAs(t, err, &fault, "%d cores", cores)
		require.EqualError(t, fault.Unwrap(), "seven")
		require.Contains(t, string(fault.Stack), "guard_test.stumble")
		require.Zero(t, busy.Load())
	}
}

// A piece that waits for the one before it is not left waiting when another fails: whoever fails says that it is done.
func TestAFaultLeavesNobodyWaiting(t *testing.T) {
	before := runtime.GOMAXPROCS(4)
	defer runtime.GOMAXPROCS(before)
	for range 2000 {
		done := make([]chan struct{}, 8)
		for i := range done {
			done[i] = make(chan struct{})
		}
		require.Error(t, guard.Do(func() error {
			guard.Each(len(done), func(i int) {
				defer close(done[i])
				if i == 1 {
					stumble(i)
				}
				if i > 0 {
					<-done[i-1]
				}
			})
			return nil
		}))
	}
}
