// Package parallel does jobs on all processors.
package parallel

import (
	"runtime"
	"sync"
	"sync/atomic"
)

// Do does n jobs, begun in their order. After an error none is begun any more; the
// error of the first job that failed is given.
func Do(n int, job func(i int) error) error {
	return Workers(n, func(next func() (int, bool)) error {
		for i, ok := next(); ok; i, ok = next() {
			if err := job(i); err != nil {
				return err
			}
		}
		return nil
	})
}

// Workers runs one worker on each processor, though not more than there are jobs.
// Each asks for the number of its next job until there is none. After an error
// there is none for anybody; the error of the job of the lowest number is given.
func Workers(n int, worker func(next func() (i int, ok bool)) error) error {
	var begun atomic.Int64
	var failed atomic.Bool
	var mu sync.Mutex
	var first error
	at := n
	work := func() {
		last := 0
		err := worker(func() (int, bool) {
			if failed.Load() {
				return 0, false
			}
			last = int(begun.Add(1)) - 1
			return last, last < n
		})
		if err == nil {
			return
		}
		failed.Store(true)
		mu.Lock()
		defer mu.Unlock()
		if last < at {
			at, first = last, err
		}
	}
	var others sync.WaitGroup
	for range min(n, runtime.GOMAXPROCS(0)) - 1 {
		others.Go(work)
	}
	if n > 0 {
		work()
	}
	others.Wait()
	return first
}
