package board

import (
	"runtime"
	"sync"
	"sync/atomic"
)

// together does n pieces of work on all cores, begun in order. Each keeps to what is its own, so that the answer is the
// same on one core.
func together(n int, work func(int)) {
	hands := min(n, runtime.GOMAXPROCS(0))
	if hands < 2 {
		for i := range n {
			work(i)
		}
		return
	}
	var next atomic.Int64
	var all sync.WaitGroup
	for range hands {
		all.Go(func() {
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				work(i)
			}
		})
	}
	all.Wait()
}
