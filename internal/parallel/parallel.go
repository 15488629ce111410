// Package parallel is the loop of this house that runs on several processors at once.
package parallel

import (
	"errors"
	"fmt"
	"runtime"
	"sync/atomic"

	"golang.org/x/sync/errgroup"
)

// Each does a thing for every index below n, by as many goroutines as workers; for 0 or
// fewer as there are processors. Indices are handed out one by one in rising order: a
// goroutine for each of ten thousand short things would cost as much as the things do.
//
// Where do panics, Each panics with the same once all have stopped, so that its caller
// may recover as if it had done the thing itself.
func Each(n, workers int, do func(i int)) {
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	var next atomic.Int64
	var group errgroup.Group
	for range min(workers, n) {
		group.Go(func() (err error) {
			defer func() {
				if thrown := recover(); thrown != nil {
					err = thrownError{thrown}
				}
			}()
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				do(i)
			}
			return nil
		})
	}
	var fault thrownError
	if errors.As(group.Wait(), &fault) {
		panic(fault.value)
	}
}

// thrownError carries what a goroutine panicked with to whoever waits for it.
type thrownError struct{ value any }

func (e thrownError) Error() string { return fmt.Sprint(e.value) }
