package parallel

import (
	"sync/atomic"
	"testing"
	"time"
)

func TestEachIndexOnce(t *testing.T) {
	for _, n := range []int{0, 1, 2, 1000} {
		for _, workers := range []int{0, 1, 3, 2000} {
			done := make([]atomic.Int32, n)
			Each(n, workers, func(i int) { done[i].Add(1) })
			for i := range done {
				if got := done[i].Load(); got != 1 {
					t.Errorf("%d of %d was done %d times by %d workers", i, n, got, workers)
				}
			}
		}
	}
}

func TestNoMoreAtOnceThanWorkers(t *testing.T) {
	const workers = 3
	var now, most atomic.Int32
	Each(20, workers, func(int) {
		at := now.Add(1)
		for seen := most.Load(); at > seen && !most.CompareAndSwap(seen, at); seen = most.Load() {
		}
		time.Sleep(time.Millisecond)
		now.Add(-1)
	})
	if got := most.Load(); got > workers || got < 2 {
		t.Errorf("%d at once, want 2 to %d", got, workers)
	}
}

func TestAPanicReachesTheCaller(t *testing.T) {
	defer func() {
		if thrown := recover(); thrown != "the seventh" {
			t.Errorf("recovered %v", thrown)
		}
	}()
	Each(10, 2, func(i int) {
		if i == 7 {
			panic("the seventh")
		}
	})
	t.Error("it returned")
}
