package publish

import (
	"context"
	"runtime"

	"golang.org/x/sync/errgroup"
)

// each calls do for all tasks, on as many processors as there are, and for all
// further tasks that do returns. After the first error, which it returns, it
// leaves the rest undone.
func each[T any](tasks []T, do func(T) (more []T, err error)) error {
	group, stopped := errgroup.WithContext(context.Background())
	group.SetLimit(runtime.GOMAXPROCS(0))
	var all func([]T) error
	all = func(tasks []T) error {
		for _, task := range tasks {
			one := func() error {
				more, err := do(task)
				if err != nil {
					return err
				}
				return all(more)
			}
			if stopped.Err() != nil {
				return nil
			}
			if group.TryGo(one) {
				continue
			}
			if err := one(); err != nil { // all others are busy
				return err
			}
		}
		return nil
	}
	group.Go(func() error { return all(tasks) })
	return group.Wait()
}
