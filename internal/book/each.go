package book

import (
	"runtime"
	"sync"
	"sync/atomic"
)

// inParallel calls work for each number below n, on as many cores as there
// are. Each call may touch only what belongs to its own number.
func inParallel(n int, work func(i int)) {
	workers := min(runtime.GOMAXPROCS(0), n)
	if workers <= 1 {
		for i := range n {
			work(i)
		}
		return
	}
	var next atomic.Int64
	var all sync.WaitGroup
	for range workers {
		all.Go(func() {
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				work(i)
			}
		})
	}
	all.Wait()
}
