package publish

import (
	"runtime"
	"sync"
)

// each calls do for all tasks, on as many processors as there are, and for all
// further tasks that do returns. After the first error, which it returns, it
// leaves the rest undone.
func each[T any](tasks []T, do func(T) (more []T, err error)) error {
	q := queue[T]{tasks: tasks}
	q.changed.L = &q.mu
	var wait sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		wait.Go(func() {
			for task, ok := q.take(); ok; task, ok = q.take() {
				q.done(do(task))
			}
		})
	}
	wait.Wait()
	return q.failed
}

// A queue hands out tasks until there are none left and none can follow.
type queue[T any] struct {
	mu      sync.Mutex
	changed sync.Cond
	tasks   []T
	busy    int // tasks taken and not done
	failed  error
}

func (q *queue[T]) take() (task T, ok bool) {
	q.mu.Lock()
	defer q.mu.Unlock()
	for len(q.tasks) == 0 && q.busy > 0 && q.failed == nil {
		q.changed.Wait()
	}
	if len(q.tasks) == 0 || q.failed != nil {
		return task, false
	}
	last := len(q.tasks) - 1
	task, q.tasks = q.tasks[last], q.tasks[:last]
	q.busy++
	return task, true
}

func (q *queue[T]) done(more []T, err error) {
	q.mu.Lock()
	defer q.mu.Unlock()
	q.busy--
	q.tasks = append(q.tasks, more...)
	if q.failed == nil {
		q.failed = err
	}
	q.changed.Broadcast()
}
